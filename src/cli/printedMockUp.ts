/** The mock-up log against the build, as text: a table of entries, and for each that differs the dimensions that would explain it. */
import type { ReportedEntry, ReportedExplanation } from './reportMockUp.ts';
import { type Column, tableLines } from './table.ts';
import { inBoth, inMm, plain } from './words.ts';

const COLUMNS: readonly Column<ReportedEntry>[] = [
  { title: 'no.', right: true, cell: (e) => String(e.entry + 1) },
  { title: 'measured between', cell: (e) => e.between.join(' · ') },
  { title: 'at', cell: (e) => placeOf(e) },
  { title: 'with', cell: (e) => e.with },
  { title: 'on', cell: (e) => e.date },
  { title: 'measured', right: true, cell: (e) => e.measured },
  { title: 'predicted', right: true, cell: (e) => (e.predicted === null ? 'out of reach' : inBoth(e.predicted.gapMm)) },
  { title: 'difference', right: true, cell: (e) => (e.differenceMm === null ? '' : inMm(e.differenceMm)) },
  { title: 'explained', right: true, cell: (e) => (e.differenceMm === null ? '' : inMm(explainedOf(e))) },
  { title: '', cell: (e) => (e.differs ? 'differs' : e.differenceMm === null ? '' : 'agrees') },
];

function placeOf({ at, between }: ReportedEntry): string {
  if (at !== null) return `${at.afterTdc} after TDC ${at.cylinder}`;
  return between.includes('deck') ? 'TDC' : 'smallest';
}

/** What the tolerances explain in the direction of the difference. */
function explainedOf(e: ReportedEntry): number {
  return (e.differenceMm ?? 0) < 0 ? e.explainedDownMm : e.explainedUpMm;
}

const GROUNDS = {
  tolerance: 'within its tolerance',
  assumed: 'was assumed',
  stated: 'was stated',
  measured: 'was measured',
} as const;

const WHY: readonly Column<ReportedExplanation>[] = [
  { title: '  dimension', cell: (e) => `  ${e.dimension}${e.body === null ? '' : ` of ${e.body} alone`}` },
  { title: 'from', right: true, cell: (e) => e.from },
  { title: 'to', right: true, cell: (e) => e.to },
  { title: 'change', right: true, cell: ({ change, changeUnit }) => changeText(change, changeUnit) },
  { title: 'which', cell: (e) => GROUNDS[e.ground] },
  { title: 'the other measurements', cell: othersText },
];

function changeText(change: number, unit: 'mm' | 'deg'): string {
  const said = unit === 'mm' ? inMm(Math.abs(change)) : `${Math.abs(change).toFixed(2)}°`;
  return `${change < 0 ? '-' : '+'}${said}`;
}

function othersText({ others }: ReportedExplanation): string {
  if (others.length === 0) return '';
  const names = (list: ReportedExplanation['others']): string => list.map((o) => String(o.entry + 1)).join(', ');
  const won = others.filter((o) => !o.agreedBefore && o.agreesAfter);
  const lost = others.filter((o) => o.agreedBefore && !o.agreesAfter);
  const left = others.filter((o) => !o.agreedBefore && !o.agreesAfter);
  const said = [
    won.length === 0 ? '' : `explains no. ${names(won)} too`,
    lost.length === 0 ? '' : `no. ${names(lost)} would no longer agree`,
    left.length === 0 ? '' : `leaves no. ${names(left)}`,
  ].filter((text) => text !== '');
  return said.length === 0 ? 'all still agree' : said.join('; ');
}

export function mockUpLines(entries: readonly ReportedEntry[]): string[] {
  if (entries.length === 0) return ['The mock-up log of this build has no entry for this assembly.'];
  return [
    'Measured on the mock-up, and what the tolerances stated explain of the difference (root of the sum of squares, and slicing):',
    ...tableLines(COLUMNS, entries).map(plain),
    ...entries.filter((e) => e.differs).flatMap(explanationLines),
  ];
}

function explanationLines(e: ReportedEntry): string[] {
  const said = `No. ${e.entry + 1} differs by ${inMm(Math.abs(e.differenceMm!))}, more than the ${inMm(explainedOf(e))} the tolerances explain.`;
  if (e.explanations.length === 0) {
    return ['', `${said} No single dimension would explain it within a quarter of an inch.`];
  }
  return ['', `${said} One dimension each that would:`, ...tableLines(WHY, e.explanations).map(plain)];
}
