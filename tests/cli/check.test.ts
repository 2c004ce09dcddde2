/** The command from outside: what it prints where, and its exit status. */
import { readFileSync, statSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { readArguments, texts, whole } from '../../src/cli/option.ts';
import { readOptions } from '../../src/cli/options.ts';
import { changed } from '../support/changed.ts';
import { check, demo, demoContent, folder, lines, type Ran } from './command.ts';

const files = folder();
afterAll(() => files.remove());

/** A refusal: exit status 2, nothing on standard output, no stack trace, each line a sentence. */
function refusals(ran: Ran): string[] {
  expect(ran.status).toBe(2);
  expect(ran.out).toBe('');
  expect(ran.err).not.toMatch(/^\s+at /m);
  const said = lines(ran.err);
  expect(said.length).toBeGreaterThan(0);
  for (const line of said) expect(line).toMatch(/\S.*\.$/);
  return said;
}

function bench(changes: Readonly<Record<string, unknown>>): string {
  const text = JSON.stringify(changed(demoContent('bench-rig'), changes));
  return files.file(`${Math.abs(hash(text))}.json`, text);
}

function hash(text: string): number {
  let h = 0;
  for (const c of text) h = (h * 31 + c.codePointAt(0)!) | 0;
  return h;
}

const stated = (value: string) => ({ value, from: 'stated' });

describe('an assembly judged', () => {
  it('leaves with 0 when every gap clears, and changes nothing about the file', async () => {
    const before = { text: readFileSync(demo('quarry-v8')), time: statSync(demo('quarry-v8')).mtimeMs };
    const ran = await check(demo('quarry-v8'), '--assembly', 'Longer-stroke crank turned to fit');
    expect(ran.err).toBe('');
    expect(ran.status).toBe(0);
    expect(ran.out).toMatch(/^Fits as drawn: \d+ clear\.$/m);
    expect(readFileSync(demo('quarry-v8')).equals(before.text)).toBe(true);
    expect(statSync(demo('quarry-v8')).mtimeMs).toBe(before.time);
  });

  it('leaves with 1 on contact, tight gaps and gaps that rest on assumed dimensions without an allowance', async () => {
    const [contact, tight, unproven] = await Promise.all([
      check(demo('quarry-v8')),
      check(demo('lake-launch-six')),
      check(bench({ assumedAllowance: undefined })),
    ]);
    expect([contact.status, tight.status, unproven.status]).toEqual([1, 1, 1]);
    expect(contact.out).toMatch(/^Does not fit as drawn: \d+ in contact/m);
    expect(tight.out).toMatch(/^Fits, but tight: \d+ tight, \d+ clear\.$/m);
    expect(unproven.out).toMatch(/^Not proven to fit: \d+ unproven/m);
    expect([contact.err, tight.err, unproven.err]).toEqual(['', '', '']);
  });

  it('names the assembly, its figures and the caution', async () => {
    const { out } = await check(demo('bench-rig'));
    expect(out).toContain('Single-cylinder bench rig: Longer stroke (');
    // 86.0 mm and 138.0 mm are the file's; 138 / 86 = 1.6047; pi/4 x 82^2 x 86 mm3 = 454.17 cm3 = 27.72 in3;
    // 216.0 - 86.0 / 2 - 138.0 - 34.7 = 0.3 mm.
    expect(out).toMatch(/^stroke +86\.00 mm \(3\.386 in\)$/m);
    expect(out).toMatch(/^rod length +138\.00 mm \(5\.433 in\)$/m);
    expect(out).toMatch(/^rod ratio +1\.60$/m);
    expect(out).toMatch(/^displacement +454 cm³ \(27\.7 in³\)$/m);
    expect(out).toMatch(/^deck clearance +0\.30 mm \(\.012 in\)$/m);
    expect(out).toContain('Planning aid. Check every clearance on the real parts, by hand, before the engine turns.');
    expect(out).toContain('qualified crankshaft grinder');
    expect(out).not.toMatch(/NaN|Infinity|undefined|null/);
  });

  it('aligns the table: every column starts at one place, or ends at one where it holds figures', async () => {
    const { out } = await check(demo('quarry-v8'), '--pairs', 'all');
    const table = out.split('\n\n')[2]!.split('\n');
    const [titles, ...rows] = table;
    expect(rows.length).toBeGreaterThan(100);
    const state = titles!.indexOf('state');
    const direction = titles!.indexOf('direction');
    const assumed = titles!.indexOf('assumed');
    const ends = ['gap ', 'proven at least', 'limit', 'closest at'].map((t) => titles!.indexOf(t, state) + t.length);
    for (const row of rows) {
      expect(row.slice(state - 2)).toMatch(/^ {2}(clears|tight|contact|unproven) /);
      expect(row.slice(direction - 2)).toMatch(/^ {2}(in-plane|axial)( |$)/);
      if (row.length > assumed) expect(row.slice(assumed - 2)).toMatch(/^ {2}\S/);
      expect(row.slice(0, ends[3]!)).toMatch(/ {2}\d+\.\d° after (firing )?TDC \d$/);
      const figures = row.slice(state, ends[3]!);
      expect(
        figures.match(
          /-?\d+\.\d{2} mm +(at least )?-?\d*\.\d{3} in +-?\d+\.\d{3} mm +-?\d*\.\d{4} in +\d+\.\d{2} mm +\d*\.\d{3} in /,
        ),
      ).not.toBeNull();
    }
    const at = (pattern: RegExp): Set<number> => new Set(rows.map((row) => pattern.exec(row)!.index));
    for (const sign of [
      / mm/,
      / in /,
      / mm(?= +-?\d*\.\d{4} in)/,
      / in +\d+\.\d{2} mm/,
      / mm(?= +\d*\.\d{3} in +\d+\.\d°)/,
    ])
      expect(at(sign).size).toBe(1);
  });
});

describe('when in the turn', () => {
  it('is said of what is below its limit, outward to a tenth of a degree, and of nothing else', async () => {
    const [v8, rig] = await Promise.all([check(demo('quarry-v8')), check(demo('bench-rig'))]);
    expect(v8.out).toMatch(/^below the limit +over +in contact over +degrees$/m);
    expect(v8.out).toMatch(
      /^counterweight 1 front · piston 1, pin boss +15\d\.\d° to 20\d\.\d° +16\d\.\d° to 19\d\.\d° +after TDC 1$/m,
    );
    expect(rig.out).not.toContain('below the limit');
  });
});

describe('tables on request', () => {
  it('counts alike pairs in one row, the headline counts all', async () => {
    const [once, all] = await Promise.all([check(demo('quarry-v8')), check(demo('quarry-v8'), '--pairs', 'all')]);
    const [onceTable, allTable] = [once, all].map(({ out }) => out.split('\n\n')[2]!.split('\n'));
    expect(onceTable![0]).toMatch(/^gap between +pairs +state/);
    expect(allTable![0]).toMatch(/^gap between +state/);
    const counts = onceTable!
      .slice(1)
      .map((row) => Number(/ (\d+) {2}(?:clears|tight|contact|unproven) /.exec(row)![1]));
    expect(counts.reduce((sum, n) => sum + n, 0)).toBe(allTable!.length - 1);
    expect(lines(once.out)[1]).toBe(lines(all.out)[1]);
    expect([once.status, all.status]).toEqual([1, 1]);
  });

  it('tells what would help below the gaps', async () => {
    const [six, rig] = await Promise.all([
      check(demo('lake-launch-six'), '--cures'),
      check(demo('bench-rig'), '--cures'),
    ]);
    expect(six.out).toMatch(
      /^What would help rod \d · exhaust lobe \d, one change each:\n {2}change +dimension +from +to +gap/m,
    );
    expect(rig.out).toMatch(/^Nothing to cure: no gap is below its limit\.$/m);
  });
});

describe('a build that can’t be judged', () => {
  it('names an unknown key with its place and value', async () => {
    const said = refusals(await check(bench({ 'block.wheelbase': stated('100 mm') })));
    expect(said).toHaveLength(1);
    expect(said[0]).toContain('block.wheelbase');
    expect(said[0]).toContain('known names');
    expect(said[0]).toContain('boreSpacing');
  });

  it('names several problems, one a line, each with place, value, rule and what is allowed', async () => {
    const said = refusals(
      await check(
        bench({
          'block.bore': stated('82 furlongs'),
          'assemblies[1].rod.length': stated('-3 mm'),
          'block.rotation': 'widdershins',
          speed: undefined,
        }),
      ),
    );
    expect(said).toHaveLength(4);
    expect(said.find((s) => s.startsWith('block.bore: 82 furlongs'))).toMatch(
      /\(dimension\)\. .*Allowed units of a length: in, .*mm\.$/,
    );
    expect(said.find((s) => s.startsWith('assemblies[1].rod.length: -3 mm'))).toMatch(
      /\(sign\)\. Allowed: greater than zero/,
    );
    expect(said.find((s) => s.startsWith('block.rotation: "widdershins"'))).toContain('clockwise');
    expect(said.find((s) => s.startsWith('speed:'))).toContain('missing');
  });

  it('prints control characters out of a file by their code', async () => {
    const said = refusals(await check(bench({ 'block.bore': stated('82 mm\n\u001b[31mred\u0007') })));
    expect(said).toHaveLength(1);
    expect(said[0]).toContain('82 mm\\u000a\\u001b[31mred\\u0007');
  });

  it('refuses a crank that can’t turn, with the length it needs', async () => {
    // r + |e| = 78 / 2 + 4 = 43 mm.
    const said = refusals(
      await check(
        bench({ 'assemblies[1].rod.length': stated('43 mm'), 'assemblies[1].piston.pinOffset': stated('-4 mm') }),
      ),
    );
    const turns = said.find((s) => s.includes('(assembly turns)'));
    expect(turns).toContain('assemblies[1].rod.length: 43 mm');
    expect(turns).toContain('43.000 mm');
  });

  it('refuses a later version, text that is no JSON, an empty file, and bytes that are no text', async () => {
    const [later, noJson, empty, bytes] = await Promise.all([
      check(bench({ version: 2 })),
      check(files.file('notes.txt', 'stroke 3.75, rods 6.0\n')),
      check(files.file('empty.json', '')),
      check(files.file('bytes.json', new Uint8Array([0x7b, 0xff, 0xfe, 0x7d]))),
    ]);
    expect(refusals(later!)).toEqual([expect.stringMatching(/^version: 2 .*later version.* reads version 1\.$/)]);
    expect(refusals(noJson!)[0]).toContain('readable file');
    expect(refusals(empty!)[0]).toContain('readable file');
    expect(refusals(bytes!)[0]).toContain('not UTF-8 text');
  });

  it('refuses a file that is not there, and a directory', async () => {
    const [missing, directory] = await Promise.all([check(`${files.path}/none.json`), check(files.path)]);
    expect(refusals(missing!)).toEqual([`${files.path}/none.json can't be used: there is no such file.`]);
    expect(refusals(directory!)).toEqual([`${files.path} can't be used: it is a directory.`]);
  });

  it('refuses an assembly that the build does not have, and names those it has', async () => {
    const [said] = refusals(await check(demo('bench-rig'), '--assembly', 'Dream'));
    expect(said).toContain('Dream');
    for (const name of ['As it stands on the bench', 'Short rod', 'Longer stroke']) expect(said).toContain(name);
  });
});

describe('arguments', () => {
  it('explains itself', async () => {
    const ran = await check('--help');
    expect(ran.status).toBe(0);
    expect(ran.err).toBe('');
    for (const word of ['FILE', '--assembly NAME', '--json', '--help', 'Exit status']) expect(ran.out).toContain(word);
  });

  it('refuses what it does not know, with a sentence', async () => {
    const given: [string[], string][] = [
      [[], 'No build file is named.'],
      [['--fit', 'a.json'], '--fit is not an option.'],
      [['-j', 'a.json'], '-j is not an option.'],
      [['a.json', 'b.json'], '2 files are named; one at a time is judged.'],
      [['a.json', '--assembly'], '--assembly needs the name of an assembly.'],
      [['--assembly', '--json', 'a.json'], '--assembly needs the name of an assembly.'],
      [['--assembly=', 'a.json'], '--assembly needs the name of an assembly.'],
      [['--json=yes', 'a.json'], '--json takes no value.'],
      [['--json', '--json', 'a.json'], '--json is given more than once.'],
      [['--pairs', 'a.json'], '--pairs takes distinct or all, not a.json.'],
      [['--pairs=', 'a.json'], '--pairs needs distinct or all.'],
      [['--', '--json', '-'], '2 files are named; one at a time is judged.'],
      [['--constructor', 'a.json'], '--constructor is not an option.'],
    ];
    for (const [args, sentence] of given) {
      expect(readOptions(args)).toEqual({ kind: 'refused', sentence: `${sentence} See --help.` });
    }
    expect(refusals(await check('--fit', 'a.json'))).toEqual(['--fit is not an option. See --help.']);
  });

  it('takes a file and options in any order; what is not asked for has its usual meaning', () => {
    const usual = {
      assembly: undefined,
      pairs: 'distinct',
      cures: false,
      'mock-up': false,
      json: false,
      sensitivities: false,
      'monte-carlo': undefined,
      seed: undefined,
      map: undefined,
      'range-a': undefined,
      'range-b': undefined,
      cells: undefined,
      'keep-piston': false,
    };
    const asked = { ...usual, file: 'a.json', assembly: 'As it was', json: true };
    expect(readOptions(['--json', 'a.json', '--assembly', 'As it was'])).toEqual({ kind: 'asked', asked });
    expect(readOptions(['--assembly=As it was', '--json', 'a.json'])).toEqual({ kind: 'asked', asked });
    expect(readOptions(['--', '--json'])).toEqual({ kind: 'asked', asked: { ...usual, file: '--json' } });
    expect(readOptions(['--pairs', 'all', '--cures', 'a.json'])).toEqual({
      kind: 'asked',
      asked: { ...usual, file: 'a.json', pairs: 'all', cures: true },
    });
  });
});

describe('kinds of option', () => {
  const kinds = { map: texts(['A', 'B'], 'two dimensions', ''), runs: whole('N', 'a number of runs', 1, 1000, '') };

  it('several values, whole numbers', () => {
    expect(readArguments(kinds, ['--map', 'stroke', 'rod length', 'x', '--runs=20'])).toEqual({
      ok: true,
      values: { map: ['stroke', 'rod length'], runs: 20 },
      rest: ['x'],
    });
    const refused: [string[], string][] = [
      [['--map', 'stroke'], '--map needs two dimensions.'],
      [['--map', 'stroke', '--runs', '3'], '--map needs two dimensions.'],
      [['--map=stroke'], '--map takes 2 values, each after a blank.'],
      [['--runs', '0'], '--runs takes a whole number from 1 to 1000, not 0.'],
      [['--runs', '1e2'], '--runs takes a whole number from 1 to 1000, not 1e2.'],
      [['--runs=-5'], '--runs takes a whole number from 1 to 1000, not -5.'],
      [['--runs', '1001'], '--runs takes a whole number from 1 to 1000, not 1001.'],
    ];
    for (const [args, sentence] of refused) expect(readArguments(kinds, args)).toEqual({ ok: false, sentence });
  });
});
