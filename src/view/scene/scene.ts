/**
 * The section on the page: one canvas drawn by pixi with WebGL, on demand only. It holds the camera, what the pointer
 * is doing and nothing else; turning goes out as commands and comes back through the store.
 */
import 'pixi.js/unsafe-eval';
import { Application, RendererType } from 'pixi.js';
import type { Engine } from '../../assembly/engine.ts';
import type { Band } from '../../model/envelope/watcher.ts';
import type { State, Store } from '../../model/state.ts';
import { html } from '../element.ts';
import { gapSentence } from '../gapWords.ts';
import { bodiesInView, isMoving, leadingGaps, pairsInView } from '../inView.ts';
import { type Ink, readInk, watchTheme } from '../theme.ts';
import { type Box, type Camera, panBy, zoomAt } from './camera.ts';
import { createDrawing, type DrawingOptions, type Told } from './drawing.ts';
import { type ScreenSize, sameSize, wholeCamera } from './framing.ts';
import { listenToHands } from './gestures.ts';
import { installLettering } from './lettering.ts';
import { watchContext } from './lostContext.ts';
import { boxesOver, roomOf, spread } from './room.ts';
import { createSectionTools } from './sectionTools.ts';

export interface Scene {
  /** Settles when the first picture stands, or when it is known that there will be none. */
  readonly ready: Promise<void>;
  /** Draws at once, for prints, pictures and recordings. */
  renderNow(): void;
  /** Shows the drawing whole. */
  showWhole(): void;
  /** The assembly being replaced, dashed and faint over the present one. */
  showGhost(shown: boolean): void;
  showDimensions(shown: boolean): void;
  /** What is told of the gaps; all at the start. */
  showTold(told: Told): void;
  /** What a body sweeps, behind the parts; null for none. */
  showBand(band: Band | null): void;
  /** The canvas, once there is one. */
  canvas(): HTMLCanvasElement | null;
  /** What draws: 'webgl', 'canvas', or 'none' when nothing can. */
  drawnBy(): 'webgl' | 'canvas' | 'none';
  /** Milliseconds that the last update of positions took, and the last drawing. */
  readonly lastUpdateMs: number;
  readonly lastRenderMs: number;
  destroy(): void;
}

export interface SceneOptions {
  /** 'canvas' draws without WebGL though there is one. */
  readonly renderer?: 'webgl' | 'canvas';
  /** The assembly being replaced, laid out; null while it is itself on show. */
  readonly ghost?: () => Engine | null;
  /** What may lie over the section: words keep clear of it. */
  readonly over?: readonly HTMLElement[];
  /** After each picture, for what is drawn over it at the same scale, in px of the page. */
  readonly drawn?: (camera: Camera) => void;
}

/** What is on show beside the parts themselves. */
type Shown = Pick<DrawingOptions, 'dimensions' | 'band' | 'told'> & { readonly ghost: boolean };

const ZOOM_STEP = 1.4;
/** A smaller section starts without dimension lines. */
const DIMENSIONS_FROM_PX = 560;

export function createScene(host: HTMLElement, store: Store, options: SceneOptions = {}): Scene {
  const app = new Application();
  const drawing = createDrawing();
  const notice = html('p', { class: 'sw-section-notice', role: 'status' });
  notice.hidden = true;
  const tools = createSectionTools({
    dimensions: () => show({ dimensions: !shown.dimensions }),
    ...(options.ghost === undefined ? {} : { ghost: () => show({ ghost: !shown.ghost }) }),
    smaller: () => zoomInMiddle(1 / ZOOM_STEP),
    larger: () => zoomInMiddle(ZOOM_STEP),
    whole: showWhole,
  });
  host.append(notice);

  let canvas: HTMLCanvasElement | null = null;
  let camera: Camera = { pxPerMm: 1, x: 0, y: 0 };
  let fitted = true;
  const wide = roomOf(host).size.width >= DIMENSIONS_FROM_PX;
  let shown: Shown = { dimensions: wide, ghost: false, band: null, told: 'all' };
  let [stale, destroyed, waiting] = [true, false, 0];
  let lastSize: ScreenSize = { width: 0, height: 0, resolution: 1 };
  let lastUpdateMs = 0;
  let lastRenderMs = 0;
  const ends: (() => void)[] = [];

  // As last measured: asking the page while it is changing would make it lay everything out anew, in every frame.
  let room = roomOf(host);
  let ink: Ink = readInk();
  let coveredBoxes: readonly Box[] = [];

  function say(words: string, alone = false): void {
    notice.textContent = words;
    notice.hidden = words === '';
    notice.toggleAttribute('data-alone', alone);
  }

  /** Draws within the next frame; many calls, one picture. */
  function invalidate(rebuild: boolean): void {
    stale ||= rebuild;
    if (waiting !== 0 || canvas === null) return;
    waiting = requestAnimationFrame(() => {
      waiting = 0;
      renderNow();
    });
  }

  function renderNow(): void {
    if (canvas === null || destroyed) return;
    const { state } = store;
    const { size, scaled } = room;
    // Behind a page in its place nothing is drawn; when it comes back its size differs, and it is built anew.
    if (!host.checkVisibility()) {
      stale = true;
      lastSize = size;
      return;
    }
    const start = performance.now();
    if (stale) {
      stale = false;
      // While a dimension is dragged the paper lies still under the parts.
      const hold = sameSize(size, lastSize) && isMoving(state);
      if (!hold) {
        ink = readInk();
        coveredBoxes = boxesOver(host, [tools.element, notice, ...(options.over ?? [])], room.scaled);
      }
      if (fitted && !hold) camera = wholeCamera(state, size, shown.dimensions);
      lastSize = size;
      const replaced = options.ghost?.() ?? null;
      tools.show({ dimensions: shown.dimensions, ghost: shown.ghost, ghostThere: replaced !== null });
      app.renderer.background.color = ink.paper;
      const ghost = shown.ghost ? replaced : null;
      drawing.rebuild(state, camera, ink, size, { ...shown, ghost, covered: coveredBoxes, hold });
      describe(state);
    }
    drawing.turn(state, camera);
    const middle = performance.now();
    app.renderer.render(app.stage);
    lastUpdateMs = middle - start;
    lastRenderMs = performance.now() - middle;
    options.drawn?.({ pxPerMm: camera.pxPerMm * scaled, x: camera.x * scaled, y: camera.y * scaled });
  }

  function describe(state: State): void {
    const seen = bodiesInView(state);
    const worst = leadingGaps(state, pairsInView(state.engine, seen), 1)[0];
    const what = `Section through cylinder ${state.cylinder}, seen from the front.`;
    canvas?.setAttribute('aria-label', worst ? `${what} ${gapSentence(worst, state.engine, state.units)}` : what);
  }

  function moveCamera(next: Camera): void {
    camera = next;
    fitted = false;
    invalidate(false);
  }

  function showWhole(): void {
    fitted = true;
    invalidate(true);
  }

  const turnBy = (crankRad: number) => {
    const { crankAngleRad, engine } = store.state;
    const angle = (crankAngleRad + crankRad) % engine.cycleRad;
    store.send({ do: 'turn to', crankAngleRad: angle < 0 ? angle + engine.cycleRad : angle });
  };

  function zoomInMiddle(factor: number): void {
    const { width, height } = room.size;
    moveCamera(zoomAt(camera, factor, width / 2, height / 2));
    invalidate(true);
  }

  function show(part: Partial<Shown>): void {
    shown = { ...shown, ...part };
    invalidate(true);
  }

  async function start(): Promise<void> {
    room = roomOf(host);
    const { size } = room;
    try {
      await app.init({
        preference: options.renderer === 'canvas' ? ['canvas'] : ['webgl', 'canvas'],
        width: size.width,
        height: size.height,
        resolution: size.resolution,
        antialias: true,
        autoStart: false,
        sharedTicker: false,
        background: readInk().paper,
        eventMode: 'none',
        accessibilityOptions: { enabledByDefault: false, activateOnTab: false },
      });
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      say(
        `The picture cannot be drawn here: this browser offers neither WebGL nor a plain canvas (${why}). The verdict, ` +
          'the angle ruler and the list of gaps hold every figure.',
        true,
      );
      return;
    }
    if (destroyed) {
      app.destroy(true);
      return;
    }
    canvas = app.canvas;
    spread(canvas, room);
    canvas.tabIndex = 0;
    canvas.setAttribute('role', 'img');
    host.prepend(canvas);
    if (app.renderer.type === RendererType.CANVAS && options.renderer !== 'canvas') {
      say('Drawn without WebGL: turning may be less smooth. The figures are the same.');
    }
    installLettering(size.resolution);
    app.stage.addChild(drawing.root);
    host.append(tools.element);
    ends.push(
      listenToHands(canvas, {
        scale: () => room.scaled,
        onCrank: (x, y) => Math.hypot(x - camera.x, y - camera.y) < drawing.ringMm() * camera.pxPerMm + 10,
        angleAt: (x, y) => Math.atan2(y - camera.y, x - camera.x),
        turnBy: (screenRad) => turnBy(store.state.engine.mirrored ? -screenRad : screenRad),
        stepBy: turnBy,
        pan: (dx, dy) => moveCamera(panBy(camera, dx, dy)),
        // The whole is in the middle as it is.
        centre: (x, y) => fitted || moveCamera(panBy(camera, room.size.width / 2 - x, room.size.height / 2 - y)),
        zoom: (factor, x, y) => moveCamera(zoomAt(camera, factor, x, y)),
        settle: () => invalidate(!fitted),
        showWhole,
      }),
    );
    ends.push(watchContext(canvas, say, () => invalidate(true)));
    const size$ = new ResizeObserver(() => {
      room = roomOf(host);
      const now = room.size;
      // It is told of the first size too, which is drawn already.
      if (sameSize(now, lastSize)) return;
      app.renderer.resize(now.width, now.height, now.resolution);
      spread(app.canvas, room);
      installLettering(now.resolution);
      stale = true;
      renderNow();
    });
    size$.observe(host);
    ends.push(() => size$.disconnect());
    ends.push(watchTheme(() => invalidate(true)));
    const print = () => renderNow();
    addEventListener('beforeprint', print);
    ends.push(() => removeEventListener('beforeprint', print));
    ends.push(
      store.watch((_, changed) => {
        const anew = changed.has('engine') || changed.has('gaps') || changed.has('view') || changed.has('units');
        invalidate(anew);
      }),
    );
    stale = true;
    renderNow();
  }

  return {
    ready: start(),
    renderNow,
    showWhole,
    showGhost: (ghost) => show({ ghost }),
    showDimensions: (dimensions) => show({ dimensions }),
    showTold: (told) => show({ told }),
    showBand: (band) => show({ band }),
    canvas: () => canvas,
    drawnBy() {
      if (canvas === null) return 'none';
      return app.renderer.type === RendererType.CANVAS ? 'canvas' : 'webgl';
    },
    get lastUpdateMs() {
      return lastUpdateMs;
    },
    get lastRenderMs() {
      return lastRenderMs;
    },
    destroy() {
      destroyed = true;
      if (waiting !== 0) cancelAnimationFrame(waiting);
      for (const end of ends) end();
      drawing.destroy();
      if (canvas !== null) app.destroy(true);
      canvas = null;
      notice.remove();
      tools.element.remove();
    },
  };
}
