/**
 * What the trade takes as usual beside a figure: a range with its source, never a law. A shop may put its own range in its
 * place (`guides` of the build document).
 */
import type { BuildDocument } from '../../build/document.ts';
import { Exact, exactBase, kindOf } from '../../build/literal.ts';
import type { Amount, Decimal } from './sum.ts';

export interface Guide {
  readonly name: GuideName;
  readonly low: Decimal | null;
  readonly high: Decimal | null;
  readonly source: string;
  readonly state: 'within' | 'below' | 'above';
}

export type GuideName = keyof typeof USUAL;

interface Usual {
  /** In the base unit of what it guides; `null` is open. `per`: multiplied by a length in inches, a journal's diameter. */
  readonly low: string | null;
  readonly high: string | null;
  readonly perInch?: true;
  readonly source: string;
}

const IN = (inches: string): string => new Exact(inches).times('25.4').toFixed();

/** Lengths in mm, speeds in m/s. */
export const USUAL = {
  'rod ratio': {
    low: '1.515',
    high: '1.786',
    source:
      'r/l from 0.28 to 0.33 for common car engines: van Basshuysen & Schäfer, Internal Combustion Engine Basics, 2010',
  },
  'mean piston speed': {
    low: null,
    high: '25',
    source: 'about 16 ordinary petrol engines, 20 to 25 sport, 25 racing: encyclopedia page “Mean piston speed”',
  },
  'rod oil clearance': {
    low: IN('0.001'),
    high: IN('0.0015'),
    perInch: true,
    source:
      '.001 in for each inch of journal, and half a thousandth more: trade magazine bearing guides, 2008 and 2021',
  },
  'main oil clearance': {
    low: IN('0.001'),
    high: IN('0.0015'),
    perInch: true,
    source:
      '.001 in for each inch of journal, and half a thousandth more: trade magazine bearing guides, 2008 and 2021',
  },
  'rod side clearance': {
    low: IN('0.010'),
    high: IN('0.023'),
    source: '.010 to .020 in, at most .023: trade magazine mock-up guide, 2007; steel rods',
  },
  'piston to head': {
    low: IN('0.035'),
    high: IN('0.050'),
    source: 'target .043 in, below .050 in helps combustion: trade magazines, 2006; steel rods',
  },
  'skirt in the bore': {
    low: IN('0.250'),
    high: null,
    source: 'gauge point of the skirt at least .250 in inside the bore: a piston maker’s article on bore length, 2019',
  },
  'crank end float': {
    low: IN('0.004'),
    high: IN('0.012'),
    source: '.004 to .008 in, at most .012: trade magazines, 2007 and 2020',
  },
} as const satisfies Readonly<Record<string, Usual>>;

/** The range for an amount and where the amount lies in it. `perMm`: the diameter, where the guide goes by it. */
export function guideFor(doc: BuildDocument, name: GuideName, found: Amount, perMm?: Decimal): Guide {
  const own = doc.guides?.find((g) => g.guide === name);
  const usual: Usual = USUAL[name];
  const times = usual.perInch && perMm !== undefined ? perMm.div('25.4') : new Exact(1);
  const usually = (text: string | null): Decimal | null => (text === null ? null : new Exact(text).times(times));
  const low = own === undefined ? usually(usual.low) : own.low === undefined ? null : baseOf(own.low);
  const high = own === undefined ? usually(usual.high) : own.high === undefined ? null : baseOf(own.high);
  const state =
    low !== null && found.value.lt(low) ? 'below' : high !== null && found.value.gt(high) ? 'above' : 'within';
  return { name, low, high, source: own?.source ?? usual.source, state };
}

/** A bound as the shop wrote it: a literal, or a plain number. */
function baseOf(text: string): Decimal {
  const kind = kindOf(text);
  return kind === null ? new Exact(text) : exactBase(text, kind);
}
