/** Speeds, accelerations and inertia loads at the engine speed of the build, and what the bearings see of them. */
import { motionExtrema } from '../../core/kinematics/extrema.ts';
import { accelMPerS2, meanPistonSpeedMPerS, speedMPerS } from '../../core/kinematics/realTime.ts';
import { type SliderCrank, strokeTravelledMm, tdcAlphaRad } from '../../core/kinematics/sliderCrank.ts';
import { petroffFriction, projectedPressureMPa, surfaceSpeedMPerS } from '../../core/shop/journalFriction.ts';
import { centrifugalN, inertiaLoads } from '../../core/shop/pistonLoads.ts';
import { rodStretchMm } from '../../core/shop/rodStretch.ts';
import { strokeOf } from './displacement.ts';
import { guideFor } from './guides.ts';
import { type Alike, offsets, type Shop } from './shop.ts';
import { type Decimal, type Input, result, type Sum, type SumGroup, sum } from './sum.ts';
import { reciprocating, rotating } from './weights.ts';

const MOTION = 'exact slider-crank with offset; extremes found as roots';
const G_PER_KG = 1000;

export function speedOf(shop: Shop): Input {
  return { name: 'engine speed', dim: shop.doc.speed, path: ['speed'] };
}

export function loadSums(shop: Shop): SumGroup {
  return { title: 'Loads and speeds', sums: shop.alike.flatMap((alike) => loadsOf(shop, alike)) };
}

function loadsOf(shop: Shop, alike: Alike): Sum[] {
  const motion = [
    strokeOf(shop),
    shop.of('rod length', alike.rod.length, 'rod', 'length'),
    ...offsets(shop, alike),
    speedOf(shop),
  ];
  const slider = ([stroke, rod, bore, pin]: readonly Decimal[]): SliderCrank => ({
    crankRadiusMm: stroke!.toNumber() / 2,
    rodLengthMm: rod!.toNumber(),
    offsetMm: bore!.plus(pin!).toNumber(),
  });
  const rpm = (values: readonly Decimal[]): number => values[4]!.toNumber();
  const recip = reciprocating(shop);
  const rot = rotating(shop);
  const moving = (
    key: string,
    formula: string,
    as: 'speed' | 'acceleration' | 'force',
    of: (s: SliderCrank, n: number) => number,
  ): Sum =>
    sum({ key: key + alike.label, formula, source: MOTION }, motion, as, (...values) =>
      of(slider(values), rpm(values)),
    );
  const mean = sum(
    {
      key: `mean piston speed${alike.label}`,
      formula: '2 × stroke travelled × revolutions a second',
      source: 'encyclopedia page “Mean piston speed”',
      guide: (found) => guideFor(shop.doc, 'mean piston speed', found),
    },
    motion,
    'speed',
    (...values) => meanPistonSpeedMPerS(strokeTravelledMm(slider(values)), rpm(values)),
  );
  const tension = sum(
    {
      key: `rod tension at TDC${alike.label}`,
      formula: 'reciprocating weight × acceleration at TDC ÷ cos(rod angle)',
      source: 'Khurmi & Gupta, Theory of Machines, ch. 15, with the exact motion',
      estimate: 'gas pressure and the pull of the rod’s own beam are left out',
    },
    [...motion, result(recip)],
    'force',
    (...values) => {
      const s = slider(values);
      return inertiaLoads(s, values[5]!.toNumber() / G_PER_KG, tdcAlphaRad(s), rpm(values)).rodTensionN;
    },
  );
  const { running } = shop.assembly;
  const stretch = sum(
    {
      key: `rod stretch at TDC${alike.label}`,
      formula: 'tension × rod length ÷ (modulus × section)',
      source: 'Hooke’s law for a bar of one section',
      estimate: 'the rod is taken as one bar; its eyes and bolts stretch besides',
    },
    [
      result(tension),
      shop.of('rod length', alike.rod.length, 'rod', 'length'),
      shop.of('section of the rod’s beam', running?.rodSection, 'running', 'rodSection'),
      shop.of('modulus of the rod', running?.rodModulus, 'running', 'rodModulus'),
    ],
    'fine length',
    (force, length, section, modulus) =>
      rodStretchMm(force!.toNumber(), length!.toNumber(), section!.toNumber(), modulus!.toNumber()),
  );
  const side = sum(
    {
      key: `greatest inertia side force${alike.label}`,
      formula: 'greatest of reciprocating weight × acceleration × tan(rod angle) over the turn',
      source: 'Khurmi & Gupta, Theory of Machines, ch. 15, with the exact motion',
      estimate: 'gas pressure, which adds to it on the power stroke, is left out; read at every tenth of a degree',
    },
    [...motion, result(recip)],
    'force',
    (...values) => greatestWallN(slider(values), values[5]!.toNumber() / G_PER_KG, rpm(values)),
  );
  const pinLoad = sum(
    {
      key: `load of a rod bearing at TDC${alike.label}`,
      formula: 'rod tension at TDC + rotating weight of the rod × crank radius × ω²',
      source: 'statics at the dead centre',
      estimate: 'gas pressure is left out',
    },
    [result(tension), result(rot), strokeOf(shop), speedOf(shop)],
    'force',
    (pull, grams, stroke, n) =>
      pull!.toNumber() + centrifugalN(grams!.toNumber() / G_PER_KG, stroke!.toNumber() / 2, n!.toNumber()),
  );
  const journal = shop.of('rod journal', shop.assembly.crank.rodJournal, 'crank', 'rodJournal');
  const film = shop.of('film length of a rod bearing', shop.assembly.bearings?.rodFilm, 'bearings', 'rodFilm');
  const pressure = sum(
    {
      key: `projected pressure of a rod bearing${alike.label}`,
      formula: 'load ÷ (journal × film length)',
      source: 'definition',
      estimate: 'the load is an estimate',
    },
    [result(pinLoad), journal, film],
    'pressure',
    (load, d, l) => projectedPressureMPa(load!.toNumber(), d!.toNumber(), l!.toNumber()),
  );
  return [
    mean,
    moving('greatest piston speed', 'greatest |ds/dt|', 'speed', (s, n) =>
      Math.abs(speedMPerS(motionExtrema(s).inwardSpeed.value, n)),
    ),
    moving('acceleration at its greatest, toward the crank', 'extreme of d²s/dt²', 'acceleration', (s, n) =>
      Math.abs(accelMPerS2(motionExtrema(s).inwardAccel.value, n)),
    ),
    tension,
    stretch,
    side,
    pinLoad,
    pressure,
  ];
}

/** Steps a turn for the greatest side force: a tenth of a degree, at which the value at a smooth maximum is right to a millionth. */
const STEPS = 3600;

function greatestWallN(s: SliderCrank, kg: number, rpm: number): number {
  let most = 0;
  for (let k = 0; k < STEPS; k++)
    most = Math.max(most, Math.abs(inertiaLoads(s, kg, (2 * Math.PI * k) / STEPS, rpm).wallN));
  return most;
}

const PETROFF =
  'N. Petroff’s equation, as in Faires, Design of Machine Elements, sec. 11, and Norton, Machine Design, eq. 11.9';
const PETROFF_LEAVES_OUT =
  'the shaft is taken to run in the middle of its bearing: load is left out, so are churning and the pump. A power gain that the trade credits to small journals beyond this rests on what is left out';

/** Bearing friction for thin and for thick oil: a range, by journal and for the engine. */
export function frictionSums(shop: Shop): SumGroup {
  const b = shop.assembly.bearings;
  const rodPins = shop.layout.cylinders.length;
  const mains = shop.layout.throwPhasesDeg.length + 1;
  const kinds = [
    {
      of: 'rod',
      count: rodPins,
      journal: shop.assembly.crank.rodJournal,
      at: 'rodJournal',
      film: b?.rodFilm,
      filmAt: 'rodFilm',
      housing: b?.rodHousing,
      housingAt: 'rodHousing',
      shell: b?.rodShell,
      shellAt: 'rodShell',
    },
    {
      of: 'main',
      count: mains,
      journal: shop.assembly.crank.mainJournal,
      at: 'mainJournal',
      film: b?.mainFilm,
      filmAt: 'mainFilm',
      housing: b?.mainHousing,
      housingAt: 'mainHousing',
      shell: b?.mainShell,
      shellAt: 'mainShell',
    },
  ] as const;
  const sums = kinds.flatMap((k) => {
    const journal = shop.of(`${k.of} journal`, k.journal, 'crank', k.at);
    const surface = sum(
      {
        key: `surface speed of a ${k.of} journal`,
        formula: 'π × diameter × revolutions a second',
        source: 'definition',
      },
      [journal, speedOf(shop)],
      'speed',
      (d, n) => surfaceSpeedMPerS(d!.toNumber(), n!.toNumber()),
    );
    const friction = (oil: 'oilThin' | 'oilThick', words: string): Sum =>
      sum(
        {
          key: `friction of the ${k.of} bearings, ${words}`,
          formula: `μ (v ÷ c) π D L × v for each of ${k.count} bearings, c half the oil clearance`,
          source: PETROFF,
          estimate: PETROFF_LEAVES_OUT,
        },
        [
          journal,
          shop.of(`film length of a ${k.of} bearing`, k.film, 'bearings', k.filmAt),
          shop.of(`${k.of} housing bore`, k.housing, 'bearings', k.housingAt),
          shop.of(`${k.of} shell`, k.shell, 'bearings', k.shellAt),
          shop.of(words, b?.[oil], 'bearings', oil),
          speedOf(shop),
        ],
        'power',
        (d, l, housing, shell, mu, n) =>
          k.count *
          petroffFriction(
            {
              diameterMm: d!.toNumber(),
              lengthMm: l!.toNumber(),
              clearanceMm: housing!.minus(shell!.times(2)).minus(d!).toNumber(),
              viscosityMPaS: mu!.toNumber(),
            },
            n!.toNumber(),
          ).powerW,
      );
    return [surface, friction('oilThin', 'thin oil'), friction('oilThick', 'thick oil')];
  });
  return { title: 'Bearing friction', sums };
}
