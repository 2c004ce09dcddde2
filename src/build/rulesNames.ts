/** Rules about what belongs together: names, firing order, banks, and which bodies the own entries speak of. */

import { weightedCheeks } from './bodyOf.ts';
import type { Assembly, BuildDocument, Own } from './document.ts';
import { canFireEvenly, firesEvenly, firingIntervalsDeg, isFiringOrder } from './firing.ts';
import { type Layout, layoutOfBlock } from './layouts.ts';
import { exact, type Report, type RuleGroup } from './ruleTable.ts';

export const namesGroup: RuleGroup = {
  rules: [
    {
      name: 'firing order',
      what: 'Every cylinder of the layout once, beginning with 1.',
      why: 'Crank angle is counted from the firing top of cylinder 1; a cylinder left out would have no valve timing.',
    },
    {
      name: 'firing order and throws',
      what: 'Each next cylinder fires at its first top after the one before, and the round closes within 720 degrees.',
      why: 'Throws and banks fix when each piston stands at the top; another order would fire at other places of the stroke.',
    },
    {
      name: 'firing intervals',
      what: 'Those of the usual order of a named layout, in any succession; even ones where the throws of a free layout allow them.',
      why: 'An order that takes a cylinder a turn too early leaves a long pause, and its lobes would stand the wrong way round.',
    },
    {
      name: 'assembly names once',
      what: 'No two assemblies have the same name.',
      why: 'Assemblies are referred to by name.',
    },
    {
      name: 'replaced and proposed',
      what: 'Both name an assembly of the build.',
      why: 'Every difference is taken between these two.',
    },
    {
      name: 'bank offset',
      what: 'Zero in an engine with one bank.',
      why: 'It is the distance between two banks; with one bank it would be lost without a word.',
    },
    {
      name: 'weighted cheeks',
      what: 'Throws of the layout, each cheek once.',
      why: 'A counterweight on a throw that does not exist would be left out of every clearance.',
    },
    {
      name: 'own entries',
      what: 'They speak of a cylinder, throw or counterweight that the assembly has; lobes only with a camshaft.',
      why: 'An entry that belongs to nothing would change nothing, and its measurement would be lost.',
    },
    {
      name: 'own entries once',
      what: 'One entry for each body.',
      why: 'With two entries one of them would be lost.',
    },
    {
      name: 'fixed names once',
      what: 'No two fixed outlines have the same name.',
      why: 'A gap names the part it is measured to.',
    },
    {
      name: 'camshaft and its axis',
      what: 'A camshaft axis in the block and a camshaft in every assembly, or neither.',
      why: 'A camshaft can’t be placed without its axis, and an assembly without its camshaft would seem to clear it.',
    },
    {
      name: 'followers',
      what: 'One follower direction for each bank.',
      why: 'The phase of a lobe follows from the direction in which it lifts.',
    },
  ],
  check(doc, report) {
    const layout = layoutOfBlock(doc.block);
    checkFiringOrder(doc, layout, report);
    checkBlock(doc, layout, report);
    checkAssemblyNames(doc, report);
    doc.assemblies.forEach((assembly, a) => {
      checkWeighted(assembly, `assemblies[${a}].crank.weighted`, layout, report);
      checkOwn(assembly, `assemblies[${a}]`, layout, report);
      checkCamshaft(doc, assembly, `assemblies[${a}].camshaft`, layout, report);
    });
  },
};

function checkFiringOrder(doc: BuildDocument, layout: Layout, report: Report): void {
  const order = doc.block.firingOrder;
  if (!isFiringOrder(layout, order)) {
    const count = layout.cylinders.length;
    const allowed =
      count === 1 ? 'Allowed: 1.' : `Allowed: each of the cylinders 1 to ${count} once, beginning with 1.`;
    report('firing order', 'block.firingOrder', order.join('-'), allowed);
    return;
  }
  const intervals = firingIntervalsDeg(layout, order);
  const usual = layout.usualFiringOrder;
  if (intervals === null) {
    report(
      'firing order and throws',
      'block.firingOrder',
      order.join('-'),
      `The throws of ${layout.name} do not bring the cylinders to the top in this order within 720 degrees.${
        usual === null ? '' : ` An order that they do: ${usual.join('-')}.`
      }`,
    );
  } else if (!intervalsFit(layout, intervals)) {
    report(
      'firing intervals',
      'block.firingOrder',
      order.join('-'),
      `In this order they fire ${intervals.map((deg) => Number(deg.toFixed(3))).join(', ')} degrees apart; allowed: ${
        usual === null ? 'an order that fires evenly, as these throws can.' : `the intervals of ${usual.join('-')}.`
      }`,
    );
  }
}

function intervalsFit(layout: Layout, intervalsDeg: readonly number[]): boolean {
  if (layout.usualFiringOrder === null) return !canFireEvenly(layout) || firesEvenly(intervalsDeg);
  const sorted = (angles: readonly number[]): string => [...angles].sort((a, b) => a - b).join(' ');
  return sorted(intervalsDeg) === sorted(firingIntervalsDeg(layout, layout.usualFiringOrder)!);
}

function checkBlock(doc: BuildDocument, layout: Layout, report: Report): void {
  if (layout.bankAnglesDeg.length === 1 && !exact(doc.block.bankOffset).isZero()) {
    report('bank offset', 'block.bankOffset', doc.block.bankOffset.value, 'Allowed: zero, the engine has one bank.');
  }
  const names = (doc.block.fixed ?? []).map((f) => f.name);
  names.forEach((name, k) => {
    if (names.indexOf(name) < k) {
      report('fixed names once', `block.fixed[${k}].name`, name, 'Allowed: a name that no other fixed outline has.');
    }
  });
}

function checkAssemblyNames(doc: BuildDocument, report: Report): void {
  const names = doc.assemblies.map((a) => a.name);
  names.forEach((name, k) => {
    if (names.indexOf(name) < k) {
      report('assembly names once', `assemblies[${k}].name`, name, 'Allowed: a name that no other assembly has.');
    }
  });
  for (const key of ['replaced', 'proposed'] as const) {
    if (!names.includes(doc[key])) {
      report('replaced and proposed', key, doc[key], `Allowed: ${[...new Set(names)].join(', ')}.`);
    }
  }
}

function checkWeighted(assembly: Assembly, place: string, layout: Layout, report: Report): void {
  const seen = new Set<string>();
  assembly.crank.weighted?.forEach((cheek, k) => {
    const value = `throw ${cheek.throw} ${cheek.side}`;
    if (cheek.throw > layout.throwPhasesDeg.length) {
      report('weighted cheeks', `${place}[${k}].throw`, value, `Allowed: throws 1 to ${layout.throwPhasesDeg.length}.`);
    } else if (seen.has(value)) {
      report('weighted cheeks', `${place}[${k}]`, value, 'Allowed: each cheek once.');
    }
    seen.add(value);
  });
}

function checkOwn(assembly: Assembly, place: string, layout: Layout, report: Report): void {
  const seen = new Set<string>();
  assembly.own?.forEach((own, k) => {
    const at = `${place}.own[${k}]`;
    const body = bodyName(own);
    const wrong = whyNoBody(assembly, own, layout);
    if (wrong !== null) report('own entries', at, body, wrong);
    if (seen.has(body)) report('own entries once', at, body, 'Allowed: one entry for each body.');
    seen.add(body);
  });
}

function bodyName(own: Own): string {
  if (own.body === 'counterweight') return `counterweight ${own.throw} ${own.side}`;
  if (own.body === 'lobe') return `${own.valve} lobe ${own.cylinder}`;
  return `${own.body} ${own.cylinder}`;
}

function whyNoBody(assembly: Assembly, own: Own, layout: Layout): string | null {
  if (own.body !== 'counterweight') {
    if (own.cylinder > layout.cylinders.length) return `Allowed: cylinders 1 to ${layout.cylinders.length}.`;
    if (own.body === 'lobe' && assembly.camshaft === undefined) return 'This assembly has no camshaft.';
    return null;
  }
  if (own.throw > layout.throwPhasesDeg.length) return `Allowed: throws 1 to ${layout.throwPhasesDeg.length}.`;
  const weighted = weightedCheeks(assembly, layout);
  if (!weighted.some((w) => w.throw === own.throw && w.side === own.side)) {
    return 'This cheek carries no counterweight; see crank.weighted.';
  }
  return null;
}

function checkCamshaft(doc: BuildDocument, assembly: Assembly, place: string, layout: Layout, report: Report): void {
  const { camshaft } = assembly;
  if ((camshaft === undefined) !== (doc.block.camAxis === undefined)) {
    const allowed =
      camshaft === undefined
        ? 'The block has a camshaft axis: the assembly needs its camshaft.'
        : 'The block has no camshaft axis (block.camAxis): the assembly can have no camshaft.';
    report('camshaft and its axis', place, camshaft === undefined ? '' : 'a camshaft', allowed);
  }
  if (camshaft !== undefined && camshaft.followerAngles.length !== layout.bankAnglesDeg.length) {
    const count = layout.bankAnglesDeg.length;
    report(
      'followers',
      `${place}.followerAngles`,
      `${camshaft.followerAngles.length} directions`,
      `Allowed: ${count}, one for each bank.`,
    );
  }
}
