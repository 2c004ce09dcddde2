/** Places of single figures in words, and which figures share a row. */
import { describe, expect, it } from 'vitest';
import { alike, placesText } from '../../src/model/scalarPlaces.ts';
import type { Scalar } from '../../src/model/scalars.ts';

const figure = (more: Partial<Scalar>): Scalar => ({
  name: 'quench',
  valueMm: 1,
  guideMm: null,
  guideSource: '',
  note: '',
  assumed: [],
  ...more,
});

describe('single figures', () => {
  it('that are equal share a row, whose places are all told', () => {
    const rows = alike([
      figure({ cylinder: 1 }),
      figure({ cylinder: 2, valueMm: 1 + 1e-9 }),
      figure({ cylinder: 3, valueMm: 1.001 }),
      figure({ cylinder: 4, assumed: ['gasket'] }),
      figure({ name: 'journal overlap' }),
    ]);
    expect(rows.map((r) => r.places)).toEqual([['cylinder 1', 'cylinder 2'], ['cylinder 3'], ['cylinder 4'], []]);
  });

  it('say a run of numbers by its ends, others one by one, sides apart', () => {
    const cylinders = (...numbers: number[]): string[] => numbers.map((n) => `cylinder ${n}`);
    expect(placesText(cylinders(1, 2, 3, 4))).toBe('cylinders 1 to 4');
    expect(placesText(cylinders(1, 2))).toBe('cylinders 1, 2');
    expect(placesText(cylinders(1, 3, 4))).toBe('cylinders 1, 3, 4');
    expect(placesText(['throw 2'])).toBe('throw 2');
    expect(placesText(['throw 1 front', 'throw 1 rear', 'throw 2 front'])).toBe('throws 1, 2 front; throw 1 rear');
    expect(placesText([])).toBe('');
  });
});
