/** A value put where it belongs: at its place in the document, or as the own value of one body that had the common one until now. */
import type { BuildDocument, CheekSide, Dim, Own } from '../../build/document.ts';
import { at, withLiteral, withProvenance } from '../edit.ts';
import type { DimPath } from '../state.ts';

/** One body by what it is, as an entry of the assembly's own list names it. */
export type OneBody =
  | { readonly body: 'counterweight'; readonly throw: number; readonly side: CheekSide }
  | { readonly body: 'rod' | 'piston'; readonly cylinder: number };

export interface Target {
  /** Of the dimension as it stands. */
  readonly path: DimPath;
  /** The one body that is to have the value of its own; null where it is set for all that share it. */
  readonly alone: OneBody | null;
}

/** The document with the dimension of a target set; nothing else changes. */
export function withValue(doc: BuildDocument, { path, alone }: Target, dim: Dim): BuildDocument {
  if (alone === null) return withProvenance(withLiteral(doc, path, dim.value), path, dim.from);
  const index = Number(path[1]);
  const key = String(path.at(-1));
  const own = doc.assemblies[index]!.own ?? [];
  const found = own.findIndex((each) => sameBody(each, alone));
  const before = own[found];
  const entry = { ...(before ?? alone), set: { ...(before as { set?: object } | undefined)?.set, [key]: dim } } as Own;
  const next = found < 0 ? [...own, entry] : own.map((each, k) => (k === found ? entry : each));
  return { ...doc, assemblies: doc.assemblies.map((a, k) => (k === index ? { ...a, own: next } : a)) };
}

function sameBody(own: Own, one: OneBody): boolean {
  if (own.body === 'counterweight')
    return one.body === 'counterweight' && own.throw === one.throw && own.side === one.side;
  return own.body === one.body && own.cylinder === one.cylinder;
}

/** The bodies of a pair that could have a common dimension of their own, but do not have it yet. */
export function bodiesApart(doc: BuildDocument, path: DimPath, between: readonly string[]): OneBody[] {
  const part = path[2] === 'crank' && path[3] === 'counterweight' ? 'counterweight' : path[2];
  if (path[0] !== 'assemblies' || path.length !== (part === 'counterweight' ? 5 : 4)) return [];
  const own = doc.assemblies[Number(path[1])]!.own ?? [];
  const key = String(path.at(-1));
  return between.flatMap((name): OneBody[] => {
    const one = bodyNamed(String(part), name);
    if (one === null) return [];
    const entry = own.findIndex((each) => sameBody(each, one));
    return entry >= 0 && at(doc, [...path.slice(0, 2), 'own', entry, 'set', key]) !== undefined ? [] : [one];
  });
}

/** A piston is moved by its rod, so a gap of piston 3 is one of rod 3 as well. */
function bodyNamed(part: string, name: string): OneBody | null {
  const weight = /^counterweight (\d+) (front|rear)$/.exec(name);
  if (weight !== null) {
    const side = weight[2] as CheekSide;
    return part === 'counterweight' ? { body: 'counterweight', throw: Number(weight[1]), side } : null;
  }
  const numbered = /^(rod|piston) (\d+)$/.exec(name);
  if (numbered === null || !(part === numbered[1] || (part === 'rod' && numbered[1] === 'piston'))) return null;
  return { body: part as 'rod' | 'piston', cylinder: Number(numbered[2]) };
}

export function bodyName(one: OneBody): string {
  return one.body === 'counterweight' ? `counterweight ${one.throw} ${one.side}` : `${one.body} ${one.cylinder}`;
}
