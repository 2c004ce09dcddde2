/**
 * Regions of the plane bounded by lines and arcs, for checks: how far apart two of them are and how deep they overlap, by
 * trying every edge against every edge. Plain on purpose and independent of the program: imports nothing of it.
 *
 * Every distance returned belongs to two real points, so it is never below the true one.
 */
import type { Edge, XY } from './plane.ts';
import { pointOf } from './plane.ts';

/** An edge with its ends written out, and a disc about it. Arcs at most a quarter turn. */
export interface Side {
  readonly arc: boolean;
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  readonly cx: number;
  readonly cy: number;
  readonly r: number;
  readonly startRad: number;
  readonly sweepRad: number;
  /** Cosine of half the sweep. */
  readonly cosHalf: number;
  readonly mx: number;
  readonly my: number;
  readonly reach: number;
}

export interface Region {
  /** In no order; they close to one loop or several. */
  readonly sides: readonly Side[];
  /** Neighbouring sides in blocks, each with a disc about it. */
  readonly blocks: readonly Block[];
  readonly mx: number;
  readonly my: number;
  readonly reach: number;
}

interface Block {
  readonly sides: readonly Side[];
  readonly mx: number;
  readonly my: number;
  readonly reach: number;
}

const TURN = 2 * Math.PI;

const root = (x: number, y: number): number => Math.sqrt(x * x + y * y);

function line(x0: number, y0: number, x1: number, y1: number): Side {
  const reach = root(x1 - x0, y1 - y0) / 2;
  const [mx, my] = [(x0 + x1) / 2, (y0 + y1) / 2];
  return { arc: false, x0, y0, x1, y1, cx: 0, cy: 0, r: 0, startRad: 0, sweepRad: 0, cosHalf: 0, mx, my, reach };
}

function arc(cx: number, cy: number, r: number, startRad: number, sweepRad: number, ends?: readonly XY[]): Side {
  const at = (a: number): XY => [cx + r * Math.cos(a), cy + r * Math.sin(a)];
  const [x0, y0] = ends?.[0] ?? at(startRad);
  const [x1, y1] = ends?.[1] ?? at(startRad + sweepRad);
  const [mx, my] = at(startRad + sweepRad / 2);
  const reach = 2 * r * Math.sin(Math.min(Math.PI, Math.abs(sweepRad)) / 4) + 1e-9;
  const cosHalf = Math.cos(sweepRad / 2);
  return { arc: true, x0, y0, x1, y1, cx, cy, r, startRad, sweepRad, cosHalf, mx, my, reach };
}

const BLOCK = 8;

export function regionOf(sides: readonly Side[]): Region {
  const about = (of: readonly Side[]): { mx: number; my: number; reach: number } => {
    let [x0, y0, x1, y1] = [1 / 0, 1 / 0, -1 / 0, -1 / 0];
    for (const s of of) {
      x0 = Math.min(x0, s.mx - s.reach);
      y0 = Math.min(y0, s.my - s.reach);
      x1 = Math.max(x1, s.mx + s.reach);
      y1 = Math.max(y1, s.my + s.reach);
    }
    const [mx, my] = [(x0 + x1) / 2, (y0 + y1) / 2];
    return { mx, my, reach: Math.max(0, ...of.map((s) => root(s.mx - mx, s.my - my) + s.reach)) };
  };
  const blocks: Block[] = [];
  for (let k = 0; k < sides.length; k += BLOCK) {
    const some = sides.slice(k, k + BLOCK);
    blocks.push({ sides: some, ...about(some) });
  }
  return { sides, blocks, ...about(sides) };
}

/** One closed outline, counterclockwise or not, as a region. */
export function region(edges: readonly Edge[]): Region {
  const sides: Side[] = [];
  for (const e of edges) {
    if (e.kind === 'line') {
      sides.push(line(e.x0, e.y0, e.x1, e.y1));
      continue;
    }
    const parts = Math.max(1, Math.ceil(Math.abs(e.sweepRad) / (Math.PI / 2) - 1e-12));
    const corners = Array.from({ length: parts + 1 }, (_, k) => pointOf(e, k / parts));
    // A full circle ends exactly where it begins.
    if (Math.abs(Math.abs(e.sweepRad) - TURN) < 1e-12) corners[parts] = corners[0]!;
    for (let k = 0; k < parts; k++) {
      const sweep = e.sweepRad / parts;
      sides.push(arc(e.cx, e.cy, e.r, e.startRad + k * sweep, sweep, [corners[k]!, corners[k + 1]!]));
    }
  }
  // Each side ends exactly where the next begins, whatever the rounding of its own arithmetic.
  const closed = sides.map((s, k): Side => {
    const next = sides[(k + 1) % sides.length]!;
    return { ...s, x1: next.x0, y1: next.y0 };
  });
  return regionOf(closed);
}

/** Turned clockwise about its own origin, then moved. */
export function moved(r: Region, x: number, y: number, clockwiseRad: number): Region {
  const c = Math.cos(clockwiseRad);
  const n = Math.sin(clockwiseRad);
  const side = (s: Side): Side => ({
    arc: s.arc,
    x0: x + c * s.x0 + n * s.y0,
    y0: y - n * s.x0 + c * s.y0,
    x1: x + c * s.x1 + n * s.y1,
    y1: y - n * s.x1 + c * s.y1,
    cx: x + c * s.cx + n * s.cy,
    cy: y - n * s.cx + c * s.cy,
    r: s.r,
    startRad: s.startRad - clockwiseRad,
    sweepRad: s.sweepRad,
    cosHalf: s.cosHalf,
    mx: x + c * s.mx + n * s.my,
    my: y - n * s.mx + c * s.my,
    reach: s.reach,
  });
  const disc = <D extends { mx: number; my: number; reach: number }>(d: D): D => ({
    ...d,
    mx: x + c * d.mx + n * d.my,
    my: y - n * d.mx + c * d.my,
  });
  const blocks = r.blocks.map((b) => ({ ...disc(b), sides: b.sides.map(side) }));
  return { ...disc(r), blocks, sides: blocks.flatMap((b) => b.sides) };
}

/** Whether a direction from an arc's centre, given by a point, lies within it: no farther from its middle than its ends. */
function withinArc(s: Side, x: number, y: number): boolean {
  const [dx, dy] = [x - s.cx, y - s.cy];
  return dx * (s.mx - s.cx) + dy * (s.my - s.cy) >= (s.cosHalf - 1e-15) * s.r * Math.sqrt(dx * dx + dy * dy);
}

let footX = 0;
let footY = 0;

/** Distance of a point to a side; the nearest place is left in footX, footY. */
function toSide(s: Side, x: number, y: number): number {
  if (!s.arc) {
    const [dx, dy] = [s.x1 - s.x0, s.y1 - s.y0];
    const all = dx * dx + dy * dy;
    const f = all === 0 ? 0 : Math.min(1, Math.max(0, ((x - s.x0) * dx + (y - s.y0) * dy) / all));
    footX = s.x0 + f * dx;
    footY = s.y0 + f * dy;
    return root(x - footX, y - footY);
  }
  const away = root(x - s.cx, y - s.cy);
  if (away > 0 && withinArc(s, x, y)) {
    footX = s.cx + ((x - s.cx) * s.r) / away;
    footY = s.cy + ((y - s.cy) * s.r) / away;
    return Math.abs(away - s.r);
  }
  const first = root(x - s.x0, y - s.y0);
  const last = root(x - s.x1, y - s.y1);
  [footX, footY] = first <= last ? [s.x0, s.y0] : [s.x1, s.y1];
  return Math.min(first, last);
}

function onSide(s: Side, f: number): XY {
  if (!s.arc) return [s.x0 + f * (s.x1 - s.x0), s.y0 + f * (s.y1 - s.y0)];
  const a = s.startRad + f * s.sweepRad;
  return [s.cx + s.r * Math.cos(a), s.cy + s.r * Math.sin(a)];
}

function lengthOf(s: Side): number {
  return s.arc ? s.r * Math.abs(s.sweepRad) : root(s.x1 - s.x0, s.y1 - s.y0);
}

/** Where two sides cross, as points; ends that only touch may or may not be among them. */
export function crossings(s: Side, t: Side): XY[] {
  if (!s.arc && !t.arc) {
    const [ax, ay] = [s.x1 - s.x0, s.y1 - s.y0];
    const [bx, by] = [t.x1 - t.x0, t.y1 - t.y0];
    const det = ax * by - ay * bx;
    if (det === 0) return [];
    const f = ((t.x0 - s.x0) * by - (t.y0 - s.y0) * bx) / det;
    const g = ((t.x0 - s.x0) * ay - (t.y0 - s.y0) * ax) / det;
    return f >= 0 && f <= 1 && g >= 0 && g <= 1 ? [[s.x0 + f * ax, s.y0 + f * ay]] : [];
  }
  if (s.arc && !t.arc) return crossings(t, s);
  if (!s.arc) {
    const [dx, dy] = [s.x1 - s.x0, s.y1 - s.y0];
    const all = dx * dx + dy * dy;
    const f0 = ((t.cx - s.x0) * dx + (t.cy - s.y0) * dy) / all;
    const [px, py] = [s.x0 + f0 * dx - t.cx, s.y0 + f0 * dy - t.cy];
    const rest = t.r * t.r - px * px - py * py;
    if (!(rest >= 0)) return [];
    const h = Math.sqrt(rest / all);
    return [f0 - h, f0 + h]
      .filter((f) => f >= 0 && f <= 1)
      .map((f): XY => [s.x0 + f * dx, s.y0 + f * dy])
      .filter(([x, y]) => withinArc(t, x, y));
  }
  const d = root(t.cx - s.cx, t.cy - s.cy);
  if (d === 0 || d > s.r + t.r || d < Math.abs(s.r - t.r)) return [];
  const along = (d * d + s.r * s.r - t.r * t.r) / (2 * d);
  const h = Math.sqrt(Math.max(0, s.r * s.r - along * along));
  const [ux, uy] = [(t.cx - s.cx) / d, (t.cy - s.cy) / d];
  return [-h, h]
    .map((k): XY => [s.cx + along * ux - k * uy, s.cy + along * uy + k * ux])
    .filter(([x, y]) => withinArc(s, x, y) && withinArc(t, x, y));
}

interface Nearest {
  distance: number;
  ax: number;
  ay: number;
  bx: number;
  by: number;
}

/** Lets `best` be the distance of two sides if that is smaller: crossings, ends to feet, and the points of arcs square to the other. */
function sidesApart(s: Side, t: Side, best: Nearest): void {
  from(s.x0, s.y0, t, best, false);
  from(s.x1, s.y1, t, best, false);
  from(t.x0, t.y0, s, best, true);
  from(t.x1, t.y1, s, best, true);
  if (s.arc) square(s, t, best, false);
  if (t.arc) square(t, s, best, true);
  if (best.distance === 0) return;
  const [at] = crossings(s, t);
  if (at === undefined) return;
  best.distance = 0;
  best.ax = best.bx = at[0];
  best.ay = best.by = at[1];
}

/** From a point of one side to the other side; `ofB`: the point belongs to B. */
function from(x: number, y: number, to: Side, best: Nearest, ofB: boolean): void {
  const d = toSide(to, x, y);
  if (d >= best.distance) return;
  best.distance = d;
  best.ax = ofB ? footX : x;
  best.ay = ofB ? footY : y;
  best.bx = ofB ? x : footX;
  best.by = ofB ? y : footY;
}

/** The places of an arc whose normal may pass square through the other side. */
function square(a: Side, other: Side, best: Nearest, ofB: boolean): void {
  const nx = other.arc ? other.cx - a.cx : other.y1 - other.y0;
  const ny = other.arc ? other.cy - a.cy : other.x0 - other.x1;
  const n = root(nx, ny);
  if (n === 0) return;
  for (let sign = -1; sign <= 1; sign += 2) {
    const x = a.cx + (sign * a.r * nx) / n;
    const y = a.cy + (sign * a.r * ny) / n;
    if (withinArc(a, x, y)) from(x, y, other, best, ofB);
  }
}

/** Even-odd: inside the polygons of the chords, turned over for every piece between an arc and its chord that holds the point. */
export function within(r: Region, x: number, y: number): boolean {
  if (root(x - r.mx, y - r.my) > r.reach) return false;
  let odd = false;
  for (const b of r.blocks) {
    // Neither a crossing of the ray nor a piece beside a chord lies beyond a block's disc.
    if (Math.abs(y - b.my) > b.reach) continue;
    for (const s of b.sides) {
      if (s.y0 > y !== s.y1 > y && x < s.x0 + ((y - s.y0) * (s.x1 - s.x0)) / (s.y1 - s.y0)) odd = !odd;
      if (!s.arc || root(x - s.cx, y - s.cy) >= s.r) continue;
      const side = (s.x1 - s.x0) * (y - s.y0) - (s.y1 - s.y0) * (x - s.x0);
      const middle = (s.x1 - s.x0) * (s.cy - s.y0) - (s.y1 - s.y0) * (s.cx - s.x0);
      if (side * middle < 0) odd = !odd;
    }
  }
  return odd;
}

/** Distance to the outline. */
export function toOutline(r: Region, x: number, y: number, below = Number.POSITIVE_INFINITY): number {
  let best = below;
  for (const b of r.blocks) {
    if (root(x - b.mx, y - b.my) - b.reach >= best) continue;
    for (const s of b.sides) {
      if (root(x - s.mx, y - s.my) - s.reach >= best) continue;
      best = Math.min(best, toSide(s, x, y));
    }
  }
  return best;
}

export interface Between {
  /** Distance; 0 in contact, whatever its depth. */
  readonly gapMm: number;
  readonly contact: boolean;
  readonly a: XY;
  readonly b: XY;
}

/** Distance of two regions, `belowMm` when it is not smaller. */
export function distance(a: Region, b: Region, belowMm = Number.POSITIVE_INFINITY): Between {
  const best: Nearest = { distance: belowMm, ax: 0, ay: 0, bx: 0, by: 0 };
  const far = (p: { mx: number; my: number; reach: number }, q: { mx: number; my: number; reach: number }): boolean =>
    root(p.mx - q.mx, p.my - q.my) - p.reach - q.reach >= best.distance;
  if (far(a, b)) return { gapMm: belowMm, contact: false, a: [0, 0], b: [0, 0] };
  for (const p of a.blocks) {
    if (far(p, b)) continue;
    for (const q of b.blocks) {
      if (far(p, q)) continue;
      for (const s of p.sides) {
        if (far(s, q)) continue;
        for (const t of q.sides) if (!far(s, t)) sidesApart(s, t, best);
      }
    }
  }
  const [s, t] = [a.sides[0]!, b.sides[0]!];
  const swallowed = best.distance > 0 && (within(b, s.x0, s.y0) || within(a, t.x0, t.y0));
  return {
    gapMm: swallowed ? 0 : best.distance,
    contact: swallowed || best.distance === 0,
    a: [best.ax, best.ay],
    b: [best.bx, best.by],
  };
}

/** How deep the deepest point of either outline lies in the other region, by points every `stepMm` and closer about the best; 0 when none does. */
export function depth(a: Region, b: Region, stepMm: number): number {
  return Math.max(deepest(a, b, stepMm), deepest(b, a, stepMm));
}

function deepest(points: Region, host: Region, stepMm: number): number {
  const deep = (s: Side, f: number): number => {
    const [x, y] = onSide(s, f);
    const away = toOutline(host, x, y);
    return within(host, x, y) ? away : -away;
  };
  let best = 0;
  const tries: { s: Side; at: number; most: number; width: number }[] = [];
  for (const block of points.blocks) {
    if (root(block.mx - host.mx, block.my - host.my) - block.reach >= host.reach) continue;
    for (const s of block.sides) {
      if (root(s.mx - host.mx, s.my - host.my) - s.reach >= host.reach) continue;
      const length = lengthOf(s);
      const n = length < stepMm / 4 ? 1 : Math.max(2, Math.ceil(length / stepMm));
      let [at, most] = [0, Number.NEGATIVE_INFINITY];
      for (let k = n === 1 ? 1 : 0; k <= n; k++) {
        const d = deep(s, k / n);
        if (d > most) [at, most] = [k / n, d];
      }
      tries.push({ s, at, most, width: 1 / n });
      best = Math.max(best, most);
    }
  }
  for (const { s, at, most, width } of tries) {
    const length = lengthOf(s);
    // A depth changes no faster than the place along the edge.
    if (most + width * length <= best) continue;
    let [low, high] = [Math.max(0, at - width), Math.min(1, at + width)];
    while ((high - low) * length > 1e-5) {
      const [f, g] = [low + (high - low) / 3, high - (high - low) / 3];
      const [df, dg] = [deep(s, f), deep(s, g)];
      best = Math.max(best, df, dg);
      if (df > dg) high = g;
      else low = f;
    }
  }
  return best;
}

/** Outline of what several regions cover together: sides cut where they cross, and of the pieces those that lie in no other region. */
export function together(parts: readonly Region[]): Region {
  const kept: Side[] = [];
  for (const [k, part] of parts.entries()) {
    for (const s of part.sides) {
      const cuts = [0, 1];
      for (const [n, other] of parts.entries()) {
        if (n === k) continue;
        for (const t of other.sides) {
          for (const [x, y] of crossings(s, t)) cuts.push(placeOn(s, x, y));
          // Ends of the other that lie on this side: where outlines run along one another.
          for (const [x, y] of [[t.x0, t.y0] as const, [t.x1, t.y1] as const]) {
            if (toSide(s, x, y) < 1e-9) cuts.push(placeOn(s, x, y));
          }
        }
      }
      cuts.sort((p, q) => p - q);
      for (let c = 0; c + 1 < cuts.length; c++) {
        const [f, g] = [cuts[c]!, cuts[c + 1]!];
        if ((g - f) * lengthOf(s) < 1e-9) continue;
        const [x, y] = onSide(s, (f + g) / 2);
        const hidden = parts.some((other, n) => {
          if (n === k) return false;
          // On the outline of another as well: kept once, by the first of them; facing sides of two neighbours vanish.
          if (toOutline(other, x, y, 1) < 1e-9) return n < k || !sameWay(s, (f + g) / 2, part, other);
          return within(other, x, y);
        });
        if (!hidden) kept.push(piece(s, f, g));
      }
    }
  }
  return regionOf(kept);
}

/** Whether two regions lie on the same side of a common stretch of outline. */
function sameWay(s: Side, f: number, part: Region, other: Region): boolean {
  const [x, y] = onSide(s, f);
  const [x1, y1] = onSide(s, Math.min(1, f + 1e-6));
  const [x0, y0] = onSide(s, Math.max(0, f - 1e-6));
  const n = root(x1 - x0, y1 - y0);
  const [nx, ny] = [(-(y1 - y0) / n) * 1e-6, ((x1 - x0) / n) * 1e-6];
  return within(part, x + nx, y + ny) === within(other, x + nx, y + ny);
}

function placeOn(s: Side, x: number, y: number): number {
  if (!s.arc) {
    const [dx, dy] = [s.x1 - s.x0, s.y1 - s.y0];
    return Math.min(1, Math.max(0, ((x - s.x0) * dx + (y - s.y0) * dy) / (dx * dx + dy * dy)));
  }
  const along = (Math.atan2(y - s.cy, x - s.cx) - s.startRad) * Math.sign(s.sweepRad);
  const f = (((along % TURN) + TURN) % TURN) / Math.abs(s.sweepRad);
  return f <= 1 ? f : f * Math.abs(s.sweepRad) > Math.PI + Math.abs(s.sweepRad) / 2 ? 0 : 1;
}

function piece(s: Side, f: number, g: number): Side {
  const [p, q] = [f === 0 ? ([s.x0, s.y0] as const) : onSide(s, f), g === 1 ? ([s.x1, s.y1] as const) : onSide(s, g)];
  if (!s.arc) return line(p[0], p[1], q[0], q[1]);
  return arc(s.cx, s.cy, s.r, s.startRad + f * s.sweepRad, (g - f) * s.sweepRad, [p, q]);
}
