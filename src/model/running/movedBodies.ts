/**
 * Where the parts of a running engine stand: each body moved from its place by clearances taken up, stretch, rock and heat.
 *
 * Inertia takes the sides: a piston whose acceleration is inward pulls rod, pin and crank outward, one whose acceleration is
 * outward pushes them toward the crank. Gas pressure is left out. With d the pull's sign:
 *
 *   main bearing  the crank stands off its axis by half the clearance, along the sum of the pulls on its throw
 *   rod bearing   the rod stands off the crankpin by half the clearance, along itself: d times
 *   stretch       the small end moves along the rod by F l / (A E); a place between the eyes by its share of that
 *   wrist pin     the piston stands off along the bore by half the clearance: d times
 *   rock          the skirt leans on one side, or the piston stands askew from one side to the other, whichever comes nearer
 *   heat          outlines grow about the origin of their body; crank radius, rod length, deck and camshaft axis with them
 *
 * The rod bearing and the stretch lengthen the rod as the pin sees it, so that the piston follows by the slider-crank itself.
 */
import type { Body, Cylinder, Engine } from '../../assembly/engine.ts';
import type { LayeredBody } from '../../core/clearance/cells.ts';
import { pinHeightMm, pinHeightPerRad2Mm, rodAngleRad, type SliderCrank } from '../../core/kinematics/sliderCrank.ts';
import type { Outline, Piece } from '../../core/outline/outline.ts';
import { type Motion, newPose, POSE_TURN, POSE_X, POSE_Y } from '../../core/plane/pose.ts';
import { inertiaLoads } from '../../core/shop/pistonLoads.ts';
import { rodStretchMm } from '../../core/shop/rodStretch.ts';
import type { Moved } from './allowances.ts';

/** How a piston leans in its bore: shifted across it, or turned. */
export interface Lean {
  readonly shiftMm: number;
  readonly turnRad: number;
}

export const UPRIGHT: Lean = { shiftMm: 0, turnRad: 0 };

/**
 * The ways in which a piston may lean that can be worst: a skirt of length L with clearance c may be shifted by x and turned by t
 * while 2 |x| / c + |t| L / c is at most 1; the gap being all but linear in both, one of the corners comes nearest.
 */
export function leans(moved: Moved): readonly Lean[] {
  if (moved.rock === null || moved.rock.clearanceMm === 0) return [UPRIGHT];
  const { clearanceMm, guideMm } = moved.rock;
  const turnRad = Math.atan(clearanceMm / guideMm);
  return [
    { shiftMm: clearanceMm / 2, turnRad: 0 },
    { shiftMm: -clearanceMm / 2, turnRad: 0 },
    { shiftMm: 0, turnRad },
    { shiftMm: 0, turnRad: -turnRad },
  ];
}

/** The pull of a cylinder's reciprocating parts along its bore, by mass and speed: positive outward. */
function pullOf(c: Cylinder, crankAngleRad: number): number {
  return -pinHeightPerRad2Mm(c.slider, crankAngleRad + c.alphaAtZeroRad);
}

/** Where the crank stands off its axis at a throw: engine frame, mm. */
function crankShift(
  engine: Engine,
  moved: Moved,
  throwNumber: number | undefined,
  crankAngleRad: number,
): [number, number] {
  if (moved.mainMm === 0) return [0, 0];
  let x = 0;
  let y = 0;
  for (const c of engine.cylinders) {
    if (c.throw !== throwNumber) continue;
    const pull = pullOf(c, crankAngleRad);
    x += pull * Math.sin(c.bankAngleRad);
    y += pull * Math.cos(c.bankAngleRad);
  }
  const size = Math.hypot(x, y);
  return size === 0 ? [0, 0] : [(x / size) * moved.mainMm, (y / size) * moved.mainMm];
}

/** The slider-crank of a running cylinder at an angle, and what else moves its rod and piston. */
interface RunningSlider {
  readonly slider: SliderCrank;
  readonly alphaRad: number;
  /** Of the crank, along the bore. */
  readonly crankUpMm: number;
  readonly crankShiftMm: readonly [number, number];
  /** Of the rod off its crankpin, along itself; and its stretch. */
  readonly rodOffMm: number;
  readonly stretchMm: number;
  readonly pinOffMm: number;
}

function runningSlider(engine: Engine, moved: Moved, c: Cylinder, crankAngleRad: number): RunningSlider {
  const alphaRad = crankAngleRad + c.alphaAtZeroRad;
  const side = Math.sign(pullOf(c, crankAngleRad));
  const { stretch, growth } = moved;
  const rodLengthMm = c.slider.rodLengthMm * (1 + growth.rod);
  const stretchMm =
    stretch === null
      ? 0
      : rodStretchMm(
          inertiaLoads(c.slider, stretch.reciprocatingKg, alphaRad, stretch.rpm).rodTensionN,
          rodLengthMm,
          stretch.sectionMm2,
          stretch.modulusMPa,
        );
  const shift = crankShift(engine, moved, c.throw, crankAngleRad);
  const [ux, uy] = [Math.sin(c.bankAngleRad), Math.cos(c.bankAngleRad)];
  const rodOffMm = side * moved.rodMm;
  return {
    slider: {
      crankRadiusMm: c.slider.crankRadiusMm * (1 + growth.crank),
      rodLengthMm: rodLengthMm + rodOffMm + stretchMm,
      // A crank that stands to the v side has the pin line so much less beside it.
      offsetMm: c.slider.offsetMm - (shift[0] * uy - shift[1] * ux),
    },
    alphaRad,
    crankUpMm: shift[0] * ux + shift[1] * uy,
    crankShiftMm: shift,
    rodOffMm,
    stretchMm,
    pinOffMm: side * moved.pinMm,
  };
}

/** Height of a running cylinder's pin bore in the piston above the crank axis as it stands still, along the bore. */
export function runningPinHeightMm(engine: Engine, moved: Moved, c: Cylinder, crankAngleRad: number): number {
  const s = runningSlider(engine, moved, c, crankAngleRad);
  return pinHeightMm(s.slider, s.alphaRad) + s.crankUpMm + s.pinOffMm;
}

/**
 * The body as it runs. `lean` is of a piston; `share` of a rod: how far from its big end (0) to its small end (1) the place lies that
 * matters. Its motion has places only: no speeds and no bounds, for looking at single angles.
 */
export function movedBody(engine: Engine, moved: Moved, body: Body, lean: Lean, share: number): LayeredBody {
  const part = GROWS[body.kind];
  const factor = 1 + (part === null ? 0 : moved.growth[part]);
  return {
    motion: placesOnly((crank) => placeOf(engine, moved, body, lean, share, crank)),
    layers: factor === 1 ? body.layers : body.layers.map((l) => ({ ...l, outline: scaled(l.outline, factor) })),
    round:
      factor === 1
        ? body.round
        : body.round.map((r) => ({
            ...r,
            slice: (z0, z1) => {
              const outline = r.slice(z0, z1);
              return outline === null ? null : scaled(outline, factor);
            },
          })),
  };
}

/** What a kind of body grows with; a camshaft's own growth is left out, its axis goes with the block. */
const GROWS: Readonly<Record<Body['kind'], 'crank' | 'rod' | 'piston' | 'block' | null>> = {
  counterweight: 'crank',
  journal: 'crank',
  rod: 'rod',
  piston: 'piston',
  lobe: null,
  'cam core': null,
  valve: null,
  block: 'block',
};

function placesOnly(place: (crankAngleRad: number) => readonly [number, number, number]): Motion {
  return {
    write: (crankAngleRad, out) => {
      out.fill(0);
      const [x, y, turn] = place(crankAngleRad);
      out[POSE_X] = x;
      out[POSE_Y] = y;
      out[POSE_TURN] = turn;
    },
    originSpeedMm: 0,
    originAccelMm: 0,
    turnSpeed: 0,
    turnAccel: 0,
  };
}

const standing = newPose();

/** Origin and turn of a body at a crank angle. A valve's seat goes with the block; how far it is open is left as it is. */
function placeOf(
  engine: Engine,
  moved: Moved,
  body: Body,
  lean: Lean,
  share: number,
  crank: number,
): readonly [number, number, number] {
  const m = body.move;
  if (m.kind === 'fixed') return [0, 0, 0];
  if (m.kind === 'cam') {
    const grown = 1 + moved.growth.block;
    return [m.xMm * grown, m.yMm * grown, m.ratio * crank + m.phaseRad];
  }
  if (m.kind === 'crank') {
    const [x, y] = crankShift(engine, moved, body.throw, crank);
    return [x, y, crank + m.phaseRad];
  }
  if (m.kind === 'valve') {
    body.motion.write(crank, standing);
    const { block } = moved.growth;
    return [standing[POSE_X]! + m.xMm * block, standing[POSE_Y]! + m.yMm * block, m.turnRad];
  }
  const c = m.cylinder;
  const bank = c.bankAngleRad;
  const s = runningSlider(engine, moved, c, crank);
  const [ux, uy] = [Math.sin(bank), Math.cos(bank)];
  if (m.kind === 'piston') {
    const up = pinHeightMm(s.slider, s.alphaRad) + s.crankUpMm + s.pinOffMm;
    const across = c.boreOffsetMm + lean.shiftMm;
    return [up * ux + across * uy, up * uy - across * ux, bank + lean.turnRad];
  }
  const turn = bank - rodAngleRad(s.slider, s.alphaRad);
  const r = s.slider.crankRadiusMm;
  const off = s.rodOffMm + share * s.stretchMm;
  return [
    r * Math.sin(bank + s.alphaRad) + s.crankShiftMm[0] + off * Math.sin(turn),
    r * Math.cos(bank + s.alphaRad) + s.crankShiftMm[1] + off * Math.cos(turn),
    turn,
  ];
}

/** An outline made larger about its origin. */
function scaled(o: Outline, factor: number): Outline {
  return {
    pieces: o.pieces.map(
      (p): Piece =>
        p.kind === 'line'
          ? { kind: 'line', x0: p.x0 * factor, y0: p.y0 * factor, x1: p.x1 * factor, y1: p.y1 * factor }
          : { ...p, cx: p.cx * factor, cy: p.cy * factor, r: p.r * factor },
    ),
  };
}
