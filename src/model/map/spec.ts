/** What a map is of: two dimensions of one assembly, each over a list of values; and the build at each place of it. */
import type { BuildDocument } from '../../build/document.ts';
import { at, movesTheTop, withDeckClearanceHeld, withLiteral } from '../edit.ts';
import type { Gap, GapState } from '../results.ts';
import type { DimPath } from '../state.ts';

export interface MapAxis {
  readonly path: DimPath;
  /** Literals in the unit of the present one, rising. */
  readonly values: readonly string[];
}

export interface MapSpec {
  readonly doc: BuildDocument;
  readonly assembly: string;
  /** Compression height follows, so that the deck clearance stays; else the piston stays as it is. */
  readonly deckHeld: boolean;
  /** Drawn across and upward. */
  readonly a: MapAxis;
  readonly b: MapAxis;
}

export interface Change {
  readonly path: DimPath;
  readonly text: string;
}

/** One design of the map: indices into the values of the two axes. */
export interface MapCell {
  readonly i: number;
  readonly j: number;
  /** Why it can't be built, a sentence; then the rest says nothing. */
  readonly refused: string | null;
  /** Of the whole build: the worst of its gaps. */
  readonly state: GapState;
  /**
   * Least margin: gap, less the allowance where it rests on assumed outlines, less its limit. A deck clearance counts where it is
   * below its limit. Certified but in contact (see judge.ts).
   */
  readonly marginMm: number;
  /** The same with every deck clearance counted: below zero exactly where the margin is. */
  readonly fitMm: number;
  /** Whose margin it is. */
  readonly pair: Pick<Gap, 'id' | 'kind' | 'between' | 'parts' | 'gapMm' | 'limitMm' | 'slicingMm'> | null;
  /** False where a proof took more work than it may. */
  readonly certified: boolean;
  readonly evaluations: number;
}

/** The build with other values of the two dimensions. */
export function withValues(spec: Pick<MapSpec, 'doc' | 'deckHeld' | 'a' | 'b'>, a: string, b: string): BuildDocument {
  const { doc } = spec;
  const next = withLiteral(withLiteral(doc, spec.a.path, a), spec.b.path, b);
  const moving = [spec.a.path, spec.b.path].filter(movesTheTop);
  if (!spec.deckHeld || moving.length === 0 || [spec.a.path, spec.b.path].some(isCompressionHeight)) return next;
  return withDeckClearanceHeld(doc, next, moving.find((path) => path[0] === 'block') ?? moving[0]!);
}

function isCompressionHeight(path: DimPath): boolean {
  return path.at(-1) === 'compressionHeight';
}

/** What has to be set to get there: the two dimensions, and each compression height that follows. */
export function changesTo(spec: MapSpec, i: number, j: number): Change[] {
  const a = spec.a.values[i]!;
  const b = spec.b.values[j]!;
  const next = withValues(spec, a, b);
  const changes: Change[] = [
    { path: spec.a.path, text: a },
    { path: spec.b.path, text: b },
  ];
  for (const index of next.assemblies.keys()) {
    const path = ['assemblies', index, 'piston', 'compressionHeight'];
    if ([spec.a.path, spec.b.path].some((each) => each.join() === path.join())) continue;
    const [before, after] = [at(spec.doc, path), at(next, path)] as { value: string }[];
    if (before!.value !== after!.value) changes.push({ path, text: after!.value });
  }
  return changes;
}
