/** Measured outlines as bodies take them: exact pieces, a short key, the deviation they owe, and what of them is assumed. */
import type { MeasuredOutline } from '../build/bodyOf.ts';
import type { OutlinePoint } from '../build/document.ts';
import { outlinePieces } from '../build/outlinePieces.ts';
import type { Outline } from '../core/outline/outline.ts';
import { mm } from './dims.ts';

export interface MeasuredShape {
  readonly outline: Outline;
  /** Equal for outlines with equal points and deviation. */
  readonly key: string;
  readonly deviationMm: number;
  /** Names of what is assumed in it. */
  readonly assumed: readonly string[];
}

/** Numbers of outlines by their points as text: a key of some characters instead of some thousand. */
const numbers = new Map<string, number>();
const known = new WeakMap<readonly OutlinePoint[], number>();
const MOST_KNOWN = 400;
let last = 0;

function numberOf(points: readonly OutlinePoint[]): number {
  const before = known.get(points);
  if (before !== undefined) return before;
  const text = JSON.stringify(points);
  let number = numbers.get(text);
  if (number === undefined) {
    if (numbers.size >= MOST_KNOWN) numbers.clear();
    last += 1;
    number = last;
    numbers.set(text, number);
  }
  if (Object.isFrozen(points)) known.set(points, number);
  return number;
}

/** `what`: what the outline is called among assumed dimensions, such as "rod outline". */
export function measuredShape(measured: MeasuredOutline, what: string): MeasuredShape {
  const { points, from, deviation } = measured;
  const deviationMm = deviation === undefined ? 0 : mm(deviation);
  return {
    outline: outlinePieces(points),
    key: `measured ${numberOf(points)} ${deviationMm}`,
    deviationMm,
    assumed: [
      ...(from === 'assumed' ? [what] : []),
      ...(deviation?.from === 'assumed' ? [`deviation of the ${what}`] : []),
    ],
  };
}
