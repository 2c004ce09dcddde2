/**
 * The bodies that can stand by a measured outline: their names, what stands there now, and the document with an outline put there or
 * taken out. The names are those of gaps ("counterweight 2 rear", "rod 3", "piston 3"), "rods" and "pistons" for a whole
 * set, and the names of fixed parts.
 */
import {
  type Assembly,
  type BuildDocument,
  type Dim,
  layoutOfBlock,
  type Own,
  weightedCheeks,
} from '../build/index.ts';
import type { Measured, OutlinePoint } from '../build/measured.ts';

export type OutlineTarget =
  | { readonly body: 'counterweight'; readonly throw: number; readonly side: 'front' | 'rear' }
  /** null: the whole set. */
  | { readonly body: 'rod' | 'piston'; readonly cylinder: number | null }
  /** The faces are needed where there is no part of that name yet. */
  | { readonly body: 'fixed'; readonly name: string; readonly front?: Dim; readonly rear?: Dim };

/** What is put in place: all three, the deviation stated always. */
export interface OutlineEntry {
  readonly outline: readonly OutlinePoint[];
  readonly outlineFrom: NonNullable<Measured['outlineFrom']>;
  readonly outlineDeviation: Dim;
}

/** Every body of an assembly that can have one, as they are offered. */
export function outlineTargets(doc: BuildDocument, assembly: Assembly): readonly OutlineTarget[] {
  const layout = layoutOfBlock(doc.block);
  const each = (body: 'rod' | 'piston'): OutlineTarget[] => [
    { body, cylinder: null },
    ...layout.cylinders.map((c): OutlineTarget => ({ body, cylinder: c.number })),
  ];
  return [
    ...weightedCheeks(assembly, layout).map((c): OutlineTarget => ({ body: 'counterweight', ...c })),
    ...each('rod'),
    ...each('piston'),
    ...(doc.block.fixed ?? []).map((f): OutlineTarget => ({ body: 'fixed', name: f.name })),
  ];
}

export function targetName(target: OutlineTarget): string {
  if (target.body === 'counterweight') return `counterweight ${target.throw} ${target.side}`;
  if (target.body === 'fixed') return target.name;
  return target.cylinder === null ? `${target.body}s` : `${target.body} ${target.cylinder}`;
}

function isOwnOf(own: Own, target: OutlineTarget): boolean {
  if (own.body === 'lobe' || own.body !== target.body) return false;
  if (own.body === 'counterweight') {
    return target.body === 'counterweight' && own.throw === target.throw && own.side === target.side;
  }
  return 'cylinder' in target && own.cylinder === target.cylinder;
}

/** What stands at the place itself: for one rod of a set only what is its own. */
export function outlineAt(doc: BuildDocument, assemblyName: string, target: OutlineTarget): Measured | undefined {
  if (target.body === 'fixed') {
    const part = doc.block.fixed?.find((f) => f.name === target.name);
    return (
      part && {
        outline: part.outline,
        outlineFrom: part.from,
        ...(part.outlineDeviation && { outlineDeviation: part.outlineDeviation }),
      }
    );
  }
  const assembly = doc.assemblies.find((a) => a.name === assemblyName);
  if (assembly === undefined) return undefined;
  if (target.body !== 'counterweight' && target.cylinder === null) return holding(assembly[target.body]);
  return holding(assembly.own?.find((own) => isOwnOf(own, target)));
}

function holding(part: Measured | Own | undefined): Measured | undefined {
  return part !== undefined && 'outline' in part && part.outline !== undefined ? part : undefined;
}

/** Throws RangeError for a new fixed part without faces, or an assembly that does not exist. Whether the outline may stand there the rules say. */
export function withOutline(
  doc: BuildDocument,
  assemblyName: string,
  target: OutlineTarget,
  entry: OutlineEntry,
): BuildDocument {
  if (target.body === 'fixed') {
    const { outline, outlineFrom: from, outlineDeviation } = entry;
    const fixed = doc.block.fixed ?? [];
    const before = fixed.find((f) => f.name === target.name);
    const front = target.front ?? before?.front;
    const rear = target.rear ?? before?.rear;
    if (front === undefined || rear === undefined) throw new RangeError(`${target.name} has no faces along the shaft`);
    const part = { name: target.name, front, rear, outline, from, outlineDeviation };
    const next = before === undefined ? [...fixed, part] : fixed.map((f) => (f === before ? part : f));
    return { ...doc, block: { ...doc.block, fixed: next } };
  }
  return inAssembly(doc, assemblyName, (assembly) => {
    if (target.body !== 'counterweight' && target.cylinder === null) {
      return { ...assembly, [target.body]: { ...assembly[target.body], ...entry } };
    }
    const own = assembly.own ?? [];
    const before = own.find((o) => isOwnOf(o, target));
    if (before !== undefined) {
      return { ...assembly, own: own.map((o) => (o === before ? ({ ...o, ...entry } as Own) : o)) };
    }
    return { ...assembly, own: [...own, { ...target, ...entry } as Own] };
  });
}

/** Back to the outline drawn from dimensions; a fixed part, which has no other, goes altogether. The same document where there is nothing to take out. */
export function withoutOutline(doc: BuildDocument, assemblyName: string, target: OutlineTarget): BuildDocument {
  if (outlineAt(doc, assemblyName, target) === undefined) return doc;
  if (target.body === 'fixed') {
    const { fixed = [], ...block } = doc.block;
    const left = fixed.filter((f) => f.name !== target.name);
    return { ...doc, block: left.length === 0 ? block : { ...block, fixed: left } };
  }
  return inAssembly(doc, assemblyName, (assembly) => {
    if (target.body !== 'counterweight' && target.cylinder === null) {
      return { ...assembly, [target.body]: bare(assembly[target.body]) };
    }
    const { own = [], ...rest } = assembly;
    const left = own.flatMap((o) => {
      if (!isOwnOf(o, target)) return [o];
      const next = bare(o as Own & Measured);
      return isEmptyOwn(next) ? [] : [next as Own];
    });
    return left.length === 0 ? rest : { ...rest, own: left };
  });
}

function bare<T extends Measured>(part: T): Omit<T, keyof Measured> {
  const { outline: _, outlineFrom: _from, outlineDeviation: _deviation, ...rest } = part;
  return rest;
}

const NAMING = new Set(['body', 'throw', 'side', 'cylinder']);

/** Says which body it is about, and nothing of it. */
function isEmptyOwn(own: object): boolean {
  return Object.keys(own).every((key) => NAMING.has(key));
}

function inAssembly(doc: BuildDocument, name: string, change: (assembly: Assembly) => Assembly): BuildDocument {
  if (!doc.assemblies.some((a) => a.name === name)) throw new RangeError(`no assembly is called "${name}"`);
  return { ...doc, assemblies: doc.assemblies.map((a) => (a.name === name ? change(a) : a)) };
}
