/** What a build file may say of crank, rod and piston. */
import { lengthFromZero, positiveLength, quarterAngle, signedLength } from './dimSchema.ts';
import { index, list, MOST, side, strict } from './schemaPieces.ts';

export const counterweightShape = {
  radius: positiveLength,
  halfAngle: quarterAngle,
  hubRadius: positiveLength,
  cornerRadius: lengthFromZero,
};

export const crank = strict({
  stroke: positiveLength,
  rodJournal: positiveLength,
  mainJournal: positiveLength,
  journalLength: positiveLength,
  cheekThickness: positiveLength,
  pinEndRadius: positiveLength,
  counterweight: strict(counterweightShape),
  weighted: list(strict({ throw: index, side }), 0, MOST.weighted)
    .exactOptional()
    .describe('Cheeks that carry a counterweight; left out = all.'),
});

export const rodShape = {
  length: positiveLength,
  bigEndRadius: positiveLength,
  bigEndWidth: positiveLength,
  boltSpread: positiveLength.describe('Half the distance between the bolt axes.'),
  boltBossRadius: positiveLength,
  shoulderHeight: positiveLength,
  boltLength: positiveLength,
  beamWidth: positiveLength,
  beamThickness: positiveLength,
  smallEndRadius: positiveLength,
  smallEndWidth: positiveLength,
  chamfer: strict({ axial: positiveLength, radial: positiveLength }).exactOptional(),
  beamOffset: signedLength
    .exactOptional()
    .describe('Axial offset of beam and small end from the middle of the big end, away from the cheek it faces.'),
};

export const pistonShape = {
  compressionHeight: positiveLength,
  pinOffset: signedLength,
  pinDiameter: positiveLength,
  skirtDiameter: positiveLength,
  skirtBelowPin: positiveLength,
  skirtThickness: positiveLength,
  skirtHalfAngle: quarterAngle,
  reliefBelowPin: signedLength,
  crownThickness: positiveLength,
  bossGap: positiveLength,
  bossSpan: positiveLength,
  bossRadius: positiveLength,
};
