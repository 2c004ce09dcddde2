/** Changes to the document as data: one dimension set, one taken out, another that follows. The document itself is never changed. */

import { mm } from '../assembly/dims.ts';
import type { Assembly, BuildDocument, Dim, Provenance } from '../build/document.ts';
import { Exact, parseLength, withLengthMm } from '../build/literal.ts';
import { tdcPinHeightMm } from '../core/kinematics/sliderCrank.ts';
import type { DimPath } from './state.ts';

type Tree = Readonly<Record<string, unknown>> | readonly unknown[];

function isTree(value: unknown): value is Tree {
  return typeof value === 'object' && value !== null;
}

function isDim(value: unknown): value is Dim {
  return isTree(value) && 'value' in value && 'from' in value;
}

/** What stands at a path; undefined where there is nothing. */
export function at(doc: BuildDocument, path: DimPath): unknown {
  let here: unknown = doc;
  for (const key of path) {
    if (!isTree(here)) return undefined;
    here = (here as Record<string | number, unknown>)[key];
  }
  return here;
}

/** A copy with `value` at the path, sharing all that is unchanged; undefined takes the key out. */
function put(tree: Tree | undefined, path: DimPath, value: unknown): Tree {
  const [key, ...rest] = path;
  const copy: Record<string | number, unknown> | unknown[] = Array.isArray(tree)
    ? [...tree]
    : { ...(tree as object | undefined) };
  const slot = copy as Record<string | number, unknown>;
  if (rest.length > 0) slot[key!] = put(slot[key!] as Tree | undefined, rest, value);
  else if (value === undefined) delete slot[key!];
  else slot[key!] = value;
  return copy as Tree;
}

/** Sets the literal of a dimension, keeping where it comes from; makes it `stated` where there was none. */
export function withLiteral(doc: BuildDocument, path: DimPath, text: string): BuildDocument {
  const before = at(doc, path);
  const dim: Dim = isDim(before) ? { ...before, value: text } : { value: text, from: 'stated' };
  return put(doc as unknown as Tree, path, dim) as unknown as BuildDocument;
}

export function withProvenance(doc: BuildDocument, path: DimPath, from: Provenance): BuildDocument {
  const before = at(doc, path);
  return isDim(before) ? (put(doc as unknown as Tree, path, { ...before, from }) as unknown as BuildDocument) : doc;
}

/** Sets whatever is no dimension; undefined takes it out. What the schema refuses is refused when the document is taken. */
export function withValue(doc: BuildDocument, path: DimPath, value: unknown): BuildDocument {
  return put(doc as unknown as Tree, path, value) as unknown as BuildDocument;
}

/** Takes out an optional dimension; an emptied `limits` goes with it. */
export function without(doc: BuildDocument, path: DimPath): BuildDocument {
  if (at(doc, path) === undefined) return doc;
  const next = put(doc as unknown as Tree, path, undefined) as unknown as BuildDocument;
  return next.limits !== undefined && Object.keys(next.limits).length === 0
    ? (put(next as unknown as Tree, ['limits'], undefined) as unknown as BuildDocument)
    : next;
}

/** The build with one of its assemblies alone, for judging that one: log entries, which may speak of others, left out. */
export function aloneWith(doc: BuildDocument, name: string): BuildDocument {
  const { mockUp: _, ...rest } = doc;
  return { ...rest, assemblies: doc.assemblies.filter((a) => a.name === name), replaced: name, proposed: name };
}

/** Do the pistons' top places depend on the dimension at this path. */
export function movesTheTop(path: DimPath): boolean {
  const [head, , part, key] = path;
  if (head === 'block') return path[1] === 'deckHeight';
  return head === 'assemblies' && ((part === 'crank' && key === 'stroke') || (part === 'rod' && key === 'length'));
}

function offsetMm(doc: BuildDocument, assembly: Assembly): number {
  return mm(doc.block.boreOffset) + mm(assembly.piston.pinOffset);
}

/** Deck height less pin height at TDC: what compression height and deck clearance share. Exact where the offset is zero. */
export function roomAbovePin(doc: BuildDocument, assembly: Assembly): InstanceType<typeof Exact> {
  const exactly = (dim: Dim): InstanceType<typeof Exact> => {
    const parsed = parseLength(dim.value);
    if (!parsed.ok) throw new RangeError(`${dim.value} is not a length`);
    return parsed.mm;
  };
  const deck = exactly(doc.block.deckHeight);
  const stroke = exactly(assembly.crank.stroke);
  const rod = exactly(assembly.rod.length);
  const e = offsetMm(doc, assembly);
  const inLine = deck.minus(stroke.div(2)).minus(rod);
  if (e === 0) return inLine;
  const s = { crankRadiusMm: stroke.toNumber() / 2, rodLengthMm: rod.toNumber(), offsetMm: e };
  // The offset lowers the pin a little; that part alone is physics and floating.
  return inLine.plus(new Exact(s.crankRadiusMm + s.rodLengthMm - tdcPinHeightMm(s)).toDecimalPlaces(6));
}

/**
 * `after` with the compression height of each assembly concerned moved so that its deck clearance is what it was in
 * `before`. Compression heights keep unit and style.
 */
export function withDeckClearanceHeld(before: BuildDocument, after: BuildDocument, path: DimPath): BuildDocument {
  let doc = after;
  after.assemblies.forEach((assembly, index) => {
    if (path[0] === 'assemblies' && path[1] !== index) return;
    const old = before.assemblies[index];
    if (old === undefined) return;
    const height = parseLength(old.piston.compressionHeight.value);
    if (!height.ok) return;
    const moved = height.mm.plus(roomAbovePin(after, assembly)).minus(roomAbovePin(before, old));
    doc = withLiteral(
      doc,
      ['assemblies', index, 'piston', 'compressionHeight'],
      withLengthMm(old.piston.compressionHeight.value, moved),
    );
  });
  return doc;
}

/** "assemblies[1].crank.stroke" */
export function placeOf(path: DimPath): string {
  return path.map((key, k) => (typeof key === 'number' ? `[${key}]` : k === 0 ? key : `.${key}`)).join('');
}

/** Does a literal say more than nothing; of its sign and digits alone. */
export function isPositive(text: string): boolean {
  return !/^\s*[-−]/.test(text) && /[1-9]/.test(text);
}

/** Do two documents say the same. */
export function sameDocument(a: BuildDocument, b: BuildDocument): boolean {
  return a === b || JSON.stringify(a) === JSON.stringify(b);
}
