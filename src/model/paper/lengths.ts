/** Lengths of the document as a paper needs them: in millimetres for drawing to scale, and the unit in which one was written. */
import type { Dim } from '../../build/document.ts';
import { lengthMm, unitOfLiteral } from '../../build/literal.ts';

export function exactMm(dim: Dim): number {
  return lengthMm(dim.value);
}

export function measuredInMm(dim: Dim): boolean {
  return unitOfLiteral(dim.value) === 'mm';
}
