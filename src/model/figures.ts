/** Figures of an assembly that follow from its dimensions alone. */

import { mm } from '../assembly/dims.ts';
import type { Engine } from '../assembly/engine.ts';
import type { BuildDocument } from '../build/document.ts';
import { strokeTravelledMm } from '../core/kinematics/sliderCrank.ts';
import { displacementCm3 } from '../core/shop/displacement.ts';
import { rodRatio } from '../core/shop/rodRatio.ts';
import { crownAssumed } from './crownAssumed.ts';
import type { Figures, Gap, GapState } from './results.ts';
import { AT_LIMIT_MM } from './solve.ts';

/** For the cylinder in view; displacement for the engine, from the travel of each piston. */
export function figuresOf(doc: BuildDocument, engine: Engine, cylinder: number): Figures {
  const c = engine.cylinders.find((each) => each.number === cylinder);
  const assembly = doc.assemblies.find((a) => a.name === engine.assembly);
  if (c === undefined || assembly === undefined)
    throw new RangeError(`figuresOf: no cylinder ${cylinder} or assembly ${engine.assembly}`);
  const strokeMm = 2 * c.slider.crankRadiusMm;
  return {
    strokeMm,
    travelMm: strokeTravelledMm(c.slider),
    rodLengthMm: c.slider.rodLengthMm,
    rodRatio: rodRatio(c.slider.rodLengthMm, strokeMm),
    displacementCm3: engine.cylinders.reduce(
      (sum, each) => sum + displacementCm3(2 * each.boreRadiusMm, strokeTravelledMm(each.slider), 1),
      0,
    ),
    deckClearanceMm: c.deckClearanceMm,
    compressionHeightMm: mm(assembly.piston.compressionHeight),
  };
}

/**
 * The deck clearance of each cylinder beside the other gaps: the crown at its true TDC against the deck. A crown that
 * stands above the deck by less than the gasket's thickness is below the limit, but meets nothing: `tight`. One that rests
 * on assumed dimensions is judged as any other gap: less `allowanceMm`, and without one (null) it can't clear.
 */
export function deckGaps(doc: BuildDocument, engine: Engine, limitMm: number, allowanceMm: number | null): Gap[] {
  const assembly = doc.assemblies.find((a) => a.name === engine.assembly);
  if (assembly === undefined) throw new RangeError(`deckGaps: no assembly is called "${engine.assembly}"`);
  const deckMm = mm(doc.block.deckHeight);
  const gasketMm = mm(doc.block.gasketThickness);
  const x = engine.mirrored ? -1 : 1;
  return engine.cylinders.map((c): Gap => {
    const gapMm = c.deckClearanceMm;
    const assumed = crownAssumed(doc, assembly, c.number);
    const at = (across: number, up: number): readonly [number, number, number] => [
      x * (up * Math.sin(c.bankAngleRad) + across * Math.cos(c.bankAngleRad)),
      up * Math.cos(c.bankAngleRad) - across * Math.sin(c.bankAngleRad),
      c.boreCentreMm,
    ];
    return {
      id: `piston ${c.number} · deck`,
      kind: 'deck',
      between: [`piston ${c.number}`, 'deck'],
      parts: ['crown', 'deck'],
      gapMm,
      // A sum of dimensions: exact but for rounding of a few hundred millimetres in doubles.
      lowerBoundMm: gapMm - 1e-9,
      certified: true,
      budgetSpent: false,
      evaluations: 0,
      slicingMm: 0,
      atCrankRad: c.tdcRad,
      pointsMm: [at(c.boreOffsetMm, deckMm - gapMm), at(c.boreOffsetMm, deckMm)],
      direction: 'in-plane',
      axialOverlapMm: 2 * c.boreRadiusMm,
      limitMm,
      state: deckState(gapMm, gasketMm, limitMm, assumed.length > 0, allowanceMm),
      assumed,
      cylinder: c.number,
      periodRad: 2 * Math.PI,
      deciding: [
        { source: -1, z0Mm: 0, z1Mm: 0 },
        { source: -1, z0Mm: 0, z1Mm: 0 },
      ],
    };
  });
}

function deckState(
  gapMm: number,
  gasketMm: number,
  limitMm: number,
  assumed: boolean,
  allowanceMm: number | null,
): GapState {
  if (gapMm + gasketMm <= 0) return 'contact';
  const judgedMm = assumed ? gapMm - (allowanceMm ?? 0) : gapMm;
  if (judgedMm < limitMm - AT_LIMIT_MM) return 'tight';
  return assumed && allowanceMm === null ? 'unproven' : 'clears';
}
