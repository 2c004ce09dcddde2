/** What stands beside the section: the pages of the right-hand side. Fetched and made once the first picture stands. */
import { watchBand } from '../model/envelope/watcher.ts';
import { watchStory } from '../model/gapStory/watcher.ts';
import type { Store } from '../model/index.ts';
import { watchFitMap } from '../model/map/watcher.ts';
import { watchMockUp } from '../model/mockUp/watcher.ts';
import { createOutlineDraft } from '../model/outlineDraft.ts';
import type { Pool } from '../model/pieces/kind.ts';
import type { Work } from '../model/pieces/table.ts';
import { watchTolerances } from '../model/tolerances/watcher.ts';
import { workerReader } from '../model/workerReader.ts';
import {
  createBandPanel,
  createCures,
  createMockUpPage,
  createOutlinesPage,
  createPane,
  createTolerancesPage,
  RUNNING_FIELDS,
} from '../pane/index.ts';
import { createFitMap } from '../view/fitMap/fitMap.ts';
import { createGapTable } from '../view/gapTable.ts';
import type { Scene } from '../view/index.ts';
import { createInWords } from '../view/inWords.ts';
import { createScalarTable } from '../view/scalarTable.ts';
import { createThisGap } from '../view/thisGap/page.ts';
import { createEnlarge } from './enlarge.ts';
import { latePane } from './latePane.ts';

export interface Beside {
  /** The page of one gap comes up. */
  readonly shownGap: () => void;
}

/** `host` finds an element of index.html by its id. */
export function createBeside(
  host: (id: string) => HTMLElement,
  { store, pool, scene }: { readonly store: Store; readonly pool: Pool<Work>; readonly scene: Scene },
): Beside {
  createGapTable(host('gaps'), store);
  createScalarTable(host('scalars'), store);
  createInWords(host('in-words'), store);
  createCures(host('cures'), store);
  createThisGap(host('this-gap'), store, watchStory(store, pool));
  createFitMap(host('fit-map'), store, watchFitMap(store, pool), createEnlarge(host('page')));
  createMockUpPage(host('mock-up'), store, watchMockUp(store, pool));
  createOutlinesPage(host('outlines'), store, createOutlineDraft(store, workerReader()));
  const band = watchBand(store, pool);
  createBandPanel(host('band'), store, band);
  band.watch((state) => scene.showBand(state.band));
  createTolerancesPage(host('tolerances'), store, watchTolerances(store, pool));

  const running = latePane(() => createPane(host('running'), store, RUNNING_FIELDS));
  if (!host('running').hidden) running.need();

  // A build opened anew gets a pane of its own: drafts and folded groups belong to the build they were made in.
  let pane = createPane(host('dimensions'), store);
  let paneOf = store.state.doc;
  store.watch((state, changed) => {
    if (!changed.has('playing') || !changed.has('document') || state.doc === paneOf) return;
    paneOf = state.doc;
    pane.destroy();
    pane = createPane(host('dimensions'), store);
    running.renew();
  });
  return { shownGap: running.need };
}
