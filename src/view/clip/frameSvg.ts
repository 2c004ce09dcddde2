/** One picture of a clip as a drawing: the section at a crank angle with what is tight there, and under it what the tour says. */
import type { Engine } from '../../assembly/engine.ts';
import { allowanceMm } from '../../model/certified.ts';
import { gapNow } from '../../model/now.ts';
import type { State } from '../../model/state.ts';
import type { Side } from '../counter/compared.ts';
import { LIT_PX, litElements } from '../counter/lit.ts';
import { groundThrow, type Step } from '../counter/tour.ts';
import { bodiesInView, pairsInView } from '../inView.ts';
import { gapsShownNow, gapsSpokenOf } from '../scene/calledOut.ts';
import type { CalledOut } from '../svgSection/svgGaps.ts';
import { aboutWidth, escaped, hex, px, SvgPen } from '../svgSection/svgPen.ts';
import { cameraOf, type SvgSection, svgSection } from '../svgSection/svgSection.ts';
import type { Ink } from '../theme.ts';
import { formatLength } from '../words.ts';
import type { Frame } from './frames.ts';

export interface Film {
  readonly state: State;
  readonly ghost: Engine | null;
  readonly width: number;
  readonly height: number;
  readonly ink: Ink;
  /** With a tour the lower part of the picture says its words. */
  readonly tour: { readonly steps: readonly Step[]; readonly was: Side | null; readonly now: Side } | null;
}

/** Share of the height that words take: at least, and where they need it at most. */
const WORDS_SHARE = { least: 0.3, most: 0.55 } as const;
/** Smaller words are not read, px. */
const LEAST_WORDS_PX = 13;
const MOST = 3;

/** A picture of a film; the same frame gives the same text, to the letter. */
export function frameSvg(film: Film, frame: Frame): string {
  const { state, width, height, ink, tour } = film;
  const step = tour === null || frame.step === null ? null : tour.steps[frame.step]!;
  const above = step === null || tour === null ? height : height - wordsHighPx(tour.steps, film);
  const picked = step?.gapId ?? null;
  const at = { ...state, picked };
  // The tour points at gaps where it speaks of them.
  const spoken =
    step !== null && step.lit !== 'gap' ? [] : gapsSpokenOf(at, pairsInView(state.engine, bodiesInView(at)));
  const now = spoken.flatMap(({ gap }) => {
    const pair = state.engine.pairs.find((p) => p.id === gap.id);
    return pair === undefined
      ? []
      : (gapNow(state.engine, pair, gap, frame.crankAngleRad, allowanceMm(state.doc), gap.id === picked) ?? []);
  });
  const calledOut = gapsShownNow(spoken, now)
    .slice(0, MOST)
    .map((one): CalledOut => ({ ...one, gap: spoken.find(({ gap }) => gap.id === one.id)!.gap }));
  const section: SvgSection = {
    engine: state.engine,
    cylinder: state.cylinder,
    crankAngleRad: frame.crankAngleRad,
    gaps: state.gaps,
    picked,
    calledOut,
    ghost: step === null || step.show === 'both' ? film.ghost : null,
    figures: null,
    units: state.units,
    ink,
    width,
    height: above,
    id: 'film',
    title: `Section through cylinder ${state.cylinder}`,
  };
  const drawn = svgSection(section);
  if (step === null || tour === null) return drawn;
  const lit = litElements({
    lit: step.lit,
    was: step.show === 'both' ? tour.was : null,
    now: tour.now,
    ground: step.lit === 'grind' ? groundThrow(state.doc, state.engine.assembly, tour.now.cylinder.throw) : null,
    crankAngleRad: frame.crankAngleRad,
    camera: cameraOf(section),
    lettersPx: LIT_PX,
    ink,
    length: (mm) => formatLength(mm, state.units),
  });
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${px(width)}" height="${px(height)}" viewBox="0 0 ${px(width)} ${px(height)}">` +
    `<title>${escaped(step.title)}</title><rect width="${px(width)}" height="${px(height)}" fill="${hex(ink.paper)}"/>` +
    `${drawn}${lit}${said(step, above, film)}</svg>`
  );
}

interface Rows {
  readonly rows: readonly string[];
  readonly heading: number;
  readonly high: number;
}

/** The words of a step at a size of letters, and how high they stand, px. */
function rowsOf(step: Step, size: number, width: number): Rows {
  const heading = Math.round(size * 1.35);
  const rows = step.sentences.flatMap((sentence) => broken(sentence, size, width - 2 * edgeOf(width)));
  return { rows, heading, high: heading * 1.4 + rows.length * size * 1.35 + UNDER_PX };
}

const UNDER_PX = 12;
const edgeOf = (width: number): number => Math.round(width * 0.03);

/** Room for the longest of the steps, px, the same for all of them: the section does not jump from one to the next. */
function wordsHighPx(steps: readonly Step[], { width, height }: Film): number {
  const needed = Math.max(...steps.map((step) => rowsOf(step, LEAST_WORDS_PX, width).high));
  return Math.round(Math.min(Math.max(needed, height * WORDS_SHARE.least), height * WORDS_SHARE.most));
}

/** Title and sentences, broken into rows, as large as the room for them allows. */
function said(step: Step, top: number, { width, height, ink }: Film): string {
  const edge = edgeOf(width);
  for (let size = Math.max(LEAST_WORDS_PX, Math.round(height * 0.036)); ; size--) {
    const { rows, heading, high } = rowsOf(step, size, width);
    if (high > height - top && size > LEAST_WORDS_PX) continue;
    const pen = new SvgPen();
    pen.moveTo(0, top).lineTo(width, top).stroke({ width: 1, color: ink.faint });
    pen.words(step.title, edge, top + heading * 1.15, { size: heading, color: ink.ink, heavy: true });
    for (const [k, row] of rows.entries())
      pen.words(row, edge, top + heading * 1.4 + (k + 0.95) * size * 1.35, { size, color: ink.ink });
    return pen.elements();
  }
}

function broken(sentence: string, size: number, wide: number): string[] {
  const rows: string[] = [];
  let row = '';
  for (const word of sentence.split(' ')) {
    const longer = row === '' ? word : `${row} ${word}`;
    if (row !== '' && aboutWidth(longer, size) > wide) {
      rows.push(row);
      row = word;
    } else row = longer;
  }
  if (row !== '') rows.push(row);
  return rows;
}
