/** What can be compared and drawn, in words, and what is to be known of each. */
import type { Comparison } from '../../model/curves/compare.ts';
import { FAR_ERROR_MM, FAR_MM } from '../../model/curves/gapCurve.ts';
import type { GapLines } from '../../model/curves/gapLines.ts';
import type { Quantity } from '../../model/curves/lines.ts';
import type { Units } from '../../model/state.ts';
import { formatLength } from '../words.ts';

export const WHAT: readonly (readonly [Comparison, string])[] = [
  ['assemblies', 'The assemblies of this build'],
  ['rod length', 'Rod shorter and longer, same stroke'],
  ['stroke', 'Stroke shorter and longer, same rod'],
  ['pin offset', 'Pin offset to either side, and none'],
];

export const QUANTITIES: readonly (readonly [Quantity, string])[] = [
  ['position', 'Piston below its top'],
  ['speed', 'Piston speed, outward positive'],
  ['acceleration', 'Piston acceleration, outward positive'],
  ['rod angle', 'Rod angle'],
  ['side force share', 'Side force for each unit of force along the bore'],
  ['side force of inertia', 'Side force of inertia for each unit of reciprocating mass'],
  ['difference from harmonic', 'Lower than in simple harmonic motion'],
  ['gap', 'Gap of a pair'],
];

/** What differs, and what is held; `ownOffsetMm` is the pin offset of the cylinder in view, `boreOffsetMm` that of its block. */
export function comparedNote(what: Comparison, ownOffsetMm: number, boreOffsetMm: number, units: Units): string {
  const held = 'Compression heights follow, so that the deck clearance of each cylinder stays.';
  switch (what) {
    case 'assemblies':
      return '';
    case 'rod length':
      return `Every rod of the assembly on show shorter and longer by so much, one with a length of its own included. ${held}`;
    case 'stroke':
      return `The stroke of the assembly on show shorter and longer by so much. ${held}`;
    case 'pin offset': {
      const own = `This cylinder’s own pin offset is ${formatLength(ownOffsetMm, units)}.`;
      const bore =
        boreOffsetMm === 0 ? '' : ` The bore’s own offset, ${formatLength(boreOffsetMm, units)}, is in all three.`;
      return `Pins offset by so much against the side the crankpin moves to after the top, not offset, and offset toward it. ${own}${bore} ${held}`;
    }
  }
}

export function noteOf(of: Quantity, rpm: number, units: Units): string {
  const speed = `At ${rpm} rpm.`;
  switch (of) {
    case 'speed':
      return speed;
    case 'acceleration':
      return `${speed} First and second order: the parts of the exact motion that go once and twice round in a turn, by Fourier’s sums.`;
    case 'side force share':
      return 'Tangent of the rod’s angle: what part of the force along the bore presses the piston on the wall. Friction left out.';
    case 'side force of inertia':
      return `${speed} What the piston’s own inertia alone presses on the wall, gas pressure and friction left out; positive on the side the crankpin moves to after the top.`;
    case 'difference from harmonic':
      return 'How much lower the piston stands than an endless rod would put it, from the same top and through the same travel.';
    case 'gap':
      return `Worked out at each degree; the ring is the certified smallest gap. Far gaps may really be up to ${formatLength(FAR_ERROR_MM, units)} larger than drawn; those from ${formatLength(FAR_MM, units)} on are left out.`;
    default:
      return '';
  }
}

/** What is missing from the curves of a gap, a sentence each. */
export function missingWords({ without, far, unproven, failed }: GapLines, units: Units): string {
  return [
    ...without.map((name) => `${name}: these two parts do not come within reach of one another along the shaft.`),
    ...far.map((name) => `${name}: these two parts stay ${formatLength(FAR_MM, units)} apart or more.`),
    ...unproven.map((name) => `${name}: the smallest gap could not be proven, so no ring is drawn.`),
    ...(failed === null ? [] : [`The gaps could not be worked out: ${failed}`]),
  ].join(' ');
}
