/** The page of lessons and glossary: lesson files, the browser's own store for what is kept, keys for the lesson's crank. */
import '../../view/lessons/drawn.css';
import '../../view/lessons/lessons.css';
import '../../view/lessons/narrow.css';
import { lessonAsker, type Slot } from '../../model/lessons/index.ts';
import { workerSolver } from '../../model/workerSolver.ts';
import { createGlossaryList } from '../../view/glossary/list.ts';
import { createLessonsPage } from '../../view/lessons/page.ts';
import { DEMOS } from '../demos.ts';
import { drawFromLesson, FINDER } from '../glossary.ts';
import { workKeys } from '../keys.ts';
import { keepTurning } from '../turning.ts';
import type { CreatePage } from './page.ts';

const FILES = import.meta.glob<string>('../../../assets/lessons/*.json', {
  query: '?raw',
  import: 'default',
  eager: true,
});

const KEPT = 'strokewright-lessons';

/** The browser may forbid it; whoever reads or writes hears of it. */
const slot: Slot = {
  read: () => localStorage.getItem(KEPT),
  write: (text) => {
    if (text === null) localStorage.removeItem(KEPT);
    else localStorage.setItem(KEPT, text);
  },
};

export const createPage: CreatePage = (host, { close, pool }) => {
  const terms = new Set(FINDER.terms.map((one) => one.term));
  const place = document.createElement('div');
  place.className = 'sw-lessons-page';
  host.append(place);
  // One worker for all lessons, made when the first of them is opened, ended when the page is left.
  let solver: ReturnType<typeof workerSolver> | null = null;
  const page = createLessonsPage(
    place,
    {
      files: new Map(Object.entries(FILES).map(([path, text]) => [path.replace(/^.*\//, ''), text])),
      bases: new Map(DEMOS.map((demo) => [demo.key, demo.text])),
      terms,
      asker: lessonAsker(pool),
      solver: () => {
        solver ??= workerSolver();
        return solver;
      },
      slot,
      renderer: new URLSearchParams(location.search).get('renderer') === 'canvas' ? 'canvas' : 'webgl',
      close,
      turning: keepTurning,
    },
    createGlossaryList(FINDER),
  );
  drawFromLesson(page.store);
  // The crank of the lesson answers to the keys, not that of the job behind it.
  const onKey = (event: KeyboardEvent): void => {
    const store = page.store();
    if (store !== null) workKeys(event, store);
  };
  return {
    shown: () => {
      document.addEventListener('keydown', onKey, true);
      page.show();
    },
    hidden: () => {
      document.removeEventListener('keydown', onKey, true);
      page.hide();
      solver?.stop();
      solver = null;
    },
    back: page.back,
  };
};
