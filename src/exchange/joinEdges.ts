/**
 * Loose edges joined to one closed chain, or what stands in the way.
 *
 * Every end must have exactly one other end within the join distance; where there is none the chain is open, where there are
 * several it branches (or an edge is drawn twice). Ends that miss one another are moved to their middle and arcs bent
 * anew through their own middle, so that no point moves farther than half the join distance.
 */
import type { Outline, Piece } from '../core/outline/outline.ts';
import { pieceEnd, pieceStart } from '../core/outline/outline.ts';
import type { DrawnEdge } from './dxfEdges.ts';
import { type FileProblem, fileProblem } from './units.ts';
import { divided, movedVertices, outlineThrough } from './vertices.ts';

/** Ends nearer than this are one point but for the digits of the file, mm. */
const SAME_POINT_MM = 1e-9;

export interface Joined {
  readonly ok: true;
  readonly outline: Outline;
  /** Largest distance between two ends that were joined, mm. */
  readonly largestJoinMm: number;
  /** Edges shorter than the join distance, left out. */
  readonly shortEdges: number;
}

type Ends = readonly { readonly edge: number; readonly atEnd: boolean; readonly x: number; readonly y: number }[];

export function joinEdges(
  drawn: readonly DrawnEdge[],
  joinMm: number,
): Joined | { ok: false; problems: FileProblem[] } {
  const long = drawn.filter((e) => lengthMm(e.piece) > joinMm);
  const shortEdges = drawn.length - long.length;
  const circles = long.filter((e) => isFullTurn(e.piece));
  const edges = long.filter((e) => !isFullTurn(e.piece));
  const ends: Ends = edges.flatMap((e, edge) => [
    { edge, atEnd: false, ...at(pieceStart(e.piece)) },
    { edge, atEnd: true, ...at(pieceEnd(e.piece)) },
  ]);
  const partner = partners(ends, joinMm);
  const problems: FileProblem[] = [];
  for (const [k, others] of partner.entries()) {
    if (others.length === 1 && partner[others[0]!]!.length === 1) continue;
    const end = ends[k]!;
    const e = edges[end.edge]!;
    const where = `x ${end.x.toFixed(3)} mm, y ${end.y.toFixed(3)} mm`;
    const says =
      others.length === 0
        ? `The chain is open at ${where}: no other edge ends within ${joinMm} mm.`
        : `Several edges end within ${joinMm} mm of ${where}. Allowed: two; is one drawn twice?`;
    problems.push(fileProblem(e.line, e.kind, says));
  }
  if (problems.length > 0) return { ok: false, problems };

  const loops = walkLoops(edges, partner);
  const found = loops.length + circles.length;
  if (found !== 1) {
    const each = [...loops.map((loop) => loop.map((l) => edges[l.edge]!)), ...circles.map((c) => [c])];
    return { ok: false, problems: each.length === 0 ? [nothing(shortEdges)] : each.map((l) => loopFound(l, found)) };
  }
  if (circles.length === 1) return { ok: true, outline: { pieces: [circles[0]!.piece] }, largestJoinMm: 0, shortEdges };
  return {
    ...closed(loops[0]!.map((l) => (l.forward ? edges[l.edge]!.piece : reversedPiece(edges[l.edge]!.piece)))),
    shortEdges,
  };
}

/** For each end, the other ends within the join distance. */
function partners(ends: Ends, joinMm: number): number[][] {
  const order = ends.map((_, k) => k).sort((a, b) => ends[a]!.x - ends[b]!.x);
  const near = ends.map((): number[] => []);
  for (let i = 0; i < order.length; i++) {
    const a = ends[order[i]!]!;
    for (let j = i + 1; j < order.length; j++) {
      const b = ends[order[j]!]!;
      if (b.x - a.x > joinMm) break;
      if (Math.hypot(b.x - a.x, b.y - a.y) > joinMm) continue;
      near[order[i]!]!.push(order[j]!);
      near[order[j]!]!.push(order[i]!);
    }
  }
  return near;
}

/** Ends 2k and 2k + 1 belong to edge k; every end has one partner. */
function walkLoops(edges: readonly DrawnEdge[], partner: readonly number[][]): { edge: number; forward: boolean }[][] {
  const seen = new Set<number>();
  const loops: { edge: number; forward: boolean }[][] = [];
  for (let first = 0; first < edges.length; first++) {
    if (seen.has(first)) continue;
    const loop: { edge: number; forward: boolean }[] = [];
    for (let enter = 2 * first; !seen.has(enter >> 1); enter = partner[enter ^ 1]![0]!) {
      seen.add(enter >> 1);
      loop.push({ edge: enter >> 1, forward: (enter & 1) === 0 });
    }
    loops.push(loop);
  }
  return loops;
}

function closed(pieces: readonly Piece[]): { ok: true; outline: Outline; largestJoinMm: number } {
  let largestJoinMm = 0;
  // Divided pieces meet exactly within an arc; elsewhere the ends meet in their middle.
  const parts = divided({ pieces }).pieces;
  const vertices = movedVertices({ pieces: parts }, ([x, y], k) => {
    const [px, py] = pieceEnd(parts[(k + parts.length - 1) % parts.length]!);
    const gap = Math.hypot(x - px, y - py);
    if (gap <= SAME_POINT_MM) return [x, y];
    largestJoinMm = Math.max(largestJoinMm, gap);
    return [(x + px) / 2, (y + py) / 2];
  });
  return { ok: true, outline: outlineThrough(vertices), largestJoinMm };
}

export function reversedPiece(p: Piece): Piece {
  if (p.kind === 'line') return { kind: 'line', x0: p.x1, y0: p.y1, x1: p.x0, y1: p.y0 };
  return { ...p, startRad: p.startRad + p.sweepRad, sweepRad: -p.sweepRad };
}

function isFullTurn(p: Piece): boolean {
  return p.kind === 'arc' && Math.abs(p.sweepRad) >= 2 * Math.PI - 1e-12;
}

function lengthMm(p: Piece): number {
  return p.kind === 'line' ? Math.hypot(p.x1 - p.x0, p.y1 - p.y0) : p.r * Math.abs(p.sweepRad);
}

function at([x, y]: readonly [number, number]): { x: number; y: number } {
  return { x, y };
}

function nothing(shortEdges: number): FileProblem {
  const also = shortEdges === 0 ? '' : ` ${shortEdges} shorter than the join distance were left out.`;
  return fileProblem(0, '', `No edges are there to make an outline of.${also}`);
}

function loopFound(loop: readonly DrawnEdge[], found: number): FileProblem {
  const first = loop[0]!;
  const points = loop.flatMap(({ piece: p }) =>
    p.kind === 'line' || !isFullTurn(p)
      ? [pieceStart(p), pieceEnd(p)]
      : [
          [p.cx - p.r, p.cy - p.r],
          [p.cx + p.r, p.cy + p.r],
        ],
  );
  const span = (axis: 0 | 1): string => {
    const values = points.map((p) => p[axis]!);
    return `${Math.min(...values).toFixed(1)} to ${Math.max(...values).toFixed(1)}`;
  };
  const count = loop.length === 1 ? '1 edge' : `${loop.length} edges`;
  const says = `One of ${found} closed loops: ${count} on layer ${first.layer}, x ${span(0)} mm, y ${span(1)} mm. Allowed: one; choose its layer or save it alone.`;
  return fileProblem(first.line, first.kind, says);
}
