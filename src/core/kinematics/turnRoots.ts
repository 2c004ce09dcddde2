/** Where a smooth function of the crankpin angle, or one of its derivatives, changes sign over a turn: every place, none missed. */

/** A function of period 2 pi by its derivatives, index 0 being the function itself. */
export interface SmoothTurn {
  /** At an angle, as many as are asked for below. */
  readonly at: (alphaRad: number) => readonly number[];
  /** What none of them exceeds in size on the angles within `halfRad` of `middleRad`. */
  readonly bounds: (middleRad: number, halfRad: number) => readonly number[];
}

export interface Root {
  /** Crankpin angle from the bore axis, 0 to 2 pi. */
  readonly alphaRad: number;
  /** From positive to negative with rising angle. */
  readonly falling: boolean;
}

/** Where the search begins: a place from which halving never hits 0 or pi exactly. */
const START_RAD = -0.7;
/**
 * Intervals no wider than this are not divided further. There |f| <= B * width, B bounding the next derivative, so that two
 * extremes hidden in one (those of the acceleration merge at BDC near l / r = 3.79) differ in value by at most B * width^2,
 * about 1e-14 of the crank radius: nothing that could be read off.
 */
const NARROWEST_RAD = 1e-7;
/** A root is good when a step moves it by less than this. */
const ROOT_RAD = 1e-13;
/** Rounding of a derivative, relative to its bound: some tens of roundings of 1.1e-16. */
const ROUNDING = 1e-14;

/**
 * All sign changes of the `order`-th derivative f over one turn, by rising angle; needs the derivatives to `order` + 1 and
 * bounds to `order` + 2.
 *
 * None is missed: an interval of half width h about m is dropped only when |f(m)| exceeds h times the bound of f' on
 * that interval, so that f has no zero there; it is searched by its end signs only when |f'(m)| exceeds h times the
 * bound of f'', so that f is monotonic there and has at most one; any other is halved, down to `NARROWEST_RAD`. Zero
 * counts as positive, so that a root on a common end belongs to exactly one of the two intervals.
 */
export function rootsOverTurn(turn: SmoothTurn, order: number): Root[] {
  const roots: Root[] = [];
  const search = (from: number, to: number, fFrom: number, fTo: number): void => {
    const half = (to - from) / 2;
    const middle = from + half;
    const bound = turn.bounds(middle, half);
    const values = turn.at(middle);
    const fMiddle = values[order]!;
    if (Math.abs(fMiddle) > half * bound[order + 1]! + ROUNDING * bound[order]!) return;
    const slope = Math.abs(values[order + 1]!);
    const monotonic = slope > half * bound[order + 2]! + ROUNDING * bound[order + 1]!;
    if (monotonic || 2 * half <= NARROWEST_RAD) {
      if (fFrom >= 0 !== fTo >= 0) {
        roots.push({ alphaRad: wrap(refine(turn, order, from, to, fFrom)), falling: fFrom >= 0 });
      }
      return;
    }
    search(from, middle, fFrom, fMiddle);
    search(middle, to, fMiddle, fTo);
  };
  const fStart = turn.at(START_RAD)[order]!;
  search(START_RAD, START_RAD + 2 * Math.PI, fStart, fStart);
  return roots.sort((a, b) => a.alphaRad - b.alphaRad);
}

/** Newton steps kept inside a bracket that shrinks; halves it whenever a step would leave it, and always after 60 steps. */
function refine(turn: SmoothTurn, order: number, from: number, to: number, fFrom: number): number {
  let low = from;
  let high = to;
  let x = (low + high) / 2;
  // 60 halvings more take any bracket below the spacing of doubles: the loop ends by its tolerance.
  for (let i = 0; i < 120; i++) {
    const values = turn.at(x);
    const f = values[order]!;
    if (f >= 0 === fFrom >= 0) low = x;
    else high = x;
    const newton = x - f / values[order + 1]!;
    const next = newton > low && newton < high && i < 60 ? newton : (low + high) / 2;
    if (Math.abs(next - x) < ROOT_RAD) return next;
    x = next;
  }
  return x;
}

/** To 0 … 2 pi; a root at TDC that came out a rounding below zero reads 0. */
function wrap(alphaRad: number): number {
  const turned = alphaRad < 0 ? alphaRad + 2 * Math.PI : alphaRad;
  return turned > 2 * Math.PI - ROOT_RAD ? 0 : turned;
}
