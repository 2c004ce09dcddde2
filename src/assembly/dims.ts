/** Dimensions of the document as numbers, and the names of those that are assumed. The one place where literals become millimetres and radians. */
import type { Dim } from '../build/document.ts';
import { angleRad, lengthMm } from '../build/literal.ts';

/** Literals read before: a build has a hundred, and one changes at a time. */
const lengths = new Map<string, number>();
const angles = new Map<string, number>();
const MOST_REMEMBERED = 5000;

function remembered(known: Map<string, number>, text: string, read: (text: string) => number): number {
  const before = known.get(text);
  if (before !== undefined) return before;
  if (known.size >= MOST_REMEMBERED) known.clear();
  const value = read(text);
  known.set(text, value);
  return value;
}

export function mm(dim: Dim): number {
  return remembered(lengths, dim.value, lengthMm);
}

export function rad(dim: Dim): number {
  return remembered(angles, dim.value, angleRad);
}

/** What a dimension of a part is called in words: "cornerRadius" of the counterweight is "counterweight corner radius". */
function inWords(part: string, key: string): string {
  return `${part} ${key.replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`)}`;
}

function isDim(value: unknown): value is Dim {
  return typeof value === 'object' && value !== null && 'value' in value && 'from' in value;
}

/** Names of the assumed dimensions of a part, one level of groups included; `only` restricts it to some keys. */
export function assumedOf(part: string, dims: object, only?: readonly string[]): string[] {
  const out: string[] = [];
  for (const [key, value] of Object.entries(dims)) {
    if (only !== undefined && !only.includes(key)) continue;
    if (isDim(value)) {
      if (value.from === 'assumed') out.push(inWords(part, key));
    } else if (typeof value === 'object' && value !== null && !Array.isArray(value)) {
      out.push(...assumedOf(inWords(part, key), value));
    }
  }
  return out;
}
