/**
 * The sums that papers are made from, kept: a paper asks for them in many places, and they take a tenth of a second. Worked out a
 * group at a time, so that a page can do something else between two groups.
 */
import type { BuildDocument } from '../../build/document.ts';
import { onlyLogDiffers } from '../mockUp/editLog.ts';
import { type Steps, toTheEnd } from '../pieces/kind.ts';
import { type SumGroup, sumSteps } from '../sums/index.ts';
import type { Sum } from '../sums/sum.ts';

/** Both assemblies of a build, and both of the one before it. */
const MOST_KEPT = 4;

const kept: { readonly doc: BuildDocument; readonly assembly: string; readonly groups: readonly SumGroup[] }[] = [];

/** Works them out, unless they are there. */
export function* sumsInSteps(doc: BuildDocument, assembly: string): Steps<readonly SumGroup[]> {
  const known = kept.find((each) => each.assembly === assembly && onlyLogDiffers(each.doc, doc));
  if (known !== undefined) return known.groups;
  const groups = yield* sumSteps(doc, assembly);
  kept.unshift({ doc, assembly, groups });
  kept.length = Math.min(kept.length, MOST_KEPT);
  return groups;
}

export function sumsFor(doc: BuildDocument, assembly: string): readonly SumGroup[] {
  return toTheEnd(sumsInSteps(doc, assembly));
}

/** The sums of one group; none where the assembly has none of that kind. */
export function groupFor(doc: BuildDocument, assembly: string, title: string): readonly Sum[] {
  return sumsFor(doc, assembly).find((g) => g.title === title)?.sums ?? [];
}
