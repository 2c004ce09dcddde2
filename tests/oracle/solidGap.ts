/**
 * The gap of two solids at a crank angle, and its smallest over a period, by trying: every section, every edge, many
 * angles. Every value found belongs to real points, so it is never below the true gap. Imports nothing of the program.
 */
import type { EvenPiece, RoundPiece, Solid } from './engine.ts';
import type { At } from './poses.ts';
import type { Region } from './region.ts';
import { depth, distance, moved } from './region.ts';

/** Axial ranges that share less than this only touch, mm. */
const TOUCH_MM = 1e-6;

export interface Found {
  /** Distance; in contact minus the depth when it was asked for, else 0; the cap when nothing is nearer. */
  readonly gapMm: number;
  readonly contact: boolean;
}

export interface Looking {
  /** Distances from here on are not told apart. */
  readonly capMm: number;
  /** Sections taken closer about the best. */
  readonly fine: boolean;
  /** In contact: how deep, by points this far apart; 0 when it is not asked. */
  readonly depthStepMm: number;
}

type Skip = (partA: string, partB: string) => boolean;

/** The small end runs between the bosses of its own piston with a fit of its own. */
export function joinedParts(a: Solid, b: Solid): Skip {
  const own = a.kind === 'rod' && b.kind === 'piston' && a.cylinder === b.cylinder;
  return (partA, partB) => own && partA === 'small end' && partB === 'pin boss';
}

/** Place of one frame seen from another. */
function seenFrom(a: At, b: At): At {
  const [dx, dy] = [a.x - b.x, a.y - b.y];
  const [c, s] = [Math.cos(b.turn), Math.sin(b.turn)];
  return { x: c * dx - s * dy, y: s * dx + c * dy, turn: a.turn - b.turn };
}

const sections = new WeakMap<RoundPiece, Map<number, Region | null>>();

function sectionAt(piece: RoundPiece, z: number): Region | null {
  const known = sections.get(piece) ?? new Map<number, Region | null>();
  sections.set(piece, known);
  let found = known.get(z);
  if (found === undefined) {
    found = piece.over(z, z);
    if (known.size < 200) known.set(z, found);
  }
  return found;
}

class Search {
  best: number;
  contact = false;
  deepest = 0;
  readonly how: Looking;
  constructor(how: Looking) {
    this.how = how;
    this.best = how.capMm;
  }

  /** Two outlines an axial distance apart. */
  try(a: Region, b: Region, axial: number, overlap: boolean): number {
    const most = axial === 0 ? this.best : this.best <= axial ? -1 : Math.sqrt(this.best ** 2 - axial ** 2);
    if (most < 0 || (most === 0 && !overlap)) return Number.POSITIVE_INFINITY;
    // Once in contact only other contacts matter.
    const d = distance(a, b, Math.max(most, 1e-12));
    const gap = Math.hypot(d.gapMm, axial);
    if (d.contact && overlap) {
      this.contact = true;
      if (this.how.depthStepMm > 0) this.deepest = Math.max(this.deepest, depth(a, b, this.how.depthStepMm));
    }
    // Not nearer: how far it is was not looked for.
    if (gap >= this.best - 1e-13) return Number.POSITIVE_INFINITY;
    this.best = gap;
    return gap;
  }

  result(): Found {
    return { gapMm: this.contact ? -this.deepest : this.best, contact: this.contact };
  }
}

export function gapAtAngle(a: Solid, b: Solid, crankRad: number, how: Looking): Found {
  const search = new Search(how);
  const skip = joinedParts(a, b);
  const [pa, pb] = [a.place(crankRad), b.place(crankRad)];
  const [ab, ba] = [seenFrom(pa, pb), seenFrom(pb, pa)];
  const place = (r: Region, at: At): Region => moved(r, at.x, at.y, at.turn);
  const facesOf = (s: Solid): number[] => [...s.even, ...s.round].flatMap((p) => [p.z0, p.z1]);
  const [facesA, facesB] = [facesOf(a), facesOf(b)];
  const evenA = a.even.map((p) => ({ p, inB: place(p.region, ab) }));
  for (const { p, inB } of evenA) {
    for (const q of b.even) {
      if (skip(p.part, q.part)) continue;
      const shared = Math.min(p.z1, q.z1) - Math.max(p.z0, q.z0);
      search.try(inB, q.region, Math.max(0, -shared), shared > TOUCH_MM);
    }
    for (const q of b.round) if (!skip(p.part, q.part)) throughRound(search, p, inB, q, facesA);
  }
  for (const q of b.even) {
    if (a.round.length === 0) break;
    const inA = place(q.region, ba);
    for (const p of a.round) if (!skip(p.part, q.part)) throughRound(search, q, inA, p, facesB);
  }
  for (const p of a.round) for (const q of b.round) bothRound(search, p, q, (r) => place(r, ab));
  return search.result();
}

function evenly(from: number, to: number, count: number): number[] {
  return Array.from({ length: count + 1 }, (_, k) => from + ((to - from) * k) / count);
}

/** An even piece, in the frame of the round one, against sections of it. */
function throughRound(
  search: Search,
  even: EvenPiece,
  shape: Region,
  round: RoundPiece,
  faces: readonly number[],
): void {
  const { fine, depthStepMm } = search.how;
  const lo = Math.max(even.z0, round.z0);
  const hi = Math.min(even.z1, round.z1);
  const overlap = hi - lo > TOUCH_MM;
  if (overlap) {
    // Depth counts in the material between two faces of the partner (DEVELOPERS.md, "Bodies").
    const stops = [lo, ...[round.centre, ...faces].filter((z) => z > lo && z < hi).sort((p, q) => p - q), hi];
    for (let k = 0; k + 1 < stops.length; k++) {
      for (const z of evenly(stops[k]!, stops[k + 1]!, fine ? 10 : stops.length > 3 ? 2 : 5)) {
        const s = sectionAt(round, z);
        // Depth is that in all of the material within the range, below.
        if (s !== null) tryShallow(search, shape, s, 0, true);
      }
      const all = round.over(stops[k]!, stops[k + 1]!);
      if (search.contact && depthStepMm > 0 && all !== null && distance(shape, all, 1e-9).contact)
        search.deepest = Math.max(search.deepest, depth(shape, all, depthStepMm));
    }
  }
  for (const [near, far] of [
    [Math.min(even.z0, round.z1), round.z0],
    [Math.max(even.z1, round.z0), round.z1],
  ] as const) {
    if (near === far || near > far !== (far === round.z0)) continue;
    const away = Math.min(Math.abs(far - near), search.best);
    const zs = evenly(near, near + Math.sign(far - near) * away, fine ? 16 : 6);
    beside(search, even, shape, round, zs);
  }
}

function tryShallow(search: Search, a: Region, b: Region, axial: number, overlap: boolean): number {
  const how = search.how;
  if (how.depthStepMm === 0) return search.try(a, b, axial, overlap);
  const shallow = new Search({ ...how, depthStepMm: 0, capMm: search.best });
  const gap = shallow.try(a, b, axial, overlap);
  search.best = Math.min(search.best, shallow.best);
  search.contact ||= shallow.contact;
  return gap;
}

/** Sections that stand axially beside an even piece, and closer about the best of them. */
function beside(search: Search, even: EvenPiece, shape: Region, round: RoundPiece, zs: readonly number[]): void {
  const axialTo = (z: number): number => Math.max(0, even.z0 - z, z - even.z1);
  if (!search.how.fine) {
    for (const z of zs) {
      const s = sectionAt(round, z);
      if (s !== null) tryShallow(search, shape, s, axialTo(z), false);
    }
    return;
  }
  const whole = (z: number): number => {
    const s = axialTo(z) < search.how.capMm ? sectionAt(round, z) : null;
    if (s === null) return Number.POSITIVE_INFINITY;
    return Math.hypot(distance(shape, s, search.how.capMm).gapMm, axialTo(z));
  };
  let [best, where] = [Number.POSITIVE_INFINITY, 0];
  for (const [k, z] of zs.entries()) {
    const g = whole(z);
    if (g < best) [best, where] = [g, k];
  }
  search.best = Math.min(search.best, best);
  // A place between two of these is nearer by less than their distance.
  const step = Math.abs((zs[1] ?? 0) - (zs[0] ?? 0));
  if (best > search.best + step) return;
  let [low, high] = [zs[Math.max(0, where - 1)]!, zs[Math.min(zs.length - 1, where + 1)]!];
  for (let k = 0; k < 50 && Math.abs(high - low) > 1e-7; k++) {
    const [p, q] = [low + (high - low) / 3, high - (high - low) / 3];
    const [gp, gq] = [whole(p), whole(q)];
    search.best = Math.min(search.best, gp, gq);
    if (gp < gq) high = q;
    else low = p;
  }
}

/** Sections of two round pieces: side by side at one place of the shaft, and a little apart along it. */
function bothRound(search: Search, p: RoundPiece, q: RoundPiece, place: (r: Region) => Region): void {
  const { fine } = search.how;
  const known = new Map<number, Region | null>();
  const movedAt = (z: number): Region | null => {
    let found = known.get(z);
    if (found === undefined) {
      const s = sectionAt(p, z);
      found = s === null ? null : place(s);
      known.set(z, found);
    }
    return found;
  };
  const at = (zp: number, zq: number): number => {
    const one = movedAt(zp);
    const other = sectionAt(q, zq);
    const inBoth = Math.min(p.z1, q.z1) - Math.max(p.z0, q.z0) > TOUCH_MM;
    if (one === null || other === null) return Number.POSITIVE_INFINITY;
    return search.try(one, other, Math.abs(zp - zq), zp === zq && inBoth);
  };
  let best = Number.POSITIVE_INFINITY;
  let where: [number, number] = [0, 0];
  const look = (zp: number, zq: number): void => {
    if (zp < p.z0 || zp > p.z1 || zq < q.z0 || zq > q.z1) return;
    const g = at(zp, zq);
    if (g < best) [best, where] = [g, [zp, zq]];
  };
  const lo = Math.max(p.z0, q.z0);
  const hi = Math.min(p.z1, q.z1);
  if (hi > lo) for (const z of evenly(lo, hi, fine ? 24 : 8)) look(z, z);
  for (const c of [p.centre, q.centre]) look(c, c);
  const count = fine ? 12 : 5;
  for (const zp of evenly(p.z0, p.z1, count)) {
    for (const zq of evenly(q.z0, q.z1, count)) if (Math.abs(zp - zq) < search.best) look(zp, zq);
  }
  if (!fine || best > search.best + 1e-12 || search.contact) return;
  // Downhill from the best pair of sections: along each and along both.
  for (let step = Math.max(p.z1 - p.z0, q.z1 - q.z0) / count; step > 1e-6; step /= 2) {
    for (let moves = 0; moves < 20; moves++) {
      const before = best;
      const [zp, zq] = where;
      for (const [dp, dq] of [
        [1, 1],
        [-1, -1],
        [1, 0],
        [-1, 0],
        [0, 1],
        [0, -1],
      ] as const)
        look(zp + dp * step, zq + dq * step);
      if (best >= before) break;
    }
  }
}

export interface Lowest {
  readonly gapMm: number;
  readonly contact: boolean;
  readonly crankRad: number;
}

/** The smallest gap over a period as far as trying finds it; nothing above `capMm` is looked for. */
export function lowest(a: Solid, b: Solid, periodRad: number, count: number, capMm: number): Lowest {
  const step = periodRad / count;
  const rough = Array.from({ length: count }, (_, k) =>
    gapAtAngle(a, b, k * step, { capMm, fine: false, depthStepMm: 4 }),
  );
  const dips = rough
    .map((f, k) => ({ gap: f.gapMm, k }))
    .filter(
      ({ gap, k }) =>
        gap < capMm && gap <= rough[(k + count - 1) % count]!.gapMm && gap <= rough[(k + 1) % count]!.gapMm,
    )
    .sort((p, q) => p.gap - q.gap)
    .slice(0, 3);
  let best: Lowest = { gapMm: capMm, contact: false, crankRad: 0 };
  const look = (crankRad: number, fine: boolean): number => {
    const f = gapAtAngle(a, b, crankRad, { capMm, fine, depthStepMm: fine ? 1 : 2 });
    if (f.gapMm < best.gapMm) best = { ...f, crankRad };
    return f.gapMm;
  };
  for (const { k } of dips) {
    let [low, high] = [(k - 1) * step, (k + 1) * step];
    for (let n = 0; n < 40 && high - low > 1e-7; n++) {
      const [p, q] = [low + 0.382 * (high - low), high - 0.382 * (high - low)];
      if (look(p, false) < look(q, false)) high = q;
      else low = p;
    }
    look((low + high) / 2, true);
  }
  return best;
}
