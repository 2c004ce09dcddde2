/**
 * Cures of a pair that fails: every single change of a dimension that restores its limit, each solved on the certified
 * gap, with what it costs elsewhere, the least disturbing first.
 *
 * A lever is tried a little; if the gap moves it is moved on, the way that opens the gap, until the limit is reached or
 * the build can't be built, and the value is then narrowed down until the certified gap is above the limit by at most
 * `CLOSE_MM`. Values are rounded to a ten-thousandth of an inch or a thousandth of a millimetre, on the open side.
 * Compression height follows stroke and rod length, so that the deck clearance stays.
 */

import { mm, rad } from '../assembly/dims.ts';
import { layOut } from '../assembly/layOut.ts';
import type { BuildDocument, Dim } from '../build/document.ts';
import { angleDeg, Exact, kindOf, lengthMm, unitOfLiteral, withLengthMm, withoutTolerance } from '../build/literal.ts';
import { checkBuild } from '../build/rules.ts';
import { counterweightMomentLostKgMm, STEEL_DENSITY_KG_PER_MM3 } from '../core/shop/counterweightMoment.ts';
import { allowanceMm, certifiedGaps, deckGapsOf } from './certified.ts';
import { aloneWith, at, movesTheTop, withDeckClearanceHeld, withLiteral } from './edit.ts';
import { figuresOf } from './figures.ts';
import type { Lever } from './levers.ts';
import { leversFor } from './levers.ts';
import { type Steps, toTheEnd } from './pieces/kind.ts';
import type { Gap } from './results.ts';
import { solveGaps } from './solve.ts';
import type { DimPath } from './state.ts';

export interface Cure {
  /** The gap it cures. */
  readonly gapId: string;
  readonly what: string;
  readonly label: string;
  /** The one body it is for; null when it is for all of its kind. */
  readonly body: string | null;
  readonly from: string;
  readonly to: string;
  /** What is to be set, the lever first. */
  readonly changes: readonly { readonly path: DimPath; readonly text: string }[];
  /** Certified gap with the cure. */
  readonly gapMm: number;
  readonly rodRatio: { readonly from: number; readonly to: number };
  readonly displacementCm3: { readonly from: number; readonly to: number };
  /** New compression height where it follows; null where it stays. */
  readonly compressionHeight: string | null;
  /** Balance moment that the counterweight loses, each, about, kg mm; null where its outline stays. */
  readonly momentLostKgMm: number | null;
  /** Gaps whose state becomes worse, by id. */
  readonly closes: readonly string[];
  /** Other gaps whose state becomes better. */
  readonly opens: readonly string[];
  readonly effort: number;
}

/** How far above the limit a cure may end: what a shop can measure. */
const CLOSE_MM = 0.01;

/** First small try of a lever: 0.2 mm, or 0.2 degrees. */
const TRY = 0.2;

/** A lever is not moved by more than this share of its value, and at least by 3 mm or degrees: beyond it another part is meant. */
const MOST_SHARE = 0.35;
const MOST_ANYHOW = 3;

const RANK = { clears: 0, unproven: 1, tight: 2, contact: 3 } as const;

interface Trial {
  readonly doc: BuildDocument;
  readonly gapMm: number;
}

/** Cures of one gap of the assembly. `gaps` are the certified gaps of the document as it stands. */
export function findCures(doc: BuildDocument, assembly: string, gaps: readonly Gap[], gapId: string): Cure[] {
  return toTheEnd(cureSteps(doc, assembly, gaps, gapId));
}

/** The same, a lever a step: some hundredths of a second each. */
export function* cureSteps(doc: BuildDocument, assembly: string, gaps: readonly Gap[], gapId: string): Steps<Cure[]> {
  const gap = gaps.find((g) => g.id === gapId);
  const index = doc.assemblies.findIndex((a) => a.name === assembly);
  if (gap === undefined || index < 0) return [];
  const allowance = allowanceMm(doc) ?? 0;
  const neededMm = gap.limitMm + (gap.assumed.length > 0 ? allowance : 0);
  if (gap.gapMm >= neededMm) return [];
  const out: Cure[] = [];
  for (const lever of leversFor(doc, index, gap.kind, gap.between)) {
    yield;
    const found = solveLever(doc, assembly, gap, lever, neededMm);
    if (found !== null) out.push(describe(doc, assembly, index, gaps, gap, lever, found));
  }
  // Least disturbance first: nothing else closed, the least work in the shop, pistons that stay, most others helped.
  return out.sort(
    (a, b) =>
      a.closes.length - b.closes.length ||
      a.effort - b.effort ||
      Number(a.compressionHeight !== null) - Number(b.compressionHeight !== null) ||
      b.opens.length - a.opens.length,
  );
}

/** Value of a lever's literal in mm or degrees. */
function leverValue(doc: BuildDocument, path: DimPath): number {
  const text = (at(doc, path) as Dim).value;
  return kindOf(text) === 'angle' ? angleDeg(text) : lengthMm(text);
}

/** The literal with a new value, mm or degrees, rounded toward `side` (+1 up, -1 down) to what a shop reads. */
function written(text: string, value: number, side: number): string {
  const mode = side > 0 ? Exact.ROUND_CEIL : Exact.ROUND_FLOOR;
  if (kindOf(text) === 'angle') return `${new Exact(value).toDecimalPlaces(2, mode).toFixed()} deg`;
  const inch = unitOfLiteral(text) !== 'mm';
  const step = inch ? new Exact('0.00254') : new Exact('0.001');
  return withLengthMm(text, new Exact(value).div(step).toDecimalPlaces(0, mode).times(step));
}

function trial(doc: BuildDocument, assembly: string, gap: Gap, path: DimPath, text: string): Trial | null {
  let next = withLiteral(doc, path, text);
  if (movesTheTop(path) && gap.kind !== 'deck') next = withDeckClearanceHeld(doc, next, path);
  if (checkBuild(aloneWith(next, assembly)).length > 0) return null;
  const engine = layOut(next, assembly);
  const found =
    gap.kind === 'deck'
      ? deckGapsOf(next, engine).find((g) => g.id === gap.id)
      : solveGaps(engine, {
          assumedAllowanceMm: allowanceMm(next),
          hints: new Map([[gap.id, gap.atCrankRad]]),
          wanted: (pair) => pair.id === gap.id,
        })[0];
  // A pair that is no longer within axial reach is out of the way.
  return { doc: next, gapMm: found === undefined ? Number.POSITIVE_INFINITY : found.lowerBoundMm };
}

function solveLever(
  doc: BuildDocument,
  assembly: string,
  gap: Gap,
  lever: Lever,
  neededMm: number,
): { text: string; trial: Trial } | null {
  const before = (at(doc, lever.path) as Dim).value;
  const start = leverValue(doc, lever.path);
  const go = (value: number, side: number): { text: string; trial: Trial | null; value: number } => {
    const text = written(before, value, side);
    return { text, trial: trial(doc, assembly, gap, lever.path, text), value };
  };
  // Which way does it open, and how fast.
  let side = 0;
  let slope = 0;
  for (const way of [-1, 1]) {
    const little = go(start + way * TRY, way).trial;
    if (little === null) continue;
    const gain = (little.gapMm - gap.lowerBoundMm) / TRY;
    if (gain > slope) {
      slope = gain;
      side = way;
    }
  }
  if (side === 0 || slope < 1e-3) return null;
  const most = Math.max(MOST_ANYHOW, Math.abs(start) * MOST_SHARE);
  let low = start;
  let high: { text: string; trial: Trial; value: number } | null = null;
  let reach = Math.max(TRY, (neededMm - gap.gapMm) / slope);
  for (let k = 0; k < 12 && reach <= most; k++) {
    const there = go(start + side * reach, side);
    if (there.trial === null) return null;
    if (there.trial.gapMm >= neededMm) {
      high = { text: there.text, trial: there.trial, value: there.value };
      break;
    }
    low = there.value;
    reach *= 1.5;
  }
  if (high === null) return null;
  // Down to the smallest change that still restores the limit.
  for (let k = 0; k < 40 && high.trial.gapMm > neededMm + CLOSE_MM / 2; k++) {
    if (Math.abs(high.value - low) < 5e-4) break;
    const middle = go((low + high.value) / 2, side);
    if (middle.trial === null) return null;
    if (middle.trial.gapMm >= neededMm) high = { text: middle.text, trial: middle.trial, value: middle.value };
    else low = middle.value;
  }
  return { text: high.text, trial: high.trial };
}

function describe(
  doc: BuildDocument,
  assembly: string,
  index: number,
  gaps: readonly Gap[],
  gap: Gap,
  lever: Lever,
  found: { text: string; trial: Trial },
): Cure {
  const next = found.trial.doc;
  const engine = layOut(next, assembly);
  const after = certifiedGaps(next, engine, new Map(gaps.map((g) => [g.id, g.atCrankRad])));
  const was = new Map(gaps.map((g) => [g.id, g]));
  const closes: string[] = [];
  const opens: string[] = [];
  for (const g of after) {
    const old = was.get(g.id);
    if (old === undefined || g.id === gap.id) continue;
    if (RANK[g.state] > RANK[old.state]) closes.push(g.id);
    if (RANK[g.state] < RANK[old.state]) opens.push(g.id);
  }
  const before = figuresOf(doc, layOut(doc, assembly), gap.cylinder);
  const figures = figuresOf(next, engine, gap.cylinder);
  const height = next.assemblies[index]!.piston.compressionHeight.value;
  const heightWas = doc.assemblies[index]!.piston.compressionHeight.value;
  const follows = height !== heightWas && lever.label !== 'compression height';
  const { counterweight, cheekThickness } = doc.assemblies[index]!.crank;
  return {
    gapId: gap.id,
    what: lever.what,
    label: lever.label,
    body: lever.body,
    from: withoutTolerance((at(doc, lever.path) as Dim).value),
    to: withoutTolerance(found.text),
    changes: [
      { path: lever.path, text: found.text },
      ...(follows ? [{ path: ['assemblies', index, 'piston', 'compressionHeight'], text: height }] : []),
    ],
    gapMm: after.find((g) => g.id === gap.id)?.gapMm ?? found.trial.gapMm,
    rodRatio: { from: before.rodRatio, to: figures.rodRatio },
    displacementCm3: { from: before.displacementCm3, to: figures.displacementCm3 },
    compressionHeight: follows ? height : null,
    momentLostKgMm:
      lever.label === 'counterweight radius'
        ? counterweightMomentLostKgMm(
            leverValue(doc, lever.path),
            lengthMm(found.text),
            rad(halfAngleOf(doc, lever.path) ?? counterweight.halfAngle),
            mm(cheekThickness),
            STEEL_DENSITY_KG_PER_MM3,
          )
        : null,
    closes,
    opens,
    effort: lever.effort,
  };
}

/** Half angle of a counterweight's own beside its own radius; null when it has none or the radius is the common one. */
function halfAngleOf(doc: BuildDocument, path: DimPath): Dim | null {
  const beside = at(doc, [...path.slice(0, -1), 'halfAngle']);
  return beside === undefined ? null : (beside as Dim);
}
