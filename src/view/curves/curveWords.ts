/** What can be compared and drawn, in words, and what is to be known of each curve. */
import type { Comparison } from '../../model/curves/compare.ts';
import type { Quantity } from '../../model/curves/lines.ts';

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
  ['difference from harmonic', 'Lower than in simple harmonic motion'],
  ['gap', 'Gap of a pair'],
];

export function noteOf(of: Quantity, rpm: number): string {
  const speed = `At ${rpm} rpm.`;
  switch (of) {
    case 'speed':
      return speed;
    case 'acceleration':
      return `${speed} First and second order: the parts of the exact motion that go once and twice round in a turn, by Fourier’s sums.`;
    case 'side force share':
      return 'Tangent of the rod’s angle: what part of the force along the bore presses the piston on the wall. Friction left out.';
    case 'difference from harmonic':
      return 'How much lower the piston stands than an endless rod would put it, from the same top and through the same travel.';
    case 'gap':
      return 'Sampled, for the shape of the curve; the ring is the certified smallest gap. Gaps beyond 25 mm are left out.';
    default:
      return '';
  }
}
