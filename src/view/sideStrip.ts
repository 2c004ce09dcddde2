/**
 * The crank from the side, to scale, front at the left: journals, cheeks and counterweights at the present angle, the
 * section plane, and the cylinders to choose from.
 */
import type { SideShape } from '../assembly/engine.ts';
import type { State, Store } from '../model/state.ts';
import { html, setText, svg } from './element.ts';
import { chosenCylinder, cylindersOfThrow } from './inView.ts';

const STRIP_HEIGHT_PX = 96;
const LABEL_PX = 17;
const NARROW_PX = 560;
const BUTTON_PX = 26;

interface Drawn {
  readonly shape: SideShape;
  readonly rect: SVGRectElement;
  readonly hatch: SVGRectElement | null;
}

export function createSideStrip(host: HTMLElement, store: Store): { destroy(): void } {
  const drawing = svg('svg', { role: 'img' });
  const title = svg('title');
  const hatching = svg(
    'pattern',
    {
      id: 'sw-strip-hatching',
      width: '5',
      height: '5',
      patternUnits: 'userSpaceOnUse',
      patternTransform: 'rotate(45)',
    },
    svg('path', { class: 'sw-strip-hatching', d: 'M0 0V5' }),
  );
  const parts = svg('g');
  const axis = svg('line', { class: 'sw-strip-axis' });
  const plane = svg('line', { class: 'sw-strip-plane' });
  const ends = [svg('line', { class: 'sw-strip-plane-end' }), svg('line', { class: 'sw-strip-plane-end' })] as const;
  const label = svg('text', { class: 'sw-strip-label', y: '12' });
  drawing.append(title, svg('defs', {}, hatching), parts, axis, plane, ...ends, label);
  const choice = html('div', { class: 'sw-strip-cylinders', role: 'radiogroup', 'aria-label': 'Cylinder in view' });
  host.replaceChildren(drawing, choice);

  let drawn: Drawn[] = [];
  let buttons: HTMLButtonElement[] = [];
  let z0 = 0;
  let pxPerMm = 1;
  let left = 0;
  let middle = 0;

  function rebuild(state: State): void {
    const order = ['rod', 'main', 'pin', 'cheek', 'counterweight'];
    const shapes = [...state.engine.side].sort((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind));
    drawn = shapes.map((shape) => {
      const rect = svg('rect', { class: 'sw-strip-part', 'data-kind': shape.kind });
      const hatch = shape.kind === 'counterweight' ? svg('rect', { class: 'sw-strip-hatch' }) : null;
      return { shape, rect, hatch };
    });
    parts.replaceChildren(...drawn.flatMap((d) => (d.hatch === null ? [d.rect] : [d.rect, d.hatch])));
    buttons = state.engine.cylinders.map((c) => {
      const made = html(
        'button',
        { type: 'button', class: 'sw-button', role: 'radio', 'aria-label': `Cylinder ${c.number}` },
        String(c.number),
      );
      made.addEventListener('click', () => store.send({ do: 'show cylinder', number: c.number }));
      return made;
    });
    // Read and stepped through from front to rear.
    const byPlace = state.engine.cylinders.map((c, k) => [c.boreCentreMm, buttons[k]!] as const);
    choice.replaceChildren(...byPlace.sort((a, b) => a[0] - b[0]).map(([, made]) => made));
    refit(state);
  }

  function refit(state: State): void {
    const width = Math.max(host.clientWidth, 100);
    const narrow = width < NARROW_PX;
    const below = narrow ? 44 : BUTTON_PX;
    const height = STRIP_HEIGHT_PX - BUTTON_PX;
    drawing.setAttribute('viewBox', `0 0 ${width} ${height}`);
    drawing.setAttribute('height', String(height));
    choice.style.height = `${below}px`;
    const { side, cylinders } = state.engine;
    z0 = Math.min(...side.map((s) => s.z0Mm), ...cylinders.map((c) => c.boreCentreMm));
    const z1 = Math.max(...side.map((s) => s.z1Mm), ...cylinders.map((c) => c.boreCentreMm));
    const reach = Math.max(1, ...side.map((s) => Math.abs(s.centreMm) + s.halfHeightMm));
    pxPerMm = Math.min(width / Math.max(z1 - z0, 1), (height - LABEL_PX - 2) / (2 * reach));
    left = (width - (z1 - z0) * pxPerMm) / 2;
    middle = LABEL_PX + (height - LABEL_PX) / 2;
    for (const [line, x] of [[axis, 0]] as const) {
      line.setAttribute('x1', String(Math.max(left - 12, x)));
      line.setAttribute('x2', String(Math.min(width - left + 12, width)));
      line.setAttribute('y1', String(middle));
      line.setAttribute('y2', String(middle));
    }
    placeButtons(state, width, narrow);
    showChosen(state);
    turn(state);
  }

  /** Under their cylinders where there is room, else side by side over the whole width. */
  function placeButtons(state: State, width: number, narrow: boolean): void {
    const centres = state.engine.cylinders.map((c, k) => ({ k, x: left + (c.boreCentreMm - z0) * pxPerMm }));
    centres.sort((a, b) => a.x - b.x);
    const room = Math.min(...centres.slice(1).map((c, n) => c.x - centres[n]!.x), 44);
    const spread = narrow || room < 24;
    centres.forEach(({ k, x }, n) => {
      const wide = spread ? width / centres.length : room;
      const at = spread ? (n + 0.5) * wide : x;
      const made = buttons[k]!;
      made.style.left = `${at - wide / 2 + 1}px`;
      made.style.width = `${wide - 2}px`;
    });
  }

  function showChosen(state: State): void {
    const chosen = chosenCylinder(state);
    state.engine.cylinders.forEach((c, k) => {
      const isChosen = c.number === chosen.number;
      buttons[k]!.setAttribute('aria-checked', String(isChosen));
      buttons[k]!.tabIndex = isChosen ? 0 : -1;
    });
    for (const d of drawn) d.rect.toggleAttribute('data-chosen', d.shape.throw === chosen.throw);
    const x = left + (chosen.boreCentreMm - z0) * pxPerMm;
    const height = STRIP_HEIGHT_PX - BUTTON_PX;
    for (const [line, y1, y2] of [
      [plane, 2, height],
      [ends[0], 2, 9],
      [ends[1], height - 7, height],
    ] as const) {
      line.setAttribute('x1', String(x));
      line.setAttribute('x2', String(x));
      line.setAttribute('y1', String(y1));
      line.setAttribute('y2', String(y2));
    }
    const together = cylindersOfThrow(state.engine, chosen)
      .map((c) => c.number)
      .sort((a, b) => a - b);
    const words = `section · throw ${chosen.throw}, ${together.length > 1 ? 'cylinders' : 'cylinder'} ${together.join(' and ')}`;
    setText(label, words);
    const onLeft = x > host.clientWidth - 280;
    label.setAttribute('x', String(onLeft ? x - 7 : x + 7));
    label.setAttribute('text-anchor', onLeft ? 'end' : 'start');
    setText(title, `Crank from the side, front at the left, ${words}`);
  }

  function turn(state: State): void {
    for (const { shape, rect, hatch } of drawn) {
      const y = shape.centreMm * Math.cos(state.crankAngleRad + shape.phaseRad);
      for (const one of hatch === null ? [rect] : [rect, hatch]) {
        one.setAttribute('x', (left + (shape.z0Mm - z0) * pxPerMm).toFixed(2));
        one.setAttribute('width', Math.max((shape.z1Mm - shape.z0Mm) * pxPerMm, 0.5).toFixed(2));
        one.setAttribute('y', (middle - (y + shape.halfHeightMm) * pxPerMm).toFixed(2));
        one.setAttribute('height', (2 * shape.halfHeightMm * pxPerMm).toFixed(2));
      }
    }
  }

  choice.addEventListener('keydown', (event) => {
    const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
    if (step === undefined) return;
    const inOrder = [...choice.children] as HTMLButtonElement[];
    const at = inOrder.findIndex((b) => b.getAttribute('aria-checked') === 'true');
    const next = inOrder[(at + step + inOrder.length) % inOrder.length];
    next?.click();
    next?.focus();
    event.preventDefault();
  });
  drawing.addEventListener('click', (event) => {
    const z = z0 + (event.clientX - drawing.getBoundingClientRect().left - left) / pxPerMm;
    let nearest = store.state.engine.cylinders[0];
    for (const c of store.state.engine.cylinders) {
      if (nearest && Math.abs(c.boreCentreMm - z) < Math.abs(nearest.boreCentreMm - z)) nearest = c;
    }
    if (nearest) store.send({ do: 'show cylinder', number: nearest.number });
  });

  rebuild(store.state);
  const watchSize = new ResizeObserver(() => refit(store.state));
  watchSize.observe(host);
  const stop = store.watch((state, changed) => {
    if (changed.has('engine')) rebuild(state);
    else {
      if (changed.has('view')) showChosen(state);
      if (changed.has('angle') || changed.has('view')) turn(state);
    }
  });
  return {
    destroy() {
      stop();
      watchSize.disconnect();
      host.replaceChildren();
    },
  };
}
