/** Main caps and studs, entered as fixed outlines: paired with what passes them along the shaft, and with nothing else. */
import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/assembly/layOut.ts';
import { readContent } from '../../src/build/index.ts';
import { solveGaps } from '../../src/model/solve.ts';
import { changed } from '../support/changed.ts';
import { dim, exampleV8 } from '../support/exampleBuild.ts';

const point = (x: number, y: number) => ({ x: dim(`${x} mm`), y: dim(`${y} mm`) });
const boxed = (x0: number, y0: number, x1: number, y1: number) => [
  point(x0, y0),
  point(x1, y0),
  point(x1, y1),
  point(x0, y1),
];
/** Between throws 1 and 2 the web of the example stands about z = 2.714 in: (4.480 + .948) / 2 = 68.94 mm. */
const WEB_MM = 68.94;
const part = (name: string, z0: number, z1: number, outline: readonly unknown[]) => ({
  name,
  front: dim(`${(WEB_MM + z0).toFixed(2)} mm`),
  rear: dim(`${(WEB_MM + z1).toFixed(2)} mm`),
  outline,
  from: 'measured',
});

function engineWith(...fixed: unknown[]) {
  const read = readContent(changed(exampleV8(), { 'block.fixed': fixed }));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return layOut(read.doc, read.doc.assemblies[0]!.name);
}

describe('a main cap and its stud between two throws', () => {
  // The cap as wide as the web less a little; the stud under it reaches beside the crank.
  const cap = part('main cap 2', -10, 10, boxed(-60, -75, 60, -40));
  const stud = part('main stud 2', -8, 8, boxed(48, -110, 62, -75));
  const engine = engineWith(cap, stud);
  const partners = (name: string) => engine.pairs.filter((p) => p.b.name === name).map((p) => p.a.name);

  it('meet the cheeks on both sides of the web, and no cheek of a throw beyond', () => {
    for (const name of ['main cap 2', 'main stud 2']) {
      expect(partners(name)).toContain('counterweight 1 rear');
      expect(partners(name)).toContain('counterweight 2 front');
      expect(partners(name).some((other) => /counterweight [34]|rod [5-8]/.test(other))).toBe(false);
    }
  });

  it('are apart along the shaft by what the figures leave', () => {
    const gaps = solveGaps(engine, { assumedAllowanceMm: 0, wanted: (pair) => pair.b.name === 'main cap 2' });
    const front = gaps.find((g) => g.between[0] === 'counterweight 1 rear')!;
    expect(front.direction).toBe('axial');
    const cheek = engine.bodies.find((b) => b.name === 'counterweight 1 rear')!;
    expect(front.gapMm).toBeCloseTo(WEB_MM - 10 - cheek.z1Mm, 3);
    expect(front.certified).toBe(true);
  });

  it('a stud long enough to stand in the way of a counterweight is hit by it, at its own radius', () => {
    // Over the whole width of the cheek, its inner face 80 mm from the crank axis: the rim's radius less 80.
    const engineHit = engineWith(part('main stud 2', -30, -12, boxed(80, -8, 94, 8)));
    const gap = solveGaps(engineHit, {
      assumedAllowanceMm: 0,
      wanted: (p) => p.a.name === 'counterweight 1 rear' && p.b.name === 'main stud 2',
    })[0]!;
    // The pin end of the cheek sweeps farther out than the counterweight: half the stroke and its own radius.
    const { crank } = exampleV8().assemblies[0]!;
    const mm = (text: string) => Number(text.replace(' in', '')) * 25.4;
    const swept = Math.max(
      mm(crank.counterweight.radius.value),
      mm(crank.stroke.value) / 2 + mm(crank.pinEndRadius.value),
    );
    expect(gap.gapMm).toBeCloseTo(80 - swept, 3);
  });
});
