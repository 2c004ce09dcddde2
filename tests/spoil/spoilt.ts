/** Build files and dimension literals spoilt from a seed: the same seed always gives the same text. Imports nothing of the program but its demonstrations. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { RANDOM_LAYOUTS, randomBuild } from '../examine/randomBuild.ts';
import { seeded } from '../oracle/random.ts';

const DEMOS = join(import.meta.dirname, '../../assets/demos');
export const demoTexts = readdirSync(DEMOS)
  .filter((name) => name.endsWith('.json'))
  .map((name) => readFileSync(join(DEMOS, name), 'utf8'));

export type Random = () => number;
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

/** Text in the place of a name or a note. */
export const HOSTILE: readonly string[] = [
  '<img src=x onerror="globalThis.executed=1">',
  '<script>globalThis.executed=1</script>',
  '"><svg onload=globalThis.executed=1>',
  'javascript:globalThis.executed=1',
  '{{constructor.constructor("globalThis.executed=1")()}}',
  '\u202Egnp.eslaf\u202C',
  'a\u0000b',
  '\ud800',
  '__proto__',
  'constructor',
  `${'n'.repeat(5000)}`,
  '🛠️ Ölpumpe №7 – 部品',
  '',
  ' ',
];

/** Values that stand nowhere, or where they stand mean something else. */
const ODD: readonly unknown[] = [
  null,
  true,
  0,
  -1,
  -0,
  0.5,
  1e308,
  2 ** 53,
  '',
  'NaN mm',
  'Infinity in',
  '1e9 mm',
  '0 mm',
  '-0 mm',
  '-3 mm',
  '99999999 in',
  '9999.99 mm',
  '.00001 mm',
  '12 parsec',
  '5 kg',
  '12 mm mm',
  '1/3 in',
  '3,5 mm',
  '４ mm',
  '90 deg',
  '180 deg',
  '720 deg',
  '6000 rpm',
  '20 °C',
  [],
  {},
  [[[[[[[[[[]]]]]]]]]],
  { value: 'NaN mm', from: 'measured' },
  { value: '0 mm', from: 'measured' },
  { value: '-12.5 mm', from: 'stated' },
  { value: '400 in', from: 'stated' },
  { value: '89.99 deg', from: 'stated' },
  { value: '10 mm', from: 'guessed' },
  { value: '10 mm' },
  ...HOSTILE,
];

const FACTORS: readonly number[] = [0, 0.01, 0.5, 0.9, 0.97, 0.999, 1.001, 1.03, 1.1, 2, 25.4, 100];

/** One to three faults in what the text holds; `gentle`: dimensions alone, little changed, so that most files still can be built. */
export function spoiltContent(random: Random, text: string, gentle = false): unknown {
  const doc = JSON.parse(text) as unknown;
  const times = 1 + Math.floor(3 * random());
  for (let k = 0; k < times; k++) {
    const all = spots(doc);
    if (all.length === 0) return doc;
    const [node, key] = pick(random, all);
    const how = gentle ? 1 : random();
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
      if (dims.length === 0) continue;
      const [dim] = pick(random, dims);
      const factor = gentle ? pick(random, [0.97, 0.99, 0.999, 1.001, 1.01, 1.03]) : pick(random, FACTORS);
      dim['value'] = String(dim['value']).replace(/[\d.]+/, (n) => (Number(n) * factor).toFixed(4));
    }
  }
  return doc;
}

/** Faults of the text itself, that no document can hold. */
function spoiltText(random: Random, text: string): string {
  const at = Math.floor(random() * text.length);
  const names = [...text.matchAll(/"(\w+)":/g)];
  const name = pick(random, names);
  const how = random();
  if (how < 0.25) return text.slice(0, at);
  if (how < 0.5) {
    const bad = pick(random, [
      '',
      '"',
      '}',
      '[',
      ',',
      '\u0000',
      'NaN',
      '\ud800',
      '9'.repeat(400),
      '1e400',
      '-',
      '\\u00',
      '\t',
      '\uFEFF',
    ]);
    return text.slice(0, at) + bad + text.slice(at + 1);
  }
  // A name once more, or one that reaches into prototypes, or nesting without end, at the place of a name.
  const put = pick(random, [
    `"${name[1]}": 1, `,
    '"__proto__": { "version": 2 }, ',
    '"constructor": { "prototype": {} }, ',
    `"deep": ${'['.repeat(2000)}${']'.repeat(2000)}, `,
    `"deep": ${'{"a":'.repeat(3000)}1${'}'.repeat(3000)}, `,
    '"toString": null, ',
    '"hasOwnProperty": 1, ',
  ]);
  if (how < 0.85) return text.slice(0, name.index) + put + text.slice(name.index);
  const end = Math.floor(random() * text.length);
  return text.slice(0, Math.min(at, end)) + text.slice(Math.max(at, end));
}

/** The text of a build file spoilt: of a demonstration, or of a random build in any layout; one in five in its text, one in five gently. */
export function spoiltFile(seed: number): string {
  const random = seeded(seed * 2654435761);
  const base =
    random() < 0.5 ? pick(random, demoTexts) : JSON.stringify(randomBuild(random, pick(random, RANDOM_LAYOUTS)));
  const how = random();
  if (how < 0.2) return spoiltText(random, base);
  return JSON.stringify(spoiltContent(random, base, how > 0.8));
}

const SOUND: readonly string[] = [
  '3.750 in',
  '2 5/8 in',
  '2-5/8 in',
  '.060 in',
  '60 thou',
  '152.4 mm',
  '3.750 ±0.001 in',
  '4.180 +0.001/-0.000 in',
  '3 11/16"',
  '66.5 deg',
  '180°',
  '3600 rpm',
  '1.5 l',
  '655 g',
  '58 cc',
  '−.031 in',
  '+5 mm',
];
const BITS: readonly string[] = [
  ...'0123456789.,/-+−±"°  eEx%'.split(''),
  'in',
  'mm',
  'thou',
  'deg',
  'rpm',
  '+/-',
  '1/64',
  '/0',
  'NaN',
  'Infinity',
  '\u00a0',
  '\t',
  '\n',
  '½',
  '٣',
  '²',
  '<b>',
  '\u0000',
];

/** A literal spoilt: bits put in, taken out, turned round, or repeated a great many times. */
export function spoiltLiteral(seed: number): string {
  const random = seeded(seed * 2246822519 + 7);
  let text = pick(random, SOUND);
  const times = 1 + Math.floor(4 * random());
  for (let k = 0; k < times; k++) {
    const at = Math.floor(random() * (text.length + 1));
    const how = random();
    if (how < 0.5) text = text.slice(0, at) + pick(random, BITS) + text.slice(at);
    else if (how < 0.75) text = text.slice(0, at) + text.slice(at + 1 + Math.floor(3 * random()));
    else if (how < 0.9) {
      const other = pick(random, SOUND);
      text = text.slice(0, at) + other.slice(Math.floor(random() * other.length));
    } else if (how < 0.98)
      text = text.slice(0, at) + pick(random, BITS).repeat(Math.floor(30 * random())) + text.slice(at);
    else text = text.slice(0, at) + pick(random, BITS).repeat(50_000) + text.slice(at);
  }
  return text;
}
