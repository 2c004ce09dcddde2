/** What the section speaks of, how it is hatched, and where a ghost differs: worked out by hand on small invented cases. */
import { describe, expect, it } from 'vitest';
import type { Body, Cylinder, Engine } from '../../src/assembly/engine.ts';
import type { Gap, GapNow, GapState } from '../../src/model/results.ts';
import type { State } from '../../src/model/state.ts';
import { gapSentence, proofWords } from '../../src/view/gapWords.ts';
import { gapsAlongCrank, gapsShownNow, gapsSpokenOf, tightestNow } from '../../src/view/scene/calledOut.ts';
import { FreePlaces } from '../../src/view/scene/freePlaces.ts';
import { ghostStrokes } from '../../src/view/scene/ghostStrokes.ts';
import { paperSlope } from '../../src/view/scene/hatchSlope.ts';

const gap = (id: string, state: GapState, gapMm: number, more: Partial<Gap> = {}): Gap => ({
  id,
  kind: 'rod-camshaft',
  between: ['rod 1', 'cam core'],
  parts: ['big end', 'cam core'],
  gapMm,
  lowerBoundMm: gapMm,
  certified: true,
  budgetSpent: false,
  evaluations: 0,
  slicingMm: 0,
  atCrankRad: 0,
  pointsMm: [
    [0, 0, 0],
    [0, 0, 0],
  ],
  direction: 'in-plane',
  axialOverlapMm: 1,
  limitMm: 1.5,
  state,
  assumed: [],
  cylinder: 1,
  periodRad: 2 * Math.PI,
  deciding: [
    { source: 0, z0Mm: 0, z1Mm: 1 },
    { source: 0, z0Mm: 0, z1Mm: 1 },
  ],
  ...more,
});
const now = (id: string, gapMm: number): GapNow => ({
  id,
  gapMm,
  pointsMm: [
    [0, 0],
    [0, 0],
  ],
  state: gapMm <= 0 ? 'contact' : 'clears',
});
const stateOf = (gaps: readonly Gap[], picked: string | null = null) => ({ gaps, picked }) as State;
const ids = (gaps: readonly Gap[]) => new Set(gaps.map((g) => g.id));

describe('gaps that the section speaks of', () => {
  it('are those not clear, and the picked one first', () => {
    const gaps = [gap('a', 'contact', -1), gap('b', 'tight', 1), gap('c', 'clears', 2), gap('d', 'clears', 9)];
    const spoken = gapsSpokenOf(stateOf(gaps, 'd'), ids(gaps));
    expect(spoken.map((s) => s.gap.id)).toEqual(['d', 'a', 'b']);
  });
  it('are the closest alone where all clear, and not the deck', () => {
    const gaps = [gap('deck', 'clears', 0.1, { kind: 'deck' }), gap('c', 'clears', 2), gap('d', 'clears', 9)];
    expect(gapsSpokenOf(stateOf(gaps), ids(gaps)).map((s) => s.gap.id)).toEqual(['c']);
  });
  it('are shown while they are small; the picked one always', () => {
    const gaps = [gap('a', 'contact', -1), gap('b', 'tight', 1)];
    const spoken = gapsSpokenOf(stateOf(gaps, 'b'), ids(gaps));
    const shown = gapsShownNow(spoken, [now('a', 40), now('b', 40), now('c', 0)]);
    expect(shown.map((g) => g.id)).toEqual(['b']);
    expect(gapsShownNow(spoken, [now('a', 2.9), now('b', 40)]).map((g) => g.id)).toEqual(['b', 'a']);
  });
  it('are magnified where they are tightest against their limit, unless one is picked', () => {
    const gaps = [gap('a', 'tight', 1, { limitMm: 4 }), gap('b', 'tight', 0.5, { limitMm: 1 })];
    const at = [now('a', 2), now('b', 0.5)];
    // Margins: 2 - 4 = -2 against 0.5 - 1 = -0.5.
    expect(tightestNow(gapsSpokenOf(stateOf(gaps), ids(gaps)), at, null)?.id).toBe('a');
    expect(tightestNow(gapsSpokenOf(stateOf(gaps, 'b'), ids(gaps)), at, 'b')?.id).toBe('b');
    expect(tightestNow([], [], null)).toBeNull();
  });
  it('lie along the crank only near the place where that gap is smallest', () => {
    const gaps = [gap('a', 'tight', 1, { direction: 'axial' })];
    const spoken = gapsSpokenOf(stateOf(gaps), ids(gaps));
    expect([...gapsAlongCrank(spoken, [now('a', 1)])]).toEqual(['a']);
    expect([...gapsAlongCrank(spoken, [now('a', 30)])]).toEqual([]);
  });
});

describe('slope of the hatching', () => {
  const engine = (...deg: number[]) =>
    ({ cylinders: deg.map((d) => ({ bankAngleRad: (d * Math.PI) / 180 })) }) as unknown as Engine;
  it('is 45 degrees, but flatter where the banks lean as far', () => {
    expect(paperSlope(engine(0))(45)).toBe(45);
    expect(paperSlope(engine(-90, 90))(-45)).toBe(-45);
    expect(Math.abs(paperSlope(engine(-45, 45))(45))).toBeLessThan(30);
    expect(paperSlope(engine(-45, 45))(-45)).toBeLessThan(0);
    expect(Math.abs(paperSlope(engine(-30, 30))(45))).toBeLessThan(30);
  });
});

describe('ghost', () => {
  const square = (half: number, move: unknown = { kind: 'crank', phaseRad: 0 }) => {
    const corners = [
      [-half, -10],
      [half, -10],
      [half, 10],
      [-half, 10],
    ] as const;
    const pieces = corners.map(([x0, y0], k) => {
      const [x1, y1] = corners[(k + 1) % 4]!;
      return { kind: 'line', x0, y0, x1, y1 };
    });
    return { move, drawn: [{ style: 'cut', outline: { pieces } }] } as unknown as Body;
  };
  const drawnMm = (strokes: readonly number[]) => {
    let sum = 0;
    for (let k = 0; k < strokes.length; k += 4)
      sum += Math.hypot(strokes[k + 2]! - strokes[k]!, strokes[k + 3]! - strokes[k + 1]!);
    return sum;
  };
  it('leaves out the edges that both assemblies share', () => {
    expect(ghostStrokes(square(10), square(10), 4)).toEqual([]);
    // A narrower ghost: its level edges lie on those of the part on show, its two upright ones (20 mm each) do not.
    const strokes = ghostStrokes(square(8), square(10), 4);
    expect(drawnMm(strokes) / 4).toBeGreaterThan(40 * 0.5);
    for (let k = 0; k < strokes.length; k += 2) expect(Math.abs(strokes[k]!)).toBeCloseTo(32, 9);
  });
  it('is whole where the two parts move differently, or there is no such part', () => {
    const whole = drawnMm(ghostStrokes(square(10), undefined, 4));
    expect(whole / 4).toBeGreaterThan(80 * 0.5);
    expect(drawnMm(ghostStrokes(square(10), square(10, { kind: 'crank', phaseRad: 1 }), 4))).toBeCloseTo(whole, 9);
  });
});

describe('free places', () => {
  it('keep a box off what is taken and reserved', () => {
    const places = new FreePlaces(400, 200);
    places.takeDisc(200, 100, 60);
    places.reserve({ x0: 0, y0: 0, x1: 120, y1: 200 });
    const { x, y } = places.give(80, 40, 200, 100);
    expect(x).toBeGreaterThanOrEqual(120);
    const [nearX, nearY] = [Math.min(Math.max(200, x), x + 80), Math.min(Math.max(100, y), y + 40)];
    expect(Math.hypot(nearX - 200, nearY - 100)).toBeGreaterThan(60 - 17);
  });
});

describe('words', () => {
  const deck = (gapMm: number, state: GapState) =>
    gap('piston 3 · deck', state, gapMm, {
      kind: 'deck',
      between: ['piston 3', 'deck'],
      parts: ['crown', 'deck'],
      limitMm: 0,
    });
  const engine = { cylinders: [] as Cylinder[], bodies: [] as Body[] } as unknown as Engine;
  it('say where the crown stands', () => {
    expect(gapSentence(deck(0.254, 'clears'), engine, 'in')).toBe(
      'The crown of piston 3 stands .010 in below the deck at top dead centre. Limit .000 in below it.',
    );
    expect(gapSentence(deck(-0.254, 'tight'), engine, 'in')).toContain('stands .010 in above the deck');
    expect(gapSentence(deck(-2.54, 'contact'), engine, 'in')).toContain('meets the cylinder head');
  });
  it('say how far the figures can be relied on', () => {
    expect(proofWords([gap('a', 'clears', 2)])).toBe('proven all round');
    expect(proofWords([gap('a', 'clears', 2), gap('b', 'clears', 2, { certified: false })])).toBe('moving: sampled');
    expect(proofWords([gap('a', 'clears', 2, { certified: false, budgetSpent: true })])).toBe('not all proven');
    expect(proofWords([])).toBe('');
  });
});
