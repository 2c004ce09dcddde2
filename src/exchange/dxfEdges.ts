/**
 * Straight and circular edges of the entities of a drawing: LINE, ARC, CIRCLE, POLYLINE with VERTEX and SEQEND, LWPOLYLINE.
 *
 * Source: "Drawing Interchange and File Formats", Release 12 (1992), "Entities section" and "Entity coordinate systems": an
 * arc runs counterclockwise from angle 50 to 51, degrees; bulge 42 of a vertex is the tangent of a quarter of the included
 * angle; an extrusion direction 0, 0, -1 mirrors x of everything but a LINE. LWPOLYLINE is of a later release.
 */
import type { Piece } from '../core/outline/outline.ts';
import { bulgedPiece } from '../core/outline/outline.ts';
import type { Entity, Group } from './dxfGroups.ts';
import { type FileProblem, fileProblem } from './units.ts';

/** An edge as drawn, mm, in either direction. */
export interface DrawnEdge {
  readonly piece: Piece;
  readonly kind: string;
  readonly line: number;
  readonly layer: string;
}

export interface DrawnEdges {
  readonly edges: readonly DrawnEdge[];
  /** Heights z at which they lie, mm. */
  readonly heightsMm: readonly number[];
  /** Kinds of entities that draw no edge (text, dimensions), each once. */
  readonly leftOut: readonly string[];
  readonly problems: readonly FileProblem[];
}

/** Lettering and marks: nothing of the part. */
const NO_EDGES = new Set(
  'TEXT MTEXT ATTDEF ATTRIB DIMENSION LEADER MULTILEADER TOLERANCE POINT HATCH VIEWPORT'.split(' '),
);
const GREATEST_MM = 10_000;
/** mm; vertices nearer than this are one, drawn twice. */
const SAME_VERTEX_MM = 1e-6;
const NUMBER = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d{1,3})?$/;

interface Collecting {
  readonly sizeMm: number;
  readonly edges: DrawnEdge[];
  readonly heights: Set<number>;
  readonly problems: FileProblem[];
}

interface Corner {
  readonly x: number;
  readonly y: number;
  readonly bulge: number;
}

/** `sizeMm`: one unit of the drawing. */
export function dxfEdges(entities: readonly Entity[], sizeMm: number): DrawnEdges {
  const out: Collecting = { sizeMm, edges: [], heights: new Set(), problems: [] };
  const leftOut = new Set<string>();
  for (let k = 0; k < entities.length; k++) {
    const e = entities[k]!;
    if (e.kind === 'LINE') line(e, out);
    else if (e.kind === 'ARC' || e.kind === 'CIRCLE') round(e, out);
    else if (e.kind === 'LWPOLYLINE') light(e, out);
    else if (e.kind === 'POLYLINE') {
      const vertices: Entity[] = [];
      while (entities[k + 1]?.kind === 'VERTEX') vertices.push(entities[++k]!);
      if (entities[k + 1]?.kind === 'SEQEND') {
        k++;
        polyline(e, vertices, out);
      } else out.problems.push(fileProblem(e.line, e.kind, 'A POLYLINE does not end with SEQEND.'));
    } else if (NO_EDGES.has(e.kind)) leftOut.add(e.kind);
    else {
      const says = `Allowed: LINE, ARC, CIRCLE, POLYLINE and LWPOLYLINE. ${e.kind === 'INSERT' ? 'Explode blocks before saving.' : 'Convert it to lines and arcs before saving.'}`;
      out.problems.push(fileProblem(e.line, e.kind, says));
    }
  }
  return { edges: out.edges, heightsMm: [...out.heights], leftOut: [...leftOut], problems: out.problems };
}

function line(e: Entity, out: Collecting): void {
  const [x0, y0, x1, y1] = [10, 20, 11, 21].map((code) => length(e, code, out));
  const [z0, z1] = [length(e, 30, out, 0), length(e, 31, out, 0)];
  if (x0 === undefined || y0 === undefined || x1 === undefined || y1 === undefined) return;
  if (z0 === undefined || z1 === undefined) return;
  out.heights.add(z0).add(z1);
  add(e, { kind: 'line', x0, y0, x1, y1 }, out);
}

function round(e: Entity, out: Collecting): void {
  const mirror = mirrorOf(e, out);
  const [x, cy, r, z] = [length(e, 10, out), length(e, 20, out), length(e, 40, out), length(e, 30, out, 0)];
  const full = e.kind === 'CIRCLE';
  const from = full ? 0 : number(e, 50, out);
  const to = full ? 360 : number(e, 51, out);
  if (mirror === null || x === undefined || cy === undefined || r === undefined || z === undefined) return;
  if (from === undefined || to === undefined) return;
  if (!(r > 0)) {
    out.problems.push(fileProblem(e.line, e.kind, 'Allowed: a radius above zero.'));
    return;
  }
  out.heights.add(mirror * z);
  // Equal angles are a full turn, as a drawing has no arc without length.
  const turn = full ? 360 : to - from - 360 * Math.floor((to - from) / 360) || 360;
  const startRad = (from * Math.PI) / 180;
  const sweepRad = (turn * Math.PI) / 180;
  const start = mirror === 1 ? startRad : Math.PI - startRad - sweepRad;
  add(e, { kind: 'arc', cx: mirror * x, cy, r, startRad: start, sweepRad }, out);
}

function polyline(e: Entity, vertices: readonly Entity[], out: Collecting): void {
  const flags = number(e, 70, out, 0) ?? 0;
  if ((flags & (4 | 8 | 16 | 64)) !== 0) {
    out.problems.push(
      fileProblem(e.line, e.kind, 'Allowed: a flat polyline of lines and arcs, no spline, mesh or 3D polyline.'),
    );
    return;
  }
  const mirror = mirrorOf(e, out);
  if (mirror === null) return;
  out.heights.add(mirror * (length(e, 30, out, 0) ?? 0));
  const corners = vertices.map((v) => corner(length(v, 10, out), length(v, 20, out), number(v, 42, out, 0), mirror));
  chain(e, corners, (flags & 1) === 1, out);
}

function light(e: Entity, out: Collecting): void {
  const mirror = mirrorOf(e, out);
  if (mirror === null) return;
  out.heights.add(mirror * (length(e, 38, out, 0) ?? 0));
  // Groups of a vertex follow its 10, up to the next 10.
  const starts = e.groups.flatMap((g, k) => (g.code === 10 ? [k] : []));
  const corners = starts.map((from, k) => {
    const v: Entity = { ...e, groups: e.groups.slice(from, starts[k + 1] ?? e.groups.length) };
    return corner(length(v, 10, out), length(v, 20, out), number(v, 42, out, 0), mirror);
  });
  chain(e, corners, ((number(e, 70, out, 0) ?? 0) & 1) === 1, out);
}

function corner(
  x: number | undefined,
  y: number | undefined,
  bulge: number | undefined,
  mirror: 1 | -1,
): Corner | null {
  if (x === undefined || y === undefined || bulge === undefined) return null;
  return { x: mirror * x, y, bulge: mirror * bulge };
}

function chain(e: Entity, corners: readonly (Corner | null)[], closed: boolean, out: Collecting): void {
  if (corners.length < 2) out.problems.push(fileProblem(e.line, e.kind, 'Allowed: two vertices or more.'));
  const last = closed ? corners.length : corners.length - 1;
  for (let k = 0; k < last; k++) {
    const [from, to] = [corners[k], corners[(k + 1) % corners.length]];
    if (!from || !to) continue;
    if (Math.hypot(to.x - from.x, to.y - from.y) < SAME_VERTEX_MM) continue;
    add(e, bulgedPiece(from.x, from.y, to.x, to.y, from.bulge), out);
  }
}

function add(e: Entity, piece: Piece, out: Collecting): void {
  out.edges.push({ piece, kind: e.kind, line: e.line, layer: e.layer });
}

/** 1, or -1 where the entity is seen from below; null and a problem for any other direction. */
function mirrorOf(e: Entity, out: Collecting): 1 | -1 | null {
  const [x, y, z] = [number(e, 210, out, 0), number(e, 220, out, 0), number(e, 230, out, 1)];
  if (x === 0 && y === 0 && z !== undefined && z !== 0) return z > 0 ? 1 : -1;
  out.problems.push(fileProblem(e.line, e.kind, 'Drawn in a plane that is tilted. Allowed: the plane of x and y.'));
  return null;
}

function length(e: Entity, code: number, out: Collecting, otherwise?: number): number | undefined {
  const value = number(e, code, out, otherwise);
  if (value === undefined || Math.abs(value) * out.sizeMm <= GREATEST_MM)
    return value === undefined ? value : value * out.sizeMm;
  out.problems.push(fileProblem(e.line, `${e.kind} ${value}`, `Allowed: at most ${GREATEST_MM} mm.`));
  return undefined;
}

/** Value of a group, `otherwise` where it is missing; without that a missing group is a problem. */
function number(e: Entity, code: number, out: Collecting, otherwise?: number): number | undefined {
  const group: Group | undefined = e.groups.find((g) => g.code === code);
  if (group === undefined) {
    if (otherwise === undefined) out.problems.push(fileProblem(e.line, e.kind, `Group ${code} is missing.`));
    return otherwise;
  }
  const value = NUMBER.test(group.value) ? Number(group.value) : Number.NaN;
  if (Number.isFinite(value)) return value;
  out.problems.push(fileProblem(group.line, group.value, `Allowed: a number, as group ${code} of a ${e.kind}.`));
  return undefined;
}
