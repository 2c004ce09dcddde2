/** Rules about crankshaft and rods: that the assembly turns, and that its parts fit beside and around one another. */
import type { Decimal } from 'decimal.js';
import { counterweightOf, pistonOf, type RodField, rodOf, weightedCheeks } from './bodyOf.ts';
import type { Assembly, Block, BuildDocument, CheekSide } from './document.ts';
import { borePlace, type Layout, type LayoutCylinder, layoutOfBlock } from './layouts.ts';
import { Exact } from './literal.ts';
import { checkRodSection, rodSectionRules } from './rulesRod.ts';
import { exact, type Report, type RuleGroup, sayMm } from './ruleTable.ts';

export const crankGroup: RuleGroup = {
  rules: [
    {
      name: 'assembly turns',
      what: 'Rod length greater than crank radius plus the offset of the pin line, l > r + |e|.',
      why: 'A shorter rod can’t follow the crankpin past the side of the bore axis.',
    },
    {
      name: 'rods on the pin',
      what: 'Big-end widths on a crankpin together at most the journal length.',
      why: 'They would not go between the cheeks.',
    },
    {
      name: 'rods between the cheeks',
      what: 'Each big end, centred on its bore (moved by its beam offset and axial shift), lies within the journal.',
      why: 'It would run in the cheek.',
    },
    {
      name: 'rods side by side',
      what: 'The two big ends on a crankpin, centred on their bores, do not overlap along the shaft.',
      why: 'Two rods can’t take the same place.',
    },
    ...rodSectionRules,
    {
      name: 'cheek around the pin',
      what: 'Radius of the cheek about the pin greater than the radius of the rod journal.',
      why: 'The journal would stand out of its cheek.',
    },
    {
      name: 'hub around the main journal',
      what: 'Hub radius not below the radius of the main journal.',
      why: 'The journal would stand out of its cheek.',
    },
    {
      name: 'main journal in its bore',
      what: 'Main journal smaller than the main bore.',
      why: 'The crank would not go into the block.',
    },
    {
      name: 'throws along the shaft',
      what: 'Journal length, two cheeks and a bearing web together at most the distance of neighbouring throws.',
      why: 'The cheeks would run in the webs.',
    },
    {
      name: 'cheek shifted',
      what: 'A counterweight moved along the shaft by at most the thickness of its cheek, and not into the bearing web beside it.',
      why: 'One moved farther would hang on neither journal, and in the web it would run in metal.',
    },
    {
      name: 'counterweight outside its hub',
      what: 'Counterweight radius greater than the hub radius.',
      why: 'There would be no counterweight; a cheek without one is left out in crank.weighted.',
    },
    {
      name: 'counterweight corner',
      what: 'The corner radius fits between rim and flank, beyond the hub and within half the counterweight.',
      why: 'The rounding would have no rim or no flank to meet.',
    },
  ],
  check(doc, report) {
    const layout = layoutOfBlock(doc.block);
    doc.assemblies.forEach((assembly, a) => {
      const place = `assemblies[${a}]`;
      checkCrank(doc, assembly, `${place}.crank`, layout, report);
      checkCounterweights(assembly, place, layout, report);
      checkShifts(doc, assembly, place, layout, report);
      checkRods(doc, assembly, place, layout, report);
      checkPins(doc, assembly, place, layout, report);
    });
  },
};

function checkCrank(doc: BuildDocument, { crank }: Assembly, place: string, layout: Layout, report: Report): void {
  if (!exact(crank.pinEndRadius).gt(exact(crank.rodJournal).div(2))) {
    const least = sayMm(exact(crank.rodJournal).div(2));
    report('cheek around the pin', `${place}.pinEndRadius`, crank.pinEndRadius.value, `Allowed: more than ${least}.`);
  }
  const mainBore = exact(doc.block.bulkhead.mainBore);
  if (!exact(crank.mainJournal).lt(mainBore)) {
    const allowed = `Allowed: less than the main bore, ${sayMm(mainBore)}.`;
    report('main journal in its bore', `${place}.mainJournal`, crank.mainJournal.value, allowed);
  }
  if (layout.throwPhasesDeg.length > 1) {
    const used = exact(crank.journalLength)
      .plus(exact(crank.cheekThickness).times(2))
      .plus(exact(doc.block.bulkhead.thickness));
    const centres = layout.throwPhasesDeg.map((_, k) => throwCentre(doc.block, layout, k + 1));
    const least = centres
      .slice(1)
      .map((centre, k) => centre.minus(centres[k]!))
      .reduce((a, b) => (b.lt(a) ? b : a));
    if (used.gt(least)) {
      report(
        'throws along the shaft',
        `${place}.cheekThickness`,
        crank.cheekThickness.value,
        `Journal, two cheeks and a web take ${sayMm(used)}; allowed: at most the distance of neighbouring throws, ${sayMm(least)}.`,
      );
    }
  }
}

/** The common counterweight and each that differs, named where it stands. */
function checkCounterweights(assembly: Assembly, place: string, layout: Layout, report: Report): void {
  const hubLeast = exact(assembly.crank.mainJournal).div(2);
  const variants = [{ dims: assembly.crank.counterweight, at: `${place}.crank.counterweight` }];
  for (const cheek of weightedCheeks(assembly, layout)) {
    const one = counterweightOf(assembly, cheek.throw, cheek.side);
    if (one.own?.set !== undefined) variants.push({ dims: one.dims, at: `${place}.${one.ownPlace}.set` });
  }
  for (const { dims, at } of variants) {
    const [hub, rim] = [exact(dims.hubRadius), exact(dims.radius)];
    if (hub.lt(hubLeast)) {
      const allowed = `Allowed: at least ${sayMm(hubLeast)}.`;
      report('hub around the main journal', `${at}.hubRadius`, dims.hubRadius.value, allowed);
    }
    if (!rim.gt(hub)) {
      report('counterweight outside its hub', `${at}.radius`, dims.radius.value, `Allowed: more than ${sayMm(hub)}.`);
      continue;
    }
    if (!cornerFits(rim, hub, exact(dims.cornerRadius), exact(dims.halfAngle))) {
      const allowed = 'Allowed: a radius that touches both rim and flank.';
      report('counterweight corner', `${at}.cornerRadius`, dims.cornerRadius.value, allowed);
    }
  }
}

/**
 * Cheeks moved along the shaft by own entries. A web takes its thickness between the cheeks of neighbouring throws, and what room
 * there is beside it may be used by either: the two shifts together must leave the web.
 */
function checkShifts(doc: BuildDocument, assembly: Assembly, place: string, layout: Layout, report: Report): void {
  const { crank } = assembly;
  const thickness = exact(crank.cheekThickness);
  const shiftOf = (number: number, side: CheekSide) => {
    const { own, ownPlace } = counterweightOf(assembly, number, side);
    const dim = own?.axialShift;
    return { dim, mm: dim === undefined ? new Exact(0) : exact(dim), at: `${place}.${ownPlace}.axialShift` };
  };
  layout.throwPhasesDeg.forEach((_, k) => {
    const [front, rear] = [shiftOf(k + 1, 'front'), shiftOf(k + 1, 'rear')];
    for (const { dim, mm, at } of [front, rear]) {
      if (dim !== undefined && mm.abs().gt(thickness)) {
        const allowed = `Allowed: at most the thickness of the cheek, ${sayMm(thickness)}, either way.`;
        report('cheek shifted', at, dim.value, allowed);
      }
    }
    if (k + 1 === layout.throwPhasesDeg.length) return;
    const next = shiftOf(k + 2, 'front');
    if (rear.dim === undefined && next.dim === undefined) return;
    const apart = throwCentre(doc.block, layout, k + 2).minus(throwCentre(doc.block, layout, k + 1));
    const room = apart.minus(exact(crank.journalLength)).minus(thickness.times(2));
    const web = exact(doc.block.bulkhead.thickness);
    const left = room.minus(rear.mm).plus(next.mm);
    // Without room for the web to begin with, it is not the shift that is wrong.
    if (room.lt(web) || !left.lt(web)) return;
    const one = rear.dim !== undefined && rear.mm.gt(0) ? rear : next;
    const allowed = `That leaves ${sayMm(left)} between the cheeks; allowed: at least the bearing web, ${sayMm(web)}.`;
    report('cheek shifted', one.at, one.dim?.value ?? '', allowed);
  });
}

/**
 * A rounding of radius c touches the rim of radius R from inside, its centre at R - c from the crank axis and c from the radial
 * flank: it meets the flank at sqrt((R - c)^2 - c^2), which must lie beyond the hub, and takes asin(c / (R - c)) of the half angle.
 */
function cornerFits(rim: Decimal, hub: Decimal, corner: Decimal, halfAngleDeg: Decimal): boolean {
  const centre = rim.minus(corner);
  if (centre.lte(corner)) return false;
  const flankSq = rim.times(rim.minus(corner.times(2)));
  if (flankSq.lt(hub.times(hub))) return false;
  const takenRad = Math.asin(corner.div(centre).toNumber());
  return takenRad <= (halfAngleDeg.toNumber() * Math.PI) / 180;
}

function checkRods(doc: BuildDocument, assembly: Assembly, place: string, layout: Layout, report: Report): void {
  const seen = new Set<string>();
  for (const { number } of layout.cylinders) {
    const rod = rodOf(assembly, number);
    const piston = pistonOf(assembly, number);
    const rodPlace = (field: RodField) =>
      rod.own?.set?.[field] === undefined ? `${place}.rod.${field}` : `${place}.${rod.ownPlace}.set.${field}`;
    // The same dimension, refused for the same reason, is reported once for all the cylinders that share it.
    const once: Report = (rule, at, value, allowed) => {
      const key = `${rule} ${at} ${allowed}`;
      if (!seen.has(key)) report(rule, at, value, allowed);
      seen.add(key);
    };
    const radius = exact(assembly.crank.stroke).div(2);
    const offset = exact(doc.block.boreOffset).plus(exact(piston.dims.pinOffset)).abs();
    const least = radius.plus(offset);
    if (!exact(rod.dims.length).gt(least)) {
      const allowed = `Allowed: more than crank radius and offset together, ${sayMm(least)}.`;
      once('assembly turns', rodPlace('length'), rod.dims.length.value, allowed);
    }
    checkRodSection(assembly, rod.dims, rodPlace, once);
  }
}

interface BigEnd {
  readonly cylinder: number;
  readonly centre: Decimal;
  readonly half: Decimal;
}

function checkPins(doc: BuildDocument, assembly: Assembly, place: string, layout: Layout, report: Report): void {
  const journal = exact(assembly.crank.journalLength);
  layout.throwPhasesDeg.forEach((_, k) => {
    const onPin = layout.cylinders.filter((c) => c.throw === k + 1);
    const ends = onPin.map((c) => bigEndOf(doc, assembly, layout, c));
    const widths = ends.reduce((sum, end) => sum.plus(end.half.times(2)), new Exact(0));
    const rods = `throw ${k + 1}`;
    if (widths.gt(journal)) {
      report(
        'rods on the pin',
        `${place}.crank.journalLength`,
        `${assembly.crank.journalLength.value} (${rods})`,
        `Allowed: at least the big-end widths together, ${sayMm(widths)}.`,
      );
      return;
    }
    for (const end of ends) {
      const reach = end.centre.abs().plus(end.half);
      if (reach.gt(journal.div(2))) {
        report(
          'rods between the cheeks',
          `${place}.crank.journalLength`,
          `${assembly.crank.journalLength.value} (rod ${end.cylinder})`,
          `Allowed: at least ${sayMm(reach.times(2))}, as this rod stands on its bore.`,
        );
      }
    }
    const [a, b] = ends;
    if (a === undefined || b === undefined) return;
    const apart = b.centre.minus(a.centre).abs();
    const needed = a.half.plus(b.half);
    if (apart.lt(needed)) {
      report(
        'rods side by side',
        'block.bankOffset',
        `${doc.block.bankOffset.value} (${place}, rods ${a.cylinder} and ${b.cylinder}, ${sayMm(apart)} apart)`,
        `Allowed: big ends at least ${sayMm(needed)} apart, or offset rods (rod.beamOffset).`,
      );
    }
  });
}

/**
 * Axial place of a big end from the middle of its throw. Beam and small end stand on the bore; the big end lies off them by the beam
 * offset, toward the cheek that the rod faces. Rods of a pair face the cheek on their own side unless an own entry turns them.
 */
function bigEndOf(doc: BuildDocument, assembly: Assembly, layout: Layout, c: LayoutCylinder): BigEnd {
  const rod = rodOf(assembly, c.number);
  const bore = boreCentre(doc.block, layout, c).minus(throwCentre(doc.block, layout, c.throw));
  const facing = rod.own?.facing ?? (bore.gt(0) ? 'rear' : 'front');
  const beam = rod.dims.beamOffset === undefined ? new Exact(0) : exact(rod.dims.beamOffset);
  const shift = rod.own?.axialShift === undefined ? new Exact(0) : exact(rod.own.axialShift);
  const centre = bore.plus(facing === 'front' ? beam.neg() : beam).plus(shift);
  return { cylinder: c.number, centre, half: exact(rod.dims.bigEndWidth).div(2) };
}

/** Axial place of a bore centre. */
function boreCentre(block: Block, layout: Layout, c: LayoutCylinder): Decimal {
  const place = borePlace(layout, c);
  return exact(block.boreSpacing).times(place.spacings).plus(exact(block.bankOffset).times(place.bankOffsets));
}

/** Middle of a throw: halfway between the bores that it serves. */
function throwCentre(block: Block, layout: Layout, number: number): Decimal {
  const on = layout.cylinders.filter((c) => c.throw === number);
  const sum = on.reduce((z, c) => z.plus(boreCentre(block, layout, c)), new Exact(0));
  return sum.div(on.length);
}
