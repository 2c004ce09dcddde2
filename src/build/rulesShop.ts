/** Rules about what the shop's sums are given. */
import type { Assembly, BuildDocument } from './document.ts';
import { layoutOfBlock } from './layouts.ts';
import { exact, type Report, type RuleGroup, sayMm } from './ruleTable.ts';

export const shopGroup: RuleGroup = {
  rules: [
    {
      name: 'core and finished journal',
      what: 'Rod journal of the core, each throw’s own included, no smaller than the finished one.',
      why: 'Grinding takes metal off; a smaller core would have to be built up first.',
    },
    {
      name: 'core throws',
      what: 'Throws of the layout, each once.',
      why: 'A measured throw that does not exist, or twice over, would be left out of the grind sheet.',
    },
    {
      name: 'turned surfaces once',
      what: 'Each surface of a crank made to fit the block is named once.',
      why: 'Of two figures for one surface one would be wrong.',
    },
    {
      name: 'top land in the bore',
      what: 'Diameter above the top ring at most the bore.',
      why: 'The piston would not go in.',
    },
    {
      name: 'correction planes',
      what: 'Two different places along the shaft.',
      why: 'A couple can’t be corrected in one plane.',
    },
    {
      name: 'shelf names once',
      what: 'No two rods, and no two pistons, of the list have the same name.',
      why: 'A part is chosen by its name.',
    },
  ],
  check: (doc, report) => {
    for (const [k, a] of doc.assemblies.entries()) checkAssembly(doc, a, `assemblies[${k}]`, report);
    once(doc.shelf?.rods ?? [], 'shelf.rods', 'shelf names once', report);
    once(doc.shelf?.pistons ?? [], 'shelf.pistons', 'shelf names once', report);
  },
};

function checkAssembly(doc: BuildDocument, a: Assembly, place: string, report: Report): void {
  once(a.intoBlock ?? [], `${place}.intoBlock`, 'turned surfaces once', report);
  checkCore(doc, a, place, report);
  const land = a.pistonTop?.topLandDiameter;
  if (land !== undefined && exact(land).gt(exact(doc.block.bore))) {
    const allowed = `Allowed: at most the bore, ${sayMm(exact(doc.block.bore))}.`;
    report('top land in the bore', `${place}.pistonTop.topLandDiameter`, land.value, allowed);
  }
  const { frontPlane, rearPlane } = a.balance ?? {};
  if (frontPlane !== undefined && rearPlane !== undefined && exact(frontPlane).eq(exact(rearPlane))) {
    const allowed = `Allowed: another place than the front plane, ${sayMm(exact(frontPlane))}.`;
    report('correction planes', `${place}.balance.rearPlane`, rearPlane.value, allowed);
  }
}

function checkCore(doc: BuildDocument, a: Assembly, place: string, report: Report): void {
  const { core, crank } = a;
  if (core === undefined) return;
  const finished = exact(crank.rodJournal);
  const allowed = `Allowed: at least the finished rod journal, ${sayMm(finished)}.`;
  if (core.rodJournal !== undefined && exact(core.rodJournal).lt(finished)) {
    report('core and finished journal', `${place}.core.rodJournal`, core.rodJournal.value, allowed);
  }
  const throws = layoutOfBlock(doc.block).throwPhasesDeg.length;
  const seen = new Set<number>();
  core.throws?.forEach((each, k) => {
    const at = `${place}.core.throws[${k}]`;
    if (each.rodJournal !== undefined && exact(each.rodJournal).lt(finished)) {
      report('core and finished journal', `${at}.rodJournal`, each.rodJournal.value, allowed);
    }
    if (each.throw > throws || seen.has(each.throw)) {
      report('core throws', `${at}.throw`, String(each.throw), `Allowed: 1 to ${throws}, each once.`);
    }
    seen.add(each.throw);
  });
}

function once(entries: readonly { readonly name: string }[], place: string, rule: string, report: Report): void {
  const seen = new Set<string>();
  entries.forEach(({ name }, k) => {
    if (seen.has(name)) report(rule, `${place}[${k}].name`, name, 'Allowed: a name not used before in this list.');
    seen.add(name);
  });
}
