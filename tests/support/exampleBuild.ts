/**
 * Invented builds that can be built, for tests: a cross-plane V8, an inline six and a single. No production engine has these sets of
 * dimensions. Deck stacks close: crank radius + rod length + compression height + deck clearance = deck height.
 */
import type {
  Assembly,
  BuildDocument,
  Camshaft,
  Crank,
  Dim,
  FreeLayout,
  NamedLayout,
  Piston,
  Provenance,
  Rod,
} from '../../src/build/document.ts';

export function dim(value: string, from: Provenance = 'stated'): Dim {
  return { value, from };
}

const measured = (value: string): Dim => dim(value, 'measured');
const assumed = (value: string): Dim => dim(value, 'assumed');

/** Bore 4.060, rods 6.000 in; stroke 3.560 in replaced by 3.810 in; deck clearance .010 in with both. Roller followers. */
export function exampleV8(): BuildDocument {
  const crank: Crank = {
    stroke: dim('3.560 in'),
    rodJournal: measured('2.1250 ±0.0005 in'),
    mainJournal: measured('2.450 in'),
    journalLength: measured('1.900 in'),
    cheekThickness: measured('.800 in'),
    pinEndRadius: measured('1.450 in'),
    counterweight: {
      radius: measured('2.900 in'),
      halfAngle: measured('66 deg'),
      hubRadius: measured('1.600 in'),
      cornerRadius: assumed('.250 in'),
    },
  };
  const rod: Rod = {
    length: dim('6.000 in'),
    bigEndRadius: measured('1.400 in'),
    bigEndWidth: measured('.940 in'),
    boltSpread: measured('1.190 in'),
    boltBossRadius: measured('.300 in'),
    shoulderHeight: measured('.850 in'),
    boltLength: measured('1.150 in'),
    beamWidth: measured('.900 in'),
    beamThickness: measured('.700 in'),
    smallEndRadius: measured('.640 in'),
    smallEndWidth: measured('.940 in'),
    chamfer: { axial: assumed('.060 in'), radial: assumed('.060 in') },
  };
  const piston: Piston = {
    compressionHeight: dim('1.520 in'),
    pinOffset: dim('-.040 in'),
    pinDiameter: dim('.940 in'),
    skirtDiameter: dim('4.056 in'),
    skirtBelowPin: measured('1.050 in'),
    skirtThickness: assumed('.160 in'),
    skirtHalfAngle: assumed('32 deg'),
    reliefBelowPin: assumed('.100 in'),
    crownThickness: assumed('.260 in'),
    bossGap: measured('1.000 in'),
    bossSpan: measured('2.600 in'),
    bossRadius: measured('.680 in'),
  };
  const camshaft: Camshaft = {
    baseCircle: measured('1.200 in'),
    intakeLift: dim('.310 in'),
    exhaustLift: dim('.315 in'),
    intakeDuration: dim('224 deg'),
    exhaustDuration: dim('230 deg'),
    durationAtLift: dim('.050 in'),
    lobeSeparation: dim('110 deg'),
    intakeCentreline: dim('106 deg'),
    sense: 'same',
    law: '3-4-5',
    follower: { kind: 'roller', radius: dim('.375 in') },
    followerAngles: [dim('-45 deg'), dim('45 deg')],
    coreDiameter: measured('1.100 in'),
    lobeWidth: measured('.600 in'),
    intakeAxial: measured('.940 in'),
    exhaustAxial: measured('-.940 in'),
  };
  const replaced: Assembly = {
    name: 'Assembly as removed',
    route: 'as it came out of the block',
    crank,
    rod,
    piston,
    camshaft,
  };
  const proposed: Assembly = {
    name: 'Stroker',
    route: 'rod journals ground off-centre, pistons with a shorter compression height',
    crank: { ...crank, stroke: dim('3.810 in'), rodJournal: dim('1.875 in'), pinEndRadius: dim('1.400 in') },
    rod,
    piston: { ...piston, compressionHeight: dim('1.395 in') },
    camshaft,
  };
  return {
    format: 'strokewright-build',
    version: 1,
    name: 'Example V8',
    replaced: replaced.name,
    proposed: proposed.name,
    shownUnits: 'in',
    speed: dim('5500 rpm'),
    block: {
      layout: 'v8-cross-plane',
      rotation: 'clockwise',
      firingOrder: [1, 5, 6, 3, 4, 2, 7, 8],
      bore: dim('4.060 in'),
      deckHeight: measured('9.310 in'),
      boreSpacing: dim('4.480 in'),
      bankOffset: dim('.948 in'),
      boreOffset: dim('0 in'),
      boreBottom: measured('3.900 in'),
      boreWall: assumed('.250 in'),
      camAxis: { across: dim('0 in'), height: dim('4.740 in') },
      panRail: { height: measured('0 in'), halfWidth: measured('3.800 in'), wall: assumed('.300 in') },
      bulkhead: { thickness: measured('.900 in'), mainBore: measured('2.640 in') },
      gasketThickness: dim('.039 in'),
    },
    assemblies: [replaced, proposed],
  };
}

/** Bore 90 mm, rod 152.4 mm (6 in); stroke 88 mm replaced by 92 mm; deck clearance 0.6 mm. No camshaft in the block. */
export function exampleSingle(): BuildDocument {
  const replaced: Assembly = {
    name: 'Standard stroke',
    route: 'as delivered',
    crank: {
      stroke: dim('88 mm'),
      rodJournal: measured('48.00 mm'),
      mainJournal: measured('55.00 mm'),
      journalLength: measured('25.0 mm'),
      cheekThickness: measured('20.0 mm'),
      pinEndRadius: measured('34.0 mm'),
      counterweight: {
        radius: measured('75.0 mm'),
        halfAngle: measured('62 deg'),
        hubRadius: measured('38.0 mm'),
        cornerRadius: assumed('5 mm'),
      },
    },
    rod: {
      length: dim('152.4 mm'),
      bigEndRadius: measured('33.0 mm'),
      bigEndWidth: measured('24.6 mm'),
      boltSpread: measured('29.0 mm'),
      boltBossRadius: measured('7.0 mm'),
      shoulderHeight: measured('21.0 mm'),
      boltLength: measured('28.0 mm'),
      beamWidth: measured('22 mm'),
      beamThickness: measured('17 mm'),
      smallEndRadius: measured('15.5 mm'),
      smallEndWidth: measured('24.6 mm'),
    },
    piston: {
      compressionHeight: dim('40.0 mm'),
      pinOffset: dim('0 mm'),
      pinDiameter: dim('22 mm'),
      skirtDiameter: dim('89.92 mm'),
      skirtBelowPin: measured('25.0 mm'),
      skirtThickness: assumed('4.0 mm'),
      skirtHalfAngle: assumed('35 deg'),
      reliefBelowPin: assumed('2 mm'),
      crownThickness: assumed('7 mm'),
      bossGap: measured('26.0 mm'),
      bossSpan: measured('58.0 mm'),
      bossRadius: measured('16.0 mm'),
    },
  };
  const proposed: Assembly = {
    ...replaced,
    name: 'Longer stroke',
    route: 'new crank, pistons with a shorter compression height',
    crank: { ...replaced.crank, stroke: dim('92 mm') },
    piston: { ...replaced.piston, compressionHeight: dim('38.0 mm') },
  };
  return {
    format: 'strokewright-build',
    version: 1,
    name: 'Example single',
    replaced: replaced.name,
    proposed: proposed.name,
    shownUnits: 'mm',
    speed: dim('6000 rpm'),
    block: {
      layout: 'single',
      rotation: 'clockwise',
      firingOrder: [1],
      bore: dim('90 mm'),
      deckHeight: measured('237.0 mm'),
      boreSpacing: dim('110 mm'),
      bankOffset: dim('0 mm'),
      boreOffset: dim('0 mm'),
      boreBottom: measured('95.0 mm'),
      boreWall: assumed('6 mm'),
      panRail: { height: measured('-20 mm'), halfWidth: measured('98 mm'), wall: assumed('8 mm') },
      bulkhead: { thickness: measured('22 mm'), mainBore: measured('59 mm') },
      gasketThickness: dim('1.0 mm'),
    },
    assemblies: [replaced, proposed],
  };
}

/** Bore 3.900, rods 5.900 in; stroke 3.540 in replaced by 3.780 in; deck clearance .012 in. Camshaft at the side, turned by a pair of gears, flat followers. */
export function exampleInline6(): BuildDocument {
  const replaced: Assembly = {
    name: 'Short stroke',
    route: 'as it came out of the block',
    crank: {
      stroke: dim('3.540 in'),
      rodJournal: measured('2.050 in'),
      mainJournal: measured('2.560 in'),
      journalLength: measured('1.160 in'),
      cheekThickness: measured('.820 in'),
      pinEndRadius: measured('1.420 in'),
      counterweight: {
        radius: measured('2.700 in'),
        halfAngle: measured('58 deg'),
        hubRadius: measured('1.600 in'),
        cornerRadius: assumed('.200 in'),
      },
      weighted: [
        { throw: 1, side: 'front' },
        { throw: 1, side: 'rear' },
        { throw: 3, side: 'rear' },
        { throw: 4, side: 'front' },
        { throw: 6, side: 'front' },
        { throw: 6, side: 'rear' },
      ],
    },
    rod: {
      length: dim('5.900 in'),
      bigEndRadius: measured('1.360 in'),
      bigEndWidth: measured('1.148 in'),
      boltSpread: measured('1.170 in'),
      boltBossRadius: measured('.290 in'),
      shoulderHeight: measured('.860 in'),
      boltLength: measured('1.120 in'),
      beamWidth: measured('.880 in'),
      beamThickness: measured('.720 in'),
      smallEndRadius: measured('.650 in'),
      smallEndWidth: measured('1.100 in'),
    },
    piston: {
      compressionHeight: dim('1.780 in'),
      pinOffset: dim('0 in'),
      pinDiameter: dim('.920 in'),
      skirtDiameter: dim('3.897 in'),
      skirtBelowPin: measured('1.100 in'),
      skirtThickness: assumed('.170 in'),
      skirtHalfAngle: assumed('34 deg'),
      reliefBelowPin: assumed('.080 in'),
      crownThickness: assumed('.280 in'),
      bossGap: measured('1.160 in'),
      bossSpan: measured('2.550 in'),
      bossRadius: measured('.670 in'),
    },
    camshaft: {
      baseCircle: measured('1.400 in'),
      intakeLift: dim('.260 in'),
      exhaustLift: dim('.260 in'),
      intakeDuration: dim('212 deg'),
      exhaustDuration: dim('214 deg'),
      durationAtLift: dim('.050 in'),
      lobeSeparation: dim('112 deg'),
      intakeCentreline: dim('108 deg'),
      sense: 'opposite',
      law: '3-4-5',
      follower: { kind: 'flat' },
      followerAngles: [dim('0 deg')],
      coreDiameter: measured('1.300 in'),
      lobeWidth: measured('.580 in'),
      intakeAxial: measured('.880 in'),
      exhaustAxial: measured('-.880 in'),
    },
  };
  const proposed: Assembly = {
    ...replaced,
    name: 'Long stroke',
    route: 'crank of a longer-stroke engine, ground to fit',
    crank: { ...replaced.crank, stroke: dim('3.780 in') },
    piston: { ...replaced.piston, compressionHeight: dim('1.660 in') },
  };
  return {
    format: 'strokewright-build',
    version: 1,
    name: 'Example inline six',
    replaced: replaced.name,
    proposed: proposed.name,
    shownUnits: 'both',
    speed: dim('4200 rpm'),
    block: {
      layout: 'inline-6',
      rotation: 'clockwise',
      firingOrder: [1, 5, 3, 6, 2, 4],
      bore: dim('3.900 in'),
      deckHeight: measured('9.462 in'),
      boreSpacing: dim('4.350 in'),
      bankOffset: dim('0 in'),
      boreOffset: dim('0 in'),
      boreBottom: measured('3.800 in'),
      boreWall: assumed('.220 in'),
      camAxis: { across: dim('3.950 in'), height: dim('4.300 in') },
      panRail: { height: measured('-1.200 in'), halfWidth: measured('3.700 in'), wall: assumed('.280 in') },
      bulkhead: { thickness: measured('.960 in'), mainBore: measured('2.750 in') },
      gasketThickness: dim('.042 in'),
    },
    assemblies: [replaced, proposed],
  };
}

/** A free layout: bank angles, throw phases front to rear, and bank, throw and pin split of cylinders 1, 2, …; degrees. */
export function freeLayout(
  banks: readonly number[],
  throws: readonly number[],
  cylinders: readonly (readonly [bank: number, throwNumber: number, split?: number])[],
): FreeLayout {
  const deg = (angle: number): Dim => dim(`${angle} deg`);
  return {
    banks: banks.map((angle) => ({ angle: deg(angle) })),
    throws: throws.map((phase) => ({ phase: deg(phase) })),
    cylinders: cylinders.map(([bank, throwNumber, split], k) => ({
      cylinder: k + 1,
      bank,
      throw: throwNumber,
      ...(split === undefined ? {} : { pinSplit: deg(split) }),
    })),
  };
}

/** The single cylinder's parts four times over, opposed and thinner in the cheeks: bores 118 mm apart, opposed ones 59 mm. Pan below. */
function exampleFlat4(): BuildDocument {
  const single = exampleSingle();
  return {
    ...single,
    name: 'Example flat four',
    block: {
      ...single.block,
      layout: 'flat-4',
      firingOrder: [1, 3, 2, 4],
      boreSpacing: dim('118 mm'),
      bankOffset: dim('59 mm'),
      panRail: { height: measured('-120 mm'), halfWidth: measured('90 mm'), wall: assumed('8 mm') },
      bulkhead: { thickness: measured('11 mm'), mainBore: measured('59 mm') },
    },
    assemblies: single.assemblies.map((a) => ({ ...a, crank: { ...a.crank, cheekThickness: measured('11.0 mm') } })),
  };
}

/** A build in each named layout, in the given firing order: parts of the V8, the single or the inline six, all cheeks weighted. */
export function exampleIn(layout: NamedLayout, firingOrder: readonly number[]): BuildDocument {
  if (layout === 'flat-4') return { ...exampleFlat4(), block: { ...exampleFlat4().block, firingOrder } };
  const doc = layout === 'single' ? exampleSingle() : layout.startsWith('v') ? exampleV8() : exampleInline6();
  const follower = layout.startsWith('v6-60') ? 30 : 45;
  const first = layout.endsWith('1-left') || layout.startsWith('v6-90') ? follower : -follower;
  return {
    ...doc,
    name: `Example ${layout}`,
    block: { ...doc.block, layout, firingOrder },
    assemblies: doc.assemblies.map((a): Assembly => {
      const { weighted: _, ...crank } = a.crank;
      if (a.camshaft === undefined || !layout.startsWith('v')) return { ...a, crank };
      const followerAngles = [dim(`${first} deg`), dim(`${-first} deg`)];
      return { ...a, crank, camshaft: { ...a.camshaft, followerAngles } };
    }),
  };
}
