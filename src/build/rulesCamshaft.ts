/** Rules about the camshaft: that its lobes can be ground, can be followed, and stand along the shaft in order. */
import type { Decimal } from 'decimal.js';
import type { Assembly, BuildDocument, Camshaft, Own, Valve } from './document.ts';
import { borePlace, type LayoutCylinder, layoutOfBlock } from './layouts.ts';
import { Exact } from './literal.ts';
import { lobeLawFault } from './lobeLaw.ts';
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
  readonly own?: Extract<Own, { body: 'lobe' }>;
  readonly ownPlace?: string;
  readonly boreCentre: Decimal;
  readonly centre: Decimal;
}

function lobesOf(doc: BuildDocument, assembly: Assembly, camshaft: Camshaft): readonly Lobe[] {
  const layout = layoutOfBlock(doc.block);
  return layout.cylinders.flatMap((cylinder) =>
    (['intake', 'exhaust'] as const).map((valve): Lobe => {
      const index =
        assembly.own?.findIndex((o) => o.body === 'lobe' && o.cylinder === cylinder.number && o.valve === valve) ?? -1;
      const own = assembly.own?.[index];
      const at = borePlace(layout, cylinder);
      const boreCentre = exact(doc.block.boreSpacing)
        .times(at.spacings)
        .plus(exact(doc.block.bankOffset).times(at.bankOffsets));
      const axial = exact(valve === 'intake' ? camshaft.intakeAxial : camshaft.exhaustAxial);
      const name = `${valve} lobe ${cylinder.number}`;
      if (own?.body !== 'lobe') return { name, cylinder, valve, boreCentre, centre: boreCentre.plus(axial) };
      const shift = own.axialShift === undefined ? new Exact(0) : exact(own.axialShift);
      const centre = boreCentre.plus(axial).plus(shift);
      return { name, cylinder, valve, own, ownPlace: `own[${index}]`, boreCentre, centre };
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
  for (const lobe of lobes) {
    const lift = lobe.own?.lift ?? (lobe.valve === 'intake' ? camshaft.intakeLift : camshaft.exhaustLift);
    const duration =
      lobe.own?.duration ?? (lobe.valve === 'intake' ? camshaft.intakeDuration : camshaft.exhaustDuration);
    const common = `${place}.camshaft.${lobe.valve}`;
    const liftPlace = lobe.own?.lift === undefined ? `${common}Lift` : `${place}.${lobe.ownPlace}.lift`;
    const durationPlace = lobe.own?.duration === undefined ? `${common}Duration` : `${place}.${lobe.ownPlace}.duration`;
    const key = `${liftPlace} ${durationPlace}`;
    if (judged.has(key)) continue;
    judged.add(key);
    const stated = exact(camshaft.durationAtLift);
    if (!exact(lift).gt(stated)) {
      const allowed = `Allowed: more than the lift at which duration is stated, ${sayMm(stated)}.`;
      report('duration below the lift', liftPlace, lift.value, allowed);
      continue;
    }
    if (exact(duration).gt(LONGEST_DURATION_DEG) || exact(duration).lt(SHORTEST_DURATION_DEG)) {
      const allowed = `Allowed: from ${SHORTEST_DURATION_DEG} to ${LONGEST_DURATION_DEG} deg.`;
      report('duration of a lobe', durationPlace, duration.value, allowed);
      continue;
    }
    const fault = lobeLawFault(camshaft, lift, duration);
    if (fault !== null) report('lobe and follower', liftPlace, `${lift.value}, ${duration.value}`, fault);
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
