/** Where each cylinder stands and how its crankpin runs against its bore (DEVELOPERS.md, "Frames and signs"). */

import { pistonOf, rodOf } from '../build/bodyOf.ts';
import type { Assembly, BuildDocument } from '../build/document.ts';
import { firingTdcDeg } from '../build/firing.ts';
import { borePlace, layoutOfBlock, pinFromBoreDeg } from '../build/layouts.ts';
import { bdcAlphaRad, pinHeightMm, tdcAlphaRad } from '../core/kinematics/sliderCrank.ts';
import { mm } from './dims.ts';
import type { Cylinder } from './engine.ts';

const DEG = Math.PI / 180;
const TURN = 2 * Math.PI;

function wrap(angleRad: number): number {
  return ((angleRad % TURN) + TURN) % TURN;
}

/** One Cylinder for each number of the layout. The build must have passed its rules. */
export function layCylinders(doc: BuildDocument, assembly: Assembly): Cylinder[] {
  const layout = layoutOfBlock(doc.block);
  const firing = firingTdcDeg(layout, doc.block.firingOrder);
  if (firing === null)
    throw new RangeError('layCylinders: firing order and throws disagree; the build rules refuse that');
  const spacing = mm(doc.block.boreSpacing);
  const bankOffset = mm(doc.block.bankOffset);
  const boreOffsetMm = mm(doc.block.boreOffset);
  return layout.cylinders.map((c): Cylinder => {
    const bankDeg = layout.bankAnglesDeg[c.bank - 1]!;
    const piston = pistonOf(assembly, c.number).dims;
    const slider = {
      crankRadiusMm: mm(assembly.crank.stroke) / 2,
      rodLengthMm: mm(rodOf(assembly, c.number).dims.length),
      offsetMm: boreOffsetMm + mm(piston.pinOffset),
    };
    const alphaAtZeroRad = pinFromBoreDeg(layout, c) * DEG;
    const place = borePlace(layout, c);
    const top = tdcAlphaRad(slider);
    return {
      number: c.number,
      bank: c.bank,
      bankAngleRad: bankDeg * DEG,
      throw: c.throw,
      boreCentreMm: place.spacings * spacing + place.bankOffsets * bankOffset,
      boreOffsetMm,
      boreRadiusMm: mm(doc.block.bore) / 2,
      slider,
      alphaAtZeroRad,
      firingPinRad: firing[c.number - 1]! * DEG,
      firingTdcRad: firing[c.number - 1]! * DEG + top,
      tdcRad: wrap(top - alphaAtZeroRad),
      bdcRad: wrap(bdcAlphaRad(slider) - alphaAtZeroRad),
      deckClearanceMm: mm(doc.block.deckHeight) - pinHeightMm(slider, top) - mm(piston.compressionHeight),
    };
  });
}

/** Cylinders that a throw serves, front to rear. */
export function onThrow(cylinders: readonly Cylinder[], throwNumber: number): Cylinder[] {
  return cylinders.filter((c) => c.throw === throwNumber).sort((a, b) => a.boreCentreMm - b.boreCentreMm);
}

/** Axial middle of a throw: its bore centre, or halfway between the two bores that share it. */
export function throwCentreMm(cylinders: readonly Cylinder[], throwNumber: number): number {
  const on = cylinders.filter((c) => c.throw === throwNumber).map((c) => c.boreCentreMm);
  return on.reduce((sum, z) => sum + z, 0) / on.length;
}
