/**
 * Outlines made once for each set of dimensions: a build has eight rods alike, and while one dimension is dragged most
 * parts keep theirs. The key is the dimensions themselves.
 */
const MOST_REMEMBERED = 400;

export function remember<Dims, Made>(
  make: (dims: Dims) => Made,
): (dims: Dims) => { readonly key: string; readonly made: Made } {
  const known = new Map<string, { readonly key: string; readonly made: Made }>();
  return (dims) => {
    const key = JSON.stringify(dims);
    const before = known.get(key);
    if (before !== undefined) return before;
    if (known.size >= MOST_REMEMBERED) known.clear();
    const entry = { key, made: make(dims) };
    known.set(key, entry);
    return entry;
  };
}
