import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/assembly/layOut.ts';
import { LAYOUT_NAMES, layoutOf, type Problem, RULES, readContent } from '../../src/build/index.ts';
import { changed } from '../support/changed.ts';
import { dim, exampleIn, exampleInline6, exampleSingle, exampleV8, freeLayout } from '../support/exampleBuild.ts';
import { liftTable } from '../support/liftTable.ts';
import { exampleValvetrain } from '../support/valvetrain.ts';

function problemsOf(doc: unknown): readonly Problem[] {
  const read = readContent(doc);
  return read.ok ? [] : read.problems;
}

const point = (x: string, y: string, bulge?: number) => ({
  x: dim(`${x} mm`),
  y: dim(`${y} mm`),
  ...(bulge === undefined ? {} : { bulge }),
});
const outline = (...points: ReturnType<typeof point>[]) => ({
  'block.fixed': [{ name: 'oil pump', front: dim('0 mm'), rear: dim('9 mm'), outline: points, from: 'measured' }],
});
const square = [point('0', '0'), point('9', '0'), point('9', '9'), point('0', '9')];
const chain = (...list: readonly (readonly [number, number])[]) => list.map(([x, y]) => point(String(x), String(y)));
/** About the 152.4 mm rod of the V8, its big end stopping at 35.56 mm, its small end beginning at 136.14 mm. */
const TRACED_ROD: readonly (readonly [number, number])[] = [
  [-45, -45],
  [45, -45],
  [45, 30],
  [12, 50],
  [12, 135],
  [18, 140],
  [18, 172],
  [-18, 172],
  [-18, 140],
  [-12, 135],
  [-12, 50],
  [-45, 30],
];
const tracedRod = chain(...TRACED_ROD);
/** About the pin of the V8, 0.94 in across, .040 in beside the bore axis; the crown stands 38.6 mm above it. */
const tracedBoss = chain([-16, -15], [15, -15], [15, 35], [-16, 35]);
const rodOutline = { 'assemblies[0].rod.outline': tracedRod, 'assemblies[0].rod.outlineFrom': 'measured' };
const CAM = 'assemblies[0].camshaft';
const V = 'assemblies[0].valvetrain';
const valves = () => ({ [V]: exampleValvetrain() });
/** Flanks of 79.8 cam degrees stand at .050 in for 224 crank degrees. */
const TABLE = liftTable({ liftIn: 0.31, openingDeg: 79.8, closingDeg: 79.8 });
const tableWith = (index: number, at: string, lift: string) => ({
  ...TABLE,
  points: TABLE.points.map((point, k) => (k === index ? { at, lift } : point)),
});
const ownCounterweight = { body: 'counterweight', throw: 2, side: 'rear' };

it.each(LAYOUT_NAMES)('an example in the layout %s breaks no rule', (name) => {
  expect(problemsOf(exampleIn(name, layoutOf(name).usualFiringOrder!))).toEqual([]);
});

it.each([
  ['V8', exampleV8],
  ['single', exampleSingle],
  ['inline six', exampleInline6],
])('the example %s breaks no rule', (_, example) => {
  expect(problemsOf(example())).toEqual([]);
});

/** The V8 in a free layout of two banks at 90 degrees, with throws and cylinders as given. */
const free = (
  throws: readonly number[],
  cylinders: readonly (readonly [bank: number, throwNumber: number, split?: number])[],
  banks: readonly number[] = [-45, 45],
) => ({ 'block.layout': 'free', 'block.freeLayout': freeLayout(banks, throws, cylinders) });
const TWO_ON_ONE = [
  [1, 1],
  [2, 1],
] as const;
const FREE = 'block.freeLayout';

const logged = (changes: Record<string, unknown> = {}) => ({
  mockUp: [
    changed(
      {
        assembly: exampleV8().proposed,
        between: ['counterweight 2 rear', 'piston 3'],
        at: { cylinder: 3, afterTdc: '176 ±1 deg' },
        measured: '.055 ±.002 in',
        with: 'clay',
        date: '2026-11-25',
      },
      changes,
    ),
  ],
});

const core = (changes: Record<string, unknown>) => ({
  'assemblies[0].core': {
    stroke: dim('3.750 in'),
    rodJournal: dim('3.000 in'),
    leastStock: dim('.002 in'),
    ...changes,
  },
});
const coreThrows = (...throws: readonly (readonly [number, string])[]) =>
  core({ throws: throws.map(([number, journal]) => ({ throw: number, rodJournal: dim(journal) })) });
const turned = { name: 'snout', is: 'diameter', has: dim('1.400 in'), takes: dim('1.375 in') };
const land = (diameter: string) => ({ 'assemblies[0].pistonTop': { topLandDiameter: dim(diameter) } });
const planes = (front: string, rear: string) => ({
  'assemblies[0].balance': { frontPlane: dim(front), rearPlane: dim(rear) },
});
const running = (dims: Record<string, unknown>) => ({ 'assemblies[0].running': dims });
const shelfRod = { name: 'long rod', length: dim('6.000 in') };

/** The V8 with one thing changed: the rule it then breaks, and where. Sums beside the values are done by hand, inches. */
const BROKEN: readonly [rule: string, place: string, changes: Record<string, unknown>][] = [
  // The example's finished rod journals are 2.125 and 1.875 in, its bore 4.060 in, its throws four (tests/support/exampleBuild.ts).
  ['core and finished journal', 'assemblies[0].core.rodJournal', core({ rodJournal: dim('1.500 in') })],
  ['core and finished journal', 'assemblies[0].core.throws[0].rodJournal', coreThrows([2, '1.500 in'])],
  ['core throws', 'assemblies[0].core.throws[0].throw', coreThrows([9, '3.000 in'])],
  ['core throws', 'assemblies[0].core.throws[1].throw', coreThrows([2, '3.000 in'], [2, '3.000 in'])],
  ['turned surfaces once', 'assemblies[0].intoBlock[1].name', { 'assemblies[0].intoBlock': [turned, turned] }],
  ['top land in the bore', 'assemblies[0].pistonTop.topLandDiameter', land('9.000 in')],
  ['correction planes', 'assemblies[0].balance.rearPlane', planes('2 in', '50.8 mm')],
  ['guide bounds', 'guides[0].guide', { guides: [{ guide: 'luck', source: 'ours' }] }],
  ['guide bounds', 'guides[0].low', { guides: [{ guide: 'piston to head', low: '40', source: 'ours' }] }],
  ['guide bounds', 'guides[0].low', { guides: [{ guide: 'rod ratio', low: '1.9', high: '1.6', source: 'ours' }] }],
  ['shelf names once', 'shelf.rods[1].name', { shelf: { rods: [shelfRod, shelfRod] } }],
  // A hundredth of the 2.125 in rod journal is .02125 in; 23 ppm/K over 900 K are 2 %; no piston is 9 in long.
  ['running clearance', 'assemblies[0].running.rodClearance', running({ rodClearance: dim('.025 in') })],
  ['running clearance', 'assemblies[0].running.skirtClearance', running({ skirtClearance: dim('.050 in') })],
  ['guide within the piston', 'assemblies[0].running.guideLength', running({ guideLength: dim('9 in') })],
  [
    'growth by heat',
    'assemblies[0].running.pistonWarmer',
    running({ pistonGrowth: dim('23 ppm/K'), pistonWarmer: dim('900 K') }),
  ],
  ['mock-up assembly', 'mockUp[0].assembly', logged({ assembly: 'Some other crank' })],
  // Four throws, eight cylinders; a web is no body that anything is measured to.
  ['mock-up pair', 'mockUp[0].between[0]', logged({ 'between[0]': 'counterweight 5 rear' })],
  ['mock-up pair', 'mockUp[0].between[1]', logged({ 'between[1]': 'piston 9' })],
  ['mock-up pair', 'mockUp[0].between[1]', logged({ 'between[1]': 'oil pump' })],
  ['mock-up pair', 'mockUp[0].between', logged({ 'between[1]': 'rod 3' })],
  ['mock-up pair', 'mockUp[0].between', logged({ 'between[1]': 'deck' })],
  ['mock-up pair', 'mockUp[0].between', logged({ between: ['piston 3', 'piston 3'] })],
  ['mock-up angle', 'mockUp[0].at.cylinder', logged({ 'at.cylinder': 9 })],
  ['mock-up angle', 'mockUp[0].at.afterTdc', logged({ 'at.afterTdc': '360 deg' })],
  ['mock-up angle', 'mockUp[0].at.afterTdc', logged({ 'at.afterTdc': '-360 deg' })],
  ['mock-up angle', 'mockUp[0].at.afterTdc', logged({ between: ['rod 3', 'intake lobe 3'], 'at.afterTdc': '720 deg' })],
  ['mock-up angle', 'mockUp[0].at', logged({ between: ['piston 3', 'deck'], 'at.afterTdc': '0 deg' })],
  ['mock-up measurement', 'mockUp[0].measured', logged({ measured: '-.001 in' })],
  ['firing order', 'block.firingOrder', { 'block.firingOrder': [1, 5, 6, 3, 4, 2, 7] }],
  ['firing order', 'block.firingOrder', { 'block.firingOrder': [1, 5, 6, 3, 4, 2, 7, 7] }],
  ['firing order', 'block.firingOrder', { 'block.firingOrder': [5, 6, 3, 4, 2, 7, 8, 1] }],
  ['firing order', 'block.firingOrder', { 'block.firingOrder': [1, 5, 6, 3, 4, 2, 7, 9] }],
  ['firing order and throws', 'block.firingOrder', { 'block.firingOrder': [1, 8, 4, 3, 6, 5, 7, 2] }],
  // Every top of one turn in succession, then a pause of more than a turn.
  [
    'firing intervals',
    'block.firingOrder',
    { 'block.layout': 'v6-90-shared-pins', 'block.firingOrder': [1, 4, 3, 6, 5, 2] },
  ],
  ['free layout', FREE, { 'block.layout': 'free' }],
  ['free layout', FREE, { 'block.freeLayout': freeLayout([-45, 45], [0], TWO_ON_ONE) }],
  [
    'cylinders of the layout',
    `${FREE}.cylinders[1].cylinder`,
    { ...free([0], TWO_ON_ONE), 'block.freeLayout.cylinders[1].cylinder': 3 },
  ],
  [
    'cylinders of the layout',
    `${FREE}.cylinders[1].cylinder`,
    { ...free([0], TWO_ON_ONE), 'block.freeLayout.cylinders[1].cylinder': 1 },
  ],
  [
    'cylinders of the layout',
    `${FREE}.cylinders[1].bank`,
    free(
      [0],
      [
        [1, 1],
        [3, 1],
      ],
    ),
  ],
  [
    'cylinders of the layout',
    `${FREE}.cylinders[1].throw`,
    free(
      [0],
      [
        [1, 1],
        [2, 2],
      ],
    ),
  ],
  [
    'banks and throws in use',
    `${FREE}.cylinders[1]`,
    free(
      [0],
      [
        [1, 1],
        [1, 1],
        [2, 1],
      ],
    ),
  ],
  ['banks and throws in use', `${FREE}.throws[1]`, free([0, 180], TWO_ON_ONE)],
  ['banks and throws in use', `${FREE}.banks[1]`, free([0], [[1, 1]])],
  ['bank angles', `${FREE}.banks[1].angle`, free([0], TWO_ON_ONE, [-45, -45])],
  ['bank angles', `${FREE}.banks[0].angle`, free([0], TWO_ON_ONE, [-91, 45])],
  [
    'split pins',
    `${FREE}.cylinders[1].pinSplit`,
    free(
      [0, 90],
      [
        [1, 1],
        [2, 2, 10],
      ],
    ),
  ],
  [
    'split pins',
    `${FREE}.cylinders[1].pinSplit`,
    free(
      [0],
      [
        [1, 1],
        [2, 1, 91],
      ],
    ),
  ],
  [
    'assembly names once',
    'assemblies[1].name',
    { 'assemblies[1].name': 'Assembly as removed', proposed: 'Assembly as removed' },
  ],
  ['replaced and proposed', 'replaced', { replaced: 'Nothing of that name' }],
  ['replaced and proposed', 'proposed', { proposed: 'stroker' }],
  [
    'weighted cheeks',
    'assemblies[0].crank.weighted[0].throw',
    { 'assemblies[0].crank.weighted': [{ throw: 5, side: 'front' }] },
  ],
  [
    'weighted cheeks',
    'assemblies[0].crank.weighted[1]',
    {
      'assemblies[0].crank.weighted': [
        { throw: 1, side: 'rear' },
        { throw: 1, side: 'rear' },
      ],
    },
  ],
  ['own entries', 'assemblies[0].own[0]', { 'assemblies[0].own': [{ body: 'rod', cylinder: 9 }] }],
  ['own entries', 'assemblies[0].own[0]', { 'assemblies[0].own': [{ body: 'counterweight', throw: 5, side: 'rear' }] }],
  [
    'own entries',
    'assemblies[0].own[0]',
    { 'assemblies[0].own': [ownCounterweight], 'assemblies[0].crank.weighted': [{ throw: 1, side: 'front' }] },
  ],
  [
    'own entries',
    'assemblies[0].own[0]',
    {
      'assemblies[0].own': [{ body: 'lobe', cylinder: 1, valve: 'intake' }],
      'assemblies[0].camshaft': undefined,
      'assemblies[1].camshaft': undefined,
      'block.camAxis': undefined,
    },
  ],
  [
    'own entries once',
    'assemblies[0].own[1]',
    { 'assemblies[0].own': [ownCounterweight, { ...ownCounterweight, phase: dim('1 deg') }] },
  ],
  [
    'fixed names once',
    'block.fixed[1].name',
    {
      'block.fixed': [1, 2].map(() => ({
        name: 'stud',
        front: dim('0 mm'),
        rear: dim('9 mm'),
        outline: square,
        from: 'measured',
      })),
    },
  ],
  ['camshaft and its axis', 'assemblies[1].camshaft', { 'assemblies[1].camshaft': undefined }],
  ['camshaft and its axis', 'assemblies[0].camshaft', { 'block.camAxis': undefined }],
  ['followers', 'assemblies[0].camshaft.followerAngles', { 'assemblies[0].camshaft.followerAngles': [dim('0 deg')] }],
  ['assembly turns', 'assemblies[0].rod.length', { 'assemblies[0].rod.length': dim('1.800 in') }],
  [
    'assembly turns',
    'assemblies[1].own[0].set.length',
    { 'assemblies[1].own': [{ body: 'rod', cylinder: 7, set: { length: dim('1.900 in') } }] },
  ],
  ['bores of two banks', 'block.boreBottom', { 'block.boreBottom': dim('2.000 in') }],
  [
    'outline and its origin',
    'assemblies[0].own[0].outlineFrom',
    { 'assemblies[0].own': [{ ...ownCounterweight, outline: square }] },
  ],
  [
    'outline and its origin',
    'assemblies[0].own[0].outlineFrom',
    { 'assemblies[0].own': [{ ...ownCounterweight, outlineFrom: 'stated' }] },
  ],
  [
    'outline and its origin',
    'assemblies[0].rod.outlineFrom',
    { ...rodOutline, 'assemblies[0].rod.outlineFrom': undefined },
  ],
  [
    'outline and its origin',
    'assemblies[0].piston.outlineDeviation',
    { 'assemblies[0].piston.outlineDeviation': dim('.1 mm') },
  ],
  [
    'outline or phase',
    'assemblies[0].own[0].phase',
    {
      'assemblies[0].own': [
        {
          ...ownCounterweight,
          outline: chain([-45, -75], [45, -75], [45, 90], [-45, 90]),
          outlineFrom: 'stated',
          phase: dim('4 deg'),
        },
      ],
    },
  ],
  [
    'outline deviation',
    'assemblies[0].rod.outlineDeviation',
    { ...rodOutline, 'assemblies[0].rod.outlineDeviation': dim('11 mm') },
  ],
  [
    // A square of 9 mm is 4.5 mm wide by area over half its length, a quarter of that 1.125 mm.
    'outline deviation',
    'block.fixed[0].outlineDeviation',
    { ...outline(...square), 'block.fixed[0].outlineDeviation': dim('1.13 mm') },
  ],
  [
    'outline around its shafts',
    'assemblies[0].own[0].outline',
    { 'assemblies[0].own': [{ ...ownCounterweight, outline: square, outlineFrom: 'measured' }] },
  ],
  [
    // Upside down: the small end where the big end should be.
    'outline around its shafts',
    'assemblies[0].rod.outline',
    { ...rodOutline, 'assemblies[0].rod.outline': chain([-45, -172], [45, -172], [45, 45], [-45, 45]) },
  ],
  [
    'outline around its shafts',
    'assemblies[0].own[0].outline',
    {
      'assemblies[0].own': [
        {
          body: 'piston',
          cylinder: 3,
          outline: chain([-12, -15], [15, -15], [15, 35], [-12, 35]),
          outlineFrom: 'stated',
        },
      ],
    },
  ],
  [
    // The rod in millimetres, taken for inches: 172 in tall.
    'outline within the engine',
    'assemblies[0].rod.outline',
    { ...rodOutline, 'assemblies[0].rod.outline': chain(...TRACED_ROD.map(([x, y]) => [x * 25.4, y * 25.4] as const)) },
  ],
  [
    'outline within the engine',
    'assemblies[0].own[0].outline',
    {
      'assemblies[0].own': [
        {
          ...ownCounterweight,
          outline: chain([-900, -700], [900, -700], [900, 900], [-900, 900]),
          outlineFrom: 'measured',
        },
      ],
    },
  ],
  [
    'outline within the engine',
    'block.fixed[0].outline',
    outline(point('0', '-2500'), point('90', '-2500'), point('90', '-2400'), point('0', '-2400')),
  ],
  [
    // A spike beside the beam: the height of the big end's top is crossed four times.
    'ends of a traced rod',
    'assemblies[0].rod.outline',
    {
      ...rodOutline,
      'assemblies[0].rod.outline': [
        ...tracedRod.slice(0, 3),
        ...chain([40, 60], [35, 30], [14, 34]),
        ...tracedRod.slice(3),
      ],
    },
  ],
  [
    'boss within its piston',
    'assemblies[0].piston.outline',
    {
      'assemblies[0].piston.outline': chain([-16, -15], [15, -15], [15, 39], [-16, 39]),
      'assemblies[0].piston.outlineFrom': 'measured',
    },
  ],
  [
    'outline crossing',
    'assemblies[0].piston.outline[2]',
    {
      'assemblies[0].piston.outline': chain([0, 0], [9, 9], [9, 0], [0, 9]),
      'assemblies[0].piston.outlineFrom': 'measured',
    },
  ],
  [
    'outline edges',
    'block.fixed[0].outline[3]',
    outline(point('0', '0'), point('9', '0'), point('9', '9'), point('0', '0')),
  ],
  [
    'outline edges',
    'block.fixed[0].outline[1]',
    outline(point('0', '0'), point('9', '0'), point('9', '0'), point('0', '9')),
  ],
  ['outline sense', 'block.fixed[0].outline[0]', outline(...[...square].reverse())],
  ['outline area', 'block.fixed[0].outline[0]', outline(point('0', '0'), point('9', '0'), point('9', '0.1'))],
  [
    'outline crossing',
    'block.fixed[0].outline[2]',
    outline(point('0', '0'), point('9', '9'), point('9', '0'), point('0', '9')),
  ],
  [
    'fixed part faces',
    'block.fixed[0].front',
    {
      'block.fixed': [{ name: 'tray', front: dim('9 mm'), rear: dim('9 mm'), outline: square, from: 'stated' }],
    },
  ],
  [
    'lobe and follower',
    'assemblies[0].camshaft.intakeLift',
    { 'assemblies[0].camshaft.intakeDuration': dim('90 deg') },
  ],
  [
    'lobe and follower',
    'assemblies[0].own[0].lift',
    {
      'assemblies[0].own': [
        { body: 'lobe', cylinder: 3, valve: 'exhaust', lift: dim('1.400 in'), duration: dim('120 deg') },
      ],
    },
  ],
  ['flanks of a lobe', `${CAM}.intakeOpening`, { [`${CAM}.intakeOpening`]: dim('169 deg') }],
  [
    'flanks of a lobe',
    'assemblies[0].own[0].duration',
    {
      [`${CAM}.exhaustOpening`]: dim('112 deg'),
      'assemblies[0].own': [{ body: 'lobe', cylinder: 3, valve: 'exhaust', duration: dim('228 deg') }],
    },
  ],
  ['measured lifts', `${CAM}.intakeTable.points[20]`, { [`${CAM}.intakeTable`]: tableWith(20, '-44 deg', '.2500 in') }],
  ['measured lifts', `${CAM}.intakeTable.points[20]`, { [`${CAM}.intakeTable`]: tableWith(20, '-46 deg', '.1000 in') }],
  ['measured lifts', `${CAM}.intakeTable.points[0]`, { [`${CAM}.intakeTable`]: tableWith(0, '-84 deg', '.0010 in') }],
  ['measured lifts', `${CAM}.intakeTable.points[84]`, { [`${CAM}.intakeTable`]: tableWith(84, '84 deg', '.0010 in') }],
  [
    'measured and stated',
    `${CAM}.intakeLift`,
    { [`${CAM}.intakeTable`]: TABLE, [`${CAM}.intakeLift`]: dim('.340 in') },
  ],
  [
    'measured and stated',
    `${CAM}.intakeDuration`,
    { [`${CAM}.intakeTable`]: TABLE, [`${CAM}.intakeDuration`]: dim('250 deg') },
  ],
  [
    'measured and stated',
    `${CAM}.intakeOpening`,
    { [`${CAM}.intakeTable`]: TABLE, [`${CAM}.intakeOpening`]: dim('110 deg') },
  ],
  [
    'measured and stated',
    'assemblies[0].own[0].lift',
    {
      [`${CAM}.intakeTable`]: TABLE,
      'assemblies[0].own': [{ body: 'lobe', cylinder: 3, valve: 'intake', lift: dim('.300 in') }],
    },
  ],
  [
    'valves and camshaft',
    'assemblies[0].valvetrain',
    {
      ...valves(),
      'block.camAxis': undefined,
      'assemblies[0].camshaft': undefined,
      'assemblies[1].camshaft': undefined,
    },
  ],
  ['valve in the bore', `${V}.intake.angle`, { ...valves(), [`${V}.intake.angle`]: dim('60.1 deg') }],
  ['valve in the bore', `${V}.exhaust.headDiameter`, { ...valves(), [`${V}.exhaust.headDiameter`]: dim('4.061 in') }],
  ['valve in the bore', `${V}.exhaust.axial`, { ...valves(), [`${V}.exhaust.axial`]: dim('-2.030 in') }],
  ['valve in the bore', `${V}.intake.pocket.across`, { ...valves(), [`${V}.intake.pocket.across`]: dim('2.030 in') }],
  ['valve margin', `${V}.intake.margin`, { ...valves(), [`${V}.intake.margin`]: dim('.950 in') }],
  ['lash below the lift', `${V}.intake.lash`, { ...valves(), [`${V}.intake.lash`]: dim('.496 in') }],
  ['pocket in the crown', `${V}.exhaust.pocket.depth`, { ...valves(), [`${V}.exhaust.pocket.depth`]: dim('.260 in') }],
  ['kind of value', `${V}.rockerRatio`, { ...valves(), [`${V}.rockerRatio`]: 3.01 }],
  [
    'cheek shifted',
    'assemblies[0].own[0].axialShift',
    { 'assemblies[0].own': [{ body: 'counterweight', throw: 1, side: 'front', axialShift: dim('-.801 in') }] },
  ],
  [
    'cheek shifted',
    'assemblies[0].own[0].axialShift',
    { 'assemblies[0].own': [{ body: 'counterweight', throw: 3, side: 'front', axialShift: dim('-.081 in') }] },
  ],
  [
    'lobes side by side',
    'assemblies[0].own[0].axialShift',
    {
      'assemblies[0].own': [{ body: 'lobe', cylinder: 1, valve: 'exhaust', axialShift: dim('.600 in') }],
    },
  ],
  // Exhaust 1 at -.940, 2 at .008, intake 1 at .940, 2 at 1.888; throw 2 begins at 3.540.
  [
    'lobes in order',
    'assemblies[0].own[0].axialShift',
    {
      'assemblies[0].own': [{ body: 'lobe', cylinder: 2, valve: 'intake', axialShift: dim('5.400 in') }],
    },
  ],
  [
    'lobes in order',
    'assemblies[0].own[0].axialShift',
    {
      'assemblies[0].own': [{ body: 'lobe', cylinder: 2, valve: 'exhaust', axialShift: dim('-1.700 in') }],
    },
  ],
];

describe('each thing wrong is named, and where it stands', () => {
  it.each(BROKEN)('%s at %s', (rule, place, changes) => {
    expect(problemsOf(changed(exampleV8(), changes))).toContainEqual(expect.objectContaining({ rule, place }));
  });

  it('an inline engine has no bank offset', () => {
    expect(problemsOf(changed(exampleInline6(), { 'block.bankOffset': dim('.1 in') }))).toMatchObject([
      { rule: 'bank offset', place: 'block.bankOffset' },
    ]);
  });

  it('a flat face asks for a larger base circle', () => {
    const changes = {
      'assemblies[0].camshaft.baseCircle': dim('1.100 in'),
      'assemblies[0].camshaft.coreDiameter': dim('1 in'),
    };
    const [problem] = problemsOf(changed(exampleInline6(), changes));
    expect(problem).toMatchObject({ rule: 'lobe and follower', place: 'assemblies[0].camshaft.intakeLift' });
    expect(problem?.allowed).toMatch(/flat face.*allowed: more than/);
  });
});

const A = 'assemblies[0]';

it('valves with pockets break no rule', () => {
  expect(problemsOf(changed(exampleV8(), valves()))).toEqual([]);
});

it('measured lifts and unlike flanks that agree with what is stated break no rule', () => {
  expect(problemsOf(changed(exampleV8(), { [`${CAM}.intakeTable`]: TABLE }))).toEqual([]);
  const unlike = { [`${CAM}.intakeOpening`]: dim('105 deg'), [`${CAM}.advance`]: dim('-4 deg') };
  expect(problemsOf(changed(exampleV8(), unlike))).toEqual([]);
  const own = {
    body: 'lobe',
    cylinder: 2,
    valve: 'intake',
    table: liftTable({ liftIn: 0.29, openingDeg: 70, closingDeg: 74 }),
  };
  expect(problemsOf(changed(exampleV8(), { [`${CAM}.intakeTable`]: TABLE, 'assemblies[0].own': [own] }))).toEqual([]);
});

/** A bound of the V8: the last value that is let pass and the first that is refused, one step of the last digit apart. */
const BOUNDS: readonly [
  rule: string,
  place: string,
  passes: string,
  refused: string,
  also?: Record<string, unknown>,
][] = [
  // r = 1.780, |e| = 0 + .040; eyes of .500 and .300 so that they do not bind: l > 1.820.
  [
    'assembly turns',
    `${A}.rod.length`,
    '1.821 in',
    '1.820 in',
    {
      [`${A}.crank.rodJournal`]: dim('.900 in'),
      [`${A}.rod.bigEndRadius`]: dim('.500 in'),
      [`${A}.rod.smallEndRadius`]: dim('.480 in'),
    },
  ],
  // Bore offset -.020 adds to the pin offset -.040: l > 1.780 + .060.
  [
    'assembly turns',
    `${A}.rod.length`,
    '1.841 in',
    '1.840 in',
    {
      'block.boreOffset': dim('-.020 in'),
      [`${A}.crank.rodJournal`]: dim('.900 in'),
      [`${A}.rod.bigEndRadius`]: dim('.500 in'),
      [`${A}.rod.smallEndRadius`]: dim('.480 in'),
    },
  ],
  // 2 × .940 = 1.880; the rods stand .948 apart, so the cheeks bind first unless the bank offset is .940.
  ['rods on the pin', `${A}.crank.journalLength`, '1.880 in', '1.879 in', { 'block.bankOffset': dim('.940 in') }],
  // .474 + .470 = .944 either side.
  ['rods between the cheeks', `${A}.crank.journalLength`, '1.888 in', '1.887 in'],
  ['rods side by side', 'block.bankOffset', '.940 in', '.939 in'],
  ['rods side by side', 'block.bankOffset', '-.940 in', '-.939 in'],
  // Big ends .030 outward of each beam: .880 + .060 = .940.
  [
    'rods side by side',
    'block.bankOffset',
    '.880 in',
    '.879 in',
    { [`${A}.rod.beamOffset`]: dim('.030 in'), 'assemblies[1].rod.beamOffset': dim('.030 in') },
  ],
  [
    'big end around the journal',
    `${A}.rod.bigEndRadius`,
    '1.0626 in',
    '1.0625 in',
    { [`${A}.rod.chamfer`]: undefined },
  ],
  ['bolts beside the journal', `${A}.rod.boltSpread`, '1.0626 in', '1.0625 in'],
  // 1.400 + .640.
  ['rod eyes apart', `${A}.rod.length`, '2.041 in', '2.040 in'],
  // 1.400 + .300.
  ['bolts on the big end', `${A}.rod.boltSpread`, '1.699 in', '1.700 in'],
  // Twice .640.
  ['beam within the small end', `${A}.rod.beamWidth`, '1.280 in', '1.281 in'],
  ['beam within the big end', `${A}.rod.beamThickness`, '.940 in', '.941 in'],
  ['chamfer within the big end', `${A}.rod.chamfer.axial`, '.939 in', '.940 in'],
  // 1.400 - 1.0625.
  ['chamfer within the big end', `${A}.rod.chamfer.radial`, '.3374 in', '.3375 in'],
  ['cheek around the pin', `${A}.crank.pinEndRadius`, '1.0626 in', '1.0625 in'],
  ['hub around the main journal', `${A}.crank.counterweight.hubRadius`, '1.225 in', '1.224 in'],
  ['main journal in its bore', `${A}.crank.mainJournal`, '2.639 in', '2.640 in'],
  // 1.900 + 2 c + .900 = 4.480.
  ['throws along the shaft', `${A}.crank.cheekThickness`, '.840 in', '.841 in'],
  [
    'counterweight outside its hub',
    `${A}.crank.counterweight.radius`,
    '1.601 in',
    '1.600 in',
    { [`${A}.crank.counterweight.cornerRadius`]: dim('0 in') },
  ],
  // sqrt(2.9 (2.9 - 2 c)) = 1.6 at c = 1.00862.
  ['counterweight corner', `${A}.crank.counterweight.cornerRadius`, '1.008 in', '1.009 in'],
  // asin(c / (2.9 - c)) = 10 deg at c = .42905.
  [
    'counterweight corner',
    `${A}.crank.counterweight.cornerRadius`,
    '.429 in',
    '.430 in',
    { [`${A}.crank.counterweight.halfAngle`]: dim('10 deg') },
  ],
  ['bore between its ends', 'block.boreBottom', '9.309 in', '9.310 in'],
  // 9.310 - 3.900.
  [
    'bore notch',
    'block.boreNotch.depth',
    '5.409 in',
    '5.410 in',
    { 'block.boreNotch': { depth: dim('1 in'), width: dim('1 in'), side: 'both' } },
  ],
  [
    'bore notch',
    'block.boreNotch.width',
    '4.060 in',
    '4.061 in',
    { 'block.boreNotch': { depth: dim('1 in'), width: dim('1 in'), side: 'both' } },
  ],
  ['bores along the bank', 'block.boreSpacing', '4.061 in', '4.060 in'],
  // Banks at right angles: half the bore.
  ['bores of two banks', 'block.boreBottom', '2.030 in', '2.029 in'],
  // Corner of the bore wall (3.900 - 2.280) cos 45 = 1.1455 above the axis and outside the rail; flange .300.
  ['crankcase below the bores', 'block.panRail.height', '.845 in', '.846 in'],
  ['piston in its bore', `${A}.piston.skirtDiameter`, '4.060 in', '4.061 in'],
  ['pin in the bosses', `${A}.piston.bossRadius`, '.471 in', '.470 in'],
  ['pin in the small end', `${A}.rod.smallEndRadius`, '.471 in', '.470 in'],
  ['bosses within the skirt', `${A}.piston.bossSpan`, '4.056 in', '4.057 in'],
  ['bosses within the skirt', `${A}.piston.bossSpan`, '1.001 in', '1.000 in'],
  ['small end between the bosses', `${A}.piston.bossGap`, '.940 in', '.939 in'],
  // 1.520 - .470.
  ['crown above the pin', `${A}.piston.crownThickness`, '1.049 in', '1.050 in'],
  ['skirt wall', `${A}.piston.skirtThickness`, '2.027 in', '2.028 in'],
  ['relief within the skirt', `${A}.piston.reliefBelowPin`, '1.050 in', '1.051 in'],
  // .260 - 1.520.
  ['relief within the skirt', `${A}.piston.reliefBelowPin`, '-1.259 in', '-1.260 in'],
  ['pin within the piston', `${A}.piston.pinOffset`, '2.027 in', '2.028 in'],
  ['pin within the piston', `${A}.piston.pinOffset`, '-2.027 in', '-2.028 in'],
  ['core below the base circle', `${A}.camshaft.coreDiameter`, '1.200 in', '1.201 in'],
  ['duration below the lift', `${A}.camshaft.durationAtLift`, '.309 in', '.310 in'],
  ['duration of a lobe', `${A}.camshaft.intakeDuration`, '540 deg', '540.1 deg'],
  ['duration of a lobe', `${A}.camshaft.intakeDuration`, '60 deg', '59.9 deg'],
  // A quarter and three quarters of 224 degrees.
  [
    'flanks of a lobe',
    `${A}.camshaft.intakeOpening`,
    '56 deg',
    '55.9 deg',
    { [`${A}.camshaft.baseCircle`]: dim('3 in') },
  ],
  // Lobes .948, .932 and .948 apart within a throw.
  ['lobes side by side', `${A}.camshaft.lobeWidth`, '.932 in', '.933 in'],
];

describe('bounds', () => {
  it.each(BOUNDS)('%s: %s passes at %s, is refused at %s', (rule, place, passes, refused, also = {}) => {
    const at = (value: string) => problemsOf(changed(exampleV8(), { ...also, [place]: dim(value) }));
    expect(at(passes).filter((p) => p.rule === rule)).toEqual([]);
    expect(at(refused).map((p) => p.rule)).toContain(rule);
  });

  it('each problem names a value and says what is allowed', () => {
    for (const [, place, , refused, also = {}] of BOUNDS) {
      for (const problem of problemsOf(changed(exampleV8(), { ...also, [place]: dim(refused) }))) {
        expect(problem.place).toMatch(/^(assemblies\[\d\]|block)\./);
        expect(problem.value).not.toBe('');
        expect(problem.allowed).toMatch(/llowed|can’t|reach|take/);
        expect(problem.allowed).not.toMatch(/NaN|undefined|Infinity/);
      }
    }
  });

  it('a shared dimension is refused once, not for every cylinder', () => {
    const problems = problemsOf(changed(exampleV8(), { [`${A}.piston.skirtDiameter`]: dim('4.100 in') }));
    expect(problems.map((p) => p.place)).toEqual([`${A}.piston.skirtDiameter`]);
  });

  it('a counterweight moved along the shaft leaves the web, and stays within its own thickness', () => {
    type Shift = readonly [number: number, side: string, shift: string];
    const rulesAt = (...shifts: readonly Shift[]) => {
      const own = shifts.map(([number, side, shift]) => ({
        body: 'counterweight',
        throw: number,
        side,
        axialShift: dim(shift),
      }));
      return problemsOf(changed(exampleV8(), { [`${A}.own`]: own })).map((p) => `${p.rule}: ${p.place}`);
    };
    const refused = (k: number) => [`cheek shifted: ${A}.own[${k}].axialShift`];
    // 4.480 - 1.900 - 2 × .800 = .980 between the cheeks, the web takes .900: .080 to spare.
    expect(rulesAt([2, 'rear', '.080 in'])).toEqual([]);
    expect(rulesAt([2, 'rear', '.081 in'])).toEqual(refused(0));
    expect(rulesAt([3, 'front', '-.080 in'])).toEqual([]);
    expect(rulesAt([3, 'front', '-.081 in'])).toEqual(refused(0));
    // The neighbour moved out of the way makes room, moved nearer takes it.
    expect(rulesAt([2, 'rear', '.100 in'], [3, 'front', '.020 in'])).toEqual([]);
    expect(rulesAt([2, 'rear', '.050 in'], [3, 'front', '-.031 in'])).toEqual(refused(0));
    // No web beyond the ends: the thickness, .800.
    expect(rulesAt([1, 'front', '-.800 in'])).toEqual([]);
    expect(rulesAt([1, 'front', '-.801 in'])).toEqual(refused(0));
    expect(rulesAt([4, 'rear', '.801 in'])).toEqual(refused(0));
  });

  it('a rod moved along the shaft must still pass between the bosses', () => {
    // .940 + 2 × .031 = 1.002 against a gap of 1.000; the longer journal leaves room for the big end.
    const own = (shift: string) => [{ body: 'rod', cylinder: 1, axialShift: dim(shift) }];
    const rulesAt = (shift: string) =>
      problemsOf(changed(exampleV8(), { [`${A}.own`]: own(shift), [`${A}.crank.journalLength`]: dim('1.980 in') }))
        .map((p) => p.rule)
        .filter((rule) => rule.startsWith('small end'));
    expect(rulesAt('-.030 in')).toEqual([]);
    expect(rulesAt('-.031 in')).toEqual(['small end between the bosses']);
  });
});

describe('the job', () => {
  const with_ = (job: Record<string, unknown>) => ({ ...exampleV8(), job });
  const full = { reference: 'Order 4711', date: '2026-11-25', notes: 'Collect on Friday.\nBring the damper.' };

  it('takes all of it, any part of it, and none', () => {
    for (const job of [full, { reference: full.reference }, { notes: '' }, {}]) {
      expect(problemsOf(with_(job))).toEqual([]);
    }
  });

  it.each([
    ['date', 'job.date', { date: '25.11.2026' }],
    ['date', 'job.date', { date: '2026-02-30' }],
    ['kind of value', 'job.reference', { reference: ' Order 4711' }],
    ['kind of value', 'job.reference', { reference: 'x'.repeat(81) }],
    ['kind of value', 'job.notes', { notes: 'x'.repeat(4001) }],
    ['kind of value', 'job.notes', { notes: 'a\u0007b' }],
    ['known names', 'job.customer', { customer: 'someone' }],
  ])('refuses by the rule %s at %s', (rule, place, part) => {
    const found = problemsOf(with_({ ...full, ...part }));
    expect(found.map((p) => [p.rule, p.place])).toEqual([[rule, place]]);
    expect(found[0]!.allowed).toMatch(/\S/);
  });
});

describe('the mock-up log', () => {
  it.each([
    ['as it stands', {}],
    ['the two bodies in the other order', { between: ['piston 3', 'counterweight 2 rear'] }],
    ['at the smallest found', { at: undefined }],
    ['a lobe nearly two turns on', { between: ['rod 3', 'intake lobe 3'], 'at.afterTdc': '719.5 deg' }],
    ['before TDC', { 'at.afterTdc': '-4 deg' }],
    ['touching', { measured: '0 in' }],
    ['a crown above the deck', { between: ['piston 3', 'deck'], at: undefined, measured: '-.005 in' }],
  ])('takes %s', (_, changes) => {
    expect(problemsOf(changed(exampleV8(), logged(changes)))).toEqual([]);
  });

  it.each([
    ['dimension', 'mockUp[0].measured', { measured: '.055' }],
    ['dimension', 'mockUp[0].at.afterTdc', { 'at.afterTdc': '176' }],
    ['date', 'mockUp[0].date', { date: '25.11.2026' }],
    ['date', 'mockUp[0].date', { date: '2026-02-29' }],
    ['date', 'mockUp[0].date', { date: '2026-13-01' }],
    ['required', 'mockUp[0].with', { with: undefined }],
    ['kind of value', 'mockUp[0].between', { between: ['piston 3'] }],
    ['kind of value', 'mockUp[0].at.cylinder', { 'at.cylinder': 0 }],
    ['known names', 'mockUp[0].size', { size: '.055 in' }],
  ])('refuses by the rule %s at %s', (rule, place, changes) => {
    const found = problemsOf(changed(exampleV8(), logged(changes)));
    expect(found.map((p) => [p.rule, p.place])).toEqual([[rule, place]]);
    expect(found[0]!.allowed).toMatch(/\S/);
  });

  it('takes 29 February of a leap year, and not of 1900 or 2100', () => {
    const days = ['2028-02-29', '2000-02-29', '1900-02-29', '2100-02-29'];
    expect(days.map((date) => problemsOf(changed(exampleV8(), logged({ date }))).length)).toEqual([0, 0, 1, 1]);
  });

  it('names every body that is laid out in a pair', () => {
    const withValves = readContent(changed(exampleV8(), valves()));
    if (!withValves.ok) throw new Error('the example with valves is refused');
    const docs = LAYOUT_NAMES.map((name) => exampleIn(name, layoutOf(name).usualFiringOrder!));
    for (const doc of [...docs, withValves.doc]) {
      const engine = layOut(doc, doc.proposed);
      const entry = logged().mockUp[0]!;
      const mockUp = engine.pairs.map(({ a, b }) =>
        changed(entry, { assembly: doc.proposed, between: [b.name, a.name], at: undefined }),
      );
      for (let k = 0; k < mockUp.length; k += 400) {
        expect(problemsOf({ ...doc, mockUp: mockUp.slice(k, k + 400) }), doc.name).toEqual([]);
      }
    }
  });
});

it('a traced rod and a traced pin boss, of the set or of one cylinder, break no rule', () => {
  const own = [
    { body: 'rod', cylinder: 2, outline: tracedRod, outlineFrom: 'assumed', outlineDeviation: dim('.002 in') },
    { body: 'piston', cylinder: 2, outline: tracedBoss, outlineFrom: 'measured', outlineDeviation: dim('0 mm') },
  ];
  expect(problemsOf(changed(exampleV8(), { ...rodOutline, 'assemblies[0].own': own }))).toEqual([]);
});

it('every rule is in the table once, and every rule of the table is broken by a case here or in the file tests', () => {
  const FILE_TESTS = [
    'readable file',
    'names once',
    'known names',
    'later version',
    'required',
    'kind of value',
    'dimension',
    'sign',
    'range',
    'date',
  ];
  const names = RULES.map((rule) => rule.name);
  expect(new Set(names).size).toBe(names.length);
  const broken = new Set([
    ...BROKEN.map(([rule]) => rule),
    ...BOUNDS.map(([rule]) => rule),
    'bank offset',
    ...FILE_TESTS,
  ]);
  expect([...broken].sort()).toEqual([...names].sort());
});
