/**
 * The angle ruler: one cycle from left to right, counted from the true TDC of the chosen cylinder, with a ribbon for
 * each pair in view that comes closest. Drag to turn; a ribbon leads to its closest place.
 */
import type { Cylinder } from '../assembly/engine.ts';
import type { Gap } from '../model/results.ts';
import type { State, Store } from '../model/state.ts';
import { setText, svg } from './element.ts';
import { bodiesInView, chosenCylinder, isMoving, leadingGaps, pairsInView } from './inView.ts';
import { ribbonPieces } from './ribbon.ts';
import { NAME_LINE_PX, nameLines, nameText } from './ribbonName.ts';
import { type RulerScale, rulerMarks, SCALE_PX } from './rulerMarks.ts';
import { textScale } from './textScale.ts';
import {
  bdcAfterTdcRad,
  crankAngleAt,
  formatAngleFromTdc,
  formatAngleShort,
  formatDegrees,
  formatGap,
  gapLabel,
  sinceTdcRad,
} from './words.ts';

const DEG = Math.PI / 180;
const NARROW_PX = 640;
const HANDLE_TOP_PX = 1;
const HANDLE_PX = 21;
const EDGE_PX = 14;
const LEAST_PX = 150;
/** Between a name and its ribbon. */
const NAME_GAP_PX = 14;
/** Height of a row with a name on one line: for a mouse, and for a finger or with the name above its ribbon. */
const ROW_PX = { mouse: 24, finger: 44 } as const;

interface Measures {
  readonly width: number;
  readonly narrow: boolean;
  readonly left: number;
  readonly right: number;
  readonly ribbonPx: number;
}

export function createAngleRuler(host: HTMLElement, store: Store): { destroy(): void } {
  const drawing = svg('svg', { role: 'group', 'aria-label': 'Crank angle and closest pairs' });
  const hatching = svg(
    'pattern',
    {
      id: 'sw-ruler-hatching',
      width: '5',
      height: '5',
      patternUnits: 'userSpaceOnUse',
      patternTransform: 'rotate(45)',
    },
    svg('path', { class: 'sw-ruler-hatching', d: 'M0 0V5' }),
  );
  const rows = svg('g');
  const scale = svg('g', { class: 'sw-ruler-scale', role: 'slider', tabindex: '0', 'aria-label': 'Crank angle' });
  const marks = svg('g');
  const handleLine = svg('line');
  const handleBox = svg('rect', { rx: '3', height: String(HANDLE_PX), y: String(HANDLE_TOP_PX), width: '72' });
  const handleText = svg('text', { 'text-anchor': 'middle', y: String(HANDLE_TOP_PX + 16) });
  const handle = svg('g', { class: 'sw-ruler-handle' }, handleLine, handleBox, handleText);
  const scaleHit = svg('rect', { class: 'sw-ruler-hit', y: '0', height: String(SCALE_PX) });
  scale.append(scaleHit, marks, handle);
  drawing.append(svg('defs', {}, hatching), rows, scale);
  host.replaceChildren(drawing);

  let measures: Measures = { width: 0, narrow: false, left: 0, right: 0, ribbonPx: 0 };
  let shownGaps: readonly Gap[] = [];
  let names: readonly (readonly string[])[] = [];
  let rowPx = 0;

  const cycle = () => store.state.engine.cycleRad;
  const xOf = (sinceRad: number) => measures.left + ((measures.right - measures.left) * sinceRad) / cycle();

  let marksMade = '';
  const namesMade = new Map<string, readonly string[]>();
  // As last measured: asking the page at each change would make it lay everything out anew.
  let scaled = textScale();
  let hostWidth = widthNow();

  /** Room across, in px of the drawing. */
  function widthNow(): number {
    return Math.max(host.clientWidth / scaled, LEAST_PX);
  }

  function measure(): void {
    const width = hostWidth;
    const narrow = width < NARROW_PX;
    measures = {
      width,
      narrow,
      left: narrow ? EDGE_PX : Math.min(330, width * 0.3),
      right: width - EDGE_PX,
      ribbonPx: narrow ? 12 : 14,
    };
  }

  /** Draws the scale anew only when it is another. */
  function drawMarks(cylinder: Cylinder): void {
    const { left, right, narrow } = measures;
    // Where names stand above the ribbons, the lines stop short of them.
    const bottom = narrow ? SCALE_PX + 4 : SCALE_PX + shownGaps.length * rowPx;
    const what: RulerScale = {
      left,
      right,
      bottom,
      narrow,
      cycleRad: cycle(),
      bdcRad: bdcAfterTdcRad(cylinder),
      cylinder: cylinder.number,
    };
    const key = JSON.stringify(what);
    if (key === marksMade) return;
    marksMade = key;
    marks.replaceChildren(...rulerMarks(what));
  }

  function drawRows(state: State, cylinder: Cylinder): void {
    const { left, right, ribbonPx, width, narrow } = measures;
    const from = crankAngleAt(0, cylinder, cycle());
    const made = shownGaps.map((gap, k) => {
      const top = SCALE_PX + k * rowPx;
      const row = svg('g', { class: 'sw-ruler-row', role: 'button', tabindex: '0', 'data-id': gap.id });
      const where = formatAngleFromTdc(gap.atCrankRad, cylinder, gap.periodRad);
      const spoken = `${gapLabel(gap)}: ${gap.state}, ${formatGap(gap, state.units)} ${where}. Go there`;
      row.setAttribute('aria-pressed', String(gap.id === state.picked));
      row.append(
        svg('rect', { class: 'sw-ruler-hit', x: '0', y: String(top), width: String(width), height: String(rowPx) }),
      );
      const lines = names[k]!;
      const name = narrow
        ? nameText(lines, left, top + 16, 'start')
        : nameText(lines, left - NAME_GAP_PX, top + rowPx / 2 + (lines.length > 1 ? -3 : 4), 'end');
      const band = svg('g', { transform: `translate(${left} ${top + (narrow ? rowPx - 14 : rowPx / 2)})` });
      const profile = state.profiles.get(gap.id);
      if (profile !== undefined) {
        const whenClear = gap.state === 'unproven' ? 'unproven' : 'clears';
        for (const p of ribbonPieces(profile, gap.limitMm, whenClear, from, cycle(), right - left, ribbonPx)) {
          band.append(svg('path', { class: `sw-ribbon-${p.state}`, d: p.path }));
        }
      }
      row.append(svg('title', {}, spoken), name, band);
      return row;
    });
    rows.replaceChildren(...made);
  }

  /** Under the hand the rows keep their places: the pairs on show, as they are now; null if one is gone. */
  function inSameRows(gaps: readonly Gap[]): readonly Gap[] | null {
    const now = shownGaps.map((shown) => gaps.find((g) => g.id === shown.id));
    return now.length > 0 && now.every((g) => g !== undefined) ? now : null;
  }

  /** Lines of a name, measured once for each room: measuring asks the page for its type. */
  function namedIn(label: string, room: number): readonly string[] {
    const key = `${room} ${label}`;
    const before = namesMade.get(key);
    if (before !== undefined) return before;
    const made = nameLines(label, room, host);
    namesMade.set(key, made);
    return made;
  }

  function show(state: State): void {
    measure();
    const cylinder = chosenCylinder(state);
    const most = measures.narrow ? 2 : Math.max(2, Math.min(5, Math.floor((innerHeight / scaled - 600) / 95)));
    const leading = leadingGaps(state, pairsInView(state.engine, bodiesInView(state)), most);
    shownGaps = (isMoving(state) && inSameRows(state.gaps)) || leading;
    const { narrow, left, right } = measures;
    const room = narrow ? right - left : left - NAME_GAP_PX;
    names = shownGaps.map((gap) => namedIn(gapLabel(gap), room));
    const oneLine = narrow || matchMedia('(pointer: coarse)').matches ? ROW_PX.finger : ROW_PX.mouse;
    const wrapped = names.some((lines) => lines.length > 1);
    rowPx = wrapped && (narrow || oneLine < 2 * NAME_LINE_PX) ? oneLine + NAME_LINE_PX - (narrow ? 0 : 3) : oneLine;
    const height = SCALE_PX + shownGaps.length * rowPx + 4;
    drawing.setAttribute('viewBox', `0 0 ${measures.width} ${height}`);
    drawing.setAttribute('height', String(height * scaled));
    scaleHit.setAttribute('x', String(measures.left - EDGE_PX));
    scaleHit.setAttribute('width', String(measures.right - measures.left + 2 * EDGE_PX));
    drawMarks(cylinder);
    drawRows(state, cylinder);
    scale.setAttribute('aria-valuemin', '0');
    scale.setAttribute('aria-valuemax', String(Math.round(cycle() / DEG)));
    turn(state);
  }

  function turn(state: State): void {
    const cylinder = chosenCylinder(state);
    const since = sinceTdcRad(state.crankAngleRad, cylinder, cycle());
    const x = xOf(since);
    handleLine.setAttribute('x1', x.toFixed(1));
    handleLine.setAttribute('x2', x.toFixed(1));
    handleLine.setAttribute('y1', String(HANDLE_TOP_PX + HANDLE_PX));
    handleLine.setAttribute('y2', String(SCALE_PX + shownGaps.length * rowPx + 2));
    const boxX = Math.min(Math.max(x - 36, 0), measures.width - 72);
    handleBox.setAttribute('x', boxX.toFixed(1));
    handleText.setAttribute('x', (boxX + 36).toFixed(1));
    setText(handleText, formatDegrees(since));
    scale.setAttribute('aria-valuenow', (since / DEG).toFixed(1));
    scale.setAttribute(
      'aria-valuetext',
      `${formatDegrees(since)} from top dead centre of cylinder ${cylinder.number}, ${formatAngleShort(state.crankAngleRad, cylinder, cycle())}`,
    );
  }

  const turnTo = (sinceRad: number) => {
    const rest = sinceRad % cycle();
    const angle = crankAngleAt(rest < 0 ? rest + cycle() : rest, chosenCylinder(store.state), cycle());
    store.send({ do: 'turn to', crankAngleRad: angle });
  };
  const sinceNow = () => sinceTdcRad(store.state.crankAngleRad, chosenCylinder(store.state), cycle());

  scale.addEventListener('keydown', (event) => {
    const one = event.shiftKey ? 10 * DEG : DEG;
    const steps: Record<string, number> = {
      ArrowRight: one,
      ArrowUp: one,
      ArrowLeft: -one,
      ArrowDown: -one,
      PageUp: 30 * DEG,
      PageDown: -30 * DEG,
    };
    const step = steps[event.key];
    if (step !== undefined) turnTo(sinceNow() + step);
    else if (event.key === 'Home') turnTo(0);
    else if (event.key === 'End') turnTo(cycle() - DEG);
    else return;
    event.preventDefault();
  });

  let dragging: number | null = null;
  const angleUnder = (event: PointerEvent) => {
    const x = (event.clientX - drawing.getBoundingClientRect().left) / scaled;
    const part = (x - measures.left) / (measures.right - measures.left);
    return Math.min(Math.max(part, 0), 0.9999) * cycle();
  };
  scale.addEventListener('pointerdown', (event) => {
    if (event.button !== 0) return;
    dragging = event.pointerId;
    scale.setPointerCapture(event.pointerId);
    turnTo(angleUnder(event));
  });
  scale.addEventListener('pointermove', (event) => {
    if (event.pointerId === dragging) turnTo(angleUnder(event));
  });
  const release = (event: PointerEvent) => {
    if (event.pointerId === dragging) dragging = null;
  };
  scale.addEventListener('pointerup', release);
  scale.addEventListener('pointercancel', release);

  const goTo = (target: EventTarget | null) => {
    const id = target instanceof Element ? target.closest('[data-id]')?.getAttribute('data-id') : null;
    const gap = shownGaps.find((g) => g.id === id);
    if (gap === undefined) return false;
    store.send({ do: 'pick', id: gap.id });
    store.send({ do: 'turn to', crankAngleRad: gap.atCrankRad });
    return true;
  };
  rows.addEventListener('click', (event) => goTo(event.target));
  rows.addEventListener('keydown', (event) => {
    if (event.key !== 'Enter' && event.key !== ' ') return;
    const id = document.activeElement?.getAttribute('data-id');
    if (goTo(event.target)) event.preventDefault();
    // The rows may have been drawn anew: keep the keyboard where it was.
    if (id) rows.querySelector<SVGElement>(`[data-id="${CSS.escape(id)}"]`)?.focus();
  });

  show(store.state);
  const watchSize = new ResizeObserver(() => {
    scaled = textScale();
    hostWidth = widthNow();
    namesMade.clear();
    if (hostWidth !== measures.width) show(store.state);
  });
  watchSize.observe(host);
  const stop = store.watch((state, changed) => {
    if (changed.has('gaps') || changed.has('engine') || changed.has('view') || changed.has('units')) show(state);
    else if (changed.has('angle')) turn(state);
  });
  return {
    destroy() {
      stop();
      watchSize.disconnect();
      host.replaceChildren();
    },
  };
}
