/** The tabs of the right-hand side: rows as even as can be, and where keys go in them. */
import { describe, expect, it } from 'vitest';
import { tabAfter, tabsInARow } from '../../src/app/side.ts';

describe('tabs in even rows', () => {
  it('at most four in a row, rows of one length or one less', () => {
    for (let count = 1; count <= 16; count++) {
      const row = tabsInARow(count);
      expect(row).toBeLessThanOrEqual(4);
      const rows = Math.ceil(count / row);
      expect(rows).toBe(Math.ceil(count / 4));
      // The last row lacks fewer tabs than there are rows: one can't do better with rows that fill from the left.
      expect(rows * row - count).toBeLessThan(rows);
    }
  });

  it('eight stand in two rows of four, five in three and two', () => {
    expect([8, 7, 6, 5, 3].map(tabsInARow)).toEqual([4, 4, 3, 3, 3]);
  });
});

describe('keys on the tabs', () => {
  it('left and right go round, up and down stay in the column, and end at the edge', () => {
    expect(tabAfter('ArrowRight', 7, 8)).toBe(0);
    expect(tabAfter('ArrowLeft', 0, 8)).toBe(7);
    expect(tabAfter('ArrowDown', 1, 8)).toBe(5);
    expect(tabAfter('ArrowUp', 5, 8)).toBe(1);
    expect(tabAfter('ArrowUp', 1, 8)).toBeNull();
    expect(tabAfter('ArrowDown', 5, 8)).toBeNull();
    expect(tabAfter('Home', 5, 8)).toBe(0);
    expect(tabAfter('End', 0, 8)).toBe(7);
    expect(tabAfter('a', 3, 8)).toBeNull();
  });

  it('down from a column that the last row lacks goes nowhere', () => {
    expect(tabAfter('ArrowDown', 2, 5)).toBeNull();
    expect(tabAfter('ArrowDown', 1, 5)).toBe(4);
  });
});
