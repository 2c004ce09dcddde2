/** The view for the customer, over the whole page. */
import '../../view/counter/counter.css';
import { createCounterView } from '../../view/counter/counterView.ts';
import type { CreatePage } from './page.ts';

export const createPage: CreatePage = (host, { store, close, open }) => {
  const asked = new URLSearchParams(location.search).get('renderer');
  const view = createCounterView(host, store, {
    close,
    summary: () => open('hand-out'),
    ...(asked === 'canvas' ? { renderer: 'canvas' as const } : {}),
  });
  return { shown: view.show, hidden: view.hide };
};
