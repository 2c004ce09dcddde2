/** The end of the tour: the closest places, what helps there, and whether it is ready to be built. */
import type { Engine } from '../../assembly/engine.ts';
import { allowanceMm } from '../../model/certified.ts';
import { roomsOf, standingOf } from '../../model/paper/rooms.ts';
import { assumedCount } from '../../model/paper/summary.ts';
import type { Gap, GapState } from '../../model/results.ts';
import type { Cures } from '../../model/solver.ts';
import type { Units } from '../../model/state.ts';
import { partsOfKind } from '../paper/plainParts.ts';
import { HEADLINES, roomSentence } from '../paper/roomWords.ts';
import { formatGap, formatLength } from '../words.ts';
import type { Step, TourOf } from './step.ts';

/** Steps for so many kinds of place at most. */
const MOST_TIGHT = 3;

/** The gravest kinds of place, one step each; where all is well the closest place of all. */
export function tightSteps({ doc, after, gaps, cures, units }: TourOf): Step[] {
  const proven = gaps.every((g) => g.certified || g.budgetSpent);
  if (gaps.length === 0 || !proven) return [];
  const turns = gaps.filter((g) => g.kind !== 'deck');
  const bad = turns.filter((g) => g.state !== 'clears');
  const rooms = roomsOf(bad.length > 0 ? bad : turns.slice(0, 1), null, allowanceMm(doc));
  const several = after.cylinders.length > 1;
  return rooms.slice(0, MOST_TIGHT).map((room, k) => {
    const gap = bad.find((g) => g.kind === room.kind) ?? room.after;
    const wanted = formatLength(room.wantedMm, units);
    const more = (bad.length > 0 ? room.states[gap.state] : 1) - 1;
    return {
      key: `gap ${k + 1}`,
      title: TIGHT_TITLES[gap.state],
      sentences: [
        gap.state === 'clears'
          ? `${closestWords(gap, after, units)} The shop wants ${wanted}.`
          : roomSentence({ ...room, after: gap, state: gap.state }, after.cylinders.length, units),
        ...(several ? [`The picture shows it on cylinder ${gap.cylinder}.${sameElsewhere(more)}`] : []),
        ...cureWords(cures, gap),
      ],
      lit: 'gap' as const,
      show: 'after' as const,
      turn: { kind: 'to' as const, crankAngleRad: gap.atCrankRad },
      gapId: gap.id,
    };
  });
}

const TIGHT_TITLES: Readonly<Record<GapState, string>> = {
  contact: 'Here parts would meet',
  tight: 'Here it is too tight',
  unproven: 'Here something must be measured',
  clears: 'The closest place has room enough',
};

function closestWords(gap: Gap, { cylinders }: Engine, units: Units): string {
  const [one, other] = partsOfKind(gap.kind, cylinders.length > 1);
  return `Between ${one} and ${other} there is ${formatGap(gap, units)}.`;
}

function sameElsewhere(more: number): string {
  if (more <= 0) return '';
  return more === 1 ? ' It is the same in 1 more place.' : ` It is the same in ${more} more places.`;
}

/** The first way to put it right, from what to what. */
function cureWords(cures: Cures | null, gap: Gap): string[] {
  const cure = cures?.gapId === gap.id ? cures.list[0] : undefined;
  if (cure === undefined) return [];
  const what = cure.what.charAt(0).toLowerCase() + cure.what.slice(1);
  return [`What would help: ${what}, ${cure.label} from ${cure.from} to ${cure.to}.`];
}

/** Whether it is ready, and what is still to be done. */
export function checkStep({ doc, after, gaps }: TourOf): Step {
  const assumed = assumedCount(doc, after.assembly);
  const standing = standingOf(gaps);
  const bad = gaps.filter((g) => g.state === 'contact' || g.state === 'tight').length;
  return {
    key: 'check',
    title: gaps.length === 0 || standing === 'clears' ? 'Before it runs' : HEADLINES[standing],
    sentences: [
      ...(gaps.length > 0 && standing === 'clears' ? [HEADLINES.clears] : []),
      ...(bad > 0
        ? [`${bad} of ${gaps.length} places lack room. That is put right before anything is bolted up.`]
        : []),
      ...(assumed > 0
        ? [`${assumed} ${assumed === 1 ? 'dimension is' : 'dimensions are'} assumed and will be measured.`]
        : []),
      'The shop checks every gap by hand on the real parts before the engine turns.',
      'A qualified grinder judges whether the crank is strong enough.',
    ],
    lit: 'nothing',
    show: 'after',
    turn: { kind: 'round' },
  };
}
