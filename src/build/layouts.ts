/**
 * Engine layouts as a table: which cylinder stands on which bank and throw, bank angles, throw phases; and the crank
 * angles at which the cylinders fire. A further layout is a further row.
 *
 * Angles in degrees, counted from up and growing in the direction of crank rotation. Throw phases are the directions of
 * the crankpins while cylinder 1 stands at the top of its stroke (offsets left aside), from that of throw 1.
 * Cylinder i then is at the top at crank angle b_i - b_1 - p_i, to a multiple of 360.
 *
 * Along the shaft, throws stand one bore spacing apart. In a V engine bank 2 stands behind bank 1 by the block's bank offset,
 * and the middle of a throw halfway between its two bores; else the throw is centred on its bore.
 */
import type { LayoutName } from './document.ts';

export interface LayoutCylinder {
  readonly number: number;
  /** 1 or 2. */
  readonly bank: number;
  /** From 1 at the front. */
  readonly throw: number;
}

export interface Layout {
  readonly name: LayoutName;
  /** By number, from 1. */
  readonly cylinders: readonly LayoutCylinder[];
  /** One a bank, bank 1 first. */
  readonly bankAnglesDeg: readonly number[];
  /** One a throw, front to rear; the first is 0. */
  readonly throwPhasesDeg: readonly number[];
  /** A firing order with which it runs evenly. */
  readonly usualFiringOrder: readonly number[];
}

function inline(name: LayoutName, throwPhasesDeg: readonly number[], usualFiringOrder: readonly number[]): Layout {
  const cylinders = throwPhasesDeg.map((_, k) => ({ number: k + 1, bank: 1, throw: k + 1 }));
  return { name, cylinders, bankAnglesDeg: [0], throwPhasesDeg, usualFiringOrder };
}

/** Odd cylinders on bank 1, even ones on bank 2, two a throw. */
function vee(
  name: LayoutName,
  bankAnglesDeg: readonly [number, number],
  throwPhasesDeg: readonly number[],
  usualFiringOrder: readonly number[],
): Layout {
  const cylinders = throwPhasesDeg.flatMap((_, k) => [
    { number: 2 * k + 1, bank: 1, throw: k + 1 },
    { number: 2 * k + 2, bank: 2, throw: k + 1 },
  ]);
  return { name, cylinders, bankAnglesDeg, throwPhasesDeg, usualFiringOrder };
}

/**
 * Cross-plane V8: bank 2 is 90 degrees after bank 1 or before it, according to the side on which cylinder 1 stands. A clockwise
 * engine seen from the front has its trade-left bank (seen from the flywheel) at +45.
 *
 * With cylinder 1 on the right bank (-45) tops fall at 0: 1, 4; 90: 2, 5; 180: 6, 7; 270: 3, 8. Even firing orders are
 * those that take one of each pair in that order, twice: 1-5-6-3-4-2-7-8, 1-2-7-3-4-5-6-8, 1-2-7-8-4-5-6-3 and five more.
 * With cylinder 1 on the left bank (+45) tops fall at 0: 1, 6; 90: 5, 8; 180: 4, 7; 270: 2, 3: 1-8-4-3-6-5-7-2,
 * 1-8-7-2-6-5-4-3 and six more.
 */
const LAYOUTS: Readonly<Record<LayoutName, Layout>> = {
  single: inline('single', [0], [1]),
  'inline-4': inline('inline-4', [0, 180, 180, 0], [1, 3, 4, 2]),
  'inline-6': inline('inline-6', [0, 240, 120, 120, 240, 0], [1, 5, 3, 6, 2, 4]),
  'v8-cross-plane': vee('v8-cross-plane', [-45, 45], [0, 90, 270, 180], [1, 5, 6, 3, 4, 2, 7, 8]),
  'v8-cross-plane-1-left': vee('v8-cross-plane-1-left', [45, -45], [0, 90, 270, 180], [1, 8, 4, 3, 6, 5, 7, 2]),
};

export const LAYOUT_NAMES = Object.keys(LAYOUTS) as readonly LayoutName[];

export function layoutOf(name: LayoutName): Layout {
  return LAYOUTS[name];
}

/** Crank angle, 0 up to 360, at which a cylinder is at the top of its stroke, offsets left aside. */
export function topDeg(layout: Layout, cylinder: number): number {
  const c = layout.cylinders[cylinder - 1]!;
  const angle = layout.bankAnglesDeg[c.bank - 1]! - layout.bankAnglesDeg[0]! - layout.throwPhasesDeg[c.throw - 1]!;
  return ((angle % 360) + 360) % 360;
}

/**
 * Crank angle, 0 up to 720, of the top of each cylinder's stroke at which it fires; element k belongs to cylinder k + 1.
 * Cylinder 1 fires at 0, each next one in the firing order at the first top of its stroke after the one before. Null when the order
 * is not a permutation of the cylinders beginning with 1, or does not come round within 720 degrees: such an order and the throws do not
 * belong together.
 */
export function firingTdcDeg(layout: Layout, firingOrder: readonly number[]): readonly number[] | null {
  if (!isFiringOrder(layout, firingOrder)) return null;
  const tdc: number[] = new Array(layout.cylinders.length).fill(0);
  let last = 0;
  for (const cylinder of firingOrder.slice(1)) {
    const top = topDeg(layout, cylinder);
    last = top > last % 360 ? last - (last % 360) + top : last - (last % 360) + 360 + top;
    tdc[cylinder - 1] = last;
  }
  return last < 720 ? tdc : null;
}

/** Every cylinder once, beginning with 1. */
export function isFiringOrder(layout: Layout, firingOrder: readonly number[]): boolean {
  return (
    firingOrder.length === layout.cylinders.length &&
    firingOrder[0] === 1 &&
    layout.cylinders.every((c) => firingOrder.includes(c.number))
  );
}
