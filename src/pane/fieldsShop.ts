/** What the shop's sums are asked for: weights, volumes, the core crank, bearings, balance. Every one of them may be left out. */
import type { LiteralKind } from '../build/literal.ts';
import type { Field, FieldSet } from './fields.ts';

type Row = readonly [key: string, label: string, kind: LiteralKind, hint: string];

const WEIGHTS: readonly Row[] = [
  ['piston', 'Piston', 'mass', 'One piston, as the scale shows it.'],
  ['pin', 'Piston pin', 'mass', 'One pin.'],
  ['rings', 'Rings', 'mass', 'All rings of one piston.'],
  ['locks', 'Pin locks', 'mass', 'Both locks of one pin; zero with a pressed pin.'],
  ['rodBigEnd', 'Rod, big end', 'mass', 'Two-scale weighing, rod with its bolts, both bores level.'],
  ['rodSmallEnd', 'Rod, small end', 'mass', 'Two-scale weighing, both bores level.'],
  ['rodTotal', 'Rod, whole', 'mass', 'The rod weighed by itself; the two ends must add up to it.'],
  ['bearing', 'Rod bearing', 'mass', 'Both shells of one rod.'],
  ['oil', 'Oil', 'mass', 'Held in the oil ways of one crankpin and its rods.'],
  ['crankshaft', 'Crankshaft', 'mass', 'The finished crankshaft.'],
];

const CORE_CRANK: readonly Row[] = [
  ['stroke', 'Stroke of the core', 'length', 'Before grinding.'],
  ['rodJournal', 'Rod journal of the core', 'length', 'Smallest worn diameter of all throws.'],
  ['leastStock', 'Least stock', 'length', 'To come off all round for a clean surface, on the radius.'],
  ['caseDepth', 'Case depth', 'length', 'Depth of the hardened case; leave empty when it is not known.'],
  ['counterweightRadius', 'Counterweights of the core', 'length', 'Radius before they are turned down.'],
  ['weight', 'Core, weight', 'mass', 'The core crank before anything is done to it.'],
];

const BEARINGS: readonly Row[] = [
  ['rodHousing', 'Rod housing bore', 'length', 'Big-end bore without shells, cap torqued.'],
  ['rodShell', 'Rod shell', 'length', 'Thickness of a shell at its middle.'],
  ['mainHousing', 'Main housing bore', 'length', 'Main bore without shells, cap torqued.'],
  ['mainShell', 'Main shell', 'length', 'Thickness of a shell at its middle.'],
  ['rodFilm', 'Film length, rod', 'length', 'Loaded length of a rod bearing along the shaft.'],
  ['mainFilm', 'Film length, main', 'length', 'Loaded length of a main bearing along the shaft.'],
  ['oilThin', 'Oil, hot and thin', 'viscosity', 'Dynamic viscosity at the bearing, the lower of the range.'],
  ['oilThick', 'Oil, cool and thick', 'viscosity', 'Dynamic viscosity at the bearing, the upper of the range.'],
  ['thrustFaces', 'Thrust faces', 'length', 'Width between the thrust faces of the crankshaft.'],
  ['thrustBearing', 'Thrust bearing', 'length', 'Width over the flanges of the thrust bearing.'],
  ['rodFillet', 'Rod journal fillet', 'length', 'Fillet radius between rod journal and cheek.'],
  ['oilHole', 'Oil hole', 'angle', 'Of a rod journal before grinding, from outward in the direction of rotation.'],
];

const BALANCE: readonly Row[] = [
  ['coreBobweight', 'Bobweight of the core', 'mass', 'To which the core was balanced, one crankpin.'],
  ['frontPlane', 'Front plane', 'length', 'Along the shaft from the bore of cylinder 1, positive toward the flywheel.'],
  ['rearPlane', 'Rear plane', 'length', 'Along the shaft from the bore of cylinder 1, positive toward the flywheel.'],
  ['radius', 'Correction radius', 'length', 'At which weight is added or taken; left empty, the counterweight radius.'],
  ['drill', 'Drill', 'length', 'Diameter of the correction hole or plug.'],
];

const WANTED: readonly Row[] = [
  ['deckClearance', 'Wanted deck clearance', 'length', 'For which each part of the deck stack is solved.'],
  ['sideClearance', 'Wanted side clearance', 'length', 'For which the counterweight faces would be widened.'],
];

const HEAD: readonly Row[] = [
  ['chamberVolume', 'Chamber volume', 'volume', 'Of one chamber, valves and plug in place.'],
  ['gasketBore', 'Gasket bore', 'length', 'Hole of the head gasket; left empty, the bore.'],
];

const CROWN: readonly Row[] = [
  ['dishVolume', 'Dish and valve pockets', 'volume', 'Of one crown; a dome is negative.'],
  ['topLandHeight', 'Top land height', 'length', 'Crown to the top ring: the crevice.'],
  ['topLandDiameter', 'Top land diameter', 'length', 'Of the piston above its top ring.'],
  ['oilGrooveBottom', 'Crown to oil groove', 'length', 'To the lower edge of the oil-ring groove.'],
  ['pinLength', 'Pin length', 'length', 'Of the piston pin.'],
  ['lockSpan', 'Between the locks', 'length', 'Where the pin and its end play go.'],
];

const LINE_BORED: readonly Row[] = [
  [
    'rise',
    'Line bored by',
    'length',
    'How far line boring moved the crank axis toward the deck since the heights were measured.',
  ],
];

function fieldsOf(folder: string, within: string, rows: readonly Row[], inBlock = false): Field[] {
  return rows.map(([key, label, kind, hint]) => ({
    id: `${within}.${key}`,
    folder,
    label,
    kind,
    hint,
    path: (assembly) => (inBlock ? ['block', within, key] : ['assemblies', assembly, within, key]),
    optional: true,
    addable: true,
  }));
}

export const SHOP_FIELDS: FieldSet = {
  label: 'Figures for the sums',
  folders: ['Weights', 'Head and crown', 'Core crank', 'Bearings', 'Balance', 'Wanted'],
  openAtFirst: new Set(['Weights', 'Wanted']),
  fields: [
    ...fieldsOf('Weights', 'weights', WEIGHTS),
    ...fieldsOf('Head and crown', 'head', HEAD, true),
    ...fieldsOf('Head and crown', 'pistonTop', CROWN),
    ...fieldsOf('Bearings', 'lineBored', LINE_BORED, true),
    ...fieldsOf('Core crank', 'core', CORE_CRANK),
    ...fieldsOf('Bearings', 'bearings', BEARINGS),
    ...fieldsOf('Balance', 'balance', BALANCE),
    ...fieldsOf('Wanted', 'wanted', WANTED),
  ],
};
