/**
 * Where the fit boundary passes between two neighbouring cells, as work for the pool: the place where the margin is nothing,
 * found on certified margins between the one that is above and the one that is below.
 */
import type { Steps } from '../pieces/kind.ts';
import { between } from './axis.ts';
import { groundOf, type MapShared, standing } from './cells.ts';
import type { Laid } from './ground.ts';
import { laidOut } from './ground.ts';
import type { Known } from './judge.ts';
import { judge, refusalOf } from './judge.ts';
import { withValues } from './spec.ts';

/** From cell (i, j) to the next one along `a` or along `b`, with the margins of both. */
export interface Edge {
  readonly i: number;
  readonly j: number;
  readonly along: 'a' | 'b';
  readonly fitMm: readonly [number, number];
}

export interface Crossing {
  readonly i: number;
  readonly j: number;
  readonly along: 'a' | 'b';
  /** Share of the way to the next cell. */
  readonly share: number;
  /** Certified margin there; more than `CROSSING_MM` off nothing only where the margin jumps. */
  readonly fitMm: number;
  readonly evaluations: number;
}

/** A margin nearer to nothing than this is on the boundary, mm: a tenth of a thousandth of an inch, twice. */
export const CROSSING_MM = 0.005;

/** Tries at most; a kink is passed by halving every other time. */
const MOST_TRIES = 16;

export function mapCrossings(shared: MapShared): (piece: readonly Edge[]) => Steps<Crossing[]> {
  const { spec, thorough } = shared;
  const ground = groundOf(shared);
  const start = standing(shared, ground);
  return function* (piece) {
    const known: Known = { proven: new Map(start.proven), last: start.last };
    const out: Crossing[] = [];
    let before: Laid = ground.base;
    for (const { i, j, along, fitMm } of piece) {
      const a = spec.a.values;
      const b = spec.b.values;
      let [low, high] = [0, 1];
      let [atLow, atHigh] = fitMm;
      let share = 0;
      let here = atLow;
      let evaluations = 0;
      for (let k = 0; k < MOST_TRIES; k++) {
        share = k % 3 === 2 ? (low + high) / 2 : low + ((high - low) * atLow) / (atLow - atHigh);
        const doc =
          along === 'a'
            ? withValues(spec, between(a[i]!, a[i + 1]!, share), b[j]!)
            : withValues(spec, a[i]!, between(b[j]!, b[j + 1]!, share));
        // Both ends can be built, yet between them a build may be refused: then the boundary is told as it is known.
        if (refusalOf(doc, spec.assembly, thorough) !== null) break;
        const laid = laidOut(doc, spec.assembly, before);
        const found = judge(ground, laid, known);
        before = laid;
        here = found.fitMm;
        evaluations += found.evaluations;
        yield;
        if (Math.abs(here) <= CROSSING_MM) break;
        if (here < 0 === atLow < 0) {
          low = share;
          atLow = here;
        } else {
          high = share;
          atHigh = here;
        }
      }
      out.push({ i, j, along, share, fitMm: here, evaluations });
    }
    return out;
  };
}
