/** Rules about the valves: that they belong to a camshaft, stand over their bore, open, and that the piston can have their pockets. */

import { pistonOf } from './bodyOf.ts';
import type { Assembly, BuildDocument, Dim, ValveDims, Valvetrain } from './document.ts';
import { layoutOfBlock } from './layouts.ts';
import { lobeOf } from './lobeOf.ts';
import { exact, type Report, type RuleGroup, sayMm } from './ruleTable.ts';

export const valvesGroup: RuleGroup = {
  rules: [
    {
      name: 'valves and camshaft',
      what: 'Valves only in an assembly with a camshaft in the block.',
      why: 'Without its lobes nobody can say when they open.',
    },
    {
      name: 'valve in the bore',
      what: 'A stem that leans at most 60 degrees; head and pocket no wider than the bore, their middles within it.',
      why: 'The valve would open against the block, and the pocket would lie beside the piston.',
    },
    {
      name: 'valve margin',
      what: 'Thinner than half the head is wide.',
      why: 'Margin and head diameter are easily exchanged.',
    },
    {
      name: 'lash below the lift',
      what: 'Lash smaller than the greatest lift at the valve.',
      why: 'The valve would never open.',
    },
    {
      name: 'pocket in the crown',
      what: 'The deepest place of a pocket’s floor above the underside of the crown.',
      why: 'The pocket would go through the crown.',
    },
  ],
  check(doc, report) {
    doc.assemblies.forEach((assembly, a) => {
      const { valvetrain } = assembly;
      if (valvetrain === undefined) return;
      const place = `assemblies[${a}].valvetrain`;
      if (assembly.camshaft === undefined) {
        const allowed = 'Allowed only with a camshaft; this assembly has none.';
        report('valves and camshaft', place, `rocker ratio ${valvetrain.rockerRatio}`, allowed);
        return;
      }
      for (const valve of ['intake', 'exhaust'] as const) {
        checkHead(doc, valvetrain[valve], `${place}.${valve}`, report);
        checkLash(doc, assembly, valvetrain, valve, `${place}.${valve}`, report);
        checkPocket(doc, assembly, valvetrain[valve], `${place}.${valve}`, report);
      }
    });
  },
};

/** Degrees from the bore axis. */
const MOST_LEAN_DEG = 60;

function checkHead(doc: BuildDocument, dims: ValveDims, place: string, report: Report): void {
  if (exact(dims.angle).abs().gt(MOST_LEAN_DEG)) {
    const allowed = `Allowed: from -${MOST_LEAN_DEG} to ${MOST_LEAN_DEG} deg.`;
    report('valve in the bore', `${place}.angle`, dims.angle.value, allowed);
  }
  inBore(doc, dims.headDiameter, dims, `${place}.headDiameter`, place, report);
  if (exact(dims.margin).times(2).gte(exact(dims.headDiameter))) {
    const allowed = `Allowed: less than half the head, ${sayMm(exact(dims.headDiameter).div(2))}.`;
    report('valve margin', `${place}.margin`, dims.margin.value, allowed);
  }
  if (dims.pocket === undefined) return;
  inBore(doc, dims.pocket.diameter, dims.pocket, `${place}.pocket.diameter`, `${place}.pocket`, report);
}

function inBore(
  doc: BuildDocument,
  width: Dim,
  { across, axial }: { readonly across: Dim; readonly axial: Dim },
  widthPlace: string,
  place: string,
  report: Report,
): void {
  const bore = exact(doc.block.bore);
  if (exact(width).gt(bore)) {
    report('valve in the bore', widthPlace, width.value, `Allowed: at most the bore, ${sayMm(bore)}.`);
  }
  const radius = bore.div(2);
  if (exact(across).pow(2).plus(exact(axial).pow(2)).gte(radius.pow(2))) {
    const far = exact(across).abs().gt(exact(axial).abs()) ? 'across' : 'axial';
    const allowed = `Its middle stands outside the bore; allowed: within ${sayMm(radius)} of the bore axis.`;
    report('valve in the bore', `${place}.${far}`, (far === 'across' ? across : axial).value, allowed);
  }
}

function checkLash(
  doc: BuildDocument,
  assembly: Assembly,
  valvetrain: Valvetrain,
  valve: 'intake' | 'exhaust',
  place: string,
  report: Report,
): void {
  const { lash } = valvetrain[valve];
  for (const { number } of layoutOfBlock(doc.block).cylinders) {
    const { lift } = lobeOf(assembly, assembly.camshaft!, number, valve);
    const atValve = exact(lift).times(valvetrain.rockerRatio);
    if (exact(lash).lt(atValve)) continue;
    const allowed = `Allowed: less than lobe lift by rocker ratio in cylinder ${number}, ${sayMm(atValve)}.`;
    report('lash below the lift', `${place}.lash`, lash.value, allowed);
    return;
  }
}

function checkPocket(doc: BuildDocument, assembly: Assembly, dims: ValveDims, place: string, report: Report): void {
  const { pocket } = dims;
  if (pocket === undefined) return;
  for (const { number } of layoutOfBlock(doc.block).cylinders) {
    const crown = exact(pistonOf(assembly, number).dims.crownThickness);
    if (exact(pocket.depth).lt(crown)) continue;
    const allowed = `Allowed: less than the crown thickness of piston ${number}, ${sayMm(crown)}.`;
    report('pocket in the crown', `${place}.pocket.depth`, pocket.depth.value, allowed);
    return;
  }
}
