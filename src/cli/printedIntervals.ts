/** The table of when in the turn gaps are below their limits. */
import type { Engine } from '../assembly/engine.ts';
import type { Told } from '../model/distinct.ts';
import type { Intervals } from '../model/intervals.ts';
import { arcsWords, countedFrom } from './intervalWords.ts';
import { type Column, tableLines } from './table.ts';
import { gapName, plain } from './words.ts';

interface Row extends Told {
  readonly engine: Engine;
  readonly intervals: Intervals;
}

const NOT_FINISHED = 'not finished: the work allowed for it ran out';

const words = ({ gap, engine, intervals }: Row, which: 'below' | 'touching'): string =>
  intervals.finished
    ? arcsWords(intervals[which], gap, engine.cylinders.find((c) => c.number === gap.cylinder)!)
    : NOT_FINISHED;

const COLUMNS: readonly Column<Row>[] = [
  { title: 'below the limit', cell: ({ gap }) => gapName(gap) },
  { title: 'over', cell: (row) => words(row, 'below') },
  { title: 'in contact over', cell: (row) => words(row, 'touching') },
  { title: 'degrees', cell: ({ gap }) => countedFrom(gap) },
];

/** The lines, none where no gap is below its limit. */
export function intervalLines(
  engine: Engine,
  told: readonly Told[],
  intervals: ReadonlyMap<string, Intervals>,
): string[] {
  const rows = told.flatMap((one) => {
    const found = intervals.get(one.gap.id);
    return found === undefined ? [] : [{ ...one, engine, intervals: found }];
  });
  return rows.length === 0 ? [] : tableLines(COLUMNS, rows).map(plain);
}
