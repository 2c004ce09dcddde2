/** What would help, as text: for each gap below its limit a short table of single changes, each with what it costs elsewhere. */
import type { CuredGap, ReportedCure } from './reportCures.ts';
import { type Column, tableLines } from './table.ts';
import { inMm, plain } from './words.ts';

const COLUMNS: readonly Column<ReportedCure>[] = [
  { title: '  change', cell: (c) => `  ${c.what}` },
  { title: 'dimension', cell: (c) => (c.body === null ? c.dimension : `${c.body}, ${c.dimension}`) },
  { title: 'from', right: true, cell: (c) => c.from },
  { title: 'to', right: true, cell: (c) => c.to },
  { title: 'gap', right: true, cell: (c) => inMm(c.gapMm) },
  { title: 'what it costs', cell: (c) => costs(c).join('; ') },
];

/** The lines of all gaps, one after the other. */
export function cureLines(cured: readonly CuredGap[]): string[] {
  if (cured.length === 0) return ['Nothing to cure: no gap is below its limit.'];
  return cured.flatMap(({ between, cures }) => {
    const names = plain(between.join(' · '));
    if (cures.length === 0)
      return [`What would help ${names}: no single change restores the limit within what can be built.`];
    return [`What would help ${names}, one change each:`, ...tableLines(COLUMNS, cures).map(plain)];
  });
}

function costs(c: ReportedCure): string[] {
  const volume = c.displacementCm3.to - c.displacementCm3.from;
  return [
    c.compressionHeight === null ? '' : `compression height ${c.compressionHeight}`,
    c.rodRatio.to === c.rodRatio.from ? '' : `rod ratio ${c.rodRatio.from.toFixed(2)} to ${c.rodRatio.to.toFixed(2)}`,
    Math.abs(volume) < 0.5 ? '' : `displacement ${volume < 0 ? '-' : '+'}${Math.abs(volume).toFixed(0)} cm³`,
    c.momentLostKgMm === null ? '' : `about ${c.momentLostKgMm.toFixed(2)} kg mm less balance moment each`,
    c.better.length === 0 ? '' : `helps ${c.better.length} more`,
    c.worse.length === 0 ? '' : `makes worse: ${c.worse.join(', ')}`,
  ].filter((text) => text !== '');
}
