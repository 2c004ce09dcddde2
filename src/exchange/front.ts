/**
 * Outlines between a build and the shop.
 *
 * In a build x is positive toward the side to which the top of the crank moves. For an engine that turns clockwise, seen from
 * the front, that is to the right, as drawn; for the other sense the build is the mirror image of what is seen. What is
 * written for the shop is as seen from the front; what is read from a drawing made so is turned back by the same step.
 */
import type { Block } from '../build/index.ts';
import type { Outline } from '../core/outline/outline.ts';
import { mirrorX } from '../core/outline/transform.ts';

export type Rotation = Block['rotation'];

/** A build's outline as seen from the front of the engine, or back: the step is its own inverse. Stays counterclockwise. */
export function asSeenFromFront(outline: Outline, rotation: Rotation): Outline {
  return rotation === 'clockwise' ? outline : mirrorX(outline);
}

/** Where whoever measures, draws or lays a template on stands. */
export type SeenFrom = 'front' | 'rear';

/** A build's outline as seen from the front or the rear of the engine, or back: the step is its own inverse. Stays counterclockwise. */
export function asSeen(outline: Outline, rotation: Rotation, seenFrom: SeenFrom = 'front'): Outline {
  return asSeenFromFront(seenFrom === 'rear' ? mirrorX(outline) : outline, rotation);
}

/** What a drawing says of its origin unless told otherwise. */
export const CRANK_CENTRE = 'crank centre';

/** An outline and what it is called. */
export interface NamedOutline {
  readonly name: string;
  readonly outline: Outline;
}

/** Throws RangeError unless every outline has pieces and every number in them is finite. */
export function requireDrawable(outlines: readonly NamedOutline[]): void {
  if (outlines.length === 0) throw new RangeError('There are no outlines to write.');
  for (const { outline } of outlines) {
    if (outline.pieces.length === 0) throw new RangeError('An outline has no edges.');
    for (const piece of outline.pieces) {
      for (const value of Object.values(piece)) {
        if (typeof value === 'number' && !Number.isFinite(value)) throw new RangeError(`An edge holds ${value}.`);
      }
    }
  }
}
