/** What is compared: the assemblies of a build, or one of them with a dimension of every cylinder smaller and larger. */
import { layCylinders } from '../../assembly/cylinders.ts';
import type { Cylinder, Engine } from '../../assembly/engine.ts';
import { layOut } from '../../assembly/layOut.ts';
import { pistonOf, rodOf } from '../../build/bodyOf.ts';
import type { Assembly, BuildDocument, Own } from '../../build/document.ts';
import { Exact, exactBase, lengthMm, withLengthMm } from '../../build/literal.ts';
import { checkBuild } from '../../build/rules.ts';
import { aloneWith, roomAbovePin } from '../edit.ts';
import { settled } from '../tolerances/settled.ts';

export type Variation = 'rod length' | 'stroke' | 'pin offset';
export type Comparison = 'assemblies' | Variation;

export interface Compared {
  /** "Rod 5.400 in", of the cylinder in view, or the name of the assembly. */
  readonly name: string;
  /** Number of its colour and dashes. */
  readonly look: number;
  readonly doc: BuildDocument;
  /** In that document. */
  readonly assembly: string;
  readonly cylinders: readonly Cylinder[];
}

export interface Comparisons {
  readonly list: readonly Compared[];
  /** What could not be laid out, and why: a sentence each. */
  readonly left: readonly string[];
}

type Amount = InstanceType<typeof Exact>;

/**
 * `by` is a length literal: how much shorter and longer than it is, each cylinder by itself where they differ; of the pin offset, how far to either side of
 * none, all pistons alike. The deck clearance of each cylinder is held by its compression height, so that its piston still stops where it
 * did at the top. Throws what `lengthMm` throws where `by` is no length.
 */
export function comparisonsOf(
  doc: BuildDocument,
  assembly: string,
  cylinder: number,
  what: Comparison,
  by: string,
): Comparisons {
  const list: Compared[] = [];
  const left: string[] = [];
  const take = (name: string, look: number, of: BuildDocument, called: string): void => {
    const alone = aloneWith(of, called);
    const found = checkBuild(alone)[0];
    if (found === undefined) {
      list.push({ name, look, doc: of, assembly: called, cylinders: layCylinders(of, assemblyOf(alone, called)) });
    } else left.push(`${name}: ${found.allowed}`);
  };
  if (what === 'assemblies') {
    for (const [look, { name }] of doc.assemblies.entries()) take(name, look, doc, name);
    return { list, left };
  }
  if (lengthMm(by) === 0) throw new RangeError('nothing would differ.');
  const amount = exactBase(by, 'length').abs();
  for (const [look, change] of [amount.neg(), new Exact(0), amount].entries()) {
    const { next, atMm } = varied(doc, assembly, cylinder, what, change);
    const name = `${HEAD[what]} ${written(atMm, by)}`;
    if (next === null) left.push(`${name}: nothing would be left of it.`);
    else take(name, look, next, assembly);
  }
  return { list, left };
}

const HEAD: Readonly<Record<Variation, string>> = { 'rod length': 'Rod', stroke: 'Stroke', 'pin offset': 'Offset' };

function assemblyOf(doc: BuildDocument, name: string): Assembly {
  const found = doc.assemblies.find((a) => a.name === name);
  if (found === undefined) throw new RangeError(`comparisonsOf: no assembly is called "${name}"`);
  return found;
}

/** The engine of one that is compared, with its bodies and pairs; worked out when it is first asked for. */
export function engineOf(compared: Compared): Engine {
  const known = engines.get(compared) ?? layOut(compared.doc, compared.assembly);
  engines.set(compared, known);
  return known;
}

const engines = new WeakMap<Compared, Engine>();

/**
 * The build with one dimension changed in every cylinder, parts with dimensions of their own included; null where nothing would be left of
 * it. `atMm` is what comes out at the cylinder asked for.
 */
function varied(
  doc: BuildDocument,
  name: string,
  cylinder: number,
  what: Variation,
  change: Amount,
): { next: BuildDocument | null; atMm: Amount } {
  const alone = settled(doc, name);
  const before = assemblyOf(alone, name);
  const stroke = exactBase(before.crank.stroke.value, 'length');
  const rodAt = (number: number): Amount => exactBase(rodOf(before, number).dims.length.value, 'length');
  const atMm = what === 'stroke' ? stroke.plus(change) : what === 'rod length' ? rodAt(cylinder).plus(change) : change;
  const written = (literal: string, mm: Amount): string => withLengthMm(literal, mm);
  const { crank } = before;
  const moved: Assembly = {
    ...before,
    crank:
      what === 'stroke' ? { ...crank, stroke: { ...crank.stroke, value: written(crank.stroke.value, atMm) } } : crank,
    own: (before.own ?? []).map((entry): Own => {
      if (entry.body === 'rod' && what === 'rod length') {
        const { length } = rodOf(before, entry.cylinder).dims;
        const value = written(length.value, rodAt(entry.cylinder).plus(change));
        return { ...entry, set: { ...entry.set, length: { ...length, value } } };
      }
      if (entry.body === 'piston' && what === 'pin offset') {
        const { pinOffset } = pistonOf(before, entry.cylinder).dims;
        return {
          ...entry,
          set: { ...entry.set, pinOffset: { ...pinOffset, value: written(pinOffset.value, change) } },
        };
      }
      return entry;
    }),
  };
  const shortest = Exact.min(...(before.own ?? []).flatMap((e) => (e.body === 'rod' ? [rodAt(e.cylinder)] : [])));
  const least = what === 'stroke' ? atMm : what === 'rod length' ? shortest.plus(change) : new Exact(1);
  if (least.lte(0)) return { next: null, atMm };
  const held: Assembly = {
    ...moved,
    own: (moved.own ?? []).map((entry): Own => {
      if (entry.body !== 'piston') return entry;
      const { compressionHeight: height } = pistonOf(before, entry.cylinder).dims;
      const room = (of: Assembly): Amount =>
        roomAbovePin(alone, {
          ...of,
          rod: rodOf(of, entry.cylinder).dims,
          piston: pistonOf(of, entry.cylinder).dims,
        });
      const mm = exactBase(height.value, 'length').plus(room(moved)).minus(room(before));
      return { ...entry, set: { ...entry.set, compressionHeight: { ...height, value: written(height.value, mm) } } };
    }),
  };
  return { next: { ...alone, assemblies: [held] }, atMm };
}

/** A length in the unit of `by`: "138.00 mm", "5.400 in", "−.060 in", with a decimal more where it needs it. */
function written(mm: Amount, by: string): string {
  const inches = /in|"|thou/.test(by);
  const value = inches ? mm.div('25.4') : mm;
  const places = inches ? 3 : 2;
  const short = value.toFixed(places);
  const text = value.eq(short) ? short : value.toFixed(places + 1);
  const bare = inches ? text.replace(/^(-?)0\./, '$1.') : text;
  return `${bare.replace(/^-/, '−')} ${inches ? 'in' : 'mm'}`;
}
