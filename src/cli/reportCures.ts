/** What would help, as plain data: for each gap below its limit the single changes that restore it. */
import type { BuildDocument } from '../build/index.ts';
import { type Cure, findCures } from '../model/cures.ts';
import type { Told } from '../model/distinct.ts';
import type { Gap } from '../model/results.ts';

export interface ReportedCure {
  readonly what: string;
  /** The dimension that is changed, and of which body; null: of all of its kind. */
  readonly dimension: string;
  readonly body: string | null;
  readonly from: string;
  readonly to: string;
  /** What is to be set in the build file. */
  readonly changes: readonly { readonly place: string; readonly value: string }[];
  /** Certified gap with the change. */
  readonly gapMm: number;
  readonly rodRatio: { readonly from: number; readonly to: number };
  readonly displacementCm3: { readonly from: number; readonly to: number };
  /** Where it follows, so that the deck clearance stays. */
  readonly compressionHeight: string | null;
  /** Balance moment that each counterweight loses, about. */
  readonly momentLostKgMm: number | null;
  /** Pairs whose state becomes worse, and better. */
  readonly worse: readonly string[];
  readonly better: readonly string[];
}

export interface CuredGap {
  readonly between: readonly [string, string];
  /** The least disturbing first; empty where no single change restores the limit. */
  readonly cures: readonly ReportedCure[];
}

/** Cures of each told gap that is tight or in contact. Takes about half a second a gap for a V8. */
export function curesOf(
  doc: BuildDocument,
  assembly: string,
  gaps: readonly Gap[],
  told: readonly Told[],
): { readonly gap: Gap; readonly cures: readonly Cure[] }[] {
  return told
    .filter(({ gap }) => gap.state === 'tight' || gap.state === 'contact')
    .map(({ gap }) => ({ gap, cures: findCures(doc, assembly, gaps, gap.id) }));
}

export function reportedCure(cure: Cure): ReportedCure {
  return {
    what: cure.what,
    dimension: cure.label,
    body: cure.body,
    from: cure.from,
    to: cure.to,
    changes: cure.changes.map(({ path, text }) => ({ place: placeOf(path), value: text })),
    gapMm: cure.gapMm,
    rodRatio: cure.rodRatio,
    displacementCm3: cure.displacementCm3,
    compressionHeight: cure.compressionHeight,
    momentLostKgMm: cure.momentLostKgMm,
    worse: cure.closes,
    better: cure.opens,
  };
}

function placeOf(path: readonly (string | number)[]): string {
  return path.map((key, k) => (typeof key === 'number' ? `[${key}]` : k === 0 ? key : `.${key}`)).join('');
}
