/** What is typed into the form of a measurement becomes an entry of the log, and comes back into the form as it was. */
import { describe, expect, it } from 'vitest';
import type { MockUpEntry } from '../../src/build/document.ts';
import { parseAngle, parseLength } from '../../src/build/index.ts';
import type { Comparison } from '../../src/model/mockUp/compare.ts';
import { type Draft, draftOf, entryOf } from '../../src/pane/mockUp/draft.ts';
import { comparisonWords, othersWords, placeWords, signedLength } from '../../src/pane/mockUp/words.ts';

const draft = (more: Partial<Draft> = {}): Draft => ({
  between: ['counterweight 2 rear', 'piston 3'],
  at: null,
  reading: '.055',
  within: '',
  unit: 'in',
  with: 'clay',
  date: '2026-11-25',
  note: '',
  ...more,
});
const entry = (more: Partial<MockUpEntry> = {}): MockUpEntry => ({
  assembly: 'A',
  between: ['counterweight 2 rear', 'piston 3'],
  measured: '.055 in',
  with: 'clay',
  date: '2026-11-25',
  ...more,
});

describe('the entry that a draft makes', () => {
  it.each([
    [{ reading: ' .055 ' }, '.055 in'],
    [{ within: '.002' }, '.055 ±.002 in'],
    [{ within: '± .002' }, '.055 ±.002 in'],
    [{ within: '+/-.002' }, '.055 ±.002 in'],
    [{ reading: '5/64' }, '5/64 in'],
    [{ reading: '1.40', within: '0.05', unit: 'mm' as const }, '1.40 ±0.05 mm'],
    [{ reading: '1.40 mm' }, '1.40 mm'],
    [{ reading: '55', unit: 'thou' as const }, '55 thou'],
  ])('%o reads %s', (typed, measured) => {
    const made = entryOf(draft(typed), 'A').measured;
    expect(made).toBe(measured);
    expect(parseLength(made).ok).toBe(true);
  });

  it.each([
    ['176', '176 deg'],
    ['176 ±1', '176 ±1 deg'],
    ['−4.5', '-4.5 deg'],
    ['176°', '176°'],
  ])('an angle typed as %s reads %s', (afterTdc, said) => {
    const { at } = entryOf(draft({ at: { cylinder: 3, afterTdc } }), 'A');
    expect(at).toEqual({ cylinder: 3, afterTdc: said });
    expect(parseAngle(said).ok).toBe(true);
  });

  it('leaves what can’t be read for the rules to refuse', () => {
    expect(parseLength(entryOf(draft({ reading: '' }), 'A').measured).ok).toBe(false);
    expect(parseLength(entryOf(draft({ reading: 'about 1' }), 'A').measured).ok).toBe(false);
  });
});

it.each([
  entry(),
  entry({ measured: '.055 ±.002 in', note: 'Cold.\nTwice.' }),
  entry({ measured: '1.40 +0.05/-0.02 mm', with: 'telescoping gauge' }),
  entry({ measured: '5/64 in', at: { cylinder: 3, afterTdc: '176 ±1 deg' } }),
  entry({ between: ['piston 3', 'deck'], measured: '-.005 in' }),
])('an entry comes back from the form as it was: $measured', (given) => {
  expect(entryOf(draftOf(given), given.assembly)).toEqual(given);
});

describe('words', () => {
  const compared = (measuredMm: number, gapMm: number, more: Partial<Comparison> = {}): Comparison =>
    ({
      index: 0,
      entry: entry(),
      measuredMm,
      predicted: { gapMm, slicingMm: 0, kind: 'counterweight-piston' },
      differenceMm: measuredMm - gapMm,
      explainedUpMm: 0.12,
      explainedDownMm: 0.12,
      differs: Math.abs(measuredMm - gapMm) > 0.12,
      ...more,
    }) as Comparison;

  it('say by how much, and what the tolerances explain', () => {
    expect(comparisonWords(compared(1.35, 1), 'mm')).toBe(
      'Differs by 0.35 mm, more than the 0.12 mm the tolerances explain.',
    );
    expect(comparisonWords(compared(1.05, 1), 'mm')).toBe('Agrees within the 0.12 mm the tolerances explain.');
    expect(comparisonWords(compared(0, -1, { differenceMm: 0, differs: false }), 'mm')).toBe(
      'Contact was predicted, and found.',
    );
  });

  it('say signs, places, and what becomes of the others', () => {
    expect(signedLength(-0.508, 'both')).toBe('−0.51 mm (−.020 in)');
    expect(signedLength(0.001, 'mm')).toBe('0.00 mm');
    expect(placeWords(entry({ at: { cylinder: 3, afterTdc: '176 deg' } }), true)).toBe('176° after firing TDC 3');
    expect(placeWords(entry({ between: ['piston 3', 'deck'] }), false)).toBe('at TDC');
    const other = (index: number, agreedBefore: boolean, agreesAfter: boolean) => ({
      index,
      agreedBefore,
      agreesAfter,
      differenceMm: 0,
    });
    expect(othersWords([other(1, false, true), other(2, true, false), other(4, false, false)])).toBe(
      'explains no. 2 too; no. 3 would no longer agree; leaves no. 5.',
    );
    expect(othersWords([other(1, true, true)])).toBe('The other measurements still agree.');
  });
});
