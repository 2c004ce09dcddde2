/** The page of the mock-up log: the form, what has been measured, the sheet for the bench. */
import type { MockUpWatcher } from '../../model/mockUp/watcher.ts';
import type { Store } from '../../model/state.ts';
import { make } from '../make.ts';
import { createBenchSheet } from './benchSheet.ts';
import { createMockUpEntries } from './entries.ts';
import { createMockUpForm } from './form.ts';
import './mockUp.css';

/** Stands where the hand is. Common practice, no published source. */
const TURNING =
  'Turn the crank by hand, slowly, with a bar, spark plugs out, never with the starter. Counterweights, rods and pistons shear fingers: ' +
  'nobody reaches in while somebody holds the bar.';

export function createMockUpPage(host: HTMLElement, store: Store, watcher: MockUpWatcher): void {
  const form = createMockUpForm(store);
  const entries = createMockUpEntries(store, watcher, form.edit);
  const sheet = createBenchSheet(store);
  const about = make(
    'p',
    'What was measured on the engine put together for a trial, beside what is predicted for it.',
    'sw-mock_quiet',
  );
  const caution = make('p', TURNING, 'sw-mock_quiet');
  const page = make('div', '', 'sw-mock');
  page.append(make('h2', 'Mock-up'), about, caution, form.element, entries.element, sheet.element);
  host.append(page);

  const showLog = (): void => entries.show(store.state, watcher.state);
  form.show(store.state);
  sheet.show(store.state);
  showLog();
  store.watch((state, changed) => {
    if (changed.has('gaps') || changed.has('view') || changed.has('engine')) form.show(state);
    if (changed.has('gaps') || changed.has('view') || changed.has('units')) sheet.show(state);
    if (changed.has('document') || changed.has('units') || changed.has('view')) showLog();
  });
  watcher.watch(showLog);
}
