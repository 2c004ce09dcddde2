/** The page of outlines: a body, a file of what was measured on it, the fit to look at, and the template to print. */
import type { OutlineDraft } from '../../model/outlineDraft.ts';
import { currentOutline, previewOf } from '../../model/outlineShown.ts';
import type { State, Store, Units } from '../../model/state.ts';
import { button, make } from '../make.ts';
import { lengthText } from '../unitHint.ts';
import { createOutlineForm } from './form.ts';
import './outlines.css';
import { drawPreview } from './preview.ts';
import { createTemplates } from './templates.ts';

export function createOutlinesPage(host: HTMLElement, store: Store, draft: OutlineDraft): void {
  const form = createOutlineForm(draft);
  const templates = createTemplates(store, draft);
  const stands = make('p', '', 'sw-mock_quiet');
  const clear = button('Back to the dimensions', () => {
    const target = draft.target();
    if (target !== null) store.send({ do: 'clear outline', target });
  });
  const picture = make('div');
  const counts = make('dl', '', 'sw-mock_figures');
  const notes = make('ul', '', 'sw-outlines_notes');
  const reasons = make('ul', '', 'sw-outlines_reasons');
  reasons.setAttribute('role', 'alert');
  const apply = button('Put it into the build', draft.apply);
  const caution = make(
    'p',
    'Between neighbouring points nothing is known of the part. Look at the fit, and check the gap on the real parts.',
    'sw-mock_quiet',
  );
  const section = (label: string, ...parts: readonly HTMLElement[]): HTMLElement => {
    const made = make('section', '', 'sw-mock_form');
    made.setAttribute('aria-label', label);
    made.append(make('h3', label), ...parts);
    return made;
  };
  const page = make('div', '', 'sw-mock sw-outlines');
  page.append(
    make('h2', 'Outlines'),
    make('p', 'A part as it was measured, in place of the one drawn from its dimensions.', 'sw-mock_quiet'),
    form.body,
    stands,
    clear,
    form.drop,
    picture,
    counts,
    notes,
    reasons,
    apply,
    caution,
    section('What the file holds', form.said),
    section('Template at full size', templates.element),
  );
  host.append(page);

  function show(state: State): void {
    const now = draft.state;
    form.show(state, now);
    const target = draft.target();
    const current = target === null ? null : currentOutline(state, target);
    stands.textContent = current?.says ?? 'There is no such part yet.';
    clear.hidden = current?.measured !== true;
    clear.textContent = target?.body === 'fixed' ? 'Take the part out' : 'Back to the dimensions';
    const preview = previewOf(state, target, now.read);
    picture.replaceChildren(...(preview === null ? [] : [drawPreview(preview, state.units !== 'mm')]));
    const { read } = now;
    counts.replaceChildren();
    const line = (what: string, value: string): void => {
      const pair = make('div');
      pair.append(make('dt', what), make('dd', value));
      counts.append(pair);
    };
    if (read !== null) {
      if (read.fitted) line('Points', String(read.measured.length));
      line(read.fitted ? 'Fitted by' : 'As drawn', `${count(read.lines, 'line')}, ${count(read.arcs, 'arc')}`);
      line('Largest deviation', fineText(read.largestDeviationMm, state.units));
      if (read.largestStepMm !== null) line('Widest step between points', lengthText(read.largestStepMm, state.units));
      if (read.largestSagittaMm !== null && read.largestSagittaMm > 0) {
        line('Round edges bulge between points by', fineText(read.largestSagittaMm, state.units));
      }
    }
    list(notes, read?.notes ?? []);
    list(reasons, now.refused.length > 0 ? ['The file is refused.', ...now.refused] : now.barred);
    apply.hidden = read === null;
    caution.hidden = read === null;
    templates.show(state);
  }

  show(store.state);
  draft.watch(() => show(store.state));
  store.watch((state, changed) => {
    if (changed.has('engine') || changed.has('document') || changed.has('units') || changed.has('view')) show(state);
  });
}

function count(n: number, what: string): string {
  return `${n} ${n === 1 ? what : `${what}s`}`;
}

function list(host: HTMLElement, sentences: readonly string[]): void {
  host.hidden = sentences.length === 0;
  host.replaceChildren(...sentences.map((text) => make('li', text)));
}

/** A deviation to a ten-thousandth of an inch or a thousandth of a millimetre, rounded up. */
function fineText(mm: number, units: Units): string {
  const up = (value: number, places: number): string =>
    (Math.ceil(value * 10 ** places) / 10 ** places).toFixed(places);
  const inches = `${up(mm / 25.4, 4).replace(/^0\./, '.')} in`;
  if (units === 'in') return inches;
  return units === 'mm' ? `${up(mm, 3)} mm` : `${up(mm, 3)} mm (${inches})`;
}
