/** Outlines standing still at a pose, and the gap of two of them. */
import { type GapAt, gapAt, type Mover, newGapAt } from '../../../src/core/clearance/gapAt.ts';
import { flatten } from '../../../src/core/outline/flat.ts';
import type { Piece } from '../../../src/core/outline/outline.ts';

export interface Stand {
  readonly pieces: readonly Piece[];
  readonly x?: number;
  readonly y?: number;
  /** Turned clockwise by this before it is moved to x, y. */
  readonly turnRad?: number;
}

export function standing({ pieces, x = 0, y = 0, turnRad = 0 }: Stand): Mover {
  return {
    flat: flatten({ pieces }),
    motion: {
      write: (_crankAngleRad, out) => {
        out.set([x, y, turnRad, 0, 0, 0]);
      },
      originSpeedMm: 0,
      originAccelMm: 0,
      turnSpeed: 0,
      turnAccel: 0,
    },
  };
}

export function gapBetween(a: Stand, b: Stand): GapAt {
  return gapAt(standing(a), standing(b), 0, Number.POSITIVE_INFINITY, true, newGapAt());
}
