/** Differences of documents, steps packed and unpacked, their bounds; which snapshots are thinned out. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withLiteral, withValue } from '../../../src/model/edit.ts';
import { difference, edited, same } from '../../../src/model/jobs/difference.ts';
import { pack, unpack } from '../../../src/model/jobs/packed.ts';
import { MOST_OF_A_DAY, toThin } from '../../../src/model/jobs/thinning.ts';
import { exampleV8 } from '../../support/exampleBuild.ts';

/** Names that reach into prototypes among them. */
const json = fc.jsonValue({ maxDepth: 4 });
const tricky = fc.object({ key: fc.constantFrom('a', 'b', '__proto__', 'constructor', 'toString'), maxDepth: 3 });

describe('the difference of two documents', () => {
  it('turns the one into the other, whatever they hold', () => {
    fc.assert(
      fc.property(fc.oneof(json, tricky), fc.oneof(json, tricky), (before, after) => {
        const edits = structuredClone(difference(before, after));
        const made = edited(before, edits);
        expect(JSON.stringify(sorted(made))).toBe(JSON.stringify(sorted(after)));
        expect(same(made, after)).toBe(true);
      }),
      { numRuns: 400 },
    );
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });

  it('of lists is what was put in and taken out in one place', () => {
    const list = Array.from({ length: 100 }, (_, k) => ({ name: `entry ${k}` }));
    expect(difference({ list }, { list: [...list, { name: 'new' }] })).toEqual([
      { at: ['list'], from: 100, drop: 0, add: [{ name: 'new' }] },
    ]);
    expect(difference({ list }, { list: list.filter((_, k) => k !== 40) })).toEqual([
      { at: ['list'], from: 40, drop: 1, add: [] },
    ]);
  });

  it('that does not fit throws RangeError and nothing else', () => {
    for (const edit of [
      { at: ['a', 'b'], put: 1 },
      { at: ['a', 0], put: 1 },
      { at: ['list', 3], put: 1 },
      { at: ['list'], from: 2, drop: 5, add: [] },
      { at: [], out: true as const },
    ])
      expect(() => edited({ a: 1, list: [1, 2, 3] }, [edit]), JSON.stringify(edit)).toThrow(RangeError);
  });
});

const stroke = ['assemblies', 0, 'crank', 'stroke'] as const;

describe('steps packed', () => {
  const first = exampleV8();
  const docs = [first];
  for (let k = 1; k <= 200; k++) docs.push(withLiteral(docs[k - 1]!, stroke, `3.${500 + k} in`));
  const doc = docs[200]!;

  it('come back all two hundred, and take up less than the one document does', () => {
    const packed = pack(doc, { undo: docs.slice(0, 200), redo: [] });
    const back = unpack(structuredClone(packed));
    expect(back.steps.undo).toHaveLength(200);
    expect(back.steps.undo).toEqual(docs.slice(0, 200));
    // A step sets one text at a path of four: about a hundred characters.
    expect(JSON.stringify(packed.undo).length).toBeLessThan(200 * 130);
  });

  it('are bounded by what they take up: the oldest go', () => {
    const outlines = [first];
    for (let k = 1; k <= 10; k++) {
      const points = Array.from({ length: 400 }, (_, i) => ({ x: `${i}.${k} mm`, y: `${i} mm` }));
      outlines.push(withValue(outlines[k - 1]!, ['assemblies', 0, 'rod', 'outline'], points));
    }
    const one = JSON.stringify(outlines[1]!.assemblies[0]!.rod.outline).length;
    const back = unpack(pack(outlines[10]!, { undo: outlines.slice(0, 10), redo: [] }, 5 * one));
    expect(back.steps.undo.length).toBeGreaterThanOrEqual(3);
    expect(back.steps.undo.length).toBeLessThanOrEqual(5);
    expect(back.steps.undo.at(-1)).toEqual(outlines[9]);
  });

  it('are compared once, however often they are written', () => {
    let looked = 0;
    const seen = new Proxy(structuredClone(docs[199]!), {
      ownKeys: (target) => {
        looked += 1;
        return Reflect.ownKeys(target);
      },
    });
    pack(doc, { undo: [seen], redo: [] });
    const once = looked;
    expect(once).toBeGreaterThan(0);
    for (let k = 0; k < 5; k++) pack(doc, { undo: [seen], redo: [] });
    expect(looked).toBe(once);
  });
});

describe('snapshots', () => {
  const DAY = 86_400_000;
  const now = 400 * DAY;
  const auto = (number: number, atMs: number) => ({ number, atMs, name: null });

  it('of the last day stay, up to twenty', () => {
    const list = Array.from({ length: 30 }, (_, k) => auto(k, now - k * 60_000));
    expect(toThin(list, now)).toEqual(Array.from({ length: 10 }, (_, k) => MOST_OF_A_DAY + k));
  });

  it('of a day before that: the newest alone; of thirty days before those: the newest alone', () => {
    // Noon and evening of days 390 and 391; three in the thirty days from day 330; one in those from day 300.
    const list = [
      auto(1, 310 * DAY),
      auto(2, 331 * DAY),
      auto(3, 340 * DAY),
      auto(4, 359 * DAY),
      auto(5, 390.5 * DAY),
      auto(6, 390.8 * DAY),
      auto(7, 391.5 * DAY),
      auto(8, 391.8 * DAY),
    ];
    expect([...toThin(list, now)].sort()).toEqual([2, 3, 5, 7]);
  });

  it('with a name stay, and the newest of all stays', () => {
    const named = Array.from({ length: 50 }, (_, k) => ({ number: k, atMs: 10 * DAY, name: `before the ${k}th cut` }));
    expect(toThin([...named, auto(99, 10 * DAY)], now)).toEqual([]);
  });
});

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  return Object.entries(value)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, v]) => [key, sorted(v)]);
}
