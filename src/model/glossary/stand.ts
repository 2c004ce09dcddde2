/**
 * How one cylinder of the present build stands at a crank angle, in its bore's own axes, for the drawings of the glossary: `up` outward along
 * the bore, `across` to the side to which the crankpin moves after the top. Millimetres, radians.
 */
import { mm } from '../../assembly/dims.ts';
import type { Cylinder, Engine } from '../../assembly/engine.ts';
import { counterweightOf, pistonOf, rodOf } from '../../build/bodyOf.ts';
import type { Assembly, BuildDocument, Dim } from '../../build/document.ts';
import { layoutOfBlock } from '../../build/layouts.ts';
import { angleRad, speedRpm } from '../../build/literal.ts';
import { accelMPerS2, speedMPerS } from '../../core/kinematics/realTime.ts';
import {
  bdcAlphaRad,
  bdcPinHeightMm,
  pinHeightMm,
  pinHeightPerRad2Mm,
  pinHeightPerRadMm,
  rodAngleRad,
  tdcAlphaRad,
  tdcPinHeightMm,
} from '../../core/kinematics/sliderCrank.ts';

export interface Sizes {
  readonly cylinder: Cylinder;
  readonly boreRadius: number;
  readonly deck: number;
  readonly boreBottom: number;
  readonly gasket: number;
  readonly mainBoreRadius: number;
  readonly railHeight: number;
  readonly railHalfWidth: number;
  readonly crankRadius: number;
  readonly rodLength: number;
  readonly offset: number;
  readonly mainRadius: number;
  readonly pinRadius: number;
  readonly journalLength: number;
  readonly cheek: number;
  readonly weightRadius: number;
  readonly weightHalfAngle: number;
  readonly weightCorner: number;
  readonly bigEndRadius: number;
  readonly bigEndWidth: number;
  readonly smallEndRadius: number;
  readonly boltSpread: number;
  readonly boltLength: number;
  readonly shoulder: number;
  readonly compressionHeight: number;
  readonly pistonPinRadius: number;
  readonly pinOffset: number;
  readonly bossRadius: number;
  readonly skirtBelowPin: number;
  readonly skirtRadius: number;
  readonly skirtWall: number;
  readonly pinTop: number;
  readonly pinBottom: number;
  /** Alpha of true top and bottom. */
  readonly tdcAlpha: number;
  readonly bdcAlpha: number;
  readonly speedRpm: number;
  /** Of the core, where the build states them. */
  readonly core: {
    readonly pinRadius: number;
    readonly crankRadius: number;
    readonly stock: number | null;
    readonly caseDepth: number | null;
  } | null;
  readonly cam: Cam | null;
  readonly bankAngles: readonly number[];
  readonly firingOrder: readonly number[];
}

export interface Cam {
  readonly baseRadius: number;
  readonly intakeLift: number;
  readonly separation: number;
  readonly centreline: number;
  readonly duration: number;
  readonly atLift: number;
  readonly coreRadius: number;
}

export interface Stand extends Sizes {
  /** Crank degrees after the true top, 0 to 360. */
  readonly deg: number;
  readonly alpha: number;
  /** Pin of the piston, centre of the crankpin. */
  readonly pin: readonly [number, number];
  readonly crankpin: readonly [number, number];
  readonly lean: number;
  readonly crown: number;
  /** m/s and m/s², outward positive. */
  readonly speed: number;
  readonly accel: number;
}

export function sizesOf(doc: BuildDocument, engine: Engine, number: number): Sizes {
  const assembly = doc.assemblies.find((a) => a.name === engine.assembly);
  const cylinder = engine.cylinders.find((c) => c.number === number);
  if (assembly === undefined || cylinder === undefined) throw new RangeError(`sizesOf: no cylinder ${number}`);
  const { block } = doc;
  const { crank } = assembly;
  const rod = rodOf(assembly, number).dims;
  const piston = pistonOf(assembly, number).dims;
  const weight = counterweightOf(assembly, cylinder.throw, 'front').dims;
  const { slider } = cylinder;
  return {
    cylinder,
    boreRadius: cylinder.boreRadiusMm,
    deck: mm(block.deckHeight),
    boreBottom: mm(block.boreBottom),
    gasket: mm(block.gasketThickness),
    mainBoreRadius: mm(block.bulkhead.mainBore) / 2,
    railHeight: mm(block.panRail.height),
    railHalfWidth: mm(block.panRail.halfWidth),
    crankRadius: slider.crankRadiusMm,
    rodLength: slider.rodLengthMm,
    offset: slider.offsetMm,
    mainRadius: mm(crank.mainJournal) / 2,
    pinRadius: mm(crank.rodJournal) / 2,
    journalLength: mm(crank.journalLength),
    cheek: mm(crank.cheekThickness),
    weightRadius: mm(weight.radius),
    weightHalfAngle: angleRad(weight.halfAngle.value),
    weightCorner: weight.cornerRadius === undefined ? 0 : mm(weight.cornerRadius),
    bigEndRadius: mm(rod.bigEndRadius),
    bigEndWidth: mm(rod.bigEndWidth),
    smallEndRadius: mm(rod.smallEndRadius),
    boltSpread: mm(rod.boltSpread),
    boltLength: mm(rod.boltLength),
    shoulder: mm(rod.shoulderHeight),
    compressionHeight: mm(piston.compressionHeight),
    pistonPinRadius: mm(piston.pinDiameter) / 2,
    pinOffset: mm(piston.pinOffset),
    bossRadius: mm(piston.bossRadius),
    skirtBelowPin: mm(piston.skirtBelowPin),
    skirtRadius: mm(piston.skirtDiameter) / 2,
    skirtWall: mm(piston.skirtThickness),
    pinTop: tdcPinHeightMm(slider),
    pinBottom: bdcPinHeightMm(slider),
    tdcAlpha: tdcAlphaRad(slider),
    bdcAlpha: bdcAlphaRad(slider),
    speedRpm: speedRpm(doc.speed.value),
    core: coreOf(assembly),
    cam: camOf(assembly),
    bankAngles: layoutOfBlock(block).bankAnglesDeg,
    firingOrder: block.firingOrder,
  };
}

export function standAt(sizes: Sizes, deg: number): Stand {
  const { slider } = sizes.cylinder;
  const alpha = sizes.tdcAlpha + (deg * Math.PI) / 180;
  const s = pinHeightMm(slider, alpha);
  return {
    ...sizes,
    deg: ((deg % 360) + 360) % 360,
    alpha,
    pin: [slider.offsetMm, s],
    crankpin: [slider.crankRadiusMm * Math.sin(alpha), slider.crankRadiusMm * Math.cos(alpha)],
    lean: rodAngleRad(slider, alpha),
    crown: s + sizes.compressionHeight,
    speed: speedMPerS(pinHeightPerRadMm(slider, alpha), sizes.speedRpm),
    accel: accelMPerS2(pinHeightPerRad2Mm(slider, alpha), sizes.speedRpm),
  };
}

function coreOf({ core }: Assembly): Sizes['core'] {
  if (core?.stroke === undefined || core.rodJournal === undefined) return null;
  const length = (dim: Dim | undefined): number | null => (dim === undefined ? null : mm(dim));
  return {
    pinRadius: mm(core.rodJournal) / 2,
    crankRadius: mm(core.stroke) / 2,
    stock: length(core.leastStock),
    caseDepth: length(core.caseDepth),
  };
}

function camOf({ camshaft }: Assembly): Cam | null {
  if (camshaft === undefined) return null;
  return {
    baseRadius: mm(camshaft.baseCircle) / 2,
    intakeLift: mm(camshaft.intakeLift),
    separation: angleRad(camshaft.lobeSeparation.value),
    centreline: angleRad(camshaft.intakeCentreline.value),
    duration: angleRad(camshaft.intakeDuration.value),
    atLift: mm(camshaft.durationAtLift),
    coreRadius: mm(camshaft.coreDiameter) / 2,
  };
}
