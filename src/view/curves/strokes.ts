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

/** Of the number of a line: six colours by six dashes, so that 36 can be told apart; after that they come round again. */
export function lookOf({ look, part }: Pick<Line, 'look' | 'part'>, colours: Colours): Look {
  const count = colours.lines.length;
  return {
    stroke: colours.lines[look % count]!,
    width: part === true ? 1.25 : 2,
    dash: [...DASHES[(look + Math.floor(look / count)) % DASHES.length]!],
  };
}

/** The same as a stroke beside a name: dashes longer than 5 px as dashed, shorter as dotted. */
export function borderOf(line: Pick<Line, 'look' | 'part'>, colours: Colours): string {
  const { stroke, dash } = lookOf(line, colours);
  const first = dash[0] ?? 0;
  return `3px ${dash.length === 0 ? 'solid' : first > 5 ? 'dashed' : 'dotted'} ${stroke}`;
}
