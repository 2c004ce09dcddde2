/** Layouts given throw by throw against the named ones, and what counts as even firing. */
import { describe, expect, it } from 'vitest';
import { canFireEvenly, firesEvenly, isFiringOrder } from '../../src/build/firing.ts';
import { layoutOfFree } from '../../src/build/freeLayout.ts';
import { borePlace, layoutOf, layoutOfBlock, readContent, topDeg } from '../../src/build/index.ts';
import { pinFromBoreDeg, pinPhaseDeg } from '../../src/build/layouts.ts';
import { changed } from '../support/changed.ts';
import { exampleV8, freeLayout } from '../support/exampleBuild.ts';

/** Odd cylinders on bank 1, even ones on bank 2, two a throw. */
const IN_PAIRS = [
  [1, 1],
  [2, 1],
  [1, 2],
  [2, 2],
  [1, 3],
  [2, 3],
  [1, 4],
  [2, 4],
] as const;

describe('a cross-plane V8 throw by throw', () => {
  // Phases counted from any line: 30 degrees off here.
  const free = freeLayout([-45, 45], [30, 120, 300, 210], IN_PAIRS);
  const layout = layoutOfFree(free);
  const named = layoutOf('v8-cross-plane');

  it('is the named one', () => {
    expect(layout.throwPhasesDeg).toEqual([0, 90, 270, 180]);
    expect(layout.bankAnglesDeg).toEqual([-45, 45]);
    expect(layout.cylinders).toEqual(
      IN_PAIRS.map(([bank, on], k) => ({ number: k + 1, bank, throw: on, pinSplitDeg: 0 })),
    );
    for (const c of layout.cylinders) {
      expect(topDeg(layout, c.number)).toBe(topDeg(named, c.number));
      expect(borePlace(layout, c)).toEqual(borePlace(named, c));
    }
    expect([layout.name, layout.usualFiringOrder, layout.assumed]).toEqual(['free', null, []]);
  });

  it('is made once, and in any order of its list', () => {
    expect(layoutOfFree(free)).toBe(layout);
    expect(layoutOfFree({ ...free, cylinders: [...free.cylinders].reverse() })).toEqual(layout);
    expect(layoutOfBlock({ layout: 'free', freeLayout: free })).toBe(layout);
    expect(layoutOfBlock({ layout: 'inline-4' })).toBe(layoutOf('inline-4'));
    expect(() => layoutOfBlock({ layout: 'free' })).toThrow(RangeError);
  });

  it('breaks no rule, and is refused where the named one would be', () => {
    const build = (throws: readonly number[]) =>
      readContent(
        changed(exampleV8(), { 'block.layout': 'free', 'block.freeLayout': freeLayout([-45, 45], throws, IN_PAIRS) }),
      );
    expect(build([30, 120, 300, 210]).ok).toBe(true);
    // The second throw half a turn on: the firing order of the example takes its cylinders a turn too early or late.
    expect(build([30, 300, 300, 210]).ok).toBe(false);
  });
});

it('pins of a throw stand ahead by their own split, the first one at nothing', () => {
  const layout = layoutOfFree(
    freeLayout(
      [45, -45],
      [10, 250, 130],
      [
        [1, 1, -15],
        [2, 1, 15],
        [1, 2, -15],
        [2, 2, 15],
        [1, 3, -15],
        [2, 3, 15],
      ],
    ),
  );
  const named = layoutOf('v6-90-split-pins');
  expect(layout.throwPhasesDeg).toEqual([15, 255, 135]);
  for (const [k, c] of layout.cylinders.entries()) {
    expect(c.pinSplitDeg).toBe(k % 2 === 0 ? -15 : 15);
    expect(topDeg(layout, c.number)).toBe(topDeg(named, c.number));
    // Pins by hand: 0, 30 | 240, 270 | 120, 150; from the bores of bank 2, which stand 90 degrees back, 90 more.
    expect(pinPhaseDeg(layout, c)).toBe([0, 30, 240, 270, 120, 150][k]);
    expect(pinFromBoreDeg(layout, c)).toBe([0, 120, 240, 360, 120, 240][k]);
  }
});

it('names the angles that are assumed, and only those', () => {
  const free = freeLayout(
    [-45, 45],
    [0, 90],
    [
      [1, 1],
      [2, 1, 3],
      [1, 2],
      [2, 2, 4],
    ],
  );
  const assumed = {
    banks: free.banks.map((bank, k) => (k === 1 ? { angle: { ...bank.angle, from: 'assumed' as const } } : bank)),
    throws: free.throws.map((t, k) => (k === 0 ? { phase: { ...t.phase, from: 'assumed' as const } } : t)),
    cylinders: free.cylinders.map((c) =>
      c.cylinder === 4 ? { ...c, pinSplit: { ...c.pinSplit!, from: 'assumed' as const } } : c,
    ),
  };
  expect(layoutOfFree(assumed).assumed).toEqual(['angle of bank 2', 'phase of throw 1', 'pin split of cylinder 4']);
});

describe('firing', () => {
  it('an order has every cylinder once, and 1 first', () => {
    const four = layoutOf('inline-4');
    expect(isFiringOrder(four, [1, 3, 4, 2])).toBe(true);
    for (const order of [[1, 3, 4, 2, 2], [3, 1, 4, 2], [1, 3, 4], [1, 3, 4, 4], []])
      expect(isFiringOrder(four, order)).toBe(false);
  });

  it('is even within a degree', () => {
    expect(firesEvenly([180, 180, 180, 180])).toBe(true);
    expect(firesEvenly([180.9, 179.1, 180, 180])).toBe(true);
    expect(firesEvenly([181, 179, 180, 180])).toBe(false);
    expect(firesEvenly([150, 90, 150, 90, 150, 90])).toBe(false);
    expect(firesEvenly([720])).toBe(true);
  });

  it('can be even where the tops fall in steps, two to a place', () => {
    for (const name of [
      'single',
      'inline-3',
      'inline-4',
      'inline-5',
      'inline-6',
      'v6-90-split-pins',
      'v6-60-split-pins',
      'v8-cross-plane',
      'v8-flat-plane',
      'flat-4',
    ] as const)
      expect(canFireEvenly(layoutOf(name))).toBe(true);
    // Tops every 90 and 150 degrees.
    expect(canFireEvenly(layoutOf('v6-90-shared-pins'))).toBe(false);
    const four = (throws: readonly number[]) =>
      layoutOfFree(
        freeLayout([0], throws, [
          [1, 1],
          [1, 2],
          [1, 3],
          [1, 4],
        ]),
      );
    // A throw off its index by less than a degree is on it; four tops at two places, two each, not three and one.
    expect(canFireEvenly(four([0, 180.9, 180, 0]))).toBe(true);
    expect(canFireEvenly(four([0, 181, 180, 0]))).toBe(false);
    expect(canFireEvenly(four([0, 359.5, 180, 180]))).toBe(true);
    expect(canFireEvenly(four([0, 0, 180, 0]))).toBe(false);
  });
});
