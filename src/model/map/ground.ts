/** What holds for all designs of a map: the build as it stands laid out, and its pairs, alike ones taken together. */
import { alongTheShaft } from '../../assembly/along.ts';
import type { Design } from '../../assembly/design.ts';
import { bodyAt, bodyCount, layDesign, sameValves } from '../../assembly/design.ts';
import { mm } from '../../assembly/dims.ts';
import type { Body, Pair } from '../../assembly/engine.ts';
import { layPairs } from '../../assembly/pairs.ts';
import type { Shifts } from '../../assembly/shift.ts';
import { bodyShiftsMm, swingShiftsMm } from '../../assembly/shift.ts';
import type { BuildDocument } from '../../build/document.ts';
import { DEFAULT_LIMITS } from '../../build/limits.ts';
import { allowanceMm } from '../certified.ts';

/** A design and its bodies, by their places in a fixed order. */
export interface Laid {
  readonly design: Design;
  readonly body: (place: number) => Body;
}

/** A pair of the engine that stands for all that go through the same relative motion: places of its bodies in that order. */
export interface Entry {
  readonly id: string;
  /** As it is in the design that the entry was made from. */
  readonly pair: Pair;
  /** A rod and its own piston. */
  readonly own: boolean;
  /** A valve and its piston. */
  readonly valve: boolean;
  readonly a: number;
  readonly b: number;
  /** What its gap must be for a margin of nothing: limit and allowance. */
  readonly neededMm: number;
  readonly unproven: boolean;
}

export interface Ground {
  readonly assembly: string;
  readonly base: Laid;
  readonly entries: readonly Entry[];
  readonly allowanceMm: number | null;
  readonly deckLimitMm: number;
}

/** `corners`: designs of the map far apart from one another; pairs that move alike in all of them are one. */
export function layGround(doc: BuildDocument, assembly: string, corners: readonly BuildDocument[]): Ground {
  const base = laidOut(doc, assembly, null);
  const allowance = allowanceMm(doc);
  const others = corners
    .map((corner) => laidOut(corner, assembly, base))
    .filter((laid) => alongTheShaft(base.design, laid.design));
  return {
    assembly,
    base,
    entries: entriesOf(base, allowance, others),
    allowanceMm: allowance,
    deckLimitMm: mm(doc.limits?.deck ?? { value: DEFAULT_LIMITS.deck.value, from: 'stated' }),
  };
}

export function laidOut(doc: BuildDocument, assembly: string, before: Laid | null): Laid {
  const design = layDesign(doc, assembly, before?.design ?? null);
  return { design, body: (place) => bodyAt(design, place) };
}

function pairsOf(laid: Laid): Pair[] {
  return layPairs(laid.design.doc, laid.design.cylinders, bodiesOf(laid));
}

function bodiesOf({ design, body }: Laid): Body[] {
  return Array.from({ length: bodyCount(design) }, (_, place) => body(place));
}

/** Pairs of a design, the first of those that move alike, or as mirror images, in it and in `others`. */
export function entriesOf(laid: Laid, allowance: number | null, others: readonly Laid[] = []): Entry[] {
  const place = new Map(bodiesOf(laid).map((body, k) => [body, k]));
  const elsewhere = others.map((other) => new Map(pairsOf(other).map((pair) => [pair.id, pair])));
  const known = new Set<string>();
  return pairsOf(laid).flatMap((pair): Entry[] => {
    const assumed = pair.assumed.length > 0;
    const all = [pair, ...elsewhere.map((pairs) => pairs.get(pair.id))];
    const key = [assumed, ...all.map((each) => each?.key)].join(' || ');
    // Of a pair and its mirror image, in all of them, one is enough too.
    const twin = all.every((each) => each?.twin !== undefined) && all.map((each) => each!.twin!.key);
    if (known.has(key) || (twin && known.has([assumed, ...twin].join(' || ')))) return [];
    known.add(key);
    return [
      {
        id: pair.id,
        pair,
        own: pair.kind === 'rod-piston',
        valve: pair.head !== undefined,
        a: place.get(pair.a)!,
        b: place.get(pair.b)!,
        neededMm: pair.limitMm + (assumed ? (allowance ?? 0) : 0),
        unproven: assumed && allowance === null,
      },
    ];
  });
}

/** How far the layers of a pair may have moved against one another, mm: of one layer of each, or the most of any. */
export interface Fallen {
  readonly ofLayers: (a: number, b: number) => number;
  readonly mostMm: number;
}

/** Bounds on how far the bodies of a pair have moved from one design to another, each worked out once. */
export function shiftsBetween(from: Laid, to: Laid): (entry: Entry) => Fallen {
  const bodies = new Map<number, Moved>();
  const of = (k: number): Moved => {
    let moved = bodies.get(k);
    if (moved === undefined) {
      moved = movedBy(bodyShiftsMm(from.body(k), to.body(k)));
      bodies.set(k, moved);
    }
    return moved;
  };
  const pairs = new Map<string, Fallen>();
  return ({ id, own, valve, a, b }) => {
    let fallen = pairs.get(id);
    if (fallen === undefined) {
      const swung = own ? swingShiftsMm([from.body(a), to.body(a)], [from.body(b), to.body(b)]) : undefined;
      const p = valve
        ? valveMoved(from.design, to.design, () => of(a))
        : swung === undefined
          ? of(a)
          : movedBy(swung.rod);
      const q = swung === undefined ? of(b) : movedBy(swung.piston);
      fallen = {
        ofLayers: (la, lb) => (p.shifts?.[la] ?? 0) + (q.shifts?.[lb] ?? 0),
        mostMm: p.mostMm + q.mostMm,
      };
      pairs.set(id, fallen);
    }
    return fallen;
  };
}

/** A valve meets the crown with its pockets, which no layer shows: only its height may differ. */
function valveMoved(from: Design, to: Design, laidOut: () => Moved): Moved {
  if (!sameCrown(from, to)) return UNKNOWN;
  return sameValves(from, to) ? movedBy(null) : laidOut();
}

const UNKNOWN: Moved = { shifts: null, mostMm: Number.POSITIVE_INFINITY };

function sameCrown(a: Design, b: Design): boolean {
  const but = ({ assembly: { piston } }: Design): string => JSON.stringify({ ...piston, compressionHeight: null });
  return a.assembly.own === b.assembly.own && but(a) === but(b);
}

interface Moved {
  readonly shifts: Shifts;
  readonly mostMm: number;
}

function movedBy(shifts: Shifts): Moved {
  return { shifts, mostMm: shifts === null ? 0 : Math.max(0, ...shifts) };
}
