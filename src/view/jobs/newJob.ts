/** A new job: from a build that comes with the program, as it is or as a template; the name is asked for, nothing is taken for granted. */

import type { BuildDocument } from '../../build/document.ts';
import { asDemonstration, asTemplate } from '../../model/jobs/fromTemplate.ts';
import { html } from '../element.ts';

export interface Start {
  readonly label: string;
  readonly doc: () => BuildDocument;
}

/** A form. `made` gets the document of the new job. */
export function createNewJob(
  starts: readonly Start[],
  made: (doc: BuildDocument) => void,
  close: () => void,
): HTMLElement {
  const name = html('input', { type: 'text', id: 'new-job-name', required: '', maxlength: '80', autocomplete: 'off' });
  const engine = html('select', { id: 'new-job-engine' });
  engine.append(new Option('Choose an engine', ''), ...starts.map((start, k) => new Option(start.label, String(k))));
  engine.required = true;
  const kinds = [
    [
      'template',
      'As a template',
      'Its figures stand in as assumed until yours are entered; no gap reads “clears” on them. Weights, measured outlines, limits and the mock-up log are left out.',
    ],
    ['as it is', 'As it is', 'A copy of the demonstration, with everything in it.'],
  ] as const;
  const radios = kinds.map(([value, label, said], k) => {
    const input = html('input', { type: 'radio', name: 'new-job-kind', value, id: `new-job-kind-${k}`, required: '' });
    return html(
      'p',
      { class: 'sw-jobs-kind' },
      input,
      html('label', { for: input.id }, html('b', {}, label), html('span', {}, said)),
    );
  });
  const fault = html('p', { class: 'sw-jobs-fault', role: 'alert' });
  const cancel = html('button', { type: 'button', class: 'sw-button' }, 'Leave it');
  cancel.addEventListener('click', close);
  const form = html(
    'form',
    { class: 'sw-jobs-new', 'aria-label': 'New job' },
    html('h3', {}, 'New job'),
    html('label', { for: name.id }, 'Name'),
    name,
    html('label', { for: engine.id }, 'Begin with'),
    engine,
    html('fieldset', {}, html('legend', {}, 'Taken over'), ...radios),
    fault,
    html(
      'p',
      { class: 'sw-jobs-do' },
      html('button', { type: 'submit', class: 'sw-button sw-button-main' }, 'Make the job'),
      cancel,
    ),
  );
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const start = starts[Number(engine.value)];
    const kind = form.querySelector<HTMLInputElement>('input[name="new-job-kind"]:checked')?.value;
    const typed = name.value.trim();
    if (start === undefined || engine.value === '' || kind === undefined || typed === '') {
      fault.textContent = 'A name, an engine to begin with, and what is taken over of it are needed.';
      return;
    }
    const read = (kind === 'template' ? asTemplate : asDemonstration)(start.doc(), typed);
    if (read.ok) made(read.doc);
    else fault.textContent = read.problems.map((p) => `${p.place}: ${p.value} (${p.rule}). ${p.allowed}`).join(' ');
  });
  return form;
}
