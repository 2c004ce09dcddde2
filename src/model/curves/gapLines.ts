/** The gap of one pair in each of the engines compared, as curves that come in from the pool piece by piece. */
import type { Pool } from '../pieces/kind.ts';
import type { Work } from '../pieces/table.ts';
import { type Compared, engineOf } from './compare.ts';
import { FAR_MM, type GapCurvePiece, type GapQuestion, isTwoTurns, type SmallestGap, zeroOf } from './gapCurve.ts';
import type { Line, Reading } from './lines.ts';

export interface GapLines {
  /** Degrees after TDC of the values: each degree of the period, its end included. */
  readonly degrees: Float64Array;
  readonly turns: 1 | 2;
  readonly lines: readonly Line[];
  /** Names of those that have no such pair: it does not come within reach along the shaft. */
  readonly without: readonly string[];
  /** Names of those whose certified smallest gap is `FAR_MM` or more: nothing of them is drawn. */
  readonly far: readonly string[];
  /** Names of those whose smallest gap could not be proven. */
  readonly unproven: readonly string[];
  /** Pieces of work, and how many of them are done. */
  readonly done: number;
  readonly of: number;
  /** A fault of the program, in words. */
  readonly failed: string | null;
}

export interface GapWatcher {
  /** What is known by now of a pair; the rest is asked for, and what was asked for before is dropped. Only one that was laid out is looked at. */
  readonly show: (list: readonly Compared[], pairId: string) => GapLines;
  /** Asks for the gaps at an angle, to be read there exactly. */
  readonly rest: (deg: number) => void;
  readonly stop: () => void;
}

/** What is known of a pair of one engine. */
interface Known {
  readonly turns: 1 | 2;
  readonly values: Float64Array;
  smallest: SmallestGap | null;
  /** Read where the cursor rested. */
  readonly exact: Map<number, number>;
  readonly missing: Set<GapQuestion>;
}

/** Samples in a piece: some tenths of a second at the worst, a round part that passes beside an even one. */
const SAMPLES = 12;

const kept = new WeakMap<Compared, Map<string, Known | null>>();

/** `grown` is called each time something of the curves has come in, `read` when what was asked for at an angle has: the lines given out say it then. */
export function watchGapLines(pool: Pool<Work>, owner: string, grown: () => void, read: () => void): GapWatcher {
  let list: readonly Compared[] = [];
  let pairId = '';
  const cancel: (() => void)[] = [];
  let failed: string | null = null;
  let restedDeg: number | null = null;

  function stop(): void {
    for (const each of cancel.splice(0)) each();
    restedDeg = null;
  }

  const present = (): { compared: Compared; known: Known }[] =>
    list.flatMap((compared) => {
      const known = knownOf(compared, pairId);
      return known === null ? [] : [{ compared, known }];
    });

  function take(known: Known, asked: GapQuestion, result: { smallest: SmallestGap } | { gapMm: Float64Array }): void {
    known.missing.delete(asked);
    if ('smallest' in result) known.smallest = result.smallest;
    else if (asked.ask === 'gaps') for (const [k, deg] of asked.atDeg.entries()) known.values[deg] = result.gapMm[k]!;
  }

  function begin(): void {
    stop();
    failed = null;
    const on = present();
    const missing = on.map(({ known }) => [...known.missing]);
    const most = Math.max(0, ...missing.map((questions) => questions.length));
    // A piece of each in turn, so that they grow together.
    const inTurns = Array.from({ length: most }, (_, k) =>
      missing.flatMap((questions, engine): GapCurvePiece[] =>
        questions[k] === undefined ? [] : [{ engine, asked: questions[k] }],
      ),
    ).flat();
    if (inTurns.length === 0) return;
    cancel.push(
      pool.run(
        owner,
        'gap curve',
        { engines: on.map(({ compared: { doc, assembly } }) => ({ doc, assembly })), pairId },
        inTurns,
        {
          piece: (index, result) => {
            const { engine, asked } = inTurns[index]!;
            take(on[engine]!.known, asked, result);
            grown();
          },
          done: () => {},
          failed: (why) => {
            failed = why;
            grown();
          },
        },
      ),
    );
  }

  function now(): GapLines {
    const on = present();
    const turns = on[0]?.known.turns ?? 1;
    const pieces = on.map(({ known }) => piecesOf(known.turns));
    const of = pieces.reduce((sum, each) => sum + each, 0);
    const left = on.reduce((sum, { known }) => sum + known.missing.size, 0);
    return {
      degrees: everyDegree(turns),
      turns,
      lines: on.map(({ compared, known }) => lineOf(compared, known)),
      without: list.filter((each) => knownOf(each, pairId) === null).map(({ name }) => name),
      far: on.filter(({ known }) => isFar(known)).map(({ compared }) => compared.name),
      unproven: on.filter(({ known }) => known.smallest?.certified === false).map(({ compared }) => compared.name),
      done: of - left,
      of,
      failed,
    };
  }

  return {
    show(next, id) {
      const same = id === pairId && next.length === list.length && next.every((each, k) => each === list[k]);
      list = next;
      pairId = id;
      if (!same) begin();
      return now();
    },
    rest(deg) {
      if (restedDeg === deg) return;
      restedDeg = deg;
      const on = present().filter(({ known }) => !known.exact.has(deg));
      if (on.length === 0) return;
      cancel.push(
        pool.run(
          `${owner}, cursor`,
          'gap curve',
          { engines: on.map(({ compared: { doc, assembly } }) => ({ doc, assembly })), pairId },
          on.map((_, engine): GapCurvePiece => ({ engine, asked: { ask: 'gaps', atDeg: [deg], fine: true } })),
          {
            piece: (index, result) => {
              if ('gapMm' in result) on[index]!.known.exact.set(deg, result.gapMm[0]!);
              read();
            },
            done: () => {},
            failed: () => {},
          },
        ),
      );
    },
    stop() {
      stop();
      list = [];
    },
  };
}

/** Of a pair and an engine; null where there is no such pair. */
function knownOf(compared: Compared, pairId: string): Known | null {
  const pairs = kept.get(compared) ?? new Map<string, Known | null>();
  kept.set(compared, pairs);
  const before = pairs.get(pairId);
  if (before !== undefined) return before;
  const engine = engineOf(compared);
  const pair = engine.pairs.find((p) => p.id === pairId);
  const turns = pair !== undefined && isTwoTurns(pair.periodRad) ? 2 : 1;
  const made: Known | null =
    zeroOf(engine, pair) === null
      ? null
      : {
          turns,
          values: new Float64Array(360 * turns + 1).fill(Number.NaN),
          smallest: null,
          exact: new Map(),
          missing: new Set(allPieces(turns)),
        };
  pairs.set(pairId, made);
  return made;
}

function piecesOf(turns: 1 | 2): number {
  return 1 + Math.ceil((360 * turns + 1) / SAMPLES);
}

/** The certificate first. */
function allPieces(turns: 1 | 2): GapQuestion[] {
  const degrees = [...everyDegree(turns)];
  return Array.from(
    { length: piecesOf(turns) },
    (_, k): GapQuestion =>
      k === 0
        ? { ask: 'smallest' }
        : { ask: 'gaps', atDeg: degrees.slice((k - 1) * SAMPLES, k * SAMPLES), fine: false },
  );
}

function everyDegree(turns: 1 | 2): Float64Array {
  return turns === 1 ? ONE_TURN : TWO_TURNS;
}

const ONE_TURN = Float64Array.from({ length: 361 }, (_, k) => k);
const TWO_TURNS = Float64Array.from({ length: 721 }, (_, k) => k);

function isFar({ smallest }: Known): boolean {
  return smallest?.certified === true && smallest.gapMm >= FAR_MM;
}

function lineOf({ name, look }: Compared, known: Known): Line {
  const { values, smallest, exact } = known;
  const isMarked = smallest?.certified === true && !isFar(known);
  return {
    name,
    look,
    values,
    marks: isMarked ? [{ deg: smallest.atDeg, value: smallest.gapMm }] : [],
    at: (deg) => readingAt(values, exact, deg),
  };
}

/** What was worked out at that very angle; between two samples what lies on the line drawn, said to be no more than that. */
function readingAt(values: Float64Array, exact: ReadonlyMap<number, number>, deg: number): Reading {
  const known = exact.get(deg);
  if (known !== undefined) return { value: known, exact: true };
  const k = Math.min(Math.max(Math.floor(deg), 0), values.length - 2);
  const part = deg - k;
  const value = part === 0 ? values[k]! : values[k]! + part * (values[k + 1]! - values[k]!);
  return { value, exact: false };
}
