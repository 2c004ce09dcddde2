/** Tables of measured points: separators, decimals, units, polar, and every row that is refused with its line. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CsvOptions, readOutlineCsv } from '../../src/exchange/readCsv.ts';
import { fileProblemSentence } from '../../src/exchange/units.ts';

const read = (text: string, options?: CsvOptions) => {
  const result = readOutlineCsv(text, options);
  if (!result.ok) throw new Error(result.problems.map(fileProblemSentence).join('\n'));
  return result;
};
const problems = (text: string, options?: CsvOptions) => {
  const result = readOutlineCsv(text, options);
  return result.ok ? [] : result.problems;
};

describe('tables', () => {
  it.each<[string, string, CsvOptions, readonly (readonly [number, number])[]]>([
    [
      'comma, heading with units',
      'x [mm],y [mm]\n1,2\n-3.5,.25\n',
      {},
      [
        [1, 2],
        [-3.5, 0.25],
      ],
    ],
    [
      'comma, no heading',
      '1,2\r\n3,4',
      { unit: 'mm' },
      [
        [1, 2],
        [3, 4],
      ],
    ],
    ['inches', 'x in,y in\n1,-2\n', {}, [[25.4, -50.8]]],
    ['inches by argument', 'x,y\n0.5,2', { unit: 'in' }, [[12.7, 50.8]]],
    [
      'semicolon, decimal comma',
      'x_mm;y_mm\n12,5;-3,25\n1;2',
      {},
      [
        [12.5, -3.25],
        [1, 2],
      ],
    ],
    ['semicolon, decimal point', '12.5;-3.25', { unit: 'mm' }, [[12.5, -3.25]]],
    ['tab', 'y (mm)\tx (mm)\n1\t2', {}, [[2, 1]]],
    ['further columns', 'point,x mm,y mm,remark\n1,2,3,"edge, chipped"', {}, [[2, 3]]],
    ['blank rows and remarks', '# by hand\n\nx mm,y mm\n\n# rim\n1,2\n', {}, [[1, 2]]],
    ['byte order mark, capitals, exponent, real minus', '\uFEFFX MM,Y MM\n1e1,\u22122.5E+0', {}, [[10, -2.5]]],
    ['quoted cells', '"x mm";"y mm"\n"1,5";"2,5"', {}, [[1.5, 2.5]]],
  ])('%s', (_, text, options, points) => {
    expect(read(text, options).points).toEqual(points);
  });

  it('polar: clockwise from +y', () => {
    const { points, columns } = read('radius mm;angle deg\n10;0\n10;90\n10;180\n10;-90\n20;30');
    expect(columns).toBe('polar');
    const expected = [
      [0, 10],
      [10, 0],
      [0, -10],
      [-10, 0],
      [10, 20 * Math.cos(Math.PI / 6)],
    ];
    points.forEach(([x, y], k) => {
      expect(x).toBeCloseTo(expected[k]![0]!, 12);
      expect(y).toBeCloseTo(expected[k]![1]!, 12);
    });
    expect(read('2,90', { unit: 'in', columns: 'polar' }).points[0]![0]).toBeCloseTo(50.8, 12);
  });

  it('says what it took', () => {
    expect(read('no;r in;angle;remark\n1;2;45;a')).toMatchObject({
      unit: 'in',
      columns: 'polar',
      separator: ';',
      leftOut: ['no', 'remark'],
      lines: [2],
    });
  });

  it('numbers come back whatever the separator and the decimal mark', () => {
    const number = fc.integer({ min: -9_999_999, max: 9_999_999 }).map((n) => n / 1000);
    fc.assert(
      fc.property(
        fc.array(fc.tuple(number, number), { minLength: 1, maxLength: 20 }),
        fc.constantFrom([',', '.'], [';', '.'], [';', ','], ['\t', '.']),
        (points, [separator, mark]) => {
          const say = (n: number) => String(n).replace('.', mark!);
          const text = points.map(([x, y]) => `${say(x)}${separator}${say(y)}`).join('\n');
          expect(read(text, { unit: 'mm' }).points).toEqual(points.map(([x, y]) => [x || 0, y || 0]));
        },
      ),
      { seed: 311, numRuns: 200 },
    );
  });

  it('never throws', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'x,y;\t\n"1.-e #rmin[]\u0000') }), (text) => {
        const result = readOutlineCsv(text, { unit: 'mm' });
        if (result.ok) for (const p of result.points) expect(p.every(Number.isFinite)).toBe(true);
        else expect(result.problems.length).toBeGreaterThan(0);
      }),
      { seed: 312, numRuns: 2000 },
    );
  });
});

describe('refusals', () => {
  it.each<[string, string, CsvOptions, number, string]>([
    ['nothing', ' \n# only a remark\n', {}, 0, 'no rows'],
    ['one column', '1\n2', { unit: 'mm' }, 1, 'One column'],
    ['no unit', '1,2', {}, 0, 'unit'],
    ['no unit in the heading', 'x,y\n1,2', {}, 0, 'unit'],
    ['heading against argument', 'x mm,y mm\n1,2', { unit: 'in' }, 1, 'in was asked'],
    ['columns against argument', 'x mm,y mm\n1,2', { columns: 'polar' }, 1, 'radius and angle was asked'],
    ['two units', 'x mm,y in\n1,2', {}, 1, 'two units'],
    ['degrees of a length', 'x deg,y mm\n1,2', {}, 1, 'mm or in'],
    ['millimetres of an angle', 'r mm,angle mm\n1,2', {}, 1, 'deg for an angle'],
    ['two of a name', 'x mm,x mm\n1,2', {}, 1, 'Two columns'],
    ['a heading without pair', 'a mm,b mm\n1,2', {}, 1, 'no pair'],
    ['both pairs', 'x,y,r,angle\n1,2,3,4', { unit: 'mm' }, 1, 'Both'],
    ['three columns without heading', '1,2,3', { unit: 'mm' }, 1, '3 columns'],
    ['a word', 'x mm,y mm\n1,2\n3,four', {}, 3, 'a number'],
    ['a unit in the cell', 'x mm,y mm\n1,2 mm', {}, 2, 'without unit'],
    ['an empty cell', 'x mm,y mm\n1,\n', {}, 2, 'empty'],
    ['a missing cell', 'x mm,y mm\n1\n', {}, 2, '1 cells'],
    ['a decimal comma between commas', 'x mm,y mm\n"1,5",2', {}, 2, 'semicolon'],
    ['a decimal comma between tabs', 'x mm\ty mm\n1,5\t2', {}, 2, 'semicolon'],
    ['both decimal marks', 'x mm;y mm\n1,5;2\n1.5;2', {}, 3, 'one of them'],
    ['grouped digits', 'x mm;y mm\n1.234,5;2', {}, 2, 'a number'],
    ['NaN', 'x mm,y mm\n1,NaN', {}, 2, 'a number'],
    ['Infinity', 'x mm,y mm\nInfinity,1', {}, 2, 'a number'],
    ['too far', 'x mm,y mm\n10001,1', {}, 2, '10000 mm'],
    ['too far by its exponent', 'x mm,y mm\n1e999,1', {}, 2, '10000 mm'],
    ['a negative radius', 'r mm,angle deg\n-1,1', {}, 2, 'radius'],
    ['an angle beyond two turns', 'r mm,angle deg\n1,721', {}, 2, '720'],
    ['an open quotation', 'x mm,y mm\n"1,2', {}, 2, 'not closed'],
    ['a heading alone', 'x mm,y mm\n', {}, 0, 'no rows'],
  ])('%s', (_, text, options, line, says) => {
    const [first] = problems(text, options);
    expect(first).toMatchObject({ line });
    expect(first!.says).toContain(says);
  });

  it('every row that is wrong is named, up to twenty', () => {
    const found = problems(`x mm,y mm\n${'1,2\n3,bad\n'.repeat(25)}`);
    expect(found).toHaveLength(21);
    expect(found.slice(0, 3).map((p) => p.line)).toEqual([3, 5, 7]);
    expect(found[20]!.says).toContain('5 further');
    expect(fileProblemSentence(found[0]!)).toMatch(/^line 3: bad: /);
  });
});
