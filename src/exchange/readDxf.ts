/**
 * A drawing interchange file (ASCII, the open subset of Release 12, and LWPOLYLINE) as one closed outline.
 *
 * Coordinates are taken as they stand: x right, y up; for a counterweight the crank axis at the origin and the pin on +y.
 * Read are LINE, ARC, CIRCLE, POLYLINE and LWPOLYLINE of the section of entities; lettering and dimensions are left out and
 * named; anything else is refused, since a part of the outline may be drawn with it.
 */
import { outlineAreaMm2, outlineFault } from '../build/outlineFault.ts';
import type { Outline } from '../core/outline/outline.ts';
import { dxfEdges } from './dxfEdges.ts';
import { type Entity, type Group, readDxfGroups } from './dxfGroups.ts';
import { joinEdges, reversedPiece } from './joinEdges.ts';
import { exactPoints } from './outlineToPoints.ts';
import { type FileUnit, fileProblem, type Refused, refused, UNIT_MM } from './units.ts';

/** mm; ends this near are taken for joined unless stated otherwise: above the digits that drawings drop, below what a grinder reads. */
export const USUAL_JOIN_MM = 0.01;
const GREATEST_JOIN_MM = 1;
export const MOST_DXF_EDGES = 2000;
/** Problems listed; beyond them their number is said. */
const MOST_PROBLEMS = 20;

/** $INSUNITS: 1 inches, 4 millimetres; 0 states nothing. */
const UNIT_OF_INSUNITS: Readonly<Record<string, FileUnit | undefined>> = { '0': undefined, '1': 'in', '4': 'mm' };

export interface DxfOptions {
  /** Only what is drawn on this layer; all layers unless stated. Capitals do not matter. */
  readonly layer?: string;
  /** Ends up to so far apart are joined, mm: 0 to 1. */
  readonly joinMm?: number;
}

export interface DxfOutline {
  readonly ok: true;
  /** Counterclockwise, mm. */
  readonly outline: Outline;
  readonly unit: FileUnit;
  readonly joinMm: number;
  /** Largest distance between ends that were joined, mm. */
  readonly largestJoinMm: number;
  /** True when the chain ran clockwise as its first edge is drawn. */
  readonly reversed: boolean;
  /** What was left out, as sentences. */
  readonly notes: readonly string[];
}

/** `unit` may be left undefined where the file states it. Never throws; what is wrong comes back as problems. */
export function readOutlineDxf(text: string, unit?: FileUnit, options: DxfOptions = {}): DxfOutline | Refused {
  const joinMm = options.joinMm ?? USUAL_JOIN_MM;
  if (!(joinMm >= 0 && joinMm <= GREATEST_JOIN_MM)) {
    return refused(0, '', `A join distance of ${joinMm} mm is refused. Allowed: 0 to ${GREATEST_JOIN_MM} mm.`);
  }
  const content = readDxfGroups(text);
  if (!content.ok) return content;
  const chosen = unitOf(content.insUnits, unit);
  if (typeof chosen !== 'string') return chosen;

  const drawn = dxfEdges(chosenEntities(content.entities, options.layer), UNIT_MM[chosen]);
  if (drawn.problems.length > 0) return { ok: false, problems: atMost(drawn.problems) };
  if (drawn.edges.length === 0) {
    const layers = [...new Set(content.entities.map((e) => e.layer))].slice(0, MOST_PROBLEMS).join(', ');
    const where = options.layer === undefined ? '' : ` on layer ${options.layer}`;
    return refused(0, '', `No edges are drawn${where}. Layers with entities: ${layers === '' ? 'none' : layers}.`);
  }
  if (drawn.edges.length > MOST_DXF_EDGES) {
    return refused(0, '', `${drawn.edges.length} edges are refused. Allowed: ${MOST_DXF_EDGES}.`);
  }
  const [lowest, highest] = [Math.min(...drawn.heightsMm), Math.max(...drawn.heightsMm)];
  if (highest - lowest > joinMm) {
    const says = `The edges lie between z ${lowest.toFixed(3)} and ${highest.toFixed(3)} mm. Allowed: one height.`;
    return refused(0, '', says);
  }
  const joined = joinEdges(drawn.edges, joinMm);
  if (!joined.ok) return { ok: false, problems: atMost(joined.problems) };

  const reversed = outlineAreaMm2(joined.outline) < 0;
  const outline = reversed ? { pieces: joined.outline.pieces.map(reversedPiece).toReversed() } : joined.outline;
  const fault = outlineFault(exactPoints(outline));
  if (fault !== null) return refused(0, '', `The outline can't be used. ${fault.says}`);
  const notes: string[] = [];
  if (drawn.leftOut.length > 0) notes.push(`Left out: ${drawn.leftOut.join(', ')}.`);
  if (joined.shortEdges > 0) notes.push(`${joined.shortEdges} edges shorter than ${joinMm} mm are left out.`);
  return { ok: true, outline, unit: chosen, joinMm, largestJoinMm: joined.largestJoinMm, reversed, notes };
}

function unitOf(insUnits: Group | undefined, asked: FileUnit | undefined): FileUnit | Refused {
  const code = insUnits?.value ?? '0';
  if (!Object.hasOwn(UNIT_OF_INSUNITS, code)) {
    return refused(
      insUnits!.line,
      code,
      'Units of the drawing ($INSUNITS). Allowed: 1 (inches), 4 (millimetres), 0 (not stated).',
    );
  }
  const stated = UNIT_OF_INSUNITS[code];
  if (stated !== undefined && asked !== undefined && stated !== asked) {
    return refused(insUnits!.line, code, `The drawing says ${stated}, ${asked} was asked for.`);
  }
  return stated ?? asked ?? refused(0, '', 'The drawing does not state its unit. State mm or in beside it.');
}

/** Of the layer and not on a printed sheet (group 67); vertices go with their polyline, whatever their own layer. */
function chosenEntities(entities: readonly Entity[], layer: string | undefined): Entity[] {
  const wanted = layer?.toUpperCase();
  let withParts: boolean | undefined;
  return entities.filter((e) => {
    const keep =
      (wanted === undefined || e.layer.toUpperCase() === wanted) &&
      !e.groups.some((g) => g.code === 67 && Number(g.value) === 1);
    if (e.kind === 'VERTEX' || e.kind === 'SEQEND') {
      const kept = withParts ?? keep;
      if (e.kind === 'SEQEND') withParts = undefined;
      return kept;
    }
    withParts = e.kind === 'POLYLINE' ? keep : undefined;
    return keep;
  });
}

function atMost(problems: readonly ReturnType<typeof fileProblem>[]): ReturnType<typeof fileProblem>[] {
  if (problems.length <= MOST_PROBLEMS) return [...problems];
  const more = fileProblem(0, '', `${problems.length - MOST_PROBLEMS} further places are refused.`);
  return [...problems.slice(0, MOST_PROBLEMS), more];
}
