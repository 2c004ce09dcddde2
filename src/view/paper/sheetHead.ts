/** The head of the job sheet: whose job, which engine, which assemblies, does it fit, main figures, notes. */
import { distinct } from '../../model/distinct.ts';
import { CHANGES, type ChangeName, summaryOf } from '../../model/paper/summary.ts';
import type { State } from '../../model/state.ts';
import { type Amount, written } from '../../model/sums/index.ts';
import { html } from '../element.ts';
import { gapSentence, verdictHeadline, verdictSentence, verdictState } from '../gapWords.ts';
import { type Cell, heading, lines, table } from './blocks.ts';
import { factList } from './sheetGrind.ts';
import type { PaperBlock } from './sheets.ts';

const MOST_SENTENCES = 3;
/** Characters of a route that stand beside the name of its assembly. */
const MOST_IN_HEAD = 300;

const NAMES: Readonly<Record<ChangeName, string>> = {
  displacement: 'Displacement',
  travel: 'Piston travel',
  compression: 'Compression ratio',
  weight: 'Rods, pistons, bearings, the set',
  rodBearingSpeed: 'Surface speed of a rod journal',
  mainBearingSpeed: 'Surface speed of a main journal',
  meanPistonSpeed: 'Mean piston speed',
  greatestPistonSpeed: 'Greatest piston speed',
  rodPull: 'Rod tension at TDC',
  skirtOut: 'Skirt out of the bore at BDC',
};

export function headPart(state: State): PaperBlock[] {
  const { doc, assembly, engine, gaps, units } = state;
  const { block } = doc;
  const routeOf = (name: string): string => doc.assemblies.find((a) => a.name === name)!.route;
  const isLong = (name: string): boolean => routeOf(name).length > MOST_IN_HEAD;
  const withRoute = (name: string): string => (isLong(name) ? name : `${name}: ${routeOf(name)}`);
  const compares = assembly !== doc.replaced;
  const ill = distinct(engine, gaps).filter(({ gap }) => gap.state !== 'clears');
  const sentences = ill.slice(0, MOST_SENTENCES).map(({ gap }) => gapSentence(gap, engine, units));
  if (ill.length === 0) sentences.push(verdictSentence(gaps, engine, units));
  if (ill.length > MOST_SENTENCES) sentences.push(`${ill.length - MOST_SENTENCES} more situations below.`);
  const kind = verdictState(gaps);
  return [
    { element: html('h2', { class: 'sw-paper-title' }, doc.name), before: 0, keepWithNext: true },
    factList(
      [
        ['Layout', block.layout.replaceAll('-', ' ')],
        ['Bore', block.bore.value],
        ['Firing order', block.firingOrder.join('-')],
        ['Rotation, from the front', block.rotation],
        ['Engine speed', doc.speed.value],
        ['Allowance for assumed outlines', doc.assumedAllowance?.value ?? 'not stated'],
      ],
      [
        ...(doc.job?.reference === undefined ? [] : [['Customer reference', doc.job.reference] as const]),
        ['Proposed', withRoute(assembly)],
        ['Replaced', compares ? withRoute(doc.replaced) : 'nothing: this is the assembly as it is'],
      ],
    ),
    {
      element: html(
        'div',
        { class: `sw-paper-verdict sw-paper-${kind}` },
        html('p', { class: 'sw-paper-headline' }, verdictHeadline(gaps)),
        ...sentences.map((sentence) => html('p', {}, sentence)),
      ),
      before: 10,
    },
    ...[assembly, ...(compares ? [doc.replaced] : [])]
      .filter(isLong)
      .flatMap((name) => [heading(`How “${name}” comes about`), ...lines(routeOf(name))]),
    ...(doc.job?.notes === undefined ? [] : [heading('Notes'), ...lines(doc.job.notes)]),
    ...figuresTable(state),
  ];
}

function figuresTable({ doc, engine, units }: State): PaperBlock[] {
  const { changes, compares } = summaryOf(doc, engine);
  const say = (found: Amount | null, estimate: string | null): string =>
    found === null ? 'not stated' : `${estimate === null ? '' : 'about '}${written(found, units)}`;
  return [
    heading('Main figures'),
    table(
      'Main figures',
      [
        { title: `At ${doc.speed.value}`, percent: 37 },
        ...(compares ? [{ title: 'Replaced', percent: 21, figures: true }] : []),
        { title: compares ? 'Proposed' : '', percent: compares ? 21 : 63, figures: true },
        ...(compares ? [{ title: 'Change', percent: 21, figures: true }] : []),
      ],
      CHANGES.map((name): Cell[] => {
        const { before, after, difference, estimate, greatest } = changes[name];
        return [
          greatest ? `${NAMES[name]}, greatest of the cylinders` : NAMES[name],
          ...(compares ? [say(before, estimate)] : []),
          say(after, estimate),
          ...(compares
            ? [difference === null || difference.value.isZero() ? '' : written(difference, units, true)]
            : []),
        ];
      }),
    ),
  ];
}
