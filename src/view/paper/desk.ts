/**
 * Where a paper is looked at and printed: choice of sheet, what the papers carry of the job, the preview, the print. The sheets
 * of the preview are what the browser prints; everything else on the page stays out of the print while the desk is on show.
 */
import type { Steps } from '../../model/pieces/kind.ts';
import type { State, Store, Units } from '../../model/state.ts';
import { html, setText } from '../element.ts';
import { isMoving } from '../inView.ts';
import { createJobFields } from './jobFields.ts';
import { type PaperBlock, showSheets, type TitleFields } from './sheets.ts';
import type { SizeChoice } from './sizeChoice.ts';

/** A paper is made when the hand has rested this long, ms. */
const RESTED_MS = 150;

export interface Content {
  readonly blocks: readonly PaperBlock[];
  /** For the title block. */
  readonly scale: string;
  /** Of its lengths, where they are not those on show. */
  readonly units?: Units;
  /** What is still being worked out; the paper can be looked at, but not yet printed. */
  readonly waitsFor: string | null;
}

export interface Paper {
  /** "Job sheet": in the title block and in the name of the file. */
  readonly kind: string;
  /** Of a state that is neither refused nor moving. `brevity` from 0 up: asked for where it has to come down to one sheet. */
  readonly content: (state: State, brevity: number) => Steps<Content>;
  /** The greatest brevity of a paper that is meant for one sheet. */
  readonly briefest?: number;
  /** Called when it comes up and when it goes. */
  readonly wanted?: (asked: boolean) => void;
}

export interface Desk {
  readonly show: () => void;
  readonly hide: () => void;
  /** Something that the content rests on, beside the state, has changed. */
  readonly renew: () => void;
}

/** `today` is offered as the date, "2026-11-25"; `choices` of the paper stand beside the choice of sheet. */
export function createDesk(
  host: HTMLElement,
  store: Store,
  paper: Paper,
  sizes: SizeChoice,
  today: () => string,
  ...choices: readonly HTMLElement[]
): Desk {
  let up = false;
  let actual = false;
  /** Counts what was begun, so that what is overtaken ends. */
  let making = 0;
  let waiting: ReturnType<typeof setTimeout> | undefined;

  const print = html('button', { type: 'button', class: 'sw-button' }, 'Print or save as PDF');
  const enlarge = html('button', { type: 'button', class: 'sw-button', 'aria-pressed': 'false' }, 'Actual size');
  const said = html('p', { class: 'sw-desk-said', role: 'status' });
  const sheets = html('div', { class: 'sw-paper' });
  const stretch = html('div', { class: 'sw-desk-stretch' }, sheets);
  const preview = html(
    'div',
    { class: 'sw-desk-preview', role: 'region', tabindex: '0', 'aria-label': `Preview: ${paper.kind}` },
    stretch,
  );
  const fields = createJobFields(store, today);
  host.append(
    fields.element,
    html('div', { class: 'sw-desk-tools' }, sizes.control(), ...choices, print, enlarge),
    said,
    preview,
  );

  function refit(): void {
    const width = sheets.firstElementChild instanceof HTMLElement ? sheets.firstElementChild.offsetWidth : 0;
    if (!up || width === 0) return;
    const scale = actual ? 1 : Math.min(1, (preview.clientWidth - 2) / width);
    // Values for the style sheet, which uses them on the screen alone.
    stretch.style.setProperty('--paper-scale', String(scale));
    stretch.style.setProperty('--paper-width', `${width * scale}px`);
    stretch.style.setProperty('--paper-height', `${sheets.offsetHeight * scale}px`);
  }
  const resized = new ResizeObserver(refit);

  /** In steps between which the page can draw; what comes later overtakes it. */
  async function make(): Promise<void> {
    const { state } = store;
    making += 1;
    const mine = making;
    if (!up || isMoving(state)) return;
    fields.show(state);
    sizes.renew();
    print.disabled = true;
    if (state.refused.length > 0) {
      sheets.replaceChildren();
      setText(said, 'The build as typed can’t be built. Put it right first; then there is a paper to print.');
      return;
    }
    setText(said, 'Being laid out.');
    for (let brevity = 0; ; brevity++) {
      const content = await inSteps(paper.content(state, brevity), () => up && mine === making);
      if (content === null) return;
      const count = showSheets(sheets, sizes.of(state), titleOf(state, content), content.blocks);
      if (count > 1 && brevity < (paper.briefest ?? 0)) continue;
      refit();
      print.disabled = content.waitsFor !== null;
      const pages = count === 1 ? '1 sheet' : `${count} sheets`;
      setText(said, content.waitsFor === null ? `${pages}, ready to print.` : `${pages} so far: ${content.waitsFor}`);
      return;
    }
  }

  function titleOf({ doc, assembly, units }: State, { scale, units: own }: Content): TitleFields {
    return {
      title: doc.name,
      kind: paper.kind,
      assembly,
      reference: doc.job?.reference ?? '',
      date: doc.job?.date ?? today(),
      scale,
      units: { in: 'inches', mm: 'millimetres', both: 'mm (in)' }[own ?? units],
    };
  }

  function soon(): void {
    clearTimeout(waiting);
    waiting = setTimeout(() => void make(), RESTED_MS);
  }

  enlarge.addEventListener('click', () => {
    actual = !actual;
    enlarge.setAttribute('aria-pressed', String(actual));
    refit();
  });
  print.addEventListener('click', () => {
    // The browser offers the title as the name of the file.
    const title = document.title;
    document.title = `${store.state.doc.name}, ${paper.kind.toLowerCase()}`;
    globalThis.print();
    document.title = title;
  });
  sizes.watch(() => void make());
  store.watch((_, changed) => {
    if (up && (['document', 'engine', 'gaps', 'units', 'view'] as const).some((one) => changed.has(one))) soon();
  });

  return {
    show: () => {
      up = true;
      paper.wanted?.(true);
      document.body.dataset['paper'] = '';
      sheets.dataset['shown'] = '';
      resized.observe(preview);
      void make();
    },
    hide: () => {
      up = false;
      clearTimeout(waiting);
      paper.wanted?.(false);
      delete document.body.dataset['paper'];
      delete sheets.dataset['shown'];
      resized.disconnect();
    },
    renew: soon,
  };
}

/** Work of one go, ms: half a frame. */
const GO_MS = 8;

/** Does the steps a few at a time; null once they are no longer wanted. */
async function inSteps<Result>(steps: Steps<Result>, wanted: () => boolean): Promise<Result | null> {
  let begun = performance.now();
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    if (performance.now() - begun < GO_MS) continue;
    await new Promise((next) => setTimeout(next));
    if (!wanted()) return null;
    begun = performance.now();
  }
}
