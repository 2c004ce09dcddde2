/**
 * Build files and literals spoilt at random: nothing throws, every refusal names place, value and rule, and what is taken gives numbers. A
 * small share of what `npm run spoil` does in great number.
 */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseBuild, readContent } from '../../src/build/index.ts';
import { check, folder } from '../cli/command.ts';
import { seeded } from '../oracle/random.ts';
import { faultsOf, judgeFile, judgeLiteral } from '../spoil/judge.ts';
import { demoTexts, spoiltContent, spoiltFile, spoiltLiteral } from '../spoil/spoilt.ts';

describe('build files spoilt at random', () => {
  test('are refused with place, value and rule, or can be laid out, swept, summed and written again', () => {
    const faults: string[] = [];
    const counts = { taken: 0, refused: 0, swept: 0 };
    for (let seed = 11; seed < 211; seed++) {
      const judged = judgeFile(spoiltFile(seed), seed);
      if (judged.taken) counts.taken += 1;
      else counts.refused += 1;
      counts.swept += judged.swept;
      faults.push(...judged.faults.map((what) => `seed ${seed}: ${what}`));
    }
    expect(faults.slice(0, 10)).toEqual([]);
    expect(counts.refused).toBeGreaterThan(100);
    expect(counts.taken).toBeGreaterThan(25);
    expect(counts.swept).toBeGreaterThanOrEqual(counts.taken);
  });

  test('are refused in a bounded number of words, whatever the file is', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary', maxLength: 400 }), fc.json({ maxDepth: 6 })), (text) => {
        const read = parseBuild(text);
        if (!read.ok) expect(faultsOf(read.problems)).toEqual([]);
      }),
      { numRuns: 500 },
    );
  });

  test('as content that is no file at all never throw', () => {
    fc.assert(
      fc.property(fc.anything({ withNullPrototype: true, withBigInt: false, withMap: true }), (content) => {
        expect(readContent(content).ok).toBe(false);
      }),
      { numRuns: 300 },
    );
  });
});

describe('literals spoilt at random', () => {
  test('are refused with what offends and what is allowed, or mean the same in every unit', () => {
    const faults: string[] = [];
    for (let seed = 1; seed <= 4000; seed++) {
      const text = spoiltLiteral(seed);
      faults.push(...judgeLiteral(text).map((what) => `seed ${seed}, ${JSON.stringify(text.slice(0, 60))} ${what}`));
    }
    expect(faults.slice(0, 10)).toEqual([]);
  });
});

describe('the command on spoilt files', () => {
  test('ends with 0, 1 or 2 and says no NaN', async () => {
    const random = seeded(13);
    const place = folder();
    const statuses: number[] = [];
    try {
      for (let k = 0; k < 3; k++) {
        const file = place.file(`spoilt-${k}.json`, JSON.stringify(spoiltContent(random, demoTexts[0]!)));
        const ran = await check(file, ...(k % 2 === 0 ? ['--json'] : []));
        statuses.push(ran.status);
        expect([0, 1, 2]).toContain(ran.status);
        expect(ran.out).not.toMatch(/\bNaN\b|\bundefined\b|\bInfinity\b/);
        expect(ran.err).not.toContain('fault of the program');
        expect(ran.err.length + ran.out.length).toBeGreaterThan(20);
      }
    } finally {
      place.remove();
    }
    expect(statuses).toContain(2);
  });
});
