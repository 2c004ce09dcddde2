/**
 * Plane geometry for checking: how far apart two closed outlines of lines and arcs are, by trying points of them one by
 * one. Slow and plain on purpose, and independent of the program: imports nothing.
 *
 * x to the right, y up, outlines counterclockwise, arcs by start angle from +x and sweep.
 */

export type Edge =
  | { readonly kind: 'line'; readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number }
  | {
      readonly kind: 'arc';
      readonly cx: number;
      readonly cy: number;
      readonly r: number;
      readonly startRad: number;
      readonly sweepRad: number;
    };

export interface Shape {
  readonly edges: readonly Edge[];
  /** A disc about it. */
  readonly cx: number;
  readonly cy: number;
  readonly reach: number;
}

export type XY = readonly [number, number];

export interface Gap {
  readonly gapMm: number;
  /** Point of A and of B: the nearest two, or the deepest point and the nearest place to it. */
  readonly a: XY;
  readonly b: XY;
}

export function pointOf(e: Edge, f: number): XY {
  if (e.kind === 'line') return [e.x0 + f * (e.x1 - e.x0), e.y0 + f * (e.y1 - e.y0)];
  const angle = e.startRad + f * e.sweepRad;
  return [e.cx + e.r * Math.cos(angle), e.cy + e.r * Math.sin(angle)];
}

export function lengthOf(e: Edge): number {
  return e.kind === 'line' ? Math.hypot(e.x1 - e.x0, e.y1 - e.y0) : e.r * Math.abs(e.sweepRad);
}

/** Arcs are cut at a quarter turn, so that the piece between arc and chord is less than half a disc. */
export function shape(edges: readonly Edge[]): Shape {
  const cut = edges.flatMap((e): Edge[] => {
    if (e.kind === 'line') return [e];
    const parts = Math.ceil(Math.abs(e.sweepRad) / (Math.PI / 2) - 1e-12);
    const sweepRad = e.sweepRad / parts;
    return Array.from({ length: parts }, (_, k) => ({ ...e, startRad: e.startRad + k * sweepRad, sweepRad }));
  });
  const points = cut.flatMap((e) => Array.from({ length: 9 }, (_, k) => pointOf(e, k / 8)));
  const cx = points.reduce((s, p) => s + p[0], 0) / points.length;
  const cy = points.reduce((s, p) => s + p[1], 0) / points.length;
  // Between two of the nine points an arc strays from them by less than an eighth of its length.
  const reach = Math.max(...points.map((p) => Math.hypot(p[0] - cx, p[1] - cy))) + Math.max(...cut.map(lengthOf)) / 8;
  return { edges: cut, cx, cy, reach };
}

/** A closed polygon through points, counterclockwise. */
export function polygon(points: readonly XY[]): Shape {
  return shape(
    points.map(([x0, y0], k): Edge => {
      const [x1, y1] = points[(k + 1) % points.length]!;
      return { kind: 'line', x0, y0, x1, y1 };
    }),
  );
}

/** Turned clockwise about its own origin, then moved; with `mirror`, x negated afterwards. */
export function placed(s: Shape, x: number, y: number, clockwiseRad: number, mirror = false): Shape {
  const c = Math.cos(clockwiseRad);
  const n = Math.sin(clockwiseRad);
  const sign = mirror ? -1 : 1;
  const to = (px: number, py: number): XY => [sign * (x + c * px + n * py), y - n * px + c * py];
  const edges = s.edges.map((e): Edge => {
    if (e.kind === 'line') {
      const [p, q] = [to(e.x0, e.y0), to(e.x1, e.y1)];
      const [from, end] = mirror ? [q, p] : [p, q];
      return { kind: 'line', x0: from[0], y0: from[1], x1: end[0], y1: end[1] };
    }
    const [cx, cy] = to(e.cx, e.cy);
    const startRad = e.startRad - clockwiseRad;
    return { ...e, cx, cy, startRad: mirror ? Math.PI - startRad - e.sweepRad : startRad };
  });
  if (mirror) edges.reverse();
  const [cx, cy] = to(s.cx, s.cy);
  return { edges, cx, cy, reach: s.reach };
}

/** Nearest point of an edge. */
export function footOn(e: Edge, x: number, y: number): XY {
  if (e.kind === 'line') {
    const [dx, dy] = [e.x1 - e.x0, e.y1 - e.y0];
    const f = ((x - e.x0) * dx + (y - e.y0) * dy) / (dx * dx + dy * dy);
    return pointOf(e, Math.min(1, Math.max(0, f)));
  }
  const TURN = 2 * Math.PI;
  const from = (Math.atan2(y - e.cy, x - e.cx) - e.startRad) * Math.sign(e.sweepRad);
  const along = ((from % TURN) + TURN) % TURN;
  if (along <= Math.abs(e.sweepRad)) return pointOf(e, along / Math.abs(e.sweepRad));
  const [p, q] = [pointOf(e, 0), pointOf(e, 1)];
  return Math.hypot(p[0] - x, p[1] - y) <= Math.hypot(q[0] - x, q[1] - y) ? p : q;
}

/**
 * Even-odd rule: inside the polygon of the chords, turned over once for every piece between an arc and its chord that
 * holds the point.
 */
export function inside(s: Shape, x: number, y: number): boolean {
  let odd = false;
  let [x1, y1] = pointOf(s.edges[0]!, 0);
  for (let k = s.edges.length - 1; k >= 0; k--) {
    const e = s.edges[k]!;
    // Each chord ends exactly where the next begins, or a ray could slip between two roundings of one corner.
    const [x0, y0] = pointOf(e, 0);
    if (y0 > y !== y1 > y && x < x0 + ((y - y0) * (x1 - x0)) / (y1 - y0)) odd = !odd;
    if (e.kind === 'arc' && Math.hypot(x - e.cx, y - e.cy) < e.r) {
      const side = (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0);
      const middle = (x1 - x0) * (e.cy - y0) - (y1 - y0) * (e.cx - x0);
      if (side * middle < 0) odd = !odd;
    }
    [x1, y1] = [x0, y0];
  }
  return odd;
}

/** Distance to the outline, negative inside. */
export function signedDistanceMm(s: Shape, x: number, y: number): number {
  let best = Number.POSITIVE_INFINITY;
  for (const e of s.edges) {
    const [fx, fy] = footOn(e, x, y);
    best = Math.min(best, Math.hypot(fx - x, fy - y));
  }
  return inside(s, x, y) ? -best : best;
}

export function nearestOn(s: Shape, x: number, y: number): XY {
  let best = Number.POSITIVE_INFINITY;
  let at: XY = [0, 0];
  for (const e of s.edges) {
    const foot = footOn(e, x, y);
    const d = Math.hypot(foot[0] - x, foot[1] - y);
    if (d < best) {
      best = d;
      at = foot;
    }
  }
  return at;
}

interface Try {
  readonly edge: Edge;
  readonly f: number;
  readonly width: number;
  readonly sd: number;
}

/**
 * The least signed distance to `host` over points of the outline of `s`, every `stepMm` and then closer about the best
 * of each edge that is in the running.
 */
function leastOver(s: Shape, host: Shape, stepMm: number, belowMm: number): { sd: number; x: number; y: number } {
  let best = belowMm;
  let [bx, by] = [Number.NaN, Number.NaN];
  const tries: Try[] = [];
  for (const edge of s.edges) {
    const n = Math.max(4, Math.ceil(lengthOf(edge) / stepMm));
    const step = lengthOf(edge) / n;
    let nearest: Try | undefined;
    for (let k = 0; k <= n; k++) {
      const [x, y] = pointOf(edge, k / n);
      // No point of the host is nearer than its disc, and nothing within a step is nearer than a step less.
      if (Math.hypot(x - host.cx, y - host.cy) - host.reach - step > best) continue;
      const sd = signedDistanceMm(host, x, y);
      if (nearest === undefined || sd < nearest.sd) nearest = { edge, f: k / n, width: 1 / n, sd };
      if (sd < best) {
        best = sd;
        [bx, by] = [x, y];
      }
    }
    if (nearest !== undefined) tries.push(nearest);
  }
  for (const t of tries) {
    if (t.sd - t.width * lengthOf(t.edge) > best) continue;
    let low = Math.max(0, t.f - t.width);
    let high = Math.min(1, t.f + t.width);
    for (let k = 0; k < 60 && (high - low) * lengthOf(t.edge) > 1e-7; k++) {
      const [f, g] = [low + (high - low) / 3, high - (high - low) / 3];
      const p = pointOf(t.edge, f);
      const q = pointOf(t.edge, g);
      const [sp, sq] = [signedDistanceMm(host, ...p), signedDistanceMm(host, ...q)];
      const [sd, at] = sp < sq ? [sp, p] : [sq, q];
      if (sd < best) {
        best = sd;
        [bx, by] = at;
      }
      if (sp < sq) high = g;
      else low = f;
    }
  }
  return { sd: best, x: bx, y: by };
}

/**
 * Signed gap: positive, the shortest distance; negative, minus the depth of the deepest point of either outline in the
 * other. Never below the true gap, since every value belongs to real points. Gaps at or above `belowMm` are not looked
 * for: it is returned then.
 */
export function gapOf(a: Shape, b: Shape, stepMm = 0.5, belowMm = Number.POSITIVE_INFINITY): Gap {
  if (Math.hypot(a.cx - b.cx, a.cy - b.cy) - a.reach - b.reach >= belowMm)
    return { gapMm: belowMm, a: [0, 0], b: [0, 0] };
  const one = leastOver(a, b, stepMm, belowMm);
  const two = leastOver(b, a, stepMm, one.sd);
  if (!Number.isNaN(two.x)) return { gapMm: two.sd, a: nearestOn(a, two.x, two.y), b: [two.x, two.y] };
  if (Number.isNaN(one.x)) return { gapMm: belowMm, a: [0, 0], b: [0, 0] };
  return { gapMm: one.sd, a: [one.x, one.y], b: nearestOn(b, one.x, one.y) };
}
