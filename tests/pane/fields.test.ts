/** The table of fields against a document that has every dimension, and against the kinds of gaps. */
import { describe, expect, it } from 'vitest';
import { DEFAULT_LIMITS } from '../../src/build/limits.ts';
import { kindOf } from '../../src/build/literal.ts';
import { dimAt, placeOf, problemsAt, reasonText } from '../../src/pane/dimAt.ts';
import { FIELDS, FOLDERS } from '../../src/pane/fields.ts';
import { SAMPLE } from './sampleBuild.ts';

describe('fields of the pane', () => {
  it.each(FIELDS.filter((field) => field.folder !== 'Limits').map((field) => [field.id, field] as const))(
    '%s stands in the document, as a literal of its kind, in every assembly',
    (_id, field) => {
      SAMPLE.assemblies.forEach((_assembly, index) => {
        const dim = dimAt(SAMPLE, field.path(index));
        expect(dim).not.toBeNull();
        expect(kindOf(dim!.value)).toBe(field.kind);
      });
    },
  );

  it('offers the limit of every kind of gap, once', () => {
    const kinds = FIELDS.flatMap((field) => (field.limit === undefined ? [] : [field.limit]));
    expect([...kinds].sort()).toEqual(Object.keys(DEFAULT_LIMITS).sort());
    for (const field of FIELDS) if (field.limit !== undefined) expect(field.path(0)).toEqual(['limits', field.limit]);
  });

  it('reads the one limit that the document states, and none that it leaves out', () => {
    expect(dimAt(SAMPLE, ['limits', 'rod-camshaft'])?.value).toBe('.050 in');
    expect(dimAt(SAMPLE, ['limits', 'deck'])).toBeNull();
    expect(dimAt(SAMPLE, ['assumedAllowance'])).toBeNull();
  });

  it('has one id, label and path a field, in a folder that exists', () => {
    expect(new Set(FIELDS.map((field) => field.id)).size).toBe(FIELDS.length);
    expect(new Set(FIELDS.map((field) => placeOf(field.path(0)))).size).toBe(FIELDS.length);
    expect(new Set(FIELDS.map((field) => field.label)).size).toBe(FIELDS.length);
    for (const field of FIELDS) {
      expect(FOLDERS).toContain(field.folder);
      expect(field.hint).toMatch(/^[A-Z].*\.$/);
      expect(field.label).not.toContain('!');
    }
  });

  it('follows the assembly on show', () => {
    const stroke = FIELDS.find((field) => field.id === 'crank.stroke')!;
    expect([0, 1, 2].map((index) => dimAt(SAMPLE, stroke.path(index))?.value)).toEqual([
      '3.480 in',
      '3 7/8 in',
      '3.750 in',
    ]);
  });
});

describe('places', () => {
  it('writes a path as a problem names it', () => {
    expect(placeOf(['assemblies', 1, 'crank', 'stroke'])).toBe('assemblies[1].crank.stroke');
    expect(placeOf(['limits', 'rod-camshaft'])).toBe('limits.rod-camshaft');
  });

  it('finds the problems of a dimension and of its parts, not of one whose name begins alike', () => {
    const problem = (place: string) => ({ place, value: '', rule: 'rule', allowed: '' });
    const all = [
      'assemblies[1].rod.length',
      'assemblies[1].rod.length.value',
      'assemblies[1].rod.lengthwise',
      'assemblies[0].rod.length',
    ];
    const found = problemsAt(all.map(problem), ['assemblies', 1, 'rod', 'length']);
    expect(found.map(({ place }) => place)).toEqual(all.slice(0, 2));
  });

  it('gives null for what is no dimension, inherited names included', () => {
    expect(dimAt(SAMPLE, ['block'])).toBeNull();
    expect(dimAt(SAMPLE, ['block', 'toString'])).toBeNull();
    expect(dimAt(SAMPLE, ['assemblies', 7, 'crank', 'stroke'])).toBeNull();
  });

  it('says a reason with and without a value', () => {
    expect(reasonText('12 in', 'Allowed: 1 in to 6 in.')).toBe('12 in is refused. Allowed: 1 in to 6 in.');
    expect(reasonText('', 'Allowed: a length.')).toBe('Refused. Allowed: a length.');
  });
});
