/** Blocks on pages: by hand for small cases, and by what must hold for random ones. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Block, paginate } from '../../../src/view/paper/paginate.ts';

const whole = (height: number, before = 0): Block => ({ before, height });
const heading = (height: number): Block => ({ before: 0, height, keepWithNext: true });
const table = (head: number, ...rows: number[]): Block => ({ before: 0, height: head, rows });

/** "0" for a whole block, "1:0-2" for rows of a table. */
const told = (blocks: readonly Block[], page: number): string[] =>
  paginate(blocks, () => page).map((pieces) =>
    pieces.map((p) => (blocks[p.block]!.rows === undefined ? `${p.block}` : `${p.block}:${p.from}-${p.to}`)).join(' '),
  );

describe('blocks on pages', () => {
  it('fill a page to its last unit, the space before the first not counted', () => {
    expect(told([whole(40, 10), whole(50, 10)], 100)).toEqual(['0 1']);
    expect(told([whole(40, 10), whole(51, 10)], 100)).toEqual(['0', '1']);
  });

  it('take a heading over to what follows it', () => {
    expect(told([whole(70), heading(20), whole(20)], 100)).toEqual(['0', '1 2']);
    expect(told([whole(60), heading(20), whole(20)], 100)).toEqual(['0 1 2']);
    expect(told([whole(50), heading(15), heading(15), table(10, 10, 10, 10, 10)], 100)).toEqual(['0', '1 2 3:0-4']);
  });

  it('divide a table between rows, head again on each page', () => {
    // 100 holds a head of 10 and nine rows; the second page again.
    expect(told([table(10, ...Array(20).fill(10))], 100)).toEqual(['0:0-9', '0:9-18', '0:18-20']);
  });

  it('leave no lone row at the end, nor at the beginning', () => {
    expect(told([table(10, ...Array(10).fill(10))], 100)).toEqual(['0:0-8', '0:8-10']);
    expect(told([whole(75), table(10, ...Array(5).fill(10))], 100)).toEqual(['0', '1:0-5']);
    expect(told([whole(70), table(10, ...Array(5).fill(10))], 100)).toEqual(['0 1:0-2', '1:2-5']);
  });

  it('give a block that is too high a page of its own', () => {
    expect(told([whole(10), whole(150), whole(10)], 100)).toEqual(['0', '1', '2']);
    expect(told([table(10, 10, 120, 10)], 100)).toEqual(['0:0-1', '0:1-2', '0:2-3']);
  });

  it('keep a table without rows whole', () => {
    expect(told([whole(95), table(10)], 100)).toEqual(['0', '1:0-0']);
  });

  it('lose nothing, keep the order, and overfill no page, whatever comes', () => {
    const block = fc.record({
      before: fc.integer({ min: 0, max: 10 }),
      height: fc.integer({ min: 1, max: 40 }),
      rows: fc.option(fc.array(fc.integer({ min: 1, max: 20 }), { maxLength: 40 }), { nil: undefined }),
      keepWithNext: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(block, { maxLength: 20 }), fc.integer({ min: 80, max: 200 }), (made, page) => {
        const blocks = made.map((b): Block => {
          const { rows, ...rest } = b;
          return rows === undefined ? rest : { ...rest, rows, keepWithNext: false };
        });
        const pages = paginate(blocks, () => page);
        const pieces = pages.flat();
        const order = pieces.flatMap((p) =>
          blocks[p.block]!.rows === undefined || blocks[p.block]!.rows!.length === 0
            ? [`${p.block}`]
            : Array.from({ length: p.to - p.from }, (_, k) => `${p.block}:${p.from + k}`),
        );
        const all = blocks.flatMap((b, k) =>
          b.rows === undefined || b.rows.length === 0 ? [`${k}`] : b.rows.map((_, r) => `${k}:${r}`),
        );
        expect(order).toEqual(all);
        for (const onPage of pages) {
          const height = onPage.reduce((sum, p, k) => {
            const b = blocks[p.block]!;
            const rows = (b.rows ?? []).slice(p.from, p.to).reduce((x, y) => x + y, 0);
            return sum + (k === 0 ? 0 : b.before) + b.height + rows;
          }, 0);
          expect(height).toBeLessThanOrEqual(page);
        }
        const lastOf = pages.slice(0, -1).map((onPage) => onPage.at(-1));
        for (const [k, last] of lastOf.entries()) {
          const b = last === undefined ? undefined : blocks[last.block]!;
          // A heading ends a page only where the run of headings with what they lead is higher than a page.
          if (b?.keepWithNext === true && b.rows === undefined)
            expect(runHeight(blocks, pages[k]!)).toBeGreaterThan(page);
        }
      }),
      { numRuns: 300 },
    );
  });
});

/** Height of the headings that end this page, with the beginning of what they lead. */
function runHeight(blocks: readonly Block[], onPage: readonly { readonly block: number }[]): number {
  let first = onPage.at(-1)!.block;
  while (first > 0 && blocks[first - 1]!.keepWithNext === true) first -= 1;
  let height = 0;
  for (let k = first; k < blocks.length; k++) {
    const b = blocks[k]!;
    const rows = b.rows === undefined ? [] : b.rows.slice(0, b.rows.length <= 3 ? b.rows.length : 2);
    height += (k === first ? 0 : b.before) + b.height + rows.reduce((x, y) => x + y, 0);
    if (b.keepWithNext !== true) break;
  }
  return height;
}
