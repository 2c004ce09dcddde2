/** An outline as the data of a path of Scalable Vector Graphics 1.1: lines and true arcs, y running down. */
import { type Outline, pieceStart } from '../core/outline/outline.ts';
import { divided } from './vertices.ts';

/** `x` and `y` place a coordinate on the sheet and write it; without them millimetres as they stand, y negated. */
export function svgPath(
  outline: Outline,
  x: (mm: number) => string = svgMm,
  y: (mm: number) => string = (up) => svgMm(-up),
): string {
  const { pieces } = divided(outline);
  const at = (k: number): string => {
    const [px, py] = pieceStart(pieces[k % pieces.length]!);
    return `${x(px)} ${y(py)}`;
  };
  // Divided arcs are less than half a circle; y running down turns counterclockwise into decreasing angles.
  const steps = pieces.map((p, k) =>
    p.kind === 'line' ? `L${at(k + 1)}` : `A${svgMm(p.r)} ${svgMm(p.r)} 0 0 ${p.sweepRad > 0 ? 0 : 1} ${at(k + 1)}`,
  );
  return `M${at(0)} ${steps.join(' ')} Z`;
}

/** Millimetres to 0.1 micrometre, no minus before zero. */
export function svgMm(value: number): string {
  const digits = value.toFixed(4).replace(/\.?0+$/, '');
  return digits === '-0' ? '0' : digits;
}
