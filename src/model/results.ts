/** What the rest of the program shows: results of the sweep and figures, as plain data. Millimetres, radians. */
import type { GapKind } from '../build/document.ts';

/**
 * `unproven`: at or above its limit only if assumed outlines are right, and no allowance for them is stated.
 */
export type GapState = 'clears' | 'unproven' | 'tight' | 'contact';

export interface Gap {
  readonly id: string;
  readonly kind: GapKind;
  readonly between: readonly [string, string];
  /** The parts that come closest: "rim", "skirt", "pin boss", "bolt shoulder" … */
  readonly parts: readonly [string, string];
  readonly gapMm: number;
  /** Proven: the gap is nowhere smaller than this. Only when `certified`. */
  readonly lowerBoundMm: number;
  readonly certified: boolean;
  /** Why not certified although asked: the work budget ran out. */
  readonly budgetSpent: boolean;
  readonly evaluations: number;
  /** What slicing round parts adds to the gap on the safe side, at most. */
  readonly slicingMm: number;
  /** What measured outlines owe: already taken off the gap and its bound. Absent: nothing. */
  readonly deviationMm?: number;
  readonly atCrankRad: number;
  /** Nearest points, engine frame (x already mirrored for a counterclockwise engine). */
  readonly pointsMm: readonly [readonly [number, number, number], readonly [number, number, number]];
  readonly direction: 'in-plane' | 'axial';
  readonly axialOverlapMm: number;
  readonly limitMm: number;
  readonly state: GapState;
  readonly assumed: readonly string[];
  readonly cylinder: number;
  readonly periodRad: number;
  /** The layers that decide: index in the body (even layers, then round ones) and axial range. */
  readonly deciding: readonly [LayerRef, LayerRef];
}

export interface LayerRef {
  readonly source: number;
  readonly z0Mm: number;
  readonly z1Mm: number;
}

/** The gap of a pair along the cycle: `gapMm[k]` at crank angle `k * stepRad`, for ribbons and ring; over one period. */
export interface Profile {
  readonly id: string;
  readonly stepRad: number;
  readonly gapMm: Float32Array;
}

/** A pair at the present crank angle: for its witness line. */
export interface GapNow {
  readonly id: string;
  readonly gapMm: number;
  /** Engine frame, already mirrored for a counterclockwise engine. */
  readonly pointsMm: readonly [readonly [number, number], readonly [number, number]];
  readonly state: GapState;
}

export interface Figures {
  readonly strokeMm: number;
  /** Travel of the piston with offset: not the same as twice the crank radius. */
  readonly travelMm: number;
  readonly rodLengthMm: number;
  readonly rodRatio: number;
  readonly displacementCm3: number;
  readonly deckClearanceMm: number;
  readonly compressionHeightMm: number;
}

export interface MotionNow {
  readonly cylinder: number;
  /** Crank angle counted from the cylinder's true TDC, radians, -pi to pi. */
  readonly fromTdcRad: number;
  readonly belowTdcMm: number;
  readonly speedMPerS: number;
  readonly accelMPerS2: number;
  readonly rodAngleRad: number;
}
