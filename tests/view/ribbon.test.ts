/** Ribbons of the angle ruler: states along the turn, against a gap whose crossings are known in closed form. */
import { describe, expect, it } from 'vitest';
import { profileAt, ribbonPieces, sampleState } from '../../src/view/ribbon.ts';

const TURN = 2 * Math.PI;
const DEG = Math.PI / 180;
/** Gap 2 - 3 cos(angle): contact where cos >= 2/3, tight below limit 1 where cos > 1/3. */
const profile = {
  id: 'p',
  stepRad: DEG,
  gapMm: Float32Array.from({ length: 360 }, (_, k) => 2 - 3 * Math.cos(k * DEG)),
};

function extent(path: string): [number, number] {
  const xs = [...path.matchAll(/[ML](-?[\d.]+) /g)].map((m) => Number(m[1]));
  return [Math.min(...xs), Math.max(...xs)];
}

describe('ribbon', () => {
  it('repeats after its own period', () => {
    expect(profileAt(profile, 0.3 + TURN)).toBeCloseTo(profileAt(profile, 0.3), 6);
    expect(profileAt(profile, -0.3)).toBeCloseTo(profileAt(profile, 0.3), 6);
  });
  it('names a sample', () => {
    expect(sampleState(0, 1, 'clears')).toBe('contact');
    expect(sampleState(0.5, 1, 'unproven')).toBe('tight');
    expect(sampleState(1, 1, 'unproven')).toBe('unproven');
  });
  it('changes state where the gap crosses zero and the limit', () => {
    // Half a turn over 1800 px: ten px a degree.
    const pieces = ribbonPieces(profile, 1, 'clears', 0, Math.PI, 1800, 12);
    expect(pieces.map((p) => p.state)).toEqual(['contact', 'tight', 'clears']);
    const zeroAt = (Math.acos(2 / 3) / DEG) * 10;
    const limitAt = (Math.acos(1 / 3) / DEG) * 10;
    expect(extent(pieces[0]!.path)[1]).toBeCloseTo(zeroAt, 0);
    expect(extent(pieces[1]!.path)[0]).toBeCloseTo(zeroAt, 0);
    expect(extent(pieces[1]!.path)[1]).toBeCloseTo(limitAt, 0);
    expect(extent(pieces[2]!.path)[1]).toBe(1800);
  });
});
