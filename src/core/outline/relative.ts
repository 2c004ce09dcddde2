/**
 * Body A seen from body B: the pose of A in B's own frame and how it changes with crank angle, and A's pieces carried
 * into that frame. Filled in place; nothing is allocated per crank angle.
 *
 * With d = turnA - turnB, a point a of A stands at  p = T + (cos d ax + sin d ay, -sin d ax + cos d ay)  in B's frame,
 * and moves there at  v = T' + d' ((p - T)y, -(p - T)x).
 */
import type { Pose } from '../plane/pose.ts';
import { POSE_DTURN, POSE_DX, POSE_DY, POSE_TURN, POSE_X, POSE_Y } from '../plane/pose.ts';
import type { FlatOutline } from './flat.ts';
import {
  BR,
  BX,
  BY,
  CENTRE_REACH,
  CORNER_REACH,
  CX,
  CY,
  E1X,
  E1Y,
  E2X,
  E2Y,
  LEN,
  LINE,
  NX,
  NY,
  R,
  STRIDE,
  TX,
  TY,
  X0,
  X1,
  Y0,
  Y1,
} from './flat.ts';

export interface Relative {
  cos: number;
  sin: number;
  tx: number;
  ty: number;
  dtx: number;
  dty: number;
  dturn: number;
}

export function newRelative(): Relative {
  return { cos: 1, sin: 0, tx: 0, ty: 0, dtx: 0, dty: 0, dturn: 0 };
}

/** A turn, its cosine, its sine. */
const TURN_B = new Float64Array([0, 1, 0]);

/** Sets `rel` to the pose of A in B's frame, and returns it. */
export function setRelative(rel: Relative, a: Pose, b: Pose): Relative {
  const turn = a[POSE_TURN]! - b[POSE_TURN]!;
  rel.cos = Math.cos(turn);
  rel.sin = Math.sin(turn);
  // Most bodies looked from stand still or do not turn: their last cosine serves again.
  if (b[POSE_TURN] !== TURN_B[0]) {
    TURN_B[0] = b[POSE_TURN]!;
    TURN_B[1] = Math.cos(b[POSE_TURN]!);
    TURN_B[2] = Math.sin(b[POSE_TURN]!);
  }
  const c = TURN_B[1]!;
  const s = TURN_B[2]!;
  const dx = a[POSE_X]! - b[POSE_X]!;
  const dy = a[POSE_Y]! - b[POSE_Y]!;
  rel.tx = c * dx - s * dy;
  rel.ty = s * dx + c * dy;
  const vx = a[POSE_DX]! - b[POSE_DX]!;
  const vy = a[POSE_DY]! - b[POSE_DY]!;
  rel.dtx = c * vx - s * vy - b[POSE_DTURN]! * rel.ty;
  rel.dty = s * vx + c * vy + b[POSE_DTURN]! * rel.tx;
  rel.dturn = a[POSE_DTURN]! - b[POSE_DTURN]!;
  return rel;
}

/** Carries the piece packed at `o`: its ends, its direction or sector, and what of it no turn changes. */
export function carryPiece(f: FlatOutline, o: number, rel: Relative, out: Float64Array): void {
  const at = f.at;
  const { cos: c, sin: s, tx, ty } = rel;
  out[o + X0] = tx + c * at[o + X0]! + s * at[o + Y0]!;
  out[o + Y0] = ty - s * at[o + X0]! + c * at[o + Y0]!;
  out[o + X1] = tx + c * at[o + X1]! + s * at[o + Y1]!;
  out[o + Y1] = ty - s * at[o + X1]! + c * at[o + Y1]!;
  out[o + BX] = tx + c * at[o + BX]! + s * at[o + BY]!;
  out[o + BY] = ty - s * at[o + BX]! + c * at[o + BY]!;
  out[o + BR] = at[o + BR]!;
  out[o + CORNER_REACH] = at[o + CORNER_REACH]!;
  if (f.kind[o / STRIDE] === LINE) {
    out[o + NX] = c * at[o + NX]! + s * at[o + NY]!;
    out[o + NY] = -s * at[o + NX]! + c * at[o + NY]!;
    out[o + LEN] = at[o + LEN]!;
    out[o + TX] = c * at[o + TX]! + s * at[o + TY]!;
    out[o + TY] = -s * at[o + TX]! + c * at[o + TY]!;
  } else {
    out[o + CX] = tx + c * at[o + CX]! + s * at[o + CY]!;
    out[o + CY] = ty - s * at[o + CX]! + c * at[o + CY]!;
    out[o + R] = at[o + R]!;
    out[o + E1X] = c * at[o + E1X]! + s * at[o + E1Y]!;
    out[o + E1Y] = -s * at[o + E1X]! + c * at[o + E1Y]!;
    out[o + E2X] = c * at[o + E2X]! + s * at[o + E2Y]!;
    out[o + E2Y] = -s * at[o + E2X]! + c * at[o + E2Y]!;
    out[o + CENTRE_REACH] = at[o + CENTRE_REACH]!;
  }
}
