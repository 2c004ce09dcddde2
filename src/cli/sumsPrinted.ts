/** The sums as text and as plain data. */
import type { BuildDocument } from '../build/index.ts';
import { type Amount, type Compared, type Input, routeOf, type Sum, written } from '../model/sums/index.ts';
import { plain } from './words.ts';

export const SUMS_CAUTION =
  "Planning aid. Measure the real parts before metal is cut. Figures with “about” are estimates. Crank strength after\ngrinding is for a qualified crankshaft grinder to judge; limits are the part maker's.";

interface Names {
  readonly replaced: string;
  readonly proposed: string;
}

/** What a sum comes to, in words: the amount, or what stands in its way. */
export function said(sum: Sum | null, units: BuildDocument['shownUnits']): string {
  if (sum === null) return '';
  if (sum.refused !== null) return `can't be done: ${sum.refused}`;
  if (sum.amount === null) return `lacks ${sum.lacks.join(', ')}`;
  const guide = sum.guide === undefined || sum.guide.state === 'within' ? '' : `, ${sum.guide.state} the usual range`;
  const about = sum.estimate === undefined || sum.amount.value.isZero() ? '' : 'about ';
  const remark = sum.remark === undefined ? '' : `, ${sum.remark.words}`;
  return `${about}${written(sum.amount, units)}${guide}${remark}`;
}

/** The whole text, ending with a line break. */
export function printedSums(doc: BuildDocument, names: Names, groups: readonly Compared[], explain: boolean): string {
  const units = doc.shownUnits;
  const lines = [plain(`${doc.name}: ${names.replaced} → ${names.proposed}`)];
  for (const name of [names.replaced, names.proposed]) {
    const { route, operations, parts } = routeOf(doc, name, units);
    lines.push('', `${name}: ${route}`);
    lines.push(...operations.map((words, k) => `  ${k + 1}. ${words}`), ...parts.map((words) => `  - ${words}`));
  }
  for (const group of groups) {
    lines.push('', group.title);
    for (const { key, replaced, proposed, difference } of group.rows) {
      const name = (proposed ?? replaced)!.name;
      lines.push(`  ${name === key ? key : name}`);
      const before = said(replaced, units);
      const after = said(proposed, units);
      if (before !== '' && before === after) lines.push(`      both      ${before}`);
      else {
        if (before !== '') lines.push(`      replaced  ${before}`);
        if (after !== '') lines.push(`      proposed  ${after}`);
      }
      if (difference !== null && !difference.value.isZero()) {
        lines.push(`      change    ${written(difference, units, true)}`);
      }
      if (explain) lines.push(...explained((proposed ?? replaced)!, units));
    }
  }
  return `${lines.map(plain).join('\n')}\n\n${SUMS_CAUTION}\n`;
}

function explained(sum: Sum, units: BuildDocument['shownUnits']): string[] {
  return [
    `      formula   ${sum.formula}`,
    ...sum.inputs.map((input) => `      from      ${input.name}: ${inputText(input, units)}`),
    `      source    ${sum.source}`,
    ...(sum.estimate === undefined ? [] : [`      left out  ${sum.estimate}`]),
    ...(sum.guide === undefined ? [] : [`      guide     ${guideText(sum)}`]),
  ];
}

function inputText(input: Input, units: BuildDocument['shownUnits']): string {
  if (input.dim !== undefined) return `${input.dim.value} (${input.dim.from})`;
  return input.amount === undefined ? 'not stated' : written(input.amount, units);
}

function guideText(sum: Sum): string {
  const { guide, amount } = sum;
  if (guide === undefined || amount === null) return '';
  const bound = (value: Amount['value'] | null): string =>
    value === null ? 'open' : written({ as: amount.as, value }, 'both');
  return `${bound(guide.low)} to ${bound(guide.high)}: ${guide.source}`;
}

/** For `--json`: amounts in base units as exact decimal text, with the name of the unit. */
export function reportedSums(doc: BuildDocument, names: Names, groups: readonly Compared[]) {
  const one = (sum: Sum | null) =>
    sum === null
      ? null
      : {
          amount: reported(sum.amount),
          lacks: sum.lacks,
          refused: sum.refused,
          estimate: sum.estimate ?? null,
          remark: sum.remark?.words ?? null,
          formula: sum.formula,
          source: sum.source,
          inputs: sum.inputs.map((input) => ({
            name: input.name,
            literal: input.dim?.value ?? null,
            from: input.dim?.from ?? null,
            amount: reported(input.amount ?? null),
          })),
          guide:
            sum.guide === undefined
              ? null
              : {
                  low: sum.guide.low?.toFixed() ?? null,
                  high: sum.guide.high?.toFixed() ?? null,
                  state: sum.guide.state,
                  source: sum.guide.source,
                },
        };
  return {
    build: doc.name,
    ...names,
    routes: [names.replaced, names.proposed].map((name) => routeOf(doc, name, doc.shownUnits)),
    groups: groups.map((group) => ({
      title: group.title,
      sums: group.rows.map((row) => ({
        name: row.key,
        replaced: one(row.replaced),
        proposed: one(row.proposed),
        difference: reported(row.difference),
      })),
    })),
    caution: SUMS_CAUTION.replace('\n', ' '),
  };
}

const BASE_UNIT: Readonly<Record<Amount['as'], string>> = {
  length: 'mm',
  'fine length': 'mm',
  weight: 'g',
  volume: 'cm3',
  displacement: 'cm3',
  ratio: '1',
  share: '1',
  angle: 'deg',
  speed: 'm/s',
  acceleration: 'm/s2',
  force: 'N',
  pressure: 'MPa',
  torque: 'N m',
  power: 'W',
  unbalance: 'g mm',
  viscosity: 'mPa s',
  area: 'mm2',
  count: '1',
};

function reported(amount: Amount | null) {
  return amount === null ? null : { value: amount.value.toFixed(), unit: BASE_UNIT[amount.as] };
}
