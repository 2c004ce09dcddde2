/**
 * What a build file may contain, field by field. The types stand in document.ts; `SchemaMatchesTypes` at the end does not compile when
 * the two differ. Objects are strict: a name that is not listed is refused. What several fields say together is judged
 * in rules.ts.
 */
import { z } from 'zod';
import {
  lengthFromZero,
  positiveAngle,
  positiveLength,
  positiveSpeed,
  provenance,
  quarterAngle,
  signedAngle,
  signedLength,
} from './dimSchema.ts';
import type { BuildDocument, LayoutName } from './document.ts';
import { LAYOUT_NAMES } from './layouts.ts';

/** Greatest counts and lengths of text: far above any real build, low enough that no file can stall the page. */
export const MOST = {
  name: 80,
  note: 4000,
  assemblies: 24,
  own: 200,
  outlinePoints: 400,
  fixed: 40,
  weighted: 64,
  cylinders: 16,
} as const;

function strict<S extends z.core.$ZodLooseShape>(shape: S) {
  const names = Object.keys(shape).join(', ');
  return z.strictObject(shape, {
    error: (issue) => (issue.code === 'unrecognized_keys' ? `Names allowed here: ${names}.` : undefined),
  });
}

function text(most: number) {
  return z
    .string()
    .max(most, { error: `Allowed: at most ${most} characters.` })
    .refine((s) => !/\p{Cc}/u.test(s.replaceAll('\n', '')), { error: 'Allowed: text without control characters.' });
}

const name = text(MOST.name).refine((s) => s.trim() === s && s !== '', {
  error: 'Allowed: a name, without blanks before or after it.',
});
const oneOf = <const T extends readonly string[]>(values: T) =>
  z.enum(values, { error: () => `Allowed: ${values.join(', ')}.` });
const index = z.int({ error: 'Allowed: a whole number from 1.' }).min(1, { error: 'Allowed: a whole number from 1.' });
const side = oneOf(['front', 'rear']);

function list<T extends z.ZodType>(item: T, least: number, most: number) {
  const error = `Allowed: ${least} to ${most} entries.`;
  return z.array(item).min(least, { error }).max(most, { error });
}

const outline = list(
  strict({
    x: signedLength,
    y: signedLength,
    bulge: z
      .number({ error: 'Allowed: a number from -1 to 1.' })
      .min(-1, { error: 'Allowed: -1 (a half circle) to 1; divide a longer arc.' })
      .max(1, { error: 'Allowed: -1 to 1 (a half circle); divide a longer arc.' })
      .exactOptional()
      .describe(
        'Tangent of a quarter of the arc’s included angle, positive when it turns counterclockwise; left out on a straight edge.',
      ),
  }),
  2,
  MOST.outlinePoints,
).describe('Points of a closed outline, counterclockwise; it closes by itself.');

const freeLayout = strict({
  banks: list(strict({ angle: signedAngle }), 1, 2).describe('Angle of each bank’s bores from up.'),
  throws: list(strict({ phase: signedAngle }), 1, MOST.cylinders).describe(
    'Front to rear: the direction of each throw, all counted from the same line of the crank.',
  ),
  cylinders: list(
    strict({
      cylinder: index,
      bank: index,
      throw: index,
      pinSplit: signedAngle
        .exactOptional()
        .describe('How far this cylinder’s own pin stands ahead of its throw; left out on a shared pin.'),
    }),
    1,
    MOST.cylinders,
  ),
});

const block = strict({
  layout: oneOf([...LAYOUT_NAMES, 'free'] as readonly LayoutName[]).describe('Cylinders, banks and throws.'),
  freeLayout: freeLayout.exactOptional().describe('Banks, throws and cylinders of the layout “free”, and only of it.'),
  rotation: oneOf(['clockwise', 'counterclockwise']).describe('Seen from the front.'),
  firingOrder: list(index, 1, MOST.cylinders).describe('Cylinder numbers in the order they fire, starting with 1.'),
  bore: positiveLength,
  deckHeight: positiveLength.describe('Crank axis to deck, along the bore.'),
  boreSpacing: positiveLength,
  bankOffset: signedLength.describe('Axial distance by which bank 2 stands behind bank 1; 0 for one bank.'),
  boreOffset: signedLength.describe(
    'Bore axis from the crank axis, positive toward the side the crankpin moves to after TDC.',
  ),
  boreBottom: positiveLength.describe('Height of the lower end of the bore above the crank axis, along the bore.'),
  boreWall: positiveLength,
  boreNotch: strict({
    depth: positiveLength,
    width: positiveLength,
    side: oneOf(['after-tdc', 'before-tdc', 'both']),
  })
    .exactOptional()
    .describe('Relief for the rod at the bottom of each bore.'),
  camAxis: strict({ across: signedLength, height: signedLength })
    .exactOptional()
    .describe('Camshaft axis from the crank axis; left out when the block holds no camshaft.'),
  panRail: strict({ height: signedLength, halfWidth: positiveLength, wall: positiveLength }).describe(
    'Rail face above the crank axis (negative below), half the clear width, wall thickness.',
  ),
  bulkhead: strict({ thickness: positiveLength, mainBore: positiveLength }).describe('Main bearing webs.'),
  gasketThickness: positiveLength.describe('Compressed.'),
  fixed: list(strict({ name, front: signedLength, rear: signedLength, outline, from: provenance }), 0, MOST.fixed)
    .exactOptional()
    .describe('Further fixed outlines: oil pump, windage tray, main cap, stud.'),
});

const counterweightShape = {
  radius: positiveLength,
  halfAngle: quarterAngle,
  hubRadius: positiveLength,
  cornerRadius: lengthFromZero,
};

const crank = strict({
  stroke: positiveLength,
  rodJournal: positiveLength,
  mainJournal: positiveLength,
  journalLength: positiveLength,
  cheekThickness: positiveLength,
  pinEndRadius: positiveLength,
  counterweight: strict(counterweightShape),
  weighted: list(strict({ throw: index, side }), 0, MOST.weighted)
    .exactOptional()
    .describe('Cheeks that carry a counterweight; left out = all.'),
});

const rodShape = {
  length: positiveLength,
  bigEndRadius: positiveLength,
  bigEndWidth: positiveLength,
  boltSpread: positiveLength.describe('Half the distance between the bolt axes.'),
  boltBossRadius: positiveLength,
  shoulderHeight: positiveLength,
  boltLength: positiveLength,
  beamWidth: positiveLength,
  beamThickness: positiveLength,
  smallEndRadius: positiveLength,
  smallEndWidth: positiveLength,
  chamfer: strict({ axial: positiveLength, radial: positiveLength }).exactOptional(),
  beamOffset: signedLength
    .exactOptional()
    .describe('Axial offset of beam and small end from the middle of the big end, away from the cheek it faces.'),
};

const pistonShape = {
  compressionHeight: positiveLength,
  pinOffset: signedLength,
  pinDiameter: positiveLength,
  skirtDiameter: positiveLength,
  skirtBelowPin: positiveLength,
  skirtThickness: positiveLength,
  skirtHalfAngle: quarterAngle,
  reliefBelowPin: signedLength,
  crownThickness: positiveLength,
  bossGap: positiveLength,
  bossSpan: positiveLength,
  bossRadius: positiveLength,
};

const camshaft = strict({
  baseCircle: positiveLength.describe('Diameter.'),
  intakeLift: positiveLength,
  exhaustLift: positiveLength,
  intakeDuration: positiveAngle.describe('Crank degrees at the lift durationAtLift.'),
  exhaustDuration: positiveAngle.describe('Crank degrees at the lift durationAtLift.'),
  durationAtLift: lengthFromZero,
  lobeSeparation: positiveAngle.describe('Cam degrees between the noses of a cylinder’s lobes.'),
  intakeCentreline: positiveAngle.describe('Crank degrees after the gas-exchange TDC.'),
  sense: oneOf(['same', 'opposite']),
  law: oneOf(['3-4-5', 'cycloidal']),
  follower: z.discriminatedUnion(
    'kind',
    [strict({ kind: z.literal('flat') }), strict({ kind: z.literal('roller'), radius: positiveLength })],
    { error: 'Allowed: { "kind": "flat" } or { "kind": "roller", "radius": … }.' },
  ),
  followerAngles: list(signedAngle, 1, 2).describe('Direction of follower travel, one a bank, from up.'),
  coreDiameter: positiveLength,
  lobeWidth: positiveLength,
  intakeAxial: signedLength,
  exhaustAxial: signedLength,
});

const optional = <S extends Record<string, z.ZodType>>(shape: S) =>
  Object.fromEntries(
    Object.entries(shape).map(([key, value]) => [
      key,
      value instanceof z.ZodExactOptional ? value : z.exactOptional(value),
    ]),
  ) as { [K in keyof S]: S[K] extends z.ZodExactOptional ? S[K] : z.ZodExactOptional<S[K]> };

const own = z.discriminatedUnion(
  'body',
  [
    strict({
      body: z.literal('counterweight'),
      throw: index,
      side,
      set: strict(optional(counterweightShape)).exactOptional(),
      axialShift: signedLength.exactOptional(),
      phase: signedAngle.exactOptional(),
      outline: outline.exactOptional(),
      outlineFrom: provenance.exactOptional(),
    }),
    strict({
      body: z.literal('rod'),
      cylinder: index,
      set: strict(optional(rodShape)).exactOptional(),
      axialShift: signedLength.exactOptional(),
      facing: side.exactOptional(),
    }),
    strict({ body: z.literal('piston'), cylinder: index, set: strict(optional(pistonShape)).exactOptional() }),
    strict({
      body: z.literal('lobe'),
      cylinder: index,
      valve: oneOf(['intake', 'exhaust']),
      lift: positiveLength.exactOptional(),
      duration: positiveAngle.exactOptional(),
      axialShift: signedLength.exactOptional(),
    }),
  ],
  { error: 'Allowed in “body”: counterweight, rod, piston, lobe.' },
);

const assembly = strict({
  name,
  route: text(MOST.note).describe('How this assembly comes about, in the shop’s words.'),
  crank,
  rod: strict(rodShape),
  piston: strict(pistonShape),
  camshaft: camshaft.exactOptional(),
  own: list(own, 0, MOST.own).exactOptional().describe('Where one body differs from the rest.'),
});

const limit = lengthFromZero.exactOptional();

export const buildSchema = strict({
  $schema: text(400).exactOptional(),
  format: z.literal('strokewright-build', { error: 'Allowed: strokewright-build.' }),
  version: z.literal(1, { error: 'Allowed: 1.' }),
  name,
  note: text(MOST.note).exactOptional(),
  replaced: name.describe('Name of the assembly being replaced.'),
  proposed: name.describe('Name of the assembly proposed.'),
  shownUnits: oneOf(['in', 'mm', 'both']),
  speed: positiveSpeed,
  block,
  limits: strict({
    'counterweight-piston': limit,
    'counterweight-block': limit,
    'counterweight-camshaft': limit,
    'rod-camshaft': limit,
    'rod-block': limit,
    'rod-piston': limit,
    'rod-opposite-piston': limit,
    'piston-piston': limit,
    deck: limit,
  })
    .exactOptional()
    .describe('Smallest acceptable static gap by kind; a kind left out takes the default with its source.'),
  assumedAllowance: lengthFromZero.exactOptional(),
  assemblies: list(assembly, 1, MOST.assemblies),
}).meta({
  title: 'Strokewright build',
  description:
    'An engine block and the rotating assemblies considered for it. Lengths, angles and speeds keep the unit in which they were measured.',
});

/** Readonly taken off all the way down, so that the two declarations can be compared. */
type Plain<T> = T extends string | number | boolean | undefined
  ? T
  : T extends readonly (infer E)[]
    ? Plain<E>[]
    : { -readonly [K in keyof T]: Plain<T[K]> };
type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;

/** Compiles only while schema and types agree, both ways. */
export type SchemaMatchesTypes = Assert<Same<Plain<z.output<typeof buildSchema>>, Plain<BuildDocument>>>;
type Assert<T extends true> = T;
