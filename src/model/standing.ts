/** Where a body stands at a crank angle, as figures that can be said: for the table that tells in words what the section shows. */
import type { Body } from '../assembly/engine.ts';
import { speedRpm } from '../build/literal.ts';
import { newPose, POSE_TURN, POSE_X, POSE_Y } from '../core/plane/pose.ts';
import { motionNow } from './now.ts';
import type { State } from './state.ts';

/**
 * As shown: to the right is `x`, clockwise is positive, also for an engine that turns counterclockwise. Millimetres, radians.
 * `turned`: where a crank's pin side or a lobe's nose points, from straight up, 0 to 2 pi. `rod`: how far the small end leans
 * clockwise of straight above the big end, and the big end from the crank axis. `speedMPerS` positive outward.
 */
export type Standing =
  | { readonly kind: 'fixed' }
  | { readonly kind: 'turned'; readonly pointsRad: number }
  | { readonly kind: 'rod'; readonly leanRad: number; readonly bigEndMm: readonly [number, number] }
  | { readonly kind: 'piston'; readonly belowTdcMm: number; readonly speedMPerS: number }
  | { readonly kind: 'valve'; readonly liftMm: number };

const TURN = 2 * Math.PI;
const pose = newPose();

export function standing(
  { engine, doc, crankAngleRad }: Pick<State, 'engine' | 'doc' | 'crankAngleRad'>,
  body: Body,
): Standing {
  const side = engine.mirrored ? -1 : 1;
  body.motion.write(crankAngleRad, pose);
  const turn = side * pose[POSE_TURN]!;
  switch (body.kind) {
    case 'counterweight':
    case 'journal':
    case 'lobe':
      return { kind: 'turned', pointsRad: ((turn % TURN) + TURN) % TURN };
    case 'rod':
      return {
        kind: 'rod',
        leanRad: Math.atan2(Math.sin(turn), Math.cos(turn)),
        bigEndMm: [side * pose[POSE_X]!, pose[POSE_Y]!],
      };
    case 'piston': {
      if (body.cylinder === undefined) return { kind: 'fixed' };
      const { belowTdcMm, speedMPerS } = motionNow(engine, body.cylinder, crankAngleRad, speedRpm(doc.speed.value));
      return { kind: 'piston', belowTdcMm, speedMPerS };
    }
    case 'valve':
      if (body.move.kind !== 'valve') return { kind: 'fixed' };
      return { kind: 'valve', liftMm: Math.hypot(pose[POSE_X]! - body.move.xMm, pose[POSE_Y]! - body.move.yMm) };
    default:
      return { kind: 'fixed' };
  }
}
