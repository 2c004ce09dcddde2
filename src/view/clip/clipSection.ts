/** A clip of the turning engine, or of the tour: chosen, made with progress and a way to stop, looked at, saved. */
import { replacedOf } from '../../model/replaced.ts';
import type { Store } from '../../model/state.ts';
import { sideOf } from '../counter/compared.ts';
import { tourOf } from '../counter/tour.ts';
import { html } from '../element.ts';
import type { Shown } from '../paper/sections.ts';
import { readInk } from '../theme.ts';
import { button, choice } from './controls.ts';
import { encode, type Kind, kindsHere } from './encode.ts';
import { type Film, frameSvg } from './frameSvg.ts';
import { cycleFrames, type Frame, sameFrame, tourFrames } from './frames.ts';
import { inTheWay } from './ready.ts';

/** 16 to 10, both even, as encoders ask. */
const heightOf = (width: number): number => 2 * Math.round((width * 10) / 32);

/** A cycle of the engine takes this long on the clip, s. */
const CYCLE_S = 4;
const NO_ENCODER = 'This browser has no encoder for video of this size. A GIF can be made.';
const NAMES: Readonly<Record<Kind, string>> = { mp4: 'MP4 (H.264)', webm: 'WebM', gif: 'GIF' };

export function createClipSection(host: HTMLElement, store: Store, save: (blob: Blob, end: string) => void): Shown {
  const replaced = replacedOf(store);
  const what = choice(
    'What',
    [
      ['cycle', 'The engine turning'],
      ['tour', 'The tour for the customer'],
    ],
    plan,
  );
  const kind = choice<Kind>('Kind of file', [['gif', NAMES.gif]], plan);
  const size = choice(
    'Width',
    [
      ['640', '640 px'],
      ['960', '960 px'],
      ['1280', '1280 px'],
    ],
    () => void offer(),
    '960',
  );
  // Delays of a GIF are hundredths of a second: only these are kept exactly.
  const rate = choice(
    'Pictures a second',
    [
      ['20', '20'],
      ['25', '25'],
      ['50', '50'],
    ],
    plan,
    '25',
  );
  const make = button('Make the clip', () => void start(), true);
  const stop = button('Stop', () => making?.abort());
  stop.hidden = true;
  const bar = html('progress', { max: '1', 'aria-label': 'Pictures done' });
  bar.hidden = true;
  const said = html('p', { class: 'sw-clip-said', role: 'status' });
  const planned = html('p', { class: 'sw-clip-said' });
  const result = html('div', { class: 'sw-clip-result' });
  host.replaceChildren(
    html('div', { class: 'sw-clip-row' }, what.row, kind.row, size.row, rate.row),
    planned,
    html('div', { class: 'sw-clip-row' }, make, stop, bar),
    said,
    result,
  );
  let making: AbortController | null = null;
  let url = '';

  async function offer(): Promise<void> {
    const width = Number(size.value());
    const kinds = await kindsHere(width, heightOf(width));
    kind.offer(kinds.map((k) => [k, NAMES[k]] as const));
    const none = !kinds.includes('mp4') && !kinds.includes('webm');
    if (none || said.textContent === NO_ENCODER) said.textContent = none ? NO_ENCODER : '';
    plan();
  }

  function frames(): { readonly film: Film; readonly list: readonly Frame[] } {
    const { state } = store;
    const { doc, engine, gaps, cures, cylinder, units } = state;
    const width = Number(size.value());
    const perS = Number(rate.value());
    const ghost = replaced();
    const film = { state, ghost, width, height: heightOf(width), ink: readInk() };
    if (what.value() === 'cycle') {
      const list = cycleFrames(engine.cycleRad, CYCLE_S * perS);
      return { film: { ...film, ghost: null, tour: null }, list };
    }
    const now = sideOf(doc, engine, cylinder);
    const was = ghost === null ? null : sideOf(doc, ghost, cylinder);
    const steps = tourOf({ doc, before: ghost, after: engine, cylinder, gaps, cures, units });
    const list = tourFrames(steps, now.cylinder.firingTdcRad, engine.cycleRad, perS);
    return { film: { ...film, tour: { steps, was, now } }, list };
  }

  function plan(): void {
    const { list, film } = frames();
    const perS = Number(rate.value());
    planned.textContent = `${list.length} pictures of ${film.width} × ${film.height}, ${(list.length / perS).toFixed(1)} s; after the last comes the first again.`;
  }

  async function start(): Promise<void> {
    said.textContent = inTheWay(store.state);
    if (said.textContent !== '') return;
    making = new AbortController();
    const { signal } = making;
    const { film, list } = frames();
    const chosen = kind.value();
    make.disabled = true;
    stop.hidden = false;
    bar.hidden = false;
    bar.value = 0;
    said.textContent = '';
    clear();
    try {
      const blob = await encode({
        kind: chosen,
        width: film.width,
        height: film.height,
        framesPerS: Number(rate.value()),
        count: list.length,
        moving: film.tour === null,
        draw: (k, anew) => (!anew && k > 0 && sameFrame(list[k]!, list[k - 1]!) ? null : frameSvg(film, list[k]!)),
        progress: (done) => {
          bar.value = done / list.length;
        },
        signal,
      });
      show(blob, chosen, what.value());
    } catch (error) {
      said.textContent = signal.aborted
        ? 'Stopped. Nothing was kept.'
        : `The clip could not be made: ${error instanceof Error ? error.message : String(error)}.${chosen === 'gif' ? '' : ' Try another kind of file, or a smaller one.'}`;
    } finally {
      making = null;
      make.disabled = false;
      stop.hidden = true;
      bar.hidden = true;
    }
  }

  function clear(): void {
    URL.revokeObjectURL(url);
    result.replaceChildren();
  }

  function show(blob: Blob, of: Kind, which: string): void {
    url = URL.createObjectURL(blob);
    const picture =
      of === 'gif'
        ? html('img', { class: 'sw-clip-preview', src: url, alt: 'The clip' })
        : html('video', {
            class: 'sw-clip-preview',
            src: url,
            controls: '',
            loop: '',
            muted: '',
            'aria-label': 'The clip',
          });
    result.replaceChildren(
      button(`Save the ${of === 'gif' ? 'GIF' : 'video'}`, () => save(blob, `${which}.${of}`), true),
      html('p', { class: 'sw-clip-said' }, `${NAMES[of]}, ${(blob.size / 1e6).toFixed(2)} MB.`),
      picture,
    );
    said.textContent = 'The clip is ready.';
  }

  return {
    shown: () => void offer(),
    hidden: () => {
      making?.abort();
      clear();
    },
  };
}
