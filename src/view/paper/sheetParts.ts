/** The job sheet on parts: the dimensions of block and assemblies with where they come from, what is bought and what is kept. */
import type { Dim } from '../../build/document.ts';
import { type DimensionRow, dimensionsOf, type Said } from '../../model/paper/dimensions.ts';
import { orderListOf } from '../../model/paper/orderList.ts';
import type { State } from '../../model/state.ts';
import { type Amount, written } from '../../model/sums/index.ts';
import { type Cell, heading, leadIn, paragraph, table } from './blocks.ts';
import type { PaperBlock } from './sheets.ts';

const FROM = { measured: 'm', stated: 's', assumed: 'a' } as const;

const AGAINST = { same: 'as before', 'other journal': 'as before, other journal', other: 'other' } as const;

export function orderPart({ doc, assembly, units }: State): PaperBlock[] {
  const say = (found: Dim | Amount | null): string =>
    found === null ? 'not stated' : 'from' in found ? found.value : written(found, units);
  const compares = assembly !== doc.replaced;
  const rows = orderListOf(doc, assembly).map(({ what, count, cylinders, against, figures }): Cell[] => [
    cylinders.length === 0 ? what : `${what}, cylinder ${cylinders.join(', ')}`,
    String(count),
    against === null ? '' : AGAINST[against],
    figures
      .filter(([name, found]) => found !== null || !name.startsWith('under'))
      .map(([name, found]) => `${name} ${say(found)}`)
      .join('; '),
    { text: '', kind: 'sw-paper-box' },
  ]);
  return [
    heading('Rods, pistons, bearings'),
    table(
      'Rods, pistons, bearings',
      [
        { title: 'Part', percent: 19 },
        { title: 'Count', percent: 7, figures: true },
        { title: compares ? 'Against before' : '', percent: 13 },
        { title: 'Figures', percent: 47 },
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
  const differing = groups.flatMap(({ title, shared, rows }) =>
    shared || !compares
      ? []
      : rows.filter((row) => row.replaced?.text !== row.proposed?.text).map((row) => ({ title, row })),
  );
  const change = ({ change: found }: DimensionRow): string =>
    found === null || found.value.isZero() ? '' : written(found, units, true);
  return [
    heading(compares ? 'Dimensions of both assemblies' : 'Dimensions'),
    leadIn(
      `Behind each: (m) measured, (s) stated by a maker or a drawing, (a) assumed${compares ? '; (m, s) measured on the replaced one, stated of the proposed one' : ''}.`,
    ),
    ...(differing.length === 0
      ? []
      : [
          table(
            'Dimensions that differ',
            [
              { title: 'What differs', percent: 30 },
              { title: 'Replaced', percent: 22, figures: true },
              { title: 'Proposed', percent: 22, figures: true },
              { title: 'Change', percent: 26, figures: true },
            ],
            differing.map(({ title, row }) => [
              `${title.replace(/,.*| with dimensions of their own/, '')}: ${row.label}`,
              said(row.replaced),
              { text: said(row.proposed), kind: 'sw-paper-other' },
              change(row),
            ]),
          ),
        ]),
    ...groups.flatMap(({ title, shared, rows }): PaperBlock[] => {
      const same = rows.filter((row) => shared || !compares || row.replaced?.text === row.proposed?.text);
      if (same.length === 0) return [];
      return [
        table(
          title,
          {
            title: shared || !compares ? title : `${title}, the same in both`,
            columns: [{ percent: 29 }, { percent: 21, figures: true }, { percent: 29 }, { percent: 21, figures: true }],
          },
          twoAbreast(same.map((row) => [capital(row.label), saidOfBoth(row)])),
        ),
      ];
    }),
  ];
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function said(one: Said | null): string {
  if (one === null) return '–';
  return one.from === null ? one.text : `${one.text} (${FROM[one.from]})`;
}

/** A value that both have, with both origins where they are unlike. */
function saidOfBoth({ replaced, proposed }: DimensionRow): string {
  if (replaced?.from == null || proposed?.from == null || replaced.from === proposed.from)
    return said(proposed ?? replaced);
  return `${proposed.text} (${FROM[replaced.from]}, ${FROM[proposed.from]})`;
}

/** Name and value twice in a row, read down the left half first. */
function twoAbreast(entries: readonly (readonly [string, string])[]): Cell[][] {
  const half = Math.ceil(entries.length / 2);
  return entries.slice(0, half).map(([name, value], k) => {
    const [other, beside] = entries[half + k] ?? ['', ''];
    return [name, value, { text: other, kind: 'sw-paper-second' }, beside];
  });
}
