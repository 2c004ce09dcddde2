/**
 * The demo builds tell what their notes say. States are asked for, and where on the turn they fall; no figure that the
 * program printed is repeated here. The stacks, the grinding and the one contact that lies on the bore axis are added
 * up by hand from the file's own dimensions.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Pair } from '../../src/assembly/engine.ts';
import { layOut } from '../../src/assembly/layOut.ts';
import {
  type Assembly,
  type BuildDocument,
  type Dim,
  formatBuild,
  type GapKind,
  lengthMm,
  parseBuild,
  problemSentence,
} from '../../src/build/index.ts';
import type { Gap } from '../../src/model/results.ts';
import { solveGaps } from '../../src/model/solve.ts';

const FOLDER = new URL('../../assets/demos/', import.meta.url);
/** Each with the deck clearance it is drawn up for, the same for all its assemblies: 0.30 mm, 0.25 mm, .010 in. */
const DEMOS = [
  ['bench-rig.json', 0.3],
  ['lake-launch-six.json', 0.25],
  ['quarry-v8.json', 0.254],
] as const;

function textOf(file: string): string {
  return readFileSync(new URL(file, FOLDER), 'utf8');
}

function read(file: string): BuildDocument {
  const parsed = parseBuild(textOf(file));
  if (!parsed.ok) throw new Error(`${file}: ${parsed.problems.map(problemSentence).join(' ')}`);
  return parsed.doc;
}

function gapsOf(doc: BuildDocument, assembly: string, kind?: GapKind): Gap[] {
  const allowance = doc.assumedAllowance;
  return solveGaps(layOut(doc, assembly), {
    assumedAllowanceMm: allowance === undefined ? null : lengthMm(allowance.value),
    ...(kind === undefined ? {} : { only: (pair: Pair) => pair.kind === kind }),
  });
}

const statesOf = (gaps: readonly Gap[]): string[] => [...new Set(gaps.map((gap) => gap.state))].sort();

/** Degrees from the bottom dead centre of the gap's own cylinder, -180 up to 180. */
function fromBdcDeg(doc: BuildDocument, assembly: string, gap: Gap): number {
  const cylinder = layOut(doc, assembly).cylinders[gap.cylinder - 1]!;
  const deg = ((gap.atCrankRad - cylinder.bdcRad) * 180) / Math.PI;
  return ((((deg + 180) % 360) + 360) % 360) - 180;
}

const mm = (dim: Dim): number => lengthMm(dim.value);

describe.each(DEMOS)('%s', (file, deckClearanceMm) => {
  const doc = read(file);

  it('is written as the program writes it, and names its schema', () => {
    expect(formatBuild(doc)).toBe(textOf(file));
    expect(readdirSync(new URL('.', new URL(doc.$schema!, new URL(file, FOLDER))))).toContain(
      doc.$schema!.split('/').at(-1),
    );
  });

  it('holds the assembly to be replaced and two candidates by different routes', () => {
    expect(doc.assemblies.length).toBeGreaterThanOrEqual(3);
    expect(new Set(doc.assemblies.map((a) => a.route)).size).toBe(doc.assemblies.length);
    expect(doc.proposed).not.toBe(doc.replaced);
  });

  // Deck height = stroke / 2 + rod length + compression height + deck clearance, for a pin line through the crank axis.
  it.each(doc.assemblies.map((a) => [a.name, a] as const))('%s: the stack closes below the deck', (_, a) => {
    expect(mm(doc.block.boreOffset) + mm(a.piston.pinOffset)).toBe(0);
    const stackMm = mm(a.crank.stroke) / 2 + mm(a.rod.length) + mm(a.piston.compressionHeight);
    expect(mm(doc.block.deckHeight) - stackMm).toBeCloseTo(deckClearanceMm, 9);
  });

  it.each(doc.assemblies.map((a) => [a.name, a] as const))('%s: in proportion', (_, a) => {
    const ratio = mm(a.rod.length) / mm(a.crank.stroke);
    expect(ratio).toBeGreaterThan(1.5);
    expect(ratio).toBeLessThan(1.9);
    // Room between pin and crown for two rings and an oil ring, 12 mm at the least.
    expect(mm(a.piston.compressionHeight) - mm(a.piston.pinDiameter) / 2).toBeGreaterThan(
      mm(a.piston.crownThickness) + 12,
    );
  });

  it('clears all round as removed', () => {
    expect(statesOf(gapsOf(doc, doc.replaced))).toEqual(['clears']);
  });
});

/** The gain of stroke can't exceed what the journal loses, or the old surface would not clean up. */
function expectGroundWithin(before: Assembly, after: Assembly): void {
  const gain = mm(after.crank.stroke) - mm(before.crank.stroke);
  const lost = mm(before.crank.rodJournal) - mm(after.crank.rodJournal);
  expect(gain).toBeGreaterThan(0);
  expect(gain).toBeLessThan(lost);
  // The cheek itself is not touched: its end stays as far from the crank axis.
  const reach = ({ crank }: Assembly): number => mm(crank.stroke) / 2 + mm(crank.pinEndRadius);
  expect(reach(after)).toBeCloseTo(reach(before), 9);
}

describe('V8 of the quarry hauler', () => {
  const doc = read('quarry-v8.json');
  const [removed, ground, longer] = doc.assemblies as readonly [Assembly, Assembly, Assembly];

  it('the core crank can be ground to the stroke proposed', () => {
    expect(doc.proposed).toBe(ground.name);
    expectGroundWithin(removed, ground);
  });

  it('ground off-centre, its counterweights meet the pin bosses near bottom dead centre', () => {
    const contact = gapsOf(doc, ground.name, 'counterweight-piston').filter((gap) => gap.state === 'contact');
    expect(contact).toHaveLength(doc.block.firingOrder.length);
    for (const gap of contact) {
      expect(gap.parts).toContain('pin boss');
      expect(Math.abs(fromBdcDeg(doc, ground.name, gap))).toBeLessThan(15);
      // At bottom dead centre rim and boss are two arcs on the bore axis: pin height less both radii.
      const pinMm = mm(ground.rod.length) - mm(ground.crank.stroke) / 2;
      expect(gap.gapMm).toBeCloseTo(pinMm - mm(ground.piston.bossRadius) - mm(ground.crank.counterweight.radius), 2);
    }
  });

  it('nothing else of it touches', () => {
    const others = gapsOf(doc, ground.name).filter((gap) => gap.kind !== 'counterweight-piston');
    expect(statesOf(others)).toEqual(['clears']);
  });

  it('the longer-stroke crank goes in', () => {
    expect(statesOf(gapsOf(doc, longer.name))).toEqual(['clears']);
  });
});

describe('six of the lake launch', () => {
  const doc = read('lake-launch-six.json');
  const [removed, ground, longer] = doc.assemblies as readonly [Assembly, Assembly, Assembly];

  it('the core crank can be ground to the stroke proposed', () => {
    expect(doc.proposed).toBe(ground.name);
    expectGroundWithin(removed, ground);
  });

  it('ground off-centre, the two heavier rods come too near their exhaust lobes, and only they', () => {
    const tight = gapsOf(doc, ground.name).filter((gap) => gap.state !== 'clears');
    expect(tight.map((gap) => `${gap.state} ${gap.kind} ${gap.between.join(' ')}`).sort()).toEqual([
      'tight rod-camshaft rod 2 exhaust lobe 2',
      'tight rod-camshaft rod 5 exhaust lobe 5',
    ]);
    // The exhaust nose points up 2 x 110 - 106 = 114 degrees before the gas-exchange TDC, 246 after the firing one, and turns
    // against the crank at half speed. Cam to crank points 125 degrees to the left of up: the nose faces the crank about
    // 246 + 2 x 125 = 496 degrees after the firing TDC, so that the rod meets it on the way down of the intake stroke.
    const { cylinders } = layOut(doc, ground.name);
    for (const gap of tight) {
      const fromFiringDeg = ((gap.atCrankRad - cylinders[gap.cylinder - 1]!.firingTdcRad) * 180) / Math.PI;
      expect((fromFiringDeg + 720) % 720).toBeGreaterThan(360);
      expect((fromFiringDeg + 720) % 720).toBeLessThan(540);
    }
  });

  it('with the longer-stroke crank and new rods everything clears', () => {
    expect(statesOf(gapsOf(doc, longer.name))).toEqual(['clears']);
  });
});

describe('bench rig', () => {
  const doc = read('bench-rig.json');
  const [, short, longer] = doc.assemblies as readonly [Assembly, Assembly, Assembly];

  it('the short rod brings the skirt onto both counterweights near bottom dead centre', () => {
    const failing = gapsOf(doc, short.name).filter((gap) => gap.state !== 'clears');
    expect(failing.map((gap) => `${gap.state} ${gap.kind}`)).toEqual([
      'contact counterweight-piston',
      'contact counterweight-piston',
    ]);
    for (const gap of failing) expect(Math.abs(fromBdcDeg(doc, short.name, gap))).toBeLessThan(15);
  });

  it('the longer stroke goes in', () => {
    expect(doc.proposed).toBe(longer.name);
    expect(statesOf(gapsOf(doc, longer.name))).toEqual(['clears']);
  });
});
