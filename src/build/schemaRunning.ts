/** What a build file may say of the running engine. */
import {
  expansionRate,
  lengthFromZero,
  positiveArea,
  positiveLength,
  positiveSpeed,
  positiveStress,
  temperatureRise,
} from './dimSchema.ts';
import { strict } from './schemaPieces.ts';

export const running = strict({
  speed: positiveSpeed.exactOptional().describe('At which the rod stretches; left out = the build’s speed.'),
  mainClearance: lengthFromZero.exactOptional().describe('Of a main bearing, on the diameter.'),
  rodClearance: lengthFromZero.exactOptional().describe('Of a rod bearing, on the diameter.'),
  pinClearance: lengthFromZero
    .exactOptional()
    .describe('Of the wrist pin in piston and small end together, on the diameter.'),
  rodSection: positiveArea.exactOptional().describe('Of the rod’s beam.'),
  rodModulus: positiveStress.exactOptional().describe('Modulus of elasticity of the rod.'),
  skirtClearance: lengthFromZero.exactOptional().describe('Of the skirt in its bore, on the diameter.'),
  guideLength: positiveLength.exactOptional().describe('Along the bore, over which the skirt guides.'),
  crankGrowth: expansionRate.exactOptional(),
  crankWarmer: temperatureRise.exactOptional().describe('Than the part was measured.'),
  rodGrowth: expansionRate.exactOptional(),
  rodWarmer: temperatureRise.exactOptional(),
  pistonGrowth: expansionRate.exactOptional(),
  pistonWarmer: temperatureRise.exactOptional(),
  blockGrowth: expansionRate.exactOptional(),
  blockWarmer: temperatureRise.exactOptional(),
}).describe('What the running engine does to its gaps; each allowance is on where its figures are stated.');
