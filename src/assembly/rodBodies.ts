/** Rods as bodies: own frame with the crankpin at the origin and the small end on +y. */
import { measuredOf, rodOf } from '../build/bodyOf.ts';
import type { Assembly, CheekSide } from '../build/document.ts';
import { rodCutsMm } from '../build/rodCuts.ts';
import { rodMotion } from '../core/kinematics/motions.ts';
import { clipLevel } from '../core/outline/clip.ts';
import type { Outline } from '../core/outline/outline.ts';
import { disc } from '../core/outline/path.ts';
import { throwCentreMm } from './cylinders.ts';
import { assumedOf, mm } from './dims.ts';
import type { Body, Cylinder } from './engine.ts';
import { measuredShape } from './measured.ts';
import { remember } from './remember.ts';
import type { RodDims } from './rodOutline.ts';
import { bigEndOutline, rodOutline } from './rodOutline.ts';

interface RodShape {
  readonly whole: Outline;
  readonly bigEnd: Outline;
  readonly smallEnd: Outline;
}

const shapes = remember(
  (d: RodDims): RodShape => ({
    whole: rodOutline(d),
    bigEnd: bigEndOutline(d),
    smallEnd: disc(0, d.lengthMm, d.smallEndRadiusMm),
  }),
);

/** Dimensions of a rod on which a traced outline leaves something to depend: lengths along the shaft, and where its ends stop. */
const BESIDE_OUTLINE = [
  'length',
  'bigEndRadius',
  'bigEndWidth',
  'shoulderHeight',
  'beamThickness',
  'smallEndRadius',
  'smallEndWidth',
  'beamOffset',
];

/** Parts of each traced outline made before, by the heights at which its ends stop. */
const parted = new WeakMap<Outline, Map<string, RodShape>>();

function traced(whole: Outline, d: RodDims): RodShape {
  const heights = rodCutsMm(d);
  const key = `${heights.bigEnd} ${heights.smallEnd}`;
  const known = parted.get(whole) ?? new Map<string, RodShape>();
  parted.set(whole, known);
  // An end that can't be told from the rest (the rules refuse that) takes all of it: the safe side.
  const shape = known.get(key) ?? {
    whole,
    bigEnd: clipLevel(whole, heights.bigEnd, 'below') ?? whole,
    smallEnd: clipLevel(whole, heights.smallEnd, 'above') ?? whole,
  };
  if (known.size >= MOST_PARTED) known.clear();
  known.set(key, shape);
  return shape;
}

/** Heights kept for one outline: a gesture passes through some hundred. */
const MOST_PARTED = 100;

/** Cheek that a rod's chamfered side faces: the outer one where two rods share a pin, the front one otherwise. */
function facingOf(cylinders: readonly Cylinder[], c: Cylinder): CheekSide {
  return c.boreCentreMm > throwCentreMm(cylinders, c.throw) ? 'rear' : 'front';
}

export function layRods(assembly: Assembly, cylinders: readonly Cylinder[]): Body[] {
  return cylinders.map((c) => layRod(assembly, cylinders, c));
}

export function layRod(assembly: Assembly, cylinders: readonly Cylinder[], c: Cylinder): Body {
  const resolved = rodOf(assembly, c.number);
  const { dims, own } = resolved;
  const d: RodDims = {
    lengthMm: mm(dims.length),
    bigEndRadiusMm: mm(dims.bigEndRadius),
    boltSpreadMm: mm(dims.boltSpread),
    boltBossRadiusMm: mm(dims.boltBossRadius),
    shoulderHeightMm: mm(dims.shoulderHeight),
    boltLengthMm: mm(dims.boltLength),
    beamWidthMm: mm(dims.beamWidth),
    smallEndRadiusMm: mm(dims.smallEndRadius),
  };
  const points = measuredOf(resolved);
  const measured = points && measuredShape(points, 'rod outline');
  const formula = measured === undefined ? shapes(d) : null;
  const made = measured === undefined ? formula!.made : traced(measured.outline, d);
  const key = measured === undefined ? formula!.key : `${measured.key} ${JSON.stringify(rodCutsMm(d))}`;
  const deviationMm = measured?.deviationMm ?? 0;
  // The small end runs in the middle of the bore; an offset rod carries its big end toward the cheek it faces.
  const facing = own?.facing ?? facingOf(cylinders, c);
  const offset = dims.beamOffset ? mm(dims.beamOffset) : 0;
  const shift = own?.axialShift ? mm(own.axialShift) : 0;
  const beamZ = c.boreCentreMm + shift;
  const bigZ = beamZ + (facing === 'front' ? -offset : offset);
  const bigHalf = mm(dims.bigEndWidth) / 2;
  const beamHalf = mm(dims.beamThickness) / 2;
  const smallHalf = mm(dims.smallEndWidth) / 2;
  const assumed = [
    ...(measured === undefined
      ? assumedOf('rod', dims)
      : [...measured.assumed, ...assumedOf('rod', dims, BESIDE_OUTLINE)]),
    ...assumedOf('crank', assembly.crank, ['stroke']),
  ];
  return {
    name: `rod ${c.number}`,
    kind: 'rod',
    cylinder: c.number,
    throw: c.throw,
    motion: rodMotion(c.slider, c.bankAngleRad, c.alphaAtZeroRad),
    layers: [
      { part: 'big end', outline: made.bigEnd, z0Mm: bigZ - bigHalf, z1Mm: bigZ + bigHalf, deviationMm },
      { part: 'beam', outline: made.whole, z0Mm: beamZ - beamHalf, z1Mm: beamZ + beamHalf, deviationMm },
      { part: 'small end', outline: made.smallEnd, z0Mm: beamZ - smallHalf, z1Mm: beamZ + smallHalf, deviationMm },
    ],
    round: [],
    drawn: [
      // Rods are not hatched in a lengthwise section.
      { style: 'cut', outline: made.whole },
    ],
    z0Mm: Math.min(bigZ - bigHalf, beamZ - smallHalf),
    z1Mm: Math.max(bigZ + bigHalf, beamZ + smallHalf),
    assumed,
    shapeKey: `rod ${key} ${bigHalf} ${beamHalf} ${smallHalf} ${bigZ - c.boreCentreMm} ${shift}`,
    baseMm: c.boreCentreMm,
    move: { kind: 'rod', cylinder: c },
    ...(measured === undefined
      ? {
          mirror: {
            shapeKey: `rod ${key} ${bigHalf} ${beamHalf} ${smallHalf} ${-(bigZ - c.boreCentreMm)} ${-shift}`,
            baseMm: -c.boreCentreMm,
          },
        }
      : {}),
  };
}
