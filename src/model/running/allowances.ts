/** The allowances of the running engine that a build switches on: as numbers, and what is missing where one is begun but not complete. */
import { mm } from '../../assembly/dims.ts';
import type { Assembly, BuildDocument, Dim } from '../../build/document.ts';
import { exactBase, type LiteralKind, massG, speedRpm } from '../../build/literal.ts';

/** In the order in which they are told. */
export const ALLOWANCES = [
  'main bearing clearance',
  'rod bearing clearance',
  'wrist pin clearance',
  'rod stretch',
  'piston rock',
  'growth by heat',
] as const;
export type Allowance = (typeof ALLOWANCES)[number];

/** How much warmer parts are longer, as a share of their length. */
export interface Growth {
  readonly crank: number;
  readonly rod: number;
  readonly piston: number;
  readonly block: number;
}

/** Everything that may move a part of the running engine; zero or null where it is switched off. */
export interface Moved {
  /** From the middle of the bearing: half the clearance on the diameter. */
  readonly mainMm: number;
  readonly rodMm: number;
  readonly pinMm: number;
  readonly stretch: {
    readonly rpm: number;
    readonly reciprocatingKg: number;
    readonly sectionMm2: number;
    readonly modulusMPa: number;
  } | null;
  readonly rock: { readonly clearanceMm: number; readonly guideMm: number } | null;
  readonly growth: Growth;
}

const NO_GROWTH: Growth = { crank: 0, rod: 0, piston: 0, block: 0 };

export const STANDING: Moved = { mainMm: 0, rodMm: 0, pinMm: 0, stretch: null, rock: null, growth: NO_GROWTH };

export interface RunningEngine {
  readonly on: readonly Allowance[];
  /** Begun, but not complete: what is still to be stated. */
  readonly lacking: readonly { readonly allowance: Allowance; readonly needs: readonly string[] }[];
  /** With everything switched on. */
  readonly all: Moved;
  readonly rpm: number;
  /** The speed is the build's own: no other is stated. */
  readonly buildsSpeed: boolean;
}

/** Weights that pull on the small end, with the names by which they are asked for. */
const PULLING = [
  ['piston', 'piston weight'],
  ['pin', 'pin weight'],
  ['rings', 'ring weight'],
  ['locks', 'lock weight'],
  ['rodSmallEnd', 'small-end weight of the rod'],
] as const;

const base = (dim: Dim, kind: LiteralKind): number => exactBase(dim.value, kind).toNumber();

/** What an assembly says of the running engine. The build must have passed its rules. */
export function runningEngine(doc: BuildDocument, assembly: Assembly): RunningEngine {
  const r = assembly.running ?? {};
  const rpm = speedRpm((r.speed ?? doc.speed).value);
  const lacking: { allowance: Allowance; needs: string[] }[] = [];
  const half = (dim: Dim | undefined): number => (dim === undefined ? 0 : mm(dim) / 2);

  let stretch: Moved['stretch'] = null;
  if (r.rodSection !== undefined || r.rodModulus !== undefined) {
    const { weights = {} } = assembly;
    const needs: string[] = PULLING.flatMap(([key, name]) => (weights[key] === undefined ? [name] : []));
    if (r.rodSection === undefined) needs.unshift('section of the rod');
    if (r.rodModulus === undefined) needs.unshift('modulus of the rod');
    if (needs.length > 0) lacking.push({ allowance: 'rod stretch', needs });
    else
      stretch = {
        rpm,
        reciprocatingKg: PULLING.reduce((sum, [key]) => sum + massG(weights[key]!.value), 0) / 1000,
        sectionMm2: base(r.rodSection!, 'area'),
        modulusMPa: base(r.rodModulus!, 'stress'),
      };
  }

  let rock: Moved['rock'] = null;
  if (r.skirtClearance !== undefined || r.guideLength !== undefined) {
    if (r.skirtClearance === undefined) lacking.push({ allowance: 'piston rock', needs: ['skirt clearance'] });
    else if (r.guideLength === undefined) lacking.push({ allowance: 'piston rock', needs: ['guide length'] });
    else rock = { clearanceMm: mm(r.skirtClearance), guideMm: mm(r.guideLength) };
  }

  const growth = { ...NO_GROWTH };
  for (const part of ['crank', 'rod', 'piston', 'block'] as const) {
    const rate = r[`${part}Growth`];
    const rise = r[`${part}Warmer`];
    if (rate !== undefined && rise !== undefined)
      growth[part] = (base(rate, 'expansion') / 1e6) * base(rise, 'temperature');
    else if (rate !== undefined || rise !== undefined)
      lacking.push({
        allowance: 'growth by heat',
        needs: [`${rate === undefined ? 'growth' : 'temperature rise'} of the ${part}`],
      });
  }

  const all: Moved = {
    mainMm: half(r.mainClearance),
    rodMm: half(r.rodClearance),
    pinMm: half(r.pinClearance),
    stretch,
    rock,
    growth,
  };
  return {
    on: ALLOWANCES.filter((a) => isOn(all, a)),
    lacking,
    all,
    rpm,
    buildsSpeed: r.speed === undefined,
  };
}

function isOn(moved: Moved, allowance: Allowance): boolean {
  switch (allowance) {
    case 'main bearing clearance':
      return moved.mainMm > 0;
    case 'rod bearing clearance':
      return moved.rodMm > 0;
    case 'wrist pin clearance':
      return moved.pinMm > 0;
    case 'rod stretch':
      return moved.stretch !== null;
    case 'piston rock':
      return moved.rock !== null && moved.rock.clearanceMm > 0;
    case 'growth by heat':
      return Object.values(moved.growth).some((share) => share !== 0);
  }
}

/** With some of the allowances switched on, the others off. */
export function withOnly(all: Moved, some: readonly Allowance[]): Moved {
  const on = (allowance: Allowance): boolean => some.includes(allowance);
  return {
    mainMm: on('main bearing clearance') ? all.mainMm : 0,
    rodMm: on('rod bearing clearance') ? all.rodMm : 0,
    pinMm: on('wrist pin clearance') ? all.pinMm : 0,
    stretch: on('rod stretch') ? all.stretch : null,
    rock: on('piston rock') ? all.rock : null,
    growth: on('growth by heat') ? all.growth : NO_GROWTH,
  };
}
