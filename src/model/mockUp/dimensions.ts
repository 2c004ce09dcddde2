/** Every dimension that an assembly is laid out from: where it stands in the document, and what it is called. */
import type { Assembly, BuildDocument, Dim, Own } from '../../build/document.ts';
import { kindOf } from '../../build/literal.ts';
import type { DimPath } from '../state.ts';

export interface NamedDim {
  readonly path: DimPath;
  readonly dim: Dim;
  /** "counterweight radius", "bore bottom", "length of rod 3". */
  readonly label: string;
}

/** Points of a measured outline, of which no single one explains anything, and how far it may stand off its part. */
const LEFT_OUT = new Set(['outline', 'outlineDeviation', 'deviation']);

/** Lengths and angles of the block and of one assembly, in the order of the document. */
export function dimensionsOf(doc: BuildDocument, assemblyIndex: number): NamedDim[] {
  const assembly = doc.assemblies[assemblyIndex]!;
  const { own = [], ...parts } = assembly;
  return [
    ...walk(doc.block, ['block'], (tail) => words(tail)),
    ...walk(parts, ['assemblies', assemblyIndex], partLabel),
    ...own.flatMap((each, k) =>
      walk(each, ['assemblies', assemblyIndex, 'own', k], (tail) => {
        const key = words(tail[0] === 'set' ? tail.slice(1) : tail);
        return `${key} of ${ownName(each)}`;
      }),
    ),
  ];
}

function walk(tree: object, path: DimPath, label: (tail: DimPath) => string, tail: DimPath = []): NamedDim[] {
  const out: NamedDim[] = [];
  for (const [name, value] of Object.entries(tree)) {
    if (typeof value !== 'object' || value === null || LEFT_OUT.has(name)) continue;
    const key = Array.isArray(tree) ? Number(name) : name;
    const [here, below] = [
      [...path, key],
      [...tail, key],
    ];
    if (!isDim(value)) out.push(...walk(value, here, label, below));
    else if (isShape(value)) out.push({ path: here, dim: value, label: label(below) });
  }
  return out;
}

/** Is it a length or an angle: weights, volumes and speeds move no outline. */
function isShape({ value }: Dim): boolean {
  const kind = kindOf(value);
  return kind === 'length' || kind === 'angle';
}

function isDim(value: object): value is Dim {
  return 'value' in value && 'from' in value;
}

/** Parts whose name says more than the key alone; of crank and camshaft the key is enough. */
const PART_WORDS: Readonly<Record<string, string>> = {
  counterweight: 'counterweight ',
  rod: 'rod ',
  piston: 'piston ',
};

function partLabel(tail: DimPath): string {
  const [part, ...rest] = tail[0] === 'crank' && tail[1] === 'counterweight' ? tail.slice(1) : tail;
  const said = words(rest);
  const before = PART_WORDS[String(part)] ?? '';
  return said.startsWith(before) ? said : before + said;
}

/** ["panRail", "halfWidth"] is "pan rail half width"; places of a list are counted from 1. */
function words(tail: DimPath): string {
  return tail
    .map((key) =>
      typeof key === 'number' ? String(key + 1) : key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`),
    )
    .join(' ');
}

/** What the body of an own entry is called. */
export function ownName(own: Own): string {
  if (own.body === 'counterweight') return `counterweight ${own.throw} ${own.side}`;
  return own.body === 'lobe' ? `${own.valve} lobe ${own.cylinder}` : `${own.body} ${own.cylinder}`;
}

/** Index of an assembly by its name; -1 when there is none. */
export function assemblyIndex(doc: BuildDocument, name: string): number {
  return doc.assemblies.findIndex((a: Assembly) => a.name === name);
}
