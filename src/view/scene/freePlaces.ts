/**
 * Where the section has room for boxes of words: the screen in cells, those that any part ever sweeps being taken.
 * Boxes get the free place nearest to what they speak of, and keep it while the crank turns.
 */
import type { Box } from './camera.ts';

const CELL_PX = 12;
const LATTICE_PX = 12;
const EDGE_PX = 8;
const APART_PX = 8;
/** What one taken cell under a box costs, in px of distance. */
const TAKEN_COST_PX = 200;
/** What a px of the line to the box costs more where it runs over parts. */
const LINE_OVER_PARTS = 1.5;
const LINE_SAMPLES = 16;

/** Gives a box its place (upper left corner) near (x, y); `key` says whose box it is. */
export type GivePlace = (key: string, width: number, height: number, x: number, y: number) => { x: number; y: number };

export class FreePlaces {
  readonly #columns: number;
  readonly #rows: number;
  readonly #taken: Uint8Array;
  readonly #screen: Box;
  #sums: Uint32Array | null = null;
  readonly #boxes: Box[] = [];

  constructor(widthPx: number, heightPx: number) {
    this.#columns = Math.max(1, Math.ceil(widthPx / CELL_PX));
    this.#rows = Math.max(1, Math.ceil(heightPx / CELL_PX));
    this.#taken = new Uint8Array(this.#columns * this.#rows);
    this.#screen = { x0: EDGE_PX, y0: EDGE_PX, x1: widthPx - EDGE_PX, y1: heightPx - EDGE_PX };
  }

  /** Marks the cell at a place on the screen. */
  take(x: number, y: number): void {
    const column = Math.floor(x / CELL_PX);
    const row = Math.floor(y / CELL_PX);
    if (column < 0 || row < 0 || column >= this.#columns || row >= this.#rows) return;
    this.#taken[row * this.#columns + column] = 1;
    this.#sums = null;
  }

  takeLine(x0: number, y0: number, x1: number, y1: number): void {
    const steps = Math.max(1, Math.ceil(Math.hypot(x1 - x0, y1 - y0) / (CELL_PX * 0.7)));
    for (let k = 0; k <= steps; k++) this.take(x0 + ((x1 - x0) * k) / steps, y0 + ((y1 - y0) * k) / steps);
  }

  takeDisc(x: number, y: number, radius: number): void {
    for (let dy = -radius; dy <= radius; dy += CELL_PX) {
      const half = Math.sqrt(Math.max(radius * radius - dy * dy, 0));
      this.takeLine(x - half, y + dy, x + half, y + dy);
    }
  }

  /** Keeps a box from being given away. */
  reserve(box: Box): void {
    this.#boxes.push(box);
  }

  /** The place (upper left corner) for a box nearest to (x, y), and reserves it. Always gives one on the screen. */
  give(width: number, height: number, x: number, y: number): { x: number; y: number } {
    const { x0, y0, x1, y1 } = this.#screen;
    let best = { x: x0, y: y0 };
    let least = Infinity;
    for (let top = y0; top + height <= y1 || top === y0; top += LATTICE_PX) {
      for (let left = x0; left + width <= x1 || left === x0; left += LATTICE_PX) {
        const box = { x0: left, y0: top, x1: left + width, y1: top + height };
        const [middleX, middleY] = [left + width / 2, top + height / 2];
        const line =
          Math.hypot(middleX - x, middleY - y) * (1 + LINE_OVER_PARTS * this.partTaken(x, y, middleX, middleY));
        let cost = line + TAKEN_COST_PX * this.#takenUnder(box);
        for (const other of this.#boxes) if (overlaps(box, other)) cost += 1e5;
        if (cost < least) {
          least = cost;
          best = { x: left, y: top };
        }
      }
    }
    this.reserve({ x0: best.x, y0: best.y, x1: best.x + width, y1: best.y + height });
    return best;
  }

  /** How much of a straight line lies over taken cells, 0 to 1. */
  partTaken(x0: number, y0: number, x1: number, y1: number): number {
    let taken = 0;
    for (let k = 0; k < LINE_SAMPLES; k++) {
      const part = (k + 0.5) / LINE_SAMPLES;
      const column = Math.floor((x0 + (x1 - x0) * part) / CELL_PX);
      const row = Math.floor((y0 + (y1 - y0) * part) / CELL_PX);
      if (column < 0 || row < 0 || column >= this.#columns || row >= this.#rows) continue;
      taken += this.#taken[row * this.#columns + column]!;
    }
    return taken / LINE_SAMPLES;
  }

  #takenUnder(box: Box): number {
    const sums = this.#sums ?? this.#addUp();
    const clamp = (v: number, most: number) => Math.min(Math.max(v, 0), most);
    const c0 = clamp(Math.floor(box.x0 / CELL_PX), this.#columns);
    const r0 = clamp(Math.floor(box.y0 / CELL_PX), this.#rows);
    const c1 = clamp(Math.ceil(box.x1 / CELL_PX), this.#columns);
    const r1 = clamp(Math.ceil(box.y1 / CELL_PX), this.#rows);
    const wide = this.#columns + 1;
    return sums[r1 * wide + c1]! - sums[r0 * wide + c1]! - sums[r1 * wide + c0]! + sums[r0 * wide + c0]!;
  }

  /** Sums over all cells above and left of each corner, so that a box costs four look-ups. */
  #addUp(): Uint32Array {
    const wide = this.#columns + 1;
    const sums = new Uint32Array(wide * (this.#rows + 1));
    for (let r = 0; r < this.#rows; r++) {
      for (let c = 0; c < this.#columns; c++) {
        const here = this.#taken[r * this.#columns + c]!;
        sums[(r + 1) * wide + c + 1] = here + sums[r * wide + c + 1]! + sums[(r + 1) * wide + c]! - sums[r * wide + c]!;
      }
    }
    this.#sums = sums;
    return sums;
  }
}

function overlaps(a: Box, b: Box): boolean {
  return a.x0 < b.x1 + APART_PX && b.x0 < a.x1 + APART_PX && a.y0 < b.y1 + APART_PX && b.y0 < a.y1 + APART_PX;
}
