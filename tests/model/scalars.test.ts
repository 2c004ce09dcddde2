/** Sums by hand from the dimensions of the example builds; inches and millimetres as they are written there. */
import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/assembly/layOut.ts';
import type { BuildDocument } from '../../src/build/document.ts';
import { type Scalar, type ScalarName, scalarsOf } from '../../src/model/scalars.ts';
import { changed } from '../support/changed.ts';
import { dim, exampleIn, exampleInline6, exampleSingle, exampleV8 } from '../support/exampleBuild.ts';

function named(doc: BuildDocument, name: ScalarName, assembly = doc.proposed): Scalar[] {
  return scalarsOf(doc, layOut(doc, assembly)).filter((scalar) => scalar.name === name);
}

const altered = (doc: BuildDocument, changes: Record<string, unknown>): BuildDocument =>
  changed(doc, changes) as unknown as BuildDocument;

describe('V8', () => {
  const doc = exampleV8();

  it('rods: 1.900 less twice .940 leaves .020 on each pin, the faces .006 off the cheeks', () => {
    const side = named(doc, 'rod side clearance');
    expect(side.map((s) => s.throw)).toEqual([1, 2, 3, 4]);
    for (const s of side) {
      expect(s.valueMm).toBeCloseTo(0.02 * 25.4, 9);
      expect(s.guideMm).toBeCloseTo(0.01 * 25.4, 9);
      expect(s.state).toBe('clears');
    }
    // Bores .948 apart, so big ends reach .474 + .470 from the middle; the cheeks stand .950 from it.
    const faces = named(doc, 'cheek face to rod');
    expect(faces.map((s) => `${s.throw} ${s.side}`)).toEqual([1, 2, 3, 4].flatMap((t) => [`${t} front`, `${t} rear`]));
    for (const s of faces) expect(s.valueMm).toBeCloseTo(0.006 * 25.4, 9);
  });

  // Pin .040 in off the crank axis: by Pythagoras the pin stands sqrt((l + r)^2 - e^2) up at the top, sqrt((l - r)^2 - e^2) at the bottom.
  it('skirt and quench with an offset pin', () => {
    const lowest = Math.sqrt(4.095 ** 2 - 0.04 ** 2) - 1.05;
    const highest = Math.sqrt(7.905 ** 2 - 0.04 ** 2) + 1.395;
    expect(named(doc, 'skirt below the bore')).toHaveLength(8);
    for (const s of named(doc, 'skirt below the bore')) {
      expect(s.valueMm / 25.4).toBeCloseTo(3.9 - lowest, 9);
      expect(s.guideMm).toBeNull();
      expect(s.state).toBeUndefined();
    }
    for (const s of named(doc, 'quench')) {
      expect(s.valueMm / 25.4).toBeCloseTo(9.31 - highest + 0.039, 9);
      expect(s.state).toBe('clears');
    }
  });

  // Half of 2.450 + 1.875 - 3.810, and of 2.450 + 2.125 - 3.560.
  it('journal overlap, ground and as removed', () => {
    expect(named(doc, 'journal overlap').map((s) => s.valueMm / 25.4)).toEqual([expect.closeTo(0.2575, 9)]);
    expect(named(doc, 'journal overlap', doc.replaced).map((s) => s.valueMm / 25.4)).toEqual([
      expect.closeTo(0.5075, 9),
    ]);
    expect(named(doc, 'split pin overlap')).toEqual([]);
  });

  it('a rod of its own and a cheek moved along the shaft count where they are', () => {
    // .005 in wider on each side of rod 4: .020 - .010 on throw 2, on its guide; its face .001 from the rear cheek.
    const wide = altered(doc, {
      'assemblies[1].own': [{ body: 'rod', cylinder: 4, set: { bigEndWidth: dim('.950 in') } }],
    });
    const side = named(wide, 'rod side clearance');
    expect(side.map((s) => s.valueMm / 25.4)).toEqual([0.02, 0.01, 0.02, 0.02].map((v) => expect.closeTo(v, 9)));
    expect(side.map((s) => s.state)).toEqual(['clears', 'clears', 'clears', 'clears']);
    const rear = named(wide, 'cheek face to rod').find((s) => s.throw === 2 && s.side === 'rear')!;
    expect(rear.valueMm / 25.4).toBeCloseTo(0.001, 9);
    const moved = altered(doc, {
      'assemblies[1].own': [{ body: 'counterweight', throw: 3, side: 'front', axialShift: dim('.007 in') }],
    });
    const states = named(moved, 'cheek face to rod').map((s) => `${s.throw} ${s.side} ${s.state}`);
    expect(states.filter((s) => s.endsWith('contact'))).toEqual(['3 front contact']);
  });

  it('a face names the assumed dimensions of its own place only', () => {
    const doubtful = altered(doc, {
      'assemblies[1].own': [
        { body: 'counterweight', throw: 3, side: 'front', axialShift: dim('.001 in', 'assumed') },
        { body: 'rod', cylinder: 1, set: { bigEndWidth: dim('.940 in', 'assumed') } },
      ],
    });
    const names = named(doubtful, 'cheek face to rod').map((s) => s.assumed.join(', '));
    expect(names).toEqual(['rod big end width', 'rod big end width', '', '', 'counterweight axial shift', '', '', '']);
    const bank = named(altered(doc, { 'block.bankOffset': dim('.948 in', 'assumed') }), 'cheek face to rod');
    expect(new Set(bank.map((s) => s.assumed.join(', ')))).toEqual(new Set(['block bank offset']));
  });

  it('below its guide it is tight, and on assumed dimensions unproven', () => {
    const tight = altered(doc, { 'assemblies[1].crank.journalLength': dim('1.889 in') });
    expect(new Set(named(tight, 'rod side clearance').map((s) => s.state))).toEqual(new Set(['tight']));
    const unproven = altered(doc, { 'assemblies[1].crank.journalLength': dim('1.900 in', 'assumed') });
    for (const s of named(unproven, 'rod side clearance')) {
      expect(s.state).toBe('unproven');
      expect(s.assumed).toEqual(['crank journal length']);
    }
    // .020 less an allowance of .011 is below .010.
    const allowed = { ...unproven, assumedAllowance: dim('.011 in') };
    expect(new Set(named(allowed, 'rod side clearance').map((s) => s.state))).toEqual(new Set(['tight']));
  });
});

it('single: no offset, millimetres', () => {
  const doc = exampleSingle();
  expect(named(doc, 'rod side clearance').map((s) => s.valueMm)).toEqual([expect.closeTo(25 - 24.6, 9)]);
  expect(named(doc, 'cheek face to rod').map((s) => s.valueMm)).toEqual([0.2, 0.2].map((v) => expect.closeTo(v, 9)));
  // 152.4 - 46 - 25 = 81.4 above the axis, the bore ends at 95.
  expect(named(doc, 'skirt below the bore').map((s) => s.valueMm)).toEqual([expect.closeTo(13.6, 9)]);
  // 237 - 46 - 152.4 - 38 = 0.6, gasket 1.0.
  expect(named(doc, 'quench').map((s) => s.valueMm)).toEqual([expect.closeTo(1.6, 9)]);
  expect(named(doc, 'journal overlap').map((s) => s.valueMm)).toEqual([expect.closeTo((55 + 48 - 92) / 2, 9)]);
});

it('inline six: 1.160 - 1.148 leaves .012, half of it on each side', () => {
  const doc = exampleInline6();
  for (const s of named(doc, 'rod side clearance')) expect(s.valueMm / 25.4).toBeCloseTo(0.012, 9);
  for (const s of named(doc, 'cheek face to rod')) expect(s.valueMm / 25.4).toBeCloseTo(0.006, 9);
});

// Chord of 30 and of 60 degrees on the circle of the pins: stroke times the sine of half the angle.
it('split pins overlap by the journal less the chord between them', () => {
  const sin15 = (Math.sqrt(6) - Math.sqrt(2)) / 4;
  const v90 = named(exampleIn('v6-90-split-pins', [1, 6, 5, 4, 3, 2]), 'split pin overlap');
  expect(v90.map((s) => s.throw)).toEqual([1, 2, 3]);
  for (const s of v90) expect(s.valueMm / 25.4).toBeCloseTo(1.875 - 3.81 * sin15, 9);
  const v60 = named(exampleIn('v6-60-split-pins', [1, 2, 3, 4, 5, 6]), 'split pin overlap');
  for (const s of v60) expect(s.valueMm / 25.4).toBeCloseTo(1.875 - 3.81 / 2, 9);
});

// Published: rod side clearance .010 to .020 in (J. Smart, "The Mock-Up", Mustang & Fords, 30 June 2007); quench from .040 in
// (online course lesson "Piston To Head Clearance").
it('the guides are the published ones', () => {
  const doc = exampleV8();
  expect(named(doc, 'rod side clearance')[0]!.guideMm).toBeCloseTo(0.254, 12);
  expect(named(doc, 'quench')[0]!.guideMm).toBeCloseTo(1.016, 12);
});
