/** Gaps of whole builds that can be worked out on paper, certified by the program. */
import { describe, expect, test } from 'vitest';
import { layOut } from '../../src/assembly/index.ts';
import { type BuildDocument, readContent } from '../../src/build/index.ts';
import type { Gap } from '../../src/model/results.ts';
import { solveGaps } from '../../src/model/solve.ts';
import { changed } from '../support/changed.ts';
import { exampleSingle, exampleV8 } from '../support/exampleBuild.ts';

function gapOf(doc: BuildDocument, changes: Readonly<Record<string, unknown>>, assembly: string, id: string): Gap {
  const read = readContent(changed(doc, changes));
  if (!read.ok) throw new Error(read.problems.map((p) => `${p.place} ${p.rule}`).join('; '));
  const found = solveGaps(layOut(read.doc, assembly), { assumedAllowanceMm: null, wanted: (p) => p.id === id })[0];
  if (found === undefined) throw new Error(`no pair ${id}`);
  return found;
}

/** Certified, at a crank angle if one is given, and neither side of the figure by more than a certificate. */
function expectGap(g: Gap, mm: number, atRad?: number): void {
  expect(g.certified).toBe(true);
  expect(g.lowerBoundMm).toBeLessThanOrEqual(mm + 1e-9);
  expect(Math.abs(g.gapMm - mm)).toBeLessThan(0.001);
  if (atRad !== undefined) expect(Math.abs(g.atCrankRad - atRad)).toBeLessThan(0.02);
}

const A = 'assemblies[0]';
const PAIR = 'counterweight 1 front · piston 1';
/** The single with its standard stroke: r 44, l 152.4 mm, no offset: at BDC the pin stands l - r = 108.4 mm from the crank axis, the counterweight straight up. */
const PIN_AT_BDC = 152.4 - 44;
const RIM = 75;

describe('counterweight and piston at BDC', () => {
  const at = (changes: Readonly<Record<string, unknown>>): Gap =>
    gapOf(exampleSingle(), changes, 'Standard stroke', PAIR);

  test('corner against arc: the skirt’s inner edge and the rim', () => {
    // The cheek lies 12.5 to 32.5 mm from the bore axis along the shaft; the skirt panel ends at 44.96 sin 35 deg = 25.788 there, where
    // its inner side (radius 40.96) stands sqrt(40.96^2 - 25.788^2) = 31.823 mm off the middle, 25 mm below the pin.
    const panel = 44.96 * Math.sin((35 * Math.PI) / 180);
    const inner = Math.sqrt(40.96 ** 2 - panel ** 2);
    expectGap(at({}), Math.hypot(inner, PIN_AT_BDC - 25) - RIM, Math.PI);
  });

  test('circle against a flat edge: a wall so thick that it is closed below the crown', () => {
    // Inner radius 44.96 - 30 = 14.96, less than the 25.788 mm along the shaft: the edge goes through the middle.
    expectGap(at({ [`${A}.piston.skirtThickness.value`]: '30 mm' }), PIN_AT_BDC - 25 - RIM, Math.PI);
  });

  test('exactly touching: contact, and not apart', () => {
    const g = at({
      [`${A}.piston.skirtThickness.value`]: '30 mm',
      [`${A}.crank.counterweight.radius.value`]: '83.4 mm',
      'block.panRail.halfWidth.value': '120 mm',
    });
    expect(Math.abs(g.gapMm)).toBeLessThan(1e-6);
    expect(g.lowerBoundMm).toBeLessThanOrEqual(0);
    expect(g.state).not.toBe('clears');
  });

  test('circle against circle: the pin boss and the rim, where the skirt is short', () => {
    // The boss, of radius 16 about the pin, reaches to within 108.4 - 16 of the crank axis.
    expectGap(at({ [`${A}.piston.skirtBelowPin.value`]: '3 mm' }), PIN_AT_BDC - 16 - RIM, Math.PI);
  });

  test('0.4 mm too much: that deep', () => {
    const g = at({
      [`${A}.piston.skirtBelowPin.value`]: '3 mm',
      [`${A}.crank.counterweight.radius.value`]: '92.8 mm',
      'block.panRail.halfWidth.value': '120 mm',
    });
    // The rim's highest point lies 0.4 mm above the lowest of the boss, whose outline is nearest there.
    expect(g.state).toBe('contact');
    expectGap(g, -0.4, Math.PI);
  });

  test('beside one another along the shaft: the distance of the faces', () => {
    // Cheeks 50 mm apart: their inner faces 25 mm off the middle. The panel and the boss below the rim’s reach end before: bosses at 20.
    const g = at({
      [`${A}.crank.journalLength.value`]: '60 mm',
      [`${A}.piston.skirtHalfAngle.value`]: '30 deg',
      [`${A}.piston.skirtBelowPin.value`]: '3 mm',
      [`${A}.piston.bossSpan.value`]: '50 mm',
      [`${A}.crank.counterweight.radius.value`]: '100 mm',
      'block.panRail.halfWidth.value': '120 mm',
    });
    // Faces 30 and 25 mm off the middle; over one another in the section, since the rim reaches 100 and the boss to 92.4. The wall beside
    // it, 2 mm below the pin, stays 6.4 mm above the rim: the faces decide.
    expectGap(g, 5);
    expect(g.direction).toBe('axial');
  });
});

describe('constant gap', () => {
  const core = (radiusIn: string): Gap =>
    gapOf(
      exampleV8(),
      { 'assemblies[1].crank.counterweight.radius.value': radiusIn },
      'Stroker',
      'counterweight 2 rear · camshaft core',
    );

  test('the end of the cheek passing the camshaft core: crank radius 1.905 and 1.400 in round the pin, farther out than the rim', () => {
    expectGap(core('2.900 in'), (4.74 - (3.81 / 2 + 1.4) - 0.55) * 25.4);
  });

  test('a rim turning past the camshaft core: axes 4.740 in apart, radii 3.500 and .550 in', () => {
    const g = core('3.500 in');
    expectGap(g, (4.74 - 3.5 - 0.55) * 25.4);
    // As cheaply as any other.
    expect(g.evaluations).toBeLessThan(200);
  });
});

describe('piston against piston across a V', () => {
  test('of 90 degrees, both at the height at which they are alike', () => {
    // With the pin of throw 1 straight down both pins stand alike: r cos 135 deg + sqrt(l^2 - (r sin 135 deg)^2) up their bores. The skirts’
    // inner lower corners, h below that and half the skirt out, mirror one another; at one and the same place of the shaft, midway
    // between the bores, the skirt’s half width is sqrt(R^2 - (offset / 2)^2).
    const [r, l, R] = [3.81 / 2, 6, 4.056 / 2];
    const half = Math.sqrt(R * R - (0.948 / 2) ** 2);
    const pin = (theta: number): number => r * Math.cos(theta) + Math.sqrt(l * l - (r * Math.sin(theta)) ** 2);
    // Corner toward the other bank, of a bank 45 degrees to one side: along it y, across it half.
    const fromMiddle = (theta: number): number => (pin(theta) - 1.05 - half) * Math.SQRT1_2;
    const apart = fromMiddle((135 * Math.PI) / 180) * 2 * 25.4;
    const g = gapOf(exampleV8(), { 'assemblies[1].piston.pinOffset.value': '0 in' }, 'Stroker', 'piston 1 · piston 2');
    expect(g.certified).toBe(true);
    // One place of the turn and of the shaft: the smallest is not above it.
    expect(g.lowerBoundMm).toBeLessThanOrEqual(apart + 1e-6);
    expect(g.lowerBoundMm).toBeGreaterThan(0);
  });
});
