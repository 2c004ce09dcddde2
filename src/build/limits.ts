/**
 * Default limits: the smallest static gap of each kind that the trade accepts, and where the figure comes from. They are starting
 * values; the builder and the part maker set the limits of a build.
 */
import type { GapKind } from './document.ts';

export interface DefaultLimit {
  /** A length literal. */
  readonly value: string;
  readonly source: string;
  readonly note: string;
}

const COMMON = 'common practice, no published source';
const MOCK_UP_GUIDE = 'trade magazine mock-up guide, 2007';

export const DEFAULT_LIMITS: Readonly<Record<GapKind, DefaultLimit>> = {
  'counterweight-piston': {
    value: '.060 in',
    source: MOCK_UP_GUIDE,
    note: 'Skirt or pin boss against the counterweight, closest near bottom dead centre.',
  },
  'counterweight-block': {
    value: '.060 in',
    source: 'trade magazine engine-build article, 2020',
    note: 'Pan rail and bottom of the cylinder; given there as about this much.',
  },
  'counterweight-camshaft': {
    value: '.060 in',
    source: COMMON,
    note: 'Taken equal to the counterweight against the block.',
  },
  'rod-camshaft': {
    value: '.050 in',
    source: 'engine builder’s published build notes, 2003',
    note: 'Bolt or shoulder against a lobe, steel rods; aluminium rods stretch and grow more and need more.',
  },
  'rod-block': {
    value: '.060 in',
    source: MOCK_UP_GUIDE,
    note: 'Bottom of the bore, pan rail and bearing webs.',
  },
  'rod-piston': {
    value: '.060 in',
    source: COMMON,
    note: 'Rod against the skirt and the underside of its own piston.',
  },
  'rod-opposite-piston': {
    value: '.060 in',
    source: COMMON,
    note: 'Rod against the skirt of the piston on the other bank.',
  },
  'piston-piston': {
    value: '.060 in',
    source: COMMON,
    note: 'Skirts of the two banks where the bores come close at the bottom.',
  },
  'piston-intake-valve': {
    value: '.080 in',
    source: COMMON,
    note: 'Anywhere about the head, radially in the pocket too. Closest some 10 to 15 degrees after top dead centre, gas exchange. Valve float and a stretched timing drive take more.',
  },
  'piston-exhaust-valve': {
    value: '.100 in',
    source: COMMON,
    note: 'Anywhere about the head, radially in the pocket too. Closest some 10 to 15 degrees before top dead centre, gas exchange. The piston follows the valve, which grows with heat.',
  },
  deck: {
    value: '0 in',
    source: COMMON,
    note: 'Crown below the deck; a crown above the deck uses up gasket thickness and is judged with the quench.',
  },
};

/** Deck clearance and compressed gasket together, steel rods: below it a piston can meet the head at speed. */
export const QUENCH_GUIDE: DefaultLimit = {
  value: '.040 in',
  source: 'online course lesson on piston to head clearance',
  note: 'Deck clearance plus compressed gasket thickness, flat crown against a flat chamber face, steel rods.',
};

/** Inches, for the figure beside the deck clearance. */
export const quenchGuideIn = 0.04;
