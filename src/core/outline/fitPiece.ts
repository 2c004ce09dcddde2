/**
 * The straight or circular edge that follows a run of measured points from its first to its last point.
 *
 * Both ends are measured points, so a line has nothing left to choose and an arc one number. With the chord from -h to
 * +h on the u axis and v to its left, the circles through both ends are a pencil; the arc is named by its half included
 * angle g, -pi < g < pi, positive when it turns counterclockwise (then it lies at v < 0): centre at v = h cot g, radius
 * h / |sin g|. Arcs of growing g sweep the plane once, so the distance of a point falls until the arc passes it and
 * rises afterwards, and so the greatest of several such distances has one valley, which golden sections find.
 */

/** Fewest measured points, ends included, of which an arc is made: three fix one, a fourth must confirm it. */
export const LEAST_ARC_POINTS = 4;
/**
 * Radians; neighbouring points farther apart on an arc than this (20 degrees) are corners, not a round edge. Corners of
 * a regular octagon stand 45 degrees apart, of a hexagon 60; a round edge measured every 15 degrees is still found.
 */
export const LARGEST_ARC_STEP_RAD = Math.PI / 9;
/** mm; an arc flatter than this is left to a line: over a chord of 1 m it bulges by 0.0013 mm. */
const FLATTEST_RADIUS_MM = 1e8;
/** Golden sections of the range of g: 2 pi times .618 to the 50th is 2e-10 rad. */
const SECTIONS = 50;
/** Points of a long run that are tried first. */
const SAMPLE = 48;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

export interface FitPiece {
  /** Half included angle, 0 for a line. */
  readonly halfAngleRad: number;
  /** Largest distance of a measured point of the run from the edge, mm; of a hollow edge of solid material with its height over the points' chords. */
  readonly deviationMm: number;
  /** Largest height of the edge over the chord between neighbouring points, mm: what rests on roundness alone. */
  readonly sagittaMm: number;
}

/** Coordinates in the frame of the chord; fields are set by `enter`. */
interface Chord {
  h: number;
  u: Float64Array;
  v: Float64Array;
  n: number;
}

const chord: Chord = { h: 0, u: new Float64Array(64), v: new Float64Array(64), n: 0 };

/**
 * Whether the points run counterclockwise round material, so that an arc turning clockwise is hollow. Between its points
 * such an arc lies deeper than the straight way from point to point by its height over it; with `solid` that height counts
 * as deviation, so that nothing within the polygon of the points stands out of the edge by more than allowed.
 */
let solid = false;

/**
 * Edge from point `from` to point `to` of `xy` (mm, alternating x and y; from < to) with every point between within
 * `withinMm` of it and in order along it, or null. A line is preferred to an arc. Without `best` an arc that holds will
 * do though another is closer: long runs are tried several times as fast.
 */
export function fitPiece(
  xy: Float64Array,
  from: number,
  to: number,
  withinMm: number,
  best = true,
  solidOnLeft = false,
): FitPiece | null {
  solid = solidOnLeft;
  if (to === from + 1) return { halfAngleRad: 0, deviationMm: 0, sagittaMm: 0 };
  if (!enter(xy, from, to)) return null;
  const straight = judge(0, withinMm);
  if (straight !== null) return straight;
  if (to - from + 1 < LEAST_ARC_POINTS) return null;
  return bend(withinMm, best);
}

/**
 * An arc that misses a sample of the points by more than allowed misses all of them by as much; one that holds for all will do
 * as it is, unless the best of all is asked for.
 */
function bend(withinMm: number, best: boolean): FitPiece | null {
  const every = Math.ceil(chord.n / SAMPLE);
  if (every === 1) return judge(bestHalfAngle(1), withinMm);
  const halfAngleRad = bestHalfAngle(every);
  if (farthest(halfAngleRad, every) > withinMm) return null;
  const sampled = judge(halfAngleRad, withinMm);
  return sampled !== null && !best ? sampled : (judge(bestHalfAngle(1), withinMm) ?? sampled);
}

function enter(xy: Float64Array, from: number, to: number): boolean {
  const n = to - from - 1;
  if (chord.u.length < n) {
    chord.u = new Float64Array(2 * n);
    chord.v = new Float64Array(2 * n);
  }
  const [x0, y0, x1, y1] = [xy[2 * from]!, xy[2 * from + 1]!, xy[2 * to]!, xy[2 * to + 1]!];
  const length = Math.hypot(x1 - x0, y1 - y0);
  if (length === 0) return false;
  const [ex, ey] = [(x1 - x0) / length, (y1 - y0) / length];
  chord.h = length / 2;
  chord.n = n;
  for (let k = 0; k < n; k++) {
    const dx = xy[2 * (from + 1 + k)]! - (x0 + x1) / 2;
    const dy = xy[2 * (from + 1 + k) + 1]! - (y0 + y1) / 2;
    chord.u[k] = dx * ex + dy * ey;
    chord.v[k] = dy * ex - dx * ey;
  }
  return true;
}

function bestHalfAngle(every: number): number {
  const edge = Math.PI * (1 - 1e-6);
  let [low, high] = [-edge, edge];
  let a = high - GOLDEN * (high - low);
  let b = low + GOLDEN * (high - low);
  let [fa, fb] = [farthest(a, every), farthest(b, every)];
  for (let k = 0; k < SECTIONS; k++) {
    if (fa < fb) {
      [high, b, fb] = [b, a, fa];
      a = high - GOLDEN * (high - low);
      fa = farthest(a, every);
    } else {
      [low, a, fa] = [a, b, fb];
      b = low + GOLDEN * (high - low);
      fb = farthest(b, every);
    }
  }
  return (low + high) / 2;
}

/** Largest distance of every so many points of the run from the edge, mm. */
function farthest(halfAngleRad: number, every: number): number {
  setArc(halfAngleRad);
  let most = 0;
  for (let k = 0; k < chord.n; k += every) most = Math.max(most, offArc(chord.u[k]!, chord.v[k]!));
  return most;
}

/** The edge being tried: centre at v = cv, radius, sense; sense 0 is the chord itself. */
let [sense, cv, r] = [0, 0, 0];

function setArc(halfAngleRad: number): void {
  const sine = Math.abs(Math.sin(halfAngleRad));
  const flat = sine * FLATTEST_RADIUS_MM < chord.h && Math.abs(halfAngleRad) < 1;
  sense = flat ? 0 : Math.sign(halfAngleRad);
  r = flat ? Number.POSITIVE_INFINITY : chord.h / sine;
  cv = flat ? 0 : chord.h / Math.tan(halfAngleRad);
}

/** Of the circle the arc is the part on one side of the chord, so the foot of a point tells by its side whether it is on the arc. */
function offArc(u: number, v: number): number {
  const { h } = chord;
  if (sense === 0) return Math.hypot(u - Math.min(h, Math.max(-h, u)), v);
  const out = Math.sqrt(u * u + (v - cv) * (v - cv));
  if (sense * (cv + (r * (v - cv)) / out) <= 0) return Math.abs(out - r);
  return Math.sqrt((Math.abs(u) - h) ** 2 + v * v);
}

/** How far along the edge the foot of a point lies, mm. */
function along(halfAngleRad: number, u: number, v: number): number {
  const { h } = chord;
  if (sense === 0) return Math.min(h, Math.max(-h, u)) + h;
  const sweep = 2 * Math.abs(halfAngleRad);
  // Angle from the arc's start, in the arc's sense.
  let past = (Math.atan2(v - cv, u) - Math.atan2(-cv, -h)) * sense;
  past -= 2 * Math.PI * Math.floor(past / (2 * Math.PI));
  if (past <= sweep) return past * r;
  return u < 0 ? 0 : sweep * r;
}

/** The edge if it holds: every point near enough, in order to within the deviation either way, and no step too wide. */
function judge(halfAngleRad: number, withinMm: number): FitPiece | null {
  setArc(halfAngleRad);
  let [deviationMm, reached, before, longestStep] = [0, 0, 0, 0];
  for (let k = 0; k < chord.n; k++) {
    const [u, v] = [chord.u[k]!, chord.v[k]!];
    const off = offArc(u, v);
    if (!(off <= withinMm)) return null;
    const foot = along(halfAngleRad, u, v);
    if (foot < reached - 2 * withinMm) return null;
    deviationMm = Math.max(deviationMm, off);
    longestStep = Math.max(longestStep, foot - before);
    reached = Math.max(reached, foot);
    before = foot;
  }
  if (sense === 0) return { halfAngleRad: 0, deviationMm, sagittaMm: 0 };
  longestStep = Math.max(longestStep, 2 * Math.abs(halfAngleRad) * r - before);
  const stepRad = longestStep / r;
  if (stepRad > LARGEST_ARC_STEP_RAD) return null;
  const sagittaMm = r * (1 - Math.cos(stepRad / 2));
  if (solid && sense < 0) deviationMm += sagittaMm;
  return deviationMm <= withinMm ? { halfAngleRad, deviationMm, sagittaMm } : null;
}
