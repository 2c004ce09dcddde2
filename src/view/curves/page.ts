/** The page of curves: what is compared, the curves, the engines turning beside them, what rod ratio does. */
import { type Compared, type Comparison, comparisonsOf } from '../../model/curves/compare.ts';
import { csvOf } from '../../model/curves/csv.ts';
import {
  accelerationParts,
  DEGREES,
  gapLine,
  type Line,
  motionLine,
  type Quantity,
  UNIT,
} from '../../model/curves/lines.ts';
import type { State, Store } from '../../model/state.ts';
import { html, setText } from '../element.ts';
import { isMoving } from '../inView.ts';
import { readInk } from '../theme.ts';
import { gapLabel, sinceTdcRad } from '../words.ts';
import { chartSvg } from './chartSvg.ts';
import { noteOf, QUANTITIES, WHAT } from './curveWords.ts';
import { createMeasures } from './measures.ts';
import { createPlot, type PlotContent } from './plot.ts';
import { said, scaleOf } from './scale.ts';
import { hexColours, lookOf } from './strokes.ts';
import { createTogether } from './together.ts';

export interface CurvesPage {
  readonly show: () => void;
  readonly hide: () => void;
}

export interface CurvesOptions {
  readonly close: () => void;
  readonly save: (blob: Blob, end: string) => void;
  /** The drawing as a PNG of twice its size. */
  readonly png: (svgText: string) => Promise<Blob>;
  readonly speedRpm: (state: State) => number;
}

const DEG = 180 / Math.PI;
const TURN = 2 * Math.PI;
/** Drawn anew when the hand has rested this long, ms. */
const RESTED_MS = 150;

export function createCurvesPage(host: HTMLElement, store: Store, options: CurvesOptions): CurvesPage {
  const select = (label: string, entries: readonly (readonly [string, string])[]): HTMLSelectElement => {
    const made = html('select', { 'aria-label': label });
    made.append(...entries.map(([value, text]) => new Option(text, value)));
    made.addEventListener('change', () => draw());
    return made;
  };
  const button = (text: string, run: () => void, main = false): HTMLButtonElement => {
    const made = html('button', { type: 'button', class: `sw-button${main ? ' sw-button-main' : ''}` }, text);
    made.addEventListener('click', run);
    return made;
  };
  const what = select('Compared', WHAT);
  const by = html('input', { type: 'text', size: '9', 'aria-label': 'By how much' });
  by.addEventListener('change', () => draw());
  const byLabel = html('label', {}, 'by', by);
  const quantity = select('Curve', QUANTITIES);
  const pair = select('Pair', []);
  const pairLabel = html('label', {}, 'Pair', pair);
  const turn = button('Turn', () => store.send({ do: store.state.playing ? 'pause' : 'play' }), true);
  const refused = html('p', { class: 'sw-curves-refused', role: 'status' });
  const key = html('table', { class: 'sw-curves-key' });
  const plot = createPlot((deg) => turnTo(deg));
  const handle = plot.element;
  handle.tabIndex = 0;
  handle.setAttribute('role', 'slider');
  handle.setAttribute('aria-label', 'Crank angle after top dead centre');
  handle.setAttribute('aria-valuemin', '0');
  handle.setAttribute('aria-valuemax', '360');
  const together = createTogether();
  const measures = createMeasures();
  const note = html('p', { class: 'sw-curves-note' });
  host.replaceChildren(
    html(
      'div',
      { class: 'sw-curves' },
      html(
        'header',
        { class: 'sw-curves-head' },
        html('h2', {}, 'Curves'),
        turn,
        button('Back to the section', options.close),
      ),
      html(
        'div',
        { class: 'sw-curves-row' },
        html('label', {}, 'Compared', what),
        byLabel,
        html('label', {}, 'Curve', quantity),
        pairLabel,
      ),
      refused,
      html(
        'div',
        { class: 'sw-curves-main' },
        html('div', { class: 'sw-curves-chart' }, handle, note, key),
        together.element,
      ),
      html(
        'div',
        { class: 'sw-curves-row' },
        button('Save as CSV', () => options.save(new Blob([csv()], { type: 'text/csv' }), 'curves.csv')),
        button('Save as SVG', () => options.save(new Blob([drawing()], { type: 'image/svg+xml' }), 'curves.svg')),
        button('Save as PNG', () => void options.png(drawing()).then((blob) => options.save(blob, 'curves.png'))),
      ),
      measures.element,
    ),
  );

  let up = false;
  let waiting: ReturnType<typeof setTimeout> | undefined;
  let compared: readonly Compared[] = [];
  let lines: readonly Line[] = [];
  let content: PlotContent | null = null;

  const cylinderOf = ({ engine, cylinder }: State) => engine.cylinders.find((c) => c.number === cylinder)!;

  function degNow(state: State): number {
    return (sinceTdcRad(state.crankAngleRad, cylinderOf(state), TURN) * DEG) % 360;
  }

  function turnTo(deg: number): void {
    const { state } = store;
    const now = degNow(state);
    const held = Math.min(360, Math.max(0, deg));
    const next = state.crankAngleRad + (held - now) / DEG;
    store.send({ do: 'pause' });
    store.send({
      do: 'turn to',
      crankAngleRad: ((next % state.engine.cycleRad) + state.engine.cycleRad) % state.engine.cycleRad,
    });
  }

  handle.addEventListener('keydown', (event) => {
    const step = event.shiftKey ? 10 : 1;
    const now = degNow(store.state);
    const to = {
      ArrowRight: now + step,
      ArrowUp: now + step,
      ArrowLeft: now - step,
      ArrowDown: now - step,
      Home: 0,
      End: 360,
    }[event.key];
    if (to === undefined) return;
    turnTo(to < 0 ? to + 360 : to > 360 ? to - 360 : to);
    event.preventDefault();
  });

  function draw(): void {
    const { state } = store;
    if (!up || state.refused.length > 0 || isMoving(state)) return;
    const { doc, assembly, units, cylinder, gaps, engine } = state;
    const kind = what.value as Comparison;
    byLabel.hidden = kind === 'assemblies';
    if (by.value === '') by.value = units === 'in' ? '.500 in' : '12 mm';
    const of = quantity.value as Quantity;
    pairLabel.hidden = of !== 'gap';
    offerPairs(state);
    try {
      const found = comparisonsOf(doc, assembly, kind, by.value);
      compared = found.list;
      refused.textContent = found.left.join(' ');
    } catch (error) {
      refused.textContent = `${by.value === '' ? 'Nothing' : by.value} is refused: ${error instanceof Error ? error.message : String(error)} Allowed: a length, as .500 in or 12 mm. The curves shown are those before.`;
      return;
    }
    const rpm = options.speedRpm(state);
    const scale = scaleOf(UNIT[of], units);
    lines = compared.flatMap(({ name, engine: each }): Line[] => {
      const at = each.cylinders.find((c) => c.number === cylinder);
      if (at === undefined) return [];
      if (of !== 'gap') return [motionLine(name, at, of, rpm)];
      const certified =
        each.assembly === engine.assembly && kind === 'assemblies' ? gaps.find((g) => g.id === pair.value) : undefined;
      const line = gapLine(name, each, pair.value, certified);
      return line === null ? [] : [line];
    });
    const own = compared.find(({ engine: each }) => each.assembly === assembly);
    const at = own?.engine.cylinders.find((c) => c.number === cylinder);
    if (of === 'acceleration' && own !== undefined && at !== undefined) {
      lines = [
        ...lines,
        ...accelerationParts(
          kind === 'assemblies' ? own.name : 'present',
          kind === 'assemblies' ? at : cylinderOf(state),
          rpm,
        ),
      ];
    }
    const yLabel = QUANTITIES.find(([q]) => q === of)![1];
    content = {
      x: DEGREES,
      xLabel: `Degrees after TDC of cylinder ${cylinder}`,
      xStep: 45,
      lines,
      yLabel,
      scale,
      place: (deg) => `${deg.toFixed(1)}°`,
    };
    plot.show(content);
    setText(note, noteOf(of, rpm));
    together.show(compared, cylinder);
    measures.show(compared, cylinder, rpm, units);
    follow();
  }

  function offerPairs({ gaps, cylinder }: State): void {
    const own = gaps.filter((g) => g.kind !== 'deck' && g.cylinder === cylinder);
    const before = pair.value;
    pair.replaceChildren(...own.map((g) => new Option(gapLabel(g), g.id)));
    if (own.some((g) => g.id === before)) pair.value = before;
  }

  /** The cursor and everything that says a value at it. */
  function follow(): void {
    const { state } = store;
    if (!up || content === null) return;
    const deg = degNow(state);
    plot.moveTo(deg);
    together.turnTo(deg / DEG);
    setText(turn, state.playing ? 'Stop' : 'Turn');
    const { scale } = content;
    const k = Math.min(DEGREES.length - 1, Math.round(deg * 2));
    const colours = key.rows.length === lines.length ? null : hexColours(readInk());
    if (colours !== null)
      key.replaceChildren(
        ...lines.map((line, n) => {
          const { stroke, dash } = lookOf(line, n, colours);
          const swatch = html('span', { class: 'sw-curves-swatch' });
          swatch.style.borderTop = `3px ${dash.length === 0 ? 'solid' : (dash[0] ?? 0) > 5 ? 'dashed' : 'dotted'} ${stroke}`;
          return html('tr', {}, html('td', {}, swatch), html('th', { scope: 'row' }, line.name), html('td', {}));
        }),
      );
    for (const [n, line] of lines.entries()) {
      const row = key.rows[n]!;
      setText(row.cells[1]!, line.name);
      setText(row.cells[2]!, said(line.values[k]!, scale));
    }
    const spoken = lines.map((line) => `${line.name} ${said(line.values[k]!, scale)}`).join(', ');
    if (!state.playing) {
      handle.setAttribute('aria-valuenow', deg.toFixed(1));
      handle.setAttribute('aria-valuetext', `${deg.toFixed(1)}°: ${spoken}`);
    }
  }

  function csv(): string {
    if (content === null) return '';
    const { scale, yLabel } = content;
    const scaled = lines.map((line) => ({ ...line, values: line.values.map((v) => v * scale.factor) }));
    return csvOf(scaled, yLabel, scale.unit);
  }

  function drawing(): string {
    return content === null ? '' : chartSvg(content, readInk(), `${store.state.doc.name}: ${content.yLabel}`);
  }

  store.watch((state, changed) => {
    if (!up) return;
    if (
      changed.has('document') ||
      changed.has('engine') ||
      changed.has('gaps') ||
      changed.has('units') ||
      changed.has('view')
    ) {
      clearTimeout(waiting);
      waiting = setTimeout(draw, RESTED_MS);
    }
    if (changed.has('angle') || changed.has('playing')) follow();
    else if (state.playing) follow();
  });

  return {
    show: () => {
      up = true;
      draw();
    },
    hide: () => {
      up = false;
      clearTimeout(waiting);
      store.send({ do: 'pause' });
    },
  };
}
