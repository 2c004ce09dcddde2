/**
 * What changes for the customer, as figures: the sums of the assembly on show beside those of the one it replaces, and what
 * of the sums has to be minded. No words: those are made where it is shown, and from these figures alone.
 */
import type { Engine } from '../../assembly/engine.ts';
import { layOut } from '../../assembly/layOut.ts';
import type { Assembly, BuildDocument, Dim } from '../../build/document.ts';
import { exactBase } from '../../build/literal.ts';
import { figuresOf } from '../figures.ts';
import { groundThrows } from '../sums/index.ts';
import { type Amount, amount, type Decimal, type Sum, type SumGroup } from '../sums/sum.ts';
import { sumsFor } from './sums.ts';

/** One figure before and after; null where it isn't stated or can't be worked out. */
export interface Change {
  readonly before: Amount | null;
  readonly after: Amount | null;
  /** After less before, exact; null unless both are there. */
  readonly difference: Amount | null;
  /** Cylinders differ: it is the greatest of them. */
  readonly greatest: boolean;
  /** Of an estimate: what is left out. */
  readonly estimate: string | null;
  /** What is missing, in the words of the sums. */
  readonly lacks: readonly string[];
}

export const CHANGES = [
  'displacement',
  'travel',
  'compression',
  'weight',
  'rodBearingSpeed',
  'mainBearingSpeed',
  'meanPistonSpeed',
  'greatestPistonSpeed',
  'rodPull',
  'skirtOut',
] as const;
export type ChangeName = (typeof CHANGES)[number];

/** Keys of the sums, without the cylinders that they are for; piston travel is a figure beside the section. */
const KEYS: Readonly<Record<Exclude<ChangeName, 'travel'>, string>> = {
  displacement: 'displacement',
  compression: 'compression ratio',
  weight: 'set of rods, pistons and bearings',
  rodBearingSpeed: 'surface speed of a rod journal',
  mainBearingSpeed: 'surface speed of a main journal',
  meanPistonSpeed: 'mean piston speed',
  greatestPistonSpeed: 'greatest piston speed',
  rodPull: 'rod tension at TDC',
  skirtOut: 'skirt out of the bore at BDC',
};

export interface Minded {
  /** Key of the sum, without the cylinders that it is for. */
  readonly key: string;
  readonly words: string;
  /** The assembly being replaced has it too. */
  readonly before: boolean;
}

export type Range = readonly [least: Amount, greatest: Amount];

export interface Summary {
  readonly assembly: string;
  readonly replaced: string;
  /** False while the assembly on show is the one being replaced: there is nothing to compare. */
  readonly compares: boolean;
  readonly rpm: Dim;
  readonly cylinders: number;
  readonly changes: Readonly<Record<ChangeName, Change>>;
  /** Displacement gained, as a share of what it was; null without a comparison. */
  readonly displacementShare: Amount | null;
  /** How the crank comes about. */
  readonly crank: {
    /** Middles of the crankpins moved by grinding, and what their diameters lose, least and greatest of the throws; null when they are not moved. */
    readonly offsetGrind: { readonly outward: boolean; readonly shift: Range; readonly smaller: Range } | null;
    /** Surfaces turned so that the crank of another engine fits. */
    readonly turned: number;
  };
  /** Parts whose dimensions differ from those of the assembly being replaced. */
  readonly differs: { readonly rods: boolean; readonly pistons: boolean; readonly rodBearings: boolean };
  readonly minded: readonly Minded[];
  /** Dimensions of block and assembly that are assumed. */
  readonly assumed: number;
}

/** The build must have passed its rules. `engine` is the assembly on show, laid out. */
export function summaryOf(doc: BuildDocument, engine: Engine): Summary {
  const { replaced } = doc;
  const name = engine.assembly;
  const compares = name !== replaced;
  const after = sumsFor(doc, name);
  const before = compares ? sumsFor(doc, replaced) : null;
  const travel = change(before === null ? null : { ...none, amount: travelOf(doc, layOut(doc, replaced)) }, {
    ...none,
    amount: travelOf(doc, engine),
  });
  const changes = { travel } as Record<ChangeName, Change>;
  for (const [key, sum] of Object.entries(KEYS) as [Exclude<ChangeName, 'travel'>, string][]) {
    changes[key] = change(before === null ? null : greatestOf(before, sum), greatestOf(after, sum));
  }
  const { displacement } = changes;
  const assembly = assemblyOf(doc, name);
  return {
    assembly: name,
    replaced,
    compares,
    rpm: doc.speed,
    cylinders: engine.cylinders.length,
    changes,
    displacementShare:
      displacement.difference === null
        ? null
        : amount('share', displacement.difference.value.div(displacement.before!.value)),
    crank: crankOf(doc, assembly),
    differs: differencesOf(assembly, assemblyOf(doc, replaced)),
    minded: mindedOf(before ?? [], after),
    assumed: assumedCount(doc, name),
  };
}

function assemblyOf(doc: BuildDocument, name: string): Assembly {
  const found = doc.assemblies.find((a) => a.name === name);
  if (found === undefined) throw new RangeError(`summaryOf: no assembly is called "${name}"`);
  return found;
}

interface Found {
  readonly amount: Amount | null;
  readonly greatest: boolean;
  readonly estimate: string | null;
  readonly lacks: readonly string[];
}

const none: Omit<Found, 'amount'> = { greatest: false, estimate: null, lacks: [] };

/** "mean piston speed of cylinder 2, 5" is "mean piston speed". */
export function withoutCylinders(key: string): string {
  return key.replace(/ of (cylinder [\d, ]+|throw \d+)$/, '');
}

/** The sum of that key, or the greatest of those that cylinders have each; null where one of them is missing. */
function greatestOf(groups: readonly SumGroup[], key: string): Found {
  const sums = groups.flatMap((g) => g.sums).filter((s) => withoutCylinders(s.key) === key);
  const lacks = [...new Set(sums.flatMap((s) => s.lacks))];
  const estimate = sums.find((s) => s.estimate !== undefined)?.estimate ?? null;
  const amounts = sums.map((s) => s.amount);
  if (sums.length === 0 || amounts.includes(null)) return { amount: null, greatest: false, estimate, lacks };
  const all = amounts as Amount[];
  const most = all.reduce((a, b) => (b.value.gt(a.value) ? b : a));
  return { amount: most, greatest: all.some((a) => !a.value.eq(most.value)), estimate, lacks };
}

function change(before: Found | null, after: Found): Change {
  const [a, b] = [before?.amount ?? null, after.amount];
  return {
    before: a,
    after: b,
    difference: a === null || b === null ? null : { as: b.as, value: b.value.minus(a.value) },
    greatest: after.greatest || before?.greatest === true,
    estimate: after.estimate,
    lacks: [...new Set([...(before?.lacks ?? []), ...after.lacks])],
  };
}

/** Of the cylinder whose piston travels farthest. */
function travelOf(doc: BuildDocument, engine: Engine): Amount {
  const travels = engine.cylinders.map((c) => figuresOf(doc, engine, c.number).travelMm);
  return amount('length', Math.max(...travels));
}

const mm = (dim: Dim): Decimal => exactBase(dim.value, 'length');

function crankOf(doc: BuildDocument, { name, core, crank, intoBlock }: Assembly): Summary['crank'] {
  const turned = (intoBlock ?? []).filter(({ has, takes }) => !mm(has).eq(mm(takes))).length;
  const throws = core?.stroke === undefined ? [] : groundThrows(doc, name);
  const range = (lengths: readonly number[]): Range => {
    const at = (mm: number): Amount => amount('fine length', throws[0]!.exact(mm));
    return [at(Math.min(...lengths)), at(Math.max(...lengths))];
  };
  const shift = throws.map((t) => t.movementMm);
  const smaller = throws.map((t) => t.oldMm - t.newMm);
  if (throws.length === 0 || Math.max(...shift) === 0 || Math.max(...smaller) === 0)
    return { offsetGrind: null, turned };
  const outward = mm(crank.stroke).gt(mm(core!.stroke!));
  return { offsetGrind: { outward, shift: range(shift), smaller: range(smaller) }, turned };
}

function differencesOf(now: Assembly, before: Assembly): Summary['differs'] {
  const unlike = (a: Dim, b: Dim): boolean => !mm(a).eq(mm(b));
  return {
    rods: unlike(now.rod.length, before.rod.length) || unlike(now.rod.bigEndRadius, before.rod.bigEndRadius),
    pistons:
      unlike(now.piston.compressionHeight, before.piston.compressionHeight) ||
      unlike(now.piston.pinDiameter, before.piston.pinDiameter),
    rodBearings: unlike(now.crank.rodJournal, before.crank.rodJournal),
  };
}

/** Sums of the assembly on show whose remark is a caution, each key once. */
function mindedOf(before: readonly SumGroup[], after: readonly SumGroup[]): Minded[] {
  const cautions = (groups: readonly SumGroup[]): Map<string, Sum> =>
    new Map(
      groups
        .flatMap((g) => g.sums)
        .filter((s) => s.remark?.caution === true)
        .map((s) => [withoutCylinders(s.key), s]),
    );
  const was = cautions(before);
  return [...cautions(after)].map(([key, sum]) => ({ key, words: sum.remark!.words, before: was.has(key) }));
}

function isDim(value: object): value is Dim {
  return 'value' in value && 'from' in value;
}

/** Dimensions of the block and of an assembly that are assumed. Throws RangeError where there is no such assembly. */
export function assumedCount(doc: BuildDocument, assembly: string): number {
  return assumedIn(doc.block) + assumedIn(assemblyOf(doc, assembly));
}

function assumedIn(value: unknown): number {
  if (typeof value !== 'object' || value === null) return 0;
  if (isDim(value)) return value.from === 'assumed' ? 1 : 0;
  return Object.values(value).reduce<number>((all, each) => all + assumedIn(each), 0);
}
