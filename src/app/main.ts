/** Puts the page together: store, pane, views, files, keys. */
import { parseBuild } from '../build/index.ts';
import { watchBand } from '../model/envelope/watcher.ts';
import { watchStory } from '../model/gapStory/watcher.ts';
import { createStore, replacedOf } from '../model/index.ts';
import { keptOf } from '../model/jobs/library.ts';
import { watchFitMap } from '../model/map/watcher.ts';
import { watchMockUp } from '../model/mockUp/watcher.ts';
import { createOutlineDraft } from '../model/outlineDraft.ts';
import { workerPool } from '../model/pieces/workerPool.ts';
import { watchTolerances } from '../model/tolerances/watcher.ts';
import { workerReader } from '../model/workerReader.ts';
import { workerSolver } from '../model/workerSolver.ts';
import {
  createBandPanel,
  createCures,
  createMockUpPage,
  createOutlinesPage,
  createPane,
  createTolerancesPage,
  RUNNING_FIELDS,
} from '../pane/index.ts';
import {
  createAngleRuler,
  createFitMap,
  createGapTable,
  createInWords,
  createReadout,
  createScalarTable,
  createScene,
  createSideStrip,
  createThisGap,
  createTransport,
  createVerdict,
} from '../view/index.ts';
import { createBar } from './bar.ts';
import { DEMOS } from './demos.ts';
import { createEnlarge } from './enlarge.ts';
import { createFirstNote } from './firstNote.ts';
import { createHint } from './hint.ts';
import { createKeeping } from './keeping.ts';
import { listenToKeys } from './keys.ts';
import { latePane } from './latePane.ts';
import { keep, openLibrary } from './library.ts';
import { listenToLinks } from './link.ts';
import { useOffline } from './offline/useOffline.ts';
import { createOpening } from './opening.ts';
import { PAGES } from './pages/table.ts';
import { createWholePages } from './pages/whole.ts';
import { createSide } from './side.ts';
import { keepTurning } from './turning.ts';

function host(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`index.html has no element #${id}`);
  return found;
}

const asked = new URLSearchParams(location.search);
const demo = DEMOS.find((d) => d.key === asked.get('demo')) ?? DEMOS[0]!;
const first = parseBuild(demo.text);
if (!first.ok)
  throw new Error(
    `The demo ${demo.key} can't be used: ${first.problems.map((p) => `${p.place} ${p.rule}`).join('; ')}`,
  );

// The job that was open last comes up as it was left, unless the address asks for a demonstration.
const start = await openLibrary(!asked.has('demo'));
const store = createStore(start.last?.doc ?? first.doc, {
  solver: workerSolver(() => workerBroke()),
  ...(start.last === null ? {} : { kept: keptOf(start.last) }),
});
const keeper = keep(store, start);
const opening = createOpening(keeper);

const running = latePane(() => createPane(host('running'), store, RUNNING_FIELDS));
const side = createSide(host('page'), host('pages'), [
  { label: 'Dimensions', parts: [host('dimensions')] },
  { label: 'This gap', parts: [host('this-gap'), host('running'), host('band')], shown: running.need },
  { label: 'Cures', parts: [host('cures')] },
  { label: 'All gaps', parts: [host('gaps'), host('scalars')] },
  { label: 'Fit map', parts: [host('fit-map')] },
  { label: 'Tolerances', parts: [host('tolerances')] },
  { label: 'Mock-up', parts: [host('mock-up')] },
  { label: 'Outlines', parts: [host('outlines')] },
  { label: 'In words', parts: [host('in-words')] },
]);
const pool = workerPool(() => workerBroke());
const pages = createWholePages(host('page'), PAGES, { store, pool, keeper });
createBar(host('bar'), store, keeper, pages.buttons, {
  openDemo: opening.demo,
  openFile: opening.choose,
  toggleSide: side.toggle,
});
const keeping = createKeeping(host('bar'), store, keeper, start, () => pages.open('jobs'));
const workerBroke = keeping.workerBroke;
createVerdict(host('verdict'), store);
createSideStrip(host('strip'), store);
createFirstNote(host('bar'));
createHint(host('page'));
const scene = createScene(host('section'), store, {
  ...(asked.get('renderer') === 'canvas' ? { renderer: 'canvas' as const } : {}),
  ghost: replacedOf(store),
});
createAngleRuler(host('ruler'), store);
createTransport(host('transport'), store);
createReadout(host('readout'), store);
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

keepTurning(store);
listenToKeys(store, () => pages.back() || side.back());

opening.listenToDrops();
listenToLinks(keeper);

void scene.ready.then(() => performance.mark('first picture'));
void scene.ready.then(() => useOffline(host('bar'), keeper));

void import('./glossary.ts').then(({ useGlossary }) => useGlossary(store, () => pages.open('lessons')));

// For measuring and for tests: the store and the section, read from the page's console.
Object.assign(globalThis, { strokewright: { store, scene, keeper } });
