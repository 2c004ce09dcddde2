/**
 * Clearances of an assembly that are one figure each, not a gap over the turn: axial room of the rods, skirt out of the bore,
 * quench, overlap of the journals. Each with the trade's guide where it has one, and its state against it.
 */
import { assumedOf } from '../assembly/dims.ts';
import type { Body, Cylinder, Engine } from '../assembly/engine.ts';
import { counterweightOf, pistonOf, rodOf } from '../build/bodyOf.ts';
import type { Assembly, BuildDocument, CheekSide } from '../build/document.ts';
import { layoutOfBlock } from '../build/layouts.ts';
import { type DefaultLimit, QUENCH_GUIDE } from '../build/limits.ts';
import { exact } from '../build/ruleTable.ts';
import { bdcPinHeightMm } from '../core/kinematics/sliderCrank.ts';
import { journalOverlap } from '../core/shop/offsetGrind.ts';
import { crownAssumed, sliderAssumed } from './crownAssumed.ts';
import type { GapState } from './results.ts';
import { gapState } from './solve.ts';

export type ScalarName =
  | 'rod side clearance'
  | 'cheek face to rod'
  | 'skirt below the bore'
  | 'quench'
  | 'journal overlap'
  | 'split pin overlap';

export interface Scalar {
  readonly name: ScalarName;
  /** What it belongs to; none of them: the crankshaft. */
  readonly cylinder?: number;
  readonly throw?: number;
  readonly side?: CheekSide;
  readonly valueMm: number;
  /** Smallest accepted value; null where the trade has no figure for it. */
  readonly guideMm: number | null;
  readonly guideSource: string;
  /** What exactly is measured, and what the figure leaves out. */
  readonly note: string;
  /** Only with a guide. */
  readonly state?: GapState;
  /** Dimensions that it rests on and that are assumed. */
  readonly assumed: readonly string[];
}

/** Two rods on a pin .010 to .020 in, at most .023; single steel rods .010 to .020. */
export const SIDE_CLEARANCE_GUIDE: DefaultLimit = {
  value: '.010 in',
  source: 'trade magazine mock-up guide, 2007; trade magazine blueprinting guide, 2005',
  note: 'Journal length less the widths of the big ends on it. Steel rods .010 to .020 in, at most .023; aluminium ones need more.',
};

/** Sums of a few hundred millimetres in doubles are right to this, mm: a value on its guide must not fall below it by rounding. */
const ROUNDING_MM = 1e-9;

/** All figures of an assembly, cylinder by cylinder and throw by throw. The build must have passed its rules. */
export function scalarsOf(doc: BuildDocument, engine: Engine): Scalar[] {
  const assembly = doc.assemblies.find((a) => a.name === engine.assembly);
  if (assembly === undefined) throw new RangeError(`scalarsOf: no assembly is called "${engine.assembly}"`);
  const allowanceMm = doc.assumedAllowance === undefined ? null : exact(doc.assumedAllowance).toNumber();
  const judged = (scalar: Omit<Scalar, 'state'>): Scalar => {
    const valueMm = Math.round(scalar.valueMm / ROUNDING_MM) * ROUNDING_MM;
    if (scalar.guideMm === null) return { ...scalar, valueMm };
    return { ...scalar, valueMm, state: gapState(valueMm, scalar.guideMm, scalar.assumed.length > 0, allowanceMm) };
  };
  const throws = layoutOfBlock(doc.block).throwPhasesDeg.map((_, k) => k + 1);
  return [
    ...throws.map((number) => sideClearance(assembly, engine, number)),
    ...throws.flatMap((number) =>
      (['front', 'rear'] as const).map((side) => faceToRod(doc, assembly, engine, number, side)),
    ),
    ...engine.cylinders.map((c) => skirtBelowBore(doc, assembly, c)),
    ...engine.cylinders.map((c) => quench(doc, assembly, c)),
    overlap(assembly),
    ...throws.flatMap((number) => splitPinOverlap(doc, assembly, number)),
  ].map(judged);
}

type Unjudged = Omit<Scalar, 'state'>;

function guided(guide: DefaultLimit): Pick<Scalar, 'guideMm' | 'guideSource' | 'note'> {
  return {
    guideMm: exact({ value: guide.value, from: 'stated' }).toNumber(),
    guideSource: guide.source,
    note: guide.note,
  };
}

const NO_GUIDE = { guideMm: null, guideSource: '' } as const;

function sideClearance(assembly: Assembly, engine: Engine, number: number): Unjudged {
  const rods = engine.cylinders.filter((c) => c.throw === number).map((c) => rodOf(assembly, c.number).dims);
  let left = exact(assembly.crank.journalLength);
  for (const rod of rods) left = left.minus(exact(rod.bigEndWidth));
  return {
    name: 'rod side clearance',
    throw: number,
    valueMm: left.toNumber(),
    ...guided(SIDE_CLEARANCE_GUIDE),
    assumed: unique(
      assumedOf('crank', assembly.crank, ['journalLength']),
      ...rods.map((rod) => assumedOf('rod', rod, ['bigEndWidth'])),
    ),
  };
}

/** Inner face of a cheek to the face of the big end beside it, each where it is laid out. */
function faceToRod(doc: BuildDocument, assembly: Assembly, engine: Engine, number: number, side: CheekSide): Unjudged {
  const on = (body: Body): boolean => body.throw === number;
  const cheek = engine.bodies.find((b) => b.kind === 'counterweight' && on(b) && b.name.endsWith(` ${side}`));
  const rods = engine.bodies.filter((b) => b.kind === 'rod' && on(b));
  const ends = rods.flatMap((b) => b.layers.filter((layer) => layer.part === 'big end'));
  if (cheek === undefined || ends.length === 0)
    throw new RangeError(`scalarsOf: throw ${number} has no ${side} cheek or no rod`);
  const valueMm =
    side === 'front'
      ? Math.min(...ends.map((end) => end.z0Mm)) - cheek.z1Mm
      : cheek.z0Mm - Math.max(...ends.map((end) => end.z1Mm));
  return {
    name: 'cheek face to rod',
    throw: number,
    side,
    valueMm,
    guideMm: 0,
    guideSource: 'two parts can’t take the same place',
    note: 'With the rods in the middle of their bores, or as far off it as their beam offset says; on the pin they float by the side clearance.',
    assumed: unique(
      assumedOf('crank', assembly.crank, ['journalLength']),
      assumedOf('counterweight', counterweightOf(assembly, number, side).own ?? {}, ['axialShift']),
      ...rods.flatMap(({ cylinder }) => {
        const { dims, own } = rodOf(assembly, cylinder!);
        return [assumedOf('rod', dims, ['bigEndWidth', 'beamOffset']), assumedOf('rod', own ?? {}, ['axialShift'])];
      }),
      rods.length > 1 ? assumedOf('block', doc.block, ['bankOffset']) : [],
    ),
  };
}

/** Positive when the skirt's lower edge stands below the lower end of the bore. */
function skirtBelowBore(doc: BuildDocument, assembly: Assembly, c: Cylinder): Unjudged {
  const piston = pistonOf(assembly, c.number).dims;
  const edgeMm = bdcPinHeightMm(c.slider) - exact(piston.skirtBelowPin).toNumber();
  return {
    name: 'skirt below the bore',
    cylinder: c.number,
    valueMm: exact(doc.block.boreBottom).toNumber() - edgeMm,
    guideMm: null,
    guideSource: 'piston maker’s article on bore length, 2019',
    note: 'At true bottom dead centre. The article asks for the skirt’s gauge point to stay .250 in above the end of the bore; where that point lies is the piston maker’s to say.',
    assumed: unique(
      assumedOf('block', doc.block, ['boreBottom', 'boreOffset']),
      assumedOf('piston', piston, ['skirtBelowPin', 'pinOffset']),
      sliderAssumed(assembly, c.number),
    ),
  };
}

function quench(doc: BuildDocument, assembly: Assembly, c: Cylinder): Unjudged {
  return {
    name: 'quench',
    cylinder: c.number,
    valueMm: c.deckClearanceMm + exact(doc.block.gasketThickness).toNumber(),
    ...guided(QUENCH_GUIDE),
    assumed: unique(assumedOf('block', doc.block, ['gasketThickness']), crownAssumed(doc, assembly, c.number)),
  };
}

function overlap({ crank }: Assembly): Unjudged {
  return {
    name: 'journal overlap',
    valueMm: journalOverlap(exact(crank.mainJournal), exact(crank.rodJournal), exact(crank.stroke)).toNumber(),
    ...NO_GUIDE,
    note: 'Main and rod journal seen along the shaft, negative where they pass clear of each other. What is enough is for a crankshaft grinder to judge.',
    assumed: assumedOf('crank', crank, ['mainJournal', 'rodJournal', 'stroke']),
  };
}

/** Two pins of a throw at an angle d apart: their centres are 2 r sin(d / 2) apart. None where the pin is shared. */
function splitPinOverlap(doc: BuildDocument, { crank }: Assembly, number: number): Unjudged[] {
  const [a, b] = layoutOfBlock(doc.block).cylinders.filter((c) => c.throw === number);
  if (a === undefined || b === undefined || a.pinSplitDeg === b.pinSplitDeg) return [];
  const halfRad = (Math.abs(a.pinSplitDeg - b.pinSplitDeg) * Math.PI) / 360;
  return [
    {
      name: 'split pin overlap',
      throw: number,
      valueMm: exact(crank.rodJournal).toNumber() - exact(crank.stroke).toNumber() * Math.sin(halfRad),
      ...NO_GUIDE,
      note: 'The two pins of the throw seen along the shaft. A web between them, where there is one, takes its width from the journal length.',
      assumed: assumedOf('crank', crank, ['rodJournal', 'stroke']),
    },
  ];
}

function unique(...names: readonly (readonly string[])[]): string[] {
  return [...new Set(names.flat())];
}
