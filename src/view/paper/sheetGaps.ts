/** The job sheet on gaps: each situation once, with limit, static and running value and angle; the single figures; cures; the closest places drawn. */

import type { Cure } from '../../model/cures.ts';
import { distinct, type Told } from '../../model/distinct.ts';
import { figuresOf } from '../../model/figures.ts';
import type { Worked } from '../../model/paper/watcher.ts';
import type { Gap } from '../../model/results.ts';
import { alike, placesText } from '../../model/scalarPlaces.ts';
import { scalarsOf } from '../../model/scalars.ts';
import type { State } from '../../model/state.ts';
import { sectionAtGap } from '../svgSection/atState.ts';
import { PRINT_INK, svgSection } from '../svgSection/svgSection.ts';
import { formatAngleShort, formatFixed, formatGap, formatLength, gapLabel } from '../words.ts';
import { type Cell, figure, heading, leadIn, paragraph, table } from './blocks.ts';
import { momentText } from './momentText.ts';
import type { PaperBlock } from './sheets.ts';

/** Situations drawn: those that don't clear, at most so many; else the closest two. */
const DRAWN_AT_MOST = 4;
const DRAWN_AT_LEAST = 2;
/** Px of a section on the sheet: its width between the margins; two stand on a sheet. */
const SECTION = { width: 648, height: 352 } as const;
const MOST_CURES = 5;

const STATE_WORDS = { contact: 'in contact', tight: 'tight', unproven: 'unproven', clears: 'clear' } as const;

export function gapsPart(state: State, worked: Worked): PaperBlock[] {
  const { doc, engine, gaps, units } = state;
  const told = distinct(engine, gaps);
  const count = (of: Gap['state']): number => gaps.filter((g) => g.state === of).length;
  const states = (['contact', 'tight', 'unproven', 'clears'] as const)
    .filter((s) => count(s) > 0)
    .map((s) => `${count(s)} ${STATE_WORDS[s]}`)
    .join(', ');
  const ladder = [...worked.stories.values()].find((s) => s.engine.on.length > 0);
  const runs = ladder !== undefined;
  const running =
    ladder === undefined
      ? 'Running gaps: nothing is stated that the running engine takes of them.'
      : `Running gaps are estimates, with ${ladder.engine.on.join(', ')}; gas pressure, bending and oil films are left out. They stand where the gap is within 3 mm (.118 in) of its limit.`;
  const proven = gaps.every((g) => g.certified)
    ? 'Static gaps are proven all through the turn: none is anywhere more than 0.001 mm (.0001 in) smaller.'
    : 'Not every static gap could be proven: those marked * were only searched.';
  const allowance =
    doc.assumedAllowance !== undefined && gaps.some((g) => g.assumed.length > 0)
      ? ` Where a gap rests on assumed dimensions its limit has to be met with ${doc.assumedAllowance.value} to spare.`
      : '';
  const owed = gaps.some((g) => g.deviationMm !== undefined) ? ' What measured outlines owe is taken off.' : '';
  return [
    heading('Gaps'),
    leadIn(
      `${gaps.length} gaps in ${told.length} situations: ${states}. ${proven}${owed}${allowance} ${running} Limits are the builder’s and the part maker’s to set.`,
    ),
    table(
      'Gaps',
      [
        { title: 'No.', percent: 5 },
        { title: 'Between', percent: runs ? 29 : 37 },
        { title: 'Cylinders', percent: 11 },
        { title: 'Limit', percent: runs ? 11 : 12, figures: true },
        { title: 'Static', percent: runs ? 13 : 16, figures: true },
        ...(runs ? [{ title: 'Running', percent: 13, figures: true }] : []),
        { title: 'Crank at', percent: runs ? 18 : 19 },
      ],
      told.map((one, k) => gapRow(one, k + 1, state, worked, runs)),
    ),
    heading('Clearances that are one figure'),
    table(
      'Clearances that are one figure',
      [
        { title: 'Clearance', percent: 26 },
        { title: 'Where', percent: 30 },
        { title: 'At least', percent: 14, figures: true },
        { title: 'Is', percent: 14, figures: true },
        { title: '', percent: 16 },
      ],
      alike(scalarsOf(doc, engine)).map(({ scalar, places }): Cell[] => [
        scalar.name,
        placesText(places),
        scalar.guideMm === null ? '–' : formatLength(scalar.guideMm, units),
        formatLength(scalar.valueMm, units),
        { text: scalar.state ?? '', kind: `sw-paper-state sw-paper-${scalar.state ?? 'none'}` },
      ]),
    ),
  ];
}

function gapRow(
  { gap, alike: others }: Told,
  number: number,
  { engine, units }: State,
  worked: Worked,
  runs: boolean,
): Cell[] {
  const cylinder = engine.cylinders.find((c) => c.number === gap.cylinder)!;
  const on = [...new Set([gap, ...others].map((g) => g.cylinder))].sort((a, b) => a - b);
  const story = worked.stories.get(gap.id);
  const running = story?.running ?? null;
  const star = gap.certified ? '' : ' *';
  return [
    { text: String(number), kind: gap.state === 'clears' ? '' : 'sw-paper-state' },
    gapLabel(gap),
    cylindersText(on, others.length + 1, engine.cylinders.length),
    formatLength(gap.limitMm, units),
    {
      text: `${formatGap(gap, units)}${star}${gap.state === 'clears' ? '' : `\n${gap.state}`}`,
      kind: gap.state === 'clears' ? '' : `sw-paper-state sw-paper-${gap.state}`,
    },
    ...(runs ? [running === null ? '–' : `about ${formatLength(running.runningMm, units)}`] : []),
    angleText(gap, cylinder),
  ];
}

/** "1, 3, 5, 7", "all", and how many gaps they are where that is another number. */
function cylindersText(on: readonly number[], gaps: number, all: number): string {
  const said = on.length === all && all > 1 ? 'all' : on.join(', ');
  return gaps === on.length ? said : `${said} (${gaps})`;
}

function angleText(gap: Gap, cylinder: Parameters<typeof formatAngleShort>[1]): string {
  return gap.kind === 'deck' ? 'TDC' : formatAngleShort(gap.atCrankRad, cylinder, gap.periodRad);
}

export function curesPart(state: State, worked: Worked): PaperBlock[] {
  const { doc, units } = state;
  const told = distinct(state.engine, state.gaps);
  const ill = told.flatMap((one, k) =>
    one.gap.state === 'contact' || one.gap.state === 'tight' ? [{ ...one, number: k + 1 }] : [],
  );
  const applied = appliedCures(state);
  const done = paragraph(
    applied.length === 0
      ? 'In the figures of this sheet: no part is altered from its set, and no counterweight is turned down.'
      : `In the figures of this sheet, to be done on the parts: ${applied.join('; ')}.`,
  );
  if (ill.length === 0) return [heading('Cures'), { ...done, before: 6 }, paragraph('No gap needs another cure.')];
  return [
    heading('Cures'),
    { ...done, keepWithNext: true },
    leadIn(
      'Below: single changes that restore a limit. None of them is in the figures of this sheet; mark the one that is chosen, set it in the build, and print again.',
    ),
    ...together(ill, worked).flatMap(({ gap, numbers, cures }): PaperBlock[] => {
      const which = numbers.length === 1 ? `gap ${numbers[0]}` : `gaps ${numbers.join(', ')}`;
      const allowance =
        gap.assumed.length > 0 && doc.assumedAllowance !== undefined
          ? ` and the allowance of ${doc.assumedAllowance.value} for what is assumed`
          : '';
      const title = `For ${which}${numbers.length === 1 ? `, ${gapLabel(gap)}` : ''}, to its limit of ${formatLength(gap.limitMm, units)}${allowance}:`;
      if (cures === null)
        return [leadIn(title), paragraph(worked.failed === null ? 'being worked out.' : 'could not be worked out.')];
      if (cures.length === 0)
        return [leadIn(title), paragraph('no single change of these parts restores it within what can be built.')];
      return [
        leadIn(title),
        table(
          `Cures of ${which}`,
          [
            { title: 'Chosen', percent: 9 },
            { title: 'Change', percent: 22 },
            { title: 'From', percent: 13, figures: true },
            { title: 'To', percent: 15, figures: true },
            { title: 'Gap then', percent: 12, figures: true },
            { title: 'What it costs', percent: 29 },
          ],
          cures
            .slice(0, MOST_CURES)
            .map((cure): Cell[] => [
              { text: '', kind: 'sw-paper-box' },
              `${cure.what}${cure.body === null ? '' : ` (${cure.body})`}`,
              cure.from,
              cure.to,
              formatLength(cure.gapMm, units),
              costOf(cure, state),
            ]),
          'sw-paper-boxes',
        ),
      ];
    }),
  ];
}

interface Ill {
  readonly gap: Gap;
  readonly numbers: readonly number[];
  /** Null while they are worked out. */
  readonly cures: readonly Cure[] | null;
}

/** Gaps that the same changes cure, told once. */
function together(ill: readonly { readonly gap: Gap; readonly number: number }[], worked: Worked): Ill[] {
  const out = new Map<string, Ill>();
  for (const { gap, number } of ill) {
    const cures = worked.cures.get(gap.id) ?? null;
    const said = cures?.map((c) => [
      c.what,
      c.body,
      c.from,
      c.to,
      c.compressionHeight,
      c.closes.length,
      c.opens.length,
    ]);
    const key = cures === null || cures.length === 0 ? gap.id : JSON.stringify([said, gap.kind, gap.limitMm]);
    const known = out.get(key);
    out.set(
      key,
      known === undefined ? { gap, numbers: [number], cures } : { ...known, numbers: [...known.numbers, number] },
    );
  }
  return [...out.values()];
}

function costOf(cure: Cure, { units }: State): string {
  const parts: string[] = [];
  if (cure.compressionHeight !== null) parts.push(`compression height ${cure.compressionHeight}`);
  if (cure.rodRatio.to !== cure.rodRatio.from)
    parts.push(`rod ratio ${formatFixed(cure.rodRatio.from, 2)} to ${formatFixed(cure.rodRatio.to, 2)}`);
  if (cure.momentLostKgMm !== null) parts.push(`about ${momentText(cure.momentLostKgMm, units)} of balance, each`);
  if (cure.opens.length > 0) parts.push(`helps ${cure.opens.length} more`);
  if (cure.closes.length > 0) parts.push(`makes ${cure.closes.length} worse`);
  return parts.length === 0 ? 'nothing else' : parts.join('; ');
}

/** What the build already holds that was altered so that parts pass each other. */
function appliedCures({ doc, assembly }: State): string[] {
  const { core, crank, own } = doc.assemblies.find((a) => a.name === assembly)!;
  const out: string[] = [];
  const turned = core?.counterweightRadius;
  if (turned !== undefined && turned.value !== crank.counterweight.radius.value)
    out.push(`counterweights turned from ${turned.value} to ${crank.counterweight.radius.value}`);
  if (doc.block.boreNotch !== undefined)
    out.push(`bores notched ${doc.block.boreNotch.depth.value} deep, ${doc.block.boreNotch.width.value} wide`);
  const bodies = (own ?? []).length;
  if (bodies > 0)
    out.push(
      `${bodies} ${bodies === 1 ? 'part has' : 'parts have'} dimensions of their own, listed with the dimensions`,
    );
  return out;
}

/** The section at the closest places: what does not clear, else what is closest. */
export function drawingsPart(state: State): PaperBlock[] {
  const { doc, engine, gaps, units } = state;
  const told = distinct(engine, gaps).map((one, k) => ({ ...one, number: k + 1 }));
  // A gap along the crank does not show in a section square to it.
  const inSection = told.filter(({ gap }) => gap.kind !== 'deck' && gap.direction === 'in-plane');
  const ill = inSection.filter(({ gap }) => gap.state !== 'clears');
  const drawn = (ill.length >= DRAWN_AT_LEAST ? ill : inSection).slice(
    0,
    Math.max(DRAWN_AT_LEAST, Math.min(ill.length, DRAWN_AT_MOST)),
  );
  if (drawn.length === 0) return [];
  return [
    heading('Section at the closest places'),
    leadIn(
      `Drawn to fit the sheet: take no dimension off it.${units === 'both' ? ' Lengths in the drawings in millimetres.' : ''}`,
    ),
    ...drawn.map(({ gap, number }, k): PaperBlock => {
      const cylinder = engine.cylinders.find((c) => c.number === gap.cylinder)!;
      const title = `Gap ${number}: ${gapLabel(gap)}, crank ${angleText(gap, cylinder)} of cylinder ${gap.cylinder}`;
      const text = svgSection({
        ...sectionAtGap(state, gap),
        figures: figuresOf(doc, engine, gap.cylinder),
        // One unit on a drawing: two would not find room.
        units: units === 'both' ? 'mm' : units,
        ghost: null,
        ink: PRINT_INK,
        ...SECTION,
        id: `paper-section-${k}`,
        title,
      });
      const drawing = new DOMParser().parseFromString(text, 'image/svg+xml').documentElement;
      return figure(document.importNode(drawing, true), `${title}.`);
    }),
  ];
}
