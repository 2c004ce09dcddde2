/**
 * The quantities that a lesson may ask for by name. What each is worth is computed from the lesson's build when the lesson is opened
 * (model/lessons/quantities.ts); a lesson file never holds the answer.
 *
 * Angles are crank degrees after the true top dead centre of the cylinder, unless the words say otherwise. `needs` names the
 * fields that stand beside `is`; those in `may` can be left out.
 */
import type { LiteralKind } from '../literal.ts';

/** What kind of amount it is: how it is written, and in what a prediction of it is typed. */
export type AmountOf = 'length' | 'angle' | 'share' | 'ratio' | 'speed' | 'acceleration' | 'displacement' | 'count';

/** Fields that stand beside `is`. */
export type Need = 'at' | 'within' | 'share' | 'pair' | 'place' | 'by' | 'between' | 'kind';

export interface QuantityKind {
  readonly as: AmountOf | 'as its own';
  readonly needs: readonly Need[];
  readonly what: string;
}

export const QUANTITIES = {
  // Motion
  'angle of greatest piston speed': { as: 'angle', needs: [], what: 'on the way down from top dead centre' },
  'greatest piston speed': { as: 'speed', needs: [], what: 'on the way down, at the speed of the build' },
  'greatest piston speed against crankpin': { as: 'ratio', needs: [], what: 'over the speed of the crankpin' },
  'greatest piston speed against mean': { as: 'ratio', needs: [], what: 'over twice the travel a turn' },
  'mean piston speed': { as: 'speed', needs: [], what: 'twice the travel a turn, at the speed of the build' },
  'piston travel from TDC': { as: 'length', needs: ['at'], what: 'at a crank angle' },
  'share of stroke travelled': { as: 'share', needs: ['at'], what: 'at a crank angle' },
  'angle at share of stroke': { as: 'angle', needs: ['share'], what: 'on the way down' },
  'dwell about TDC': { as: 'angle', needs: ['within'], what: 'crank degrees spent within a distance of it' },
  'dwell about BDC': { as: 'angle', needs: ['within'], what: 'crank degrees spent within a distance of it' },
  'pull at TDC': { as: 'acceleration', needs: [], what: 'size of the acceleration there' },
  'pull at BDC': { as: 'acceleration', needs: [], what: 'size of the acceleration there' },
  'rod angle': { as: 'angle', needs: ['at'], what: 'size of the lean from the bore at a crank angle' },
  'greatest rod angle': { as: 'angle', needs: [], what: 'size of the greatest lean to either side' },
  'rod angle on the power stroke': { as: 'angle', needs: [], what: 'size of the greatest lean on the way down' },
  'rod angle on the way up': { as: 'angle', needs: [], what: 'size of the greatest lean on the way up' },
  'angle from TDC to BDC': { as: 'angle', needs: [], what: '180 degrees only where the pin line has no offset' },
  'crankpin past the bore at TDC': { as: 'angle', needs: [], what: 'how far the crank stands past in line' },
  'pin height at TDC': { as: 'length', needs: [], what: 'piston pin above the crank axis' },
  'pin height at BDC': { as: 'length', needs: [], what: 'piston pin above the crank axis' },
  // Dimensions
  dimension: { as: 'as its own', needs: ['place'], what: 'a dimension of the build as it stands' },
  stroke: { as: 'length', needs: [], what: 'twice the crank radius' },
  'travel over the stroke': { as: 'length', needs: [], what: 'true travel of the piston, offset included' },
  'rod ratio': { as: 'ratio', needs: [], what: 'rod length over stroke' },
  displacement: { as: 'displacement', needs: [], what: 'of the whole engine' },
  'deck clearance': { as: 'length', needs: [], what: 'crown below the deck at true top dead centre' },
  'skirt edge at BDC': { as: 'length', needs: [], what: 'lower edge of the skirt above the crank axis' },
  // Gaps
  'smallest gap': { as: 'length', needs: ['pair'], what: 'certified, over the whole turn' },
  'angle of the smallest gap': { as: 'angle', needs: ['pair'], what: 'after top dead centre' },
  'gap at an angle': { as: 'length', needs: ['pair', 'at'], what: 'the same two parts, the crank held still' },
  'nearest place beside the bore axis': {
    as: 'length',
    needs: ['pair'],
    what: 'how far to the side of the bore’s line the two parts come nearest',
  },
  'change of the smallest gap': { as: 'length', needs: ['pair', 'place', 'by'], what: 'when one dimension grows' },
  'change of the smallest gap, deck held': {
    as: 'length',
    needs: ['pair', 'place', 'by'],
    what: 'when one dimension grows and compression height follows so that deck clearance stays',
  },
  'smallest gap of a kind': { as: 'length', needs: ['kind'], what: 'over all pairs of the kind at the cylinder' },
  // Offset grind, from the core and the finished crank
  'longest stroke of the grind': {
    as: 'length',
    needs: [],
    what: 'that core and finished journal allow, stock taken off',
  },
  'stroke gained by the grind': { as: 'length', needs: [], what: 'that, less the stroke of the core' },
  'journal lost': { as: 'length', needs: [], what: 'diameter of the core’s rod journal less the finished one' },
  'journal overlap': { as: 'length', needs: [], what: 'main and rod journal seen along the shaft' },
  // From others
  difference: { as: 'as its own', needs: ['between'], what: 'the first figure less the second' },
  quotient: { as: 'ratio', needs: ['between'], what: 'the first figure over the second' },
} as const satisfies Readonly<Record<string, QuantityKind>>;

export type QuantityName = keyof typeof QUANTITIES;

export const QUANTITY_NAMES = Object.keys(QUANTITIES) as [QuantityName, ...QuantityName[]];

/** Kind of literal in which an amount is typed; null where it is a plain number or a percentage. */
export const LITERAL_OF: Readonly<Record<AmountOf, LiteralKind | null>> = {
  length: 'length',
  angle: 'angle',
  share: null,
  ratio: null,
  speed: null,
  acceleration: null,
  displacement: null,
  count: null,
};
