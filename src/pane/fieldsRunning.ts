/** What the running engine is asked for, beside the gap that it changes. Each allowance is on where its figures stand; emptied, it is off. */
import type { LiteralKind } from '../build/literal.ts';
import type { Field, FieldSet } from './fields.ts';

type Row = readonly [key: string, label: string, kind: LiteralKind, hint: string];

const CLEARANCES: readonly Row[] = [
  ['mainClearance', 'Main bearing', 'length', 'Clearance of a main bearing, on the diameter.'],
  ['rodClearance', 'Rod bearing', 'length', 'Clearance of a rod bearing, on the diameter.'],
  ['pinClearance', 'Wrist pin', 'length', 'Of the pin in piston and small end together, on the diameter.'],
  [
    'skirtClearance',
    'Skirt in bore',
    'length',
    'Clearance of the skirt in its bore, on the diameter: the piston rocks.',
  ],
  ['guideLength', 'Guide length', 'length', 'Along the bore, over which the skirt guides the piston.'],
];

const STRETCH: readonly Row[] = [
  ['speed', 'Speed', 'speed', 'At which the rod stretches; left empty, the speed of the build.'],
  ['rodSection', 'Section of the rod', 'area', 'Of its beam, square to its length.'],
  ['rodModulus', 'Modulus of the rod', 'stress', 'Modulus of elasticity; commonly steel 205 GPa, aluminium 72 GPa.'],
];

const WEIGHTS: readonly Row[] = [
  ['piston', 'Piston', 'mass', 'One piston, as the scale shows it.'],
  ['pin', 'Piston pin', 'mass', 'One pin.'],
  ['rings', 'Rings', 'mass', 'All rings of one piston.'],
  ['locks', 'Pin locks', 'mass', 'Both locks of one pin; zero with a pressed pin.'],
  ['rodSmallEnd', 'Rod, small end', 'mass', 'Two-scale weighing, both bores level.'],
];

const PARTS = [
  ['crank', 'Crank'],
  ['rod', 'Rod'],
  ['piston', 'Piston'],
  ['block', 'Block'],
] as const;

const HEAT: readonly Row[] = PARTS.flatMap(([key, label]): Row[] => [
  [
    `${key}Growth`,
    `${label} growth`,
    'expansion',
    'Of its material; commonly steel 11.5, cast iron 11, piston alloys 19 to 21 ppm/K.',
  ],
  [`${key}Warmer`, `${label} warmer by`, 'temperature', 'How much warmer it runs than it was measured.'],
]);

function fieldsOf(folder: string, within: string, rows: readonly Row[]): Field[] {
  return rows.map(([key, label, kind, hint]) => ({
    id: `${within}.${key}`,
    folder,
    label,
    kind,
    hint,
    path: (assembly) => ['assemblies', assembly, within, key],
    optional: true,
    addable: true,
  }));
}

export const RUNNING_FIELDS: FieldSet = {
  label: 'The running engine',
  folders: ['Clearances taken up', 'Rod stretch', 'Weights that pull', 'Heat'],
  openAtFirst: new Set(['Clearances taken up']),
  fields: [
    ...fieldsOf('Clearances taken up', 'running', CLEARANCES),
    ...fieldsOf('Rod stretch', 'running', STRETCH),
    ...fieldsOf('Weights that pull', 'weights', WEIGHTS),
    ...fieldsOf('Heat', 'running', HEAT),
  ],
};
