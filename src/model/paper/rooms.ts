/** How much room there is between moving parts, kind by kind: the smallest gap of each, before and after. */
import type { GapKind } from '../../build/document.ts';
import { inOrder } from '../order.ts';
import type { Gap, GapState } from '../results.ts';

export interface Room {
  readonly kind: GapKind;
  /** Smallest gap of that kind. */
  readonly after: Gap;
  /** What that gap is held against: its limit, and the allowance where it rests on assumed dimensions. */
  readonly wantedMm: number;
  /** Gravest state of any gap of that kind. */
  readonly state: GapState;
  /** Smallest gap of that kind in the assembly being replaced; null where it has none, or where it is not known. */
  readonly before: Gap | null;
  /** How many gaps of this kind are in each state. */
  readonly states: Readonly<Record<GapState, number>>;
}

/** Kinds in the order of their worst gap: the gravest state, then the least margin over the limit. `before` is null without a comparison. */
export function roomsOf(after: readonly Gap[], before: readonly Gap[] | null, allowanceMm: number | null): Room[] {
  const wanted = (gap: Gap): number => gap.limitMm + (gap.assumed.length > 0 ? (allowanceMm ?? 0) : 0);
  const rooms = new Map<GapKind, Room & { states: Record<GapState, number> }>();
  const was = new Map<GapKind, Gap>();
  for (const gap of before ?? []) {
    const known = was.get(gap.kind);
    if (known === undefined || gap.gapMm < known.gapMm) was.set(gap.kind, gap);
  }
  for (const gap of inOrder(after)) {
    let room = rooms.get(gap.kind);
    if (room === undefined) {
      const states = { clears: 0, unproven: 0, tight: 0, contact: 0 };
      const beforehand = was.get(gap.kind) ?? null;
      room = { kind: gap.kind, after: gap, wantedMm: wanted(gap), state: gap.state, before: beforehand, states };
    }
    if (gap.gapMm < room.after.gapMm) room = { ...room, after: gap, wantedMm: wanted(gap) };
    room.states[gap.state] += 1;
    rooms.set(gap.kind, room);
  }
  return [...rooms.values()];
}

export type Standing = 'contact' | 'tight' | 'not proven' | 'clears';

/** What can be said of all gaps together; the gravest first. */
export function standingOf(gaps: readonly Gap[]): Standing {
  if (gaps.some((g) => g.state === 'contact')) return 'contact';
  if (gaps.some((g) => g.state === 'tight')) return 'tight';
  return gaps.length === 0 || gaps.some((g) => g.state === 'unproven' || !g.certified) ? 'not proven' : 'clears';
}
