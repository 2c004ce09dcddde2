/** Seeded random numbers and outlines for checks; imports nothing of the program. */
import type { Edge, XY } from './plane.ts';

/** Numbers from 0 up to 1, the same for the same seed (mulberry32, public domain). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export function between(random: () => number, low: number, high: number): number {
  return low + (high - low) * random();
}

/** Edge from p to q; bulge as the tangent of a quarter of its included angle, positive = counterclockwise. */
export function bulged(p: XY, q: XY, bulge: number): Edge {
  if (bulge === 0) return { kind: 'line', x0: p[0], y0: p[1], x1: q[0], y1: q[1] };
  const included = 4 * Math.atan(bulge);
  const chord = Math.hypot(q[0] - p[0], q[1] - p[1]);
  const r = chord / 2 / Math.abs(Math.sin(included / 2));
  // The centre stands on the chord's left, seen along it, for a counterclockwise arc under half a turn.
  const left = (Math.sign(bulge) * r * Math.cos(included / 2)) / chord;
  const cx = (p[0] + q[0]) / 2 - left * (q[1] - p[1]);
  const cy = (p[1] + q[1]) / 2 + left * (q[0] - p[0]);
  return { kind: 'arc', cx, cy, r, startRad: Math.atan2(p[1] - cy, p[0] - cx), sweepRad: included };
}

/** A polygon about the origin, seen from there all round, with some of its edges bent in or out. */
export function star(random: () => number, size: number): Edge[] {
  const n = 3 + Math.floor(6 * random());
  const points = Array.from({ length: n }, (_, k): XY => {
    const angle = ((k + 0.3 * random()) / n) * 2 * Math.PI;
    const r = size * between(random, 0.5, 1);
    return [r * Math.cos(angle), r * Math.sin(angle)];
  });
  return points.map((p, k) => {
    const q = points[(k + 1) % n]!;
    const kind = random();
    // Bent inward little enough that the edge does not reach the neighbours' edges nor the origin.
    return bulged(p, q, kind < 0.4 ? 0 : kind < 0.75 ? between(random, 0.05, 0.45) : between(random, -0.12, -0.03));
  });
}

/** A ring cut open: outer arc, end, inner arc hollow toward the centre, end. */
export function hook(random: () => number, size: number): Edge[] {
  const outer = size;
  const inner = size * between(random, 0.6, 0.85);
  const start = between(random, 0, 2 * Math.PI);
  const sweep = between(random, 1.5, 4.5);
  const at = (r: number, a: number): XY => [r * Math.cos(a), r * Math.sin(a)];
  return [
    { kind: 'arc', cx: 0, cy: 0, r: outer, startRad: start, sweepRad: sweep },
    bulged(at(outer, start + sweep), at(inner, start + sweep), 0),
    { kind: 'arc', cx: 0, cy: 0, r: inner, startRad: start + sweep, sweepRad: -sweep },
    bulged(at(inner, start), at(outer, start), 0),
  ];
}

/** A box with round corners, tangent throughout. */
export function roundedBox(random: () => number, size: number): Edge[] {
  const w = size * between(random, 0.3, 0.8);
  const h = size * between(random, 0.3, 0.8);
  const r = Math.min(w, h) * between(random, 0.1, 0.9);
  const corner = (cx: number, cy: number, startRad: number): Edge => ({
    kind: 'arc',
    cx,
    cy,
    r,
    startRad,
    sweepRad: Math.PI / 2,
  });
  const [x, y] = [w - r, h - r];
  return [
    bulged([-x, -h], [x, -h], 0),
    corner(x, -y, -Math.PI / 2),
    bulged([w, -y], [w, y], 0),
    corner(x, y, 0),
    bulged([x, h], [-x, h], 0),
    corner(-x, y, Math.PI / 2),
    bulged([-w, y], [-w, -y], 0),
    corner(-x, -y, Math.PI),
  ];
}

export function disc(cx: number, cy: number, r: number): Edge[] {
  return [{ kind: 'arc', cx, cy, r, startRad: 0, sweepRad: 2 * Math.PI }];
}

export function box(x0: number, y0: number, x1: number, y1: number): Edge[] {
  return [
    bulged([x0, y0], [x1, y0], 0),
    bulged([x1, y0], [x1, y1], 0),
    bulged([x1, y1], [x0, y1], 0),
    bulged([x0, y1], [x0, y0], 0),
  ];
}

/** One of the kinds above, about `size` from its origin at most. */
export function anyOutline(random: () => number, size: number): Edge[] {
  const kind = random();
  if (kind < 0.5) return star(random, size);
  if (kind < 0.7) return hook(random, size);
  if (kind < 0.9) return roundedBox(random, size);
  return disc(0, 0, size * between(random, 0.4, 1));
}
