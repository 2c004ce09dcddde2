/** How chances and changes are said on the page of tolerances. */
import { describe, expect, it } from 'vitest';
import { wilsonInterval } from '../../src/core/chance/proportion.ts';
import type { Outcome } from '../../src/model/tolerances/outcome.ts';
import type { Sensitivity } from '../../src/model/tolerances/sensitivity.ts';
import { chanceWords, changeOf, changeWords, outOf, spreadWords, tail } from '../../src/pane/tolerances/words.ts';

function outcome(below: number, built: number): Outcome {
  return {
    drawn: built,
    refused: 0,
    outOfReach: 0,
    open: 0,
    built,
    below,
    chance: built === 0 ? null : { seen: below / built, interval: wilsonInterval(below, built) },
    spread: null,
    byGap: [],
  };
}

describe('a chance in words', () => {
  it('out of 100 where that gives a figure, else out of more', () => {
    // Score interval of 81 in 263, Newcombe (1998): .2553 to .3662.
    expect(chanceWords(outcome(81, 263))).toBe(
      'About 31 in 100 builds would be below the limit, 25.5 to 36.6 with 95 % confidence.',
    );
    // Of 1 in 29: .0061 to .1718.
    expect(chanceWords(outcome(1, 29))).toBe(
      'About 3.4 in 100 builds would be below the limit, 0.6 to 17.2 with 95 % confidence.',
    );
    expect(chanceWords(outcome(4, 2000))).toMatch(/^About 2 in 1000 builds would be below the limit, 0\.8 to 5\.1 /);
    expect(outOf(0.00004)).toEqual({ count: 4, of: 100_000 });
  });

  it('none and all by the far end of the interval', () => {
    // Of 0 in 20: up to .1611; of 29 in 29: from .8830.
    expect(chanceWords(outcome(0, 20))).toBe(
      'None of 20 builds is below the limit: with 95 % confidence fewer than 17 in 100 would be.',
    );
    expect(chanceWords(outcome(29, 29))).toBe(
      'All of 29 builds are below the limit: with 95 % confidence more than 88 in 100 would be.',
    );
    expect(chanceWords(outcome(0, 0))).toMatch(/nothing can be said/);
  });
});

describe('a change in words', () => {
  const s = (upMm: number | null, downMm: number | null, kind: 'length' | 'angle' = 'length'): Sensitivity => ({
    variable: { path: [], body: 'rod 1', label: 'length', kind, from: 'stated', text: '', value: 1, band: null },
    upMm,
    downMm,
    atPlusMm: null,
    atMinusMm: null,
  });

  it('per 0.1 mm, per .001 in, per 0.1 degree, with the sign of what it does to the gap', () => {
    expect(changeWords(-0.05, 'length', 'mm')).toBe('−0.050 mm');
    expect(changeWords(0.0984, 'length', 'both')).toBe('+0.098 mm');
    expect(changeWords(-0.05, 'length', 'in')).toBe('−.00050 in');
    expect(changeWords(0.0254, 'angle', 'in')).toBe('+.00100 in');
    expect(changeWords(0, 'length', 'mm')).toBe('0.000 mm');
  });

  it('both ways where they differ', () => {
    expect(changeOf(s(-0.1, 0.1), 'mm').lines).toEqual(['−0.100 mm']);
    expect(changeOf(s(-0.1, 0), 'mm').lines).toEqual(['larger −0.100 mm', 'smaller 0.000 mm']);
    expect(changeOf(s(null, -0.02), 'mm').lines).toEqual(['larger can’t be built', 'smaller −0.020 mm']);
  });
});

describe('what ± means', () => {
  it('says how many parts lie outside of a normal band', () => {
    // 2 (1 - Phi(z)) of any table: .31731, .04550, .0026998, 6.334e-5, 1.973e-9.
    for (const [z, share] of [
      [1, 0.317311],
      [2, 0.0455003],
      [3, 0.0026998],
      [4, 6.33425e-5],
      [6, 1.97318e-9],
    ] as const)
      expect(Math.abs(tail(z) / share - 1)).toBeLessThan(1e-5);
    expect(spreadWords({ as: 'normal', sigmas: 2 })).toContain('about 4.6 in 100 of the parts lie outside');
    expect(spreadWords({ as: 'normal', sigmas: 3 })).toContain('about 2.7 in 1000 of the parts lie outside');
    expect(spreadWords({ as: 'uniform' })).toContain('none outside');
  });
});
