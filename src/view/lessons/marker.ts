/**
 * A marker on a scale, put where one expects something: along the angle of the crank, or up and down the bore. By finger, mouse and keys;
 * it stands nowhere until it is put.
 */
import { html, svg } from '../element.ts';
import { textScale } from '../textScale.ts';

export interface MarkerOptions {
  readonly label: string;
  /** Values at both ends of the scale; upright: at the top and at the bottom. */
  readonly from: number;
  readonly to: number;
  readonly step: number;
  /** Labelled places of the scale. */
  readonly ticks: readonly { readonly at: number; readonly words: string }[];
  readonly upright: boolean;
  readonly say: (value: number) => string;
}

export interface Marker {
  readonly element: HTMLElement;
  readonly value: () => number | null;
  /** Shows where it really is, and takes no more. */
  readonly reveal: (truth: number) => void;
  readonly focus: () => void;
}

const LONG = { flat: 320, upright: 230 } as const;
/** Room before the first tick and after the last: half a label, and half a finger. */
const END = 26;
const FLAT_HEIGHT = 92;
const UPRIGHT_WIDTH = 260;
/** Steps of the page keys. */
const MANY = 10;

export function createMarker(options: MarkerOptions): Marker {
  const { from, to, step, upright, say } = options;
  let width: number = LONG.flat;
  let value: number | null = null;
  let truth: number | null = null;

  const drawing = svg('svg', {
    class: 'sw-marker',
    role: 'slider',
    tabindex: '0',
    'aria-label': options.label,
    'aria-valuemin': String(Math.min(from, to)),
    'aria-valuemax': String(Math.max(from, to)),
    'aria-orientation': upright ? 'vertical' : 'horizontal',
  });
  const said = html('output', { class: 'sw-marker-said' });
  const element = html('div', { class: `sw-marker-place${upright ? ' sw-marker-upright' : ''}` });
  element.append(drawing, said);

  const long = (): number => (upright ? LONG.upright : width) - 2 * END;
  const at = (v: number): number => END + (long() * (v - from)) / (to - from);

  function draw(): void {
    const height = upright ? LONG.upright : FLAT_HEIGHT;
    const across = upright ? UPRIGHT_WIDTH : width;
    drawing.setAttribute('viewBox', `0 0 ${across} ${height}`);
    const scaled = textScale();
    drawing.setAttribute('width', String(across * scaled));
    drawing.setAttribute('height', String(height * scaled));
    drawing.replaceChildren(...(upright ? bore() : ruler()), ...mark(truth, 'truth'), ...mark(value, 'yours'));
    drawing.setAttribute('aria-valuenow', String(value ?? from));
    drawing.setAttribute('aria-valuetext', value === null ? 'not put yet' : say(value));
    said.textContent =
      value === null ? 'Not put yet' : `You: ${say(value)}${truth === null ? '' : ` · It is: ${say(truth)}`}`;
  }

  function ruler(): SVGElement[] {
    const line = svg('line', {
      class: 'sw-marker-rail',
      x1: String(END),
      x2: String(END + long()),
      y1: '58',
      y2: '58',
    });
    const ticks = options.ticks.flatMap(({ at: v, words }) => [
      svg('line', { class: 'sw-marker-tick', x1: at(v).toFixed(1), x2: at(v).toFixed(1), y1: '50', y2: '64' }),
      svg('text', { class: 'sw-marker-words', x: at(v).toFixed(1), y: '82', 'text-anchor': 'middle' }, words),
    ]);
    return [line, ...ticks];
  }

  function bore(): SVGElement[] {
    const walls = [60, 160].map((x) =>
      svg('line', { class: 'sw-marker-wall', x1: String(x), x2: String(x), y1: '6', y2: String(LONG.upright - 4) }),
    );
    const ticks = options.ticks.flatMap(({ at: v, words }) => [
      svg('line', { class: 'sw-marker-tick', x1: '60', x2: '160', y1: at(v).toFixed(1), y2: at(v).toFixed(1) }),
      svg('text', { class: 'sw-marker-words', x: '54', y: (at(v) + 5).toFixed(1), 'text-anchor': 'end' }, words),
    ]);
    return [...walls, ...ticks];
  }

  function mark(v: number | null, kind: 'yours' | 'truth'): SVGElement[] {
    const p = at(v ?? from).toFixed(1);
    const faint = v === null;
    if (faint && kind === 'truth') return [];
    const name = `sw-marker-${kind}${faint ? ' sw-marker-unput' : ''}`;
    const words = kind === 'truth' ? 'it is' : 'you';
    if (upright) {
      const line = svg('line', { x1: '60', x2: kind === 'truth' ? '200' : '160', y1: p, y2: p });
      const knob =
        kind === 'truth'
          ? svg('text', { x: '204', y: String(Number(p) + 5) }, words)
          : svg('circle', { cx: '110', cy: p, r: '11' });
      return [svg('g', { class: name }, line, knob)];
    }
    const line = svg('line', { x1: p, x2: p, y1: kind === 'truth' ? '14' : '26', y2: '64' });
    const knob =
      kind === 'truth'
        ? svg('text', { x: p, y: '12', 'text-anchor': 'middle' }, words)
        : svg('circle', { cx: p, cy: '36', r: '11' });
    return [svg('g', { class: name }, line, knob)];
  }

  function put(next: number): void {
    if (truth !== null) return;
    const low = Math.min(from, to);
    const high = Math.max(from, to);
    value = Math.min(high, Math.max(low, low + Math.round((next - low) / step) * step));
    draw();
  }

  function under(event: PointerEvent): number {
    const box = drawing.getBoundingClientRect();
    const scale = (upright ? LONG.upright : width) / (upright ? box.height : box.width);
    const along = (upright ? event.clientY - box.top : event.clientX - box.left) * scale;
    return from + ((along - END) / long()) * (to - from);
  }

  let held: number | null = null;
  drawing.addEventListener('pointerdown', (event) => {
    if (event.button !== 0 || truth !== null) return;
    held = event.pointerId;
    drawing.setPointerCapture(held);
    put(under(event));
  });
  drawing.addEventListener('pointermove', (event) => {
    if (event.pointerId === held) put(under(event));
  });
  const release = (event: PointerEvent): void => {
    if (event.pointerId === held) held = null;
  };
  drawing.addEventListener('pointerup', release);
  drawing.addEventListener('pointercancel', release);

  drawing.addEventListener('keydown', (event) => {
    // Upright, the arrow up goes up on the page whichever end counts as the first.
    const up = upright ? -1 : 1;
    const moves: Readonly<Record<string, number>> = {
      ArrowRight: step,
      ArrowLeft: -step,
      ArrowUp: up * step,
      ArrowDown: -up * step,
      PageUp: up * MANY * step,
      PageDown: -up * MANY * step,
    };
    const move = moves[event.key];
    if (move !== undefined) put((value ?? from) + move);
    else if (event.key === 'Home') put(from);
    else if (event.key === 'End') put(to);
    else return;
    event.preventDefault();
  });

  if (!upright) {
    const watch = new ResizeObserver(([entry]) => {
      const next = Math.max(260, Math.round(entry!.contentRect.width / textScale()));
      if (next === width) return;
      width = next;
      draw();
    });
    watch.observe(element);
  }
  draw();
  return {
    element,
    value: () => value,
    reveal: (found) => {
      truth = found;
      drawing.setAttribute('aria-disabled', 'true');
      draw();
    },
    focus: () => drawing.focus(),
  };
}
