/** Centre lines of the section: the crank axis, each bore of the throw, the camshaft axis; long dash, dot. */
import type { Graphics } from 'pixi.js';
import type { Cylinder, Engine } from '../../assembly/engine.ts';
import type { Ink } from '../theme.ts';
import { CENTRE_LINE_PX, dashStrokes } from './dashes.ts';
import { THIN_PX } from './lineWeights.ts';

export interface CentreLineContent {
  readonly engine: Engine;
  readonly cylinders: readonly Cylinder[];
  readonly pxPerMm: number;
  readonly ink: Ink;
  /** Length of the crosses' arms, and where the bores end, mm from the crank axis. */
  readonly crossMm: number;
  readonly boreEndMm: number;
}

/** Draws about (0, 0), the crank axis, in px; the caller puts it there. */
export function drawCentreLines(g: Graphics, what: CentreLineContent): void {
  const { engine, cylinders, pxPerMm: s, ink, crossMm, boreEndMm } = what;
  const mirror = engine.mirrored ? -1 : 1;
  g.clear();
  const line = (x0: number, y0: number, x1: number, y1: number) => {
    const dashes = dashStrokes([mirror * x0 * s, -y0 * s, mirror * x1 * s, -y1 * s], false, CENTRE_LINE_PX);
    for (let k = 0; k < dashes.length; k += 4)
      g.moveTo(dashes[k]!, dashes[k + 1]!).lineTo(dashes[k + 2]!, dashes[k + 3]!);
  };
  line(-crossMm, 0, crossMm, 0);
  line(0, -crossMm, 0, crossMm);
  for (const c of cylinders) {
    const sin = Math.sin(c.bankAngleRad);
    const cos = Math.cos(c.bankAngleRad);
    const v = c.boreOffsetMm;
    line(v * cos, -v * sin, v * cos + boreEndMm * sin, -v * sin + boreEndMm * cos);
  }
  if (engine.camAxisMm !== undefined) {
    const { x, y } = engine.camAxisMm;
    const arm = 34;
    line(x - arm, y, x + arm, y);
    line(x, y - arm, x, y + arm);
  }
  g.stroke({ width: THIN_PX, color: ink.ink, alpha: 0.75 });
}
