/** The plain summary's two tables: figures before and after, and room between parts; with what an estimate leaves out. */
import type { GapKind } from '../../build/document.ts';
import type { Room } from '../../model/paper/rooms.ts';
import type { Change, ChangeName, Summary } from '../../model/paper/summary.ts';
import type { Gap, GapState } from '../../model/results.ts';
import type { Units } from '../../model/state.ts';
import type { Amount } from '../../model/sums/index.ts';
import { formatGap, formatLength } from '../words.ts';
import { partsOfKind } from './plainParts.ts';

export interface FigureRow {
  readonly name: ChangeName;
  readonly what: string;
  readonly before: string;
  readonly after: string;
  readonly change: string;
}

export interface RoomRow {
  readonly kind: GapKind;
  readonly what: string;
  readonly before: string;
  readonly after: string;
  readonly wanted: string;
  readonly state: GapState;
}

/** An amount as it is printed; with its sign where it is a change. */
export type Say = (found: Amount, signed?: boolean) => string;

const STATED_NOT = 'not stated';

const FIGURES: readonly (readonly [ChangeName, string])[] = [
  ['displacement', 'Size of the engine'],
  ['travel', 'Travel of a piston'],
  ['compression', 'Compression ratio'],
  ['weight', 'Weight of rods, pistons, bearings'],
  ['meanPistonSpeed', 'Piston speed, average'],
  ['greatestPistonSpeed', 'Piston speed, greatest'],
  ['rodBearingSpeed', 'Rubbing speed, rod bearing'],
  ['mainBearingSpeed', 'Rubbing speed, main bearing'],
  ['rodPull', 'Pull on a rod at the top'],
];

/** Told only where they change. */
const UNLESS_CHANGED: ReadonlySet<ChangeName> = new Set(['mainBearingSpeed', 'compression', 'rodPull']);

export function figureRows({ changes, compares }: Summary, say: Say): FigureRow[] {
  // What stays as it was and is not asked about is left out.
  const told = FIGURES.filter(
    ([name]) =>
      !UNLESS_CHANGED.has(name) || (compares ? direction(changes[name], say) !== 0 : changes[name].after !== null),
  );
  return told.map(([name, what]) => {
    const { before, after, difference, estimate, greatest } = changes[name];
    const about = estimate === null ? '' : 'about ';
    const shown = (found: Amount | null): string => (found === null ? STATED_NOT : about + say(found));
    const changed =
      difference === null ? '' : direction(changes[name], say) === 0 ? 'none' : about + say(difference, true);
    return {
      name,
      what: greatest ? `${what}, greatest of the cylinders` : what,
      before: shown(before),
      after: shown(after),
      change: changed,
    };
  });
}

/** Rows of the table of room: what is not clear, and what has least over what is wanted. */
const MOST_ROOMS = 5;

export function roomRows(rooms: readonly Room[], summary: Summary, units: Units): RoomRow[] {
  return rooms.slice(0, MOST_ROOMS).map((room) => roomRow(room, summary, units));
}

function roomRow(
  { kind, before, after, state, wantedMm }: Room,
  { cylinders, compares }: Summary,
  units: Units,
): RoomRow {
  const [one, other] = partsOfKind(kind, cylinders > 1);
  const shown = (gap: Gap): string =>
    gap.state === 'contact' && kind !== 'deck'
      ? `hits by ${formatGap({ ...gap, gapMm: Math.abs(gap.gapMm) }, units)}`
      : formatGap(gap, units);
  return {
    kind,
    what: `${one} and ${other}`.replace(/\bthe /g, ''),
    before: before === null ? (compares ? '–' : '') : shown(before),
    after: shown(after),
    wanted: formatLength(wantedMm, units),
    state,
  };
}

export function leftOut({ changes }: Summary, rows: readonly FigureRow[]): string[] {
  const { estimate, after } = changes.rodPull;
  const out = estimate === null || after === null ? [] : [`The pull on a rod is an estimate: ${estimate}.`];
  if (rows.some((row) => row.before === STATED_NOT || row.after === STATED_NOT))
    out.push('Where a figure is not stated, the shop has not weighed or measured what it needs.');
  return out;
}

/** −1, 0, 1 as the figures on the page read: a change that rounds to nothing is none. */
export function direction({ before, after, difference }: Change, say: Say): number {
  if (before === null || after === null || difference === null || say(before) === say(after)) return 0;
  return difference.value.isNegative() ? -1 : 1;
}
