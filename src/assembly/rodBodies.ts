/** Rods as bodies: own frame with the crankpin at the origin and the small end on +y. */
import { rodOf } from '../build/bodyOf.ts';
import type { Assembly, CheekSide } from '../build/document.ts';
import { rodMotion } from '../core/kinematics/motions.ts';
import { disc } from '../core/outline/path.ts';
import { throwCentreMm } from './cylinders.ts';
import { assumedOf, mm } from './dims.ts';
import type { Body, Cylinder } from './engine.ts';
import { remember } from './remember.ts';
import type { RodDims } from './rodOutline.ts';
import { bigEndOutline, rodOutline } from './rodOutline.ts';

const shapes = remember((d: RodDims) => ({
  whole: rodOutline(d),
  bigEnd: bigEndOutline(d),
  smallEnd: disc(0, d.lengthMm, d.smallEndRadiusMm),
}));

/** Cheek that a rod's chamfered side faces: the outer one where two rods share a pin, the front one otherwise. */
function facingOf(cylinders: readonly Cylinder[], c: Cylinder): CheekSide {
  return c.boreCentreMm > throwCentreMm(cylinders, c.throw) ? 'rear' : 'front';
}

export function layRods(assembly: Assembly, cylinders: readonly Cylinder[]): Body[] {
  return cylinders.map((c): Body => {
    const { dims, own } = rodOf(assembly, c.number);
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
    const { key, made } = shapes(d);
    // The small end runs in the middle of the bore; an offset rod carries its big end toward the cheek it faces.
    const facing = own?.facing ?? facingOf(cylinders, c);
    const offset = dims.beamOffset ? mm(dims.beamOffset) : 0;
    const shift = own?.axialShift ? mm(own.axialShift) : 0;
    const beamZ = c.boreCentreMm + shift;
    const bigZ = beamZ + (facing === 'front' ? -offset : offset);
    const bigHalf = mm(dims.bigEndWidth) / 2;
    const beamHalf = mm(dims.beamThickness) / 2;
    const smallHalf = mm(dims.smallEndWidth) / 2;
    const assumed = [...assumedOf('rod', dims), ...assumedOf('crank', assembly.crank, ['stroke'])];
    return {
      name: `rod ${c.number}`,
      kind: 'rod',
      cylinder: c.number,
      throw: c.throw,
      motion: rodMotion(c.slider, c.bankAngleRad, c.alphaAtZeroRad),
      layers: [
        { part: 'big end', outline: made.bigEnd, z0Mm: bigZ - bigHalf, z1Mm: bigZ + bigHalf },
        { part: 'beam', outline: made.whole, z0Mm: beamZ - beamHalf, z1Mm: beamZ + beamHalf },
        { part: 'small end', outline: made.smallEnd, z0Mm: beamZ - smallHalf, z1Mm: beamZ + smallHalf },
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
    };
  });
}
