/**
 * The shop's sums on whole builds: wiring of inputs to sums, exactness, lacks and refusals. The sums themselves are checked
 * against print in tests/core/shop.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { BuildDocument } from '../../src/build/document.ts';
import { readContent } from '../../src/build/index.ts';
import { GUIDES } from '../../src/build/rulesShop.ts';
import { compared, routeOf, type Sum, sumsOf, USUAL, written } from '../../src/model/sums/index.ts';
import { changed } from '../support/changed.ts';
import { dim } from '../support/exampleBuild.ts';

const QUARRY = JSON.parse(readFileSync(new URL('../../assets/demos/quarry-v8.json', import.meta.url), 'utf8'));

function build(changes: Record<string, unknown> = {}): BuildDocument {
  const read = readContent(changed(QUARRY, changes));
  if (!read.ok) throw new Error(read.problems.map((p) => `${p.place}: ${p.rule}`).join('; '));
  return read.doc;
}

function found(doc: BuildDocument, key: string, assembly = doc.proposed): Sum {
  const all = sumsOf(doc, assembly).flatMap((g) => g.sums);
  const hit = all.find((s) => s.key === key);
  if (hit === undefined) throw new Error(`no sum ${key} among ${all.map((s) => s.key).join(', ')}`);
  return hit;
}

const exactly = (doc: BuildDocument, key: string): string => found(doc, key).amount!.value.toFixed();
const near = (doc: BuildDocument, key: string): number => found(doc, key).amount!.value.toNumber();

/** H1: "How To Stroke Any Engine: First Steps", Hot Rod, March 2002: 9.025 deck, 4.00 stroke, 6.000 rod, 1.000 height leave .025 in. */
const H1 = {
  'block.deckHeight': dim('9.025 in'),
  'assemblies[1].crank.stroke': dim('4.00 in'),
  'assemblies[1].rod.length': dim('6.000 in'),
  'assemblies[1].piston.compressionHeight': dim('1.000 in'),
};

describe('deck stack', () => {
  test('H1, exact in inches and in millimetres alike', () => {
    expect(exactly(build(), 'deck clearance')).toBe('0.254');
    // The crown would be too thin for the demo's pin; only the stack is of interest, so its pin and crown are made small.
    const thin = {
      ...H1,
      'assemblies[1].piston.pinDiameter': dim('.800 in'),
      'assemblies[1].piston.crownThickness': dim('.200 in'),
      'assemblies[1].pistonTop': {},
    };
    expect(exactly(build(thin), 'deck clearance')).toBe('0.635');
    const inMm = {
      ...thin,
      'block.deckHeight': dim('229.235 mm'),
      'assemblies[1].crank.stroke': dim('101.6 mm'),
      'assemblies[1].rod.length': dim('152.4 mm'),
      'assemblies[1].piston.compressionHeight': dim('25.4 mm'),
    };
    expect(exactly(build(inMm), 'deck clearance')).toBe('0.635');
    expect(written(found(build(thin), 'deck clearance').amount!, 'in')).toBe('.0250 in');
  });

  test('a part solved for gives the wanted clearance', () => {
    for (const [key, path] of [
      ['compression height for the wanted deck clearance', 'assemblies[1].piston.compressionHeight'],
      ['rod length for the wanted deck clearance', 'assemblies[1].rod.length'],
      ['stroke for the wanted deck clearance', 'assemblies[1].crank.stroke'],
      ['block deck height for the wanted deck clearance', 'block.deckHeight'],
    ] as const) {
      const solved = found(build(), key).amount!.value.toFixed();
      // Wanted: .005 in.
      expect(exactly(build({ [path]: dim(`${solved} mm`) }), 'deck clearance')).toBe('0.127');
    }
  });

  test('with a pin offset the top comes lower', () => {
    // K15's law: √((l + r)² − e²) in place of l + r.
    const doc = build({ 'assemblies[1].piston.pinOffset': dim('.060 in') });
    const inLine = 25.4 * (6 + 1.86);
    const lower = inLine - Math.sqrt(inLine ** 2 - (0.06 * 25.4) ** 2);
    expect(Math.abs(near(doc, 'deck clearance') - 0.254 - lower)).toBeLessThan(1e-9);
  });
});

describe('offset grind', () => {
  test('an offset of .080 in gives .160 in of stroke', () => {
    // Common practice, no published source.
    const doc = build({ 'assemblies[1].core.stroke': dim('3.560 in'), 'assemblies[1].core.throws': [] });
    expect(written(found(doc, 'eccentric amount').amount!, 'in')).toBe('.0800 in');
  });

  test('a core that can’t clean up is told by how much', () => {
    // O1's law: 2 5/8 to 2 3/8 in loses 1/4 in of diameter; .1265 in of movement and .004 in of stock take .261 in: .011 in too much.
    const doc = build({ 'assemblies[1].core.stroke': dim('3.467 in'), 'assemblies[1].core.throws': [] });
    const thin = found(doc, 'removed on the thin side');
    expect(thin.remark!.words).toMatch(/does not clean up: .*\(\.0110 in\) of diameter is lacking/);
    expect(thin.remark!.caution).toBe(true);
    expect(written(thin.amount!, 'in')).toBe('−.0015 in');
  });

  test('each measured throw is told by itself, a shorter one moves farther', () => {
    const doc = build({ 'assemblies[1].core.throws': [{ throw: 3, radius: dim('1.740 in') }] });
    // Radius 1.740 to 1.860: .120 in of movement; half the lost diameter is .125 in.
    expect(written(found(doc, 'removed on the thin side of throw 3').amount!, 'in')).toBe('.0050 in');
    expect(written(found(doc, 'removed on the thin side of throw 1').amount!, 'in')).toBe('.0150 in');
  });
});

describe('weights and balance', () => {
  test('B2 through the build: a bobweight of 1505.2 g', () => {
    // Parts of "Balanced rotating assembly", Chevy High Performance, June 2009; total by hand (tests/core/shop/balance.test.ts).
    const doc = build({
      'assemblies[1].weights': {
        piston: dim('583.9 g'),
        pin: dim('173.6 g'),
        rings: dim('69.5 g'),
        locks: dim('4.8 g'),
        rodBigEnd: dim('229.8 g'),
        rodSmallEnd: dim('162.4 g'),
        bearing: dim('23.7 g'),
        oil: dim('4 g'),
      },
    });
    expect(exactly(doc, 'bobweight of a crankpin')).toBe('1505.2');
    expect(exactly(doc, 'reciprocating weight of a cylinder')).toBe('994.2');
  });

  test('pounds and ounces add up', () => {
    // 453.59237 g to the pound: 786.5 g is 1 lb 11.743 oz.
    const doc = build();
    expect(written(found(doc, 'rod, whole', 'As removed').amount!, 'both')).toBe('786.5 g (1 lb 11.74 oz)');
    expect(written({ as: 'weight', value: found(doc, 'rod, whole').amount!.value.neg() }, 'both', true)).toBe(
      '−658.5 g (−1 lb 7.23 oz)',
    );
  });

  test('a core ground to its own dimensions, with its own bobweight, stays in balance', () => {
    const doc = build();
    const same = build({
      'assemblies[1].core': {
        ...QUARRY.assemblies[1].core,
        stroke: dim('3.720 in'),
        rodJournal: dim('2.375 in'),
        throws: [],
      },
      'assemblies[1].balance.coreBobweight': dim(`${exactly(doc, 'bobweight of a crankpin')} g`),
    });
    expect(near(same, 'unbalance in the front plane')).toBeLessThan(1e-6);
    expect(near(same, 'unbalance in the rear plane')).toBeLessThan(1e-6);
  });

  test('turning all counterweights down is found again as the closed form says, in both planes', () => {
    const doc = build({
      'assemblies[1].core': {
        ...QUARRY.assemblies[1].core,
        stroke: dim('3.720 in'),
        rodJournal: dim('2.375 in'),
        throws: [],
      },
      'assemblies[1].balance.coreBobweight': dim(`${exactly(build(), 'bobweight of a crankpin')} g`),
      'assemblies[1].crank.counterweight.radius': dim('3.345 in'),
      'assemblies[1].crank.counterweight.cornerRadius': dim('0 in'),
    });
    // Each cheek loses ρ t 2 sin(half) (R0³ − R1³) / 3 opposite its pin. By hand for a cross-plane crank, pins toward 0, 90, 270, 180
    // at -1.5, -.5, .5, 1.5 of the spacing: moment (3, 1) times loss of a throw times spacing; planes at the outermost cheeks.
    const mm = 25.4;
    const half = (64 * Math.PI) / 180;
    const cheek = (7.85e-3 * 0.85 * mm * 2 * Math.sin(half) * ((3.445 * mm) ** 3 - (3.345 * mm) ** 3)) / 3;
    const spacing = 4.62 * mm;
    const apart = 3 * spacing + (1.975 + 0.85) * mm;
    const byHand = (2 * cheek * spacing * Math.hypot(3, 1)) / apart;
    expect(Math.abs(near(doc, 'unbalance in the front plane') / byHand - 1)).toBeLessThan(1e-6);
    expect(Math.abs(near(doc, 'unbalance in the rear plane') / byHand - 1)).toBeLessThan(1e-6);
  });
});

describe('what is missing', () => {
  test('is named, and nothing is filled in', () => {
    const bare = { ...QUARRY.assemblies[1] };
    for (const key of ['weights', 'pistonTop', 'core', 'bearings', 'balance', 'wanted']) delete bare[key];
    const doc = build({ 'assemblies[1]': bare });
    expect(found(doc, 'compression ratio').lacks).toEqual(['dish and valve pockets (a dome negative)']);
    expect(found(doc, 'rod oil clearance').lacks).toEqual(['rod housing bore', 'rod shell']);
    expect(found(doc, 'bobweight of a crankpin').lacks).toContain('piston');
    expect(found(doc, 'rod tension at TDC').lacks).toEqual(['reciprocating weight of a cylinder']);
  });

  test('every sum has either an amount, or what it lacks, or why not; a formula and a source', () => {
    const doc = build();
    for (const { name } of doc.assemblies) {
      for (const s of sumsOf(doc, name).flatMap((g) => g.sums)) {
        const ways = [s.amount !== null, s.lacks.length > 0, s.refused !== null].filter(Boolean);
        expect(ways, s.key).toHaveLength(1);
        expect(s.formula.length, s.key).toBeGreaterThan(5);
        expect(s.source.length, s.key).toBeGreaterThan(4);
        if (s.amount !== null) expect(written(s.amount, 'both')).not.toMatch(/NaN|Infinity|undefined/);
      }
    }
  });
});

describe('side by side', () => {
  test('differences are proposed less replaced, of sums that both have', () => {
    const doc = build();
    const groups = compared(sumsOf(doc, doc.replaced), sumsOf(doc, doc.proposed));
    const row = groups.flatMap((g) => g.rows).find((r) => r.key === 'piston')!;
    expect(row.difference!.value.toFixed()).toBe('-214.5');
    expect(groups.flatMap((g) => g.rows).find((r) => r.key === 'eccentric amount')!.replaced).toBeNull();
  });
});

describe('routes', () => {
  test('two routes to one stroke: a core ground off-centre, a crank turned to fit', () => {
    const doc = build();
    const core = routeOf(doc, doc.proposed, 'in');
    expect(
      core.operations.some((o) =>
        o.includes('from 2 5/8 in to 2 3/8 in, with their middles moved outward by .1100 in'),
      ),
    ).toBe(true);
    expect(core.operations[0]).toContain('crack-test');
    expect(core.parts.join(' ')).toContain('.2500 in smaller');
    const turned = routeOf(doc, 'Longer-stroke crank turned to fit', 'in');
    expect(
      turned.operations.some((o) => o.includes('main journal from 3.250 in to 3.000 in: .2500 in on the diameter')),
    ).toBe(true);
    // The flange fits as it is.
    expect(turned.operations.join(' ')).not.toContain('flange');
    expect(routeOf(doc, doc.replaced, 'in')).toMatchObject({ operations: [], parts: [] });
  });

  test('a crank that lacks metal is said not to go in', () => {
    const doc = build({ 'assemblies[2].intoBlock[5].has': dim('1.300 in') });
    expect(routeOf(doc, 'Longer-stroke crank turned to fit', 'in').operations.join(' ')).toContain(
      'snout lacks .0750 in',
    );
  });
});

describe('line boring', () => {
  test('of .010 in under banks at 45 degrees', () => {
    // By hand: .010 in x cos 45° = .00707 in off the deck height of 9.480 in; the cam axis from 5.300 to 5.290 in.
    const doc = build({ 'block.lineBored': { rise: dim('.010 in') } });
    expect(written(found(doc, 'deck height after line boring of bank 1').amount!, 'in')).toBe('9.4729 in');
    expect(written(found(doc, 'crank to cam after line boring').amount!, 'in')).toBe('5.2900 in');
    const [one, other] = [1, 2].map((bank) => near(doc, `bore offset after line boring of bank ${bank}`));
    expect(one! + other!).toBeCloseTo(0, 12);
    expect(Math.abs(one!)).toBeCloseTo(0.254 * Math.SQRT1_2, 12);
  });
});

describe('the guides', () => {
  test('the names that a build may use are those that the program has', () => {
    expect(Object.keys(USUAL).sort()).toEqual(Object.keys(GUIDES).sort());
  });

  test('a shop’s own range takes the place of the usual one', () => {
    const usual = found(build(), 'piston to head').guide!;
    expect(usual.state).toBe('above');
    const own = found(
      build({ guides: [{ guide: 'piston to head', low: '.040 in', high: '.060 in', source: 'our own engines' }] }),
      'piston to head',
    ).guide!;
    expect(own.state).toBe('within');
    expect(own.source).toBe('our own engines');
  });

  test('oil clearance goes by the journal: .001 in per inch', () => {
    // Bearing guide of 2008: a journal of 2.375 in takes about .0024 in and half a thousandth more with the margin.
    const { low, high } = found(build(), 'rod oil clearance').guide!;
    expect(low!.div('25.4').toFixed(6)).toBe('0.002375');
    expect(high!.gt(low!)).toBe(true);
  });
});
