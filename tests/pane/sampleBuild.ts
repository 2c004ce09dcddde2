/** A small invented build with every dimension that a document can hold, for the pane's tests and its gallery. */

import type { Assembly, BuildDocument, Dim } from '../../src/build/document.ts';
import { exampleValvetrain } from '../support/valvetrain.ts';

const measured = (value: string): Dim => ({ value, from: 'measured' });
const stated = (value: string): Dim => ({ value, from: 'stated' });
const assumed = (value: string): Dim => ({ value, from: 'assumed' });

const asItWas: Assembly = {
  name: 'as it was',
  route: 'The crank the engine came with',
  crank: {
    stroke: measured('3.480 in'),
    rodJournal: measured('2.100 in'),
    mainJournal: measured('2.449 in'),
    journalLength: measured('1.900 in'),
    cheekThickness: measured('.850 in'),
    pinEndRadius: measured('1.650 in'),
    counterweight: {
      radius: measured('3.287 in'),
      halfAngle: assumed('66 deg'),
      hubRadius: assumed('1.700 in'),
      cornerRadius: assumed('.125 in'),
    },
  },
  rod: {
    length: stated('5.700 in'),
    bigEndRadius: measured('1.400 in'),
    bigEndWidth: measured('.940 in'),
    boltSpread: measured('1 5/32 in'),
    boltBossRadius: measured('.320 in'),
    shoulderHeight: measured('.900 in'),
    boltLength: measured('1.400 in'),
    beamWidth: measured('.900 in'),
    beamThickness: measured('.500 in'),
    smallEndRadius: measured('.650 in'),
    smallEndWidth: measured('.940 in'),
    chamfer: { axial: measured('.080 in'), radial: measured('.080 in') },
    beamOffset: measured('0 in'),
  },
  piston: {
    compressionHeight: stated('39.62 mm'),
    pinOffset: stated('0 in'),
    pinDiameter: stated('.927 in'),
    skirtDiameter: measured('3.996 in'),
    skirtBelowPin: measured('.748 in'),
    skirtThickness: assumed('.120 in'),
    skirtHalfAngle: assumed('38 deg'),
    reliefBelowPin: assumed('.100 in'),
    crownThickness: assumed('.300 in'),
    bossGap: measured('1.000 in'),
    bossSpan: measured('2.750 in'),
    bossRadius: assumed('.700 in'),
  },
  camshaft: {
    baseCircle: stated('1.299 in'),
    intakeLift: stated('.307 in'),
    exhaustLift: stated('.313 in'),
    intakeDuration: stated('224 deg'),
    exhaustDuration: stated('230 deg'),
    durationAtLift: stated('50 thou'),
    lobeSeparation: stated('112 deg'),
    intakeCentreline: stated('108 deg'),
    advance: stated('2 deg'),
    intakeOpening: stated('110 deg'),
    exhaustOpening: stated('113 deg'),
    sense: 'same',
    law: '3-4-5',
    follower: { kind: 'roller', radius: stated('.350 in') },
    followerAngles: [stated('-45 deg'), stated('45 deg')],
    coreDiameter: measured('1.125 in'),
    lobeWidth: measured('.600 in'),
    intakeAxial: measured('-.500 in'),
    exhaustAxial: measured('.500 in'),
  },
  valvetrain: exampleValvetrain(),
};

const groundCore: Assembly = {
  ...asItWas,
  name: 'core ground off-centre',
  route: 'Core crank ground off-centre, rods of another engine',
  crank: { ...asItWas.crank, stroke: stated('3 7/8 in') },
  rod: { ...asItWas.rod, length: stated('6.000 in') },
  own: [
    { body: 'rod', cylinder: 3, set: { length: measured('5.998 in') } },
    { body: 'counterweight', throw: 2, side: 'rear', set: { radius: measured('3.250 in') } },
  ],
};

const newCrank: Assembly = {
  ...asItWas,
  name: 'new crank',
  route: 'New crank with a smaller counterweight',
  crank: { ...asItWas.crank, stroke: stated('3.750 in') },
};

export const SAMPLE: BuildDocument = {
  format: 'strokewright-build',
  version: 1,
  name: 'Quarry truck V8',
  replaced: 'as it was',
  proposed: 'core ground off-centre',
  shownUnits: 'both',
  speed: stated('3600 rpm'),
  block: {
    layout: 'v8-cross-plane',
    rotation: 'clockwise',
    firingOrder: [1, 8, 4, 3, 6, 5, 7, 2],
    bore: measured('4.030 in'),
    deckHeight: measured('9.025 in'),
    boreSpacing: stated('4.400 in'),
    bankOffset: measured('.880 in'),
    boreOffset: stated('0 in'),
    boreBottom: measured('87.9 mm'),
    boreWall: assumed('.200 in'),
    camAxis: { across: stated('0 in'), height: stated('4.521 in') },
    panRail: { height: measured('0 in'), halfWidth: measured('4.200 in'), wall: assumed('.300 in') },
    bulkhead: { thickness: measured('.900 in'), mainBore: measured('2.641 in') },
    gasketThickness: stated('.039 in'),
  },
  limits: { 'rod-camshaft': stated('.050 in') },
  assemblies: [asItWas, groundCore, newCrank],
};
