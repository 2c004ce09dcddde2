/**
 * Follows a known minimum as the build changes a little: a few evaluations, no certificate. What is shown while a
 * control is being dragged.
 */
import type { GapAt, Mover } from './gapAt.ts';
import { gapAt, newGapAt } from './gapAt.ts';

const here: GapAt = newGapAt();

/** First stride: minima move by less than half a degree between two frames of a drag. */
const STRIDE_RAD = 0.008;
/** Strides end below this: worth under a hundredth of a millimetre at any engine's speeds. */
const LAST_STRIDE_RAD = 2e-4;
/** A slope below this is level, mm a radian: a stride along it is worth less than a micrometre. */
const LEVEL_MM = 0.05;
/** Strides downhill at most, each twice the last. */
const MOST_STRIDES = 6;

/** Places looked at between two strides, slopes of either sign, at most; of a depth, whose deepest point may change, some more. */
const CLOSER_LOOKS = 2;
const CLOSER_LOOKS_IN = 6;

/** Smallest signed gap near `fromRad`; sets `at.rad` to where. `contactIsEnough`: an overlap counts as 0, its depth is not asked. */
export function followMinimum(
  a: Mover,
  b: Mover,
  fromRad: number,
  contactIsEnough: boolean,
  at: { rad: number },
): number {
  at.rad = fromRad;
  let best = look(a, b, fromRad, contactIsEnough, false);
  if (here.overlapping && contactIsEnough) return best;
  if (Math.abs(here.slopeMm) < LEVEL_MM) return best;
  // Downhill in growing strides until the slope turns, then once or twice to where the line through the slopes is level.
  let x0 = fromRad;
  let s0 = here.slopeMm;
  const way = s0 > 0 ? -1 : 1;
  let stride = STRIDE_RAD;
  for (let k = 0; k < MOST_STRIDES; k++, stride *= 2) {
    const x1 = x0 + way * stride;
    const g1 = look(a, b, x1, contactIsEnough);
    if (g1 < best) {
      best = g1;
      at.rad = x1;
    }
    if (here.overlapping && contactIsEnough) return best;
    const s1 = here.slopeMm;
    if (s1 * way < 0 && g1 <= best) {
      x0 = x1;
      s0 = s1;
      continue;
    }
    let low = x0;
    let lowSlope = s0;
    let high = x1;
    let highSlope = s1;
    const most = here.overlapping ? CLOSER_LOOKS_IN : CLOSER_LOOKS;
    for (let n = 0; n < most && highSlope * way > 0 && Math.abs(high - low) > LAST_STRIDE_RAD; n++) {
      const x = n % 3 === 2 ? (low + high) / 2 : low + ((high - low) * lowSlope) / (lowSlope - highSlope);
      const g = look(a, b, x, contactIsEnough);
      if (g < best) {
        best = g;
        at.rad = x;
      }
      if (here.overlapping && contactIsEnough) return best;
      if (Math.abs(here.slopeMm) < LEVEL_MM) return best;
      if (here.slopeMm * way < 0) {
        low = x;
        lowSlope = here.slopeMm;
      } else {
        high = x;
        highSlope = here.slopeMm;
      }
    }
    return best;
  }
  return best;
}

function look(a: Mover, b: Mover, rad: number, contactIsEnough: boolean, again = true): number {
  return gapAt(a, b, rad, Number.POSITIVE_INFINITY, false, here, !contactIsEnough, again && here.overlapping).gapMm;
}
