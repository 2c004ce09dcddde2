/** One gap at length: how small, where and when in the turn, between what, on what the figure rests, and what the running engine takes of it. */

import { allowanceMm } from '../../model/certified.ts';
import type { StoryWatcher, Told } from '../../model/gapStory/watcher.ts';
import { neededMm } from '../../model/intervals.ts';
import type { Gap } from '../../model/results.ts';
import type { State, Store } from '../../model/state.ts';
import { html, setText } from '../element.ts';
import { certificateWords, gapSentence } from '../gapWords.ts';
import { isMoving } from '../inView.ts';
import { formatAngleFromTdc, formatGap, formatLength, formatLengthParts, gapLabel } from '../words.ts';
import { arcsText, changeText, ladderNote, partText } from './storyWords.ts';
import './thisGap.css';

type Fact = readonly [name: string, value: string];

/** Fills `host`; while it is hidden nothing is worked out for it. */
export function createThisGap(host: HTMLElement, store: Store, story: StoryWatcher): { destroy(): void } {
  const choose = html('select', { 'aria-label': 'Gap told of' });
  const mark = html('span', { class: 'sw-mark sw-inked' });
  const figure = html('span', { class: 'sw-this-figure sw-inked' });
  const second = html('span', { class: 'sw-this-second' });
  const sentence = html('p', { class: 'sw-this-sentence' });
  const go = html('button', { type: 'button', class: 'sw-button' }, 'Go to the closest place');
  const facts = html('dl', { class: 'sw-this-facts' });
  const ladderTitle = html('h3', {}, 'From static to running');
  const ladder = html('table', { class: 'sw-this-ladder' });
  const ladderWords = html('p', { class: 'sw-this-quiet' });
  host.replaceChildren(
    html(
      'section',
      { class: 'sw-this', 'aria-label': 'This gap' },
      choose,
      html('p', { class: 'sw-this-head' }, figure, second, mark),
      sentence,
      go,
      facts,
      ladderTitle,
      ladder,
      ladderWords,
    ),
  );

  choose.addEventListener('change', () => store.send({ do: 'pick', id: choose.value }));
  go.addEventListener('click', () => {
    const { gap } = story.told;
    if (gap === null) return;
    if (store.state.playing) store.send({ do: 'pause' });
    store.send({ do: 'show cylinder', number: gap.cylinder });
    store.send({ do: 'turn to', crankAngleRad: gap.atCrankRad });
  });

  let listed: readonly Gap[] | null = null;
  function showChoice(state: State, gap: Gap | null): void {
    // The list is made anew only when the figures have settled: not under the hand.
    if (listed !== state.gaps && (listed === null || !isMoving(state))) {
      listed = state.gaps;
      choose.replaceChildren(...state.gaps.map((g) => html('option', { value: g.id }, `${gapLabel(g)}, ${g.state}`)));
    }
    choose.value = gap?.id ?? '';
  }

  function show({ gap, story: found, failed }: Told): void {
    const { state } = store;
    showChoice(state, gap);
    if (gap === null) {
      setText(sentence, 'This assembly has no pair of parts whose gap is asked for.');
      for (const part of [facts, ladder]) part.replaceChildren();
      return;
    }
    const [first, other] = formatLengthParts(gap.gapMm, state.units);
    setText(figure, first);
    setText(second, other);
    figure.dataset['state'] = gap.state;
    setText(mark, gap.state);
    mark.dataset['state'] = gap.state;
    setText(sentence, gapSentence(gap, state.engine, state.units));
    const rows = [...boundFacts(gap, state), ...intervalFacts(gap, found, failed, state), ...partFacts(gap, state)];
    facts.replaceChildren(...rows.map(([name, value]) => html('div', {}, html('dt', {}, name), html('dd', {}, value))));
    showLadder(gap, found, state);
  }

  function showLadder(gap: Gap, found: Told['story'], state: State): void {
    const { units } = state;
    const running = found?.running ?? null;
    ladder.hidden = running === null;
    if (running !== null) {
      const row = (name: string, value: string, strong = false): HTMLElement =>
        html(
          'tr',
          strong ? { class: 'sw-this-sum' } : {},
          html('th', { scope: 'row' }, name),
          html('td', { class: 'sw-number' }, value),
        );
      ladder.replaceChildren(
        html(
          'tbody',
          {},
          row('static gap', formatGap(gap, units)),
          ...running.lines.map((line) => row(line.allowance, changeText(line.changeMm, units))),
          row('running gap, about', formatLength(running.runningMm, units), true),
        ),
      );
    } else ladder.replaceChildren();
    const lacking = (found?.engine.lacking ?? []).map(
      ({ allowance, needs }) => `Left out: ${allowance}; still to be stated: ${needs.join(', ')}.`,
    );
    const note =
      found === null
        ? ['Being worked out …']
        : running === null
          ? [
              'No allowance is switched on. State its figures below, and it is taken into account; empty them, and it is not.',
            ]
          : [ladderNote(found.engine)];
    setText(ladderWords, [...note, ...lacking].join(' '));
  }

  const refresh = (): void => {
    story.ask(!host.hidden);
    if (!host.hidden) show(story.told);
  };
  refresh();
  const watchShown = new MutationObserver(refresh);
  watchShown.observe(host, { attributes: true, attributeFilter: ['hidden'] });
  const stopStory = story.watch((told) => {
    if (!host.hidden) show(told);
  });
  const stop = store.watch((_, changed) => {
    if (!host.hidden && (changed.has('units') || changed.has('gaps'))) show(story.told);
  });
  return {
    destroy() {
      stopStory();
      stop();
      watchShown.disconnect();
      story.ask(false);
      host.replaceChildren();
    },
  };
}

/** What is proven, against what, and where. */
function boundFacts(gap: Gap, { units, engine, doc }: State): Fact[] {
  const cylinder = engine.cylinders.find((c) => c.number === gap.cylinder);
  const allowance = neededMm(gap, allowanceMm(doc)) - gap.limitMm;
  const origin = doc.limits?.[gap.kind]?.from ?? 'default';
  const more = allowance > 0 ? `; and ${formatLength(allowance, units)} for assumed dimensions` : '';
  const closest =
    cylinder === undefined
      ? ''
      : `${formatAngleFromTdc(gap.atCrankRad, cylinder, gap.periodRad)}, cylinder ${gap.cylinder}`;
  return [
    ['Proven', certificateWords(gap, units)],
    ['Limit', `${formatLength(gap.limitMm, units)}, ${origin}${more}`],
    ['Closest', closest],
  ];
}

/** Between what, and on what the figure rests. */
function partFacts(gap: Gap, { units, engine }: State): Fact[] {
  return [
    ['Nearest parts', `${partText(gap, 0, engine)}; ${partText(gap, 1, engine)}`],
    ['Direction', gap.direction === 'axial' ? 'along the crank' : 'across the crank'],
    ['Axial overlap', gap.axialOverlapMm > 0 ? formatLength(gap.axialOverlapMm, units) : 'none'],
    ['Assumed', gap.assumed.length === 0 ? 'nothing it rests on' : gap.assumed.join(', ')],
    [
      'Slicing',
      gap.slicingMm > 0
        ? `of round parts: at most ${formatLength(gap.slicingMm, units, 1)}, on the safe side`
        : 'of round parts: adds nothing',
    ],
    ['Evaluations', gap.kind === 'deck' ? 'none: a sum of dimensions' : String(gap.evaluations)],
  ];
}

function intervalFacts(gap: Gap, found: Told['story'], failed: string | null, { engine }: State): Fact[] {
  if (gap.state !== 'tight' && gap.state !== 'contact') return [];
  if (failed !== null) return [['Below the limit', `not worked out, by a fault of the program: ${failed}`]];
  if (found === null) return [['Below the limit', 'being worked out …']];
  const { intervals } = found;
  if (intervals === null || !intervals.finished)
    return [['Below the limit', 'not finished: the work allowed for it ran out']];
  const touching = arcsText(intervals.touching, gap, engine);
  return [
    ['Below the limit', `${arcsText(intervals.below, gap, engine)}; proven nowhere else`],
    ...(touching === '' ? [] : [['In contact', touching] as const]),
  ];
}
