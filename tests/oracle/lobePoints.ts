/** Points of a lobe's surface from how it is sold: where its follower, led round it, touches it. For checks, imports nothing of the program. */
import type { XY } from './plane.ts';

export interface LobeNumbers {
  readonly base: number;
  readonly lift: number;
  /** Crank radians between the two places where the lift is `atLift`. */
  readonly duration: number;
  /** Of that, crank radians before the nose; half where it is left out. */
  readonly opening?: number;
  /** The cam turns clockwise, as the crank does: its opening flank then lies clockwise of the nose. */
  readonly clockwise: boolean;
  readonly atLift: number;
  readonly law: string;
  /** 0: a flat face. */
  readonly roller: number;
}

/** Part of the lift and its slope by the part of the flank climbed. */
function rise(law: string, u: number): readonly [number, number] {
  if (law === 'cycloidal') {
    const turn = 2 * Math.PI * u;
    return [u - Math.sin(turn) / (2 * Math.PI), 1 - Math.cos(turn)];
  }
  return [10 * u ** 3 - 15 * u ** 4 + 6 * u ** 5, 30 * u ** 2 - 60 * u ** 3 + 30 * u ** 4];
}

/** How far two neighbouring points turn about the axis: their chord lies within 0.0001 mm of the surface. */
const COUNT = 3000;

/** Nose on +y, counterclockwise. */
export function lobePoints(n: LobeNumbers): XY[] {
  let [low, high] = [0, 1];
  for (let k = 0; k < 60; k++) {
    const u = (low + high) / 2;
    if (n.lift * rise(n.law, u)[0] < n.atLift) low = u;
    else high = u;
  }
  // From the nose to the place of the stated lift the cam turns half of the crank's angle there.
  const opening = n.opening ?? n.duration / 2;
  const flanks = [opening, n.duration - opening].map((crank) => crank / 2 / (1 - low)) as [number, number];
  return Array.from({ length: COUNT }, (_, k): XY => {
    const psi = Math.PI - (2 * Math.PI * k) / COUNT;
    const flank = flanks[psi > 0 === n.clockwise ? 0 : 1];
    const u = Math.max(0, 1 - Math.abs(psi) / flank);
    const [part, partSlope] = rise(n.law, u);
    const h = n.lift * part;
    const slope = (-Math.sign(psi) * n.lift * partSlope) / flank;
    const [ux, uy] = [Math.sin(psi), Math.cos(psi)];
    const [tx, ty] = [Math.cos(psi), -Math.sin(psi)];
    if (n.roller === 0) return [(n.base + h) * ux + slope * tx, (n.base + h) * uy + slope * ty];
    const p = n.base + n.roller + h;
    const [dx, dy] = [slope * ux + p * tx, slope * uy + p * ty];
    const length = Math.hypot(dx, dy);
    return [p * ux - (n.roller * -dy) / length, p * uy - (n.roller * dx) / length];
  });
}
