/** What is to be done to the crank, in the order of a grinder's bench, and which parts are bought: sentences made from the build's own figures. */

import type { BuildDocument, Dim } from '../../build/document.ts';
import { exactBase } from '../../build/literal.ts';
import type { Units } from '../state.ts';
import { shopOf } from './shop.ts';
import { amount, type Decimal } from './sum.ts';
import { written } from './written.ts';

export interface Route {
  readonly assembly: string;
  readonly route: string;
  readonly operations: readonly string[];
  readonly parts: readonly string[];
}

/** For one assembly against the one being replaced. */
export function routeOf(doc: BuildDocument, name: string, units: Units): Route {
  const { assembly } = shopOf(doc, name);
  const { assembly: before } = shopOf(doc, doc.replaced);
  const say = (mm: Decimal): string => written(amount('fine length', mm), units);
  const { core, crank, intoBlock } = assembly;
  const worked = core?.stroke !== undefined || core?.rodJournal !== undefined || (intoBlock?.length ?? 0) > 0;
  const ground = core?.rodJournal !== undefined && !mm(core.rodJournal).eq(mm(crank.rodJournal));
  const shift = core?.stroke === undefined ? null : mm(crank.stroke).minus(mm(core.stroke)).div(2);
  const turnedDown =
    core?.counterweightRadius !== undefined && !mm(core.counterweightRadius).eq(mm(crank.counterweight.radius));
  const operations: string[] = [];
  if (worked)
    operations.push(
      'Clean and crack-test the crankshaft; stop here if it is cracked.',
      'Check that it is straight, and straighten it.',
    );
  for (const surface of intoBlock ?? []) {
    const off = mm(surface.has).minus(mm(surface.takes));
    if (off.isZero()) continue;
    const where = surface.is === 'diameter' ? 'on the diameter' : 'on one face';
    operations.push(
      off.gt(0)
        ? `Turn or grind the ${surface.name} from ${surface.has.value} to ${surface.takes.value}: ${say(off)} ${where}.`
        : `The ${surface.name} lacks ${say(off.neg())}: this crank does not go into the block as it is.`,
    );
  }
  if (ground) {
    const centred = shift === null || shift.isZero();
    const offset = centred
      ? 'on its centre'
      : `with their middles moved ${shift.gt(0) ? 'outward' : 'inward'} by ${say(shift.abs())}`;
    operations.push(
      `Grind the rod journals from ${core!.rodJournal!.value} to ${crank.rodJournal.value}, ${offset}, all throws to one stroke of ${crank.stroke.value}.`,
    );
  }
  if (worked) {
    const fillet = assembly.bearings?.rodFillet;
    operations.push(
      fillet === undefined ? 'Restore the fillets.' : `Restore the fillets of the rod journals to ${fillet.value}.`,
    );
  }
  if (turnedDown) {
    operations.push(
      `Turn the counterweights from a radius of ${core!.counterweightRadius!.value} to ${crank.counterweight.radius.value}.`,
    );
  }
  if (worked) {
    operations.push(
      core?.caseDepth === undefined
        ? 'Ask the grinder whether the journals need hardening again: the depth of the case is not stated.'
        : 'Harden the journals again where the case is cut through; check that the crank is still straight.',
      'Dress the edges of the oil holes; polish the journals.',
      'Balance to the bobweight card, shells and keys in place.',
      'Wash, blow out every oil way, and measure each journal again.',
    );
  }
  return { assembly: name, route: assembly.route, operations, parts: partsOf(assembly, before, say) };
}

type AssemblyOf = ReturnType<typeof shopOf>['assembly'];

/** Parts that differ from the assembly being replaced. */
function partsOf(assembly: AssemblyOf, before: AssemblyOf, say: (mm: Decimal) => string): string[] {
  if (assembly === before) return [];
  const differs = (a: Dim, b: Dim): boolean => !mm(a).eq(mm(b));
  const parts: string[] = [];
  const { rod, piston, crank } = assembly;
  if (differs(rod.length, before.rod.length) || differs(crank.rodJournal, before.crank.rodJournal)) {
    parts.push(
      `Rods ${rod.length.value} long, big end ${rod.bigEndWidth.value} wide, for a ${crank.rodJournal.value} journal.`,
    );
  }
  if (
    differs(piston.compressionHeight, before.piston.compressionHeight) ||
    differs(piston.pinDiameter, before.piston.pinDiameter)
  ) {
    parts.push(
      `Pistons of ${piston.compressionHeight.value} compression height, ${piston.pinDiameter.value} pin, skirt ${piston.skirtDiameter.value}.`,
    );
  }
  if (differs(crank.rodJournal, before.crank.rodJournal)) {
    const under = mm(before.crank.rodJournal).minus(mm(crank.rodJournal));
    const size = under.gt(0) ? `${say(under)} smaller` : `${say(under.neg())} larger`;
    parts.push(`Rod bearings for a ${crank.rodJournal.value} journal, ${size} than the one replaced.`);
  }
  if (differs(crank.mainJournal, before.crank.mainJournal))
    parts.push(`Main bearings for a ${crank.mainJournal.value} journal.`);
  parts.push('Rings, gaskets, bolts as their makers ask for.');
  return parts;
}

function mm(dim: Dim): Decimal {
  return exactBase(dim.value, 'length');
}
