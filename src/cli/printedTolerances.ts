/** Sensitivities, sums of tolerances and chance builds as text. */
import type { ReportedChance, ReportedSensitivity, ReportedTolerances } from './reportTolerances.ts';
import { type Column, tableLines } from './table.ts';
import { inBoth, inInches, inMm, plain } from './words.ts';

const STEP = 0.1;

function signed(mm: number, say: (mm: number) => string): string {
  const text = say(mm);
  return mm > 0 && /[1-9]/.test(text) ? `+${text}` : text;
}

const change = (mm: number | null): string => (mm === null ? 'refused' : signed(mm, (v) => inMm(v, 3)));

/** Per .001 in of a length: the same slope. Of an angle the change of the gap in inches per tenth of a degree. */
function inchesOf(s: ReportedSensitivity): string {
  if (s.slope === null) return '';
  const mm = s.slope * (s.per === 'mm' ? 0.0254 : STEP);
  return signed(mm, (v) => inInches(v, 5));
}

const COLUMNS: readonly Column<ReportedSensitivity>[] = [
  { title: '  dimension', cell: (s) => `  ${s.body}, ${s.dimension}` },
  { title: 'value', right: true, cell: (s) => s.value },
  { title: 'larger by 0.1 mm or °', right: true, cell: (s) => change(s.largerMm) },
  { title: 'smaller by 0.1', right: true, cell: (s) => change(s.smallerMm) },
  { title: 'per .001 in or 0.1°', right: true, cell: inchesOf },
  {
    title: 'its tolerance takes',
    right: true,
    cell: ({ tolerance: t }) =>
      t === null ? 'none stated: exact' : inBoth(Math.min(0, t.atPlusMm ?? 0, t.atMinusMm ?? 0)),
  },
];

export function toleranceLines(all: readonly ReportedTolerances[]): string[] {
  return all.flatMap((t) => {
    const names = plain(t.between.join(' · '));
    const lines = [
      `How ${names}, ${inBoth(t.gapMm)}, changes with each dimension, each part by itself:`,
      ...tableLines(COLUMNS, t.sensitivities).map(plain),
    ];
    if (t.sensitivities.every((s) => s.tolerance === null))
      return [...lines, '  No tolerance is stated for any of them: all count as exact.'];
    const worst =
      t.worstMm === null
        ? 'can’t be built as a whole'
        : `${inBoth(t.worstMm)}${t.worstLowerBoundMm === null ? ', proof not finished' : ', certified'}`;
    return [
      ...lines,
      `  worst case: ${inBoth(t.worstSumMm)} as a sum, ${worst} on the build laid out so; needed ${inBoth(t.neededMm)}`,
      `  root sum of squares: ${inBoth(t.middleMm - t.rssMm)} to ${inBoth(t.middleMm + t.rssMm)}`,
      ...(t.withoutTolerance > 0 ? [`  ${t.withoutTolerance} without a tolerance count as exact`] : []),
    ];
  });
}

/** A share in percent with as many decimals as it takes to tell it from none and from all. */
function percent(share: number): string {
  const text = (100 * share).toFixed(1);
  if (share > 0 && text === '0.0') return 'under 0.1 %';
  return share < 1 && text === '100.0' ? 'over 99.9 %' : `${text} %`;
}

export function chanceLines(c: ReportedChance): string[] {
  const as =
    c.spread.as === 'uniform'
      ? 'any value of its band alike'
      : `normal, the ends of its band ${c.spread.sigmas} standard deviations from its middle`;
  const lines = [`${c.builds} chance builds from seed ${c.seed}, each part by itself, each tolerance ${as}:`];
  if (c.refused > 0) lines.push(`  ${c.refused} are refused by a rule and left out`);
  if (c.chance === null || c.interval === null) return [...lines, '  none of them can be built'];
  lines.push(
    `  some gap below what it needs: ${percent(c.chance)}, with 95 % confidence ${percent(c.interval[0])} to ${percent(c.interval[1])}`,
  );
  if (c.notProven > 0) lines.push(`  ${c.notProven} proofs were not finished and count as below`);
  if (c.margin !== null) {
    const at = (share: number): string => inBoth(c.margin!.quantiles.find((q) => q.share === share)!.mm);
    lines.push(`  worst margin of each: mean ${inBoth(c.margin.meanMm)}, standard deviation ${inMm(c.margin.sdMm, 3)}`);
    lines.push(`  1 in 100 below ${at(0.01)}, half below ${at(0.5)}`);
  }
  const columns: readonly Column<ReportedChance['gaps'][number]>[] = [
    { title: '  below what it needs', cell: (g) => `  ${g.gap}` },
    { title: 'builds', right: true, cell: (g) => String(g.below) },
    { title: '95 %', right: true, cell: (g) => `${percent(g.interval[0])} to ${percent(g.interval[1])}` },
  ];
  if (c.gaps.length > 0) lines.push(...tableLines(columns, c.gaps).map(plain));
  return [...lines, 'As good as the tolerances stated; what has none counts as exact.'];
}
