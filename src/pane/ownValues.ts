/** Where single bodies differ from the value in a field: "rod 3 has its own: 6.125 in". A field alone would hide it. */
import type { Assembly, Dim, Own } from '../build/document.ts';
import type { DimPath } from '../model/state.ts';

/** Dimensions that a traced outline leaves something to say: lengths along the shaft, and where the ends of a rod stop. */
const BESIDE_OUTLINE: Readonly<Record<string, readonly string[]>> = {
  counterweight: [],
  rod: [
    ...['length', 'bigEndRadius', 'bigEndWidth', 'shoulderHeight', 'beamThickness'],
    ...['smallEndRadius', 'smallEndWidth', 'beamOffset'],
  ],
};

/** Does a measured outline of this part take the place of the dimension. */
function isOutlined(part: unknown, key: string): boolean {
  if (part === 'piston') return key === 'bossRadius';
  const beside = typeof part === 'string' ? BESIDE_OUTLINE[part] : undefined;
  return beside !== undefined && !beside.includes(key);
}

/** Notes on the bodies that do not take the value at `path`, in the order of the file; empty for a path outside assemblies. */
export function ownNotes(assembly: Assembly, path: DimPath): readonly string[] {
  if (path[0] !== 'assemblies') return [];
  const [part, key] = [path[path.length - 2], path[path.length - 1]];
  if (typeof key !== 'string') return [];
  const notes: string[] = [];
  const outlined = isOutlined(part, key);
  if (outlined && (part === 'rod' || part === 'piston') && assembly[part].outline !== undefined) {
    notes.push(`${part}s have a measured outline`);
  }
  for (const own of assembly.own ?? []) {
    const dim = part === partOf(own) ? dimOf(own, key) : null;
    if (dim !== null) notes.push(`${nameOf(own)} has its own: ${dim.value}`);
    if (outlined && own.body === part && 'outline' in own && own.outline !== undefined) {
      notes.push(`${nameOf(own)} has a measured outline`);
    }
  }
  return notes;
}

/** Name of the group in the document whose values the body would take. */
function partOf(own: Own): string {
  return own.body === 'lobe' ? 'camshaft' : own.body;
}

function dimOf(own: Own, key: string): Dim | null {
  if (own.body === 'lobe') {
    if (key === `${own.valve}Lift`) return own.lift ?? null;
    return key === `${own.valve}Duration` ? (own.duration ?? null) : null;
  }
  const set: Readonly<Record<string, unknown>> = { ...own.set };
  const dim = Object.hasOwn(set, key) ? set[key] : undefined;
  return typeof dim === 'object' && dim !== null && 'value' in dim ? (dim as Dim) : null;
}

function nameOf(own: Own): string {
  switch (own.body) {
    case 'counterweight':
      return `counterweight ${own.throw} ${own.side}`;
    case 'lobe':
      return `${own.valve} lobe ${own.cylinder}`;
    default:
      return `${own.body} ${own.cylinder}`;
  }
}
