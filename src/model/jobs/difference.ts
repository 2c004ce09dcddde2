/**
 * What one document changes of another, as data: small where the two share most of what they hold, which documents one step apart
 * do. Applied to the first it gives the second. Names and list places alone make a path; a list that grew or shrank in one place
 * says so, and is not written out whole.
 */

export type Path = readonly (string | number)[];

export type Edit =
  /** Sets what stands at the path. */
  | { readonly at: Path; readonly put: unknown }
  /** Takes a name out of an object. */
  | { readonly at: Path; readonly out: true }
  /** In the list at the path: from place `from` on, `drop` items out and these in. */
  | { readonly at: Path; readonly from: number; readonly drop: number; readonly add: readonly unknown[] };

type Tree = Readonly<Record<string, unknown>>;

/** Edits that turn `before` into `after`; none where they say the same. Neither is changed. Both are plain data. */
export function difference(before: unknown, after: unknown): readonly Edit[] {
  const edits: Edit[] = [];
  walk(before, after, [], edits);
  return edits;
}

function walk(before: unknown, after: unknown, at: Path, edits: Edit[]): void {
  if (Object.is(before, after)) return;
  if (Array.isArray(before) && Array.isArray(after)) walkLists(before, after, at, edits);
  else if (isTree(before) && isTree(after)) {
    for (const name of Object.keys(before))
      if (!Object.hasOwn(after, name)) edits.push({ at: [...at, name], out: true });
    for (const [name, value] of Object.entries(after)) {
      if (Object.hasOwn(before, name)) walk(before[name], value, [...at, name], edits);
      else edits.push({ at: [...at, name], put: value });
    }
  } else edits.push({ at, put: after });
}

function walkLists(before: readonly unknown[], after: readonly unknown[], at: Path, edits: Edit[]): void {
  const shorter = Math.min(before.length, after.length);
  let head = 0;
  while (head < shorter && same(before[head], after[head])) head += 1;
  let tail = 0;
  while (tail < shorter - head && same(before[before.length - 1 - tail], after[after.length - 1 - tail])) tail += 1;
  const within = after.length - tail - head;
  let changed = 0;
  for (let k = head; k < head + within; k++) if (!same(before[k], after[k])) changed += 1;
  // Where most items differ, each one said by itself would be longer than all of them.
  if (before.length === after.length && changed <= within / 2 + 1) {
    for (let k = head; k < after.length - tail; k++) walk(before[k], after[k], [...at, k], edits);
    return;
  }
  const add = after.slice(head, after.length - tail);
  edits.push({ at, from: head, drop: before.length - tail - head, add });
}

/** Do two plain values say the same, names in any order. What they share is not looked into. */
export function same(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (Array.isArray(a) || Array.isArray(b)) {
    return Array.isArray(a) && Array.isArray(b) && a.length === b.length && a.every((item, k) => same(item, b[k]));
  }
  if (!isTree(a) || !isTree(b)) return false;
  const names = Object.keys(a);
  return (
    names.length === Object.keys(b).length && names.every((name) => Object.hasOwn(b, name) && same(a[name], b[name]))
  );
}

/** `before` with the edits made, sharing what they don't touch. Throws RangeError where an edit doesn't fit. */
export function edited(before: unknown, edits: readonly Edit[]): unknown {
  return edits.reduce((value, edit) => editedAt(value, edit.at, edit), before);
}

function editedAt(value: unknown, rest: Path, edit: Edit): unknown {
  if (rest.length === 0) {
    if ('put' in edit) return edit.put;
    if ('add' in edit && Array.isArray(value) && edit.from + edit.drop <= value.length) {
      return [...value.slice(0, edit.from), ...edit.add, ...value.slice(edit.from + edit.drop)];
    }
    throw new RangeError('an edit does not fit what it should change');
  }
  const [key, ...deeper] = rest as [string | number, ...(string | number)[]];
  if (typeof key === 'number') {
    if (!Array.isArray(value) || key >= value.length) throw new RangeError(`there is no item ${key} to change`);
    return value.map((item, k) => (k === key ? editedAt(item, deeper, edit) : item));
  }
  if (!isTree(value)) throw new RangeError(`there is nothing that has a ${key} to change`);
  if (deeper.length === 0 && 'out' in edit) {
    return Object.fromEntries(Object.entries(value).filter(([name]) => name !== key));
  }
  const inner = Object.hasOwn(value, key) ? value[key] : undefined;
  // Built from entries: a name such as __proto__ is then a name like any other.
  return Object.fromEntries([
    ...Object.entries(value).map(([name, item]) => [name, name === key ? editedAt(inner, deeper, edit) : item]),
    ...(Object.hasOwn(value, key) ? [] : [[key, editedAt(undefined, deeper, edit)]]),
  ]);
}

function isTree(value: unknown): value is Tree {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
