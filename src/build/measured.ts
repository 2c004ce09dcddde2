/** A measured outline as a build document holds it. */
import type { Dim, Provenance } from './document.ts';

/** One straight or circular edge of a measured outline, starting at the point; bulge = tan(included angle / 4), positive = arc turning counterclockwise. */
export interface OutlinePoint {
  readonly x: Dim;
  readonly y: Dim;
  readonly bulge?: number;
}

/** A measured outline in place of the one drawn from dimensions: the first two together, or neither. */
export interface Measured {
  readonly outline?: readonly OutlinePoint[];
  readonly outlineFrom?: Provenance;
  /** How far the part may stand out of the outline at most; taken off every gap of it. Absent: nothing. */
  readonly outlineDeviation?: Dim;
}
