/** The page of curves: what is compared, the curves, the engines turning beside them, what rod ratio does. */
import { type Compared, type Comparison, type Comparisons, comparisonsOf } from '../../model/curves/compare.ts';
import { csvOf } from '../../model/curves/csv.ts';
import { watchGapLines } from '../../model/curves/gapLines.ts';
import {
  accelerationParts,
  DEGREES,
  type Line,
  motionLine,
  type Quantity,
  UNIT,
  type Unit,
} from '../../model/curves/lines.ts';
import type { Pool } from '../../model/pieces/kind.ts';
import type { Work } from '../../model/pieces/table.ts';
import type { State, Store } from '../../model/state.ts';
import { setText } from '../element.ts';
import { chosenCylinder } from '../inView.ts';
import { readInk, watchTheme } from '../theme.ts';
import { crankAngleAt, sinceTdcRad } from '../words.ts';
import { chartSvg } from './chartSvg.ts';
import { comparedNote, missingWords, noteOf, QUANTITIES } from './curveWords.ts';
import { createLaying } from './laying.ts';
import { offerPairs } from './pairs.ts';
import { createParts } from './parts.ts';
import type { PlotContent } from './plot.ts';
import { scaleOf } from './scale.ts';
import { reachOf } from './together.ts';

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

export function createCurvesPage(
  host: HTMLElement,
  store: Store,
  pool: Pool<Work>,
  options: CurvesOptions,
): CurvesPage {
  const parts = createParts(host, {
    draw: () => draw(),
    turnTo: (deg) => turnTo(deg),
    turn: () => store.send({ do: store.state.playing ? 'pause' : 'play' }),
    showCylinder: (number) => store.send({ do: 'show cylinder', number }),
    close: options.close,
    saveCsv: () => options.save(new Blob([csv()], { type: 'text/csv' }), 'curves.csv'),
    saveSvg: () => options.save(new Blob([drawing()], { type: 'image/svg+xml' }), 'curves.svg'),
    savePng: () => void options.png(drawing()).then((blob) => options.save(blob, 'curves.png')),
  });
  const { plot, handle, together, measures, choice, key } = parts;
  const gaps = watchGapLines(
    pool,
    'curves',
    () => {
      incoming ??= setTimeout(() => {
        incoming = undefined;
        if (up) drawGaps();
      }, RESTED_MS);
    },
    () => follow(),
  );
  const laying = createLaying();

  let up = false;
  let waiting: ReturnType<typeof setTimeout> | undefined;
  let incoming: ReturnType<typeof setTimeout> | undefined;
  let resting: ReturnType<typeof setTimeout> | undefined;
  let compared: readonly Compared[] = [];
  let lines: readonly Line[] = [];
  let content: PlotContent | null = null;
  /** Turns that the curves on show go over: 2 for a pair that repeats only after two. */
  let turns: 1 | 2 = 1;

  function degNow({ crankAngleRad, ...state }: State): number {
    return (sinceTdcRad(crankAngleRad, chosenCylinder(state), turns * TURN) * DEG) % (360 * turns);
  }

  /** Over one turn it is the present one of the two that is gone on in. */
  function turnTo(deg: number): void {
    const { state } = store;
    const held = Math.min(360 * turns, Math.max(0, deg));
    const next = state.crankAngleRad + (held - degNow(state)) / DEG;
    const { cycleRad } = state.engine;
    store.send({ do: 'pause' });
    store.send({
      do: 'turn to',
      crankAngleRad:
        turns === 2
          ? crankAngleAt(held / DEG, chosenCylinder(state), 2 * TURN)
          : ((next % cycleRad) + cycleRad) % cycleRad,
    });
  }

  handle.addEventListener('keydown', (event) => {
    const step = event.shiftKey ? 10 : 1;
    const now = degNow(store.state);
    const end = 360 * turns;
    const to = {
      ArrowRight: now + step,
      ArrowUp: now + step,
      ArrowLeft: now - step,
      ArrowDown: now - step,
      Home: 0,
      End: end,
    }[event.key];
    if (to === undefined) return;
    turnTo(to < 0 ? to + end : to > end ? to - end : to);
    event.preventDefault();
  });

  /** What is compared, kept while nothing that it depends on changes: its layouts and gaps are kept with it. */
  let last: { readonly doc: State['doc']; readonly asked: string; readonly found: Comparisons } | null = null;

  function comparisons({ doc, assembly, cylinder }: State, kind: Comparison, by: string): Comparisons {
    const asked = kind === 'assemblies' ? kind : [kind, by, assembly, cylinder].join('\n');
    if (last?.doc !== doc || last.asked !== asked)
      last = { doc, asked, found: comparisonsOf(doc, assembly, cylinder, kind, by) };
    return last.found;
  }

  function draw(): void {
    const { state } = store;
    if (!up) return;
    if (state.refused.length > 0) {
      setText(parts.refused, 'The build as typed is refused: its curves are drawn once it can be built.');
      return;
    }
    const { units, cylinder } = state;
    const kind = parts.what.value as Comparison;
    const of = parts.quantity.value as Quantity;
    parts.offerCylinders(
      state.engine.cylinders.map(({ number }) => number),
      cylinder,
    );
    parts.ask(kind, of, units);
    let found: Comparisons;
    try {
      found = comparisons(state, kind, parts.by.value);
    } catch (error) {
      parts.refuse(error instanceof Error ? error.message : String(error));
      return;
    }
    compared = choice.show(found.list);
    const { slider, boreOffsetMm } = chosenCylinder(state);
    setText(parts.comparedNote, comparedNote(kind, slider.offsetMm - boreOffsetMm, boreOffsetMm, units));
    const none = compared.length > 0 ? '' : 'Nothing is ticked: tick one or more to see curves.';
    setText(parts.refused, [...found.left, none].filter((text) => text !== '').join(' '));
    const rpm = options.speedRpm(state);
    setText(parts.note, noteOf(of, rpm, units));
    measures.show(compared, cylinder, rpm, units);
    if (of !== 'gap') {
      gaps.stop();
      parts.working(null, compared.length === 0);
      setText(parts.missing, '');
      lines = motionLines(compared, state, kind, of, rpm);
      put(DEGREES, UNIT[of], 1);
    }
    laying.lay(
      compared,
      // Its layout and what its parts pass over: some milliseconds each.
      (each) => reachOf(each, cylinder),
      () => {
        together.show(compared, cylinder);
        offerPairs(parts.pair, store.state, compared);
        if (of === 'gap') drawGaps();
        follow();
      },
    );
  }

  /** As much as is known of them by now. */
  function drawGaps(): void {
    if (parts.quantity.value !== 'gap') return;
    const now = gaps.show(compared, parts.pair.value);
    lines = now.lines;
    setText(parts.missing, missingWords(now, store.state.units));
    parts.working(now.done < now.of && now.failed === null ? now : null, now.lines.length === 0);
    put(now.degrees, UNIT.gap, now.turns);
  }

  function put(x: Float64Array, unit: Unit, over: 1 | 2): void {
    const { units, cylinder } = store.state;
    turns = over;
    handle.setAttribute('aria-valuemax', String(360 * turns));
    content = {
      x,
      xLabel: `Degrees after ${turns === 2 ? 'firing ' : ''}TDC of cylinder ${cylinder}`,
      xStep: 45 * turns,
      lines,
      yLabel:
        parts.quantity.value === 'gap'
          ? `Gap of ${parts.pair.selectedOptions[0]?.text ?? 'a pair'}`
          : QUANTITIES.find(([q]) => q === parts.quantity.value)![1],
      scale: scaleOf(unit, units),
      place: (deg) => `${deg.toFixed(1)}°`,
    };
    plot.show(content);
    key.show(lines, content.scale, content.place);
    follow();
  }

  /** The cursor and everything that says a value at it. */
  function follow(): void {
    const { state } = store;
    if (!up || content === null) return;
    const deg = degNow(state);
    plot.moveTo(deg);
    together.turnTo(sinceTdcRad(state.crankAngleRad, chosenCylinder(state), state.engine.cycleRad));
    setText(parts.turn, state.playing ? 'Stop' : 'Turn');
    const spoken = key.readAt(deg);
    clearTimeout(resting);
    if (state.playing) return;
    handle.setAttribute('aria-valuenow', deg.toFixed(1));
    handle.setAttribute('aria-valuetext', `${deg.toFixed(1)}°: ${spoken}`);
    if (parts.quantity.value === 'gap') resting = setTimeout(() => gaps.rest(deg), RESTED_MS);
  }

  function csv(): string {
    if (content === null) return '';
    const { x, scale, yLabel } = content;
    const scaled = lines.map((line) => ({ ...line, values: line.values.map((v) => v * scale.factor) }));
    return csvOf(x, scaled, yLabel, scale.unit);
  }

  function drawing(): string {
    return content === null ? '' : chartSvg(content, readInk(), `${store.state.doc.name}: ${content.yLabel}`);
  }

  function stop(): void {
    for (const timer of [waiting, incoming, resting]) clearTimeout(timer);
    incoming = undefined;
    laying.stop();
    measures.stop();
    gaps.stop();
  }

  watchTheme(() => draw());
  store.watch((_, changed) => {
    if (!up) return;
    if ((['document', 'engine', 'units', 'view'] as const).some((one) => changed.has(one))) {
      clearTimeout(waiting);
      waiting = setTimeout(draw, RESTED_MS);
    }
    if (changed.has('angle') || changed.has('playing')) follow();
  });

  return {
    show: () => {
      up = true;
      draw();
    },
    hide: () => {
      up = false;
      stop();
      store.send({ do: 'pause' });
    },
  };
}

/** Curves of the motion, with the parts of the acceleration of the assembly on show, or of the middle one of a dimension. */
function motionLines(
  compared: readonly Compared[],
  { assembly, cylinder }: State,
  kind: Comparison,
  of: Exclude<Quantity, 'gap'>,
  rpm: number,
): Line[] {
  const cylinderOf = ({ cylinders }: Compared) => cylinders.find((c) => c.number === cylinder)!;
  const lines = compared.map((each) => motionLine(each, cylinderOf(each), of, rpm));
  if (of !== 'acceleration') return lines;
  const own =
    compared.find((each) => (kind === 'assemblies' ? each.name === assembly : each.look === 1)) ?? compared[0];
  if (own === undefined) return lines;
  const look = 1 + Math.max(...compared.map((each) => each.look));
  return [...lines, ...accelerationParts({ name: own.name, look }, cylinderOf(own), rpm)];
}
