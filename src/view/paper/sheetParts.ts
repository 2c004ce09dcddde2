/** The job sheet on parts: the dimensions of block and assemblies with where they come from, what is bought and what is kept. */
import type { Dim } from '../../build/document.ts';
import { type DimensionRow, dimensionsOf, type Said } from '../../model/paper/dimensions.ts';
import { orderListOf } from '../../model/paper/orderList.ts';
import type { State } from '../../model/state.ts';
import { type Amount, written } from '../../model/sums/index.ts';
import { type Cell, heading, leadIn, paragraph, table } from './blocks.ts';
import type { PaperBlock } from './sheets.ts';

const FROM = { measured: 'm', stated: 's', assumed: 'a' } as const;

export function orderPart({ doc, assembly, units }: State): PaperBlock[] {
  const say = (found: Dim | Amount | null): string =>
    found === null ? 'not stated' : 'from' in found ? found.value : written(found, units);
  const compares = assembly !== doc.replaced;
  const rows = orderListOf(doc, assembly).map(({ what, count, cylinders, asBefore, figures }): Cell[] => [
    cylinders.length === 0 ? what : `${what}, cylinder ${cylinders.join(', ')}`,
    String(count),
    compares ? (asBefore ? 'as before' : 'other') : '',
    figures.map(([name, found]) => `${name} ${say(found)}`).join('; '),
    { text: '', kind: 'sw-paper-box' },
  ]);
  return [
    heading('Rods, pistons, bearings'),
    table(
      'Rods, pistons, bearings',
      [
        { title: 'Part', percent: 19 },
        { title: 'Count', percent: 7, figures: true },
        { title: compares ? 'Against before' : '', percent: 11 },
        { title: 'Figures', percent: 49 },
        { title: 'Ordered, in', percent: 14 },
      ],
      rows,
      'sw-paper-boxes',
    ),
    paragraph('Rings, gaskets and bolts as their makers ask for.', 'sw-paper-quiet'),
  ];
}

export function dimensionsPart({ doc, assembly, units }: State): PaperBlock[] {
  const compares = assembly !== doc.replaced;
  const groups = dimensionsOf(doc, assembly, compares ? doc.replaced : null);
  const said = (one: Said | null): string =>
    one === null ? '–' : one.from === null ? one.text : `${one.text} ${FROM[one.from]}`;
  const change = ({ change: found }: DimensionRow): string =>
    found === null || found.value.isZero() ? '' : written(found, units, true);
  const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
  return [
    heading(compares ? 'Dimensions of both assemblies' : 'Dimensions'),
    leadIn('Behind each: m measured, s stated by a maker or a drawing, a assumed.'),
    ...groups.flatMap(({ title, shared, rows }): PaperBlock[] => [
      shared || !compares
        ? table(
            title,
            [
              { title, percent: 34 },
              { title: '', percent: 16, figures: true },
              { title: '', percent: 34 },
              { title: '', percent: 16, figures: true },
            ],
            twoAbreast(rows.map((row) => [capital(row.label), said(row.proposed)])),
          )
        : table(
            title,
            [
              { title, percent: 31 },
              { title: 'Replaced', percent: 25, figures: true },
              { title: 'Proposed', percent: 25, figures: true },
              { title: 'Change', percent: 19, figures: true },
            ],
            rows.map((row) => [
              capital(row.label),
              said(row.replaced),
              { text: said(row.proposed), kind: isOther(row) ? 'sw-paper-other' : '' },
              change(row),
            ]),
          ),
    ]),
  ];
}

function isOther({ replaced, proposed }: DimensionRow): boolean {
  return replaced !== null && proposed !== null && replaced.text !== proposed.text;
}

/** Name and value twice in a row, read down the left half first. */
function twoAbreast(entries: readonly (readonly [string, string])[]): Cell[][] {
  const half = Math.ceil(entries.length / 2);
  return entries.slice(0, half).map(([name, value], k) => {
    const [other, beside] = entries[half + k] ?? ['', ''];
    return [name, value, { text: other, kind: 'sw-paper-second' }, beside];
  });
}
