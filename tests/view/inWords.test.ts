/** What the table of words says of the section, against the slider-crank worked by hand. */
import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/assembly/layOut.ts';
import type { BuildDocument } from '../../src/build/document.ts';
import { standing } from '../../src/model/standing.ts';
import { standingWords } from '../../src/view/inWords.ts';
import { exampleSingle } from '../support/exampleBuild.ts';

const DEG = Math.PI / 180;

function standingOf(doc: BuildDocument, name: RegExp, afterTdcDeg: number) {
  const engine = layOut(doc, doc.proposed);
  const body = engine.bodies.find((each) => name.test(each.name))!;
  const crankAngleRad = engine.cylinders[0]!.tdcRad + afterTdcDeg * DEG;
  return { engine, at: standing({ engine, doc, crankAngleRad }, body) };
}

describe('a single cylinder, pin on the bore axis', () => {
  const doc = exampleSingle();
  const { engine } = standingOf(doc, /^rod \d/, 0);
  const { crankRadiusMm: r, rodLengthMm: l, offsetMm } = engine.cylinders[0]!.slider;

  it('is without offset, standing upright', () => {
    expect(offsetMm).toBe(0);
    expect(engine.cylinders[0]!.bankAngleRad).toBe(0);
  });

  it('at top dead centre the rod stands upright and the piston stands', () => {
    const rod = standingOf(doc, /^rod \d/, 0).at;
    if (rod.kind !== 'rod') throw new Error(rod.kind);
    expect(rod.leanRad).toBeCloseTo(0, 12);
    expect(rod.bigEndMm[1]).toBeCloseTo(r, 9);
    expect(standingWords(rod, '', 'mm')).toMatch(
      /^stands upright; big end 0\.00 mm to the right of and [\d.]+ mm above/,
    );
    expect(standingWords(standingOf(doc, /^piston/, 0).at, '', 'mm')).toBe(
      '0.00 mm below top dead centre, standing at its dead centre',
    );
  });

  it('a quarter of a turn on the crankpin is level: the rod leans by asin(r / l), away from it', () => {
    const rod = standingOf(doc, /^rod \d/, 90).at;
    if (rod.kind !== 'rod') throw new Error(rod.kind);
    // Clockwise: the pin is on the right, the small end above and to the left of it.
    expect(rod.bigEndMm[0]).toBeCloseTo(r, 9);
    expect(rod.bigEndMm[1]).toBeCloseTo(0, 9);
    expect(rod.leanRad).toBeCloseTo(-Math.asin(r / l), 12);
    expect(standingWords(rod, '', 'mm')).toContain(
      `leans ${((Math.asin(r / l) * 180) / Math.PI).toFixed(1)}° to the left`,
    );
    const piston = standingOf(doc, /^piston/, 90).at;
    if (piston.kind !== 'piston') throw new Error(piston.kind);
    expect(piston.belowTdcMm).toBeCloseTo(r + l - Math.sqrt(l * l - r * r), 9);
    expect(standingWords(piston, '', 'mm')).toMatch(/ mm below top dead centre, moving inward at [\d.]+ m\/s$/);
    expect(standingWords(standingOf(doc, /^piston/, 270).at, '', 'mm')).toContain('moving outward');
  });

  it('what turns points where the crankpin is; the other way round for the other rotation', () => {
    const weight = standingOf(doc, /^counterweight/, 90).at;
    expect(standingWords(weight, 'crankpin side', 'mm')).toBe('crankpin side points 90.0° clockwise of straight up');
    const other: BuildDocument = { ...doc, block: { ...doc.block, rotation: 'counterclockwise' } };
    expect(standingWords(standingOf(other, /^counterweight/, 90).at, 'crankpin side', 'mm')).toContain('points 270.0°');
    expect(standingWords(standingOf(other, /^rod \d/, 90).at, '', 'mm')).toContain('to the right; big end');
  });

  it('the block is fixed', () => {
    expect(standingWords(standingOf(doc, /^bore/, 90).at, '', 'mm')).toBe('fixed');
  });
});
