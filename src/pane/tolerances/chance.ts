/** Chance builds: what ± means, how many builds, of which seed; run, cancel, and what came of them. */
import type { State, Store } from '../../model/state.ts';
import { LARGEST_SEED } from '../../model/tolerances/draws.ts';
import type { Outcome } from '../../model/tolerances/outcome.ts';
import { spreadOf } from '../../model/tolerances/spread.ts';
import type { Chance, Tolerances, TolerancesWatcher } from '../../model/tolerances/watcher.ts';
import { button, labelled, make } from '../make.ts';
import { createSegmented } from '../segmented.ts';
import { lengthText } from '../unitHint.ts';
import { histogram } from './drawing.ts';
import { chanceWords, spreadWords } from './words.ts';

const FIRST_BUILDS = 1000;
/** Enough that a chance of 1 in 1000 is told to a quarter; more are drawn by the command. */
const MOST_BUILDS = 20_000;
const SIGMAS = [2, 3, 4, 6] as const;

export interface ChancePart {
  readonly element: HTMLElement;
  readonly show: (state: State, t: Tolerances) => void;
}

export function createChance(store: Store, watcher: TolerancesWatcher): ChancePart {
  const element = make('section', '', 'sw-mock_entries');
  let all = false;
  const scope = createSegmented<'one' | 'all'>(document, 'Of which gap', (value) => {
    all = value === 'all';
  });
  const spread = createSegmented<'uniform' | 'normal'>(document, 'What ± means', (value) => {
    store.send({
      do: 'put',
      path: ['tolerances'],
      value: value === 'uniform' ? { as: 'uniform' } : { as: 'normal', sigmas: 3 },
    });
  });
  const sigmas = createSegmented<number>(document, 'Standard deviations to each end of the band', (value) => {
    store.send({ do: 'put', path: ['tolerances'], value: { as: 'normal', sigmas: value } });
  });
  const meaning = make('p', '', 'sw-mock_quiet');
  const builds = numberField('1000', String(FIRST_BUILDS));
  const seed = numberField('1', '1');
  const row = make('div', '', 'sw-mock_row');
  row.append(labelled('Builds', builds), labelled('Seed', seed));
  const none = make('p', 'No dimension of this build states a tolerance: all builds drawn would be the one on show.');
  const refusal = make('p', '', 'sw-tol_refusal');
  refusal.setAttribute('role', 'alert');
  const run = button('Run', () => start());
  run.classList.add('sw-button-main');
  const cancel = button('Cancel', () => watcher.cancel());
  const buttons = make('div', '', 'sw-tol_buttons');
  const progress = make('progress');
  progress.max = 1;
  progress.setAttribute('aria-label', 'Chance builds judged');
  buttons.append(run, cancel, progress);
  const result = make('div');
  result.setAttribute('aria-live', 'polite');
  element.append(
    make('h3', 'Chance builds'),
    make(
      'p',
      'Builds drawn within the tolerances, each laid out and its gap found over the whole turn with a proven bound.',
      'sw-mock_quiet',
    ),
    spread.element,
    sigmas.element,
    meaning,
    scope.element,
    row,
    refusal,
    none,
    buttons,
    result,
  );

  function start(): void {
    const n = whole(builds, 1, MOST_BUILDS);
    const s = whole(seed, 0, LARGEST_SEED);
    refusal.textContent =
      n === null
        ? `Builds: allowed is a whole number from 1 to ${MOST_BUILDS}.`
        : s === null
          ? `Seed: allowed is a whole number from 0 to ${LARGEST_SEED}.`
          : '';
    const { gap } = watcher.state;
    if (n === null || s === null || gap === null) return;
    watcher.run(all ? null : gap.id, n, s);
  }

  function show(state: State, t: Tolerances): void {
    const stated = spreadOf(state.doc);
    spread.show(
      [
        { value: 'uniform', label: 'Uniform' },
        { value: 'normal', label: 'Normal' },
      ],
      stated.as,
    );
    sigmas.element.hidden = stated.as !== 'normal';
    if (stated.as === 'normal') {
      const known = [...new Set([...SIGMAS, stated.sigmas])].sort((a, b) => a - b);
      sigmas.show(
        known.map((value) => ({ value, label: String(value) })),
        stated.sigmas,
      );
    }
    meaning.textContent = spreadWords(stated);
    scope.show(
      [
        { value: 'one', label: 'This one' },
        { value: 'all', label: 'All gaps' },
      ],
      all ? 'all' : 'one',
    );
    const running = t.chance?.running === true;
    run.disabled = running || t.gap === null || t.toleranced === 0;
    none.hidden = t.toleranced !== 0;
    cancel.hidden = !running;
    progress.hidden = !running;
    progress.value = t.chance?.done ?? 0;
    if (t.chance === null) result.replaceChildren();
    else result.replaceChildren(...outcomeParts(t.chance, t, state));
  }
  return { element, show };
}

function numberField(placeholder: string, value: string): HTMLInputElement {
  const made = make('input');
  made.type = 'text';
  made.inputMode = 'numeric';
  made.autocomplete = 'off';
  made.placeholder = placeholder;
  made.value = value;
  return made;
}

/** A whole number within a range, marked where it is none. */
function whole(field: HTMLInputElement, least: number, most: number): number | null {
  const text = field.value.trim();
  const value = /^\d{1,12}$/.test(text) ? Number(text) : Number.NaN;
  const sound = value >= least && value <= most;
  field.setAttribute('aria-invalid', String(!sound));
  return sound ? value : null;
}

function outcomeParts(chance: Chance, t: Tolerances, state: State): HTMLElement[] {
  const { outcome } = chance;
  if (outcome === null) return [make('p', 'Being drawn …', 'sw-mock_quiet')];
  const stopped = !chance.running && chance.done < 1;
  const lead =
    chance.running || stopped ? `${outcome.drawn} of ${chance.builds} builds${stopped ? ', stopped' : ''}. ` : '';
  const parts: HTMLElement[] = [
    make('p', chance.gapId === null ? 'Any gap of the engine:' : `${chance.gapId}:`, 'sw-mock_quiet'),
    make('p', lead + chanceWords(outcome), 'sw-tol_answer'),
  ];
  if (outcome.spread !== null) parts.push(...spreadParts(outcome, chance, t, state));
  const notes = [
    outcome.refused === 0 ? '' : `${outcome.refused} builds are refused by a rule and left out of the chance.`,
    outcome.outOfReach === 0
      ? ''
      : `In ${outcome.outOfReach} builds the parts pass out of reach along the shaft: clear.`,
    outcome.open === 0 ? '' : `${outcome.open} proofs were not finished and count as below.`,
  ].filter((note) => note !== '');
  for (const note of notes) parts.push(make('p', note, 'sw-mock_quiet'));
  if (chance.gapId === null && outcome.byGap.length > 0) parts.push(byGap(outcome));
  return parts;
}

function spreadParts(outcome: Outcome, chance: Chance, t: Tolerances, state: State): HTMLElement[] {
  const { summary, quantiles, histogram: bins } = outcome.spread!;
  const say = (mm: number): string => lengthText(mm, state.units === 'both' ? 'mm' : state.units);
  const one = chance.gapId !== null;
  const limit = one ? t.neededMm : 0;
  const figure = make('figure', '', 'sw-tol_figure');
  figure.append(histogram(bins, limit, say, one ? 'The gap' : 'The smallest margin over its limit'));
  figure.append(make('figcaption', one ? 'Gap of each build' : 'Smallest margin of each build over its limit'));
  const at = (share: number): string => say(quantiles.find((q) => q.share === share)!.mm);
  const list = make('dl', '', 'sw-tol_sums');
  for (const [name, value] of [
    ['Mean', say(summary.mean)],
    ['Standard deviation', spreadText(summary.sd, state)],
    ['1 in 100 below', at(0.01)],
    ['5 in 100 below', at(0.05)],
    ['Half below', at(0.5)],
    ['Smallest drawn', say(summary.least)],
  ] as const)
    list.append(make('dt', name), make('dd', value));
  return [figure as HTMLElement, list];
}

/** A standard deviation is small: one decimal more than a gap. */
function spreadText(mm: number, { units }: State): string {
  return units === 'in' ? `${(mm / 25.4).toFixed(4).replace(/^0\./, '.')} in` : `${mm.toFixed(3)} mm`;
}

/** Gaps that were below, most often first. */
function byGap(outcome: Outcome): HTMLElement {
  const made = make('ol', '', 'sw-tol_list');
  for (const { id, below } of outcome.byGap.slice(0, 8)) made.append(make('li', `${id}: ${below} of ${outcome.built}`));
  if (outcome.byGap.length > 8) made.append(make('li', `and ${outcome.byGap.length - 8} more gaps`));
  return made;
}
