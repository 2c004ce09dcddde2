/** A drawing of the glossary that turns while it is pointed at, has the focus or was tapped; with less motion asked for it goes a step at a press. */

import type { DrawingName } from '../../build/glossary.ts';
import { sizesOf, standAt } from '../../model/glossary/stand.ts';
import type { Store } from '../../model/state.ts';
import { html, svg } from '../element.ts';
import { wantsLessMotion } from '../theme.ts';
import { formatLength } from '../words.ts';
import type { Told } from './drawing.ts';
import { drawingOf } from './drawings.ts';
import { drawMarks, SHEET } from './sheet.ts';

/** Crank degrees a second, and of a drawing that goes to and fro its swing to either side. */
const DEGREES_PER_S = 70;
const SWING_DEG = 28;
/** At a press, with less motion. */
const STEP_DEG = 30;

export interface Live {
  readonly element: HTMLElement;
  readonly stop: () => void;
}

/** `name` of the term, for assistive technology. Drawn from the build of the store as it stands now. */
export function createLive(drawing: DrawingName, name: string, store: Store): Live {
  const what = drawingOf(drawing);
  const { doc, engine, cylinder, units, gaps } = store.state;
  const sizes = sizesOf(doc, engine, cylinder);
  const around: Omit<Told, 'stand'> = {
    engine,
    gap: gaps.find((gap) => gap.cylinder === cylinder) ?? null,
    say: (mm) => formatLength(mm, units === 'both' ? 'in' : units),
  };
  const still = typeof what.still === 'number' ? what.still : what.still(sizes, around);
  const isSketch = typeof what.sketch === 'function' ? what.sketch(sizes) : what.sketch === true;
  const window = what.window(sizes, around);
  const sheet = svg('svg', {
    class: 'sw-g-sheet',
    viewBox: `0 0 ${SHEET.width} ${SHEET.height}`,
    width: String(SHEET.width),
    height: String(SHEET.height),
    'aria-hidden': 'true',
  });
  const button = html('button', { type: 'button', class: 'sw-g-live', 'aria-label': `Drawing of ${name}: turn it` });
  const from = isSketch ? 'A sketch, not drawn from the build.' : `Drawn from ${doc.name}, cylinder ${cylinder}.`;
  // The button lies over the drawing: the words in it are no part of its name.
  const place = html('div', { class: 'sw-g-place' }, sheet, button);
  const element = html('figure', { class: 'sw-g-figure' }, place, html('figcaption', {}, from));

  let phase = 0;
  const draw = (): void => {
    const deg =
      what.turns === 'round'
        ? still + phase
        : what.turns === 'not'
          ? still
          : still + SWING_DEG * Math.sin((phase * Math.PI) / 180);
    sheet.replaceChildren(...drawMarks(what.marks({ ...around, stand: standAt(sizes, deg) }), window));
  };
  let frame = 0;
  let last = 0;
  const step = (now: number): void => {
    if (last !== 0) phase += (DEGREES_PER_S * Math.min(now - last, 100)) / 1000;
    last = now;
    draw();
    frame = requestAnimationFrame(step);
  };
  const run = (): void => {
    if (frame !== 0 || wantsLessMotion() || what.turns === 'not') return;
    last = 0;
    frame = requestAnimationFrame(step);
  };
  const stop = (): void => {
    cancelAnimationFrame(frame);
    frame = 0;
  };
  button.addEventListener('pointerenter', (event) => {
    if (event.pointerType === 'mouse') run();
  });
  button.addEventListener('pointerleave', (event) => {
    if (event.pointerType === 'mouse') stop();
  });
  button.addEventListener('focus', () => {
    if (button.matches(':focus-visible')) run();
  });
  button.addEventListener('blur', stop);
  button.addEventListener('click', () => {
    if (wantsLessMotion()) {
      phase += STEP_DEG;
      draw();
    } else if (frame === 0) run();
    else stop();
  });
  draw();
  return { element, stop };
}
