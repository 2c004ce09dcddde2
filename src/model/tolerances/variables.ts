/**
 * Every dimension of a settled build (settled.ts) that can vary, found by walking the document: of the block, the crank, each
 * rod, piston and counterweight, the camshaft, single lobes and fixed parts. Lengths in millimetres, angles in degrees.
 */
import type { BuildDocument, Dim, Own, Provenance } from '../../build/document.ts';
import { parseAngle, parseLength } from '../../build/literal.ts';
import { withLiteral } from '../edit.ts';
import type { DimPath } from '../state.ts';

export interface Variable {
  /** Where it stands in the settled document. */
  readonly path: DimPath;
  /** Whose it is: "block", "crank", "camshaft", "rod 3", "counterweight 2 rear", the name of a fixed part. */
  readonly body: string;
  /** "length", "skirt below pin". */
  readonly label: string;
  readonly kind: 'length' | 'angle';
  readonly from: Provenance;
  /** The literal as written. */
  readonly text: string;
  /** mm or degrees. */
  readonly value: number;
  /** The band about the value, both zero or above; null where no tolerance is stated: then it counts as exact. */
  readonly band: { readonly plus: number; readonly minus: number } | null;
}

function isDim(value: unknown): value is Dim {
  return typeof value === 'object' && value !== null && 'value' in value && 'from' in value;
}

/** "skirtBelowPin" is "skirt below pin". */
function inWords(keys: readonly (string | number)[]): string {
  return keys
    .map((key) => (typeof key === 'number' ? String(key + 1) : key.replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`)))
    .join(' ');
}

/** What the body of an own entry is called, as in the names of gaps. */
export function ownName(own: Own): string {
  if (own.body === 'counterweight') return `counterweight ${own.throw} ${own.side}`;
  return own.body === 'lobe' ? `${own.valve} lobe ${own.cylinder}` : `${own.body} ${own.cylinder}`;
}

/**
 * All variables of a settled build, in the order of the document. Of the points of a drawn outline only those with a tolerance of
 * their own: a single point without one says nothing. The order is part of what a seed means (draws.ts).
 */
export function variablesOf(doc: BuildDocument): readonly Variable[] {
  const out: Variable[] = [];
  const walk = (value: unknown, path: DimPath, body: string, keys: readonly (string | number)[]): void => {
    if (isDim(value)) {
      const made = variable(value, path, body, keys);
      if (made !== null && (made.band !== null || !keys.includes('outline'))) out.push(made);
    } else if (Array.isArray(value)) {
      for (const [k, item] of value.entries()) walk(item, [...path, k], body, [...keys, k]);
    } else if (typeof value === 'object' && value !== null) {
      for (const [key, item] of Object.entries(value)) walk(item, [...path, key], body, [...keys, key]);
    }
  };
  const { fixed, ...block } = doc.block;
  walk(block, ['block'], 'block', []);
  for (const [k, part] of (fixed ?? []).entries()) walk(part, ['block', 'fixed', k], part.name, []);
  const { crank, camshaft, valvetrain, own } = doc.assemblies[0]!;
  const { counterweight, ...rest } = crank;
  walk(rest, ['assemblies', 0, 'crank'], 'crank', []);
  // Weighted cheeks have their own; the others share the hub's.
  const hub = variable(
    counterweight.hubRadius,
    ['assemblies', 0, 'crank', 'counterweight', 'hubRadius'],
    'bare cheeks',
    ['hubRadius'],
  );
  if (hub !== null) out.push(hub);
  walk(camshaft, ['assemblies', 0, 'camshaft'], 'camshaft', []);
  walk(valvetrain, ['assemblies', 0, 'valvetrain'], 'valves', []);
  for (const [k, entry] of (own ?? []).entries()) {
    const path: DimPath = ['assemblies', 0, 'own', k];
    const { set, ...others } = entry as Own & { readonly set?: object };
    walk(set, [...path, 'set'], ownName(entry), []);
    walk(others, path, ownName(entry), []);
  }
  return out;
}

function variable(dim: Dim, path: DimPath, body: string, keys: readonly (string | number)[]): Variable | null {
  const common = { path, body, label: inWords(keys), from: dim.from, text: dim.value } as const;
  const length = parseLength(dim.value);
  if (length.ok) return { ...common, kind: 'length', value: length.mm.toNumber(), band: bandOf(length.toleranceMm) };
  const angle = parseAngle(dim.value);
  return angle.ok ? { ...common, kind: 'angle', value: angle.deg.toNumber(), band: bandOf(angle.toleranceDeg) } : null;
}

interface Exactly {
  readonly toNumber: () => number;
}

function bandOf(tolerance: { readonly plus: Exactly; readonly minus: Exactly } | undefined): Variable['band'] {
  return tolerance === undefined ? null : { plus: tolerance.plus.toNumber(), minus: tolerance.minus.toNumber() };
}

/** Decimals of a value put in: a millionth of a micrometre, or of a thousandth of a degree. */
const DECIMALS = 9;

/** The document with some variables at other values, mm or degrees. */
export function withValues(
  doc: BuildDocument,
  changes: Iterable<{ readonly variable: Variable; readonly value: number }>,
): BuildDocument {
  let next = doc;
  for (const { variable: v, value } of changes) {
    next = withLiteral(next, v.path, `${value.toFixed(DECIMALS)} ${v.kind === 'length' ? 'mm' : 'deg'}`);
  }
  return next;
}

/**
 * Can the variable move a gap between these bodies: what belongs to other cylinders and cheeks is left out at once, the rest is
 * found by trying. Rod, piston and lobes of a cylinder go together, since each moves with the others; cylinder 1 sets the
 * camshaft's phase.
 */
export function concerns(doc: BuildDocument, v: Variable, bodies: readonly string[]): boolean {
  const k = v.path[2] === 'own' ? (v.path[3] as number) : undefined;
  const entry = k === undefined ? undefined : doc.assemblies[0]!.own?.[k];
  if (entry === undefined) return true;
  if (!('cylinder' in entry)) return bodies.includes(ownName(entry));
  return entry.cylinder === 1 || bodies.some((name) => name.endsWith(` ${entry.cylinder}`));
}
