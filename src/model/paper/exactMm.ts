/** A length of the document in millimetres, for drawing it to scale. */
import type { Dim } from '../../build/document.ts';
import { lengthMm } from '../../build/literal.ts';

export function exactMm(dim: Dim): number {
  return lengthMm(dim.value);
}
