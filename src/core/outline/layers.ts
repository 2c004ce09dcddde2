/** Bodies as outlines in axial layers (DEVELOPERS.md, "Bodies"). */
import type { Outline } from './outline.ts';

export interface Layer {
  /** What a machinist calls this part of the body: "skirt", "pin boss", "bolt shoulder", "cap". */
  readonly part: string;
  readonly outline: Outline;
  readonly z0Mm: number;
  readonly z1Mm: number;
  /** A measured outline: how far the part may stand out of it at most, mm. Absent: not at all. */
  readonly deviationMm?: number;
}

/**
 * A part whose section changes along z (a round skirt, a bore). `slice` gives the union of its material over an axial
 * range within [z0Mm, z1Mm], exactly; null where there is none.
 */
export interface RoundLayer {
  readonly part: string;
  readonly z0Mm: number;
  readonly z1Mm: number;
  /** Axial place about which it is round: its section depends on the distance from there alone, to either side. */
  readonly centreMm: number;
  readonly slice: (z0Mm: number, z1Mm: number) => Outline | null;
  /** Two layers with the same key differ in nothing but these heights along their axis, mm: edges square to it, and no surface moves farther than one of them. */
  readonly alike?: { readonly key: string; readonly heightsMm: readonly number[] };
}
