/**
 * Cells of a map as work for the pool. A piece is some cells, done in its order; it begins from what is known of the build
 * as it stands, or of a cell done before (`from`), so that its result depends on nothing else.
 */

import type { Leaf } from '../../core/clearance/again.ts';
import type { Steps } from '../pieces/kind.ts';
import type { Gap } from '../results.ts';
import type { Ground, Laid } from './ground.ts';
import { laidOut, layGround } from './ground.ts';
import type { Known } from './judge.ts';
import { judge, leastByDesign, refusalOf } from './judge.ts';
import type { MapCell, MapSpec } from './spec.ts';
import { withValues } from './spec.ts';

export interface MapShared {
  readonly spec: MapSpec;
  /** Certified gaps of the build as it stands. */
  readonly gaps: readonly Gap[];
  /** Some values may be refused by the fields' own rules: then the whole of the file's rules is asked. */
  readonly thorough: boolean;
}

/** What is known of a cell's pairs, by pair. */
export interface KnownAt {
  readonly i: number;
  readonly j: number;
  readonly last: string | null;
  readonly pairs: readonly {
    readonly id: string;
    readonly atCrankRad: number;
    readonly leaves: readonly Omit<Leaf<never>, 'at'>[];
  }[];
}

export interface MapPiece {
  readonly cells: readonly (readonly [i: number, j: number])[];
  readonly from: KnownAt | null;
  /** Ask for what is known of the last cell, to begin other pieces from. */
  readonly tell: boolean;
}

export interface MapResult {
  readonly cells: readonly MapCell[];
  readonly known: KnownAt | null;
}

export function mapCells(shared: MapShared): (piece: MapPiece) => Steps<MapResult> {
  const { spec, thorough } = shared;
  const ground = groundOf(shared);
  const start = standing(shared, ground);
  return function* (piece) {
    const known: Known = { proven: new Map(start.proven), last: start.last };
    if (piece.from !== null) yield* begin(known, spec, ground, piece.from);
    const cells: MapCell[] = [];
    let before: Laid | null = null;
    for (const [i, j] of piece.cells) {
      const doc = withValues(spec, spec.a.values[i]!, spec.b.values[j]!);
      const refused = refusalOf(doc, spec.assembly, thorough);
      if (refused !== null) {
        cells.push({ i, j, refused, ...NOTHING });
        yield;
        continue;
      }
      const laid: Laid = laidOut(doc, spec.assembly, before ?? ground.base);
      cells.push({ i, j, refused, ...judge(ground, laid, known) });
      before = laid;
      yield;
    }
    return { cells, known: piece.tell && before !== null ? toldOf(known, before, cells) : null };
  };
}

export function groundOf({ spec, thorough }: MapShared): Ground {
  const ends = [spec.a.values[0]!, spec.a.values.at(-1)!].flatMap((a) =>
    [spec.b.values[0]!, spec.b.values.at(-1)!].map((b) => withValues(spec, a, b)),
  );
  const corners = ends.filter((doc) => refusalOf(doc, spec.assembly, thorough) === null);
  return layGround(spec.doc, spec.assembly, corners);
}

const NOTHING = {
  state: 'unproven',
  marginMm: 0,
  fitMm: 0,
  pair: null,
  certified: false,
  evaluations: 0,
} as const satisfies Partial<MapCell>;

/** The build as it stands: its certified gaps are bounds; the cells of its pairs are not known yet. */
export function standing({ gaps }: MapShared, ground: Ground): Known {
  const proven: Known['proven'] = new Map();
  const byId = new Map(gaps.map((gap) => [gap.id, gap]));
  for (const { id } of ground.entries) {
    const gap = byId.get(id);
    if (gap === undefined || !gap.certified) continue;
    const lowerMm = new Map([[ground.base, Math.max(0, gap.lowerBoundMm)]]);
    proven.set(id, { leaves: [], lowerMm, atCrankRad: gap.atCrankRad });
  }
  const told = new Set(ground.entries.map((entry) => entry.id));
  return { proven, last: gaps.find((gap) => told.has(gap.id))?.id ?? null };
}

function* begin(known: Known, spec: MapSpec, ground: Ground, from: KnownAt): Steps<void> {
  const doc = withValues(spec, spec.a.values[from.i]!, spec.b.values[from.j]!);
  const laid = laidOut(doc, spec.assembly, ground.base);
  for (const { id, atCrankRad, leaves } of from.pairs) {
    const mine = leaves.map((leaf) => ({ ...leaf, at: laid }));
    known.proven.set(id, { leaves: mine, lowerMm: leastByDesign(mine), atCrankRad });
  }
  known.last = from.last;
  yield;
}

/** Bounds that were proven for designs before are made those of the last one: less by what may have moved between. */
function toldOf(known: Known, laid: Laid, cells: readonly MapCell[]): KnownAt {
  const { i, j } = cells.findLast((cell) => cell.refused === null)!;
  const pairs = [...known.proven].flatMap(([id, { leaves, atCrankRad }]) =>
    leaves.length > 0 && leaves.every((leaf) => leaf.at === laid || leaf.at === null)
      ? [{ id, atCrankRad, leaves: leaves.map(({ at, ...rest }) => rest) }]
      : [],
  );
  return { i, j, last: known.last, pairs };
}
