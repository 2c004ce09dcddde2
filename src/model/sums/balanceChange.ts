/** What grinding, turning and other parts did to a core that was balanced before: vectors in two planes, and what corrects them. */

import { throwCentreMm } from '../../assembly/cylinders.ts';
import type { Engine } from '../../assembly/engine.ts';
import { layOut } from '../../assembly/layOut.ts';
import type { BuildDocument, Dim, Own } from '../../build/document.ts';
import { exactBase } from '../../build/literal.ts';
import { momentsOf } from '../../core/outline/moments.ts';
import { plugLengthMm, plugMassG, radialHoleDepthMm } from '../../core/shop/balanceCorrection.ts';
import { STEEL_DENSITY_KG_PER_MM3 } from '../../core/shop/counterweightMoment.ts';
import { inTwoPlanes, type UnbalanceVector } from '../../core/shop/unbalance.ts';
import { strokeOf } from './displacement.ts';
import type { Shop } from './shop.ts';
import { type Decimal, type Input, known, plainly, result, type Sum, sum } from './sum.ts';

const G_PER_KG = 1000;

/** Handbook densities, kg/mm³: tungsten alloy 17.0, lead 11.34 g/cm³. */
const PLUGS = { 'tungsten alloy': 17.0e-6, lead: 11.34e-6 } as const;

const CHANGE =
  'balance of rotating masses in several planes: Bevan, The Theory of Machines, ch. 14; taken against a core balanced to its own bobweight';

/** Of one pin, along its direction; then all of them with the counterweights, in two planes. */
export function changeSums(shop: Shop, card: Sum): Sum[] {
  const { core, crank, balance } = shop.assembly;
  if (core === undefined) return [];
  const coreStroke = shop.of('stroke of the core', core.stroke, 'core', 'stroke');
  const bob = sum(
    {
      key: 'change of bobweight × radius, a pin',
      formula: 'new bobweight × new radius − old bobweight × old radius',
      source: CHANGE,
    },
    [
      result(card),
      strokeOf(shop),
      shop.of('bobweight of the core', balance?.coreBobweight, 'balance', 'coreBobweight'),
      coreStroke,
    ],
    'unbalance',
    (now, stroke, before, old) => now!.times(stroke!).minus(before!.times(old!)).div(2),
  );
  const metal = sum(
    {
      key: 'metal of a pin × radius, change',
      formula: 'ρ π/4 × journal length × (new diameter² × new radius − old diameter² × old radius)',
      source: CHANGE,
      estimate: 'the pin is taken as solid steel, 7.85 g/cm³',
    },
    [
      shop.of('journal length', crank.journalLength, 'crank', 'journalLength'),
      shop.of('rod journal, finished', crank.rodJournal, 'crank', 'rodJournal'),
      strokeOf(shop),
      shop.of('rod journal of the core', core.rodJournal, 'core', 'rodJournal'),
      coreStroke,
    ],
    'unbalance',
    (length, d1, s1, d0, s0) =>
      (STEEL_DENSITY_KG_PER_MM3 *
        G_PER_KG *
        Math.PI *
        length!.toNumber() *
        (d1!.toNumber() ** 2 * s1!.toNumber() - d0!.toNumber() ** 2 * s0!.toNumber())) /
      8,
  );
  const engine = layOut(shop.doc, shop.assembly.name);
  const turned = counterweightChange(shop, engine);
  const [front, rear] = planesOf(shop, engine);
  const planes = (pin: number) => inTwoPlanes([...pinVectors(engine, pin), ...turned], front.mm, rear.mm);
  const inputs = [
    result(bob),
    result(metal),
    front.input,
    rear.input,
    known('counterweights, vectors', 'count', turned.length),
  ];
  const pin1 = engine.cylinders[0]!.alphaAtZeroRad + engine.cylinders[0]!.bankAngleRad;
  return [
    bob,
    metal,
    ...(['front', 'rear'] as const).flatMap((plane) => {
      const vector = (values: readonly Decimal[]) =>
        planes(values[0]!.plus(values[1]!).toNumber())[plane === 'front' ? 'a' : 'b'];
      const size = sum(
        {
          key: `unbalance in the ${plane} plane`,
          formula: 'Σ U × distance to the other plane ÷ distance of the planes, pins and counterweights',
          source: CHANGE,
          estimate: 'what the balancing machine will show differs by what was not weighed',
        },
        inputs,
        'unbalance',
        (...values) => Math.hypot(vector(values).xGMm, vector(values).yGMm),
      );
      const heavy = sum(
        {
          key: `its heavy side in the ${plane} plane`,
          formula: 'direction of the vector, from the pin of cylinder 1 in the direction of rotation',
          source: CHANGE,
        },
        inputs,
        'angle',
        (...values) => {
          const { xGMm, yGMm } = vector(values);
          const deg = ((Math.atan2(xGMm, yGMm) - pin1) * 180) / Math.PI;
          return ((deg % 360) + 360) % 360;
        },
      );
      return [size, heavy, ...correctionSums(shop, plane, size)];
    }),
  ];
}

/** One vector for each rod's share of its pin. */
function pinVectors(engine: Engine, perPinGMm: number): UnbalanceVector[] {
  return engine.cylinders.map((c) => {
    const on = engine.cylinders.filter((each) => each.throw === c.throw);
    const angle = c.alphaAtZeroRad + c.bankAngleRad;
    const size = perPinGMm / on.length;
    return {
      xGMm: size * Math.sin(angle),
      yGMm: size * Math.cos(angle),
      zMm: throwCentreMm(engine.cylinders, c.throw),
    };
  });
}

/** What came off each cheek against the core's counterweights: area moments of the outlines now less those before. */
function counterweightChange(shop: Shop, after: Engine): UnbalanceVector[] {
  const radius = shop.assembly.core?.counterweightRadius;
  if (radius === undefined) return [];
  const before = layOut(asOnTheCore(shop.doc, shop.assembly.name, radius), shop.assembly.name);
  return [...cheekVectors(after, 1), ...cheekVectors(before, -1)];
}

function asOnTheCore(doc: BuildDocument, name: string, radius: Dim): BuildDocument {
  const bare = (own: Own): Own => {
    if (own.body !== 'counterweight') return own;
    const { body, throw: number, side, axialShift, phase } = own;
    return {
      body,
      throw: number,
      side,
      ...(axialShift === undefined ? {} : { axialShift }),
      ...(phase === undefined ? {} : { phase }),
    };
  };
  return {
    ...doc,
    assemblies: doc.assemblies.map((a) =>
      a.name !== name
        ? a
        : {
            ...a,
            crank: { ...a.crank, counterweight: { ...a.crank.counterweight, radius } },
            ...(a.own === undefined ? {} : { own: a.own.map(bare) }),
          },
    ),
  };
}

function cheekVectors(engine: Engine, sign: number): UnbalanceVector[] {
  return engine.bodies
    .filter((body) => body.kind === 'counterweight')
    .flatMap((body) => {
      const phase = body.move.kind === 'crank' ? body.move.phaseRad : 0;
      return body.layers.map((layer) => {
        const m = momentsOf(layer.outline);
        const grams = sign * STEEL_DENSITY_KG_PER_MM3 * G_PER_KG * (layer.z1Mm - layer.z0Mm);
        const [x, y] = [grams * m.xMm3, grams * m.yMm3];
        return {
          xGMm: Math.cos(phase) * x + Math.sin(phase) * y,
          yGMm: -Math.sin(phase) * x + Math.cos(phase) * y,
          zMm: (layer.z0Mm + layer.z1Mm) / 2,
        };
      });
    });
}

/** The planes stated, else the middles of the first and the last cheek. */
function planesOf(shop: Shop, engine: Engine): readonly [Plane, Plane] {
  const { balance } = shop.assembly;
  const cheeks = engine.bodies.filter((b) => b.kind === 'counterweight').map((b) => (b.z0Mm + b.z1Mm) / 2);
  const one = (key: 'frontPlane' | 'rearPlane', words: string, usual: number): Plane => {
    const dim = balance?.[key];
    if (dim === undefined)
      return { mm: usual, input: known(`${words}, taken at the outermost cheek`, 'length', usual) };
    return { mm: exactBase(dim.value, 'length').toNumber(), input: shop.of(words, dim, 'balance', key) };
  };
  return [one('frontPlane', 'front plane', Math.min(...cheeks)), one('rearPlane', 'rear plane', Math.max(...cheeks))];
}

interface Plane {
  readonly mm: number;
  readonly input: Input;
}

/** Weight to take on the heavy side, or to add opposite, in one plane. */
function correctionSums(shop: Shop, plane: 'front' | 'rear', unbalance: Sum): Sum[] {
  const { balance, crank } = shop.assembly;
  const radius =
    balance?.radius === undefined
      ? shop.of('counterweight radius', crank.counterweight.radius, 'crank', 'counterweight', 'radius')
      : shop.of('correction radius', balance.radius, 'balance', 'radius');
  const where = balance?.correction === 'external' ? 'outside, at damper and flywheel' : 'in the counterweights';
  const weight = sum(
    {
      key: `weight to correct the ${plane} plane`,
      formula: 'unbalance ÷ radius, taken on the heavy side or added opposite',
      source: 'statics',
      remark: () => plainly(where),
    },
    [result(unbalance), radius],
    'weight',
    (u, r) => u!.div(r!),
  );
  if (balance?.drill === undefined || balance.correction === 'external') return [weight];
  const drill = shop.of('drill', balance.drill, 'balance', 'drill');
  const hole = sum(
    {
      key: `hole for the ${plane} plane`,
      formula: 'depth t of a radial hole from the rim, U = π/4 d² t ρ (R − t/2)',
      source: 'statics',
    },
    [result(unbalance), drill, radius],
    'length',
    (u, d, r) => {
      const depth = radialHoleDepthMm(u!.toNumber(), d!.toNumber(), r!.toNumber(), STEEL_DENSITY_KG_PER_MM3);
      if (depth === null)
        throw new RangeError('one hole of this diameter is not enough: take several, or a larger drill');
      return depth;
    },
  );
  if (balance.plug === undefined) return [weight, hole];
  const density = PLUGS[balance.plug];
  const plug = sum(
    {
      key: `plug of ${balance.plug} for the ${plane} plane`,
      formula: 'm = U ÷ (r (1 − ρ crank ÷ ρ plug)), as long as that weight is in the drilled hole',
      source: 'statics; handbook densities 7.85, 17.0 and 11.34 g/cm³',
    },
    [result(unbalance), drill, radius],
    'length',
    (u, d, r) =>
      plugLengthMm(plugMassG(u!.toNumber(), r!.toNumber(), STEEL_DENSITY_KG_PER_MM3, density), d!.toNumber(), density),
  );
  return [weight, hole, plug];
}
