/**
 * A closed run of points as a closed chain of few lines and arcs, joined at some of the points.
 *
 * From a point the longest edge that holds is taken, and so on round the run. Where one starts matters: a start in the
 * middle of an edge costs a piece. So the walk is repeated from the joints that it found (most of them true corners), and
 * the chain of fewest pieces kept; of several, the one that follows the points most closely.
 */
import { type FitPiece, fitPiece } from './fitPiece.ts';
import type { Outline, Piece } from './outline.ts';

/** Walks tried; each costs time proportional to points times the logarithm of the longest run. */
const MOST_WALKS = 10;
/** Runs up to this many steps are tried one by one; longer ones by doubling, then halving. */
const SHORT_RUN = 8;
/** Doublings that may fail one after the other before a longer run is given up: a fit may fail and hold again farther on. */
const MOST_MISSES = 2;

export interface FitChain {
  readonly outline: Outline;
  /** Index of the point at which each piece begins, in the order of the pieces. */
  readonly joints: readonly number[];
  /** Largest distance, mm, of each piece's points from it. */
  readonly deviationsMm: readonly number[];
  /** Largest height of an arc over the chord between neighbouring points, mm. */
  readonly sagittaMm: number;
}

interface Walk {
  readonly joints: number[];
  readonly fits: FitPiece[];
}

/**
 * Points in mm, at least 3, in either sense, neighbours apart, the last joined to the first. Every point lies within
 * `withinMm` of the piece over its run; with `solidOnLeft` (points counterclockwise round material) nothing of the polygon of
 * the points stands out of the chain by more. The chain may cross itself or run clockwise as the points do.
 */
export function fitChain(
  points: readonly (readonly [number, number])[],
  withinMm: number,
  solidOnLeft = false,
): FitChain {
  const n = points.length;
  // Twice round, so that a run over the end has plain indices.
  const xy = new Float64Array(4 * n);
  for (let k = 0; k < 2 * n; k++) [xy[2 * k], xy[2 * k + 1]] = points[k % n]!;
  let best = walk(xy, n, 0, withinMm, solidOnLeft);
  const tried = new Set([0]);
  const starts = [...best.joints];
  for (let s = 0; s < starts.length && tried.size < MOST_WALKS; s++) {
    const start = starts[s]!;
    if (tried.has(start)) continue;
    tried.add(start);
    const next = walk(xy, n, start, withinMm, solidOnLeft);
    if (better(next, best)) {
      best = next;
      starts.push(...next.joints);
    }
  }
  const fits = best.joints.map((from, k) => {
    const to = best.joints[(k + 1) % best.joints.length]!;
    return fitPiece(xy, from, to > from ? to : to + n, withinMm, true, solidOnLeft) ?? best.fits[k]!;
  });
  return {
    outline: { pieces: fits.map((fit, k) => piece(points, best, k, fit)) },
    joints: best.joints,
    deviationsMm: fits.map((fit) => fit.deviationMm),
    sagittaMm: Math.max(...fits.map((fit) => fit.sagittaMm)),
  };
}

function better(a: Walk, b: Walk): boolean {
  if (a.fits.length !== b.fits.length) return a.fits.length < b.fits.length;
  return largest(a) < largest(b);
}

function largest(w: Walk): number {
  return Math.max(...w.fits.map((fit) => fit.deviationMm));
}

function walk(xy: Float64Array, n: number, start: number, withinMm: number, solid: boolean): Walk {
  const joints: number[] = [];
  const fits: FitPiece[] = [];
  for (let at = start; at < start + n; ) {
    const { to, fit } = longest(xy, at, start + n, withinMm, solid);
    joints.push(at % n);
    fits.push(fit);
    at = to;
  }
  return { joints, fits };
}

/** The farthest point up to `last` that one piece from `from` reaches; a neighbour always is. */
function longest(
  xy: Float64Array,
  from: number,
  last: number,
  withinMm: number,
  solid: boolean,
): { to: number; fit: FitPiece } {
  let to = from + 1;
  let fit = fitPiece(xy, from, to, withinMm)!;
  let fails = 0;
  const tryTo = (t: number): boolean => {
    const next = fitPiece(xy, from, t, withinMm, false, solid);
    if (next === null) return false;
    to = t;
    fit = next;
    return true;
  };
  for (let t = from + 2; t <= Math.min(from + SHORT_RUN, last); t++) tryTo(t);
  for (let length = 2 * SHORT_RUN, misses = 0; misses < MOST_MISSES; length *= 2) {
    const t = Math.min(from + length, last);
    if (t <= to) break;
    if (tryTo(t)) misses = 0;
    else {
      if (misses === 0) fails = t;
      misses++;
    }
    if (t === last) break;
  }
  while (fails - to > 1) {
    const middle = (to + fails) >> 1;
    if (!tryTo(middle)) fails = middle;
  }
  return { to, fit };
}

function piece(points: readonly (readonly [number, number])[], w: Walk, k: number, fit: FitPiece): Piece {
  const [x0, y0] = points[w.joints[k]!]!;
  const [x1, y1] = points[w.joints[(k + 1) % w.joints.length]!]!;
  const g = fit.halfAngleRad;
  if (g === 0) return { kind: 'line', x0, y0, x1, y1 };
  // The centre lies h cot g to the left of the chord's middle.
  const left = 1 / (2 * Math.tan(g));
  const cx = (x0 + x1) / 2 - (y1 - y0) * left;
  const cy = (y0 + y1) / 2 + (x1 - x0) * left;
  return {
    kind: 'arc',
    cx,
    cy,
    r: Math.hypot(x0 - cx, y0 - cy),
    startRad: Math.atan2(y0 - cy, x0 - cx),
    sweepRad: 2 * g,
  };
}
