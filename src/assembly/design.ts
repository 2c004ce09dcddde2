/**
 * Many designs that differ in a dimension or two, laid out one after the other: what a change does not reach is taken over
 * from the design before. A document shares what is unchanged with the one it was made from, so that equal objects say
 * that a part's dimensions are equal.
 */
import type { Assembly, BuildDocument } from '../build/document.ts';
import { layoutOfBlock } from '../build/layouts.ts';
import { layBores, layCrankcase } from './blockBodies.ts';
import { layCamshaft } from './camBodies.ts';
import { layCheeks } from './crankBodies.ts';
import { layCylinders } from './cylinders.ts';
import type { Body, Cylinder } from './engine.ts';
import { layPistons } from './pistonBodies.ts';
import { layRods } from './rodBodies.ts';
import { layValves, withPockets } from './valveBodies.ts';

/** The bodies that gaps are between; what is only drawn is left out. */
export interface Design {
  readonly doc: BuildDocument;
  readonly assembly: Assembly;
  readonly cylinders: readonly Cylinder[];
  readonly block: readonly Body[];
  readonly cheeks: readonly Body[];
  readonly camshaft: readonly Body[];
  readonly rods: readonly Body[];
  readonly pistons: readonly Body[];
  readonly valves: readonly Body[];
}

/** The build must have passed its rules. Throws a RangeError when no assembly has that name. */
export function layDesign(doc: BuildDocument, assemblyName: string, before: Design | null): Design {
  const assembly = doc.assemblies.find((a) => a.name === assemblyName);
  if (assembly === undefined) throw new RangeError(`layDesign: no assembly is called "${assemblyName}"`);
  const cylinders = layCylinders(doc, assembly);
  const was = before !== null && before.doc.block === doc.block && before.assembly.own === assembly.own ? before : null;
  const same = (keys: readonly (keyof Assembly)[]): boolean =>
    was !== null && keys.every((key) => was.assembly[key] === assembly[key]);
  // Angles of the layout that are assumed move every body against another.
  const { assumed } = layoutOfBlock(doc.block);
  const all = (bodies: readonly Body[]): readonly Body[] =>
    assumed.length === 0 ? bodies : bodies.map((body) => ({ ...body, assumed: [...body.assumed, ...assumed] }));
  const top = was !== null && topOf(was.cylinders) === topOf(cylinders);
  const moving = same(['crank', 'rod', 'piston']) && top;
  return {
    doc,
    assembly,
    cylinders,
    block: was?.block ?? all([...layBores(doc, cylinders), ...layCrankcase(doc, cylinders)]),
    cheeks: same(['crank']) ? was!.cheeks : all(layCheeks(doc, assembly, cylinders)),
    camshaft: same(['camshaft']) && top ? was!.camshaft : all(layCamshaft(doc, assembly, cylinders)),
    rods: moving ? was!.rods : all(layRods(assembly, cylinders)),
    pistons: moving
      ? was!.pistons
      : all(layPistons(assembly, cylinders).map((p) => withPockets(assembly, cylinders, p))),
    // Of everything: they are few, and rest on camshaft, piston and motion alike.
    valves: was !== null && was.assembly === assembly ? was.valves : all(layValves(doc, assembly, cylinders)),
  };
}

/** True TDC of cylinder 1 from where its pin is in line, which the camshaft is set by: with an offset it moves with stroke and rod length. */
function topOf(cylinders: readonly Cylinder[]): number {
  return cylinders[0]!.firingTdcRad - cylinders[0]!.firingPinRad;
}

/** In the order of `layOut`. */
export function bodiesOf(d: Design): Body[] {
  return [...d.block, ...d.cheeks, ...d.camshaft, ...d.rods, ...d.pistons, ...d.valves];
}
