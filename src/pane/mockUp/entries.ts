/** The log on the page: each measurement with its prediction, what the tolerances explain, and which single dimension would. */
import type { MockUpEntry } from '../../build/document.ts';
import { isTwoTurns } from '../../model/mockUp/benchRows.ts';
import type { Comparison } from '../../model/mockUp/compare.ts';
import type { Explanation } from '../../model/mockUp/explain.ts';
import { crankAngleOfEntry } from '../../model/mockUp/place.ts';
import type { MockUp, MockUpWatcher } from '../../model/mockUp/watcher.ts';
import type { State, Store } from '../../model/state.ts';
import { button, make } from '../make.ts';
import { lengthText } from '../unitHint.ts';
import { comparisonWords, explainedMm, explanationWords, othersWords, placeWords, signedLength } from './words.ts';

export interface MockUpEntries {
  readonly element: HTMLElement;
  readonly show: (state: State, log: MockUp) => void;
}

/** Explanations shown before the rest is asked for. */
const SHOWN_FIRST = 4;

export function createMockUpEntries(
  store: Store,
  watcher: MockUpWatcher,
  edit: (index: number, entry: MockUpEntry) => void,
): MockUpEntries {
  const element = make('section', '', 'sw-mock_entries');
  element.setAttribute('aria-label', 'Measurements');
  let all = false;

  function item(entry: MockUpEntry, index: number, state: State, log: MockUp): HTMLElement {
    const c = log.comparisons?.find((each) => each.index === index) ?? null;
    const made = make('li', '', 'sw-mock_entry');
    made.toggleAttribute('data-differs', c?.differs ?? false);
    const firing = c?.predicted != null && isTwoTurns(c.predicted.periodRad);
    const foreign = entry.assembly === state.assembly ? '' : `${entry.assembly}; `;
    made.append(
      make('h4', `${index + 1}. ${entry.between.join(' · ')}`),
      make('p', `${foreign}${placeWords(entry, firing)}; ${entry.with}, ${entry.date}`, 'sw-mock_quiet'),
      figures(entry, c, state, log),
    );
    if (c !== null) made.append(make('p', comparisonWords(c, state.units), c.differs ? 'sw-mock_differs' : ''));
    if (entry.note !== undefined) made.append(make('p', entry.note, 'sw-mock_note'));
    if (c?.predicted != null) made.append(tolerances(c, state));
    made.append(buttons(entry, index, c, state, log));
    if (log.explaining?.index === index) made.append(explanations(c, state, log));
    return made;
  }

  function figures(entry: MockUpEntry, c: Comparison | null, state: State, log: MockUp): HTMLElement {
    const list = make('dl', '', 'sw-mock_figures');
    const row = (name: string, value: string): void => {
      const pair = make('div');
      pair.append(make('dt', name), make('dd', value));
      list.append(pair);
    };
    row('Measured', entry.measured);
    if (c === null) {
      const waiting =
        log.failed !== null
          ? 'could not be worked out'
          : state.refused.length > 0
            ? 'the build is refused'
            : `being worked out${log.done > 0 ? `, ${Math.floor(log.done * 100)} %` : ''}`;
      row('Predicted', waiting);
      return list;
    }
    if (c.predicted === null || c.differenceMm === null) return list;
    const atLeast = c.predicted.slicingMm > 0.015 ? 'at least ' : '';
    row(
      'Predicted',
      `${atLeast}${lengthText(c.predicted.gapMm, state.units)}${c.predicted.certified ? '' : ', proof not finished'}`,
    );
    row('Difference', signedLength(c.differenceMm, state.units));
    return list;
  }

  function tolerances(c: Comparison, state: State): HTMLElement {
    const made = make('details');
    const total = lengthText(explainedMm(c), state.units);
    made.append(make('summary', `What the tolerances explain: ${total}`));
    const list = make('ul');
    const up = (c.differenceMm ?? 0) >= 0;
    for (const share of c.shares) {
      const mm = up ? share.upMm : share.downMm;
      if (mm > 0) list.append(make('li', `${share.label}: ${lengthText(mm, state.units)}`));
    }
    const slicing = up ? (c.predicted?.slicingMm ?? 0) : 0;
    if (slicing > 0.001) list.append(make('li', `slicing of round parts: ${lengthText(slicing, state.units)}, added`));
    made.append(
      list,
      make(
        'p',
        `Combined as the root of the sum of the squares. ${c.withoutTolerance} dimensions that this gap rests on state no tolerance and count as exact.`,
        'sw-mock_quiet',
      ),
    );
    made.open = open.has(c.index);
    made.addEventListener('toggle', () => (made.open ? open.add(c.index) : open.delete(c.index)));
    return made;
  }
  /** Entries whose tolerances are unfolded: they stay so when the list is drawn anew. */
  const open = new Set<number>();

  function buttons(entry: MockUpEntry, index: number, c: Comparison | null, state: State, log: MockUp): HTMLElement {
    const made = make('div', '', 'sw-mock_row');
    const explainable = c?.differenceMm != null && Math.abs(c.differenceMm) > 0.01;
    const asked = log.explaining?.index === index;
    const why = button(asked ? 'Put away' : 'What explains it', () => {
      all = false;
      watcher.explain(asked ? null : index);
    });
    why.hidden = !explainable;
    why.setAttribute('aria-expanded', String(asked));
    const go = button('Go there', () => {
      const gap = state.gaps.find((g) => sameTwo(g.between, entry.between));
      if (gap === undefined) return;
      store.send({ do: 'show cylinder', number: gap.cylinder });
      store.send({ do: 'pick', id: gap.id });
      store.send({
        do: 'turn to',
        crankAngleRad: crankAngleOfEntry(entry, state.engine, gap.periodRad) ?? gap.atCrankRad,
      });
    });
    go.hidden = entry.assembly !== state.assembly || !state.gaps.some((g) => sameTwo(g.between, entry.between));
    const right = button('Put right', () => edit(index, entry));
    const out = button('Delete', () => store.send({ do: 'change log', change: { do: 'remove', index } }));
    for (const each of [why, go, right, out]) {
      each.setAttribute('aria-label', `${each.textContent}: measurement ${index + 1}`);
      each.dataset['what'] = `${each === why ? 'why' : each.textContent} ${index}`;
    }
    made.append(why, go, right, out);
    return made;
  }

  function explanations(c: Comparison | null, state: State, log: MockUp): HTMLElement {
    const made = make('div', '', 'sw-mock_why');
    const { list, done } = log.explaining!;
    const progress = make('p', '', 'sw-mock_quiet');
    progress.setAttribute('role', 'status');
    progress.textContent =
      done < 1
        ? `Dimensions are being tried one by one: ${Math.floor(done * 100)} %.`
        : list.length === 0
          ? 'No single dimension would explain it within a quarter of an inch (6.35 mm).'
          : 'One dimension each that would explain it. The likeliest first; measure it before you believe it.';
    made.append(progress);
    const rows = make('ol');
    rows.append(...(all ? list : list.slice(0, SHOWN_FIRST)).map((e) => explanation(e, c, state)));
    made.append(rows);
    if (list.length > SHOWN_FIRST) {
      const more = button(all ? 'Fewer' : `${list.length - SHOWN_FIRST} more`, () => {
        all = !all;
        show(store.state, watcher.state);
      });
      more.dataset['what'] = 'more';
      more.setAttribute('aria-expanded', String(all));
      made.append(more);
    }
    return made;
  }

  function explanation(e: Explanation, c: Comparison | null, state: State): HTMLElement {
    const made = make('li');
    const words = make('div');
    const name = `${e.label}${e.body === null ? '' : `, of ${e.body} alone`}`;
    words.append(
      make('strong', name),
      make('span', explanationWords(e, state.units)),
      make('span', othersWords(e.others), 'sw-mock_quiet'),
    );
    const use = button('Use this value', () => store.send({ do: 'change log', change: { do: 'use', explanation: e } }));
    use.setAttribute('aria-label', `Use this value: ${name} ${e.to}, marked as assumed`);
    use.dataset['what'] = `use ${c?.index} ${name}`;
    made.append(words, use);
    return made;
  }

  function show(state: State, log: MockUp): void {
    const entries = state.doc.mockUp ?? [];
    const heading = make('h3', entries.length === 0 ? 'Nothing logged yet' : 'Measured');
    const list = make('ol', '', 'sw-mock_list');
    list.append(...entries.map((entry, index) => item(entry, index, state, log)));
    const focused = document.activeElement;
    const what = focused instanceof HTMLElement && element.contains(focused) ? focused.dataset['what'] : undefined;
    element.replaceChildren(heading, list);
    // Whoever works with keys stays where they were.
    if (what !== undefined) element.querySelector<HTMLElement>(`[data-what="${CSS.escape(what)}"]`)?.focus();
  }

  return { element, show };
}

function sameTwo(a: readonly [string, string], b: readonly [string, string]): boolean {
  return (a[0] === b[0] && a[1] === b[1]) || (a[0] === b[1] && a[1] === b[0]);
}
