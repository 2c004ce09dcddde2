/** Rules about what the shop's sums are given. */
import type { Assembly, BuildDocument } from './document.ts';
import { layoutOfBlock } from './layouts.ts';
import { Exact, exactBase, kindOf, type LiteralKind } from './literal.ts';
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
      name: 'guide bounds',
      what: 'A guide that the program has, once, with a literal or a plain number for each bound that is given, the lower not above the upper.',
      why: 'A range that can’t be read would leave the figure without its guide.',
    },
    {
      name: 'shelf names once',
      what: 'No two rods, and no two pistons, of the list have the same name.',
      why: 'A part is chosen by its name.',
    },
  ],
  check: (doc, report) => {
    for (const [k, a] of doc.assemblies.entries()) checkAssembly(doc, a, `assemblies[${k}]`, report);
    checkGuides(doc, report);
    once(doc.shelf?.rods ?? [], 'shelf.rods', 'shelf names once', report);
    once(doc.shelf?.pistons ?? [], 'shelf.pistons', 'shelf names once', report);
  },
};

/** Guides beside figures, by what they are given in. */
export const GUIDES: Readonly<Record<string, LiteralKind | 'number'>> = {
  'rod ratio': 'number',
  'mean piston speed': 'number',
  'rod oil clearance': 'length',
  'main oil clearance': 'length',
  'rod side clearance': 'length',
  'piston to head': 'length',
  'skirt in the bore': 'length',
  'crank end float': 'length',
};

function checkGuides(doc: BuildDocument, report: Report): void {
  const seen = new Set<string>();
  for (const [k, { guide, low, high }] of (doc.guides ?? []).entries()) {
    const kind = Object.hasOwn(GUIDES, guide) && !seen.has(guide) ? GUIDES[guide]! : null;
    seen.add(guide);
    if (kind === null) {
      report('guide bounds', `guides[${k}].guide`, guide, `Allowed, each once: ${Object.keys(GUIDES).join(', ')}.`);
      continue;
    }
    const bounds = { low: boundOf(low, kind), high: boundOf(high, kind) };
    const said = kind === 'number' ? 'a plain number' : 'a length such as .010 in';
    for (const [key, text] of [
      ['low', low],
      ['high', high],
    ] as const) {
      if (text !== undefined && bounds[key] === null)
        report('guide bounds', `guides[${k}].${key}`, text, `Allowed: ${said}.`);
    }
    if (bounds.low !== null && bounds.high !== null && bounds.low.gt(bounds.high)) {
      report('guide bounds', `guides[${k}].low`, low!, `Allowed: at most the upper bound, ${high}.`);
    }
  }
}

function boundOf(text: string | undefined, kind: LiteralKind | 'number'): InstanceType<typeof Exact> | null {
  if (text === undefined) return null;
  if (kind === 'number') return /^\d{1,9}(\.\d{1,9})?$|^\.\d{1,9}$/.test(text) ? new Exact(text) : null;
  return kindOf(text) === kind ? exactBase(text, kind) : null;
}

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
