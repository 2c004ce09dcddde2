/** Oracles for swept bands: places of moving polygons worked out anew, points in polygons by winding, distances by trying every edge. Imports nothing from the program. */

export type Points = readonly number[];

/** How often a chain of polygons winds about a point, by the angles of its corners: not the way the program does it. */
export function winding(polygons: readonly Points[], x: number, y: number): number {
  let sum = 0;
  for (const p of polygons) {
    const n = p.length / 2;
    for (let k = 0; k < n; k++) {
      const j = (k + 1) % n;
      const a = Math.atan2(p[2 * k + 1]! - y, p[2 * k]! - x);
      let turn = Math.atan2(p[2 * j + 1]! - y, p[2 * j]! - x) - a;
      if (turn > Math.PI) turn -= 2 * Math.PI;
      if (turn < -Math.PI) turn += 2 * Math.PI;
      sum += turn;
    }
  }
  return Math.round(sum / (2 * Math.PI));
}

export function edgeDistance(p: Points, x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  const n = p.length / 2;
  for (let k = 0; k < n; k++) {
    const j = (k + 1) % n;
    const [ax, ay, bx, by] = [p[2 * k]!, p[2 * k + 1]!, p[2 * j]!, p[2 * j + 1]!];
    const [dx, dy] = [bx - ax, by - ay];
    const t = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
    least = Math.min(least, Math.hypot(x - ax - t * dx, y - ay - t * dy));
  }
  return least;
}

/** Corners and middles of all edges. */
export function boundary(polygons: readonly Points[]): (readonly [number, number])[] {
  return polygons.flatMap((p) => {
    const n = p.length / 2;
    return Array.from({ length: n }, (_, k) => {
      const j = (k + 1) % n;
      const [ax, ay, bx, by] = [p[2 * k]!, p[2 * k + 1]!, p[2 * j]!, p[2 * j + 1]!];
      return [
        [ax, ay],
        [(ax + bx) / 2, (ay + by) / 2],
      ] as const;
    }).flat();
  });
}

export interface Place {
  readonly x: number;
  readonly y: number;
  /** Clockwise. */
  readonly turn: number;
}

/** Crank, rod and piston of an upright cylinder, turning clockwise, from the triangle of crank, rod and offset. */
export function crankPlace(theta: number): Place {
  return { x: 0, y: 0, turn: theta };
}
export function pistonPlace(r: number, l: number, e: number, theta: number): Place {
  const side = r * Math.sin(theta) - e;
  return { x: 0, y: r * Math.cos(theta) + Math.sqrt(l * l - side * side), turn: 0 };
}
export function rodPlace(r: number, l: number, e: number, theta: number): Place {
  const [px, py] = [r * Math.sin(theta), r * Math.cos(theta)];
  const pin = pistonPlace(r, l, e, theta);
  return { x: px, y: py, turn: Math.atan2(e - px, pin.y - py) };
}

export function carry(p: Points, at: Place, from: Place = { x: 0, y: 0, turn: 0 }): number[] {
  const out: number[] = [];
  for (let k = 0; k < p.length; k += 2) {
    // A clockwise turn by t of (x, y): along u = (sin t, cos t) goes y, along v = (cos t, -sin t) goes x.
    const x = at.x + p[k]! * Math.cos(at.turn) + p[k + 1]! * Math.sin(at.turn) - from.x;
    const y = at.y - p[k]! * Math.sin(at.turn) + p[k + 1]! * Math.cos(at.turn) - from.y;
    out.push(x * Math.cos(from.turn) - y * Math.sin(from.turn), x * Math.sin(from.turn) + y * Math.cos(from.turn));
  }
  return out;
}
