/** What a drawing of the glossary is made of: lines, dimensions, arcs and words in millimetres, and the window they are seen through. */
import type { Outline } from '../../core/outline/outline.ts';

export type Point = readonly [across: number, up: number];

/** `ink`: an edge; `faint`: behind or beside the matter; `lit`: what the term means. */
export type Tone = 'ink' | 'faint' | 'lit';

export type Mark =
  | {
      readonly kind: 'line';
      readonly tone: Tone;
      readonly points: readonly Point[];
      readonly closed?: boolean;
      readonly filled?: boolean;
      readonly dashed?: boolean;
    }
  | {
      readonly kind: 'circle';
      readonly tone: Tone;
      readonly at: Point;
      readonly r: number;
      readonly filled?: boolean;
      readonly dashed?: boolean;
    }
  /** From one angle to another, clockwise from up, radians. */
  | {
      readonly kind: 'arc';
      readonly tone: Tone;
      readonly at: Point;
      readonly r: number;
      readonly from: number;
      readonly to: number;
    }
  | {
      readonly kind: 'outline';
      readonly tone: Tone;
      readonly outline: Outline;
      readonly place: Place;
      readonly filled?: boolean;
    }
  /** A dimension with arrows at its ends and its words beside its middle. */
  | {
      readonly kind: 'dim';
      readonly a: Point;
      readonly b: Point;
      readonly words: string;
      readonly side?: 'left' | 'right' | 'above';
    }
  | { readonly kind: 'arrow'; readonly a: Point; readonly b: Point; readonly words?: string }
  | {
      readonly kind: 'words';
      readonly at: Point;
      readonly words: string;
      readonly anchor?: 'start' | 'middle' | 'end';
    };

/** A frame carried to the drawing's: turned clockwise, then shifted. */
export interface Place {
  readonly across: number;
  readonly up: number;
  readonly turn: number;
}

/** Middle of the window and half of its height, mm. */
export interface Window {
  readonly at: Point;
  readonly half: number;
}

export const line = (tone: Tone, ...points: Point[]): Mark => ({ kind: 'line', tone, points });
export const dashed = (tone: Tone, ...points: Point[]): Mark => ({ kind: 'line', tone, points, dashed: true });
export const area = (tone: Tone, ...points: Point[]): Mark => ({
  kind: 'line',
  tone,
  points,
  closed: true,
  filled: true,
});
export const box = (tone: Tone, x0: number, y0: number, x1: number, y1: number): Mark =>
  area(tone, [x0, y0], [x1, y0], [x1, y1], [x0, y1]);
export const ring = (tone: Tone, at: Point, r: number): Mark => ({ kind: 'circle', tone, at, r });
export const disc = (tone: Tone, at: Point, r: number): Mark => ({ kind: 'circle', tone, at, r, filled: true });
export const arc = (tone: Tone, at: Point, r: number, from: number, to: number): Mark => ({
  kind: 'arc',
  tone,
  at,
  r,
  from,
  to,
});
export const dim = (a: Point, b: Point, words: string, side: 'left' | 'right' | 'above' = 'right'): Mark => ({
  kind: 'dim',
  a,
  b,
  words,
  side,
});
export const arrow = (a: Point, b: Point, words?: string): Mark => ({
  kind: 'arrow',
  a,
  b,
  ...(words === undefined ? {} : { words }),
});
export const words = (at: Point, said: string, anchor: 'start' | 'middle' | 'end' = 'middle'): Mark => ({
  kind: 'words',
  at,
  words: said,
  anchor,
});

/** A point at a distance from another, in a direction counted clockwise from up. */
export function toward([x, y]: Point, angle: number, distance: number): Point {
  return [x + Math.sin(angle) * distance, y + Math.cos(angle) * distance];
}

/** A point of a frame in the drawing. */
export function placed({ across, up, turn }: Place, x: number, y: number): Point {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return [across + c * x + s * y, up - s * x + c * y];
}
