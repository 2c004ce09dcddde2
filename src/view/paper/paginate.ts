/**
 * How blocks of known heights come to lie on pages: nothing is cut, no row is divided, a heading stays with what follows it,
 * and a table that goes on over the page has its head again. Heights in any one unit.
 */

export interface Block {
  /** Above the block; none at the top of a page. */
  readonly before: number;
  /** Of a block that can't be divided; of a table its head (and caption), repeated on each page that it reaches. */
  readonly height: number;
  /** Heights of the rows of a table; absent for a block that can't be divided. */
  readonly rows?: readonly number[];
  /** Has to stand on one page with what follows, as a heading has. */
  readonly keepWithNext?: boolean;
}

/** A block, or some rows of it, on a page. */
export interface Piece {
  readonly block: number;
  /** Of a table: rows from `from` up to, but not with, `to`. */
  readonly from: number;
  readonly to: number;
}

/** A table is begun, and is ended, with at least so many rows on a page, where it has as many. */
const LEAST_ROWS = 2;

/** `room` is the height of page k. A block higher than a page stands on one by itself. */
export function paginate(blocks: readonly Block[], room: (page: number) => number): Piece[][] {
  const pages: Piece[][] = [[]];
  let left = room(0);
  const turn = (): void => {
    pages.push([]);
    left = room(pages.length - 1);
  };
  const isTop = (): boolean => pages.at(-1)!.length === 0;
  const place = (block: number, from: number, to: number, height: number): void => {
    const space = isTop() ? 0 : blocks[block]!.before;
    pages.at(-1)!.push({ block, from, to });
    left -= space + height;
  };
  for (const [k, block] of blocks.entries()) {
    const opens = k === 0 || blocks[k - 1]!.keepWithNext !== true;
    // What stands together stays together, but for a run that no page could hold.
    const needed = opens ? beginning(blocks, k) : block.height;
    if (!isTop() && block.before + needed > left) turn();
    if (block.rows === undefined) {
      place(k, 0, 0, block.height);
      continue;
    }
    let from = 0;
    while (from < block.rows.length || block.rows.length === 0) {
      const space = isTop() ? 0 : block.before;
      let height = block.height;
      let to = from;
      while (to < block.rows.length && space + height + block.rows[to]! <= left) height += block.rows[to++]!;
      const rest = block.rows.length - to;
      // Not a lone row on the next page; one is left behind rather.
      if (rest > 0 && rest < LEAST_ROWS && to - from > LEAST_ROWS) height -= block.rows[--to]!;
      if (to === from && block.rows.length > 0) {
        if (!isTop()) {
          turn();
          continue;
        }
        height += block.rows[to++]!;
      }
      place(k, from, to, height);
      from = to;
      if (block.rows.length === 0) break;
      if (from < block.rows.length) turn();
    }
  }
  return pages;
}

/** Height that a block needs on the page on which it begins, with those that it has to stand with. */
function beginning(blocks: readonly Block[], from: number): number {
  let height = 0;
  for (let k = from; k < blocks.length; k++) {
    const block = blocks[k]!;
    if (k > from) height += block.before;
    height += block.height;
    if (block.rows !== undefined) {
      const least = block.rows.length <= LEAST_ROWS + 1 ? block.rows.length : LEAST_ROWS;
      for (const row of block.rows.slice(0, least)) height += row;
    }
    if (block.keepWithNext !== true) break;
  }
  return height;
}
