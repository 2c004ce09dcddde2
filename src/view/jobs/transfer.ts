/** The whole library out to one file and in from one: progress while it goes on, a way to stop, and what came of it. */
import type { Imported } from '../../model/jobs/exchange.ts';
import { html, setText } from '../element.ts';

export interface TransferActions {
  /** Writes the library to a file; names of jobs that can't be read and so are not in it. `progress` counts lines. */
  readonly send: (
    progress: (lines: number) => void,
  ) => Promise<{ readonly lines: number; readonly left: readonly string[] }>;
  /** Takes in a file; `progress` answers false to stop. */
  readonly take: (file: File, progress: (lines: number) => boolean) => Promise<Imported>;
  readonly tried: (what: () => Promise<void>) => void;
}

/** Problems listed one by one; more are counted. */
const MOST_SHOWN = 100;

export function createTransfer({ send, take, tried }: TransferActions): HTMLElement {
  const out = html('button', { type: 'button', class: 'sw-button' }, 'Export the library');
  const into = html('button', { type: 'button', class: 'sw-button' }, 'Import a library…');
  const stop = html('button', { type: 'button', class: 'sw-button' }, 'Stop');
  const state = html('p', { class: 'sw-jobs-quiet', role: 'status' });
  const report = html('div', { class: 'sw-jobs-report' });
  const picker = html('input', {
    type: 'file',
    accept: '.jsonl,application/jsonl',
    hidden: '',
    'aria-label': 'File of a library',
  });
  stop.hidden = true;
  let stopped = false;
  stop.addEventListener('click', () => {
    stopped = true;
  });

  function run(what: () => Promise<void>): void {
    out.disabled = true;
    into.disabled = true;
    report.replaceChildren();
    tried(async () => {
      try {
        await what();
      } finally {
        out.disabled = false;
        into.disabled = false;
        stop.hidden = true;
      }
    });
  }

  out.addEventListener('click', () =>
    run(async () => {
      setText(state, 'Writing…');
      const { lines, left } = await send((count) => setText(state, `Writing… ${count} lines`));
      setText(state, `Written: ${lines} lines, a job or a snapshot each. Deleted jobs are left out.`);
      if (left.length > 0)
        report.replaceChildren(html('p', {}, `Not in the file, because they can’t be read: ${left.join(', ')}.`));
    }),
  );
  into.addEventListener('click', () => picker.click());
  picker.addEventListener('change', () => {
    const file = picker.files?.[0];
    picker.value = '';
    if (file === undefined) return;
    stopped = false;
    run(async () => {
      stop.hidden = false;
      setText(state, 'Reading…');
      const came = await take(file, (count) => {
        setText(state, `Reading… ${count} lines`);
        return !stopped;
      });
      setText(state, summary(file.name, came));
      report.replaceChildren(...details(came));
    });
  });
  return html(
    'details',
    { class: 'sw-jobs-transfer' },
    html('summary', {}, 'The whole library: export, import'),
    html('p', { class: 'sw-jobs-do' }, out, into, stop, picker),
    html(
      'p',
      { class: 'sw-jobs-quiet' },
      'Jobs are kept in this browser, on this computer alone. A file of the library is the copy that outlives both.',
    ),
    state,
    report,
  );
}

function summary(name: string, came: Imported): string {
  const parts = [
    `${name}: ${came.taken} ${came.taken === 1 ? 'job' : 'jobs'} taken in`,
    ...(came.beside.length > 0 ? [`${came.beside.length} of them beside a job of the same origin that differs`] : []),
    ...(came.already > 0 ? [`${came.already} were here already, the same`] : []),
    ...(came.problems.length > 0
      ? [`${came.problems.length} ${came.problems.length === 1 ? 'problem' : 'problems'}`]
      : []),
  ];
  return `${parts.join('; ')}.`;
}

function details({ beside, problems }: Imported): Node[] {
  const out: Node[] = [];
  if (beside.length > 0) out.push(html('p', {}, `Both are kept: ${beside.slice(0, MOST_SHOWN).join(', ')}.`));
  if (problems.length > 0) {
    const items = problems
      .slice(0, MOST_SHOWN)
      .map((p) =>
        html('li', {}, `${p.place === '' ? 'The file' : p.place}: ${p.value} is refused (${p.rule}). ${p.allowed}`),
      );
    out.push(html('ul', {}, ...items));
    if (problems.length > MOST_SHOWN) out.push(html('p', {}, `And ${problems.length - MOST_SHOWN} more.`));
  }
  return out;
}
