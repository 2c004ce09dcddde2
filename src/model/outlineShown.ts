/** What the page of outlines shows of a body: what stands there now in words, and the preview as finished paths. */
import { unitOfLiteral } from '../build/index.ts';
import { extentOf } from '../core/outline/extent.ts';
import { type ImportedOutline, svgPath } from '../exchange/index.ts';
import { type OutlineTarget, outlineAt, targetName } from './outlineTarget.ts';
import type { State } from './state.ts';
import { templateOf } from './template.ts';

export interface CurrentOutline {
  readonly measured: boolean;
  readonly says: string;
}

/** Null where the build has no such body. */
export function currentOutline(state: State, target: OutlineTarget): CurrentOutline | null {
  const { doc, assembly } = state;
  const here = outlineAt(doc, assembly, target);
  if (here?.outline !== undefined) {
    const { outline, outlineFrom, outlineDeviation } = here;
    const deviation = outlineDeviation === undefined ? 'no deviation stated' : `deviation ${outlineDeviation.value}`;
    const unit = unitOfLiteral(outline[0]!.x.value);
    return { measured: true, says: `An outline of ${outline.length} edges in ${unit}, ${outlineFrom}; ${deviation}.` };
  }
  if (target.body === 'fixed') return null;
  if ('cylinder' in target && target.cylinder !== null) {
    const set: OutlineTarget = { body: target.body, cylinder: null };
    if (outlineAt(doc, assembly, set) !== undefined) {
      return { measured: false, says: `By the outline of all ${targetName(set)}.` };
    }
  }
  return { measured: false, says: 'Drawn from its dimensions.' };
}

export interface OutlinePreview {
  /** Path data of what was read, mm, y down; null before there is any. */
  readonly path: string | null;
  /** What stands there now. */
  readonly now: readonly string[];
  readonly points: readonly (readonly [number, number])[];
  readonly box: { readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number };
  readonly label: string;
}

/** In the build's frame, as seen from the front for a clockwise engine. Null where there is nothing to show. */
export function previewOf(
  state: State,
  target: OutlineTarget | null,
  read: ImportedOutline | null,
): OutlinePreview | null {
  const template = target === null ? null : templateOf(state.doc, state.engine, target);
  const shown = template?.outlines.slice(0, 1).map((o) => o.outline) ?? [];
  const boxes = [...shown, ...(read === null ? [] : [read.outline])].map(extentOf);
  if (boxes.length === 0) return null;
  const name = target === null ? 'the part' : targetName(target);
  return {
    path: read === null ? null : svgPath(read.outline),
    now: shown.map((o) => svgPath(o)),
    points: read?.measured ?? [],
    box: {
      x0: Math.min(0, ...boxes.map((b) => b.x0)),
      y0: Math.min(0, ...boxes.map((b) => b.y0)),
      x1: Math.max(0, ...boxes.map((b) => b.x1)),
      y1: Math.max(0, ...boxes.map((b) => b.y1)),
    },
    label:
      read === null
        ? `Outline of ${name} as it stands`
        : `${read.measured.length} points over the outline fitted to them; dashed, ${name} as it stands`,
  };
}
