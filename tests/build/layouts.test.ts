import { describe, expect, it } from 'vitest';
import {
  DEFAULT_LIMITS,
  firingIntervalsDeg,
  firingTdcDeg,
  LAYOUT_NAMES,
  layoutOf,
  lengthMm,
  parseLength,
  QUENCH_GUIDE,
  quenchGuideIn,
  topDeg,
} from '../../src/build/index.ts';

/** Every order of the numbers 2 to n after a leading 1. */
function* orders(rest: readonly number[], head: readonly number[] = [1]): Generator<readonly number[]> {
  if (rest.length === 0) yield head;
  for (const next of rest)
    yield* orders(
      rest.filter((k) => k !== next),
      [...head, next],
    );
}

function evenOrders(name: (typeof LAYOUT_NAMES)[number]): string[] {
  const layout = layoutOf(name);
  const count = layout.cylinders.length;
  const even: string[] = [];
  for (const order of orders(layout.cylinders.slice(1).map((c) => c.number))) {
    const tdc = firingTdcDeg(layout, order);
    if (tdc !== null && order.every((c, k) => tdc[c - 1] === (720 / count) * k)) even.push(order.join('-'));
  }
  return even;
}

describe('layouts', () => {
  it.each(LAYOUT_NAMES)('%s: every top brings the crankpin onto its bore axis', (name) => {
    const layout = layoutOf(name);
    for (const c of layout.cylinders) {
      // Direction of the pin at that crank angle, against the direction of the bore.
      const pin =
        layout.bankAnglesDeg[0]! + layout.throwPhasesDeg[c.throw - 1]! + c.pinSplitDeg + topDeg(layout, c.number);
      expect((pin - layout.bankAnglesDeg[c.bank - 1]! + 720) % 360).toBe(0);
    }
  });

  it.each(LAYOUT_NAMES)(
    '%s: cylinders and throws are numbered from 1, all pins counted from that of cylinder 1',
    (name) => {
      const layout = layoutOf(name);
      expect(layout.name).toBe(name);
      expect(topDeg(layout, 1)).toBe(0);
      expect(layout.cylinders.map((c) => c.number)).toEqual(layout.cylinders.map((_, k) => k + 1));
      expect(new Set(layout.cylinders.map((c) => c.throw)).size).toBe(layout.throwPhasesDeg.length);
    },
  );

  it.each(LAYOUT_NAMES.filter((name) => name !== 'v6-90-shared-pins'))('%s: the usual order fires evenly', (name) => {
    const layout = layoutOf(name);
    const order = layout.usualFiringOrder!;
    const tdc = firingTdcDeg(layout, order);
    const step = 720 / layout.cylinders.length;
    expect(order.map((c) => tdc?.[c - 1])).toEqual(order.map((_, k) => k * step));
    expect(firingIntervalsDeg(layout, order)).toEqual(order.map(() => step));
  });

  // Common knowledge of the trade: a 90 degree V6 on three shared pins 120 degrees apart fires 150 and 90 degrees apart in turn.
  it('a V6 of 90 degrees on shared pins fires 150 and 90 degrees apart', () => {
    expect(firingIntervalsDeg(layoutOf('v6-90-shared-pins'), [1, 6, 5, 4, 3, 2])).toEqual([150, 90, 150, 90, 150, 90]);
  });

  it('no intervals where the order is none', () => {
    expect(firingIntervalsDeg(layoutOf('inline-4'), [1, 2, 3, 4])).toBeNull();
  });

  // Firing orders of engines in service, common knowledge of the trade.
  it('the even orders are the known ones', () => {
    expect(evenOrders('single')).toEqual(['1']);
    expect(evenOrders('inline-4').sort()).toEqual(['1-2-4-3', '1-3-4-2']);
    expect(evenOrders('inline-3')).toEqual(['1-3-2']);
    expect(evenOrders('inline-5')).toEqual(['1-2-4-5-3']);
    expect(evenOrders('flat-4').sort()).toEqual(['1-3-2-4', '1-4-2-3']);
    expect(evenOrders('v6-90-split-pins')).toContain('1-6-5-4-3-2');
    expect(evenOrders('v6-60-split-pins')).toContain('1-2-3-4-5-6');
    expect(evenOrders('v6-90-shared-pins')).toEqual([]);
    expect(evenOrders('inline-6')).toContain('1-5-3-6-2-4');
    expect(evenOrders('inline-6')).toHaveLength(4);
    const right = evenOrders('v8-cross-plane');
    expect(right).toHaveLength(8);
    expect(right).toEqual(expect.arrayContaining(['1-5-6-3-4-2-7-8', '1-2-7-3-4-5-6-8', '1-2-7-8-4-5-6-3']));
    const left = evenOrders('v8-cross-plane-1-left');
    expect(left).toHaveLength(8);
    expect(left).toEqual(expect.arrayContaining(['1-8-4-3-6-5-7-2', '1-8-7-2-6-5-4-3']));
  });

  it('an order that the throws do not give is refused', () => {
    expect(firingTdcDeg(layoutOf('inline-6'), [1, 2, 3, 4, 5, 6])).toBeNull();
    // 2 at 180, 3 at 540, 4 at 720: a turn too late.
    expect(firingTdcDeg(layoutOf('inline-4'), [1, 2, 3, 4])).toBeNull();
    expect(firingTdcDeg(layoutOf('inline-4'), [1, 4, 2, 3])).toBeNull();
    expect(firingTdcDeg(layoutOf('inline-4'), [1, 3, 4])).toBeNull();
    expect(firingTdcDeg(layoutOf('inline-4'), [1, 3, 3, 2])).toBeNull();
    expect(firingTdcDeg(layoutOf('inline-4'), [3, 4, 2, 1])).toBeNull();
  });
});

// J. Smart, "The Mock-Up", Mustang & Fords, 30 June 2007: counterweight to piston and rod to block .060 in.
// Builder's pages, 25 June 2003: rod to cam lobe .050 in. "Precision Engine", The Shop, July 2020, p. 64: counterweight to
// pan rail and cylinder about .060 in. Online lesson "Piston To Head Clearance": .040 in (1 mm).
it('default limits are the published ones', () => {
  expect(lengthMm(DEFAULT_LIMITS['counterweight-piston'].value)).toBe(1.524);
  expect(lengthMm(DEFAULT_LIMITS['rod-block'].value)).toBe(1.524);
  expect(lengthMm(DEFAULT_LIMITS['counterweight-block'].value)).toBe(1.524);
  expect(lengthMm(DEFAULT_LIMITS['rod-camshaft'].value)).toBe(1.27);
  expect(lengthMm(QUENCH_GUIDE.value)).toBe(1.016);
  expect(QUENCH_GUIDE.value).toBe(`${String(quenchGuideIn).slice(1)}0 in`);
  for (const limit of Object.values(DEFAULT_LIMITS)) {
    expect(parseLength(limit.value).ok).toBe(true);
    expect(limit.source).not.toBe('');
    expect(limit.note).not.toBe('');
  }
});
