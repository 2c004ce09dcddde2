/**
 * One gap of a changed build: laid out anew, checked by the rules, its smallest value found again over the whole turn with a
 * proven bound. Nothing is followed without proof, so that a contact that begins elsewhere in the turn is not missed.
 */
import type { Engine, Pair } from '../../assembly/engine.ts';
import { layOut } from '../../assembly/layOut.ts';
import type { BuildDocument } from '../../build/document.ts';
import { checkBuild } from '../../build/rules.ts';
import { readContent } from '../../build/text.ts';
import { CERTIFICATE_TOLERANCE_MM } from '../../core/clearance/certify.ts';
import { certifyLayered } from '../../core/clearance/layered.ts';
import { allowanceMm, deckGapsOf } from '../certified.ts';
import { solveHead } from '../headPair.ts';
import { pairCells } from '../solve.ts';
import { thinSectionGapMm } from './thinSection.ts';
import type { Variable } from './variables.ts';
import { withValues } from './variables.ts';

export interface Changed {
  readonly variable: Variable;
  /** mm or degrees. */
  readonly value: number;
}

/** The engine of a build with some values changed; null when a rule refuses it. */
export function changedEngine(
  doc: BuildDocument,
  changes: readonly Changed[],
): { engine: Engine; doc: BuildDocument } | null {
  const next = withValues(doc, changes);
  // Signs and ranges are rules of the fields. Only a value that crosses zero or a right angle can break one that held before.
  const crossing = changes.some(({ variable, value }) => Math.sign(value) !== Math.sign(variable.value) || value > 90);
  if (crossing ? !readContent(next).ok : checkBuild(next).length > 0) return null;
  return { engine: layOut(next, next.proposed), doc: next };
}

export interface FoundGap {
  readonly gapMm: number;
  /** Proven; minus infinity when the work allowed ran out. */
  readonly lowerBoundMm: number;
  readonly atCrankRad: number;
  /** The gap at the thin section where it is smallest (thinSection.ts): for differences, and for how gaps are spread. */
  readonly sectionMm: number;
}

export interface HowExactly {
  readonly toleranceMm: number;
  /** Only a gap below this is of interest; the answer is this value where there is none. */
  readonly belowMm?: number;
}

/** Evaluations a gap may take, as for the gaps on show. */
const BUDGET = 400_000;

/** As for the gaps on show. */
export const AS_SHOWN: HowExactly = { toleranceMm: CERTIFICATE_TOLERANCE_MM };

/** Near gaps are sliced as finely as they are certified. */
const FINE_SLICES_MM = CERTIFICATE_TOLERANCE_MM;

export function gapOfPair(pair: Pair, hintRad: number | undefined, how: HowExactly): FoundGap {
  if (pair.head !== undefined) {
    const hint = hintRad === undefined ? {} : { hintRad };
    const { gapMm, lowerBoundMm, atCrankRad } = solveHead(pair, pair.head, {
      toleranceMm: how.toleranceMm,
      budget: BUDGET,
      ...hint,
    });
    const isNone = how.belowMm !== undefined && gapMm >= how.belowMm;
    const shown = isNone ? how.belowMm! : gapMm;
    return { gapMm: shown, lowerBoundMm: Math.min(shown, lowerBoundMm), atCrankRad, sectionMm: shown };
  }
  const { a, b } = pair.relative ?? pair;
  const found = certifyLayered(a.motion, b.motion, pairCells(pair), pair.periodRad, {
    toleranceMm: how.toleranceMm,
    slicingMm: FINE_SLICES_MM,
    budget: BUDGET,
    ...(hintRad === undefined ? {} : { hintRad }),
    ...(how.belowMm === undefined ? {} : { belowMm: how.belowMm }),
  });
  const isNone = found.gapMm === how.belowMm;
  return {
    gapMm: found.gapMm,
    lowerBoundMm: found.budgetSpent ? Number.NEGATIVE_INFINITY : found.lowerBoundMm,
    atCrankRad: found.atCrankRad,
    sectionMm: isNone || found.slicingMm <= FINE_SLICES_MM ? found.gapMm : thinSectionGapMm(pair, found),
  };
}

/** One gap by its id; null when the pair is no longer within axial reach: then it clears by more than any limit. */
export function gapInEngine(
  doc: BuildDocument,
  engine: Engine,
  gapId: string,
  hintRad: number | undefined,
  how: HowExactly,
): FoundGap | null {
  const pair = engine.pairs.find((p) => p.id === gapId);
  if (pair !== undefined) return gapOfPair(pair, hintRad, how);
  const deck = deckGapsOf(doc, engine).find((g) => g.id === gapId);
  return deck === undefined ? null : { ...deck, sectionMm: deck.gapMm };
}

/** What a gap must be at least: its limit, and where it rests on assumed outlines the allowance for them on top. */
export function neededMm(
  doc: BuildDocument,
  gap: { readonly limitMm: number; readonly assumed: readonly string[] },
): number {
  return gap.limitMm + (gap.assumed.length > 0 ? (allowanceMm(doc) ?? 0) : 0);
}
