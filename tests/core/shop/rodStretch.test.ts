import { describe, expect, it } from 'vitest';
import { inertiaLoads } from '../../../src/core/shop/pistonLoads.ts';
import { rodStretchMm } from '../../../src/core/shop/rodStretch.ts';

describe('stretch of a bar, worked examples', () => {
  // NCERT, Physics, class XI, ch. "Mechanical Properties of Solids", first example: steel, radius 10 mm, length 1 m,
  // 100 kN, 2.0e11 N/m²: 1.59 mm.
  it('steel rod of 10 mm radius and 1 m', () => {
    expect(rodStretchMm(100_000, 1000, Math.PI * 100, 200_000)).toBeCloseTo(1.59, 2);
  });

  // Exercise on elongation, applied physics (brainmass.com 39573): 1000 N, 1 m, 10 cm², 2.0e11 Pa: by hand 5e-6 m.
  it('1 kN on ten square centimetres', () => {
    expect(rodStretchMm(1000, 1000, 1000, 200_000)).toBeCloseTo(0.005, 12);
    expect(rodStretchMm(-1000, 1000, 1000, 200_000)).toBeCloseTo(-0.005, 12);
  });

  // Stepped bar in tension (sarthaks.com 3467240, strength of materials): 15 kN; 40 mm by 200, 15 mm by 500, 30 mm by 200;
  // 0.2454 mm. Its modulus is not printed in the excerpt: 2.0e5 N/mm² gives the figure.
  it('stepped bar', () => {
    const part = (d: number, l: number): number => rodStretchMm(15_000, l, (Math.PI / 4) * d * d, 200_000);
    expect(part(40, 200) + part(15, 500) + part(30, 200)).toBeCloseTo(0.2454, 3);
  });

  it('refuses what is no bar', () => {
    for (const bad of [0, -1, Number.NaN]) {
      expect(() => rodStretchMm(1, bad, 1, 1)).toThrow(RangeError);
      expect(() => rodStretchMm(1, 1, bad, 1)).toThrow(RangeError);
      expect(() => rodStretchMm(1, 1, 1, bad)).toThrow(RangeError);
    }
    expect(() => rodStretchMm(Number.NaN, 1, 1, 1)).toThrow(RangeError);
  });
});

describe('a rod at top dead centre', () => {
  // At TDC in line the acceleration is exactly r w² (1 + r/l) (Khurmi & Gupta, Theory of Machines, ch. 15); r 50, l 150 mm,
  // 6000 rpm: 0.05 x 394784.2 x 4/3 = 26318.9 m/s²; 1 kg pulls 26.319 kN; on 200 mm² of 205 GPa it gives 0.0963 mm.
  it('is stretched by what the piston pulls', () => {
    const { rodTensionN } = inertiaLoads({ crankRadiusMm: 50, rodLengthMm: 150, offsetMm: 0 }, 1, 0, 6000);
    expect(rodTensionN).toBeCloseTo(0.05 * (200 * Math.PI) ** 2 * (4 / 3), 6);
    expect(rodStretchMm(rodTensionN, 150, 200, 205_000)).toBeCloseTo(0.0963, 4);
  });
});
