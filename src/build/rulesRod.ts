/** Rules about the section of a rod: that big end, bolts, beam and small end make one piece with room for their journals. */
import type { RodField } from './bodyOf.ts';
import type { Assembly, Rod } from './document.ts';
import { exact, type Report, type Rule, sayMm } from './ruleTable.ts';

export const rodSectionRules: readonly Rule[] = [
  {
    name: 'big end around the journal',
    what: 'Big-end radius greater than the radius of the rod journal.',
    why: 'There would be no metal around the bearing.',
  },
  {
    name: 'bolts beside the journal',
    what: 'Half the distance between bolt axes greater than the radius of the rod journal.',
    why: 'The bolt would pass through the bearing.',
  },
  {
    name: 'bolts on the big end',
    what: 'Half the distance between bolt axes smaller than big-end radius plus half the width of the bolt boss.',
    why: 'The bosses would stand apart from the rod.',
  },
  {
    name: 'rod eyes apart',
    what: 'Rod length greater than big-end radius plus small-end radius.',
    why: 'The two eyes would run into one another.',
  },
  {
    name: 'beam within the big end',
    what: 'Beam no wider than the big end across, and no thicker than it is wide along the shaft.',
    why: 'Beam width and thickness are easily exchanged, or entered whole where half is asked for.',
  },
  {
    name: 'beam within the small end',
    what: 'Beam no wider than the small end across.',
    why: 'Its corners would stand out beside the small end.',
  },
  {
    name: 'chamfer within the big end',
    what: 'Axial depth below the big-end width, radial height below the metal around the journal.',
    why: 'A larger chamfer would leave no big end.',
  },
];

/** `place` says where a dimension of this rod stands in the document. */
export function checkRodSection(
  assembly: Assembly,
  rod: Rod,
  place: (field: RodField) => string,
  report: Report,
): void {
  const journal = exact(assembly.crank.rodJournal).div(2);
  const bigEnd = exact(rod.bigEndRadius);
  if (!bigEnd.gt(journal)) {
    const allowed = `Allowed: more than ${sayMm(journal)}.`;
    report('big end around the journal', place('bigEndRadius'), rod.bigEndRadius.value, allowed);
  }
  if (!exact(rod.boltSpread).gt(journal)) {
    const allowed = `Allowed: more than ${sayMm(journal)}.`;
    report('bolts beside the journal', place('boltSpread'), rod.boltSpread.value, allowed);
  }
  const boltsMost = bigEnd.plus(exact(rod.boltBossRadius));
  if (!exact(rod.boltSpread).lt(boltsMost)) {
    const allowed = `Allowed: less than ${sayMm(boltsMost)}.`;
    report('bolts on the big end', place('boltSpread'), rod.boltSpread.value, allowed);
  }
  const eyes = bigEnd.plus(exact(rod.smallEndRadius));
  if (!exact(rod.length).gt(eyes)) {
    report('rod eyes apart', place('length'), rod.length.value, `Allowed: more than both radii, ${sayMm(eyes)}.`);
  }
  if (exact(rod.beamWidth).gt(bigEnd.times(2))) {
    const allowed = `Allowed: at most ${sayMm(bigEnd.times(2))}.`;
    report('beam within the big end', place('beamWidth'), rod.beamWidth.value, allowed);
  }
  const smallEnd = exact(rod.smallEndRadius).times(2);
  if (exact(rod.beamWidth).gt(smallEnd)) {
    const allowed = `Allowed: at most ${sayMm(smallEnd)}.`;
    report('beam within the small end', place('beamWidth'), rod.beamWidth.value, allowed);
  }
  if (exact(rod.beamThickness).gt(exact(rod.bigEndWidth))) {
    const allowed = `Allowed: at most ${sayMm(exact(rod.bigEndWidth))}.`;
    report('beam within the big end', place('beamThickness'), rod.beamThickness.value, allowed);
  }
  if (rod.chamfer === undefined) return;
  if (!exact(rod.chamfer.axial).lt(exact(rod.bigEndWidth))) {
    const allowed = `Allowed: less than ${sayMm(exact(rod.bigEndWidth))}.`;
    report('chamfer within the big end', `${place('chamfer')}.axial`, rod.chamfer.axial.value, allowed);
  }
  const metal = bigEnd.minus(journal);
  if (metal.gt(0) && !exact(rod.chamfer.radial).lt(metal)) {
    const allowed = `Allowed: less than ${sayMm(metal)}.`;
    report('chamfer within the big end', `${place('chamfer')}.radial`, rod.chamfer.radial.value, allowed);
  }
}
