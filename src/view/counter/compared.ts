/** What two assemblies make of one cylinder, side by side: the figures that the tour and its drawing speak of. */
import type { Cylinder, Engine } from '../../assembly/engine.ts';
import type { BuildDocument } from '../../build/document.ts';
import { bdcPinHeightMm, tdcPinHeightMm } from '../../core/kinematics/sliderCrank.ts';
import { figuresOf } from '../../model/figures.ts';
import type { Figures } from '../../model/results.ts';

export interface Side {
  readonly engine: Engine;
  readonly cylinder: Cylinder;
  readonly figures: Figures;
  /** Height of the crown over the crank axis along the bore at true TDC and BDC, mm. */
  readonly crownTopMm: number;
  readonly crownLowMm: number;
  /** Greatest lean of the rod from the bore, either way. */
  readonly leanRad: number;
}

/** Throws RangeError where the engine has no such cylinder. */
export function sideOf(doc: BuildDocument, engine: Engine, number: number): Side {
  const cylinder = engine.cylinders.find((c) => c.number === number);
  if (cylinder === undefined) throw new RangeError(`sideOf: there is no cylinder ${number}`);
  const figures = figuresOf(doc, engine, number);
  const { slider } = cylinder;
  return {
    engine,
    cylinder,
    figures,
    crownTopMm: tdcPinHeightMm(slider) + figures.compressionHeightMm,
    crownLowMm: bdcPinHeightMm(slider) + figures.compressionHeightMm,
    // The pin is farthest aside at sin(alpha) = 1 or -1: q = r + |e|.
    leanRad: Math.asin((slider.crankRadiusMm + Math.abs(slider.offsetMm)) / slider.rodLengthMm),
  };
}
