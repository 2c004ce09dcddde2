/**
 * The crank from the side, to scale, front at the left: journals, cheeks and counterweights at the present angle, the
 * section plane, and the cylinders to choose from.
 */
import type { SideShape } from '../assembly/engine.ts';
import type { State, Store } from '../model/state.ts';
import { html, setText, svg } from './element.ts';
import { chosenCylinder, cylindersOfThrow } from './inView.ts';

const STRIP_HEIGHT_PX = 96;
const NARROW_HEIGHT_PX = 76;
/** Room above and below the crank for the ends of the section plane. */
const PLANE_PX = 5;
const AXIS_END_PX = 10;
const NARROW_PX = 560;

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
  const label = html('span', { class: 'sw-strip-label' });
  drawing.append(title, svg('defs', {}, hatching), parts, axis, plane, ...ends);
  const choice = html('div', { class: 'sw-strip-cylinders', role: 'radiogroup', 'aria-label': 'Cylinder in view' });
  host.replaceChildren(drawing, html('div', { class: 'sw-strip-words' }, label, choice));

  let drawn: Drawn[] = [];
  let buttons: HTMLButtonElement[] = [];
  let z0 = 0;
  let pxPerMm = 1;
  let left = 0;
  let middle = 0;
  let height = STRIP_HEIGHT_PX;
  // Room as last measured: asking the page for it at each change would make it lay everything out anew.
  let roomWidth = host.clientWidth;
  let roomHeight = host.clientHeight;

  function rebuild(state: State): void {
    const order = ['rod', 'main', 'pin', 'cheek', 'counterweight'];
    const shapes = [...state.engine.side].sort((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind));
    // The same parts with other dimensions keep their boxes.
    const alike =
      shapes.length === drawn.length &&
      shapes.every((shape, k) => shape.name === drawn[k]!.shape.name && shape.kind === drawn[k]!.shape.kind) &&
      buttons.length === state.engine.cylinders.length;
    if (alike) {
      drawn = drawn.map((d, k) => ({ ...d, shape: shapes[k]! }));
      refit(state);
      return;
    }
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
    choice.hidden = buttons.length < 2;
    // Read and stepped through from front to rear.
    const byPlace = state.engine.cylinders.map((c, k) => [c.boreCentreMm, buttons[k]!] as const);
    choice.replaceChildren(...byPlace.sort((a, b) => a[0] - b[0]).map(([, made]) => made));
    refit(state);
  }

  /** One scale for length and height: as high as the strip, unless the crank is too long for its width. */
  function refit(state: State): void {
    const room = Math.max(roomWidth, 100);
    const narrow = room < NARROW_PX;
    height = narrow ? NARROW_HEIGHT_PX : Math.min(Math.max(roomHeight, NARROW_HEIGHT_PX), STRIP_HEIGHT_PX);
    const { side, cylinders } = state.engine;
    z0 = Math.min(...side.map((s) => s.z0Mm), ...cylinders.map((c) => c.boreCentreMm));
    const z1 = Math.max(...side.map((s) => s.z1Mm), ...cylinders.map((c) => c.boreCentreMm));
    const reach = Math.max(1, ...side.map((s) => Math.abs(s.centreMm) + s.halfHeightMm));
    const long = Math.max(z1 - z0, 1);
    const widest = (narrow ? room : room * 0.6) - 2 * AXIS_END_PX;
    pxPerMm = Math.min(widest / long, (height - 2 * PLANE_PX) / (2 * reach));
    const width = Math.ceil(long * pxPerMm) + 2 * AXIS_END_PX;
    left = AXIS_END_PX;
    middle = height / 2;
    drawing.setAttribute('viewBox', `0 0 ${width} ${height}`);
    drawing.setAttribute('width', String(width));
    drawing.setAttribute('height', String(height));
    setLine(axis, 0, middle, width, middle);
    showChosen(state);
    turn(state);
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
    setLine(plane, x, 0, x, height);
    setLine(ends[0], x, 0, x, 7);
    setLine(ends[1], x, height - 7, x, height);
    const together = cylindersOfThrow(state.engine, chosen)
      .map((c) => c.number)
      .sort((a, b) => a - b);
    const words = `section · throw ${chosen.throw}, ${together.length > 1 ? 'cylinders' : 'cylinder'} ${together.join(' and ')}`;
    setText(label, words);
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
  const watchSize = new ResizeObserver(() => {
    roomWidth = host.clientWidth;
    roomHeight = host.clientHeight;
    refit(store.state);
  });
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

function setLine(line: SVGLineElement, x1: number, y1: number, x2: number, y2: number): void {
  line.setAttribute('x1', x1.toFixed(1));
  line.setAttribute('y1', y1.toFixed(1));
  line.setAttribute('x2', x2.toFixed(1));
  line.setAttribute('y2', y2.toFixed(1));
}
