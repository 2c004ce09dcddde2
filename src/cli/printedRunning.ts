/** The table from the static gaps to the running ones: one column for each allowance that is switched on. */
import type { Engine } from '../assembly/engine.ts';
import { ALLOWANCES, type Allowance } from '../model/running/allowances.ts';
import type { RunningGap } from '../model/running/runningGap.ts';
import type { Judged } from './report.ts';
import { type Column, tableLines } from './table.ts';
import { finerFor, gapName, inInches, inMm, plain } from './words.ts';

interface Row {
  readonly name: string;
  readonly engine: Engine;
  readonly running: RunningGap;
  readonly finer: number;
}

/** Changes are hundredths of a millimetre and less: told to a thousandth. */
const CHANGE_DECIMALS = 3;

const changeOf = (allowance: Allowance): Column<Row> => ({
  title: allowance,
  right: true,
  cell: ({ running }) => {
    const line = running.lines.find((each) => each.allowance === allowance);
    return line === undefined ? '' : `${line.changeMm < 0 ? '' : '+'}${inMm(line.changeMm, CHANGE_DECIMALS)}`;
  },
});

const COLUMNS: readonly Column<Row>[] = [
  { title: 'running, about', cell: ({ name }) => name },
  { title: 'static', right: true, cell: ({ running, finer }) => inMm(running.staticMm, 2 + finer) },
  ...ALLOWANCES.map(changeOf),
  { title: 'running', right: true, cell: ({ running }) => inMm(running.runningMm) },
  { title: '', right: true, cell: ({ running }) => inInches(running.runningMm) },
];

/** The lines; none where the build says nothing of the running engine. */
export function runningLines({ engine, told, running }: Judged): string[] {
  const { on, lacking, rpm, buildsSpeed } = running.engine;
  const rows = told.flatMap(({ gap }) => {
    const found = running.gaps.get(gap.id);
    return found === undefined ? [] : [{ name: gapName(gap), engine, running: found, finer: finerFor(gap) }];
  });
  const speed = on.includes('rod stretch') ? ` At ${rpm} rpm${buildsSpeed ? ', the speed of the build' : ''}.` : '';
  return [
    ...(rows.length === 0 ? [] : tableLines(COLUMNS, rows)),
    ...(rows.length === 0
      ? []
      : [
          `An estimate for gaps up to 3 mm above their limit. Gas pressure, bending and oil films are left out.${speed}`,
        ]),
    ...lacking.map(({ allowance, needs }) => `Left out: ${allowance}; still to be stated: ${needs.join(', ')}.`),
  ].map(plain);
}
