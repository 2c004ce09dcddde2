/** On which assumed dimensions the height of a crown rests: deck clearance, quench and whatever else is taken from it. */
import { assumedOf } from '../assembly/dims.ts';
import { pistonOf, rodOf } from '../build/bodyOf.ts';
import type { Assembly, BuildDocument } from '../build/document.ts';

/** Of the crown of a cylinder at its true top dead centre against the deck; the cylinder by its number. */
export function crownAssumed(doc: BuildDocument, assembly: Assembly, cylinder: number): string[] {
  return [
    ...assumedOf('block', doc.block, ['deckHeight', 'boreOffset']),
    ...assumedOf('piston', pistonOf(assembly, cylinder).dims, ['compressionHeight', 'pinOffset']),
    ...sliderAssumed(assembly, cylinder),
  ];
}

/** Of the piston pin between its ends. */
export function sliderAssumed(assembly: Assembly, cylinder: number): string[] {
  return [
    ...assumedOf('rod', rodOf(assembly, cylinder).dims, ['length']),
    ...assumedOf('crank', assembly.crank, ['stroke']),
  ];
}
