/** A finished band: what is swept, as polygons, with what it may exceed the truth by; made here in one go or in pieces. */
import { layOut } from '../../assembly/layOut.ts';
import type { BuildDocument } from '../../build/document.ts';
import type { Steps } from '../pieces/kind.ts';
import { type BandAsked, type BandGroup, bandGroups } from './pairBand.ts';
import { type Polygon, union } from './polygons.ts';
import { finished, joined, type Prepared, prepare, type Sweeping, sweptBetween } from './sweep.ts';

/** Steps of the turn that one piece of work does: some ten milliseconds. */
const STEPS_A_PIECE = 16;

export interface BandTask {
  readonly doc: BuildDocument;
  readonly assembly: string;
  readonly asked: BandAsked;
}

/** A stretch of the turn of one group. */
export interface BandPiece {
  readonly group: number;
  readonly firstStep: number;
  readonly endStep: number;
}

/** The pieces of a band; none where the two share no axial range. */
export function bandPieces(groups: readonly BandGroup[]): BandPiece[] {
  return groups.flatMap(({ sweeping }, group) => {
    const { steps } = prepare(sweeping);
    const out: BandPiece[] = [];
    for (let k = 0; k < steps; k += STEPS_A_PIECE)
      out.push({ group, firstStep: k, endStep: Math.min(steps, k + STEPS_A_PIECE) });
    return out;
  });
}

/** What a stretch of the turn sweeps, not yet grown. */
export function bandKind({ doc, assembly, asked }: BandTask): (piece: BandPiece) => Steps<Polygon[]> {
  const groups = bandGroups(layOut(doc, assembly), asked);
  const prepared = new Map<number, Prepared>();
  return function* ({ group, firstStep, endStep }) {
    const ready = prepared.get(group) ?? prepare(groups[group]!.sweeping);
    prepared.set(group, ready);
    yield;
    return yield* sweptBetween(ready, firstStep, endStep);
  };
}

/** Stretches of each group, in any order, to be made one band. */
export interface JoinTask {
  readonly growMm: number;
  readonly parts: readonly Polygon[][];
}

export function joinKind(_: null): (piece: readonly JoinTask[]) => Steps<Polygon[]> {
  return function* (tasks) {
    const bands: Polygon[] = [];
    for (const { parts, growMm } of tasks) {
      const whole = yield* joined(parts);
      bands.push(...finished(whole, growMm));
      yield;
    }
    return tasks.length > 1 ? union(bands) : bands;
  };
}

/** The band of one motion at once: for tests and for the command line. */
export function bandOf(sweeping: Sweeping, growMm = 0): Polygon[] {
  const prepared = prepare(sweeping);
  const steps = sweptBetween(prepared, 0, prepared.steps);
  for (;;) {
    const step = steps.next();
    if (step.done) return finished(step.value, growMm);
  }
}
