/** The page of the shop's sums: the figures they need are entered beside them. */
import '../../view/sums/sums.css';
import '../../view/sums/pinCircles.css';
import { watchShelf } from '../../model/shelf/watcher.ts';
import { createShopFigures } from '../../pane/index.ts';
import { createSumsPage } from '../../view/sums/sumsPage.ts';
import { latePane } from '../latePane.ts';
import type { CreatePage } from './page.ts';

export const createPage: CreatePage = (host, { store, pool, close }) => {
  const sums = document.createElement('section');
  sums.className = 'sw-sums';
  sums.id = 'sums';
  sums.setAttribute('aria-label', 'Side by side');
  const beside = document.createElement('aside');
  beside.className = 'sw-sums-figures';
  beside.id = 'sums-figures';
  beside.setAttribute('aria-label', 'Figures for the sums');
  const title = document.createElement('h2');
  title.textContent = 'Figures for the sums';
  const said = document.createElement('p');
  said.textContent = 'What is left empty is left out; a sum that needs it says so.';
  const pane = document.createElement('div');
  pane.id = 'sums-pane';
  beside.append(title, said, pane);
  host.append(sums, beside);

  const figures = latePane(() => createShopFigures(pane, store));
  const page = createSumsPage(sums, store, watchShelf(store, pool), close);
  // Drafts and folded groups belong to the build they were made in.
  let doc = store.state.doc;
  store.watch((state, changed) => {
    if (!changed.has('playing') || !changed.has('document') || state.doc === doc) return;
    doc = state.doc;
    figures.renew();
  });
  return {
    shown: () => {
      figures.need();
      page.show();
    },
    hidden: page.hide,
  };
};
