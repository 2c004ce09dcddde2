/** What a build file may say for the shop's sums. */

import {
  lengthFromZero,
  massFromZero,
  positiveLength,
  positiveMass,
  positiveViscosity,
  signedAngle,
  signedLength,
  signedVolume,
  volumeFromZero,
} from './dimSchema.ts';
import { index, list, MOST, name, oneOf, strict, text } from './schemaPieces.ts';
import { z } from './zod.ts';

export const weights = strict({
  piston: positiveMass.exactOptional(),
  pin: positiveMass.exactOptional(),
  rings: massFromZero.exactOptional().describe('All rings of one piston.'),
  locks: massFromZero.exactOptional().describe('Both locks of one pin.'),
  rodBigEnd: positiveMass.exactOptional(),
  rodSmallEnd: positiveMass.exactOptional(),
  rodTotal: positiveMass.exactOptional(),
  bearing: massFromZero.exactOptional().describe('Both shells of one rod.'),
  oil: massFromZero.exactOptional().describe('Held in one crankpin and its rods.'),
  crankshaft: positiveMass.exactOptional(),
});

export const head = strict({
  chamberVolume: volumeFromZero.exactOptional(),
  gasketBore: positiveLength.exactOptional(),
});

export const lineBored = strict({
  rise: signedLength.describe(
    'By how much line boring moved the crank axis toward the deck since the heights were measured.',
  ),
});

export const pistonTop = strict({
  dishVolume: signedVolume.exactOptional().describe('Dish and valve pockets positive, a dome negative.'),
  topLandHeight: lengthFromZero.exactOptional(),
  topLandDiameter: positiveLength.exactOptional(),
  oilGrooveBottom: positiveLength.exactOptional().describe('Crown to the lower edge of the oil-ring groove.'),
  pinLength: positiveLength.exactOptional(),
  lockSpan: positiveLength.exactOptional().describe('Between the locks.'),
});

export const core = strict({
  stroke: positiveLength.exactOptional(),
  rodJournal: positiveLength.exactOptional().describe('Smallest worn diameter.'),
  leastStock: lengthFromZero.exactOptional().describe('On the radius, for a clean surface.'),
  caseDepth: lengthFromZero.exactOptional(),
  counterweightRadius: positiveLength.exactOptional(),
  weight: positiveMass.exactOptional(),
  throws: list(
    strict({
      throw: index,
      radius: positiveLength.exactOptional(),
      rodJournal: positiveLength.exactOptional(),
      indexError: signedAngle.exactOptional(),
    }),
    0,
    MOST.cylinders,
  ).exactOptional(),
}).describe('The crank before it is ground.');

export const intoBlock = list(
  strict({ name, is: oneOf(['diameter', 'width']), has: positiveLength, takes: positiveLength }),
  0,
  MOST.fixed,
).describe('Turned surfaces of a crank from another engine, and what this block takes.');

export const bearings = strict({
  rodHousing: positiveLength.exactOptional(),
  rodShell: positiveLength.exactOptional(),
  mainHousing: positiveLength.exactOptional(),
  mainShell: positiveLength.exactOptional(),
  rodFilm: positiveLength.exactOptional().describe('Length of the loaded film along the shaft.'),
  mainFilm: positiveLength.exactOptional(),
  oilThin: positiveViscosity.exactOptional(),
  oilThick: positiveViscosity.exactOptional(),
  thrustFaces: positiveLength.exactOptional().describe('Between the thrust faces of the crankshaft.'),
  thrustBearing: positiveLength.exactOptional().describe('Over the flanges of the thrust bearing.'),
  rodFillet: lengthFromZero.exactOptional(),
  oilHole: signedAngle.exactOptional().describe('From outward, in the direction of rotation, before grinding.'),
});

const share = 'Allowed: a number from 0 to 1.';

export const balance = strict({
  factor: z.number({ error: share }).min(0, { error: share }).max(1, { error: share }).exactOptional(),
  coreBobweight: positiveMass.exactOptional(),
  correction: oneOf(['internal', 'external']).exactOptional(),
  frontPlane: signedLength.exactOptional(),
  rearPlane: signedLength.exactOptional(),
  radius: positiveLength.exactOptional(),
  drill: positiveLength.exactOptional(),
  plug: oneOf(['tungsten alloy', 'lead']).exactOptional(),
  grade: z
    .number({ error: 'Allowed: a number from 0.4 to 4000, mm/s.' })
    .min(0.4, { error: 'Allowed: a number from 0.4 to 4000, mm/s.' })
    .max(4000, { error: 'Allowed: a number from 0.4 to 4000, mm/s.' })
    .exactOptional(),
});

const ratio = 'Allowed: a number above 1, up to 40.';

export const wanted = strict({
  compressionRatio: z.number({ error: ratio }).gt(1, { error: ratio }).max(40, { error: ratio }).exactOptional(),
  deckClearance: signedLength.exactOptional(),
  sideClearance: lengthFromZero.exactOptional(),
});

const price = text(MOST.name).exactOptional();

export const shelf = strict({
  rods: list(
    strict({
      name,
      length: positiveLength,
      bigEndBore: positiveLength.exactOptional(),
      bigEndWidth: positiveLength.exactOptional(),
      smallEndBore: positiveLength.exactOptional(),
      bigEndWeight: positiveMass.exactOptional(),
      smallEndWeight: positiveMass.exactOptional(),
      price,
    }),
    0,
    MOST.own,
  ).exactOptional(),
  pistons: list(
    strict({
      name,
      compressionHeight: positiveLength,
      bore: positiveLength.exactOptional(),
      pinDiameter: positiveLength.exactOptional(),
      dishVolume: signedVolume.exactOptional(),
      skirtBelowPin: positiveLength.exactOptional(),
      weight: positiveMass.exactOptional(),
      price,
    }),
    0,
    MOST.own,
  ).exactOptional(),
}).describe('Rods and pistons that the shop can get.');

export const guides = list(
  strict({
    guide: name,
    low: text(MOST.name).exactOptional(),
    high: text(MOST.name).exactOptional(),
    source: text(400),
  }),
  0,
  MOST.fixed,
).describe('Guide ranges as the shop wants them, in place of the usual ones.');
