/**
 * Where a cam surface lies according to the follower alone, found without any derivative: along each ray from the cam
 * axis, material reaches as far as no position of the follower cuts it. Own lift laws; for comparison in tests.
 */

export interface EnvelopeSpec {
  readonly baseRadiusMm: number;
  readonly liftMm: number;
  readonly law: '3-4-5' | 'cycloidal';
  readonly flankRad: number;
  /** The closing flank, where it is unlike the opening one. */
  readonly closingRad?: number;
  /** Any lift by angle, in the place of the law. */
  readonly lift?: (psiRad: number) => number;
  /** Absent: flat face. */
  readonly rollerRadiusMm?: number;
}

export function envelopeLift(spec: EnvelopeSpec, psiRad: number): number {
  if (spec.lift !== undefined) return spec.lift(psiRad);
  const flank = psiRad < 0 ? (spec.closingRad ?? spec.flankRad) : spec.flankRad;
  const u = Math.max(0, 1 - Math.abs(psiRad) / flank);
  const s =
    spec.law === '3-4-5' ? 10 * u ** 3 - 15 * u ** 4 + 6 * u ** 5 : u - Math.sin(2 * Math.PI * u) / (2 * Math.PI);
  return spec.liftMm * s;
}

/** How far along the ray at `rayRad` (clockwise from the nose) a follower standing at `psiRad` lets material reach. */
function reach(spec: EnvelopeSpec, rayRad: number, psiRad: number): number {
  const apart = psiRad - rayRad;
  const cos = Math.cos(apart);
  const base = spec.baseRadiusMm + envelopeLift(spec, psiRad);
  if (spec.rollerRadiusMm === undefined) return cos > 0 ? base / cos : Number.POSITIVE_INFINITY;
  const rr = spec.rollerRadiusMm;
  const centre = base + rr;
  const inside = rr * rr - (centre * Math.sin(apart)) ** 2;
  return cos > 0 && inside >= 0 ? centre * cos - Math.sqrt(inside) : Number.POSITIVE_INFINITY;
}

/** Radius of the surface along a ray: the least reach over all follower positions, scanned and then narrowed by golden sections. */
export function envelopeRadiusMm(spec: EnvelopeSpec, rayRad: number): number {
  const STEPS = 1440;
  const step = (2 * Math.PI) / STEPS;
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < STEPS; k++) {
    const psi = -Math.PI + k * step;
    const r = reach(spec, rayRad, psi);
    if (r < least) {
      least = r;
      best = psi;
    }
  }
  const golden = (Math.sqrt(5) - 1) / 2;
  let low = best - step;
  let high = best + step;
  const at = (psi: number) => reach(spec, rayRad, wrapped(psi));
  for (let i = 0; i < 60; i++) {
    const a = high - golden * (high - low);
    const b = low + golden * (high - low);
    if (at(a) < at(b)) high = b;
    else low = a;
  }
  return Math.min(least, at((low + high) / 2));
}

function wrapped(psiRad: number): number {
  return psiRad - 2 * Math.PI * Math.round(psiRad / (2 * Math.PI));
}
