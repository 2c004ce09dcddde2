/**
 * The derivatives of pin height and of the tangent of the rod's angle by crankpin angle, to the fifth and the third, and
 * bounds of them over a stretch of angles: what a search for roots needs that may miss none.
 *
 * With q = r sin(alpha) - e and w = sqrt(l^2 - q^2), s = r cos(alpha) + w. The derivatives of w follow from differentiating
 * w^2 = l^2 - q^2:
 *
 *   w w'                              = -(q q')
 *   w w''  + w'^2                     = -(q q'' + q'^2)
 *   w w''' + 3 w' w''                 = -(q q''' + 3 q' q'')
 *   w w4   + 4 w' w''' + 3 w''^2      = -(q q4 + 4 q' q''' + 3 q''^2)
 *   w w5   + 5 w' w4 + 10 w'' w'''    = -(q q5 + 5 q' q4 + 10 q'' q''')   (4, 5: fourth, fifth derivative)
 *
 * those of t = tan(phi) = q / w from differentiating t w = q:
 *
 *   t' w = q' - t w',   t'' w = q'' - 2 t' w' - t w'',   t''' w = q''' - 3 t'' w' - 3 t' w'' - t w'''
 *
 * and the same identities with sizes in place of values bound them on any stretch where |q| <= qMax and w >= wMin.
 */
import type { SliderCrank } from './sliderCrank.ts';

/** s and its derivatives at an angle, index 0 to 5: mm per radian to that power. */
export function heightDerivatives(s: SliderCrank, alphaRad: number): readonly number[] {
  const cos = s.crankRadiusMm * Math.cos(alphaRad);
  const sin = s.crankRadiusMm * Math.sin(alphaRad);
  const [w, w1, w2, w3, w4, w5] = alongDerivatives(s, sin, cos);
  return [cos + w, -sin + w1, -cos + w2, sin + w3, cos + w4, -sin + w5];
}

/** tan(phi) and its derivatives at an angle, index 0 to 3. */
export function tangentDerivatives(s: SliderCrank, alphaRad: number): readonly number[] {
  const cos = s.crankRadiusMm * Math.cos(alphaRad);
  const sin = s.crankRadiusMm * Math.sin(alphaRad);
  const [w, w1, w2, w3] = alongDerivatives(s, sin, cos);
  const t = (sin - s.offsetMm) / w;
  const t1 = (cos - t * w1) / w;
  const t2 = (-sin - 2 * t1 * w1 - t * w2) / w;
  const t3 = (-cos - 3 * t2 * w1 - 3 * t1 * w2 - t * w3) / w;
  return [t, t1, t2, t3];
}

type Six = readonly [number, number, number, number, number, number];

/** w and its derivatives; r sin(alpha) and r cos(alpha) given. */
function alongDerivatives(s: SliderCrank, sin: number, cos: number): Six {
  const l = s.rodLengthMm;
  const q = sin - s.offsetMm;
  const w = Math.sqrt((l - q) * (l + q));
  const w1 = -(q * cos) / w;
  const w2 = -(cos * cos - q * sin + w1 * w1) / w;
  const w3 = -(-q * cos - 3 * cos * sin + 3 * w1 * w2) / w;
  const w4 = -(q * sin - 4 * cos * cos + 3 * sin * sin + 4 * w1 * w3 + 3 * w2 * w2) / w;
  const w5 = -(q * cos + 15 * cos * sin + 5 * w1 * w4 + 10 * w2 * w3) / w;
  return [w, w1, w2, w3, w4, w5];
}

/** No derivative of s, index 0 to 5, is larger in size on the angles within `halfRad` of `middleRad`. */
export function heightBounds(s: SliderCrank, middleRad: number, halfRad: number): readonly number[] {
  const r = s.crankRadiusMm;
  const [, w1, w2, w3, w4, w5] = alongBounds(s, middleRad, halfRad);
  return [s.rodLengthMm + r, r + w1, r + w2, r + w3, r + w4, r + w5];
}

/** The same for tan(phi), index 0 to 3. */
export function tangentBounds(s: SliderCrank, middleRad: number, halfRad: number): readonly number[] {
  const r = s.crankRadiusMm;
  const q = acrossBound(s, middleRad, halfRad);
  const [w, w1, w2, w3] = alongBounds(s, middleRad, halfRad);
  const t = q / w;
  const t1 = (r + t * w1) / w;
  const t2 = (r + 2 * t1 * w1 + t * w2) / w;
  const t3 = (r + 3 * t2 * w1 + 3 * t1 * w2 + t * w3) / w;
  return [t, t1, t2, t3];
}

/** |q| moves at no more than r a radian, and is never beyond r + |e|. */
function acrossBound(s: SliderCrank, middleRad: number, halfRad: number): number {
  const { crankRadiusMm: r, offsetMm: e } = s;
  return Math.min(r + Math.abs(e), Math.abs(r * Math.sin(middleRad) - e) + r * halfRad);
}

/** Least w, and the greatest sizes of its derivatives. */
function alongBounds(s: SliderCrank, middleRad: number, halfRad: number): Six {
  const { crankRadiusMm: r, rodLengthMm: l } = s;
  const q = acrossBound(s, middleRad, halfRad);
  const w = Math.sqrt((l - q) * (l + q));
  const w1 = (q * r) / w;
  const w2 = (r * r + q * r + w1 * w1) / w;
  const w3 = (q * r + 3 * r * r + 3 * w1 * w2) / w;
  const w4 = (q * r + 7 * r * r + 4 * w1 * w3 + 3 * w2 * w2) / w;
  const w5 = (q * r + 15 * r * r + 5 * w1 * w4 + 10 * w2 * w3) / w;
  return [w, w1, w2, w3, w4, w5];
}
