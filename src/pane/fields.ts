/**
 * Which dimensions the pane offers, in which folder, under which name. Every other dimension of a build file is edited in
 * the file itself. `tests/pane/fields.test.ts` checks each path against a document.
 */
import type { GapKind } from '../build/document.ts';
import type { LiteralKind } from '../build/literal.ts';
import type { DimPath } from '../model/state.ts';

export const FOLDERS = ['Crank', 'Rod and piston', 'Camshaft', 'Valves', 'Block', 'Limits'] as const;
export type FolderName = (typeof FOLDERS)[number];

/** Folders of a pane and the fields in them. */
export interface FieldSet {
  /** What a screen reader calls the pane. */
  readonly label: string;
  readonly folders: readonly string[];
  readonly openAtFirst: ReadonlySet<string>;
  readonly fields: readonly Field[];
}

/** One dimension offered for editing. */
export interface Field {
  /** Stable name, unique in the pane. */
  readonly id: string;
  readonly folder: string;
  readonly label: string;
  readonly kind: LiteralKind;
  /** What exactly is measured, in a sentence. */
  readonly hint: string;
  /** Where it stands in the document, given the index of the assembly on show. */
  readonly path: (assembly: number) => DimPath;
  /** May be left out of a document: limits with a default, the camshaft and its axis, the allowance. */
  readonly optional?: true;
  /** May be added where it is missing, as soon as the part it belongs to is there. */
  readonly addable?: true;
  /** The gap whose limit this is. */
  readonly limit?: GapKind;
}

type Row = readonly [key: string, label: string, kind: LiteralKind, hint: string];

const COUNTERWEIGHT: readonly Row[] = [
  ['radius', 'Counterweight radius', 'length', 'Crank axis to the rim of the counterweight.'],
  [
    'halfAngle',
    'Counterweight half angle',
    'angle',
    'From the middle of the counterweight to its flank, about the crank axis.',
  ],
  ['hubRadius', 'Hub radius', 'length', 'Round part of the cheek about the crank axis.'],
  ['cornerRadius', 'Corner radius', 'length', 'Rounding between the rim and the flank of the counterweight.'],
];

const ROD: readonly Row[] = [
  ['length', 'Rod length', 'length', 'Centre to centre, big end to small end.'],
  ['bigEndRadius', 'Big-end radius', 'length', 'Outside of the big end from the centre of its bore.'],
  ['boltSpread', 'Bolt spread, half', 'length', 'From the middle of the big end to the axis of a rod bolt.'],
  [
    'shoulderHeight',
    'Bolt shoulder height',
    'length',
    'Big-end centre to the top of the bolt shoulder, toward the piston.',
  ],
];

const PISTON: readonly Row[] = [
  ['compressionHeight', 'Compression height', 'length', 'Pin centre to the flat of the crown.'],
  ['pinOffset', 'Pin offset', 'length', 'Positive toward the side the crankpin moves to just after top dead centre.'],
  ['skirtBelowPin', 'Skirt below pin', 'length', 'Pin centre to the lower edge of the skirt.'],
  ['pinDiameter', 'Pin diameter', 'length', 'Outside of the piston pin.'],
  ['bossRadius', 'Pin boss radius', 'length', 'Outside of the pin boss from the pin centre.'],
];

const CAMSHAFT: readonly Row[] = [
  ['baseCircle', 'Base circle', 'length', 'Diameter of the lobe where it lifts nothing.'],
  ['intakeLift', 'Intake lobe lift', 'length', 'Greatest lift of the follower by the intake lobe, without the rocker.'],
  [
    'exhaustLift',
    'Exhaust lobe lift',
    'length',
    'Greatest lift of the follower by the exhaust lobe, without the rocker.',
  ],
  [
    'intakeDuration',
    'Intake duration',
    'angle',
    'Crank degrees between the points at the lift where duration is counted.',
  ],
  [
    'exhaustDuration',
    'Exhaust duration',
    'angle',
    'Crank degrees between the points at the lift where duration is counted.',
  ],
  ['durationAtLift', 'Duration counted at', 'length', 'Lobe lift between whose two points the duration is counted.'],
  ['lobeSeparation', 'Lobe separation', 'angle', 'Cam degrees between the noses of the two lobes of a cylinder.'],
  [
    'intakeCentreline',
    'Intake centreline',
    'angle',
    'Crank degrees from top dead centre, gas exchange, to the greatest intake lift.',
  ],
  ['coreDiameter', 'Core diameter', 'length', 'Shaft between the lobes.'],
];

const CAMSHAFT_ADDABLE: readonly Row[] = [
  [
    'advance',
    'Cam advance',
    'angle',
    'Crank degrees by which the camshaft is set ahead of its centreline; negative when retarded.',
  ],
  [
    'intakeOpening',
    'Intake opening flank',
    'angle',
    'Unlike flanks: crank degrees from the point where duration begins to the nose; the rest is the closing flank.',
  ],
  [
    'exhaustOpening',
    'Exhaust opening flank',
    'angle',
    'Unlike flanks: crank degrees from the point where duration begins to the nose; the rest is the closing flank.',
  ],
];

const CAM_AXIS: readonly Row[] = [
  [
    'across',
    'Cam axis across',
    'length',
    'From the crank axis, positive to the side toward which the top of the crank moves.',
  ],
  ['height', 'Cam axis height', 'length', 'Above the crank axis, before line boring.'],
];

const VALVE: readonly Row[] = [
  ['headDiameter', 'head diameter', 'length', 'Outside of the valve head.'],
  ['margin', 'margin', 'length', 'Thickness of the head’s rim below its seat.'],
  [
    'angle',
    'stem angle',
    'angle',
    'From the bore axis, seen along the crank; positive where the stem leans, going up, as the valve’s place across counts.',
  ],
  [
    'across',
    'place across',
    'length',
    'Valve axis from the bore axis at the face of the head, positive toward the other bank; with one bank toward the side the crankpin moves to after top dead centre.',
  ],
  ['axial', 'place axial', 'length', 'Valve axis from the bore axis at the face of the head, along the shaft.'],
  ['recession', 'recession', 'length', 'Middle of the shut valve’s face above the face of the head, along the bore.'],
  ['lash', 'lash', 'length', 'Clearance at the valve; 0 with hydraulic followers.'],
  ['pocket.depth', 'pocket depth', 'length', 'Crown to the deepest place of the pocket’s floor, along the bore.'],
  ['pocket.diameter', 'pocket diameter', 'length', 'Of the cutter that makes it.'],
  ['pocket.across', 'pocket across', 'length', 'Pocket axis from the bore axis at the crown, counted as the valve’s.'],
  ['pocket.axial', 'pocket axial', 'length', 'Pocket axis from the bore axis at the crown, along the shaft.'],
];

const BLOCK: readonly Row[] = [
  ['deckHeight', 'Deck height', 'length', 'Crank axis to deck, along the bore.'],
  ['bore', 'Bore', 'length', 'Diameter of the finished bore.'],
  [
    'boreOffset',
    'Bore offset',
    'length',
    'Bore axis from the crank axis, positive toward the side the crankpin moves to just after top dead centre.',
  ],
  ['boreBottom', 'Bore bottom', 'length', 'Lower end of the bore above the crank axis, along the bore.'],
];

const LIMITS: readonly (readonly [kind: GapKind, label: string])[] = [
  ['counterweight-piston', 'Counterweight to piston'],
  ['counterweight-block', 'Counterweight to block'],
  ['counterweight-camshaft', 'Counterweight to camshaft'],
  ['rod-camshaft', 'Rod to camshaft'],
  ['rod-block', 'Rod to block'],
  ['rod-piston', 'Rod to its piston'],
  ['rod-opposite-piston', 'Rod to opposite piston'],
  ['piston-piston', 'Piston to piston'],
  ['piston-intake-valve', 'Piston to intake valve'],
  ['piston-exhaust-valve', 'Piston to exhaust valve'],
  ['deck', 'Deck clearance'],
];

/** All fields, in the order shown. */
export const FIELDS: readonly Field[] = [
  {
    id: 'crank.stroke',
    folder: 'Crank',
    label: 'Stroke',
    kind: 'length',
    hint: 'Twice the distance from the crank axis to the crankpin axis.',
    path: (assembly) => ['assemblies', assembly, 'crank', 'stroke'],
  },
  ...ofAssembly('Crank', ['crank', 'counterweight'], COUNTERWEIGHT),
  {
    id: 'speed',
    folder: 'Crank',
    label: 'Engine speed',
    kind: 'speed',
    hint: 'At which piston speeds and accelerations are shown.',
    path: () => ['speed'],
  },
  ...ofAssembly('Rod and piston', ['rod'], ROD),
  ...ofAssembly('Rod and piston', ['piston'], PISTON),
  ...ofAssembly('Camshaft', ['camshaft'], CAMSHAFT).map((field) => ({ ...field, optional: true as const })),
  ...ofAssembly('Camshaft', ['camshaft'], CAMSHAFT_ADDABLE).map((field) => ({
    ...field,
    optional: true as const,
    addable: true as const,
  })),
  ...ofBlock('Camshaft', ['block', 'camAxis'], CAM_AXIS).map((field) => ({ ...field, optional: true as const })),
  ...(['intake', 'exhaust'] as const).flatMap(ofValve),
  ...ofBlock('Block', ['block'], BLOCK),
  ...LIMITS.map(ofLimit),
  {
    id: 'assumedAllowance',
    folder: 'Limits',
    label: 'Allowance for assumed',
    kind: 'length',
    hint: 'Taken off every gap that rests on assumed outlines before it is held against its limit.',
    path: () => ['assumedAllowance'],
    optional: true,
  },
];

/** The dimensions of the parts: what the section is drawn from. */
export const PART_FIELDS: FieldSet = {
  label: 'Dimensions',
  folders: FOLDERS,
  openAtFirst: new Set(['Crank', 'Rod and piston']),
  fields: FIELDS,
};

function ofAssembly(folder: FolderName, within: readonly string[], rows: readonly Row[]): readonly Field[] {
  return rows.map(([key, label, kind, hint]) => ({
    id: [...within, key].join('.'),
    folder,
    label,
    kind,
    hint,
    path: (assembly) => ['assemblies', assembly, ...within, key],
  }));
}

function ofValve(valve: 'intake' | 'exhaust'): readonly Field[] {
  const name = valve === 'intake' ? 'Intake' : 'Exhaust';
  return VALVE.map(([key, label, kind, hint]) => ({
    id: `valvetrain.${valve}.${key}`,
    folder: 'Valves',
    label: `${name} ${label}`,
    kind,
    hint,
    path: (assembly) => ['assemblies', assembly, 'valvetrain', valve, ...key.split('.')],
    optional: true,
  }));
}

function ofBlock(folder: FolderName, within: readonly string[], rows: readonly Row[]): readonly Field[] {
  return rows.map(([key, label, kind, hint]) => ({
    id: [...within, key].join('.'),
    folder,
    label,
    kind,
    hint,
    path: () => [...within, key],
  }));
}

function ofLimit([kind, label]: (typeof LIMITS)[number]): Field {
  return {
    id: `limits.${kind}`,
    folder: 'Limits',
    label,
    kind: 'length',
    hint: 'Smallest acceptable gap of the parts at rest.',
    path: () => ['limits', kind],
    optional: true,
    limit: kind,
  };
}
