/** The page of curves against crank angle. */
import '../../view/curves/curves.css';
import { speedRpm } from '../../build/literal.ts';
import { paint, pngOf } from '../../view/clip/paint.ts';
import { createCurvesPage } from '../../view/curves/page.ts';
import { download, fileName } from '../files.ts';
import type { CreatePage } from './page.ts';

/** A PNG is so many times as sharp as the drawing. */
const SHARPER = 2;

export const createPage: CreatePage = (host, { store, pool, close }) => {
  const page = createCurvesPage(host, store, pool, {
    close,
    save: (blob, end) => download(blob, `${fileName(store.state.doc.name, 'build')}-${end}`),
    png: async (text) => {
      const [, width, height] = /<svg [^>]*width="(\d+)" height="(\d+)"/.exec(text)!;
      const canvas = document.createElement('canvas');
      await paint(canvas, text, SHARPER * Number(width), SHARPER * Number(height));
      return pngOf(canvas);
    },
    speedRpm: (state) => speedRpm(state.doc.speed.value),
  });
  return { shown: page.show, hidden: page.hide };
};
