/**
 * Area of a closed outline and its static moments about the axes of its own frame, exact for lines and arcs.
 *
 * By Green's theorem, round the outline counterclockwise: area = 1/2 of the integral of (x dy - y dx), moment of x = 1/2 of the
 * integral of x² dy, moment of y = -1/2 of that of y² dx. Millimetres; mm² and mm³.
 */
import type { Outline } from './outline.ts';

export interface Moments {
  readonly areaMm2: number;
  /** Integrals of x and of y over the area. */
  readonly xMm3: number;
  readonly yMm3: number;
}

export function momentsOf(outline: Outline): Moments {
  let [area, x, y] = [0, 0, 0];
  for (const p of outline.pieces) {
    if (p.kind === 'line') {
      area += (p.x0 * p.y1 - p.x1 * p.y0) / 2;
      x += ((p.y1 - p.y0) * (p.x0 * p.x0 + p.x0 * p.x1 + p.x1 * p.x1)) / 6;
      y -= ((p.x1 - p.x0) * (p.y0 * p.y0 + p.y0 * p.y1 + p.y1 * p.y1)) / 6;
      continue;
    }
    const { cx, cy, r } = p;
    const [a, b] = [p.startRad, p.startRad + p.sweepRad];
    const between = (f: (t: number) => number): number => f(b) - f(a);
    const cos = between(Math.sin);
    const sin = between((t) => -Math.cos(t));
    area += (cx * r * cos + cy * r * sin + r * r * p.sweepRad) / 2;
    const cos2 = between((t) => t / 2 + Math.sin(2 * t) / 4);
    const sin2 = between((t) => t / 2 - Math.sin(2 * t) / 4);
    const cos3 = between((t) => Math.sin(t) - Math.sin(t) ** 3 / 3);
    const sin3 = between((t) => -Math.cos(t) + Math.cos(t) ** 3 / 3);
    x += (r * (cx * cx * cos + 2 * cx * r * cos2 + r * r * cos3)) / 2;
    y += (r * (cy * cy * sin + 2 * cy * r * sin2 + r * r * sin3)) / 2;
  }
  return { areaMm2: area, xMm3: x, yMm3: y };
}
