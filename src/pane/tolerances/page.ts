/** The page of tolerances: what moves the gap, what the tolerances add up to, and the chance of missing the limit. */
import type { Store } from '../../model/state.ts';
import type { TolerancesWatcher } from '../../model/tolerances/watcher.ts';
import { make } from '../make.ts';
import { lengthText } from '../unitHint.ts';
import { createChance } from './chance.ts';
import { createSensitivityTable } from './sensitivityTable.ts';
import { sumsOf } from './sums.ts';
import './tolerances.css';

const CAUTION =
  'As good as the tolerances stated. Each rod, piston and counterweight varies by itself; block, camshaft and crank, with one stroke ' +
  'for all throws, as one part each. Check the real parts, each of them.';

export function createTolerancesPage(host: HTMLElement, store: Store, watcher: TolerancesWatcher): void {
  const about = make('p', '', 'sw-tol_about');
  const progress = make('progress');
  progress.max = 1;
  progress.setAttribute('aria-label', 'Dimensions tried');
  const moves = make('section', '', 'sw-mock_entries');
  const wait = make('p', '', 'sw-mock_quiet');
  const table = createSensitivityTable();
  moves.append(make('h3', 'What moves it'), wait, progress, table.element);
  const sums = make('div');
  const chance = createChance(store, watcher);
  const page = make('div', '', 'sw-mock sw-tol');
  page.append(make('h2', 'Tolerances'), about, moves, sums, chance.element, make('p', CAUTION, 'sw-tol_caution'));
  host.append(page);

  function show(): void {
    if (host.hidden) return;
    const { state } = store;
    const t = watcher.state;
    about.textContent = aboutWords();
    const waiting = t.gap !== null && t.sensitivities === null && t.failed === null;
    wait.hidden = !waiting && t.failed === null;
    wait.textContent =
      t.failed === null
        ? 'Each dimension that could move it is being tried, a step larger and a step smaller …'
        : `It could not be worked out, by a fault of the program: ${t.failed}`;
    progress.hidden = !waiting;
    progress.value = t.done;
    table.element.hidden = t.sensitivities === null;
    if (t.sensitivities !== null) table.show(t.sensitivities, state);
    sums.replaceChildren(sumsOf(t, state));
    chance.show(state, t);
  }

  function aboutWords(): string {
    const { state } = store;
    const { gap, neededMm } = watcher.state;
    if (state.refused.length > 0) return 'The build as typed is refused; put that right first.';
    if (gap === null) return 'Waits until the gaps are proven.';
    const assumed =
      gap.assumed.length > 0 && gap.limitMm !== neededMm ? ' with the allowance for assumed dimensions' : '';
    const which = gap.id === state.picked ? 'The gap picked' : 'The worst gap';
    return `${which}: ${gap.id}, ${lengthText(gap.gapMm, state.units)}; it needs ${lengthText(neededMm, state.units)}${assumed}.`;
  }

  const look = (): void => {
    watcher.attend(!host.hidden);
    show();
  };
  new MutationObserver(look).observe(host, { attributes: true, attributeFilter: ['hidden'] });
  watcher.watch(show);
  store.watch((_, changed) => {
    if (changed.has('units') || changed.has('document') || changed.has('gaps') || changed.has('view')) show();
  });
  look();
}
