/** The job sheet on the crankshaft: the work in its order, the grind sheet throw by throw with its drawing, what is turned to fit. */

import type { GrindSheet } from '../../model/paper/grindSheet.ts';
import { grindSheetOf } from '../../model/paper/grindSheet.ts';
import { exactMm } from '../../model/paper/lengths.ts';
import { groupFor } from '../../model/paper/sums.ts';
import type { State } from '../../model/state.ts';
import { type Amount, routeOf, written } from '../../model/sums/index.ts';
import { html } from '../element.ts';
import { bound, figure, heading, paragraph, table } from './blocks.ts';
import { grindDrawing } from './grindDrawing.ts';
import type { PaperBlock } from './sheets.ts';

export interface GrindPart {
  readonly blocks: readonly PaperBlock[];
  /** Of the drawing; null where there is none. */
  readonly scale: string | null;
}

export function grindPart(state: State): GrindPart {
  const { doc, assembly, units } = state;
  const { operations } = routeOf(doc, assembly, units);
  const sheet = grindSheetOf(doc, assembly);
  const work = [
    heading('Work on the crankshaft, in this order'),
    ...(operations.length === 0
      ? [paragraph(unstatedWork(state))]
      : [
          table(
            'Work on the crankshaft',
            [
              { title: '', percent: 5 },
              { title: 'Work', percent: 71 },
              { title: 'Done by', percent: 12 },
              { title: 'Date', percent: 12 },
            ],
            operations.map((said, k) => [String(k + 1), said, box(), box()]),
            'sw-paper-boxes',
          ),
        ]),
  ];
  const ground = sheet === null ? { blocks: [], scale: null } : groundBlocks(sheet, state);
  return { blocks: [...work, ...ground.blocks, ...turnedBlocks(state)], scale: ground.scale };
}

/** No work is stated: then either nothing is to be done, or what the crank is made from is missing. */
function unstatedWork({ doc, assembly }: State): string {
  const of = (name: string) => doc.assemblies.find((a) => a.name === name)!.crank;
  const [now, before] = [of(assembly), of(doc.replaced)];
  const differing = (['stroke', 'rodJournal', 'mainJournal'] as const)
    .filter((key) => now[key].value !== before[key].value)
    .map((key) => `${CRANK_WORDS[key]} ${now[key].value} in place of ${before[key].value}`);
  if (differing.length === 0) return 'None is stated: the crankshaft is used as it is.';
  return `Not stated. The crankshaft differs from the one replaced (${differing.join('; ')}), but no core is stated that it is ground from: there is no grind sheet.`;
}

const CRANK_WORDS = { stroke: 'stroke', rodJournal: 'rod journal', mainJournal: 'main journal' } as const;

/** A place to write in. */
export function box(): { readonly text: string; readonly kind: string } {
  return { text: '', kind: 'sw-paper-box' };
}

function groundBlocks(sheet: GrindSheet, { doc, assembly, units }: State): GrindPart {
  const say = (found: Amount | null): string => (found === null ? 'not stated' : written(found, units));
  const title = heading('Grind sheet, throw by throw');
  if (sheet.rows.length === 0) {
    const why = sheet.refused === null ? `Not stated: ${sheet.lacks.join('; ')}.` : `Can’t be done: ${sheet.refused}.`;
    return { blocks: [title, paragraph(`No grind sheet. ${why}`)], scale: null };
  }
  const crank = doc.assemblies.find((a) => a.name === assembly)!.crank;
  const least = sheet.rows.reduce((a, b) => (b.spare.value.lt(a.spare.value) ? b : a));
  const drawing = grindDrawing(
    least,
    exactMm(crank.mainJournal),
    sheet.caseDepth === null ? null : exactMm(sheet.caseDepth),
    units,
  );
  const rows = sheet.rows.map((row) => [
    row.throwNumber === null ? 'all' : String(row.throwNumber),
    `${say(row.radiusBefore)}\n${say(row.journalBefore)}`,
    say(row.indexError),
    `${say(row.radiusAfter)}\n${say(row.journalAfter)}`,
    say(row.movement),
    `${say(row.thin)}\n${say(row.thick)}`,
    row.spare.value.isNegative()
      ? {
          text: `lacks ${written({ as: row.spare.as, value: row.spare.value.abs() }, units)}`,
          kind: 'sw-paper-state sw-paper-contact',
        }
      : say(row.spare),
    row.caseLeft === null
      ? 'not stated'
      : row.caseLeft.value.gt(0)
        ? say(row.caseLeft)
        : { text: 'cut through', kind: 'sw-paper-state sw-paper-tight' },
    box(),
  ]);
  const facts = [
    ['Least stock, on the radius', sheet.leastStock?.value],
    ['Fillets of the rod journals', sheet.fillet?.value],
    ['Hardened case of the core', sheet.caseDepth?.value],
    ['Longest stroke of this core', sheet.longestStroke === null ? undefined : say(sheet.longestStroke)],
    ['Journal overlap of the core', sheet.overlapBefore === null ? undefined : say(sheet.overlapBefore)],
    ['Journal overlap after grinding', sheet.overlapAfter === null ? undefined : say(sheet.overlapAfter)],
  ] as const;
  return {
    blocks: [
      title,
      table(
        'Grind sheet, throw by throw',
        [
          { title: 'No.', percent: 5 },
          { title: 'Core: radius, journal', percent: 15, figures: true },
          { title: 'Index error', percent: 7, figures: true },
          { title: 'To be: radius, journal', percent: 15, figures: true },
          { title: 'Middle moved', percent: 12, figures: true },
          { title: 'Off thin, thick side', percent: 12, figures: true },
          { title: 'Diameter to spare', percent: 12, figures: true },
          { title: 'Case left', percent: 12 },
          { title: 'As ground', percent: 10 },
        ],
        rows,
        'sw-paper-boxes sw-paper-twofold',
      ),
      factList(facts.map(([name, value]) => [name, value ?? 'not stated'])),
      figure(
        drawing.element,
        `${drawing.caption} Crank strength after grinding is for a qualified crankshaft grinder to judge.`,
      ),
    ],
    scale: 'as marked',
  };
}

/** Names and values, two pairs in a line; the wide ones a line each. */
export function factList(
  entries: readonly (readonly [string, string])[],
  wide: readonly (readonly [string, string])[] = [],
): PaperBlock {
  const one = (kind: string, [name, value]: readonly [string, string]): HTMLElement =>
    html('div', { class: kind }, html('dt', {}, name), html('dd', {}, bound(value)));
  return {
    element: html(
      'dl',
      { class: 'sw-paper-facts' },
      ...wide.map((entry) => one('sw-paper-wide', entry)),
      ...entries.map((entry) => one('', entry)),
    ),
    before: 8,
  };
}

function turnedBlocks({ doc, assembly, units }: State): PaperBlock[] {
  const { intoBlock } = doc.assemblies.find((a) => a.name === assembly)!;
  if (intoBlock === undefined || intoBlock.length === 0) return [];
  const sums = groupFor(doc, assembly, 'Crank into the block');
  return [
    heading('Crankshaft turned to fit the block'),
    table(
      'Surfaces turned to fit',
      [
        { title: 'Surface', percent: 22 },
        { title: 'Is', percent: 16, figures: true },
        { title: 'Is to be', percent: 16, figures: true },
        { title: 'Comes off', percent: 14, figures: true },
        { title: 'To mind', percent: 18 },
        { title: 'As turned', percent: 14 },
      ],
      intoBlock.map((surface, k) => {
        const sum = sums[k];
        return [
          `${surface.name}, ${surface.is}`,
          surface.has.value,
          surface.takes.value,
          sum?.amount == null ? 'not stated' : written(sum.amount, units),
          sum?.remark?.words ?? '',
          box(),
        ];
      }),
      'sw-paper-boxes',
    ),
  ];
}
