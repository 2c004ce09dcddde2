/** When the cylinders of a layout fire: the crank angles of their tops, which firing orders its throws allow, and the intervals. */
import { type Layout, pinFromBoreDeg } from './layouts.ts';

/** Tops less than this apart count as one place of the turn: no engine fires two cylinders so close, and no throw is off its index by so much. */
const SAME_TOP_DEG = 1;

function wrapDeg(angle: number): number {
  return ((angle % 360) + 360) % 360;
}

/** Crank angle, 0 up to 360, at which a cylinder is at the top of its stroke, offsets left aside. */
export function topDeg(layout: Layout, cylinder: number): number {
  return wrapDeg(-pinFromBoreDeg(layout, layout.cylinders[cylinder - 1]!));
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
    const on = wrapDeg(topDeg(layout, cylinder) - last);
    last += on < SAME_TOP_DEG ? on + 360 : on;
    tdc[cylinder - 1] = last;
  }
  return last <= 720 - SAME_TOP_DEG ? tdc : null;
}

/**
 * Crank degrees from each firing to the next, in firing order; the last one closes the round. Even firing when they are all alike.
 * Null where firingTdcDeg is.
 */
export function firingIntervalsDeg(layout: Layout, firingOrder: readonly number[]): readonly number[] | null {
  const tdc = firingTdcDeg(layout, firingOrder);
  if (tdc === null) return null;
  const times = firingOrder.map((cylinder) => tdc[cylinder - 1]!);
  return times.map((time, k) => (times[k + 1] ?? 720) - time);
}

/** Every cylinder once, beginning with 1. */
export function isFiringOrder(layout: Layout, firingOrder: readonly number[]): boolean {
  return (
    firingOrder.length === layout.cylinders.length &&
    firingOrder[0] === 1 &&
    layout.cylinders.every((c) => firingOrder.includes(c.number))
  );
}

/** Firing is called even when no interval is off by more than this, the most that a throw may be off its index. */
const EVEN_DEG = SAME_TOP_DEG;

/** Whether the intervals are all alike. */
export function firesEvenly(intervalsDeg: readonly number[]): boolean {
  return intervalsDeg.every((interval) => Math.abs(interval - 720 / intervalsDeg.length) < EVEN_DEG);
}

/** Whether the tops fall so that some order fires evenly. */
export function canFireEvenly(layout: Layout): boolean {
  const count = layout.cylinders.length;
  const places = layout.cylinders.map((_, k) => ((720 / count) * k) % 360);
  for (const c of layout.cylinders) {
    const top = topDeg(layout, c.number);
    const free = places.findIndex((place) => Math.abs(wrapDeg(top - place + 180) - 180) < EVEN_DEG);
    if (free < 0) return false;
    places.splice(free, 1);
  }
  return true;
}
