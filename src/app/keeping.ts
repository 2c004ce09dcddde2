/** A strip under the bar for what the user must know about keeping: nothing is kept, no room is left, another tab has the job. Silent otherwise. */
import './keeping.css';
import type { KeptStore } from '../model/index.ts';
import type { Keeper, KeeperState } from '../model/jobs/kept.ts';
import { troubleWords } from '../view/jobs/words.ts';
import { saveFile } from './files.ts';
import { beginAnew, type Start } from './library.ts';

export interface Keeping {
  /** Says that a part of the program that computes in the background stopped and goes on. */
  readonly workerBroke: () => void;
}

const WORKER_BROKE =
  'A part of the program that computes in the background stopped. What it was at is worked out again; nothing of the build is lost.';

export function createKeeping(
  host: HTMLElement,
  store: KeptStore,
  keeper: Keeper,
  start: Start,
  openJobs: () => void,
): Keeping {
  const strip = document.createElement('div');
  strip.className = 'sw-keeping';
  strip.id = 'keeping';
  strip.setAttribute('role', 'status');
  host.append(strip);
  let extra =
    start.unread === null ? '' : `“${start.unread}”, open last, can’t be read. It is left as it is: see Jobs.`;

  const button = (label: string, run: () => void): HTMLButtonElement => {
    const made = document.createElement('button');
    made.type = 'button';
    made.className = 'sw-button';
    made.textContent = label;
    made.addEventListener('click', run);
    return made;
  };
  const save = (): HTMLButtonElement => button('Save file', () => saveFile(store.state.doc));
  const again = (): HTMLButtonElement => button('Try again', () => void keeper.again());

  function anew(): HTMLButtonElement {
    const first = button('Begin a new library', () => {
      const sure = button('Begin a new one: what can’t be read is deleted', () => void beginAnew(keeper));
      first.replaceWith(sure);
      sure.focus();
    });
    return first;
  }

  function troubleButtons(trouble: NonNullable<KeeperState['trouble']>): HTMLButtonElement[] {
    if (trouble === 'full') return [save(), button('Jobs', openJobs), again()];
    if (trouble === 'newer') return [button('Load anew', () => location.reload()), save()];
    if (trouble === 'unreadable') return [save(), again(), anew()];
    return [save(), again()];
  }

  function line(words: string, ...buttons: HTMLButtonElement[]): HTMLElement {
    const made = document.createElement('p');
    const said = document.createElement('span');
    said.textContent = words;
    made.append(said, ...buttons);
    return made;
  }

  function lines(state: KeeperState): HTMLElement[] {
    const out: HTMLElement[] = [];
    const name = state.job?.name ?? '';
    if (state.trouble !== null) out.push(line(troubleWords(state.trouble), ...troubleButtons(state.trouble)));
    const over = button('Take it over', () => void keeper.takeOver());
    const away = button('Put away', keeper.readWord);
    if (state.word === 'open elsewhere') {
      out.push(line(`“${name}” is open in another tab. It can be read here; a change made here starts a copy.`, over));
    } else if (state.word === 'taken over') {
      out.push(
        line(
          `“${name}” was taken over by another tab, with all that was done here. A change made here starts a copy.`,
          over,
        ),
      );
    } else if (state.word === 'kept as a copy') {
      out.push(line(`Another tab has this job. What is changed here is kept as a job of its own: “${name}”.`, away));
    }
    if (extra !== '') {
      const put = button('Put away', () => {
        extra = '';
        show();
      });
      out.push(line(extra, put));
    }
    return out;
  }

  let before = '';
  function show(): void {
    const { trouble, word, job } = keeper.state;
    const mark = JSON.stringify([trouble, word, word === null ? '' : job?.name, extra]);
    if (mark === before) return;
    before = mark;
    strip.replaceChildren(...lines(keeper.state));
  }
  keeper.watch(show);
  show();
  return {
    workerBroke: () => {
      extra = WORKER_BROKE;
      show();
    },
  };
}
