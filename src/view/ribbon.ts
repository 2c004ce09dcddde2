/**
 * The shape of a gap along the cycle, as a band whose thickness grows as the gap shrinks, split where its state
 * changes. Pure: figures in, SVG path data out.
 */
import type { GapState, Profile } from '../model/results.ts';

export interface RibbonPiece {
  readonly state: GapState;
  readonly path: string;
}

const THIN_PX = 1.5;
/** A gap of this many limits and more is drawn at the least thickness. */
const FAR_IN_LIMITS = 4;
const FAR_WITHOUT_LIMIT_MM = 4;

/** State of a sampled gap; `whenClear` is what the pair is called at or above its limit (clears or unproven). */
export function sampleState(gapMm: number, limitMm: number, whenClear: GapState): GapState {
  if (gapMm <= 0) return 'contact';
  return gapMm < limitMm ? 'tight' : whenClear;
}

/** The profile at a crank angle, by straight interpolation, repeating after its own period. */
export function profileAt(profile: Profile, crankAngleRad: number): number {
  const count = profile.gapMm.length;
  const at = crankAngleRad / profile.stepRad;
  const low = Math.floor(at);
  const part = at - low;
  const index = (k: number) => ((k % count) + count) % count;
  return profile.gapMm[index(low)]! * (1 - part) + profile.gapMm[index(low + 1)]! * part;
}

function halfThickness(gapMm: number, limitMm: number, fullPx: number): number {
  const far = limitMm > 0 ? limitMm * FAR_IN_LIMITS : FAR_WITHOUT_LIMIT_MM;
  const near = 1 - Math.min(Math.max(gapMm / far, 0), 1);
  return (THIN_PX + (fullPx - THIN_PX) * near * near) / 2;
}

/**
 * Band along x from 0 to `widthPx`, which covers the angles from `fromRad` over `spanRad`; centre line at y = 0.
 */
export function ribbonPieces(
  profile: Profile,
  limitMm: number,
  whenClear: GapState,
  fromRad: number,
  spanRad: number,
  widthPx: number,
  fullPx: number,
): readonly RibbonPiece[] {
  const count = Math.max(2, Math.min(Math.round(widthPx / 1.5), Math.ceil(spanRad / profile.stepRad)));
  const pieces: RibbonPiece[] = [];
  let upper: string[] = [];
  let lower: string[] = [];
  let now: GapState | null = null;
  const close = () => {
    if (now !== null && upper.length > 1)
      pieces.push({ state: now, path: `M${upper.join('L')}L${lower.reverse().join('L')}Z` });
    upper = [];
    lower = [];
  };
  const put = (x: number, half: number) => {
    upper.push(`${x.toFixed(1)} ${(-half).toFixed(2)}`);
    lower.push(`${x.toFixed(1)} ${half.toFixed(2)}`);
  };
  let previousGap = 0;
  for (let k = 0; k <= count; k++) {
    const gap = profileAt(profile, fromRad + (spanRad * k) / count);
    const state = sampleState(gap, limitMm, whenClear);
    const x = (widthPx * k) / count;
    const half = halfThickness(gap, limitMm, fullPx);
    if (now !== null && state !== now) {
      // The border lies where the straight line between the samples crosses zero or the limit.
      const level = state === 'contact' || now === 'contact' ? 0 : limitMm;
      const part = gap === previousGap ? 0 : (level - previousGap) / (gap - previousGap);
      const border = (widthPx * (k - 1 + Math.min(Math.max(part, 0), 1))) / count;
      put(border, halfThickness(level, limitMm, fullPx));
      close();
      put(border, halfThickness(level, limitMm, fullPx));
    }
    now = state;
    put(x, half);
    previousGap = gap;
  }
  close();
  return pieces;
}
