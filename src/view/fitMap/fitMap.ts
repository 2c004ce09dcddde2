/** The page "Fit map": which two dimensions, the map, what stands under the cursor, and the way there. */
import { literalAt } from '../../model/map/axis.ts';
import { CROSSING_MM } from '../../model/map/crossings.ts';
import type { MapCell } from '../../model/map/spec.ts';
import type { FitMap, FitMapWatcher, MapChoice } from '../../model/map/watcher.ts';
import type { Store } from '../../model/state.ts';
import { html, setText } from '../element.ts';
import { textScale } from '../textScale.ts';
import { watchTheme } from '../theme.ts';
import { formatLength, gapLabel } from '../words.ts';
import type { PlotInk } from './axes.ts';
import { frameOf, placeOn } from './axes.ts';
import { createControls } from './controls.ts';
import type { Mark } from './plot.ts';
import { cellAt, drawPlot, regionsOf } from './plot.ts';

/** Taller than this a map says no more, px. */
const TALLEST = 620;

export interface FitMapPage {
  readonly destroy: () => void;
}

/** `enlarge` gives the map more of the page, and takes it back; absent where there is no more to give. */
export function createFitMap(
  host: HTMLElement,
  store: Store,
  watcher: FitMapWatcher,
  enlarge: HTMLElement,
): FitMapPage {
  const canvas = html('canvas', {
    class: 'sw-map-plot',
    role: 'application',
    tabindex: '0',
    'aria-label': 'Fit map. Arrow keys move the cursor, Enter goes to the design under it.',
    'aria-describedby': 'fit-map-readout',
  });
  const state = html('p', { class: 'sw-map-state', role: 'status' });
  const progress = html('progress', { 'aria-label': 'Designs worked out', max: '1', value: '0' });
  const readout = html('p', { class: 'sw-map-readout', id: 'fit-map-readout', 'aria-live': 'polite' });
  const go = html('button', { type: 'button', class: 'sw-button sw-button-main' }, 'Set the build to this design');
  const legend = html('ul', { class: 'sw-map-legend' });
  const about = html(
    'p',
    { class: 'sw-map-about' },
    `Worst margin of all pairs over their limits. The line is where it is nothing, certified at each side of the grid to ${formatLength(CROSSING_MM, 'mm', 1)} of margin. In contact, depths are at least what is said. Check every clearance on the real parts.`,
  );
  const controls = createControls(watcher);
  host.replaceChildren(controls.element, enlarge, state, progress, canvas, readout, go, legend, about);
  const ctx = canvas.getContext('2d');
  let cursor: { i: number; j: number } | null = null;
  let drawing = false;

  const cellUnder = (): MapCell | null => {
    const { map } = watcher.state;
    return map === null || cursor === null ? null : (map.cells[cursor.j * map.spec.a.values.length + cursor.i] ?? null);
  };

  function marks(): { present: Mark | null; replaced: Mark | null } {
    const { map } = watcher.state;
    if (map === null) return { present: null, replaced: null };
    const { a, b } = map.spec;
    const { doc } = store.state;
    const at = (p: string, q: string): Mark | null => {
      const x = placeOn(a.values, p);
      const y = placeOn(b.values, q);
      return x === null || y === null ? null : { x, y };
    };
    const other = doc.assemblies.findIndex((each) => each.name === doc.replaced);
    const swap = (path: typeof a.path): typeof a.path =>
      path[0] === 'assemblies' ? ['assemblies', other, ...path.slice(2)] : path;
    return {
      present: at(literalAt(doc, a.path), literalAt(doc, b.path)),
      replaced:
        doc.replaced === map.spec.assembly ? null : at(literalAt(doc, swap(a.path)), literalAt(doc, swap(b.path))),
    };
  }

  function draw(): void {
    drawing = false;
    const { map, earlier } = watcher.state;
    const scaled = textScale();
    const width = canvas.clientWidth / scaled;
    canvas.hidden = map === null;
    if (map === null || ctx === null || width < 120) return;
    const height = Math.min(TALLEST, Math.round(width * 0.95));
    const ratio = (globalThis.devicePixelRatio || 1) * scaled;
    if (canvas.width !== Math.round(width * ratio) || canvas.height !== Math.round(height * ratio)) {
      canvas.width = Math.round(width * ratio);
      canvas.height = Math.round(height * ratio);
    }
    ctx.setTransform(ratio, 0, 0, ratio, 0, 0);
    const [across, upward] = controls.names();
    drawPlot(ctx, width, height, { map, ...marks(), cursor, across, upward, earlier }, inkOf());
  }

  /** At most once a frame, however often pieces come. */
  function ask(): void {
    if (drawing) return;
    drawing = true;
    requestAnimationFrame(draw);
  }

  function say(): void {
    const { map } = watcher.state;
    const cell = cellUnder();
    const able = cell !== null && cell.refused === null && !watcher.state.earlier;
    go.disabled = !able;
    if (map === null || cursor === null) {
      setText(readout, map === null ? '' : 'Point at a design, or move the cursor with the arrow keys.');
      return;
    }
    const [across, upward] = controls.plainNames();
    const place = `${across} ${map.spec.a.values[cursor.i]}, ${upward} ${map.spec.b.values[cursor.j]}`;
    setText(readout, cell === null ? `${place}: being worked out.` : `${place}: ${sentence(cell)}`);
  }

  function sentence(cell: MapCell): string {
    const { units } = store.state;
    if (cell.refused !== null) return `can’t be built. ${cell.refused}`;
    const { pair, marginMm, state: is } = cell;
    if (pair === null) return is;
    const who = gapLabel(pair);
    if (pair.gapMm <= 0 && pair.kind !== 'deck')
      return `contact, ${who}, at least ${formatLength(-pair.gapMm, units)} deep.`;
    const margin = `${formatLength(Math.abs(marginMm), units)} ${marginMm < 0 ? 'below' : 'above'} the limit`;
    const word = cell.certified ? is : 'proof not finished';
    return `${word}, ${who}, gap ${formatLength(pair.gapMm, units)}, ${margin}.`;
  }

  function show(now: FitMap): void {
    const { map, running, earlier, problem } = now;
    controls.show(now, store.state);
    progress.hidden = !running;
    if (map !== null) progress.value = map.done / Math.max(1, map.cells.length);
    const words =
      problem ??
      (earlier
        ? 'This is the map of the build as it was before the last change; the new one is on its way.'
        : map === null
          ? running || store.state.gaps.some((g) => !g.certified)
            ? 'The map is being worked out …'
            : ''
          : map.finished
            ? `${map.cells.length} designs worked out.`
            : map.done < map.cells.length
              ? `${map.done} of ${map.cells.length} designs worked out; places not done yet are fainter.`
              : 'Finding where the margin is nothing …');
    setText(state, words);
    if (
      cursor !== null &&
      (map === null || cursor.i >= map.spec.a.values.length || cursor.j >= map.spec.b.values.length)
    )
      cursor = null;
    showLegend(now);
    say();
    ask();
  }

  let legendOf = '';
  function showLegend({ map }: FitMap): void {
    const regions = map === null ? [] : regionsOf(map.cells);
    const refused = map?.cells.some((cell) => cell !== null && cell.refused !== null) ?? false;
    const { present, replaced } = marks();
    const rows: (readonly [mark: string, words: string])[] = [
      ...regions.map(({ letter, example }) => [letter, gapLabel(example)] as const),
      ...(refused ? ([['×', 'can’t be built']] as const) : []),
      ...(present === null ? [] : ([['+', 'the build now, in the ring']] as const)),
      ...(replaced === null ? [] : ([['□', store.state.doc.replaced]] as const)),
    ];
    const key = JSON.stringify(rows);
    if (key === legendOf) return;
    legendOf = key;
    legend.replaceChildren(
      ...rows.map(([mark, words]) =>
        html('li', {}, html('span', { class: 'sw-map-letter', 'aria-hidden': 'true' }, mark), words),
      ),
      ...(map === null
        ? []
        : (['clears', 'tight', 'contact'] as const).map((is) =>
            html('li', {}, html('span', { class: 'sw-map-swatch', 'data-state': is, 'aria-hidden': 'true' }), is),
          )),
    );
  }

  function point(event: MouseEvent): { i: number; j: number } | null {
    const { map } = watcher.state;
    const box = canvas.getBoundingClientRect();
    if (map === null) return null;
    const scaled = textScale();
    const frame = frameOf(box.width / scaled, box.height / scaled);
    return cellAt(map, frame, (event.clientX - box.left) / scaled, (event.clientY - box.top) / scaled);
  }
  canvas.addEventListener('pointermove', (event) => {
    const at = point(event);
    if (at === null || event.pointerType === 'touch') return;
    cursor = at;
    say();
    ask();
  });
  canvas.addEventListener('click', (event) => {
    const at = point(event);
    if (at === null) return;
    cursor = at;
    // By touch the first tap shows what is there; the button goes.
    if ((event as PointerEvent).pointerType !== 'touch') watcher.go(at.i, at.j);
    say();
    ask();
  });
  canvas.addEventListener('keydown', (event) => {
    const { map } = watcher.state;
    if (map === null) return;
    const step = event.shiftKey ? 8 : 1;
    const moves: Readonly<Record<string, readonly [number, number]>> = {
      ArrowLeft: [-step, 0],
      ArrowRight: [step, 0],
      ArrowUp: [0, step],
      ArrowDown: [0, -step],
    };
    const move = moves[event.key];
    if (move !== undefined) {
      const { present } = marks();
      const from = cursor ?? { i: Math.round(present?.x ?? 0), j: Math.round(present?.y ?? 0) };
      const within = (k: number, n: number): number => Math.min(n - 1, Math.max(0, k));
      cursor = {
        i: within(from.i + move[0], map.spec.a.values.length),
        j: within(from.j + move[1], map.spec.b.values.length),
      };
      say();
      ask();
      event.preventDefault();
    } else if (event.key === 'Enter' && cursor !== null) {
      watcher.go(cursor.i, cursor.j);
      event.preventDefault();
    }
  });
  go.addEventListener('click', () => {
    if (cursor !== null) watcher.go(cursor.i, cursor.j);
  });

  // Only while the page is seen is anything worked out.
  const seen = new IntersectionObserver((entries) => watcher.look(entries.at(-1)!.isIntersecting));
  seen.observe(host);
  const sized = new ResizeObserver(ask);
  sized.observe(host);
  const stops = [
    watcher.watch(show),
    watchTheme(ask),
    store.watch((_, changed) => {
      if (changed.has('document') || changed.has('units')) show(watcher.state);
    }),
  ];
  show(watcher.state);
  return {
    destroy: () => {
      seen.disconnect();
      sized.disconnect();
      for (const stop of stops) stop();
      watcher.look(false);
    },
  };
}

export type { MapChoice };

function inkOf(): PlotInk {
  const style = getComputedStyle(document.documentElement);
  const of = (name: string): string => style.getPropertyValue(name).trim();
  return {
    paper: of('--sw-paper'),
    ink: of('--sw-ink'),
    faint: of('--sw-faint'),
    clears: of('--sw-clears'),
    tight: of('--sw-tight'),
    contact: of('--sw-contact'),
    unproven: of('--sw-unproven'),
    accent: of('--sw-accent'),
  };
}
