import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  angleRad,
  convertLiteral,
  exactBase,
  formatIn,
  kindOf,
  lengthMm,
  massG,
  parseAngle,
  parseLength,
  parseSpeed,
  parseTyped,
  speedRpm,
  stepLiteral,
  withLengthMm,
  withoutTolerance,
} from '../../src/build/literal.ts';

const SEED = 20_240_611;

function mm(text: string): string {
  const read = parseLength(text);
  return read.ok ? read.mm.toFixed() : `refused: ${read.offending}`;
}

describe('lengths', () => {
  // 1 in = 25.4 mm exactly, agreement of 1 July 1959 (international yard and pound); products worked out by hand.
  it.each([
    ['3.750 in', '95.25'],
    ['.060 in', '1.524'],
    ['0.060 in', '1.524'],
    ['0 in', '0'],
    ['5/8 in', '15.875'],
    ['2 5/8 in', '66.675'],
    ['2-5/8 in', '66.675'],
    ['2  5/8 in', '66.675'],
    ['2 5/8"', '66.675'],
    ['9/8 in', '28.575'],
    ['60 thou', '1.524'],
    ['.5 thou', '0.0127'],
    ['152.4 mm', '152.4'],
    ['152.4mm', '152.4'],
    ['-0.010 in', '-0.254'],
    ['−.010 in', '-0.254'],
    ['+0.010 in', '0.254'],
    ['-1/64 in', '-0.396875'],
    ['-0 mm', '0'],
    ['10000 mm', '10000'],
    ['-10000 mm', '-10000'],
    ['393.70 in', '9999.98'],
    ['0.00000000000000000000000000000000001 in', '0.000000000000000000000000000000000254'],
  ])('%s is %s mm', (text, expected) => {
    expect(mm(text)).toBe(expected);
  });

  it('keeps the text and the unit', () => {
    expect(parseLength('2 5/8"')).toMatchObject({ ok: true, text: '2 5/8"', unit: 'in' });
    expect(parseLength('60 thou')).toMatchObject({ ok: true, text: '60 thou', unit: 'thou' });
  });

  it.each([
    ['3.750 ±0.001 in', '0.0254', '0.0254'],
    ['3.750 +/-0.001 in', '0.0254', '0.0254'],
    ['3.750±.001in', '0.0254', '0.0254'],
    ['3.750 +0.001/-0.000 in', '0.0254', '0'],
    ['3.750 +0.001 -0.002 in', '0.0254', '0.0508'],
    ['2 5/8 ±1/64 in', '0.396875', '0.396875'],
    ['95.25 ±0.02 mm', '0.02', '0.02'],
  ])('%s has tolerances %s and %s mm', (text, plus, minus) => {
    const read = parseLength(text);
    if (!read.ok) throw new Error(read.allowed);
    expect(read.toleranceMm?.plus.toFixed()).toBe(plus);
    expect(read.toleranceMm?.minus.toFixed()).toBe(minus);
  });

  it.each([
    ['2 5//8', '2 5//8', /Allowed: a number and its unit/],
    ['2 5//8 in', '2 5//8 in', /Allowed: a number and its unit/],
    ['3,460', '3,460', /decimal mark: 3\.460\./],
    ['3,460 in', '3,460 in', /decimal mark: 3\.460 in\./],
    ['1,234.5 mm', '1,234.5 mm', /no grouping/],
    ['NaN', 'NaN', /finite/],
    ['NaN mm', 'NaN mm', /finite/],
    ['Infinity', 'Infinity', /finite/],
    ['-Infinity in', '-Infinity in', /finite/],
    ['1e400 mm', '1e400 mm', /Exponents/],
    ['1E-3 in', '1E-3 in', /Exponents/],
    ['', '(empty)', /Allowed/],
    [' 3.750 in', ' 3.750 in', /blanks/],
    ['3.750 in\n', '3.750 in\n', /blanks/],
    ['3.750\tin', '3.750\tin', /Allowed/],
    ['3.750', '3.750', /unit is missing: in, ", thou or mm/],
    ['2 5/8', '2 5/8', /unit is missing/],
    ['3.750 ±0.001', '3.750 ±0.001', /unit is missing/],
    ['5/0 in', '5/0', /zero/],
    ['5/00 in', '5/00', /zero/],
    ['5/7 in', '5/7', /2, 4, 8, 16, 32 and 64/],
    ['5/1 in', '5/1', /2, 4, 8, 16, 32 and 64/],
    ['5/128 in', '5/128', /2, 4, 8, 16, 32 and 64/],
    ['1/99999999999999999999 in', '1/99999999999999999999', /2, 4, 8, 16, 32 and 64/],
    ['2 9/8 in', '2 9/8', /below one/],
    ['2 8/8 in', '2 8/8', /below one/],
    ['5/8 mm', '5/8', /inches only/],
    ['5/8 thou', '5/8', /inches only/],
    ['9.5 cm', 'cm', /in, ", thou or mm/],
    ['9.5 constructor', 'constructor', /in, ", thou or mm/],
    ['66 deg', 'deg', /in, ", thou or mm/],
    ['3. in', '3. in', /Allowed/],
    ['3.750 ±-0.001 in', '3.750 ±-0.001 in', /Allowed/],
    ['--3 in', '--3 in', /Allowed/],
    ['0x10 mm', '0x10 mm', /Allowed/],
    ['1_000 mm', '1_000 mm', /Allowed/],
    ['10000.001 mm', '10000.001 mm', /10 m/],
    ['-10000.001 mm', '-10000.001 mm', /10 m/],
    ['393.701 in', '393.701 in', /10 m/],
    [`${'1'.repeat(38)} mm`, `${'1'.repeat(38)} m…`, /40 characters/],
  ])('%j', (text, offending, allowed) => {
    const read = parseLength(text);
    if (read.ok) throw new Error(`${text} was accepted`);
    expect(read.offending).toBe(offending);
    expect(read.allowed).toMatch(allowed);
  });

  it('takes 40 characters', () => {
    expect(mm(`${'0'.repeat(36)}1 mm`)).toBe('1');
    expect(mm(`${'0'.repeat(37)}1 mm`)).toMatch(/^refused/);
  });

  it('reads any decimal or fraction and gives the value worked out in whole numbers', () => {
    fc.assert(
      fc.property(fc.nat(9_999_999), fc.integer({ min: 0, max: 5 }), fc.boolean(), (digits, places, negative) => {
        const padded = String(digits).padStart(places + 1, '0');
        const point = padded.length - places;
        const text = `${negative ? '-' : ''}${padded.slice(0, point)}${places > 0 ? `.${padded.slice(point)}` : ''}`;
        const scale = 10n ** BigInt(places);
        const value = BigInt(digits) * (negative ? -1n : 1n);
        const read = parseLength(`${text} in`);
        // Beyond 10 m: digits * 254 > 100000 * 10^places.
        if (BigInt(digits) * 254n > 100_000n * scale) expect(read.ok).toBe(false);
        else {
          if (!read.ok) throw new Error(read.allowed);
          // mm * 10 * scale = digits * 254, exactly.
          expect(BigInt(read.mm.times(10).times(scale.toString()).toFixed())).toBe(value * 254n);
        }
      }),
      { seed: SEED, numRuns: 2000 },
    );
    fc.assert(
      fc.property(fc.nat(300), fc.nat(63), fc.integer({ min: 1, max: 6 }), (whole, over, power) => {
        const under = 2 ** power;
        fc.pre(over < under);
        const read = parseLength(`${whole} ${over}/${under} in`);
        if (!read.ok) throw new Error(read.allowed);
        // mm * 640 = (whole * 64 + over * 64 / under) * 254 in whole numbers.
        expect(read.mm.times(640).toFixed()).toBe(String((whole * 64 + (over * 64) / under) * 254));
      }),
      { seed: SEED, numRuns: 2000 },
    );
  });

  it('never throws and never gives a value that is not finite', () => {
    const alphabet = [...'0123456789./- +±"inmthoude°gNaIfy,_x'];
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...alphabet), maxLength: 45 }), (text) => {
        const read = parseLength(text);
        if (read.ok) expect(read.mm.isFinite() && read.mm.abs().lte(10_000)).toBe(true);
        else expect(read.offending.length).toBeGreaterThan(0);
      }),
      { seed: SEED, numRuns: 5000 },
    );
  });

  it('gives the nearest binary number', () => {
    expect(lengthMm('2 5/8 in')).toBe(66.675);
    expect(lengthMm('.060 in')).toBe(1.524);
    expect(() => lengthMm('2 5//8')).toThrow(/2 5\/\/8/);
  });
});

describe('angles and speeds', () => {
  it.each([
    ['66 deg', '66'],
    ['66.0°', '66'],
    ['-45 deg', '-45'],
    ['66 ±0.5 deg', '66'],
    ['720 deg', '720'],
  ])('%s is %s degrees', (text, expected) => {
    const read = parseAngle(text);
    expect(read.ok && read.deg.toFixed()).toBe(expected);
  });

  it('refuses what is no angle or speed', () => {
    expect(parseAngle('720.1 deg')).toMatchObject({ ok: false, offending: '720.1 deg' });
    expect(parseAngle('66')).toMatchObject({ ok: false, offending: '66' });
    expect(parseAngle('66 mm')).toMatchObject({ ok: false, offending: 'mm' });
    expect(parseAngle('1/2 deg')).toMatchObject({ ok: false, offending: '1/2' });
    expect(parseSpeed('3600')).toMatchObject({ ok: false, offending: '3600' });
    expect(parseSpeed('3600 rps')).toMatchObject({ ok: false, offending: 'rps' });
    expect(parseSpeed('100001 rpm')).toMatchObject({ ok: false, offending: '100001 rpm' });
  });

  it('converts at the edge', () => {
    expect(angleRad('180 deg')).toBe(Math.PI);
    expect(angleRad('90°')).toBe(Math.PI / 2);
    expect(speedRpm('3600 rpm')).toBe(3600);
  });
});

describe('another unit', () => {
  it.each([
    ['66.675', 'in', '2.625 in'],
    ['66.675', 'mm', '66.675 mm'],
    ['1.524', 'in', '.06 in'],
    ['1.524', 'thou', '60 thou'],
    ['-1.524', 'in', '-.06 in'],
    ['0', 'in', '0 in'],
    ['0.5', 'mm', '0.5 mm'],
    ['100', 'in', '3.937008 in'],
  ] as const)('%s mm in %s is %s', (value, unit, expected) => {
    expect(formatIn(new Decimal(value), unit)).toBe(expected);
  });

  it('asks for decimals', () => {
    expect(formatIn(new Decimal('1.524'), 'in', 3)).toBe('.060 in');
  });

  it.each([
    ['3.750 in', 'mm', '95.2500 mm', true],
    ['.060 in', 'mm', '1.5240 mm', true],
    ['3.750 ±.001 in', 'mm', '95.2500 ±0.0254 mm', true],
    ['3.750 +.001/-.002 in', 'mm', '95.2500 +0.0254/-0.0508 mm', true],
    ['.060 in', 'thou', '60 thou', true],
    ['100 mm', 'in', '3.937008 in', false],
    ['2 5/8 in', 'mm', '66.675 mm', true],
    ['2 5/8 in', 'in', '2 5/8 in', true],
  ] as const)('%s in %s is %s, exact: %s', (text, unit, expected, exact) => {
    expect(convertLiteral(text, unit)).toEqual({ text: expected, exact });
  });

  it('inches to millimetres and back gives the same characters', () => {
    fc.assert(
      fc.property(fc.nat(99_999), fc.integer({ min: 0, max: 6 }), fc.boolean(), (digits, places, negative) => {
        const padded = String(digits).padStart(places + 1, '0');
        const point = padded.length - places;
        const whole = padded.slice(0, point).replace(/^0$/, places > 0 ? '' : '0');
        const sign = negative && digits > 0 ? '-' : '';
        const text = `${sign}${whole}${places > 0 ? `.${padded.slice(point)}` : ''} in`;
        fc.pre(parseLength(text).ok);
        const there = convertLiteral(text, 'mm');
        expect(there.exact).toBe(true);
        expect(convertLiteral(there.text, 'in')).toEqual({ text, exact: true });
      }),
      { seed: SEED, numRuns: 3000 },
    );
  });

  it('remembers the characters it came from, whatever they were', () => {
    for (const text of ['2 5/8 in', '2-5/8"', '0.060 in', '3.750 ±0.001 in']) {
      expect(convertLiteral(convertLiteral(text, 'mm').text, 'in', text)).toEqual({ text, exact: true });
    }
    expect(convertLiteral('66.676 mm', 'in', '2 5/8 in').text).not.toBe('2 5/8 in');
  });
});

describe('stepping', () => {
  it.each([
    ['3.750 in', 1, '0.001 in', '3.751 in'],
    ['3.750 in', -10, '0.001 in', '3.740 in'],
    ['2.636 in', 1, '0.001 in', '2.637 in'],
    ['3.75 in', 1, '0.001 in', '3.751 in'],
    ['.060 in', 1, '0.010 in', '.070 in'],
    ['0.060 in', 1, '0.010 in', '0.070 in'],
    ['.999 in', 1, '0.001 in', '1.000 in'],
    ['1.000 in', -1, '0.001 in', '.999 in'],
    ['0 in', -1, '0.001 in', '-.001 in'],
    ['-.001 in', 1, '0.001 in', '.000 in'],
    ['2 5/8 in', 1, '1/16 in', '2 11/16 in'],
    ['2-5/8"', 1, '1/16 in', '2-11/16"'],
    ['2 5/8 in', 6, '1/16 in', '3 in'],
    ['3 in', -1, '1/16 in', '2 15/16 in'],
    ['1/64 in', -1, '1/32 in', '-1/64 in'],
    ['1/64 in', -1, '1/64 in', '0 in'],
    ['2 5/8 in', 1, '0.001 in', '2.626 in'],
    ['152.4 mm', 1, '0.1 mm', '152.5 mm'],
    ['152.4 mm', 1, '0.001 in', '152.4254 mm'],
    ['0.95 mm', 1, '0.1 mm', '1.05 mm'],
    ['1.05 mm', -1, '0.1 mm', '0.95 mm'],
    ['3.750 ±0.001 in', 1, '0.010 in', '3.760 ±0.001 in'],
    ['60 thou', 1, '0.001 in', '61 thou'],
    ['3.750 in', 1, '0.1 mm', '3.753937 in'],
    ['66 deg', 1, '0.5 deg', '66.5 deg'],
    ['66.0°', -2, '1 deg', '64.0°'],
    ['3600 rpm', 1, '100 rpm', '3700 rpm'],
  ])('%s by %d × %s is %s', (text, steps, increment, expected) => {
    expect(stepLiteral(text, steps, increment)).toBe(expected);
  });

  it('goes up and down without leaving anything behind', () => {
    fc.assert(
      fc.property(fc.integer({ min: 100, max: 99_999 }), fc.integer({ min: -90, max: 90 }), (thousandths, steps) => {
        const text = `${Math.floor(thousandths / 1000) || ''}.${String(thousandths % 1000).padStart(3, '0')} in`;
        const there = stepLiteral(text, steps, '0.001 in');
        expect(there).toMatch(/^\d*\.\d{3} in$/);
        expect(stepLiteral(there, -steps, '0.001 in')).toBe(text);
      }),
      { seed: SEED, numRuns: 2000 },
    );
  });

  it('refuses a mix of kinds', () => {
    expect(() => stepLiteral('66 deg', 1, '0.001 in')).toThrow(RangeError);
    expect(() => stepLiteral('rubbish', 1, '0.001 in')).toThrow(/rubbish/);
  });

  it.each([
    ['1.560 in', '38.1', '1.500 in'],
    ['1.560 in', '39.62400000000001', '1.560 in'],
    ['1 1/2 in', '39.6875', '1 9/16 in'],
    ['1 1/2 in', '39.6', '1.559055 in'],
    ['39.6 mm', '39.6875', '39.6875 mm'],
    ['1.560 ±0.002 in', '38.1', '1.500 ±0.002 in'],
    ['+1.560 in', '-25.4', '-1.000 in'],
  ])('%s with %s mm is %s', (text, value, expected) => {
    expect(withLengthMm(text, new Decimal(value))).toBe(expected);
  });
});

describe('what is typed over a literal', () => {
  it.each([
    ['3.460', '3.480 in', '3.460 in'],
    ['3.460', '3.480"', '3.460"'],
    ['88', '88.4 mm', '88 mm'],
    ['2 5/8', '2.5 in', '2 5/8 in'],
    ['2-5/8', '66 mm', '2-5/8 in'],
    ['2 5/8', '2 1/2"', '2 5/8"'],
    ['  3.460 IN ', '3.480 in', '3.460 in'],
    ['88 mm', '3.480 in', '88 mm'],
    ['3.460 ±0.001', '3.480 in', '3.460 ±0.001 in'],
    ['3.460 +0.001/-0.000', '3.480 mm', '3.460 +0.001/-0.000 mm'],
    ['3.460', '3.480 ±0.001 in', '3.460 in'],
    ['-.01', '0 in', '-.01 in'],
    ['60', '66 deg', '60 deg'],
    ['60', '66.0°', '60°'],
    ['4000', '3600 rpm', '4000 rpm'],
  ])('%j over %j keeps %j', (typed, former, expected) => {
    expect(parseTyped(typed, former)).toMatchObject({ ok: true, text: expected });
  });

  it.each([
    ['3,460', '3.480 in', '3,460'],
    ['2 5//8', '3.480 in', '2 5//8'],
    ['NaN', '3.480 in', 'NaN'],
    ['1e400', '3.480 in', '1e400'],
    ['', '3.480 in', '(empty)'],
    ['   ', '3.480 in', '(empty)'],
    ['60 deg', '3.480 in', 'deg'],
    ['1/0', '3.480 in', '1/0'],
    ['1/2', '66 deg', '1/2'],
    ['99999999', '3.480 in', '99999999'],
  ])('%j over %j is refused, naming %j', (typed, former, offending) => {
    expect(parseTyped(typed, former)).toMatchObject({ ok: false, offending });
  });
});

describe('other kinds of dimension', () => {
  // Exact by definition: the international pound of 1959, its sixteenth, and powers of the inch.
  it.each([
    ['1 lb', 'mass', '453.59237'],
    ['16 oz', 'mass', '453.59237'],
    ['0.5845 kg', 'mass', '584.5'],
    ['4 cu in', 'volume', '65.548256'],
    ['64 cc', 'volume', '64'],
    ['-8.5 cm3', 'volume', '-8.5'],
    ['.28 sq in', 'area', '180.6448'],
    ['205 GPa', 'stress', '205000'],
    ['12 cP', 'viscosity', '12'],
    ['80 °C', 'temperature', '80'],
    ['11.5 ppm/K', 'expansion', '11.5'],
  ] as const)('%s', (text, kind, base) => {
    expect(kindOf(text)).toBe(kind);
    expect(exactBase(text, kind).toFixed()).toBe(base);
  });

  it('a psi is a pound-force on a square inch', () => {
    // 6894.757293168 Pa: 4.4482216152605 N over 645.16 mm², as NIST SP 811 rounds it.
    expect(exactBase('1 psi', 'stress').times(1e6).toFixed(3)).toBe('6894.757');
  });

  it('are not taken for one another', () => {
    for (const text of ['3 g', '3 cc', '3 K', '3 sq in']) expect(parseLength(text).ok).toBe(false);
    expect(() => massG('3 mm')).toThrow('Allowed units of a mass: g, kg, oz or lb.');
    expect(kindOf('3 furlong')).toBeNull();
  });

  it('are typed with or without their unit, in any capitals', () => {
    expect(parseTyped('600', '584.5 g')).toEqual({ ok: true, text: '600 g', kind: 'mass' });
    expect(parseTyped('210 gpa', '205 GPa')).toEqual({ ok: true, text: '210 GPa', kind: 'stress' });
    expect(parseTyped('4.2', '4.1 cu in')).toEqual({ ok: true, text: '4.2 cu in', kind: 'volume' });
    expect(parseTyped('190', '180 mm2')).toEqual({ ok: true, text: '190 mm2', kind: 'area' });
  });

  it('give their value without the tolerance', () => {
    expect(withoutTolerance('6.734 ±0.10 mm')).toBe('6.734 mm');
    expect(withoutTolerance('4.180 +0.001/-0.000 in')).toBe('4.180 in');
    expect(withoutTolerance('-2 5/8"')).toBe('-2 5/8"');
    expect(withoutTolerance('12 ±1 mPa s')).toBe('12 mPa s');
  });

  it('step in their own unit', () => {
    expect(stepLiteral('584.5 g', 3, '0.1 g')).toBe('584.8 g');
    expect(stepLiteral('12 mPa s', -1, '1 mPa s')).toBe('11 mPa s');
  });
});
