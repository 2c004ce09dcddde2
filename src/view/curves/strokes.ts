/** How lines are told apart: by colour and by dashes, the same on the screen, in drawings and in the key. */
import type { Line } from '../../model/curves/lines.ts';
import { hex } from '../svgSection/svgPen.ts';
import type { Ink } from '../theme.ts';

export interface Colours {
  readonly ink: string;
  readonly rule: string;
  readonly paper: string;
  readonly lines: readonly string[];
}

export function hexColours(ink: Ink): Colours {
  return {
    ink: hex(ink.ink),
    rule: `${hex(ink.faint)}55`,
    paper: hex(ink.paper),
    lines: [ink.accent, ink.contact, ink.clears, ink.tight, ink.ink, ink.faint].map(hex),
  };
}

const DASHES: readonly (readonly number[])[] = [[], [10, 4], [3, 3], [12, 3, 3, 3], [6, 6], [2, 5]];

export interface Look {
  readonly stroke: string;
  readonly width: number;
  readonly dash: number[];
}

export function lookOf(line: Pick<Line, 'part'>, k: number, colours: Colours): Look {
  return {
    stroke: colours.lines[k % colours.lines.length]!,
    width: line.part === true ? 1.25 : 2,
    dash: [...DASHES[k % DASHES.length]!],
  };
}
