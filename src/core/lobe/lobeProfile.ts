/**
 * The true surface of a cam lobe: the envelope of its follower as it goes round the lobe, in the lobe's own frame with
 * the nose along +y. Angles psi clockwise from the nose, as in liftLaw.ts, with u(psi) = (sin psi, cos psi) and
 * v(psi) = (cos psi, -sin psi), so that u' = v and v' = -u.
 *
 * Flat face: the face touches the lobe where its line, square to u at distance p = R + h, touches its own envelope,
 * p u + h' v: radially at the lift, across by the derivative of lift. It moves on by (p + h'') v, so p + h'' is the radius
 * of curvature.
 *
 * Roller: its centre runs along p u with p = R + rr + h, and it touches one roller radius inward along the normal n of
 * that path. With sigma = |(p u)'| = sqrt(p^2 + h'^2) and theta' = (p^2 + 2 h'^2 - p h'') / sigma^2 the rate at which the
 * normal turns, n = (p u - h' v) / sigma and the surface moves on by sigma - rr theta'; path curvature is theta' / sigma.
 */
import type { LiftLaw } from './liftLaw.ts';
import { flankPeaks, liftAt } from './liftLaw.ts';

export type Follower = { readonly kind: 'flat' } | { readonly kind: 'roller'; readonly radiusMm: number };

/** A point of the surface and its outward unit normal. */
export interface SurfacePoint {
  readonly x: number;
  readonly y: number;
  readonly nx: number;
  readonly ny: number;
}

/** Where the follower touches when its line stands at psi. */
export function surfaceAt(law: LiftLaw, baseRadiusMm: number, follower: Follower, psiRad: number): SurfacePoint {
  const { h, h1 } = liftAt(law, psiRad);
  const sin = Math.sin(psiRad);
  const cos = Math.cos(psiRad);
  if (follower.kind === 'flat') {
    const p = baseRadiusMm + h;
    return { x: p * sin + h1 * cos, y: p * cos - h1 * sin, nx: sin, ny: cos };
  }
  const p = baseRadiusMm + follower.radiusMm + h;
  const sigma = Math.hypot(p, h1);
  const nx = (p * sin - h1 * cos) / sigma;
  const ny = (p * cos + h1 * sin) / sigma;
  return { x: p * sin - follower.radiusMm * nx, y: p * cos - follower.radiusMm * ny, nx, ny };
}

/** Curvature of the path of the roller's centre, 1/mm, positive where it bulges outward. */
export function pathCurvaturePerMm(law: LiftLaw, baseRadiusMm: number, rollerRadiusMm: number, psiRad: number): number {
  const { h, h1, h2 } = liftAt(law, psiRad);
  const p = baseRadiusMm + rollerRadiusMm + h;
  const sigma = Math.hypot(p, h1);
  return (p * p + 2 * h1 * h1 - p * h2) / (sigma * sigma * sigma);
}

/** Bounds on the opening flank, from the greatest lift L and the greatest sizes of h', h'' and h'''. */
export interface FlankBounds {
  /** Of the second derivative of the surface point by psi, mm/rad^2. */
  readonly pointSecondMm: number;
  /** Of the derivative of the path curvature by psi, for a roller, 1/mm/rad; 0 for a flat face. */
  readonly pathCurvatureSlope: number;
}

/**
 * Flat face: the second derivative is (h' + h''') v - (p + h'') u.
 *
 * Roller: the point's derivative is (sigma - rr theta') t with t' = -theta' n, so its second derivative is
 * (sigma' - rr theta'') t - (sigma - rr theta') theta' n. With N = p^2 + 2 h'^2 - p h'':
 * sigma' = h' (p + h'') / sigma, N' = 2 p h' + 3 h' h'' - p h''', theta'' = N' / sigma^2 - 2 theta' sigma' / sigma,
 * and (theta' / sigma)' = N' / sigma^3 - 3 theta' sigma' / sigma^2; sigma is at least R + rr and the least lift throughout.
 */
export function flankBounds(law: LiftLaw, baseRadiusMm: number, follower: Follower): FlankBounds {
  const { h1, h2, h3, leastMm } = flankPeaks(law);
  if (follower.kind === 'flat') {
    return { pointSecondMm: Math.hypot(h1 + h3, baseRadiusMm + law.liftMm + h2), pathCurvatureSlope: 0 };
  }
  const rr = follower.radiusMm;
  const sigmaLeast = baseRadiusMm + rr + leastMm;
  const p = baseRadiusMm + rr + law.liftMm;
  const sigma = Math.hypot(p, h1);
  // sigma' = h' (p + h'') / sigma and theta' = N / sigma^2 use |h'| <= sigma and p <= sigma where that is smaller.
  const sigma1 = Math.min(h1 / sigmaLeast, 1) * (p + h2);
  const theta1 = 2 + h2 / sigmaLeast;
  const n1 = 2 * p * h1 + 3 * h1 * h2 + p * h3;
  const theta2 = n1 / (sigmaLeast * sigmaLeast) + (2 * theta1 * sigma1) / sigmaLeast;
  return {
    pointSecondMm: Math.hypot(sigma1 + rr * theta2, (sigma + rr * theta1) * theta1),
    pathCurvatureSlope: n1 / sigmaLeast ** 3 + (3 * theta1 * sigma1) / (sigmaLeast * sigmaLeast),
  };
}
