/** Forces and couples that the layout leaves, orders one, two and four, with a crank balanced to its bobweights. */
import { throwCentreMm } from '../../assembly/cylinders.ts';
import { layOut } from '../../assembly/layOut.ts';
import { angularSpeedRadPerS } from '../../core/kinematics/realTime.ts';
import { type ShakingCylinder, shakingOrder, type TurningMass } from '../../core/shop/shakingForces.ts';
import { USUAL_FACTOR } from './balance.ts';
import { speedOf } from './loads.ts';
import type { Shop } from './shop.ts';
import { known, result, type Sum, type SumGroup, sum } from './sum.ts';
import { reciprocating } from './weights.ts';

const ORDERS = [1, 2, 4] as const;
const WORDS = { 1: 'first', 2: 'second', 4: 'fourth' } as const;
const G_PER_KG = 1000;

export function shakingSums(shop: Shop): SumGroup {
  const engine = layOut(shop.doc, shop.assembly.name);
  const factor = shop.assembly.balance?.factor ?? USUAL_FACTOR;
  const middle = engine.cylinders.reduce((all, c) => all + c.boreCentreMm, 0) / engine.cylinders.length;
  const of = (order: (typeof ORDERS)[number], grams: number, rpm: number) => {
    const kg = grams / G_PER_KG;
    const cylinders: ShakingCylinder[] = engine.cylinders.map((c) => ({
      slider: c.slider,
      bankAngleRad: c.bankAngleRad,
      alphaAtZeroRad: c.alphaAtZeroRad,
      zMm: c.boreCentreMm,
      reciprocatingKg: kg,
    }));
    // Balanced to the bobweight, the crank carries opposite each pin what stands for the reciprocating share.
    const counter: TurningMass[] = engine.cylinders.map((c) => ({
      angleRad: c.alphaAtZeroRad + c.bankAngleRad + Math.PI,
      zMm: throwCentreMm(engine.cylinders, c.throw),
      massRadiusKgMm: factor * kg * c.slider.crankRadiusMm,
    }));
    return shakingOrder(cylinders, counter, order, angularSpeedRadPerS(rpm), middle);
  };
  const inputs = [result(reciprocating(shop)), known('balance factor', 'ratio', factor), speedOf(shop)];
  const sums = ORDERS.flatMap((order): Sum[] => {
    const source = 'Bevan, The Theory of Machines, ch. 14; orders from the exact motion, vectors over the layout';
    const estimate = 'gas forces are left out; the crank is taken as balanced to its bobweights';
    return [
      sum(
        {
          key: `${WORDS[order]}-order force`,
          formula: 'greatest of Σ m r ω² C cos(k α) along each bore, with the counterweights’ share',
          source,
          estimate,
        },
        inputs,
        'force',
        (grams, _, n) => tidy(of(order, grams!.toNumber(), n!.toNumber()).forceN.greatest),
      ),
      sum(
        {
          key: `${WORDS[order]}-order couple`,
          formula: 'greatest of Σ force × distance from the middle of the engine',
          source,
          estimate,
        },
        inputs,
        'torque',
        (grams, _, n) => tidy(of(order, grams!.toNumber(), n!.toNumber()).coupleNm.greatest),
      ),
    ];
  });
  return { title: 'Shaking forces', sums };
}

/** What vectors that cancel leave by rounding, N or N m: a millionth is nothing. */
const ROUNDING = 1e-6;

function tidy(value: number): number {
  return Math.abs(value) < ROUNDING ? 0 : value;
}
