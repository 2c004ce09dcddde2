/** The job sheet on its desk: everything the shop needs on paper, in the order of the work. */

import { sumsInSteps } from '../../model/paper/sums.ts';
import { isProven, watchPaper } from '../../model/paper/watcher.ts';
import type { Pool, Steps } from '../../model/pieces/kind.ts';
import type { Work } from '../../model/pieces/table.ts';
import type { State, Store } from '../../model/state.ts';
import { html } from '../element.ts';
import { type Content, createDesk } from './desk.ts';
import type { Shown } from './sections.ts';
import { balancePart, cautionsPart, deckPart, mockUpPart } from './sheetBench.ts';
import { curesPart, drawingsPart, gapsPart } from './sheetGaps.ts';
import { grindPart } from './sheetGrind.ts';
import { headPart } from './sheetHead.ts';
import { dimensionsPart, orderPart } from './sheetParts.ts';
import type { PaperBlock } from './sheets.ts';
import type { SizeChoice } from './sizeChoice.ts';

export function createJobSheet(
  host: HTMLElement,
  store: Store,
  pool: Pool<Work>,
  sizes: SizeChoice,
  today: () => string,
): Shown {
  let every = false;
  const box = html('input', { type: 'checkbox' });
  const scope = html('label', { class: 'sw-desk-check' }, box, html('span', {}, 'Mock-up boxes for every cylinder'));
  const watcher = watchPaper(store, pool, 'job sheet', { closeGaps: true }, ({ done, of, failed }) => {
    if (done === of || failed !== null) desk.renew();
  });
  const desk = createDesk(
    host,
    store,
    {
      kind: 'Job sheet',
      content: function* (state: State): Steps<Content> {
        const { worked } = watcher;
        const { doc, assembly } = state;
        for (const name of new Set([assembly, doc.replaced])) yield* sumsInSteps(doc, name);
        const grind = grindPart(state);
        const left = worked.of - worked.done;
        const waits = !isProven(state)
          ? 'gaps are being proven.'
          : worked.failed === null && (worked.of === 0 ? state.gaps.length > 0 : left > 0)
            ? `running gaps and cures are being worked out, ${worked.done} of ${worked.of}.`
            : null;
        const parts: (() => readonly PaperBlock[])[] = [
          () => headPart(state),
          () => cautionsPart(state),
          () => grind.blocks,
          () => orderPart(state),
          () => deckPart(state),
          () => gapsPart(state, worked),
          () => curesPart(state, worked),
          () => drawingsPart(state),
          () => balancePart(state),
          () => mockUpPart(state, every),
          () => dimensionsPart(state),
        ];
        const blocks: PaperBlock[] = [];
        for (const part of parts) {
          yield;
          blocks.push(...part());
        }
        return { blocks, scale: grind.scale ?? 'none', waitsFor: waits };
      },
      wanted: watcher.ask,
    },
    sizes,
    today,
    scope,
  );
  box.addEventListener('change', () => {
    every = box.checked;
    desk.renew();
  });
  return { shown: desk.show, hidden: desk.hide };
}
