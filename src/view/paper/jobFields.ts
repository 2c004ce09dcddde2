/** What the papers carry of the job, to be typed: customer reference, date, notes. They are part of the build. */
import type { State, Store } from '../../model/state.ts';
import { html } from '../element.ts';

/** What the build file takes (build/schemaPieces.ts). */
const MOST_REFERENCE = 80;
const MOST_NOTES = 4000;

export function createJobFields(
  store: Store,
  today: () => string,
): { readonly element: HTMLElement; readonly show: (state: State) => void } {
  const reference = html('input', { type: 'text', maxlength: String(MOST_REFERENCE), autocomplete: 'off' });
  const date = html('input', { type: 'date' });
  const notes = html('textarea', { rows: '3', maxlength: String(MOST_NOTES) });
  const put = (key: 'reference' | 'date' | 'notes', value: string): void => {
    const now = value === '' ? undefined : value;
    if (store.state.doc.job?.[key] !== now) store.send({ do: 'put', path: ['job', key], value: now });
    show(store.state);
  };
  reference.addEventListener('change', () => put('reference', printable(reference.value, ' ').trim()));
  date.addEventListener('change', () => put('date', date.value));
  notes.addEventListener('change', () => put('notes', printable(notes.value, '\n')));
  const element = html(
    'fieldset',
    { class: 'sw-desk-job' },
    html('legend', {}, 'On the papers'),
    html('label', {}, html('span', {}, 'Customer reference'), reference),
    html('label', {}, html('span', {}, 'Date'), date),
    html('label', { class: 'sw-desk-notes' }, html('span', {}, 'Notes, on the job sheet'), notes),
  );

  function show({ doc }: State): void {
    const fill = (field: HTMLInputElement | HTMLTextAreaElement, value: string): void => {
      if (field !== document.activeElement && field.value !== value) field.value = value;
    };
    fill(reference, doc.job?.reference ?? '');
    fill(date, doc.job?.date ?? today());
    fill(notes, doc.job?.notes ?? '');
  }
  show(store.state);
  return { element, show };
}

/** Tabs and line ends as the build file takes them; other control characters have no place on paper. */
function printable(text: string, lineEnd: string): string {
  return text
    .replace(/\r\n?|\n/g, lineEnd)
    .replace(/\t/g, '    ')
    .replace(/[^\n\P{Cc}]/gu, '');
}
