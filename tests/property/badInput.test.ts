/** Build files spoilt at random: nothing throws, every refusal names place, value and rule, and what is taken gives numbers. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { layOut } from '../../src/assembly/index.ts';
import { formatBuild, type Problem, parseBuild, problemSentence, RULES, readContent } from '../../src/build/index.ts';
import { solveGaps } from '../../src/model/solve.ts';
import { check, folder } from '../cli/command.ts';
import { seeded } from '../oracle/random.ts';

const DEMOS = join(import.meta.dirname, '../../assets/demos');
const files = readdirSync(DEMOS)
  .filter((name) => name.endsWith('.json'))
  .map((name) => readFileSync(join(DEMOS, name), 'utf8'));

type Random = () => number;
const pick = <T>(random: Random, from: readonly T[]): T => from[Math.floor(random() * from.length)]!;

type Node = Record<string | number, unknown>;

/** Every object and list of a document, with a name or place in it. */
function spots(value: unknown, out: [Node, string | number][] = []): [Node, string | number][] {
  if (typeof value !== 'object' || value === null) return out;
  const keys = Array.isArray(value) ? [...value.keys()] : Object.keys(value);
  for (const key of keys) {
    out.push([value as Node, key]);
    spots((value as Node)[key], out);
  }
  return out;
}

/** Values that stand nowhere, or where they stand mean something else. */
const ODD: readonly unknown[] = [
  null,
  true,
  0,
  -1,
  1e308,
  '',
  'NaN mm',
  'Infinity in',
  '1e9 mm',
  '0 mm',
  '-3 mm',
  '99999999 in',
  '.00001 mm',
  '12 parsec',
  '5 kg',
  '12 mm mm',
  '1/3 in',
  '3,5 mm',
  '４ mm',
  '90 deg',
  '720 deg',
  '6000 rpm',
  [],
  {},
  { value: 'NaN mm', from: 'measured' },
  { value: '0 mm', from: 'measured' },
  { value: '-12.5 mm', from: 'stated' },
  { value: '400 in', from: 'stated' },
  { value: '89.99 deg', from: 'stated' },
  { value: '10 mm', from: 'guessed' },
  { value: '10 mm' },
];

/** One to three faults. */
function spoil(random: Random, text: string): unknown {
  const doc = JSON.parse(text) as unknown;
  const times = 1 + Math.floor(3 * random());
  for (let k = 0; k < times; k++) {
    const all = spots(doc);
    const [node, key] = pick(random, all);
    const how = random();
    if (how < 0.4) node[key] = structuredClone(pick(random, ODD));
    else if (how < 0.55) {
      if (Array.isArray(node)) node.splice(key as number, 1);
      else delete node[key];
    } else if (how < 0.7) {
      const [other, there] = pick(random, all);
      node[key] = structuredClone(other[there]);
    } else if (how < 0.78) {
      if (Array.isArray(node)) node.push(structuredClone(node[key as number]));
      else node[`${key}s`] = structuredClone(node[key]);
    } else {
      // A dimension some times too large or too small.
      const dims = all.filter(([n, at]) => at === 'value' && typeof n[at] === 'string');
      const [dim] = pick(random, dims);
      const factor = pick(random, [0.01, 0.5, 0.9, 0.97, 1.03, 1.1, 2, 25.4, 100]);
      dim['value'] = String(dim['value']).replace(/[\d.]+/, (n) => (Number(n) * factor).toFixed(4));
    }
  }
  return doc;
}

const RULE_NAMES = new Set(RULES.map((r) => r.name));

function faultsOf(problems: readonly Problem[]): string[] {
  if (problems.length === 0) return ['is refused without a problem'];
  return problems.flatMap((p) => {
    const sentence = problemSentence(p);
    const out: string[] = [];
    if (!RULE_NAMES.has(p.rule)) out.push(`names no rule: ${sentence}`);
    if (p.allowed.length < 8) out.push(`says nothing of what is allowed: ${sentence}`);
    if (/\bundefined\b|\[object|Infinity|(?<!["“] ?)\bNaN\b(?! mm)/.test(sentence.replaceAll('Infinity in', '')))
      out.push(`says no sense: ${sentence}`);
    if (p.place === '' && p.value === '' && p.allowed === '') out.push(`names nothing: ${sentence}`);
    return out;
  });
}

/** Everything that is not a number where numbers are. */
function notNumbers(value: unknown, place = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${place} is ${value}`];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, v]) => notNumbers(v, `${place}.${key}`));
}

describe('build files spoilt at random', () => {
  test('are refused with place, value and rule, or can be laid out and written again', () => {
    const random = seeded(11);
    const faults: string[] = [];
    let [refused, taken] = [0, 0];
    for (let k = 0; k < 900; k++) {
      const content = spoil(random, files[k % files.length]!);
      const read = readContent(content);
      if (!read.ok) {
        refused += 1;
        faults.push(...faultsOf(read.problems).map((f) => `${k} ${f}`));
        continue;
      }
      taken += 1;
      // What was taken is what was given: nothing defaulted, nothing dropped.
      const again = parseBuild(formatBuild(read.doc));
      if (!again.ok) faults.push(`${k} can't be read again`);
      else if (JSON.stringify(sorted(again.doc)) !== JSON.stringify(sorted(content)))
        faults.push(`${k} came back another`);
      if (taken % 3 !== 0) continue;
      for (const a of read.doc.assemblies) {
        const engine = layOut(read.doc, a.name);
        for (const b of engine.bodies) {
          const outlines = [...b.layers.map((l) => l.outline), ...b.round.map((r) => r.slice(r.z0Mm, r.z1Mm))];
          faults.push(...notNumbers(outlines).map((f) => `${k} ${b.name}${f}`));
        }
        faults.push(...notNumbers(engine.cylinders).map((f) => `${k} cylinders${f}`));
        const one = engine.pairs[k % Math.max(1, engine.pairs.length)];
        const gaps = solveGaps(engine, { assumedAllowanceMm: null, budget: 2000, wanted: (p) => p === one });
        for (const { lowerBoundMm: _, ...g } of gaps) faults.push(...notNumbers(g).map((f) => `${k} ${g.id}${f}`));
      }
    }
    expect(faults.slice(0, 10)).toEqual([]);
    expect(refused).toBeGreaterThan(420);
    expect(taken).toBeGreaterThan(50);
  });

  test('as text cut short or with characters changed never throw', () => {
    const random = seeded(12);
    const faults: string[] = [];
    let refused = 0;
    for (let k = 0; k < 300; k++) {
      const text = files[k % files.length]!;
      const at = Math.floor(random() * text.length);
      const bad = pick(random, ['', '"', '}', '[', ',', '\u0000', 'NaN', '\ud800', '9'.repeat(400)]);
      const read = parseBuild(random() < 0.3 ? text.slice(0, at) : text.slice(0, at) + bad + text.slice(at + 1));
      if (read.ok) continue;
      refused += 1;
      faults.push(...faultsOf(read.problems));
    }
    expect(faults.slice(0, 10)).toEqual([]);
    expect(refused).toBeGreaterThan(150);
  });
});

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, v]) => [key, sorted(v)]),
  );
}

describe('the command on spoilt files', () => {
  test('ends with 0, 1 or 2 and says no NaN', async () => {
    const random = seeded(13);
    const place = folder();
    const statuses: number[] = [];
    try {
      for (let k = 0; k < 3; k++) {
        const file = place.file(`spoilt-${k}.json`, JSON.stringify(spoil(random, files[0]!)));
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
