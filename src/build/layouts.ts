/**
 * Engine layouts as a table: which cylinder stands on which bank and throw, bank angles, throw phases and split pins. A further
 * layout is a further row; one that stands in no row is given in the build file (freeLayout.ts). When the cylinders fire follows in
 * firing.ts.
 *
 * Angles in degrees, counted from up and growing in the direction of crank rotation. Throw phases are the directions of the throws
 * while cylinder 1 stands at the top of its stroke (offsets left aside), from the bore of cylinder 1. A split pin stands ahead of its
 * throw by the cylinder's own split.
 *
 * Along the shaft the bores of a bank stand one bore spacing apart, and bank 2 stands behind bank 1 by the block's bank offset. The
 * middle of a throw lies halfway between the bores it serves. Axial place 0 is the bore centre of cylinder 1.
 */
import type { Block, NamedLayout } from './document.ts';
import { layoutOfFree } from './freeLayout.ts';

export interface LayoutCylinder {
  readonly number: number;
  /** 1 or 2. */
  readonly bank: number;
  /** From 1 at the front. */
  readonly throw: number;
  /** How far its own pin stands ahead of the throw's phase; 0 on a shared pin. */
  readonly pinSplitDeg: number;
}

export interface Layout {
  readonly name: string;
  /** By number, from 1. */
  readonly cylinders: readonly LayoutCylinder[];
  /** One a bank, bank 1 first. */
  readonly bankAnglesDeg: readonly number[];
  /** One a throw, front to rear; the pin of cylinder 1 stands at 0. */
  readonly throwPhasesDeg: readonly number[];
  /** The firing order it usually runs in; of a free layout none is known. */
  readonly usualFiringOrder: readonly number[] | null;
  /** Angles of a free layout that are assumed, by their names. */
  readonly assumed: readonly string[];
}

function inline(name: NamedLayout, throwPhasesDeg: readonly number[], usualFiringOrder: readonly number[]): Layout {
  const cylinders = throwPhasesDeg.map((_, k) => ({ number: k + 1, bank: 1, throw: k + 1, pinSplitDeg: 0 }));
  return { name, cylinders, bankAnglesDeg: [0], throwPhasesDeg, usualFiringOrder, assumed: [] };
}

/** Odd cylinders on bank 1, even ones on bank 2, two a throw; `splitDeg` is how far the pin of the even one stands ahead of the odd one's. */
function vee(
  name: NamedLayout,
  bankAnglesDeg: readonly [number, number],
  oddPinPhasesDeg: readonly number[],
  usualFiringOrder: readonly number[],
  splitDeg = 0,
): Layout {
  const half = splitDeg / 2;
  const cylinders = oddPinPhasesDeg.flatMap((_, k) => [
    { number: 2 * k + 1, bank: 1, throw: k + 1, pinSplitDeg: 0 - half },
    { number: 2 * k + 2, bank: 2, throw: k + 1, pinSplitDeg: half },
  ]);
  const throwPhasesDeg = oddPinPhasesDeg.map((pin) => pin + half);
  return { name, cylinders, bankAnglesDeg, throwPhasesDeg, usualFiringOrder, assumed: [] };
}

/** Odd cylinders on bank 1, even ones on bank 2, each with a throw of its own. */
function flat(name: NamedLayout, throwPhasesDeg: readonly number[], usualFiringOrder: readonly number[]): Layout {
  const cylinders = throwPhasesDeg.map((_, k) => ({
    number: k + 1,
    bank: (k % 2) + 1,
    throw: k + 1,
    pinSplitDeg: 0,
  }));
  return { name, cylinders, bankAnglesDeg: [-90, 90], throwPhasesDeg, usualFiringOrder, assumed: [] };
}

/**
 * A clockwise engine seen from the front has its trade-left bank (seen from the flywheel) at a positive angle.
 *
 * Cross-plane V8: with cylinder 1 on the right bank (-45) tops fall at 0: 1, 4; 90: 2, 5; 180: 6, 7; 270: 3, 8. Even firing orders
 * are those that take one of each pair in that order, twice: 1-5-6-3-4-2-7-8, 1-2-7-3-4-5-6-8, 1-2-7-8-4-5-6-3 and five more.
 * With cylinder 1 on the left bank (+45) tops fall at 0: 1, 6; 90: 5, 8; 180: 4, 7; 270: 2, 3: 1-8-4-3-6-5-7-2,
 * 1-8-7-2-6-5-4-3 and six more.
 *
 * V6: the usual order 1-6-5-4-3-2 with cylinder 1 on the left bank of 90 degrees takes the tops at 150 and 90 degrees in turn on shared
 * pins, evenly at 120 with the pins of each throw split by 30; a bank angle of 60 needs a split of 60.
 *
 * Flat four: the pins of opposed cylinders stand 180 degrees apart, as their banks do, so that both are at the top at once.
 */
const LAYOUTS: Readonly<Record<NamedLayout, Layout>> = {
  single: inline('single', [0], [1]),
  'inline-3': inline('inline-3', [0, 240, 120], [1, 3, 2]),
  'inline-4': inline('inline-4', [0, 180, 180, 0], [1, 3, 4, 2]),
  'inline-5': inline('inline-5', [0, 216, 144, 72, 288], [1, 2, 4, 5, 3]),
  'inline-6': inline('inline-6', [0, 240, 120, 120, 240, 0], [1, 5, 3, 6, 2, 4]),
  'v6-90-shared-pins': vee('v6-90-shared-pins', [45, -45], [0, 240, 120], [1, 6, 5, 4, 3, 2]),
  'v6-90-split-pins': vee('v6-90-split-pins', [45, -45], [0, 240, 120], [1, 6, 5, 4, 3, 2], 30),
  'v6-60-split-pins': vee('v6-60-split-pins', [-30, 30], [0, 120, 240], [1, 2, 3, 4, 5, 6], -60),
  'v8-cross-plane': vee('v8-cross-plane', [-45, 45], [0, 90, 270, 180], [1, 5, 6, 3, 4, 2, 7, 8]),
  'v8-cross-plane-1-left': vee('v8-cross-plane-1-left', [45, -45], [0, 90, 270, 180], [1, 8, 4, 3, 6, 5, 7, 2]),
  'v8-flat-plane': vee('v8-flat-plane', [-45, 45], [0, 180, 180, 0], [1, 8, 3, 6, 7, 2, 5, 4]),
  'flat-4': flat('flat-4', [0, 180, 180, 0], [1, 3, 2, 4]),
};

/** All but the free one. */
export const LAYOUT_NAMES = Object.keys(LAYOUTS) as readonly NamedLayout[];

export function layoutOf(name: NamedLayout): Layout {
  return LAYOUTS[name];
}

/** The layout of a block, named or free. A free one must have passed the rules of rulesLayout.ts. */
export function layoutOfBlock(block: Pick<Block, 'layout' | 'freeLayout'>): Layout {
  if (block.layout !== 'free') return LAYOUTS[block.layout];
  if (block.freeLayout === undefined) {
    throw new RangeError('layoutOfBlock: layout free without freeLayout; the build rules refuse that');
  }
  return layoutOfFree(block.freeLayout);
}

/** Angle of the bank on which cylinder 1 stands: throw phases are counted from it. */
export function referenceBankDeg(layout: Layout): number {
  return layout.bankAnglesDeg[layout.cylinders[0]!.bank - 1]!;
}

/** Direction of a cylinder's own pin while cylinder 1 stands at the top, from the bore of cylinder 1. */
export function pinPhaseDeg(layout: Layout, cylinder: LayoutCylinder): number {
  return layout.throwPhasesDeg[cylinder.throw - 1]! + cylinder.pinSplitDeg;
}

/** Angle of a cylinder's pin from its own bore while cylinder 1 stands at the top, offsets left aside. */
export function pinFromBoreDeg(layout: Layout, cylinder: LayoutCylinder): number {
  return pinPhaseDeg(layout, cylinder) - (layout.bankAnglesDeg[cylinder.bank - 1]! - referenceBankDeg(layout));
}

/**
 * Axial place of a cylinder's bore centre, as so many bore spacings and so many bank offsets behind that of cylinder 1. The bores of a
 * bank stand in the order of their throws.
 */
export function borePlace(
  layout: Layout,
  cylinder: LayoutCylinder,
): { readonly spacings: number; readonly bankOffsets: number } {
  const first = layout.cylinders[0]!;
  const inBank = (c: LayoutCylinder): number =>
    layout.cylinders.filter((other) => other.bank === c.bank && other.throw < c.throw).length;
  return { spacings: inBank(cylinder) - inBank(first), bankOffsets: cylinder.bank - first.bank };
}
