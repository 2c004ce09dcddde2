/** Builds brought up from outside: demonstrations, files opened by the button or dropped on the page. Each that is refused says why. */
import { type Problem, parseBuild } from '../build/index.ts';
import type { Keeper } from '../model/jobs/kept.ts';
import { DEMOS } from './demos.ts';
import { readFile } from './files.ts';
import { showRefused } from './notice.ts';

export interface Opening {
  readonly demo: (key: string) => void;
  /** Lets the user choose one. */
  readonly choose: () => void;
  /** Files dropped anywhere on the page, from now on. */
  readonly listenToDrops: () => void;
}

/** `opened` is called when a file has come on show. */
export function createOpening(keeper: Keeper, opened: () => void = () => {}): Opening {
  const picker = document.createElement('input');
  picker.type = 'file';
  picker.accept = '.json,application/json';
  picker.multiple = true;
  picker.addEventListener('change', () => {
    const chosen = [...(picker.files ?? [])];
    picker.value = '';
    void files(chosen);
  });

  /** Each becomes a job of its own; the last one stays on show. */
  async function files(list: readonly File[]): Promise<void> {
    for (const file of list) {
      const read = await readFile(file);
      if (!read.ok) {
        showRefused(file.name, read.problems);
        continue;
      }
      await keeper.openNew(read.doc);
      opened();
    }
  }

  return {
    demo: (key) => {
      const demo = DEMOS.find((d) => d.key === key);
      const read = demo === undefined ? undefined : parseBuild(demo.text);
      if (read?.ok) void keeper.openLoose(read.doc);
    },
    choose: () => picker.click(),
    listenToDrops: () => {
      document.addEventListener('dragover', (event) => event.preventDefault());
      document.addEventListener('drop', (event) => {
        event.preventDefault();
        const dropped = [...(event.dataTransfer?.files ?? [])];
        const kinds = [...(event.dataTransfer?.types ?? [])];
        if (dropped.length > 0) void files(dropped);
        else if (kinds.length > 0) showRefused('What was dropped', [notAFile(kinds)]);
      });
    },
  };
}

function notAFile(kinds: readonly string[]): Problem {
  return {
    place: '',
    value: kinds.join(', '),
    rule: 'build file',
    allowed: 'Allowed: build files. Text, pictures and links are not read.',
  };
}
