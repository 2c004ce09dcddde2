import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatBuild, type Problem, parseBuild, parseLength, problemSentence } from '../../src/build/index.ts';
import { jsonSchemaText } from '../../src/build/jsonSchema.ts';
import { migrate } from '../../src/build/migrations.ts';
import { changed } from '../support/changed.ts';
import { dim, exampleInline6, exampleSingle, exampleV8 } from '../support/exampleBuild.ts';

const SEED = 5_081;

function problems(text: string): readonly Problem[] {
  const read = parseBuild(text);
  return read.ok ? [] : read.problems;
}
const problemsWith = (changes: Record<string, unknown>) => problems(JSON.stringify(changed(exampleV8(), changes)));

describe('writing and reading', () => {
  it.each([
    ['V8', exampleV8],
    ['single', exampleSingle],
    ['inline six', exampleInline6],
  ])('%s: the document comes back, and its text', (_, example) => {
    const text = formatBuild(example());
    const read = parseBuild(text);
    if (!read.ok) throw new Error(read.problems.map(problemSentence).join('\n'));
    expect(read.doc).toEqual(example());
    expect(formatBuild(read.doc)).toBe(text);
  });

  it('every literal keeps its characters', () => {
    const text = formatBuild(
      changed(exampleV8(), {
        'block.bore': dim('4-1/16"', 'measured'),
        'block.deckHeight': dim('9.310 +0.002/-0.000 in'),
        'block.boreBottom': dim('99.06mm'),
        'block.boreWall': dim('250 thou', 'assumed'),
      }) as never,
    );
    for (const kept of ['4-1/16\\"', '9.310 +0.002/-0.000 in', '99.06mm', '250 thou']) {
      expect(text).toContain(`{ "value": "${kept}", "from": `);
    }
  });

  it('names stand in the order of the schema, whatever order they came in', () => {
    const backwards = JSON.stringify(exampleSingle(), (_, value) =>
      typeof value === 'object' && value !== null && !Array.isArray(value)
        ? Object.fromEntries(Object.entries(value).reverse())
        : value,
    );
    const read = parseBuild(backwards);
    expect(read.ok && formatBuild(read.doc)).toBe(formatBuild(exampleSingle()));
  });

  it('the document is frozen all the way down', () => {
    const read = parseBuild(formatBuild(exampleV8()));
    if (!read.ok) throw new Error('refused');
    const frozen = (value: unknown): boolean =>
      typeof value !== 'object' || value === null || (Object.isFrozen(value) && Object.values(value).every(frozen));
    expect(frozen(read.doc)).toBe(true);
  });

  it('will not write what it would not read', () => {
    expect(() => formatBuild(changed(exampleV8(), { 'block.bore': dim('4,060 in') }) as never)).toThrow(/4,060 in/);
  });

  it('a byte order mark is passed over', () => {
    expect(parseBuild(`\uFEFF${formatBuild(exampleSingle())}`).ok).toBe(true);
  });
});

describe('text that is no build file', () => {
  it.each([
    ['', 'line 1, column 1'],
    ['{', 'line 1, column 2'],
    ['{"a": 1,}', 'line 1, column 9'],
    ['{\n  "a": 1\n  "b": 2\n}', 'line 3, column 3'],
    ['{"a": NaN}', 'line 1, column 7'],
    ['{"a": 01}', 'line 1, column 8'],
    ['{"a": "x\ny"}', 'line 1, column 9'],
    ['{"a": "\\x"}', 'line 1, column 8'],
    ['{"a": "x', 'line 1, column 9'],
    ['{} {}', 'line 1, column 4'],
    ["{'a': 1}", 'line 1, column 2'],
    ['[1 2]', 'line 1, column 4'],
    ['<html>', 'line 1, column 1'],
  ])('%j is refused at %s', (text, place) => {
    expect(() => JSON.parse(text)).toThrow();
    expect(problems(text)).toMatchObject([{ rule: 'readable file', place }]);
  });

  it('nesting and length have bounds', () => {
    expect(problems('['.repeat(100_000))).toMatchObject([{ rule: 'readable file' }]);
    expect(problems(`"${'x'.repeat(4_000_000)}"`)).toMatchObject([{ rule: 'readable file', place: '' }]);
  });

  it('a name given twice is named', () => {
    const text = formatBuild(exampleV8()).replace(
      '"bore":',
      '"bore": { "value": "4.000 in", "from": "stated" }, "bore":',
    );
    expect(problems(text)).toMatchObject([{ rule: 'names once', place: 'block.bore' }]);
    expect(problems('{"a": {"b": 1, "\\u0062": 2}}')).toMatchObject([{ rule: 'names once', place: 'a.b' }]);
  });

  it.each(['__proto__', 'constructor', 'prototype'])('the name %s is refused', (name) => {
    const text = formatBuild(exampleV8()).replace('"crank": {', `"crank": { "${name}": { "stroke": 1 },`);
    expect(problems(text)).toMatchObject([{ rule: 'known names', place: `assemblies[0].crank.${name}` }]);
    expect(Object.hasOwn(Object.prototype, 'stroke')).toBe(false);
  });

  it('agrees with JSON.parse on what is JSON', () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 6 }), fc.nat(), fc.constantFrom(...'{}[]",:\\0e.-tn '), (json, where, char) => {
        const at = where % (json.length + 1);
        const text = json.slice(0, at) + char + json.slice(at + 1);
        let isJson = true;
        try {
          JSON.parse(text);
        } catch {
          isJson = false;
        }
        const refused = problems(text).some((p) => p.rule === 'readable file');
        expect(refused).toBe(!isJson);
      }),
      { seed: SEED, numRuns: 3000 },
    );
  });
});

describe('versions', () => {
  it('a later one is refused with one sentence, whatever else is wrong', () => {
    const found = problems(JSON.stringify({ format: 'strokewright-build', version: 2, rubbish: true }));
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ rule: 'later version', place: 'version', value: '2' });
    expect(problemSentence(found[0]!)).toMatch(/written by a later version/);
  });

  it.each([0, 0.5, -1, '1', null, undefined])('%j is no version', (version) => {
    expect(problemsWith({ version }).map((p) => p.place)).toEqual(['version']);
  });

  it('steps are taken in order from the version of the file', () => {
    const steps = [1, 2].map((from) => ({
      name: `step ${from}`,
      from,
      change: (c: Readonly<Record<string, unknown>>) => ({ ...c, taken: [...((c['taken'] as number[]) ?? []), from] }),
    }));
    expect(migrate({ version: 1 }, steps, 3)).toEqual({ ok: true, content: { version: 3, taken: [1, 2] } });
    expect(migrate({ version: 2 }, steps, 3)).toEqual({ ok: true, content: { version: 3, taken: [2] } });
    expect(migrate({ version: 3 }, steps, 3)).toEqual({ ok: true, content: { version: 3 } });
    expect(migrate({ version: 4 }, steps, 3)).toMatchObject({ ok: false });
  });
});

describe('fields', () => {
  it('several mistakes are all reported, each with its place and value', () => {
    const found = problemsWith({
      'block.bore': dim('4,060 in'),
      'block.deckHeight': { value: '9.310 in' },
      'assemblies[0].crank.stroke': dim('3.560'),
      'assemblies[0].crank.strok': dim('3.560 in'),
      'assemblies[1].rod.length': dim('-6.000 in'),
      'assemblies[1].camshaft.lobeSeparation': dim('110 mm'),
      'assemblies[1].piston': undefined,
      shownUnits: 'cm',
      extra: 1,
    });
    expect(found.map(({ rule, place, value }) => [rule, place, value]).sort()).toEqual(
      [
        ['dimension', 'block.bore', '4,060 in'],
        ['required', 'block.deckHeight.from', ''],
        ['dimension', 'assemblies[0].crank.stroke', '3.560'],
        ['known names', 'assemblies[0].crank.strok', '{"value":"3.560 in","from":"stated"}'],
        ['sign', 'assemblies[1].rod.length', '-6.000 in'],
        ['dimension', 'assemblies[1].camshaft.lobeSeparation', '110 mm'],
        ['required', 'assemblies[1].piston', ''],
        ['kind of value', 'shownUnits', '"cm"'],
        ['known names', 'extra', '1'],
      ].sort(),
    );
    for (const problem of found) expect(problem.allowed).toMatch(/llowed|missing/);
    const unit = found.find((p) => p.place.endsWith('lobeSeparation'));
    expect(unit?.allowed).toBe('“mm” can’t be read. Allowed units of an angle: deg or °.');
  });

  it.each<[string, string, string]>([
    // place, let pass, refused
    ['block.boreWall', '0.001 mm', '0 mm'],
    ['assemblies[0].crank.counterweight.cornerRadius', '0 in', '-.001 in'],
    ['assemblies[0].crank.counterweight.halfAngle', '90 deg', '90.1 deg'],
    ['assemblies[0].piston.skirtHalfAngle', '0.1 deg', '0 deg'],
    ['speed', '0.1 rpm', '0 rpm'],
    ['block.panRail.height', '-10000 mm', '-10000.1 mm'],
  ])('%s: %s passes, %s is refused', (place, passes, refused) => {
    expect(problemsWith({ [place]: dim(passes) }).filter((p) => p.place === place)).toEqual([]);
    expect(problemsWith({ [place]: dim(refused) }).map((p) => p.place)).toEqual([place]);
  });

  it.each<[string, Record<string, unknown>, string]>([
    ['a number for a dimension', { 'block.bore': 4.06 }, 'block.bore'],
    ['a text for a dimension', { 'block.bore': '4.060 in' }, 'block.bore'],
    ['a number in a dimension', { 'block.bore': { value: 4.06, from: 'stated' } }, 'block.bore.value'],
    ['another origin', { 'block.bore': dim('4.060 in', 'guessed' as never) }, 'block.bore.from'],
    ['more in a dimension', { 'block.bore': { ...dim('4.060 in'), unit: 'in' } }, 'block.bore.unit'],
    ['another layout', { 'block.layout': 'radial-9' }, 'block.layout'],
    ['part of a cylinder', { 'block.firingOrder': [1, 2.5] }, 'block.firingOrder[1]'],
    ['cylinder 0', { 'block.firingOrder': [0] }, 'block.firingOrder[0]'],
    ['no assemblies', { assemblies: [] }, 'assemblies'],
    ['too many assemblies', { assemblies: new Array(25).fill(exampleV8().assemblies[0]) }, 'assemblies'],
    ['an empty name', { name: '' }, 'name'],
    ['a name of 81 letters', { name: 'x'.repeat(81) }, 'name'],
    ['a control character', { note: 'a\u0007b' }, 'note'],
    ['null', { note: null }, 'note'],
    [
      'another follower',
      { 'assemblies[0].camshaft.follower': { kind: 'round' } },
      'assemblies[0].camshaft.follower.kind',
    ],
    [
      'a roller without radius',
      { 'assemblies[0].camshaft.follower': { kind: 'roller' } },
      'assemblies[0].camshaft.follower.radius',
    ],
    ['another body', { 'assemblies[0].own': [{ body: 'flywheel' }] }, 'assemblies[0].own[0].body'],
    ['a limit of no kind', { limits: { 'rod-flywheel': dim('1 mm') } }, 'limits.rod-flywheel'],
    ['a negative limit', { limits: { deck: dim('-1 mm') } }, 'limits.deck'],
    ['a spread of no kind', { tolerances: { as: 'triangle' } }, 'tolerances.as'],
    ['a normal spread without its sigmas', { tolerances: { as: 'normal' } }, 'tolerances.sigmas'],
    ['a band at less than one sigma', { tolerances: { as: 'normal', sigmas: 0.9 } }, 'tolerances.sigmas'],
    ['a band at more than six sigmas', { tolerances: { as: 'normal', sigmas: 6.5 } }, 'tolerances.sigmas'],
    ['sigmas as text', { tolerances: { as: 'normal', sigmas: '3' } }, 'tolerances.sigmas'],
    ['sigmas of a uniform spread', { tolerances: { as: 'uniform', sigmas: 3 } }, 'tolerances.sigmas'],
    ['another format', { format: 'other' }, 'format'],
  ])('%s is refused at its place', (_, changes, place) => {
    const found = problemsWith(changes);
    expect(found.map((p) => p.place)).toEqual([place]);
    expect(found[0]?.allowed).not.toMatch(/undefined|Invalid input/);
  });

  it.each(['1', '"text"', 'null', '[]', 'true'])('%s is no build', (text) => {
    expect(problems(text)).toMatchObject([{ place: '', rule: 'kind of value' }]);
  });

  it('an arc beyond a half circle, and one beyond all numbers', () => {
    const square = ['0', '9', '9'].map((x, k) => ({ x: dim(`${x} mm`), y: dim(`${k} mm`), bulge: 1.01 }));
    const fixed = [{ name: 'stud', front: dim('0 mm'), rear: dim('1 mm'), outline: square, from: 'stated' }];
    expect(problemsWith({ 'block.fixed': fixed })).toHaveLength(3);
    const text = JSON.stringify(changed(exampleV8(), { 'block.fixed': fixed })).replaceAll('1.01', '1e400');
    expect(problems(text)).toHaveLength(3);
  });
});

describe('the published schema', () => {
  const file = new URL('../../assets/strokewright-build.schema.json', import.meta.url);

  it('is the one generated from the fields', () => {
    expect(readFileSync(file, 'utf8')).toBe(jsonSchemaText());
  });

  it('has a pattern that lets every readable length pass', () => {
    const defs = JSON.parse(jsonSchemaText())['$defs'];
    const pattern = new RegExp(defs.signedLength.properties.value.pattern, 'u');
    for (const text of [
      '3.750 in',
      '.060 in',
      '2 5/8"',
      '2-5/8 in',
      '60 thou',
      '-152.4mm',
      '−1 mm',
      '3.750 ±0.001 in',
      '3.750 +/-0.001 in',
      '3.750 +0.001/-0.000 in',
      '2 5/8 ±1/64 in',
    ]) {
      expect(parseLength(text).ok).toBe(true);
      expect(text).toMatch(pattern);
    }
    for (const text of ['3.750', '3,750 in', 'NaN mm', '3.75 cm', '1e4 mm']) expect(text).not.toMatch(pattern);
  });
});
