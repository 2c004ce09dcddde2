/** Where a dimension stands in the build document: reading it by its path, and the path as a `Problem` names it. */
import type { BuildDocument, Dim } from '../build/document.ts';
import type { Problem } from '../build/problem.ts';
import type { DimPath } from '../model/state.ts';

/** The dimension at a path, or null where the document leaves it out. */
export function dimAt(doc: BuildDocument, path: DimPath): Dim | null {
  let at: unknown = doc;
  for (const key of path) {
    if (typeof at !== 'object' || at === null || !Object.hasOwn(at, key)) return null;
    at = (at as Record<string | number, unknown>)[key];
  }
  return isDim(at) ? at : null;
}

/** Whether anything stands at a path. */
export function isThere(doc: BuildDocument, path: DimPath): boolean {
  let at: unknown = doc;
  for (const key of path) {
    if (typeof at !== 'object' || at === null || !Object.hasOwn(at, key)) return false;
    at = (at as Record<string | number, unknown>)[key];
  }
  return at !== undefined;
}

function isDim(value: unknown): value is Dim {
  return typeof value === 'object' && value !== null && typeof (value as Partial<Dim>).value === 'string';
}

/** `['assemblies', 1, 'crank', 'stroke']` as `assemblies[1].crank.stroke`. */
export function placeOf(path: DimPath): string {
  let place = '';
  for (const key of path) {
    if (typeof key === 'number') place += `[${key}]`;
    else place += place === '' ? key : `.${key}`;
  }
  return place;
}

/** The problems at a dimension: at its own place or at one of its parts (`….stroke.value`). */
export function problemsAt(problems: readonly Problem[], path: DimPath): readonly Problem[] {
  const place = placeOf(path);
  return problems.filter((problem) => problem.place === place || problem.place.startsWith(`${place}.`));
}

/** Why a value is refused, as it stands under a field: "12 in is refused. At most …". */
export function reasonText(offending: string, allowed: string): string {
  return offending === '' ? `Refused. ${allowed}` : `${offending} is refused. ${allowed}`;
}
