/** The mock-up log as work in pieces: its comparison, and the explanation of one entry, a dimension at a time. */
import type { BuildDocument } from '../../build/document.ts';
import type { Steps } from '../pieces/kind.ts';
import { type Comparison, compared, type Line, linesOf, type Rests, restsOn } from './compare.ts';
import { assemblyIndex, dimensionsOf } from './dimensions.ts';
import { type Explanation, explainBy } from './explain.ts';

/** Null: the predictions themselves, before any dimension is moved. */
export interface ComparePiece {
  readonly assembly: string;
  readonly dimension: number | null;
}

export type CompareResult = { readonly lines: readonly Line[] } | { readonly rests: readonly Rests[] };

export function compareKind(doc: BuildDocument): (piece: ComparePiece) => Steps<CompareResult> {
  const known = new Map<string, ReturnType<typeof linesOf>>();
  return function* ({ assembly, dimension }) {
    const lines = known.get(assembly) ?? linesOf(doc, assembly);
    known.set(assembly, lines);
    yield;
    if (dimension === null) return { lines: lines.lines };
    const named = dimensionsOf(doc, assemblyIndex(doc, assembly))[dimension]!;
    return { rests: restsOn(doc, assembly, lines, named) };
  };
}

/** Pieces of the comparison of a whole log: for each assembly that it speaks of the predictions, then each dimension. */
export function comparePieces(doc: BuildDocument): ComparePiece[] {
  const assemblies = [...new Set((doc.mockUp ?? []).map((entry) => entry.assembly))];
  return assemblies.flatMap((assembly): ComparePiece[] => [
    { assembly, dimension: null },
    ...dimensionsOf(doc, assemblyIndex(doc, assembly)).map((_, dimension) => ({ assembly, dimension })),
  ]);
}

/** The comparisons out of all pieces and their results, in the order of the log. */
export function gathered(pieces: readonly ComparePiece[], results: readonly CompareResult[]): Comparison[] {
  const out: Comparison[] = [];
  pieces.forEach(({ assembly }, k) => {
    const result = results[k]!;
    if (!('lines' in result)) return;
    const rests = results.filter((each, j) => pieces[j]!.assembly === assembly && 'rests' in each);
    result.lines.forEach((line, n) => {
      out.push(
        compared(
          line,
          rests.map((each) => ('rests' in each ? each.rests[n]! : null)),
        ),
      );
    });
  });
  return out.sort((a, b) => a.index - b.index);
}

export interface ExplainTask {
  readonly doc: BuildDocument;
  readonly assembly: string;
  readonly comparisons: readonly Comparison[];
  /** The entry to be explained. */
  readonly index: number;
}

/** A piece is a dimension, by its place in `dimensionsOf`. */
export function explainKind({
  doc,
  assembly,
  comparisons,
  index,
}: ExplainTask): (piece: number) => Steps<Explanation[]> {
  const dimensions = dimensionsOf(doc, assemblyIndex(doc, assembly));
  const ofAssembly = comparisons.filter((c) => c.entry.assembly === assembly);
  return (piece) => explainBy(doc, assembly, ofAssembly, index, dimensions[piece]!);
}
