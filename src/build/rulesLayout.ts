/** Rules about the layout: that a free one says of every cylinder where it stands, and that the crankcase goes round its bores. */

import type { Decimal } from 'decimal.js';
import { outerBoreCorner } from './boreCorner.ts';
import type { Block, Dim, FreeLayout } from './document.ts';
import { layoutOfBlock } from './layouts.ts';
import { Exact } from './literal.ts';
import { exact, type Report, type RuleGroup, sayMm } from './ruleTable.ts';

/** A free layout that breaks one of these can't be laid out at all: no other rule is judged then. */
export const layoutGroup: RuleGroup = {
  rules: [
    {
      name: 'free layout',
      what: 'block.freeLayout with the layout “free”, and only with it.',
      why: 'Beside a named layout it would be lost without a word; without it nothing says where the cylinders stand.',
    },
    {
      name: 'cylinders of the layout',
      what: 'Numbered from 1 without a gap, each once, on a bank and a throw that are there.',
      why: 'Firing order, own entries and gaps speak of cylinders by number.',
    },
    {
      name: 'banks and throws in use',
      what: 'Each bank and each throw serves a cylinder; a throw serves at most one cylinder of a bank.',
      why: 'A throw lies in the middle of its bores, and two bores of a bank can’t stand in one place.',
    },
    {
      name: 'bank angles',
      what: 'At most 90 degrees from up, two banks at different angles.',
      why: 'The crankcase is drawn below the bores; bores in line are one bank.',
    },
    {
      name: 'split pins',
      what: 'Only on throws with two cylinders, at most 90 degrees to either side.',
      why: 'The pin of a single cylinder stands where the phase of its throw says.',
    },
  ],
  check(doc, report) {
    const { layout, freeLayout } = doc.block;
    if (layout === 'free' && freeLayout === undefined) {
      report('free layout', 'block.freeLayout', '', 'Required with the layout free: banks, throws and cylinders.');
    } else if (layout !== 'free' && freeLayout !== undefined) {
      report('free layout', 'block.freeLayout', `layout ${layout}`, 'Allowed with the layout free only.');
    }
    if (freeLayout !== undefined) checkFree(freeLayout, report);
  },
};

function checkFree(free: FreeLayout, report: Report): void {
  const place = 'block.freeLayout';
  const count = free.cylinders.length;
  const onThrow = (number: number) => free.cylinders.filter((c) => c.throw === number);
  free.cylinders.forEach((c, k) => {
    const at = `${place}.cylinders[${k}]`;
    const first = free.cylinders.findIndex((other) => other.cylinder === c.cylinder);
    if (c.cylinder > count || first < k) {
      const allowed = `Allowed: each of the numbers 1 to ${count} once.`;
      report('cylinders of the layout', `${at}.cylinder`, `${c.cylinder}`, allowed);
    }
    if (c.bank > free.banks.length) {
      report('cylinders of the layout', `${at}.bank`, `${c.bank}`, `Allowed: banks 1 to ${free.banks.length}.`);
    }
    if (c.throw > free.throws.length) {
      report('cylinders of the layout', `${at}.throw`, `${c.throw}`, `Allowed: throws 1 to ${free.throws.length}.`);
    }
    if (free.cylinders.some((o, j) => j < k && o.throw === c.throw && o.bank === c.bank)) {
      const allowed = 'Allowed: one cylinder of each bank on a throw.';
      report('banks and throws in use', at, `bank ${c.bank}, throw ${c.throw}`, allowed);
    }
    if (c.pinSplit !== undefined && (onThrow(c.throw).length < 2 || exact(c.pinSplit).abs().gt(90))) {
      const allowed = 'Allowed: up to 90 deg either way, on a throw with two cylinders.';
      report('split pins', `${at}.pinSplit`, c.pinSplit.value, allowed);
    }
  });
  free.throws.forEach((_, k) => {
    if (onThrow(k + 1).length > 0) return;
    report('banks and throws in use', `${place}.throws[${k}]`, `throw ${k + 1}`, 'Allowed: a throw with a cylinder.');
  });
  free.banks.forEach((bank, k) => {
    if (!free.cylinders.some((c) => c.bank === k + 1)) {
      report('banks and throws in use', `${place}.banks[${k}]`, `bank ${k + 1}`, 'Allowed: a bank with a cylinder.');
    }
    const alike = free.banks.slice(0, k).some((other) => exact(other.angle).eq(exact(bank.angle)));
    if (exact(bank.angle).abs().gt(90) || alike) {
      const allowed = 'Allowed: from -90 to 90 deg, and not the angle of the other bank.';
      report('bank angles', `${place}.banks[${k}].angle`, bank.angle.value, allowed);
    }
  });
}

/** The crankcase as the layout makes it; judged with the other dimensions. */
export const crankcaseGroup: RuleGroup = {
  rules: [
    {
      name: 'crankcase below the bores',
      what: 'The pan rail, with its flange where the wall stands inside the bore’s outer corner, lies below that corner.',
      why: 'The crankcase wall goes up from the rail to the corner; higher than it there would be no wall.',
    },
  ],
  check(doc, report) {
    const { block } = doc;
    const limit = mostRail(block);
    if (!exact(block.panRail.height).lt(limit)) {
      const allowed = `Allowed: less than ${sayMm(limit)}, as the bores stand.`;
      report('crankcase below the bores', 'block.panRail.height', block.panRail.height.value, allowed);
    }
  },
};

/** The height that the pan rail has to stay below, on the side that leaves it less. */
function mostRail(block: Block): Decimal {
  const banks = layoutOfBlock(block).bankAnglesDeg.map((deg) => (deg * Math.PI) / 180);
  const mm = (dim: Dim): number => exact(dim).toNumber();
  const sides = [
    { bank: Math.max(...banks), sign: 1 },
    { bank: Math.min(...banks), sign: -1 },
  ] as const;
  const heights = sides.map(({ bank, sign }) => {
    const [x, y] = outerBoreCorner(
      {
        boreMm: mm(block.bore),
        wallMm: mm(block.boreWall),
        offsetMm: mm(block.boreOffset),
        bottomMm: mm(block.boreBottom),
      },
      bank,
      sign,
    );
    return sign * x < mm(block.panRail.halfWidth) ? y : y - mm(block.panRail.wall);
  });
  return new Exact(Math.min(...heights));
}
