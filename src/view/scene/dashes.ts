/** Line types of drawing: a polyline cut into dashes. Lengths in pixels, so that dashes keep their size at any zoom. */

/** Long dash, gap, dot, gap: centre lines. */
export const CENTRE_LINE_PX = [16, 3, 2, 3] as const;
/** Hidden edges, and the outline of another assembly. */
export const HIDDEN_PX = [5, 3] as const;

/** Cuts [x0, y0, x1, y1, …] into strokes [x0, y0, x1, y1] of the pattern (drawn, left out, drawn, …). */
export function dashStrokes(points: readonly number[], closed: boolean, pattern: readonly number[]): number[] {
  const strokes: number[] = [];
  const count = points.length / 2;
  let index = 0;
  let left = pattern[0]!;
  for (let k = 0; k < (closed ? count : count - 1); k++) {
    const x0 = points[2 * k]!;
    const y0 = points[2 * k + 1]!;
    const next = (k + 1) % count;
    const dx = points[2 * next]! - x0;
    const dy = points[2 * next + 1]! - y0;
    const length = Math.hypot(dx, dy);
    let done = 0;
    while (done < length) {
      const run = Math.min(left, length - done);
      if (index % 2 === 0) {
        const p = done / length;
        const q = (done + run) / length;
        strokes.push(x0 + p * dx, y0 + p * dy, x0 + q * dx, y0 + q * dy);
      }
      done += run;
      left -= run;
      if (left <= 1e-9) {
        index = (index + 1) % pattern.length;
        left = pattern[index]!;
      }
    }
  }
  return strokes;
}
