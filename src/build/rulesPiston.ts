/** Rules about pistons, bores and the block around them. */
import type { Decimal } from 'decimal.js';
import { type PistonField, pistonOf, rodOf } from './bodyOf.ts';
import type { Assembly, Block, BuildDocument } from './document.ts';
import { type Layout, layoutOfBlock } from './layouts.ts';
import { Exact } from './literal.ts';
import { exact, type Report, type RuleGroup, sayMm } from './ruleTable.ts';

export const pistonGroup: RuleGroup = {
  rules: [
    {
      name: 'bore between its ends',
      what: 'Deck height greater than the height of the lower end of the bore.',
      why: 'Both are measured from the crank axis; else the bore has no length.',
    },
    {
      name: 'bore notch',
      what: 'Shallower than the bore is long, no wider than the bore.',
      why: 'A deeper or wider notch would leave no bore wall there.',
    },
    {
      name: 'bores along the bank',
      what: 'Bore spacing greater than the bore.',
      why: 'Neighbouring bores would run into one another.',
    },
    {
      name: 'bores of two banks',
      what: 'The lower ends of the bores of a pair do not reach into one another.',
      why: 'Banks lean together toward the crank, and bores that reach too far down meet.',
    },
    {
      name: 'piston in its bore',
      what: 'Skirt diameter at most the bore.',
      why: 'The piston would not go in.',
    },
    {
      name: 'pin in the bosses',
      what: 'Pin diameter smaller than twice the boss radius.',
      why: 'There would be no metal around the pin.',
    },
    {
      name: 'pin in the small end',
      what: 'Pin diameter smaller than twice the small-end radius.',
      why: 'There would be no metal around the pin.',
    },
    {
      name: 'bosses within the skirt',
      what: 'Distance over the bosses at most the skirt diameter, and more than the clear distance between them.',
      why: 'A boss or the pin would stand out of the piston.',
    },
    {
      name: 'small end between the bosses',
      what: 'Small end, where it stands, within the clear distance between the bosses.',
      why: 'It would run in a boss.',
    },
    {
      name: 'crown above the pin',
      what: 'Crown thickness smaller than compression height less the radius of the pin.',
      why: 'The pin would pass through the crown.',
    },
    {
      name: 'skirt wall',
      what: 'Skirt thickness smaller than half the skirt diameter.',
      why: 'The piston would be solid; thickness is not a diameter.',
    },
    {
      name: 'relief within the skirt',
      what: 'Wall beside the bosses ends no lower than the skirt and below the underside of the crown.',
      why: 'The relief is cut out of the skirt.',
    },
    {
      name: 'pin within the piston',
      what: 'Pin offset smaller than half the skirt diameter.',
      why: 'The pin would lie beside the piston.',
    },
  ],
  check(doc, report) {
    const layout = layoutOfBlock(doc.block);
    checkBores(doc.block, layout, report);
    doc.assemblies.forEach((assembly, a) => {
      const seen = new Set<string>();
      const once: Report = (rule, at, value, allowed) => {
        const key = `${rule} ${at} ${allowed}`;
        if (!seen.has(key)) report(rule, at, value, allowed);
        seen.add(key);
      };
      for (const c of layout.cylinders) checkPiston(doc, assembly, `assemblies[${a}]`, c.number, once);
    });
  },
};

function checkBores(block: Block, layout: Layout, report: Report): void {
  const [deck, bottom, bore] = [exact(block.deckHeight), exact(block.boreBottom), exact(block.bore)];
  if (!deck.gt(bottom)) {
    report('bore between its ends', 'block.boreBottom', block.boreBottom.value, `Allowed: less than ${sayMm(deck)}.`);
  }
  if (block.boreNotch !== undefined) {
    const long = deck.minus(bottom);
    if (long.gt(0) && !exact(block.boreNotch.depth).lt(long)) {
      report('bore notch', 'block.boreNotch.depth', block.boreNotch.depth.value, `Allowed: less than ${sayMm(long)}.`);
    }
    if (exact(block.boreNotch.width).gt(bore)) {
      report('bore notch', 'block.boreNotch.width', block.boreNotch.width.value, `Allowed: at most ${sayMm(bore)}.`);
    }
  }
  const several = layout.bankAnglesDeg.some((_, b) => layout.cylinders.filter((c) => c.bank === b + 1).length > 1);
  if (several && !exact(block.boreSpacing).gt(bore)) {
    const allowed = `Allowed: more than the bore, ${sayMm(bore)}.`;
    report('bores along the bank', 'block.boreSpacing', block.boreSpacing.value, allowed);
  }
  if (layout.bankAnglesDeg.length === 2 && exact(block.bankOffset).abs().lt(bore) && boresMeet(block, layout)) {
    report(
      'bores of two banks',
      'block.boreBottom',
      block.boreBottom.value,
      'The lower ends of the bores of the two banks reach into one another here. Allowed: a greater height.',
    );
  }
}

/**
 * Whether the inner lower corner of a bore lies inside the bore of the other bank, looking along the shaft. Corner of bank i in the
 * engine's section: h u(b) + t v(b), with h the height of the bottom, t across the bore, u and v the axes of the bank.
 */
function boresMeet(block: Block, layout: Layout): boolean {
  const h = exact(block.boreBottom).toNumber();
  const half = exact(block.bore).toNumber() / 2;
  const offset = exact(block.boreOffset).toNumber();
  const banks = layout.bankAnglesDeg.map((deg) => (deg * Math.PI) / 180);
  return [0, 1].some((i) => {
    const [mine, other] = [banks[i]!, banks[1 - i]!];
    const turn = mine - other;
    return [offset - half, offset + half].some((t) => {
      const along = h * Math.cos(turn) - t * Math.sin(turn);
      const across = h * Math.sin(turn) + t * Math.cos(turn);
      return along > h && Math.abs(across - offset) < half;
    });
  });
}

function checkPiston(doc: BuildDocument, assembly: Assembly, place: string, cylinder: number, report: Report): void {
  const { dims, own, ownPlace } = pistonOf(assembly, cylinder);
  const rod = rodOf(assembly, cylinder);
  const at = (field: PistonField) =>
    own?.set?.[field] === undefined ? `${place}.piston.${field}` : `${place}.${ownPlace}.set.${field}`;
  const refuse = (rule: string, field: PistonField, allowed: string) =>
    report(rule, at(field), dims[field].value, allowed);
  const mm = (field: PistonField): Decimal => exact(dims[field]);

  const bore = exact(doc.block.bore);
  if (mm('skirtDiameter').gt(bore)) {
    refuse('piston in its bore', 'skirtDiameter', `Allowed: at most the bore, ${sayMm(bore)}.`);
  }
  const boss = mm('bossRadius').times(2);
  if (!mm('pinDiameter').lt(boss)) refuse('pin in the bosses', 'pinDiameter', `Allowed: less than ${sayMm(boss)}.`);
  const eye = exact(rod.dims.smallEndRadius).times(2);
  if (!mm('pinDiameter').lt(eye)) refuse('pin in the small end', 'pinDiameter', `Allowed: less than ${sayMm(eye)}.`);
  if (mm('bossSpan').gt(mm('skirtDiameter'))) {
    refuse('bosses within the skirt', 'bossSpan', `Allowed: at most the skirt, ${sayMm(mm('skirtDiameter'))}.`);
  }
  if (!mm('bossGap').lt(mm('bossSpan'))) {
    refuse('bosses within the skirt', 'bossGap', `Allowed: less than ${sayMm(mm('bossSpan'))}.`);
  }
  const shift = rod.own?.axialShift === undefined ? new Exact(0) : exact(rod.own.axialShift).abs();
  const room = exact(rod.dims.smallEndWidth).plus(shift.times(2));
  if (mm('bossGap').lt(room)) {
    refuse('small end between the bosses', 'bossGap', `Allowed: at least ${sayMm(room)}, as the rod stands.`);
  }
  const abovePin = mm('compressionHeight').minus(mm('pinDiameter').div(2));
  if (!mm('crownThickness').lt(abovePin)) {
    refuse('crown above the pin', 'crownThickness', `Allowed: less than ${sayMm(abovePin)}.`);
  }
  const half = mm('skirtDiameter').div(2);
  if (!mm('skirtThickness').lt(half)) refuse('skirt wall', 'skirtThickness', `Allowed: less than ${sayMm(half)}.`);
  const underside = mm('crownThickness').minus(mm('compressionHeight'));
  if (mm('reliefBelowPin').gt(mm('skirtBelowPin')) || !mm('reliefBelowPin').gt(underside)) {
    const allowed = `Allowed: more than ${sayMm(underside)}, at most ${sayMm(mm('skirtBelowPin'))}.`;
    refuse('relief within the skirt', 'reliefBelowPin', allowed);
  }
  if (!mm('pinOffset').abs().lt(half)) {
    refuse('pin within the piston', 'pinOffset', `Allowed: less than ${sayMm(half)} either way.`);
  }
}
