/** Puts the page together: store, pane, views, files, keys. */
import { parseBuild } from '../build/index.ts';
import { createStore, replacedOf } from '../model/index.ts';
import { keptOf } from '../model/jobs/library.ts';
import { workerPool } from '../model/pieces/workerPool.ts';
import { workerSolver } from '../model/workerSolver.ts';
import {
  createAngleRuler,
  createReadout,
  createScene,
  createSideStrip,
  createTransport,
  createVerdict,
} from '../view/index.ts';
import { createBar } from './bar.ts';
import type { Beside } from './beside.ts';
import { DEMOS } from './demos.ts';
import { createFirstNote } from './firstNote.ts';
import { createHint } from './hint.ts';
import { createKeeping } from './keeping.ts';
import { listenToKeys } from './keys.ts';
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
// The job that was open last comes up as it was left, unless the address asks for a demonstration.
const library = openLibrary(!asked.has('demo'));
const demo = DEMOS.find((d) => d.key === asked.get('demo')) ?? DEMOS[0]!;
const first = parseBuild(demo.text);
if (!first.ok)
  throw new Error(
    `The demo ${demo.key} can't be used: ${first.problems.map((p) => `${p.place} ${p.rule}`).join('; ')}`,
  );
const start = await library;
const store = createStore(start.last?.doc ?? first.doc, {
  solver: workerSolver(() => workerBroke()),
  ...(start.last === null ? {} : { kept: keptOf(start.last) }),
});
const keeper = keep(store, start);
const opening = createOpening(keeper);

/** What stands beside the section comes after the first picture. */
let beside: Beside | null = null;
const side = createSide(host('page'), host('pages'), [
  { label: 'Dimensions', parts: [host('dimensions')] },
  { label: 'This gap', parts: [host('this-gap'), host('running'), host('band')], shown: () => beside?.shownGap() },
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
keepTurning(store);
listenToKeys(store, () => pages.back() || side.back());

opening.listenToDrops();
listenToLinks(keeper);

await scene.ready;
performance.mark('first picture');
try {
  const { createBeside } = await import('./beside.ts');
  beside = createBeside(host, { store, pool, scene });
} catch (error) {
  if (!(error instanceof TypeError)) throw error;
  host('dimensions').textContent =
    'The rest of the program can’t be fetched. Load the page anew when it can be reached.';
}
void import('./glossary.ts').then(({ useGlossary }) => useGlossary(store, () => pages.open('lessons')));
useOffline(host('bar'), keeper);

// For measuring and for tests: the store and the section, read from the page's console. Once they are there, all is.
Object.assign(globalThis, { strokewright: { store, scene, keeper } });
