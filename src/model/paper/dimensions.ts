/** The dimensions of block and both assemblies side by side, as they were written, each with where it comes from. */
import type { Assembly, BuildDocument, Dim, Own, Provenance } from '../../build/document.ts';
import { exactBase, kindOf } from '../../build/literal.ts';
import { type Amount, amount } from '../sums/sum.ts';
import { ownName } from '../tolerances/variables.ts';

export interface Said {
  readonly text: string;
  /** Null for what is no dimension. */
  readonly from: Provenance | null;
}

export interface DimensionRow {
  readonly label: string;
  /** Null where that assembly does not say it; of the block always null. */
  readonly replaced: Said | null;
  readonly proposed: Said | null;
  /** Proposed less replaced, of lengths; null without both. */
  readonly change: Amount | null;
}

export interface DimensionGroup {
  readonly title: string;
  /** The block has one column. */
  readonly shared: boolean;
  readonly rows: readonly DimensionRow[];
}

/** Groups in the order of a sheet; those without a row are left out. `replaced` null: one assembly alone. */
export function dimensionsOf(doc: BuildDocument, proposed: string, replaced: string | null): DimensionGroup[] {
  const now = assemblyOf(doc, proposed);
  const before = replaced === null ? null : assemblyOf(doc, replaced);
  const { layout, freeLayout, rotation, firingOrder, fixed, head, lineBored, ...block } = doc.block;
  const part = (title: string, of: (a: Assembly) => object | undefined): DimensionGroup => ({
    title,
    shared: false,
    rows: paired(before === null ? [] : saidIn(of(before)), saidIn(of(now))),
  });
  return [
    {
      title: 'Block',
      shared: true,
      rows: [...saidIn(block), ...saidIn(head), ...saidIn(lineBored, 'line bored, ')].map(({ label, said }) => ({
        label,
        replaced: null,
        proposed: said,
        change: null,
      })),
    },
    part('Core, before grinding', ({ core }) => core && { ...core, throws: undefined }),
    part('Crankshaft', ({ crank }) => ({ ...crank, weighted: undefined })),
    part('Rod', ({ rod }) => ({ ...rod, outline: undefined })),
    part('Piston', ({ piston, pistonTop }) => ({ ...piston, outline: undefined, ...pistonTop })),
    part('Bearings', ({ bearings }) => bearings),
    part('Weights', ({ weights }) => weights),
    part('Camshaft', ({ camshaft }) => camshaft),
    part('Valves', ({ valvetrain }) => valvetrain),
    { title: 'Parts with dimensions of their own', shared: false, rows: ownRows(before, now) },
  ].filter((group) => group.rows.length > 0);
}

function assemblyOf(doc: BuildDocument, name: string): Assembly {
  const found = doc.assemblies.find((a) => a.name === name);
  if (found === undefined) throw new RangeError(`dimensionsOf: no assembly is called "${name}"`);
  return found;
}

interface Labelled {
  readonly label: string;
  readonly said: Said;
}

function isDim(value: unknown): value is Dim {
  return typeof value === 'object' && value !== null && 'value' in value && 'from' in value;
}

/** "skirtBelowPin" is "skirt below pin". */
function inWords(key: string): string {
  return key.replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`);
}

/** Every dimension and choice in it, one level of groups after the other; outlines and tables of lifts by their size. */
function saidIn(part: object | undefined, before = ''): Labelled[] {
  return Object.entries(part ?? {}).flatMap(([key, value]): Labelled[] => {
    const label = before + inWords(key);
    if (value === undefined) return [];
    if (isDim(value)) return [{ label, said: { text: value.value, from: value.from } }];
    if (typeof value === 'string' || typeof value === 'number')
      return [{ label, said: { text: String(value), from: null } }];
    if (Array.isArray(value)) {
      if (value.every(isDim))
        return value.map((dim, k) => ({ label: `${label} ${k + 1}`, said: { text: dim.value, from: dim.from } }));
      return [{ label, said: { text: `${value.length} points`, from: null } }];
    }
    return typeof value === 'object' && value !== null ? saidIn(value, `${label} `) : [];
  });
}

function paired(before: readonly Labelled[], now: readonly Labelled[]): DimensionRow[] {
  const labels = [...new Set([...now, ...before].map((each) => each.label))];
  return labels.map((label) => {
    const replaced = before.find((each) => each.label === label)?.said ?? null;
    const proposed = now.find((each) => each.label === label)?.said ?? null;
    return { label, replaced, proposed, change: changeOf(replaced, proposed) };
  });
}

function changeOf(a: Said | null, b: Said | null): Amount | null {
  if (a?.from == null || b?.from == null) return null;
  const [kindA, kindB] = [kindOf(a.text), kindOf(b.text)];
  if (kindA !== kindB || (kindA !== 'length' && kindA !== 'mass')) return null;
  return amount(kindA === 'length' ? 'length' : 'weight', exactBase(b.text, kindA).minus(exactBase(a.text, kindA)));
}

/** Own entries, one row for each thing that one of them says. */
function ownRows(before: Assembly | null, now: Assembly): DimensionRow[] {
  const said = (assembly: Assembly | null): Labelled[] => (assembly?.own ?? []).flatMap((own) => ownSaid(own));
  return paired(said(before), said(now));
}

function ownSaid(own: Own): Labelled[] {
  const {
    body,
    set,
    outlineFrom,
    throw: _,
    side,
    cylinder,
    valve,
    ...rest
  } = own as Own & {
    readonly set?: object;
    readonly outlineFrom?: Provenance;
    readonly throw?: number;
    readonly side?: string;
    readonly cylinder?: number;
    readonly valve?: string;
  };
  return saidIn({ ...set, ...rest }, `${ownName(own)}, `);
}
