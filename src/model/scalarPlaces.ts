/** Single figures of a name that are equal, told once with all the places they belong to. */
import type { Scalar } from './scalars.ts';

/** Values equal to this are one figure, mm: what is printed differs by less. */
const SAME_MM = 1e-6;

export interface Alike {
  readonly scalar: Scalar;
  readonly places: readonly string[];
}

/** What a figure belongs to: "throw 2, front", "cylinder 3"; empty for the crankshaft. */
export function placeOf(scalar: Scalar): string {
  if (scalar.cylinder !== undefined) return `cylinder ${scalar.cylinder}`;
  if (scalar.throw === undefined) return '';
  return `throw ${scalar.throw}${scalar.side === undefined ? '' : ` ${scalar.side}`}`;
}

/** Figures of one name and one value put together, in their order. */
export function alike(scalars: readonly Scalar[]): Alike[] {
  const out: { scalar: Scalar; places: string[] }[] = [];
  for (const scalar of scalars) {
    const place = placeOf(scalar);
    const known = out.find(
      (each) =>
        each.scalar.name === scalar.name &&
        each.scalar.state === scalar.state &&
        Math.abs(each.scalar.valueMm - scalar.valueMm) < SAME_MM &&
        each.scalar.assumed.join() === scalar.assumed.join(),
    );
    if (known === undefined) out.push({ scalar, places: place === '' ? [] : [place] });
    else known.places.push(place);
  }
  return out;
}

/** "throw 1 to 4", "cylinder 1, 3": places of one kind, a run of numbers said by its ends. */
export function placesText(places: readonly string[]): string {
  const kinds = new Map<string, number[]>();
  for (const place of places) {
    const [, kind, number, side = ''] = /^(\w+) (\d+)( \w+)?$/.exec(place)!;
    const key = `${kind}|${side}`;
    kinds.set(key, [...(kinds.get(key) ?? []), Number(number)]);
  }
  return [...kinds]
    .map(([key, numbers]) => {
      const [kind, side] = key.split('|');
      const run = numbers.length > 2 && numbers.every((n, k) => n === numbers[0]! + k);
      const said = run ? `${numbers[0]} to ${numbers.at(-1)}` : numbers.join(', ');
      return `${kind}${numbers.length > 1 ? 's' : ''} ${said}${side}`;
    })
    .join('; ');
}
