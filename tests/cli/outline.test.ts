/** The command `outline` as a process: an outline put into a build, judged by `check`, drawn, taken out, and what is refused. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { parseBuild } from '../../src/build/index.ts';
import { readOutlineOptions } from '../../src/cli/outlineOptions.ts';
import { readOutlineDxf } from '../../src/exchange/index.ts';
import { shape, signedDistanceMm } from '../oracle/plane.ts';
import { check, demo, demoContent, folder, lines, outline } from './command.ts';

const work = folder();
afterAll(work.remove);

const SAMPLE = 'assets/samples/counterweight.csv';
const V8 = demo('quarry-v8');
const CHEEK = 'counterweight 2 rear';

const read = (path: string) => {
  const build = parseBuild(readFileSync(path, 'utf8'));
  if (!build.ok) throw new Error(JSON.stringify(build.problems));
  return build.doc;
};

describe('a measured outline', () => {
  it('goes into a new file, changes the gaps of its body alone, is drawn, and comes out again', async () => {
    const [out, dxf, svg, back] = ['new.json', 'new.dxf', 'new.svg', 'back.json'].map((name) => join(work.path, name));
    const fitted = await outline(V8, '--body', CHEEK, '--fit', SAMPLE, '--out', out!, '--deviation', '.004 in');
    expect(fitted.err).toBe('');
    expect(fitted.status).toBe(0);
    expect(fitted.out).toContain('217 points fitted by');
    const [own] = read(out!).assemblies.find((a) => a.name === read(out!).proposed)!.own!;
    expect(own).toMatchObject({ body: 'counterweight', throw: 2, side: 'rear', outlineFrom: 'measured' });
    expect(own).toMatchObject({ outlineDeviation: { value: '.004 in', from: 'stated' } });

    const [before, after, drawn, sheet] = await Promise.all([
      check(V8, '--json', '--pairs', 'all'),
      check(out!, '--json', '--pairs', 'all'),
      outline(out!, '--body', CHEEK, '--template', dxf!),
      outline(out!, '--body', CHEEK, '--template', svg!, '--seen', 'rear'),
    ]);
    const gaps = (text: string): Map<string, number> =>
      new Map(JSON.parse(text).gaps.map((g: { between: string[]; gapMm: number }) => [g.between.join(' · '), g.gapMm]));
    const [was, is] = [gaps(before.out), gaps(after.out)];
    for (const [pair, gapMm] of is) {
      if (pair.startsWith(CHEEK)) continue;
      expect(Math.abs(gapMm - was.get(pair)!), pair).toBeLessThan(1e-9);
    }
    // The lug makes the counterweight reach 89.2 mm, 1.7 mm beyond its rim of 87.5 mm: the gap to the pan rail falls by no more than that
    // and the deviation, and it falls.
    const rail = `${CHEEK} · crankcase wall`;
    expect(is.get(rail)!).toBeLessThan(was.get(rail)! + 1e-9);
    expect(is.get(rail)!).toBeGreaterThan(was.get(rail)! - 1.7 - 3 * 0.1016);

    // Drawn at full size: every point of the sample lies within the deviation of the drawing, as far as another reader can tell.
    expect([drawn.status, sheet.status]).toEqual([0, 0]);
    const drawing = readOutlineDxf(readFileSync(dxf!, 'utf8'), 'mm');
    if (!drawing.ok) throw new Error(JSON.stringify(drawing.problems));
    const edges = shape(drawing.outline.pieces);
    const points = lines(readFileSync(SAMPLE, 'utf8'))
      .filter((line) => /^-?[\d.]/.test(line))
      .map((line) => line.split(',').map((cell) => Number(cell) * 25.4));
    expect(points).toHaveLength(217);
    for (const [x, y] of points) expect(Math.abs(signedDistanceMm(edges, x!, y!))).toBeLessThan(0.1016 + 1e-6);
    expect(readFileSync(svg!, 'utf8')).toContain('As seen from the rear of the engine');
    expect(readFileSync(svg!, 'utf8')).toContain('100 mm');

    const cleared = await outline(out!, '--body', CHEEK, '--clear', '--out', back!);
    expect(cleared.status).toBe(0);
    expect(JSON.parse(readFileSync(back!, 'utf8'))).toEqual(demoContent('quarry-v8'));
  });

  it('of a whole set, and of a new fixed part', async () => {
    const [rods, pump] = ['rods.json', 'pump.json'].map((name) => join(work.path, name));
    const first = await outline(
      V8,
      '--body',
      'rods',
      '--fit',
      'assets/samples/rod.dxf',
      '--unit',
      'in',
      '--out',
      rods!,
    );
    expect(first.err).toBe('');
    const second = await outline(
      ...[rods!, '--body', 'oil pump', '--fit', 'assets/samples/oil-pump.dxf', '--unit', 'mm', '--out', pump!],
      ...['--front-face=-20 mm', '--rear-face=60 mm', '--from', 'assumed'],
    );
    expect(second.err).toBe('');
    const doc = read(pump!);
    expect(doc.assemblies.find((a) => a.name === doc.proposed)!.rod.outline!.length).toBeGreaterThan(10);
    expect(doc.block.fixed).toMatchObject([{ name: 'oil pump', from: 'assumed', front: { value: '-20 mm' } }]);
  });
});

describe('what is refused', () => {
  const out = join(work.path, 'never.json');
  const fitting = (file: string, ...more: readonly string[]) => ['--body', CHEEK, '--fit', file, '--out', out, ...more];

  it.each<[string, readonly string[], RegExp]>([
    ['no build', ['--body', CHEEK], /No build file is named/],
    ['no body', [V8], /No body is named/],
    ['nothing to do', [V8, '--body', CHEEK], /Nothing to do/],
    ['no place to write', [V8, '--body', CHEEK, '--fit', SAMPLE], /--out FILE/],
    [
      'a place to write nothing',
      [V8, '--body', CHEEK, '--template', 'a.svg', '--out', out],
      /--out is the changed build/,
    ],
    ['both to fit and to take out', [V8, ...fitting(SAMPLE, '--clear')], /Either --fit or --clear/],
    ['a drawing of another kind', [V8, '--body', CHEEK, '--template', 'sheet.png'], /\.svg or \.dxf/],
    [
      'one file for two things',
      [V8, ...fitting(SAMPLE, '--template', 'a.svg', '--replace').map((a) => (a === out ? 'a.svg' : a))],
      /name one file/,
    ],
    ['an option of another command', [V8, '--json'], /--json is not an option/],
  ])('%s', (_, args, says) => {
    expect(readOutlineOptions(args)).toMatchObject({ kind: 'refused', sentence: expect.stringMatching(says) });
  });

  it('files and bodies that can’t be used, each with its reason, and nothing is written', async () => {
    const cases: readonly (readonly [readonly string[], RegExp])[] = [
      [['--body', 'counterweight 9 rear', '--clear', '--out', out], /There are: counterweight 1 front/],
      [['--body', CHEEK, '--clear', '--out', out], /no measured outline/],
      [fitting(SAMPLE, '--deviation', '.002'), /--deviation: .002 is refused/],
      [fitting('no-such.csv'), /can't be read/],
      [fitting('assets/samples/rod.dxf', '--unit', 'in'), /outline around its shafts/],
      [fitting(work.file('nan.csv', 'x mm,y mm\n1,2\nNaN,3\n4,5\n')), /nan.csv: line 3: NaN: Allowed: a number/],
    ];
    const ran = await Promise.all(cases.map(([args]) => outline(V8, ...args)));
    for (const [k, { status, out: said, err }] of ran.entries()) {
      expect(err).toMatch(cases[k]![1]);
      expect([status, said]).toEqual([2, '']);
    }
    expect(existsSync(out)).toBe(false);
  });

  it('to write over a file, unless told to', async () => {
    const there = work.file('there.json', 'kept');
    const args = [V8, '--body', CHEEK, '--fit', SAMPLE, '--out', there];
    const first = await outline(...args);
    expect([first.status, first.err]).toEqual([2, `${there} is there already; --replace writes over it.\n`]);
    expect(readFileSync(there, 'utf8')).toBe('kept');
    expect((await outline(...args, '--replace')).status).toBe(0);
    expect(read(there).name).toBe(read(V8).name);
  });
});
