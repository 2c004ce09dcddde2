/** A copy of a document with values put at places such as "assemblies[1].crank.stroke"; `undefined` takes the name out. */
export function changed(doc: unknown, changes: Readonly<Record<string, unknown>>): Record<string, unknown> {
  const copy = JSON.parse(JSON.stringify(doc)) as Record<string, unknown>;
  for (const [place, value] of Object.entries(changes)) {
    const path = place.split(/[.[\]]+/).filter((part) => part !== '');
    const last = path.pop()!;
    // biome-ignore lint/suspicious/noExplicitAny: walks a document by a path that is text
    const parent = path.reduce<any>((at, key) => at[key], copy);
    if (value === undefined) delete parent[last];
    else parent[last] = value;
  }
  return copy;
}
