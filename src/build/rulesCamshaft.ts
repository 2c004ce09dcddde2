/** Rules about the camshaft: that its lobes can be ground, can be followed, and stand along the shaft in order. */
import type { Decimal } from 'decimal.js';
import { crankAboveLiftRad } from '../core/lobe/durationOf.ts';
import { lobeLawOf } from '../core/lobe/lobeSpec.ts';
import type { Assembly, BuildDocument, Camshaft, LiftTable, Own, Valve } from './document.ts';
import { borePlace, type LayoutCylinder, layoutOfBlock } from './layouts.ts';
import { Exact, lengthMm } from './literal.ts';
import { lobeFault, sayLobeFault } from './lobeLaw.ts';
import { type LobeFigures, lobeInTime, lobeOf, lobePlace } from './lobeOf.ts';
import { exact, type Report, type RuleGroup, sayMm } from './ruleTable.ts';

export const camshaftGroup: RuleGroup = {
  rules: [
    {
      name: 'core below the base circle',
      what: 'Core diameter at most the base circle.',
      why: 'The follower would run on the core.',
    },
    {
      name: 'duration below the lift',
      what: 'The lift at which duration is stated is below the lift of every lobe.',
      why: 'A lobe that never reaches it has no duration there.',
    },
    {
      name: 'duration of a lobe',
      what: 'From 60 to 540 crank degrees.',
      why: 'A valve open for longer than three quarters of the cycle, or for less than a sixth of a turn, is a slip.',
    },
    {
      name: 'flanks of a lobe',
      what: 'An opening flank from a quarter to three quarters of the duration; a lobe’s own duration comes with its own opening where flanks are unlike.',
      why: 'The rest of the duration is the closing flank; of a new duration alone nobody can say which flank it lengthens.',
    },
    {
      name: 'measured lifts',
      what: 'Readings at rising angles from the base circle over one nose, at zero, to the base circle again, at most 10 cam degrees apart, that a smooth curve passes.',
      why: 'The lobe is drawn from them; a slip among them would make a lobe that is not there.',
    },
    {
      name: 'measured and stated',
      what:
        'Lift and duration stated beside measured lifts agree with them within 0.5 mm and 6 crank degrees; a lobe of its own among measured ones ' +
        'is measured too.',
      why: 'The measured lifts decide; figures that say something else belong to another lobe.',
    },
    {
      name: 'lobe and follower',
      what: 'A flat face or the roller can follow the lobe: no hollow or corner on its path.',
      why: 'The lobe drawn would not be the lobe that gives this lift.',
    },
    {
      name: 'lobes side by side',
      what: 'Lobes do not overlap along the shaft.',
      why: 'Two lobes can’t be ground in one place.',
    },
    {
      name: 'lobes in order',
      what:
        'Along the shaft the intake lobes, and the exhaust lobes, come in the order of their bores, and no lobe stands among ' +
        'those of another throw.',
      why: 'A lobe among those of another throw is a slip in its axial place; clearances would be taken at the wrong rod.',
    },
  ],
  check(doc, report) {
    doc.assemblies.forEach((assembly, a) => {
      if (assembly.camshaft === undefined) return;
      const place = `assemblies[${a}]`;
      checkSection(assembly.camshaft, `${place}.camshaft`, report);
      const lobes = lobesOf(doc, assembly, assembly.camshaft);
      checkLobes(assembly.camshaft, lobes, place, report);
      checkOrder(assembly.camshaft, lobes, place, report);
    });
  },
};

interface Lobe {
  readonly name: string;
  readonly cylinder: LayoutCylinder;
  readonly valve: Valve;
  readonly figures: LobeFigures;
  readonly own?: Extract<Own, { body: 'lobe' }>;
  readonly ownPlace?: string;
  readonly boreCentre: Decimal;
  readonly centre: Decimal;
}

function lobesOf(doc: BuildDocument, assembly: Assembly, camshaft: Camshaft): readonly Lobe[] {
  const layout = layoutOfBlock(doc.block);
  return layout.cylinders.flatMap((cylinder) =>
    (['intake', 'exhaust'] as const).map((valve): Lobe => {
      const figures = lobeOf(assembly, camshaft, cylinder.number, valve);
      const { own, ownPlace } = figures;
      const at = borePlace(layout, cylinder);
      const boreCentre = exact(doc.block.boreSpacing)
        .times(at.spacings)
        .plus(exact(doc.block.bankOffset).times(at.bankOffsets));
      const axial = exact(valve === 'intake' ? camshaft.intakeAxial : camshaft.exhaustAxial);
      const name = `${valve} lobe ${cylinder.number}`;
      if (own === undefined) return { name, cylinder, valve, figures, boreCentre, centre: boreCentre.plus(axial) };
      const shift = own.axialShift === undefined ? new Exact(0) : exact(own.axialShift);
      const centre = boreCentre.plus(axial).plus(shift);
      return { name, cylinder, valve, figures, own, ownPlace: ownPlace!, boreCentre, centre };
    }),
  );
}

function checkSection(camshaft: Camshaft, place: string, report: Report): void {
  const base = exact(camshaft.baseCircle);
  if (exact(camshaft.coreDiameter).gt(base)) {
    const allowed = `Allowed: at most the base circle, ${sayMm(base)}.`;
    report('core below the base circle', `${place}.coreDiameter`, camshaft.coreDiameter.value, allowed);
  }
}

/** Crank degrees; see the rule. */
const LONGEST_DURATION_DEG = 540;
/** Crank degrees; no valve is opened and shut again in less, and a lobe that sharp is a slip of typing. */
const SHORTEST_DURATION_DEG = 60;

/** Each lobe that differs, named where its figures stand; the common ones once. */
function checkLobes(camshaft: Camshaft, lobes: readonly Lobe[], place: string, report: Report): void {
  const judged = new Set<string>();
  for (const { figures } of lobes) {
    const at = (figure: 'lift' | 'duration' | 'opening' | 'table') => `${place}.${lobePlace(figures, figure)}`;
    const key = (['lift', 'duration', 'opening', 'table'] as const).map(at).join(' ');
    if (judged.has(key)) continue;
    judged.add(key);
    const { lift, duration } = figures;
    const stated = exact(camshaft.durationAtLift);
    if (!exact(lift).gt(stated)) {
      const allowed = `Allowed: more than the lift at which duration is stated, ${sayMm(stated)}.`;
      report('duration below the lift', at('lift'), lift.value, allowed);
    } else if (exact(duration).gt(LONGEST_DURATION_DEG) || exact(duration).lt(SHORTEST_DURATION_DEG)) {
      const allowed = `Allowed: from ${SHORTEST_DURATION_DEG} to ${LONGEST_DURATION_DEG} deg.`;
      report('duration of a lobe', at('duration'), duration.value, allowed);
    } else if (figures.table !== undefined) checkMeasured(camshaft, figures, figures.table, at, report);
    else if (flanksFit(figures, at, report)) {
      const fault = lobeFault(lobeInTime(camshaft, figures));
      if (fault !== null)
        report('lobe and follower', at('lift'), `${lift.value}, ${duration.value}`, sayLobeFault(fault));
    }
  }
}

type PlaceOf = (figure: 'lift' | 'duration' | 'opening' | 'table') => string;

/** Shares of the duration; see the rule. */
const SHORTEST_FLANK = '0.25';
const LONGEST_FLANK = '0.75';

function flanksFit({ opening, duration, own }: LobeFigures, at: PlaceOf, report: Report): boolean {
  if (opening === undefined) return true;
  if (own?.duration !== undefined && own.opening === undefined) {
    const allowed = 'The camshaft’s flanks are unlike; a duration of its own comes with an opening flank of its own.';
    report('flanks of a lobe', at('duration'), duration.value, allowed);
    return false;
  }
  const least = exact(duration).times(SHORTEST_FLANK);
  const most = exact(duration).times(LONGEST_FLANK);
  if (exact(opening).gte(least) && exact(opening).lte(most)) return true;
  const allowed = `Allowed: from ${least.toFixed()} to ${most.toFixed()} deg, a quarter to three quarters of the duration.`;
  report('flanks of a lobe', at('opening'), opening.value, allowed);
  return false;
}

/** Millimetres and crank degrees; see the rule. Wear and reading take less, a table of another lobe or of valve lift more. */
const LIFT_AGREES_MM = 0.5;
const DURATION_AGREES_DEG = 6;

function checkMeasured(camshaft: Camshaft, figures: LobeFigures, table: LiftTable, at: PlaceOf, report: Report): void {
  const { own, lift, duration, opening } = figures;
  const ownFigure = (['lift', 'duration', 'opening'] as const).find((figure) => own?.[figure] !== undefined);
  if (own !== undefined && own.table === undefined && ownFigure !== undefined) {
    const allowed = 'The camshaft’s lobes are measured; a lobe that differs needs measured lifts of its own.';
    report('measured and stated', at(ownFigure), own[ownFigure]!.value, allowed);
    return;
  }
  if (opening !== undefined) {
    const allowed = 'The measured lifts say how long each flank is; leave the opening flank out.';
    report('measured and stated', at('opening'), opening.value, allowed);
    return;
  }
  const inTime = lobeInTime(camshaft, figures);
  const fault = lobeFault(inTime);
  if (fault !== null) {
    // Readings run the other way in the numeric part.
    const index = fault.table === undefined ? -1 : table.points.length - 1 - fault.table.reading;
    const point = table.points[index];
    const written = point === undefined ? table.within.value : `${point.at}, ${point.lift}`;
    const rule = fault.table === undefined ? 'lobe and follower' : 'measured lifts';
    report(rule, point === undefined ? at('table') : `${at('table')}.points[${index}]`, written, sayLobeFault(fault));
    return;
  }
  const { law } = lobeLawOf(inTime);
  // Figures of the camshaft are not those of a lobe with a table of its own.
  const speaksOfIt = (figure: 'lift' | 'duration') => own?.table === undefined || own[figure] !== undefined;
  if (speaksOfIt('lift') && Math.abs(lengthMm(lift.value) - law.liftMm) > LIFT_AGREES_MM) {
    const allowed = `The measured lifts reach ${sayMm(new Exact(law.liftMm))}; allowed: within ${LIFT_AGREES_MM} mm of it.`;
    report('measured and stated', at('lift'), lift.value, allowed);
  }
  if (!speaksOfIt('duration')) return;
  const measuredDeg = (crankAboveLiftRad(law, lengthMm(camshaft.durationAtLift.value)) * 180) / Math.PI;
  if (Math.abs(Number(exact(duration)) - measuredDeg) > DURATION_AGREES_DEG) {
    const allowed = `The measured lifts stand at ${camshaft.durationAtLift.value} for ${measuredDeg.toFixed(1)} deg; allowed: within ${DURATION_AGREES_DEG} deg of it.`;
    report('measured and stated', at('duration'), duration.value, allowed);
  }
}

function checkOrder(camshaft: Camshaft, lobes: readonly Lobe[], place: string, report: Report): void {
  const along = [...lobes].sort((a, b) => a.centre.cmp(b.centre));
  const width = exact(camshaft.lobeWidth);
  const placeOfAxial = (lobe: Lobe) =>
    lobe.own?.axialShift === undefined
      ? `${place}.camshaft.${lobe.valve}Axial`
      : `${place}.${lobe.ownPlace}.axialShift`;
  const writtenOf = (lobe: Lobe) => (lobe.own?.axialShift ?? camshaft[`${lobe.valve}Axial`]).value;
  const reported = new Set<string>();
  const once = (rule: string, lobe: Lobe, allowed: string) => {
    const key = `${rule} ${placeOfAxial(lobe)}`;
    if (!reported.has(key)) report(rule, placeOfAxial(lobe), `${writtenOf(lobe)} (${lobe.name})`, allowed);
    reported.add(key);
  };
  along.forEach((lobe, k) => {
    const next = along[k + 1];
    if (next === undefined) return;
    const apart = next.centre.minus(lobe.centre);
    if (apart.lt(width)) {
      const allowed = `${lobe.name} and ${next.name} are ${sayMm(apart)} apart; allowed: at least the lobe width, ${sayMm(width)}.`;
      once('lobes side by side', moved(lobe, next), allowed);
    } else if (next.cylinder.throw < lobe.cylinder.throw) {
      once('lobes in order', moved(lobe, next), `${next.name} stands behind ${lobe.name}, of a throw behind its own.`);
    }
  });
  for (const valve of ['intake', 'exhaust'] as const) {
    const same = along.filter((lobe) => lobe.valve === valve);
    same.forEach((lobe, k) => {
      const before = same[k - 1];
      if (before === undefined || before.cylinder.throw !== lobe.cylinder.throw) return;
      if (lobe.boreCentre.lt(before.boreCentre)) {
        const allowed = `${lobe.name} stands behind ${before.name}, whose bore is behind its own.`;
        once('lobes in order', moved(before, lobe), allowed);
      }
    });
  }
}

/** Of two lobes that do not agree, the one with an axial shift of its own; else the one behind. */
function moved(front: Lobe, behind: Lobe): Lobe {
  return behind.own?.axialShift === undefined && front.own?.axialShift !== undefined ? front : behind;
}
