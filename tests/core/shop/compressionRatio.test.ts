import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ClearancePart, ClearanceVolumes } from '../../../src/core/shop/compressionRatio.ts';
import {
  clearanceForRatioCm3,
  compressionRatio,
  creviceCm3,
  discCm3,
  partForRatioCm3,
} from '../../../src/core/shop/compressionRatio.ts';
import { displacementCm3 } from '../../../src/core/shop/displacement.ts';

const IN = 25.4;
const CM3_PER_IN3 = 16.387064;

describe('published', () => {
  // C1: "Compression ratio rules", Circle Track, May 2004: bore 4.00, stroke 3.48, piston 5 cc, deck .050 in, gasket
  // .020 in at a bore of 4.00, chamber 70 cc; its terms in cubic inches and its ratio of 9.01.
  const volumes: ClearanceVolumes = {
    chamberCm3: 70,
    gasketCm3: discCm3(4 * IN, 0.02 * IN),
    deckCm3: discCm3(4 * IN, 0.05 * IN),
    pistonCm3: 5,
    creviceCm3: 0,
  };
  const swept = displacementCm3(4 * IN, 3.48 * IN, 1);

  test('C1, every term and the ratio', () => {
    expect(Math.abs(swept / CM3_PER_IN3 - 43.731)).toBeLessThan(0.0005);
    expect(Math.abs(volumes.deckCm3 / CM3_PER_IN3 - 0.62832)).toBeLessThan(0.000005);
    expect(Math.abs(volumes.gasketCm3 / CM3_PER_IN3 - 0.251328)).toBeLessThan(0.0000015);
    expect(Math.abs(compressionRatio(swept, volumes) - 9.01)).toBeLessThan(0.005);
    // The same with full digits, worked by hand: 1 + 716.6280 / 89.4145.
    expect(Math.abs(compressionRatio(swept, volumes) - 9.01458)).toBeLessThan(0.000005);
  });

  test('C2 and D7', () => {
    // C2: H. N. Gupta, Fundamentals of Internal Combustion Engines, ex. 2.1, p. 44: 1570 cm³ under 20 x 25 cm.
    const one = displacementCm3(200, 250, 1);
    const alone = { chamberCm3: 1570, gasketCm3: 0, deckCm3: 0, pistonCm3: 0, creviceCm3: 0 };
    expect(Math.abs(compressionRatio(one, alone) - 6.002536)).toBeLessThan(0.0000005);
    // D7: Mathur & Sharma, Internal Combustion Engine, ex. 1.1: ratio 8 at 6.8 x 7.5 cm leaves a seventh of the swept volume.
    expect(Math.abs(clearanceForRatioCm3(displacementCm3(68, 75, 1), 8) - 38.9109)).toBeLessThan(0.00005);
  });

  test('C3, the constant of the trade', () => {
    // C3: "Compression Ratio", jniolon.classicpickup.com: 12.8704 cm³ for each inch squared of bore and inch of height.
    expect(Math.abs(discCm3(IN, IN) - 12.8704)).toBeLessThan(0.00005);
  });
});

const volume = fc.double({ min: 0.5, max: 200, noNaN: true });
const signed = fc.double({ min: -3, max: 20, noNaN: true });
const someVolumes = fc.record({
  chamberCm3: fc.double({ min: 20, max: 200, noNaN: true }),
  gasketCm3: fc.double({ min: 0, max: 20, noNaN: true }),
  deckCm3: signed,
  pistonCm3: signed,
  creviceCm3: fc.double({ min: 0, max: 3, noNaN: true }),
});

describe('in general', () => {
  test('the ratio falls when the dish grows', () => {
    fc.assert(
      fc.property(fc.double({ min: 50, max: 2000, noNaN: true }), someVolumes, volume, (swept, v, more) => {
        const dished = { ...v, pistonCm3: v.pistonCm3 + more };
        expect(compressionRatio(swept, dished)).toBeLessThan(compressionRatio(swept, v));
      }),
    );
  });

  test('the part solved for gives the ratio asked for', () => {
    const parts: ClearancePart[] = ['chamberCm3', 'gasketCm3', 'deckCm3', 'pistonCm3', 'creviceCm3'];
    fc.assert(
      fc.property(
        fc.double({ min: 50, max: 2000, noNaN: true }),
        someVolumes,
        fc.constantFrom(...parts),
        (swept, v, part) => {
          const ratio = compressionRatio(swept, v);
          const solved = partForRatioCm3(
            part,
            swept,
            v,
            ratio - (part === 'creviceCm3' || part === 'gasketCm3' ? 0.01 : 0),
          );
          const again = compressionRatio(swept, { ...v, [part]: solved });
          expect(Math.abs(again - ratio)).toBeLessThan(0.0100001);
          if (part !== 'creviceCm3' && part !== 'gasketCm3') expect(Math.abs(again / ratio - 1)).toBeLessThan(1e-9);
        },
      ),
    );
  });

  test('a crevice is the ring round the land', () => {
    expect(creviceCm3(100, 100, 8)).toBe(0);
    // pi/4 (100² - 99²) x 8 = pi/4 x 199 x 8 mm³.
    expect(Math.abs(creviceCm3(100, 99, 8) - (Math.PI * 398) / 1000)).toBeLessThan(1e-12);
  });

  test('what can’t be is refused by name', () => {
    const none = { chamberCm3: 1, gasketCm3: 0, deckCm3: -2, pistonCm3: 0, creviceCm3: 0 };
    expect(() => compressionRatio(500, none)).toThrow('add up to -1 cm³');
    expect(() => compressionRatio(0, none)).toThrow('swept volume 0 cm³');
    expect(() => clearanceForRatioCm3(500, 1)).toThrow('ratio 1 must be above 1');
    expect(() => partForRatioCm3('chamberCm3', 500, { ...none, deckCm3: 80 }, 10)).toThrow(
      'a ratio of 10 would take a chamber',
    );
    expect(() => discCm3(Number.NaN, 1)).toThrow('diameter NaN mm');
    expect(() => creviceCm3(100, 101, 1)).toThrow('land diameter 101 mm');
  });
});
