/** Each quantity of build/lesson/quantities.ts, worked out from the core for one assembly and cylinder of a build. */

import { mm } from '../../assembly/dims.ts';
import { type LessonFigure, type QuantityName, readAmount } from '../../build/lesson/index.ts';
import { angleDeg, kindOf, lengthMm, speedRpm } from '../../build/literal.ts';
import { exact } from '../../build/ruleTable.ts';
import { motionExtrema } from '../../core/kinematics/extrema.ts';
import { accelMPerS2, meanPistonSpeedMPerS, speedMPerS } from '../../core/kinematics/realTime.ts';
import {
  bdcAlphaRad,
  bdcPinHeightMm,
  pinHeightPerRad2Mm,
  rodAngleRad,
  strokeTravelledMm,
  tdcAlphaRad,
  tdcPinHeightMm,
} from '../../core/kinematics/sliderCrank.ts';
import { alphasBelowTdc, belowTdcAfterMm, dwellAtBdc, dwellAtTdc } from '../../core/kinematics/travel.ts';
import { journalOverlap, offsetGrind } from '../../core/shop/offsetGrind.ts';
import { rodRatio } from '../../core/shop/rodRatio.ts';
import { at } from '../edit.ts';
import { figuresOf } from '../figures.ts';
import { gapAtDeg, gapChangeMm, nearestBesideMm, smallestGap, smallestOfKind } from './gaps.ts';
import { NotThere, type Setting } from './setting.ts';
import { pathOf } from './setUp.ts';

const DEG = Math.PI / 180;
const TURN = 2 * Math.PI;

type Work = (setting: Setting, figure: LessonFigure, atDeg: number) => number;

const WORK: Readonly<Record<Exclude<QuantityName, 'difference' | 'quotient'>, Work>> = {
  'angle of greatest piston speed': ({ cylinder: { slider } }) =>
    afterTdcDeg(motionExtrema(slider).inwardSpeed.alphaRad, tdcAlphaRad(slider)),
  'greatest piston speed': ({ doc, cylinder: { slider } }) =>
    speedMPerS(-motionExtrema(slider).inwardSpeed.value, speedRpm(doc.speed.value)),
  'greatest piston speed against crankpin': ({ cylinder: { slider } }) =>
    -motionExtrema(slider).inwardSpeed.value / slider.crankRadiusMm,
  'greatest piston speed against mean': ({ cylinder: { slider } }) =>
    (-motionExtrema(slider).inwardSpeed.value * Math.PI) / strokeTravelledMm(slider),
  'mean piston speed': ({ doc, cylinder: { slider } }) =>
    meanPistonSpeedMPerS(strokeTravelledMm(slider), speedRpm(doc.speed.value)),
  'piston travel from TDC': (setting, _, atDeg) => travelMm(setting, atDeg),
  'share of stroke travelled': (setting, _, atDeg) =>
    travelMm(setting, atDeg) / strokeTravelledMm(setting.cylinder.slider),
  'angle at share of stroke': (setting, { share }) => angleAtTravelDeg(setting, amount(share, 'share')),
  'dwell about TDC': (setting, { within }) => dwellDeg(setting, amount(within, 'length'), dwellAtTdc),
  'dwell about BDC': (setting, { within }) => dwellDeg(setting, amount(within, 'length'), dwellAtBdc),
  'pull at TDC': ({ doc, cylinder: { slider } }) =>
    Math.abs(accelMPerS2(pinHeightPerRad2Mm(slider, tdcAlphaRad(slider)), speedRpm(doc.speed.value))),
  'pull at BDC': ({ doc, cylinder: { slider } }) =>
    Math.abs(accelMPerS2(pinHeightPerRad2Mm(slider, bdcAlphaRad(slider)), speedRpm(doc.speed.value))),
  'rod angle': ({ cylinder: { slider } }, _, atDeg) =>
    Math.abs(rodAngleRad(slider, tdcAlphaRad(slider) + atDeg * DEG)) / DEG,
  'greatest rod angle': ({ cylinder: { slider } }) => {
    const { rodAngleToV, rodAngleFromV } = motionExtrema(slider);
    return Math.max(Math.abs(rodAngleToV.value), Math.abs(rodAngleFromV.value)) / DEG;
  },
  'rod angle on the power stroke': ({ cylinder: { slider } }) =>
    Math.abs(motionExtrema(slider).rodAngleToV.value) / DEG,
  'rod angle on the way up': ({ cylinder: { slider } }) => Math.abs(motionExtrema(slider).rodAngleFromV.value) / DEG,
  'angle from TDC to BDC': ({ cylinder: { slider } }) => afterTdcDeg(bdcAlphaRad(slider), tdcAlphaRad(slider)),
  'crankpin past the bore at TDC': ({ cylinder: { slider } }) => tdcAlphaRad(slider) / DEG,
  'pin height at TDC': ({ cylinder: { slider } }) => tdcPinHeightMm(slider),
  'pin height at BDC': ({ cylinder: { slider } }) => bdcPinHeightMm(slider),
  dimension: ({ doc, index }, { place = '' }) => {
    const found = at(doc, pathOf(place, index));
    const text = typeof found === 'object' && found !== null && 'value' in found ? String(found.value) : '';
    const kind = kindOf(text);
    if (kind === 'length') return lengthMm(text);
    if (kind === 'angle') return angleDeg(text);
    throw new NotThere(`the build states no length and no angle at ${place}`);
  },
  stroke: ({ cylinder: { slider } }) => 2 * slider.crankRadiusMm,
  'travel over the stroke': ({ cylinder: { slider } }) => strokeTravelledMm(slider),
  'rod ratio': ({ cylinder: { slider } }) => rodRatio(slider.rodLengthMm, 2 * slider.crankRadiusMm),
  displacement: ({ doc, engine, cylinder }) => figuresOf(doc, engine, cylinder.number).displacementCm3,
  'deck clearance': ({ cylinder }) => cylinder.deckClearanceMm,
  'skirt edge at BDC': ({ assembly, cylinder: { slider } }) =>
    bdcPinHeightMm(slider) - mm(assembly.piston.skirtBelowPin),
  'smallest gap': (setting, { pair }) => smallestGap(setting, pair!).gapMm,
  'angle of the smallest gap': (setting, { pair }) => {
    const found = smallestGap(setting, pair!);
    const { cylinder } = setting;
    const twoTurns = found.periodRad > 1.5 * TURN;
    return wrapped(found.atCrankRad - (twoTurns ? cylinder.firingTdcRad : cylinder.tdcRad), found.periodRad) / DEG;
  },
  'nearest place beside the bore axis': (setting, { pair }) => nearestBesideMm(setting, pair!),
  'gap at an angle': (setting, { pair }, atDeg) => gapAtDeg(setting, pair!, atDeg),
  'change of the smallest gap': (setting, { pair, place, by }) => gapChangeMm(setting, pair!, place!, by!, false),
  'change of the smallest gap, deck held': (setting, { pair, place, by }) =>
    gapChangeMm(setting, pair!, place!, by!, true),
  'smallest gap of a kind': (setting, { kind }) => smallestOfKind(setting, kind!),
  'longest stroke of the grind': (setting) => grindOf(setting).longest,
  'stroke gained by the grind': (setting) => grindOf(setting).gained,
  'journal lost': (setting) => grindOf(setting).lost,
  'journal overlap': ({ assembly: { crank } }) =>
    journalOverlap(exact(crank.mainJournal), exact(crank.rodJournal), exact(crank.stroke)).toNumber(),
};

/** Worth of one quantity that is made from no others; `atDeg` in crank degrees after top dead centre. Throws NotThere. */
export function quantityOf(figure: LessonFigure, setting: Setting, atDeg: number): number {
  if (figure.is === 'difference' || figure.is === 'quotient') throw new NotThere('it is made from no other figures');
  return WORK[figure.is](setting, figure, atDeg);
}

function amount(text: string | undefined, as: 'length' | 'share'): number {
  const read = readAmount(text ?? '', as);
  if (!read.ok) throw new NotThere(`${text} is no ${as}`);
  return read.value;
}

function wrapped(rad: number, periodRad: number): number {
  const rest = rad % periodRad;
  return rest < 0 ? rest + periodRad : rest;
}

function afterTdcDeg(alphaRad: number, tdcRad: number): number {
  return wrapped(alphaRad - tdcRad, TURN) / DEG;
}

function travelMm({ cylinder: { slider } }: Setting, atDeg: number): number {
  return belowTdcAfterMm(slider, atDeg * DEG);
}

function angleAtTravelDeg({ cylinder: { slider } }: Setting, share: number): number {
  const { downAlphaRad } = alphasBelowTdc(slider, share * strokeTravelledMm(slider));
  // At the top itself rounding may put it a hair before.
  return Math.max(0, downAlphaRad - tdcAlphaRad(slider)) / DEG;
}

/** Crank degrees, both sides of the dead centre together, in which the piston is within a distance of it. */
function dwellDeg({ cylinder: { slider } }: Setting, withinMm: number, dwell: typeof dwellAtTdc): number {
  return withinMm >= strokeTravelledMm(slider) ? 360 : dwell(slider, withinMm).dwellRad / DEG;
}

/** What the core, ground to the finished journal with its least stock taken off, could give; mm. */
function grindOf({ assembly: { core, crank } }: Setting): { longest: number; gained: number; lost: number } {
  const stroke = core?.stroke;
  const rodJournal = core?.rodJournal;
  if (stroke === undefined || rodJournal === undefined)
    throw new NotThere('the assembly states no core with its stroke and rod journal');
  const leastStock = core?.leastStock;
  if (leastStock === undefined) throw new NotThere('the core states no least stock');
  if (exact(crank.rodJournal).gt(exact(rodJournal)))
    throw new NotThere('the finished rod journal is larger than that of the core');
  const ground = offsetGrind({
    strokeBefore: exact(stroke),
    journalBefore: exact(rodJournal),
    journalAfter: exact(crank.rodJournal),
    pinShift: exact(stroke).times(0),
    leastStock: exact(leastStock),
  });
  return {
    longest: ground.longestStroke.toNumber(),
    gained: ground.longestStroke.minus(exact(stroke)).toNumber(),
    lost: ground.diameterLost.toNumber(),
  };
}
