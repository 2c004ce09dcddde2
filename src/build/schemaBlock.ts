/** What a build file may say of the block. */
import { positiveLength, provenance, signedAngle, signedLength } from './dimSchema.ts';
import type { LayoutName } from './document.ts';
import { LAYOUT_NAMES } from './layouts.ts';
import { index, list, MOST, name, oneOf, outline, outlineDeviation, strict } from './schemaPieces.ts';
import { head, lineBored } from './schemaShop.ts';

const freeLayout = strict({
  banks: list(strict({ angle: signedAngle }), 1, 2).describe('Angle of each bank’s bores from up.'),
  throws: list(strict({ phase: signedAngle }), 1, MOST.cylinders).describe(
    'Front to rear: the direction of each throw, all counted from the same line of the crank.',
  ),
  cylinders: list(
    strict({
      cylinder: index,
      bank: index,
      throw: index,
      pinSplit: signedAngle
        .exactOptional()
        .describe('How far this cylinder’s own pin stands ahead of its throw; left out on a shared pin.'),
    }),
    1,
    MOST.cylinders,
  ),
});

export const block = strict({
  layout: oneOf([...LAYOUT_NAMES, 'free'] as readonly LayoutName[]).describe('Cylinders, banks and throws.'),
  freeLayout: freeLayout.exactOptional().describe('Banks, throws and cylinders of the layout “free”, and only of it.'),
  rotation: oneOf(['clockwise', 'counterclockwise']).describe('Seen from the front.'),
  firingOrder: list(index, 1, MOST.cylinders).describe('Cylinder numbers in the order they fire, starting with 1.'),
  bore: positiveLength,
  deckHeight: positiveLength.describe('Crank axis to deck, along the bore.'),
  boreSpacing: positiveLength,
  bankOffset: signedLength.describe('Axial distance by which bank 2 stands behind bank 1; 0 for one bank.'),
  boreOffset: signedLength.describe(
    'Bore axis from the crank axis, positive toward the side the crankpin moves to after TDC.',
  ),
  boreBottom: positiveLength.describe('Height of the lower end of the bore above the crank axis, along the bore.'),
  boreWall: positiveLength,
  boreNotch: strict({
    depth: positiveLength,
    width: positiveLength,
    side: oneOf(['after-tdc', 'before-tdc', 'both']),
  })
    .exactOptional()
    .describe('Relief for the rod at the bottom of each bore.'),
  camAxis: strict({ across: signedLength, height: signedLength })
    .exactOptional()
    .describe('Camshaft axis from the crank axis; left out when the block holds no camshaft.'),
  panRail: strict({ height: signedLength, halfWidth: positiveLength, wall: positiveLength }).describe(
    'Rail face above the crank axis (negative below), half the clear width, wall thickness.',
  ),
  bulkhead: strict({ thickness: positiveLength, mainBore: positiveLength }).describe('Main bearing webs.'),
  gasketThickness: positiveLength.describe('Compressed.'),
  lineBored: lineBored.exactOptional(),
  head: head.exactOptional().describe('For the compression ratio.'),
  fixed: list(
    strict({ name, front: signedLength, rear: signedLength, outline, from: provenance, outlineDeviation }),
    0,
    MOST.fixed,
  )
    .exactOptional()
    .describe('Further fixed outlines: oil pump, windage tray, main cap, stud.'),
});
