/**
 * One lobe of an assembly: the common figures of its valve with the lobe's own over them, where each stands in the document, and the
 * lobe as the numeric part knows it.
 */
import { type AnyLobe, mirrorLobe } from '../core/lobe/lobeSpec.ts';
import type { Assembly, Camshaft, Dim, LiftTable, Own, Valve } from './document.ts';
import { angleRad, lengthMm } from './literal.ts';

export interface LobeFigures {
  readonly valve: Valve;
  readonly lift: Dim;
  readonly duration: Dim;
  readonly opening?: Dim;
  readonly table?: LiftTable;
  readonly own?: Extract<Own, { body: 'lobe' }>;
  /** Place of the own entry inside the assembly, such as "own[3]". */
  readonly ownPlace?: string;
}

export function lobeOf(assembly: Assembly, camshaft: Camshaft, cylinder: number, valve: Valve): LobeFigures {
  const index = assembly.own?.findIndex((o) => o.body === 'lobe' && o.cylinder === cylinder && o.valve === valve) ?? -1;
  const entry = assembly.own?.[index];
  const own = entry?.body === 'lobe' ? entry : undefined;
  const opening = own?.opening ?? camshaft[`${valve}Opening`];
  const table = own?.table ?? camshaft[`${valve}Table`];
  return {
    valve,
    lift: own?.lift ?? camshaft[`${valve}Lift`],
    duration: own?.duration ?? camshaft[`${valve}Duration`],
    ...(opening === undefined ? {} : { opening }),
    ...(table === undefined ? {} : { table }),
    ...(own === undefined ? {} : { own, ownPlace: `own[${index}]` }),
  };
}

/** Place of a figure of the lobe inside the assembly: "camshaft.intakeLift" or "own[3].lift". */
export function lobePlace(lobe: LobeFigures, figure: 'lift' | 'duration' | 'opening' | 'table'): string {
  if (lobe.own?.[figure] !== undefined) return `${lobe.ownPlace}.${figure}`;
  return `camshaft.${lobe.valve}${figure[0]!.toUpperCase()}${figure.slice(1)}`;
}

/**
 * The lobe with the flank that the follower meets first on the positive side of psi, whichever way the shaft turns: lift by time. A
 * table counts angles the other way, from the flank met first.
 */
export function lobeInTime(camshaft: Camshaft, lobe: LobeFigures): AnyLobe {
  const baseRadiusMm = lengthMm(camshaft.baseCircle.value) / 2;
  const follower =
    camshaft.follower.kind === 'flat'
      ? ({ kind: 'flat' } as const)
      : ({ kind: 'roller', radiusMm: lengthMm(camshaft.follower.radius.value) } as const);
  if (lobe.table !== undefined) {
    const points = [...lobe.table.points].reverse();
    const table = {
      psiRad: points.map((p) => -angleRad(p.at)),
      liftMm: points.map((p) => lengthMm(p.lift)),
      withinMm: lengthMm(lobe.table.within.value),
    };
    return { baseRadiusMm, follower, table };
  }
  return {
    baseRadiusMm,
    liftMm: lengthMm(lobe.lift.value),
    law: camshaft.law,
    durationAtLiftCrankRad: angleRad(lobe.duration.value),
    durationAtLiftMm: lengthMm(camshaft.durationAtLift.value),
    ...(lobe.opening === undefined ? {} : { openingAtLiftCrankRad: angleRad(lobe.opening.value) }),
    follower,
  };
}

/** The lobe as it is ground, psi clockwise from the nose: turning against the crank its other flank is met first. */
export function lobeGround(camshaft: Camshaft, lobe: LobeFigures): AnyLobe {
  const inTime = lobeInTime(camshaft, lobe);
  return camshaft.sense === 'same' ? inTime : mirrorLobe(inTime);
}
