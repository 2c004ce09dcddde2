/** What each drawing of the glossary is: what it is seen through, how it moves, and its marks at a crank angle. */
import type { Engine } from '../../assembly/engine.ts';
import type { Sizes, Stand } from '../../model/glossary/stand.ts';
import type { Gap } from '../../model/results.ts';
import type { Mark, Window } from './marks.ts';
import { partsAt, type Shown } from './parts.ts';

export interface Told {
  readonly stand: Stand;
  readonly engine: Engine;
  /** The worst gap of the cylinder, where it has one. */
  readonly gap: Gap | null;
  /** A length in the units on show. */
  readonly say: (mm: number) => string;
}

export interface Drawing {
  readonly window: (sizes: Sizes, told: Omit<Told, 'stand'>) => Window;
  readonly marks: (told: Told) => readonly Mark[];
  /** Crank degrees after the top at which it stands while nobody turns it. */
  readonly still: number | ((sizes: Sizes, told: Omit<Told, 'stand'>) => number);
  /** Right round, to and fro about `still`, or not at all. */
  readonly turns: 'round' | 'to and fro' | 'not';
  /** Whether it is not drawn from the present build's dimensions. */
  readonly sketch?: true | ((sizes: Sizes) => boolean);
}

/** Room beyond the parts. */
const MARGIN = 1.06;

/** From the lowest place of crank or counterweight to a little above the deck. */
export function whole({ deck, weightRadius, crankRadius, bigEndRadius }: Sizes): Window {
  const low = -Math.max(weightRadius, crankRadius + bigEndRadius);
  const high = deck * 1.05;
  return { at: [0, (low + high) / 2], half: (MARGIN * (high - low)) / 2 };
}

/** The crank alone, seen from the front. */
export function crankOnly({ weightRadius, crankRadius, bigEndRadius }: Sizes): Window {
  return { at: [0, 0], half: MARGIN * Math.max(weightRadius, crankRadius + bigEndRadius) };
}

export function parts({ engine, stand }: Told, more: Omit<Shown, 'engine' | 'cylinder'> = {}): Mark[] {
  return partsAt({ engine, cylinder: stand.cylinder, ...more }, stand.deg);
}
