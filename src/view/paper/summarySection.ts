/** The plain summary on its desk. */

import { allowanceMm } from '../../model/certified.ts';
import { measuredInMm } from '../../model/paper/lengths.ts';
import { roomsOf, standingOf } from '../../model/paper/rooms.ts';
import { summaryOf } from '../../model/paper/summary.ts';
import { sumsInSteps } from '../../model/paper/sums.ts';
import { isProven, watchPaper } from '../../model/paper/watcher.ts';
import type { Pool, Steps } from '../../model/pieces/kind.ts';
import type { Work } from '../../model/pieces/table.ts';
import type { Store } from '../../model/state.ts';
import { type Content, createDesk } from './desk.ts';
import type { Shown } from './sections.ts';
import type { SizeChoice } from './sizeChoice.ts';
import { BRIEFEST, summaryBlocks } from './summaryPaper.ts';
import { summaryText } from './summaryWords.ts';

export function createSummary(
  host: HTMLElement,
  store: Store,
  pool: Pool<Work>,
  sizes: SizeChoice,
  today: () => string,
): Shown {
  const watcher = watchPaper(store, pool, 'plain summary', { before: true }, ({ done, of, before, failed }) => {
    if (done === of || before !== null || failed !== null) desk.renew();
  });
  const desk = createDesk(
    host,
    store,
    {
      kind: 'Plain summary',
      content: function* ({ doc, engine, gaps, units: shown }, brevity): Steps<Content> {
        for (const name of new Set([engine.assembly, doc.replaced])) yield* sumsInSteps(doc, name);
        // One unit is enough where a lay person reads: that in which the bore was measured.
        const units = shown !== 'both' ? shown : measuredInMm(doc.block.bore) ? 'mm' : 'in';
        const { before, failed } = watcher.worked;
        const summary = summaryOf(doc, engine);
        const text = summaryText(summary, roomsOf(gaps, before, allowanceMm(doc)), gaps, standingOf(gaps), units);
        const waits = !isProven({ gaps })
          ? 'gaps are being proven.'
          : summary.compares && before === null && failed === null
            ? 'gaps of the assembly being replaced are being worked out.'
            : null;
        return {
          blocks: summaryBlocks(
            text,
            doc.name,
            [summary.replaced, summary.assembly],
            summary.compares,
            summary.rpm.value,
            brevity,
          ),
          scale: 'none',
          units,
          waitsFor: waits,
        };
      },
      wanted: watcher.ask,
      briefest: BRIEFEST,
    },
    sizes,
    today,
  );
  return { shown: desk.show, hidden: desk.hide };
}
