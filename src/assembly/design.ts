/**
 * Many designs that differ in a dimension or two, laid out one after the other: what a change does not reach is taken over
 * from the design before, and of the rest a body is laid out when it is first asked for. A document shares what is unchanged with the one
 * it was made from, so that equal objects say that a part's dimensions are equal.
 */
import type { Assembly, BuildDocument } from '../build/document.ts';
import { layoutOfBlock } from '../build/layouts.ts';
import { layBores, layCrankcase } from './blockBodies.ts';
import { layCamshaft } from './camBodies.ts';
import { cheeksOf } from './crankBodies.ts';
import { layCylinders } from './cylinders.ts';
import type { Body, Cylinder } from './engine.ts';
import { layPiston } from './pistonBodies.ts';
import { layRod } from './rodBodies.ts';
import { layValve, VALVES, withPockets } from './valveBodies.ts';

/** Bodies of one kind, laid out as they are asked for, from 0. */
export interface Row {
  readonly count: number;
  readonly at: (k: number) => Body;
}

/** The bodies that gaps are between; what is only drawn is left out. */
export interface Design {
  readonly doc: BuildDocument;
  readonly assembly: Assembly;
  readonly cylinders: readonly Cylinder[];
  readonly block: Row;
  readonly cheeks: Row;
  readonly camshaft: Row;
  readonly rods: Row;
  readonly pistons: Row;
  readonly valves: Row;
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
  const row = (count: number, lay: (k: number) => Body): Row => {
    const made: Body[] = [];
    return {
      count,
      at: (k) => {
        let body = made[k];
        if (body === undefined) {
          body = lay(k);
          if (assumed.length > 0) body = { ...body, assumed: [...body.assumed, ...assumed] };
          made[k] = body;
        }
        return body;
      },
    };
  };
  const listed = (bodies: readonly Body[]): Row => row(bodies.length, (k) => bodies[k]!);
  const top = was !== null && topOf(was.cylinders) === topOf(cylinders);
  const moving = same(['crank', 'rod', 'piston']) && top;
  const laidCheeks = (): Row => {
    const { count, lay } = cheeksOf(doc, assembly, cylinders);
    return row(count, lay);
  };
  const cylinderCount = cylinders.length;
  const valved = assembly.camshaft !== undefined && assembly.valvetrain !== undefined;
  return {
    doc,
    assembly,
    cylinders,
    block: was?.block ?? listed([...layBores(doc, cylinders), ...layCrankcase(doc, cylinders)]),
    cheeks: same(['crank']) ? was!.cheeks : laidCheeks(),
    camshaft: same(['camshaft']) && top ? was!.camshaft : listed(layCamshaft(doc, assembly, cylinders)),
    rods: moving ? was!.rods : row(cylinderCount, (k) => layRod(assembly, cylinders, cylinders[k]!)),
    pistons: moving ? was!.pistons : row(cylinderCount, (k) => layPiston(assembly, cylinders[k]!)),
    // Of everything: they rest on camshaft, piston and motion alike.
    valves:
      was !== null && was.assembly === assembly
        ? was.valves
        : row(valved ? VALVES.length * cylinderCount : 0, (k) =>
            layValve(doc, assembly, cylinders, cylinders[Math.floor(k / VALVES.length)]!, VALVES[k % VALVES.length]!),
          ),
  };
}

/** Whether the valves of two designs are the same, but for the crowns they meet: block, camshaft and valvetrain are all that they depend on. */
export function sameValves(a: Design, b: Design): boolean {
  return (
    a.doc.block === b.doc.block &&
    a.assembly.own === b.assembly.own &&
    a.assembly.camshaft === b.assembly.camshaft &&
    a.assembly.valvetrain === b.assembly.valvetrain &&
    topOf(a.cylinders) === topOf(b.cylinders)
  );
}

/** True TDC of cylinder 1 from where its pin is in line, which the camshaft is set by: with an offset it moves with stroke and rod length. */
function topOf(cylinders: readonly Cylinder[]): number {
  return cylinders[0]!.firingTdcRad - cylinders[0]!.firingPinRad;
}

function rowsOf(d: Design): readonly Row[] {
  return [d.block, d.cheeks, d.camshaft, d.rods, d.pistons, d.valves];
}

export function bodyCount(d: Design): number {
  return rowsOf(d).reduce((sum, { count }) => sum + count, 0);
}

/** By its place in the order of `layOut`; of a piston what is drawn lacks the valve pockets. */
export function bodyAt(d: Design, place: number): Body {
  let k = place;
  for (const row of rowsOf(d)) {
    if (k < row.count) return row.at(k);
    k -= row.count;
  }
  throw new RangeError(`bodyAt: there are ${bodyCount(d)} bodies, none has place ${place}`);
}

/** All, in the order of `layOut`. */
export function bodiesOf(d: Design): Body[] {
  return rowsOf(d).flatMap((row) =>
    Array.from({ length: row.count }, (_, k) =>
      row === d.pistons ? withPockets(d.assembly, d.cylinders, row.at(k)) : row.at(k),
    ),
  );
}
