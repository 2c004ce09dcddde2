/**
 * The smallest gap of a valve head and its piston's crown over a cycle, with its certificate, and over which angles it is below a value.
 *
 * WHY THE BOUND HOLDS. The head does not turn as the piston sees it; its face's middle c moves with a speed and an acceleration that are
 * bounded (core/kinematics/valveMotion.ts). For a wedge of the crown and a direction n between its two normals, the gap is at least
 * s(n) (headAndCrown.ts), and as n, held fixed, stands still, after a turn h it is at least
 *
 *   s(n) + h n.c' - A h^2 / 2,    A the bound on |c''|.
 *
 * At each stop every wedge has such an n with s(n) at or above the target, and the least of the turns over which all of them stay there is
 * the next step. Where the flat top alone (n = u, below which every wedge lies) keeps the head away for long enough, no wedge is looked at.
 * So the gap is nowhere below the smallest target used: the smallest gap known, less the tolerance. This holds above and
 * below zero alike. A smaller gap met on the way is followed to its minimum, and the target falls with it.
 */
import type { Motion } from '../plane/pose.ts';
import { newPose, POSE_DX, POSE_DY, POSE_X, POSE_Y } from '../plane/pose.ts';
import type { Arc } from './below.ts';
import {
  APART,
  type Crown,
  DIRECTION,
  type Directions,
  ENOUGH,
  FACE_X,
  FACE_Y,
  HEAD,
  type HeadGap,
  headGap,
  keepNearest,
  NX,
  NY,
  nearestLast,
  newDirections,
  separateBest,
  separation,
} from './headAndCrown.ts';

export interface HeadCertificate {
  readonly minimumMm: number;
  /** False where the gap is nowhere below the value of interest, which then stands for the minimum. */
  readonly found: boolean;
  /** Proven: nowhere below this; minus infinity when the work allowed ran out. */
  readonly lowerBoundMm: number;
  readonly atCrankRad: number;
  readonly evaluations: number;
  readonly budgetSpent: boolean;
}

export interface HeadOptions {
  readonly toleranceMm: number;
  readonly budget: number;
  readonly hintRad?: number;
  readonly cutoffMm?: number;
}

const pose = newPose();
const here: HeadGap = { mm: 0, wedge: 0, nx: 0, ny: 0, nz: 0 };

/** Angles first looked at round the cycle: 5 degrees apart over two turns. */
const FIRST_LOOKS = 144;
/** A minimum is closed in on to this, rad: at an engine's accelerations it is worth a millionth of a millimetre. */
const CLOSE_RAD = 1e-5;
/** Or until what is left to fall, by the lesser of the slopes at both ends, is less than this, mm. */
const CLOSE_MM = 1e-6;
/** Rounding of a separation of some hundred millimetres, mm. */
const ROUNDING_MM = 1e-10;

export function headGapAt(crown: Crown, motion: Motion, crankRad: number, directions: Directions, out: HeadGap): void {
  motion.write(crankRad, pose);
  headGap(crown, pose[POSE_X]!, pose[POSE_Y]!, directions, out);
}

/**
 * Smallest gap near an angle, within `reachRad` to either side: downhill until the slope turns, then by turns where the line through the two
 * slopes is level and in the middle. The gap changes as fast as the head goes along the direction away from the wedge it is nearest to.
 */
export function followHead(
  crown: Crown,
  motion: Motion,
  fromRad: number,
  reachRad: number,
  directions: Directions = newDirections(crown),
): { readonly mm: number; readonly atRad: number; readonly looks: number } {
  let looks = 0;
  let best = { mm: Number.POSITIVE_INFINITY, atRad: fromRad };
  const slopeAt = (rad: number): number => {
    looks += 1;
    headGapAt(crown, motion, rad, directions, here);
    if (here.mm < best.mm) best = { mm: here.mm, atRad: rad };
    return here.nx * pose[POSE_DX]! + here.ny * pose[POSE_DY]!;
  };
  let low = fromRad;
  let lowSlope = slopeAt(low);
  const way = lowSlope > 0 ? -1 : 1;
  let high = low;
  let highSlope = lowSlope;
  let gone = 0;
  for (let stride = reachRad / 16; highSlope * way < 0 && gone < reachRad; stride *= 2) {
    [low, lowSlope] = [high, highSlope];
    gone = Math.min(reachRad, gone + stride);
    high = fromRad + way * gone;
    highSlope = slopeAt(high);
  }
  for (let k = 0; highSlope * way > 0; k++) {
    const width = Math.abs(high - low);
    if (width < CLOSE_RAD || Math.min(-lowSlope * way, highSlope * way) * width < CLOSE_MM) break;
    const share = k % 3 === 2 ? 0.5 : Math.min(0.98, Math.max(0.02, lowSlope / (lowSlope - highSlope)));
    const at = low + share * (high - low);
    const slope = slopeAt(at);
    if (slope * way < 0) [low, lowSlope] = [at, slope];
    else [high, highSlope] = [at, slope];
  }
  return { ...best, looks };
}

/**
 * The turn from an angle over which no wedge comes nearer than `targetMm`; 0 or less where one is nearer than that already (the gap itself
 * is then below the target, or within rounding of it).
 */
function safeTurnRad(
  crown: Crown,
  motion: Motion,
  crankRad: number,
  targetMm: number,
  directions: Directions,
  wantedRad: number,
): number {
  motion.write(crankRad, pose);
  const x = pose[POSE_X]!;
  const y = pose[POSE_Y]!;
  const dx = pose[POSE_DX]!;
  const dy = pose[POSE_DY]!;
  HEAD[FACE_X] = x;
  HEAD[FACE_Y] = y;
  const accel = motion.originAccelMm;
  const turn = (mm: number, slope: number): number => {
    const room = mm - ROUNDING_MM - targetMm;
    if (room < 0) return -1;
    // The positive root of room + slope h - A h^2 / 2, in the form that does not cancel.
    const root = Math.sqrt(slope * slope + 2 * accel * room);
    return slope >= 0 ? (slope + root) / accel : (2 * room) / (root - slope);
  };
  const overTop = turn(y + crown.overTopMm, dy);
  if (overTop >= Math.min(wantedRad, OVER_TOP_RAD)) return Math.min(wantedRad, overTop);
  const speed = Math.hypot(dx, dy);
  let least = wantedRad;
  const first = nearestLast(directions);
  for (let n = -1; n < crown.count; n++) {
    const k = n < 0 ? first : n;
    if (n === first) continue;
    separation(k, directions);
    const room = HEAD[APART]! - ROUNDING_MM - targetMm;
    const d = k * DIRECTION;
    const slope = directions[d + NX]! * dx + directions[d + NY]! * dy;
    // Concave in the turn: at or above the target at both ends of it.
    if (room >= 0 && room + (slope - (accel / 2) * least) * least >= 0) continue;
    // Separated by so much it stays away for `least`, whatever the direction.
    HEAD[ENOUGH] = targetMm + 2 * ROUNDING_MM + (speed + (accel * least) / 2) * least;
    separateBest(crown, k, directions);
    const mine = turn(HEAD[APART]!, directions[d + NX]! * dx + directions[d + NY]! * dy);
    if (mine >= least) continue;
    least = mine;
    keepNearest(k, directions);
    if (least < 0) return least;
  }
  return least;
}

/** A step that the flat top alone allows is taken where it is at least so long, rad: the wedges would seldom allow a much longer one. */
const OVER_TOP_RAD = 0.05;

/** Where steps toward a crossing become shorter than this it is there, rad: the gap is then within a hundred-thousandth of a millimetre of it. */
const LEAST_STEP_RAD = 1e-7;
/** No step is longer, rad. */
const LONGEST_STEP_RAD = 1;

/**
 * With `cutoffMm` only a gap below that is of interest: where there is none, that it is nowhere below is all that is proven, which takes
 * much less.
 */
export function certifyHead(crown: Crown, motion: Motion, periodRad: number, options: HeadOptions): HeadCertificate {
  const directions = newDirections(crown);
  let used = 0;
  let best = { mm: Number.POSITIVE_INFINITY, atRad: 0 };
  const look = (rad: number, reachRad: number): void => {
    const low = followHead(crown, motion, rad, reachRad, directions);
    used += low.looks;
    if (low.mm < best.mm) best = low;
  };
  const apart = periodRad / FIRST_LOOKS;
  const { cutoffMm = Number.POSITIVE_INFINITY, hintRad } = options;
  if (cutoffMm === Number.POSITIVE_INFINITY) {
    let lowest = { mm: Number.POSITIVE_INFINITY, atRad: 0 };
    for (let k = 0; k < FIRST_LOOKS; k++) {
      motion.write(k * apart, pose);
      // Over the top it is farther away than that already.
      if (pose[POSE_Y]! + crown.overTopMm >= lowest.mm) continue;
      headGap(crown, pose[POSE_X]!, pose[POSE_Y]!, directions, here);
      used += 1;
      if (here.mm < lowest.mm) lowest = { mm: here.mm, atRad: k * apart };
    }
    look(lowest.atRad, apart);
    if (hintRad !== undefined) look(hintRad, apart);
  } else if (hintRad !== undefined) {
    headGapAt(crown, motion, hintRad, directions, here);
    used += 1;
    if (here.mm < cutoffMm) look(hintRad, apart);
  }
  let target = Math.min(cutoffMm, best.mm - options.toleranceMm);
  const start = best.mm < Number.POSITIVE_INFINITY ? best.atRad : (hintRad ?? 0);
  for (let at = start; at < start + periodRad; ) {
    if (used >= options.budget) {
      return { ...told(), lowerBoundMm: Number.NEGATIVE_INFINITY, evaluations: used, budgetSpent: true };
    }
    used += 1;
    const step = safeTurnRad(crown, motion, at, target, directions, LONGEST_STEP_RAD);
    if (step >= LEAST_STEP_RAD) {
      at += step;
      continue;
    }
    // Below the target, or so near to it that the steps would never pass: a lower minimum lies here.
    look(at, apart);
    target = Math.min(target, best.mm - options.toleranceMm);
  }
  return { ...told(), lowerBoundMm: target, evaluations: used, budgetSpent: false };

  function told(): Pick<HeadCertificate, 'minimumMm' | 'found' | 'atCrankRad'> {
    const found = best.mm < cutoffMm;
    return {
      minimumMm: found ? best.mm : cutoffMm,
      found,
      atCrankRad: wrap(best.mm < Number.POSITIVE_INFINITY ? best.atRad : start, periodRad),
    };
  }
}

function wrap(rad: number, period: number): number {
  return ((rad % period) + period) % period;
}

/** Inside an arc the gap is looked at this often: a tenth of a degree. */
const SEEN_RAD = Math.PI / 1800;

/**
 * Crank angles over which the gap is below a threshold. Outside them it is proven not to be; inside it is below wherever it was looked at,
 * every tenth of a degree. `fromRad` should be an angle at which the parts are apart.
 */
export function headBelow(
  crown: Crown,
  motion: Motion,
  periodRad: number,
  thresholdMm: number,
  fromRad: number,
  budget: number,
): { readonly arcs: Arc[]; readonly finished: boolean; readonly evaluations: number } {
  const directions = newDirections(crown);
  let used = 0;
  const isBelow = (rad: number): boolean => {
    used += 1;
    headGapAt(crown, motion, rad, directions, here);
    return here.mm < thresholdMm;
  };
  const arcs: Arc[] = [];
  const end = fromRad + periodRad;
  let at = fromRad;
  let began: number | null = isBelow(at) ? at : null;
  while (at < end) {
    if (used >= budget) return { arcs, finished: false, evaluations: used };
    if (began === null) {
      used += 1;
      const step = safeTurnRad(crown, motion, at, thresholdMm, directions, LONGEST_STEP_RAD);
      if (step >= LEAST_STEP_RAD) at += step;
      else {
        began = at;
        at += SEEN_RAD;
      }
    } else if (isBelow(at)) at += SEEN_RAD;
    else {
      let [inside, outside] = [at - SEEN_RAD, at];
      while (outside - inside > LEAST_STEP_RAD) {
        const middle = (inside + outside) / 2;
        if (isBelow(middle)) inside = middle;
        else outside = middle;
      }
      arcs.push({ fromRad: began, toRad: outside });
      began = null;
      at = outside;
    }
  }
  if (began !== null) arcs.push({ fromRad: began, toRad: end });
  const shifted = arcs.map(({ fromRad: from, toRad }) => {
    const wrapped = wrap(from, periodRad);
    return { fromRad: wrapped, toRad: wrapped + toRad - from };
  });
  return { arcs: shifted, finished: true, evaluations: used };
}
