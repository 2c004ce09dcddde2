/** Lays out one assembly of a build: cylinders, bodies and pairs. The build must have passed its rules (build/rules.ts). */
import type { BuildDocument } from '../build/document.ts';
import { layoutOfBlock } from '../build/layouts.ts';
import { layBores, layCrankcase } from './blockBodies.ts';
import { layCamshaft } from './camBodies.ts';
import { layCheeks, layJournals } from './crankBodies.ts';
import { layCylinders } from './cylinders.ts';
import { mm } from './dims.ts';
import type { Body, Engine } from './engine.ts';
import { layPairs } from './pairs.ts';
import { layPistons } from './pistonBodies.ts';
import { layRods } from './rodBodies.ts';
import { laySide } from './sideView.ts';
import { layValves, withPockets } from './valveBodies.ts';

/** Throws a RangeError when no assembly has that name. */
export function layOut(doc: BuildDocument, assemblyName: string): Engine {
  const assembly = doc.assemblies.find((a) => a.name === assemblyName);
  if (assembly === undefined) {
    throw new RangeError(
      `layOut: no assembly is called "${assemblyName}"; there are ${doc.assemblies.map((a) => `"${a.name}"`).join(', ')}`,
    );
  }
  const cylinders = layCylinders(doc, assembly);
  const laid: Body[] = [
    ...layBores(doc, cylinders),
    ...layCrankcase(doc, cylinders),
    ...layJournals(doc, assembly, cylinders),
    ...layCheeks(doc, assembly, cylinders),
    ...layCamshaft(doc, assembly, cylinders),
    ...layRods(assembly, cylinders),
    ...layPistons(assembly, cylinders).map((piston) => withPockets(assembly, cylinders, piston)),
    ...layValves(doc, assembly, cylinders),
  ];
  // Angles of the layout that are assumed move every body against another.
  const { assumed } = layoutOfBlock(doc.block);
  const bodies =
    assumed.length === 0 ? laid : laid.map((body) => ({ ...body, assumed: [...body.assumed, ...assumed] }));
  const { camAxis } = doc.block;
  return {
    assembly: assembly.name,
    mirrored: doc.block.rotation === 'counterclockwise',
    cycleRad: assembly.camshaft === undefined ? 2 * Math.PI : 4 * Math.PI,
    cylinders,
    bodies,
    pairs: layPairs(doc, cylinders, bodies),
    ...(camAxis === undefined ? {} : { camAxisMm: { x: mm(camAxis.across), y: mm(camAxis.height) } }),
    side: laySide(doc, assembly, cylinders, bodies),
  };
}
