/** The report as text: headline, figures, the aligned table of gaps, what would help, the caution. */
import type { Engine } from '../assembly/engine.ts';
import type { Told } from '../model/distinct.ts';
import type { Gap } from '../model/results.ts';
import { cureLines } from './printedCures.ts';
import { intervalLines } from './printedIntervals.ts';
import { mockUpLines } from './printedMockUp.ts';
import { runningLines } from './printedRunning.ts';
import { scalarLines } from './printedScalars.ts';
import { chanceLines, toleranceLines } from './printedTolerances.ts';
import { type Judged, stateOf } from './report.ts';
import type { ReportedCylinder } from './reportCylinder.ts';
import { type Column, tableLines } from './table.ts';
import {
  afterTdc,
  boundInInches,
  boundInMm,
  CAUTION,
  finerFor,
  gapName,
  headline,
  inBoth,
  inInches,
  inMm,
  plain,
} from './words.ts';

const UNFINISHED = 'not finished';

/** What slicing may add without a word, mm: half a unit of the last decimal printed, and a little. */
const SLICING_UNSAID_MM = 0.015;

/** Where slicing round parts keeps the figure on the safe side by more than its last decimal. */
function orMore(gap: Gap): string {
  return gap.slicingMm > SLICING_UNSAID_MM ? 'at least ' : '';
}

/** A row of the table of gaps. */
interface Row extends Told {
  readonly engine: Engine;
  readonly pairs: 'distinct' | 'all';
}

const COLUMNS: readonly Column<Row>[] = [
  { title: 'gap between', cell: ({ gap }) => gapName(gap) },
  // Where every pair has its own row the column says nothing, and is left out.
  { title: 'pairs', right: true, cell: ({ pairs, alike }) => (pairs === 'all' ? '' : String(1 + alike.length)) },
  { title: 'state', cell: ({ gap }) => stateOf(gap) },
  { title: 'gap', right: true, cell: ({ gap: g }) => orMore(g) + inMm(g.gapMm, 2 + finerFor(g)) },
  { title: '', right: true, cell: ({ gap: g }) => orMore(g) + inInches(g.gapMm, 3 + finerFor(g)) },
  {
    title: 'proven at least',
    right: true,
    cell: ({ gap: g }) => (g.certified ? boundInMm(g.lowerBoundMm) : UNFINISHED),
  },
  { title: '', right: true, cell: ({ gap: g }) => (g.certified ? boundInInches(g.lowerBoundMm) : '') },
  { title: 'limit', right: true, cell: ({ gap: g }) => inMm(g.limitMm) },
  { title: '', right: true, cell: ({ gap: g }) => inInches(g.limitMm) },
  {
    title: 'closest at',
    right: true,
    cell: ({ gap: g, engine }) => afterTdc(g, engine.cylinders.find((c) => c.number === g.cylinder)!),
  },
  { title: 'direction', cell: ({ gap: g }) => g.direction },
  { title: 'assumed', cell: ({ gap: g }) => g.assumed.join(', ') },
];

/** Of measured outlines, what their deviations take off. */
function deviationLine(told: readonly { readonly gap: Gap }[]): (readonly string[])[] {
  const owed = told.flatMap(({ gap }) => gap.deviationMm ?? []);
  if (owed.length === 0) return [];
  const gaps = owed.length === 1 ? '1 gap' : `${owed.length} gaps`;
  return [
    [`Measured outlines: their deviation, up to ${inBoth(Math.max(...owed))}, is taken off ${gaps} and the bounds.`],
  ];
}

/** The whole text, ending with a line break: headline, figures, tables, what would help, the caution; a blank line between. */
export function printed(judged: Judged): string {
  const { report, engine, told } = judged;
  const { build } = report;
  const parts: (readonly string[])[] = [
    [plain(`${build.name}: ${build.assembly} (${build.route})`), headline(report.states)],
    figureLines(judged),
    tableLines(
      COLUMNS,
      told.map((one) => ({ ...one, engine, pairs: report.pairs })),
    ).map(plain),
    ...deviationLine(told),
    intervalLines(engine, told, judged.intervals),
    runningLines(judged),
    scalarLines(report.singleFigures),
    ...(report.cures === undefined ? [] : [cureLines(report.cures)]),
    ...(report.tolerances === undefined ? [] : [toleranceLines(report.tolerances)]),
    ...(report.chanceBuilds === undefined ? [] : [chanceLines(report.chanceBuilds)]),
    ...(report.mockUp === undefined ? [] : [mockUpLines(report.mockUp)]),
    [CAUTION],
  ];
  return `${parts
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
}

/** 2.54 cm cubed, exactly. */
const CM3_PER_IN3 = 16.387064;

function figureLines({ report }: Judged): string[] {
  const { cylinders, speedRpm } = report.kinematics;
  const each = (value: (c: ReportedCylinder) => string): string => byCylinder(cylinders, value);
  const { displacementCm3 } = report.build;
  const cubicInches = displacementCm3 / CM3_PER_IN3;
  const rows: [string, string][] = [
    ['stroke', each((c) => inBoth(c.strokeMm))],
    ['rod length', each((c) => inBoth(c.rodLengthMm))],
    ['rod ratio', each((c) => c.rodRatio.toFixed(2))],
    ['displacement', `${displacementCm3.toFixed(0)} cm³ (${cubicInches.toFixed(1)} in³)`],
    ['deck clearance', each((c) => inBoth(c.deckClearanceMm))],
    ['mean piston speed', each((c) => `${c.meanSpeedMPerS.toFixed(2)} m/s at ${speedRpm} rpm`)],
    [
      'greatest speed',
      each(
        (c) => `${Math.abs(c.greatestInwardSpeed.mPerS).toFixed(2)} m/s inward, ${tdcDegrees(c.greatestInwardSpeed)}`,
      ),
    ],
    [
      'greatest acceleration',
      each(
        (c) => `${Math.abs(c.greatestInwardAccel.mPerS2).toFixed(0)} m/s² inward, ${tdcDegrees(c.greatestInwardAccel)}`,
      ),
    ],
  ];
  const width = Math.max(...rows.map(([name]) => name.length));
  return rows.map(([name, value]) => `${name.padEnd(width)}  ${value}`);
}

function tdcDegrees(at: { readonly afterTdcDeg: number }): string {
  return `${(Number(at.afterTdcDeg.toFixed(1)) % 360).toFixed(1)}° after TDC`;
}

/** One value where all cylinders share it, else each value with its cylinders. */
function byCylinder(cylinders: readonly ReportedCylinder[], value: (c: ReportedCylinder) => string): string {
  const by = new Map<string, number[]>();
  for (const c of cylinders) by.set(value(c), [...(by.get(value(c)) ?? []), c.cylinder]);
  if (by.size === 1) return [...by.keys()][0]!;
  return [...by].map(([text, numbers]) => `${text} in cylinder ${numbers.join(', ')}`).join('; ');
}
