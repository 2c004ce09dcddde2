/** The job sheet for the bench: deck stack, balance card, boxes for the mock-up, cautions. */
import { distinct } from '../../model/distinct.ts';
import { benchRows, isTwoTurns } from '../../model/mockUp/benchRows.ts';
import { balanceCardOf } from '../../model/paper/balanceCard.ts';
import { deckStacksOf } from '../../model/paper/deckStack.ts';
import { withoutCylinders } from '../../model/paper/summary.ts';
import { sumsFor } from '../../model/paper/sums.ts';
import type { State } from '../../model/state.ts';
import { written } from '../../model/sums/index.ts';
import { CAUTION, formatFixed, formatGap, formatLength, gapLabel } from '../words.ts';
import { type Cell, heading, leadIn, paragraph, table } from './blocks.ts';
import { box } from './sheetGrind.ts';
import type { PaperBlock } from './sheets.ts';

export function deckPart({ doc, assembly, units }: State): PaperBlock[] {
  const stacks = deckStacksOf(doc, assembly);
  if (stacks.length === 0) return [];
  // Cylinders whose stacks read the same share a column.
  const groups = new Map<string, { cylinders: number[]; stack: (typeof stacks)[number] }>();
  for (const stack of stacks) {
    const key = JSON.stringify(stack.lines.map((l) => [l.name, l.amount.value.toFixed()]));
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { cylinders: [...stack.cylinders], stack });
    else group.cylinders.push(...stack.cylinders);
  }
  return [
    heading('Deck stack'),
    ...[...groups.values()].flatMap(({ cylinders, stack }): PaperBlock[] => [
      table(
        'Deck stack',
        [
          {
            title: groups.size === 1 ? 'All cylinders' : `Cylinder ${cylinders.sort((a, b) => a - b).join(', ')}`,
            percent: 40,
          },
          { title: '', percent: 6 },
          { title: 'Figured', percent: 24, figures: true },
          { title: 'As measured', percent: 30 },
        ],
        stack.lines.map(({ sign, name, amount }): Cell[] => [
          { text: name.charAt(0).toUpperCase() + name.slice(1), kind: sign === '=' ? 'sw-paper-state' : '' },
          sign,
          { text: written(amount, units), kind: sign === '=' ? 'sw-paper-state' : '' },
          box(),
        ]),
        'sw-paper-boxes',
      ),
      ...(stack.wanted.length === 0
        ? []
        : [
            paragraph(
              `For the wanted deck clearance of ${doc.assemblies.find((a) => a.name === assembly)!.wanted!.deckClearance!.value}, one part changed alone: ${stack.wanted.map((w) => `${w.name} ${written(w.amount, units)}`).join('; ')}.`,
            ),
          ]),
    ]),
  ];
}

export function balancePart({ doc, assembly, units }: State): PaperBlock[] {
  const card = balanceCardOf(doc, assembly);
  const { balance } = doc.assemblies.find((a) => a.name === assembly)!;
  return [
    heading('Balance card'),
    ...card.bobweights.flatMap(({ rods, factor, usualFactor, lines, total, lacks }): PaperBlock[] => [
      leadIn(
        `Bobweight of a crankpin with ${rods} ${rods === 1 ? 'rod' : 'rods'}; balance factor ${formatFixed(factor.toNumber() * 100, 1)} %${usualFactor ? ', the usual one: the build states none' : ''}.`,
      ),
      table(
        'Balance card',
        [
          { title: 'Weight of', percent: 32 },
          { title: 'Each', percent: 14, figures: true },
          { title: 'Times', percent: 8, figures: true },
          { title: 'Counts', percent: 30, figures: true },
          { title: 'As weighed', percent: 16 },
        ],
        [
          ...lines.map((line): Cell[] => [
            line.name.charAt(0).toUpperCase() + line.name.slice(1),
            line.each?.value ?? 'not stated',
            formatFixed(line.times.toNumber(), Number.isInteger(line.times.toNumber()) ? 0 : 2),
            line.part === null ? '–' : written(line.part, 'mm'),
            box(),
          ]),
          [
            { text: 'Bobweight', kind: 'sw-paper-state' },
            '',
            '',
            {
              text: total === null ? 'not stated' : written(total, units),
              kind: total === null ? '' : 'sw-paper-state',
            },
            box(),
          ],
        ],
        'sw-paper-boxes',
      ),
      ...(lacks.length === 0 ? [] : [paragraph(`No bobweight yet. Not stated: ${lacks.join('; ')}.`)]),
    ]),
    ...(card.others.length === 0
      ? []
      : [
          leadIn(
            `Against the core as it was balanced${balance?.correction === undefined ? '' : `; corrected ${balance.correction === 'external' ? 'outside, at damper and flywheel' : 'in the counterweights'}`}.`,
          ),
          table(
            'Balance, other figures',
            [
              { title: 'Balance', percent: 56 },
              { title: '', percent: 28, figures: true },
              { title: 'As corrected', percent: 16 },
            ],
            card.others.map((sum): Cell[] => [
              sum.name.charAt(0).toUpperCase() + sum.name.slice(1),
              `${sum.estimate === undefined ? '' : 'about '}${written(sum.amount!, units)}`,
              box(),
            ]),
            'sw-paper-boxes',
          ),
        ]),
    ...estimatesOf(card.others.map((s) => s.estimate)),
  ];
}

function estimatesOf(said: readonly (string | undefined)[]): PaperBlock[] {
  const all = [...new Set(said.filter((s) => s !== undefined))];
  return all.length === 0 ? [] : [paragraph(`About: ${all.join('; ')}.`, 'sw-paper-quiet')];
}

/** `every`: boxes for every cylinder, not for one of each situation. */
export function mockUpPart({ engine, gaps, units }: State, every: boolean): PaperBlock[] {
  const numbers = new Map(
    distinct(engine, gaps).flatMap(({ gap, alike }, k) => [gap, ...alike].map((g) => [g.id, k + 1] as const)),
  );
  const rows = benchRows(engine, gaps, null);
  const firsts = new Set<number>();
  const told = every
    ? rows
    : rows.filter(({ gap }) => {
        const number = numbers.get(gap.id)!;
        if (firsts.has(number)) return false;
        firsts.add(number);
        return true;
      });
  const turn = engine.mirrored ? 'counterclockwise' : 'clockwise';
  const scope =
    every || engine.cylinders.length === 1
      ? ''
      : ' One place of each situation; measure the others as well where parts differ.';
  return [
    heading('Mock-up'),
    leadIn(
      `The places worth measuring, cylinder by cylinder in the order in which the crank brings them up, turning ${turn} seen from the front.${scope} Turn by hand, bolts torqued, and stop at the first resistance.`,
    ),
    table(
      'Mock-up',
      [
        { title: 'Gap', percent: 5 },
        { title: 'Between', percent: 24 },
        { title: 'Crank at', percent: 17 },
        { title: 'Limit', percent: 11, figures: true },
        { title: 'Predicted', percent: 14, figures: true },
        { title: 'Measured', percent: 12 },
        { title: 'By', percent: 7 },
        { title: 'Date', percent: 10 },
      ],
      told.map(({ gap, cylinder, afterTdcDeg }): Cell[] => [
        String(numbers.get(gap.id)),
        gapLabel(gap),
        gap.kind === 'deck'
          ? `TDC ${cylinder}`
          : `${formatFixed(afterTdcDeg, 1)}° after ${isTwoTurns(gap.periodRad) ? 'firing ' : ''}TDC ${cylinder}`,
        formatLength(gap.limitMm, units),
        {
          text: formatGap(gap, units),
          kind: gap.state === 'clears' ? '' : `sw-paper-state sw-paper-${gap.state}`,
        },
        box(),
        box(),
        box(),
      ]),
      'sw-paper-boxes sw-paper-tall',
    ),
  ];
}

export function cautionsPart({ doc, assembly }: State): PaperBlock[] {
  // The same caution of several throws or cylinders is one.
  const said = new Map<string, string[]>();
  for (const sum of sumsFor(doc, assembly).flatMap((g) => g.sums)) {
    if (sum.remark?.caution !== true) continue;
    const key = withoutCylinders(sum.key);
    const text = `${key.charAt(0).toUpperCase()}${key.slice(1)}%: ${sum.remark.words}.`;
    said.set(text, [...(said.get(text) ?? []), sum.key.slice(key.length)]);
  }
  const cautions = [...said].map(([text, places]) => {
    const where = places.map((p) => p.replace(/^ of /, '')).filter((p) => p !== '');
    return text.replace('%', where.length === 0 ? '' : ` (${where.join(', ').replace(/, (throw|cylinder) /g, ', ')})`);
  });
  return [
    heading('Cautions'),
    ...(cautions.length === 0
      ? []
      : [
          table(
            'Cautions of the sums',
            [{ title: 'From the sums', percent: 100 }],
            cautions.map((said) => [said]),
          ),
        ]),
    paragraph(CAUTION),
    paragraph(
      'Turn by hand, with the bolts torqued; clay or feeler gauges at every place. Stop at the first resistance.',
    ),
  ];
}
