/** Sensitivities against derivatives known in closed form, against gaps of changed builds, and at a corner where another part takes over. */
import { describe, expect, it } from 'vitest';
import { layOut } from '../../../src/assembly/layOut.ts';
import type { BuildDocument } from '../../../src/build/document.ts';
import { parseBuild } from '../../../src/build/text.ts';
import { certifiedGaps, deckGapsOf } from '../../../src/model/certified.ts';
import { withLiteral } from '../../../src/model/edit.ts';
import { toTheEnd } from '../../../src/model/pieces/kind.ts';
import type { Gap } from '../../../src/model/results.ts';
import { solveGaps } from '../../../src/model/solve.ts';
import type { Sensitivity } from '../../../src/model/tolerances/sensitivity.ts';
import { asked, inOrderOfWeight, sensitivityWork, slopeOf } from '../../../src/model/tolerances/sensitivity.ts';
import { settled } from '../../../src/model/tolerances/settled.ts';
import { variablesOf, withValues } from '../../../src/model/tolerances/variables.ts';
import { dim, exampleInline6, exampleSingle, exampleV8 } from '../../support/exampleBuild.ts';
import { exampleValvetrain } from '../../support/valvetrain.ts';
import { FLAT_GAP_ID, FLAT_GAP_MM, flatSkirt } from './flatSkirt.ts';

function gapsOf(doc: BuildDocument): Gap[] {
  return certifiedGaps(doc, layOut(doc, doc.proposed), new Map());
}

/** One gap alone: the first of its kind, or the one of that name. */
function gapOf(doc: BuildDocument, kindOrId: string): Gap {
  const engine = layOut(doc, doc.proposed);
  const deck = deckGapsOf(doc, engine).find((g) => g.id === kindOrId);
  if (deck !== undefined) return deck;
  const { id } = engine.pairs.find((p) => p.id === kindOrId || p.kind === kindOrId)!;
  return solveGaps(engine, { assumedAllowanceMm: null, wanted: (pair) => pair.id === id })[0]!;
}

/** `labels`: only dimensions called so are tried. */
function sensitivities(doc: BuildDocument, gapId: string, labels?: readonly string[]): Sensitivity[] {
  const gap = gapOf(doc, gapId);
  const task = { doc: settled(doc, doc.proposed), gapId, between: gap.between, atCrankRad: gap.atCrankRad };
  const variables = variablesOf(task.doc);
  const wanted = asked(task).filter((k) => labels === undefined || labels.includes(variables[k]!.label));
  return inOrderOfWeight(toTheEnd(sensitivityWork(task)(wanted)));
}

const named = (list: readonly Sensitivity[], body: string, label: string): Sensitivity => {
  const found = list.find((s) => s.variable.body === body && s.variable.label === label);
  if (found === undefined) throw new Error(`${body} ${label} is not among ${list.map((s) => s.variable.label)}`);
  return found;
};

describe('sensitivities in closed form', () => {
  it('rim of the counterweight under the flat edge of the skirt: gap = l - s/2 - b - R', () => {
    const list = sensitivities(flatSkirt(), FLAT_GAP_ID);
    expect(gapOf(flatSkirt(), FLAT_GAP_ID).gapMm).toBeCloseTo(FLAT_GAP_MM, 6);
    expect(slopeOf(named(list, 'counterweight 1 front', 'radius'))).toBeCloseTo(-1, 4);
    expect(slopeOf(named(list, 'piston 1', 'skirt below pin'))).toBeCloseTo(-1, 4);
    expect(slopeOf(named(list, 'rod 1', 'length'))).toBeCloseTo(1, 4);
    expect(slopeOf(named(list, 'crank', 'stroke'))).toBeCloseTo(-0.5, 4);
    // The pin line to one side lowers the pin at bottom dead centre by e²/2(l - r), either way: below a tenth of a micrometre.
    expect(list.map((s) => `${s.variable.body} ${s.variable.label}`).sort()).toEqual([
      'counterweight 1 front radius',
      'crank stroke',
      'piston 1 skirt below pin',
      'rod 1 length',
    ]);
  });

  it('deck clearance = deck height - s/2 - l - compression height', () => {
    const list = sensitivities(exampleSingle(), 'piston 1 · deck');
    const slopes = list.map((s) => [s.variable.label, Number(slopeOf(s)!.toFixed(6))]);
    expect(Object.fromEntries(slopes)).toEqual({
      'deck height': 1,
      stroke: -0.5,
      length: -1,
      'compression height': -1,
    });
  });

  it('valve face over the floor of its pocket, square to it at 18°: the distance of two parallel planes', () => {
    // Along the valve's own axis the lash counts whole. The face's height is told along the bore, where the axis leans: a millimetre of
    // it is 1 / cos 18° along the axis. Deck and piston move along the bore, of which cos 18° lies along the axis; across it is sin 18°.
    const lean = (18 * Math.PI) / 180;
    const labels = ['intake recession', 'intake lash', 'deck height', 'compression height', 'intake across'];
    const list = sensitivities(withValves(), 'intake valve 1 · piston 1', labels);
    const slope = (body: string, label: string): number => slopeOf(named(list, body, label))!;
    expect(slope('valves', 'intake recession')).toBeCloseTo(1 / Math.cos(lean), 4);
    expect(slope('valves', 'intake lash')).toBeCloseTo(1, 4);
    expect(slope('block', 'deck height')).toBeCloseTo(Math.cos(lean), 4);
    expect(slope('piston 1', 'compression height')).toBeCloseTo(-Math.cos(lean), 4);
    expect(slope('valves', 'intake across')).toBeCloseTo(Math.sin(lean), 4);
  });

  it('where the skirt takes over from the pin boss the two sides differ', () => {
    // Boss and skirt equally far down: a longer skirt closes the gap, a shorter one leaves the boss as close as before.
    const doc = flatSkirt({ skirt: '16 mm' });
    const skirt = named(sensitivities(doc, FLAT_GAP_ID), 'piston 1', 'skirt below pin');
    expect(skirt.upMm).toBeCloseTo(-0.1, 4);
    expect(skirt.downMm).toBeCloseTo(0, 4);
    expect(slopeOf(skirt)).toBeNull();
  });

  it('of a value that a rule allows one way only, the other side is left out', () => {
    // A skirt as wide as its bore can only shrink; and where it shrinks the solid rim under which the counterweight stands stays.
    const doc = flatSkirt();
    const wide = withLiteral(doc, ['assemblies', 0, 'piston', 'bossSpan'], '89.92 mm');
    const [span] = sensitivities(wide, 'rod 1 · piston 1', ['boss span']);
    expect(span?.upMm ?? null).toBeNull();
    const [halfAngle] = sensitivities(doc, 'rod 1 · piston 1', ['skirt half angle']);
    expect(halfAngle?.upMm ?? null).toBeNull();
  });

  it('two pistons far apart, whose certified gap lies on the safe side by a millimetre, follow rods and skirts', () => {
    const doc = exampleV8();
    const gap = gapOf(doc, 'piston-piston');
    expect(gap.slicingMm).toBeGreaterThan(0.1);
    const list = sensitivities(doc, gap.id, ['length', 'skirt below pin']);
    // A longer rod raises the whole piston, by 1 / cos of its lean; a shorter skirt its edge alone. 1.0546 at the greatest lean, r / l = .3175.
    for (const k of [1, 2]) {
      const rod = slopeOf(named(list, `rod ${k}`, 'length'))!;
      const skirt = slopeOf(named(list, `piston ${k}`, 'skirt below pin'))!;
      expect(skirt).toBeLessThan(-0.3);
      expect(rod / -skirt).toBeGreaterThan(0.998);
      expect(rod / -skirt).toBeLessThan(1.0546 + 0.002);
    }
  });
});

function withValves(): BuildDocument {
  const doc = exampleV8();
  return { ...doc, assemblies: doc.assemblies.map((a) => ({ ...a, valvetrain: exampleValvetrain() })) };
}

describe('sensitivities against changed builds', () => {
  const cases: readonly [string, BuildDocument, string][] = [
    ['V8', exampleV8(), 'rod-camshaft'],
    ['V8', exampleV8(), 'counterweight-piston'],
    ['V8', withValves(), 'piston-intake-valve'],
    ['inline six', exampleInline6(), 'rod-camshaft'],
    ['single', exampleSingle(), 'rod-block'],
  ];
  for (const [name, doc, kind] of cases) {
    it(`the largest of ${kind} in a ${name} foretell the certified gap of a build changed by a fifth of a step`, () => {
      const gap = gapOf(doc, kind);
      const list = sensitivities(doc, gap.id).slice(0, 4);
      expect(list.length).toBeGreaterThan(2);
      const base = settled(doc, doc.proposed);
      for (const s of list) {
        const slope = slopeOf(s);
        if (slope === null) continue;
        const changed = withValues(base, [{ variable: s.variable, value: s.variable.value + 0.02 }]);
        const after = gapOf(changed, gap.id);
        // Each certificate is within a micrometre; the outline of a lobe within two.
        expect(Math.abs(after.gapMm - gap.gapMm - 0.02 * slope)).toBeLessThan(0.003);
      }
    });
  }
});

describe('a settled build', () => {
  for (const [name, doc] of [
    ['V8', exampleV8()],
    ['inline six', exampleInline6()],
  ] as const) {
    it(`has the same gaps and passes the same rules: ${name}`, () => {
      const alone = settled(doc, doc.proposed);
      expect(parseBuild(JSON.stringify(alone)).ok).toBe(true);
      const before = gapsOf(doc);
      const after = new Map(gapsOf(alone).map((g) => [g.id, g]));
      expect(after.size).toBe(before.length);
      for (const g of before) {
        expect(after.get(g.id)!.gapMm).toBe(g.gapMm);
        expect(after.get(g.id)!.assumed).toEqual(g.assumed);
      }
    });
  }

  it('keeps what one body had of its own, and lets each rod vary by itself', () => {
    const doc = exampleV8();
    const own = { body: 'rod', cylinder: 3, set: { length: dim('6.001 ±.002 in') } } as const;
    const alone = settled({ ...doc, assemblies: doc.assemblies.map((a) => ({ ...a, own: [own] })) }, doc.proposed);
    const lengths = variablesOf(alone).filter((v) => v.label === 'length');
    expect(lengths.map((v) => v.body)).toEqual([1, 2, 3, 4, 5, 6, 7, 8].map((n) => `rod ${n}`));
    expect(lengths[2]!.text).toBe('6.001 ±.002 in');
    expect(lengths[2]!.band!.plus).toBeCloseTo(0.0508, 12);
    expect(lengths[1]!.band).toBeNull();
    const engine = layOut(withValues(alone, [{ variable: lengths[4]!, value: 152.9 }]), doc.proposed);
    expect(engine.cylinders.map((c) => c.slider.rodLengthMm)).toEqual([
      152.4, 152.4, 152.4254, 152.4, 152.9, 152.4, 152.4, 152.4,
    ]);
  });

  it('has every dimension of the parts among its variables, once', () => {
    const alone = settled(exampleV8(), 'Stroker');
    const variables = variablesOf(alone);
    const names = variables.map((v) => `${v.body} ${v.label}`);
    expect(new Set(names).size).toBe(names.length);
    for (const name of [
      'block deck height',
      'block cam axis height',
      'crank stroke',
      'camshaft base circle',
      'camshaft follower radius',
    ])
      expect(names).toContain(name);
    // 8 rods of 13, 8 pistons of 12, 8 counterweights of 4.
    expect(variables.filter((v) => v.body.startsWith('rod'))).toHaveLength(8 * 13);
    expect(variables.filter((v) => v.body.startsWith('piston'))).toHaveLength(8 * 12);
    expect(variables.filter((v) => v.body.startsWith('counterweight'))).toHaveLength(8 * 4);
  });
});
