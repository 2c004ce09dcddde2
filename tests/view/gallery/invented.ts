/**
 * An invented V8 throw for looking at the view without the rest of the program: shapes are by hand, gaps and profiles
 * made up, one pair in each state. No figure here is computed and none is to be believed.
 */
import type { Body, DrawnShape, Engine, Pair, SideShape } from '../../../src/assembly/engine.ts';
import type { Outline, Piece } from '../../../src/core/outline/outline.ts';
import type { Motion, Pose } from '../../../src/core/plane/pose.ts';
import type { Gap, GapNow, GapState, Profile } from '../../../src/model/results.ts';
import type { Changed, Command, State, Store } from '../../../src/model/state.ts';

const DEG = Math.PI / 180;
const R = 49.21;
const L = 152.4;
const CH = 32.6;
const BORE_R = 50.8;

function poly(...points: (readonly [number, number])[]): Outline {
  const pieces: Piece[] = points.map(([x0, y0], k) => {
    const [x1, y1] = points[(k + 1) % points.length]!;
    return { kind: 'line', x0, y0, x1, y1 };
  });
  return { pieces };
}
function disc(r: number, cx = 0, cy = 0): Outline {
  return { pieces: [{ kind: 'arc', cx, cy, r, startRad: 0, sweepRad: 2 * Math.PI }] };
}

const fixed: Motion = motion((_, p) => p.fill(0));
function motion(write: (angle: number, out: Pose) => void): Motion {
  return { write, originSpeedMm: 0, originAccelMm: 0, turnSpeed: 0, turnAccel: 0 };
}

const banks = { 1: -45 * DEG, 2: 45 * DEG } as const;
const throwPhase = [0, 90, 270, 180].map((d) => d * DEG);

function cylinderOf(number: number): Engine['cylinders'][number] {
  const bank = number % 2 === 1 ? 1 : 2;
  const throwNumber = Math.ceil(number / 2);
  const bankAngleRad = banks[bank];
  const alphaAtZeroRad = throwPhase[throwNumber - 1]! - (bankAngleRad - banks[1]);
  const tdc = ((-alphaAtZeroRad % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  return {
    number,
    bank,
    bankAngleRad,
    throw: throwNumber,
    boreCentreMm: (throwNumber - 1) * 111.8 + (bank === 2 ? 24 : 0),
    boreOffsetMm: 0,
    boreRadiusMm: BORE_R,
    slider: { crankRadiusMm: R, rodLengthMm: L, offsetMm: 0 },
    alphaAtZeroRad,
    firingPinRad: tdc,
    firingTdcRad: tdc,
    tdcRad: tdc,
    bdcRad: (tdc + Math.PI) % (2 * Math.PI),
    deckClearanceMm: 0.51,
  };
}

const cylinders = [1, 2, 3, 4, 5, 6, 7, 8].map(cylinderOf);

type Drawn = Pick<Body, 'name' | 'kind' | 'motion' | 'drawn'> & Partial<Pick<Body, 'cylinder' | 'throw'>>;

/** Only what the view reads: layers and keys are the sweep's, which never sees these bodies. */
function body({ z, ...drawn }: Drawn & { z?: readonly [number, number] }): Body {
  const [z0Mm, z1Mm] = z ?? [0, 1];
  return { ...drawn, layers: [], round: [], assumed: [], z0Mm, z1Mm } as unknown as Body;
}

function sector(hub: number, rim: number, half: number): Outline {
  // Sector hanging down (-y), counterclockwise, joined to the hub by straight sides; cheek end about the pin above.
  const a0 = -Math.PI / 2 - half;
  const a1 = -Math.PI / 2 + half;
  const pin = 34;
  const side = Math.acos((hub - pin) / R);
  const at = (r: number, a: number) => [r * Math.cos(a), r * Math.sin(a)] as const;
  const [x0, y0] = at(rim, a0);
  const [x1, y1] = at(rim, a1);
  const right = at(hub, Math.PI / 2 - side);
  const pinRight = [pin * Math.sin(side), R + pin * Math.cos(side)] as const;
  const pinLeft = [-pinRight[0], pinRight[1]] as const;
  const left = [-right[0], right[1]] as const;
  const hubRight = at(hub, a1 + 0.25);
  const hubLeft = [-hubRight[0], hubRight[1]] as const;
  const a = (y: number, x: number) => Math.atan2(y, x);
  return {
    pieces: [
      { kind: 'arc', cx: 0, cy: 0, r: rim, startRad: a0, sweepRad: 2 * half },
      { kind: 'line', x0: x1, y0: y1, x1: hubRight[0], y1: hubRight[1] },
      {
        kind: 'arc',
        cx: 0,
        cy: 0,
        r: hub,
        startRad: a(hubRight[1], hubRight[0]),
        sweepRad: a(right[1], right[0]) - a(hubRight[1], hubRight[0]),
      },
      { kind: 'line', x0: right[0], y0: right[1], x1: pinRight[0], y1: pinRight[1] },
      { kind: 'arc', cx: 0, cy: R, r: pin, startRad: Math.PI / 2 - side, sweepRad: 2 * side },
      { kind: 'line', x0: pinLeft[0], y0: pinLeft[1], x1: left[0], y1: left[1] },
      {
        kind: 'arc',
        cx: 0,
        cy: 0,
        r: hub,
        startRad: a(left[1], left[0]),
        sweepRad: a(hubLeft[1], hubLeft[0]) + 2 * Math.PI - a(left[1], left[0]),
      },
      { kind: 'line', x0: hubLeft[0], y0: hubLeft[1], x1: x0, y1: y0 },
    ],
  };
}

const rodDrawn: DrawnShape[] = [
  { style: 'behind', outline: poly([-33, -38], [-19, -38], [-19, 24], [-33, 24]) },
  { style: 'behind', outline: poly([19, -38], [33, -38], [33, 24], [19, 24]) },
  {
    style: 'cut',
    outline: poly([-10, 34], [10, 34], [8, L - 16], [-8, L - 16]),
    hatch: { slopeDeg: 45, spacingMm: 2.5 },
  },
  { style: 'cut', outline: disc(36), holes: [disc(26.7)], hatch: { slopeDeg: 45, spacingMm: 2.5 } },
  { style: 'cut', outline: disc(19, 0, L), holes: [disc(11.8, 0, L)], hatch: { slopeDeg: 45, spacingMm: 2.5 } },
];
const pistonDrawn: DrawnShape[] = [
  {
    style: 'cut',
    outline: poly(
      [-50.5, -19],
      [-45.5, -19],
      [-45, 8],
      [-38, 22],
      [38, 22],
      [45, 8],
      [45.5, -19],
      [50.5, -19],
      [50.5, CH],
      [-50.5, CH],
    ),
    hatch: { slopeDeg: -45, spacingMm: 2 },
  },
  { style: 'behind', outline: disc(11.8) },
  { style: 'construction', outline: disc(17) },
];
const wall = (side: 1 | -1, bank: number): DrawnShape => {
  const sin = Math.sin(bank);
  const cos = Math.cos(bank);
  const p = (u: number, v: number) => [u * sin + side * v * cos, u * cos - side * v * sin] as const;
  const points = [p(103, BORE_R), p(234.7, BORE_R), p(234.7, 63), p(112, 58)];
  return {
    style: 'cut',
    outline: poly(...(side > 0 ? points : points.reverse())),
    hatch: { slopeDeg: 60, spacingMm: 3 },
  };
};
const rail = (side: 1 | -1): DrawnShape => {
  const points = [
    [92, -50],
    [128, -50],
    [128, -42],
    [108, -38],
    [101, 40],
    [92, 40],
  ] as [number, number][];
  const placed = points.map(([x, y]) => [side * x, y] as const);
  return {
    style: 'cut',
    outline: poly(...(side > 0 ? placed : placed.reverse())),
    hatch: { slopeDeg: 60, spacingMm: 3 },
  };
};

function slide(number: number): { rod: Motion; piston: Motion } {
  const c = cylinderOf(number);
  const pinHeight = (angle: number) => {
    const a = angle + c.alphaAtZeroRad;
    return R * Math.cos(a) + Math.sqrt(L * L - (R * Math.sin(a)) ** 2);
  };
  return {
    rod: motion((angle, p) => {
      const a = angle + c.alphaAtZeroRad;
      p[0] = R * Math.sin(a + c.bankAngleRad);
      p[1] = R * Math.cos(a + c.bankAngleRad);
      p[2] = c.bankAngleRad - Math.asin((R * Math.sin(a)) / L);
    }),
    piston: motion((angle, p) => {
      const s = pinHeight(angle);
      p[0] = s * Math.sin(c.bankAngleRad);
      p[1] = s * Math.cos(c.bankAngleRad);
      p[2] = c.bankAngleRad;
    }),
  };
}

const cam = { x: 0, y: 114 };
const pinDirection = (throwNumber: number) => banks[1] + throwPhase[throwNumber - 1]!;
const metal = { slopeDeg: 30, spacingMm: 3 };

const bodies: Body[] = [
  body({
    name: 'block',
    kind: 'block',
    motion: fixed,
    drawn: [wall(1, banks[1]), wall(-1, banks[1]), wall(1, banks[2]), wall(-1, banks[2]), rail(1), rail(-1)],
  }),
  body({
    name: 'cam core',
    kind: 'cam core',
    motion: motion((a, p) => {
      p[0] = cam.x;
      p[1] = cam.y;
      p[2] = a / 2;
    }),
    drawn: [{ style: 'cut', outline: disc(15), hatch: { slopeDeg: 20, spacingMm: 2 } }],
  }),
];
for (const c of cylinders) {
  const m = slide(c.number);
  bodies.push(
    body({ name: `rod ${c.number}`, kind: 'rod', cylinder: c.number, throw: c.throw, motion: m.rod, drawn: rodDrawn }),
    body({
      name: `piston ${c.number}`,
      kind: 'piston',
      cylinder: c.number,
      throw: c.throw,
      motion: m.piston,
      drawn: pistonDrawn,
    }),
    body({
      name: `intake lobe ${c.number}`,
      kind: 'lobe',
      cylinder: c.number,
      throw: c.throw,
      motion: motion((a, p) => {
        p[0] = cam.x;
        p[1] = cam.y;
        p[2] = a / 2 + c.number;
      }),
      drawn: [
        {
          style: 'behind',
          outline: {
            pieces: [
              { kind: 'arc', cx: 0, cy: 0, r: 16.5, startRad: Math.PI * 0.85, sweepRad: Math.PI * 1.3 },
              {
                kind: 'line',
                x0: 16.5 * Math.cos(Math.PI * 0.15),
                y0: 16.5 * Math.sin(Math.PI * 0.15),
                x1: 5,
                y1: 23.5,
              },
              { kind: 'line', x0: 5, y0: 23.5, x1: -5, y1: 23.5 },
              {
                kind: 'line',
                x0: -5,
                y0: 23.5,
                x1: 16.5 * Math.cos(Math.PI * 0.85),
                y1: 16.5 * Math.sin(Math.PI * 0.85),
              },
            ],
          },
        },
      ],
    }),
  );
}
for (let t = 1; t <= 4; t++) {
  for (const side of ['front', 'rear'] as const) {
    const z = (t - 1) * 111.8 + (side === 'front' ? -22 : 46);
    bodies.push(
      body({
        name: `counterweight ${t} ${side}`,
        kind: 'counterweight',
        throw: t,
        z: [z - 10, z + 10],
        motion: motion((a, p) => {
          p[0] = 0;
          p[1] = 0;
          p[2] = a + pinDirection(t);
        }),
        drawn: [{ style: 'cut', outline: sector(32, 83.5, 66 * DEG), hatch: metal }],
      }),
    );
  }
  bodies.push(
    body({
      name: `journals ${t}`,
      kind: 'journal',
      throw: t,
      motion: motion((a, p) => {
        p[0] = 0;
        p[1] = 0;
        p[2] = a + pinDirection(t);
      }),
      drawn: [
        { style: 'behind', outline: disc(31.1) },
        { style: 'cut', outline: disc(26.7, 0, R), hatch: { slopeDeg: 30, spacingMm: 2 } },
      ],
    }),
  );
}

const side: SideShape[] = [];
for (let t = 1; t <= 4; t++) {
  const z = (t - 1) * 111.8;
  const phaseRad = pinDirection(t);
  side.push(
    { kind: 'pin', name: `pin ${t}`, throw: t, z0Mm: z - 12, z1Mm: z + 36, phaseRad, centreMm: R, halfHeightMm: 26.7 },
    {
      kind: 'cheek',
      name: `cheek ${t} front`,
      throw: t,
      z0Mm: z - 32,
      z1Mm: z - 12,
      phaseRad,
      centreMm: 16,
      halfHeightMm: 60,
    },
    {
      kind: 'cheek',
      name: `cheek ${t} rear`,
      throw: t,
      z0Mm: z + 36,
      z1Mm: z + 56,
      phaseRad,
      centreMm: 16,
      halfHeightMm: 60,
    },
    {
      kind: 'counterweight',
      name: `counterweight ${t} front`,
      throw: t,
      z0Mm: z - 32,
      z1Mm: z - 12,
      phaseRad: phaseRad + Math.PI,
      centreMm: 50,
      halfHeightMm: 33,
    },
    {
      kind: 'counterweight',
      name: `counterweight ${t} rear`,
      throw: t,
      z0Mm: z + 36,
      z1Mm: z + 56,
      phaseRad: phaseRad + Math.PI,
      centreMm: 50,
      halfHeightMm: 33,
    },
    { kind: 'main', name: `main ${t}`, z0Mm: z - 56, z1Mm: z - 32, phaseRad: 0, centreMm: 0, halfHeightMm: 31 },
    {
      kind: 'rod',
      name: `rod ${2 * t - 1}`,
      cylinder: 2 * t - 1,
      throw: t,
      z0Mm: z - 11,
      z1Mm: z + 11,
      phaseRad,
      centreMm: R,
      halfHeightMm: 36,
    },
    {
      kind: 'rod',
      name: `rod ${2 * t}`,
      cylinder: 2 * t,
      throw: t,
      z0Mm: z + 13,
      z1Mm: z + 35,
      phaseRad,
      centreMm: R,
      halfHeightMm: 36,
    },
  );
}
side.push({
  kind: 'main',
  name: 'main 5',
  z0Mm: 3 * 111.8 + 56,
  z1Mm: 3 * 111.8 + 80,
  phaseRad: 0,
  centreMm: 0,
  halfHeightMm: 31,
});

interface Made {
  readonly a: string;
  readonly b: string;
  readonly parts: readonly [string, string];
  readonly kind: Gap['kind'];
  readonly least: number;
  readonly far: number;
  readonly afterTdcDeg: number;
  readonly cylinder: number;
  readonly turns: 1 | 2;
  readonly limit: number;
  readonly state: GapState;
}
const made: Made[] = [
  {
    a: 'counterweight 2 rear',
    b: 'piston 3',
    parts: ['rim', 'pin boss'],
    kind: 'counterweight-piston',
    least: -0.81,
    far: 92,
    afterTdcDeg: 174,
    cylinder: 3,
    turns: 1,
    limit: 1.52,
    state: 'contact',
  },
  {
    a: 'rod 3',
    b: 'intake lobe 3',
    parts: ['bolt shoulder', ''],
    kind: 'rod-camshaft',
    least: 1.02,
    far: 60,
    afterTdcDeg: 52,
    cylinder: 3,
    turns: 2,
    limit: 1.52,
    state: 'tight',
  },
  {
    a: 'rod 4',
    b: 'block',
    parts: ['bolt shoulder', 'bore bottom 4'],
    kind: 'rod-block',
    least: 2.4,
    far: 40,
    afterTdcDeg: 68,
    cylinder: 4,
    turns: 1,
    limit: 1.52,
    state: 'unproven',
  },
  {
    a: 'rod 3',
    b: 'block',
    parts: ['cap', 'pan rail'],
    kind: 'rod-block',
    least: 3.9,
    far: 50,
    afterTdcDeg: 130,
    cylinder: 3,
    turns: 1,
    limit: 1.52,
    state: 'clears',
  },
  {
    a: 'counterweight 2 rear',
    b: 'piston 4',
    parts: ['corner', 'skirt'],
    kind: 'counterweight-piston',
    least: 1.31,
    far: 90,
    afterTdcDeg: 186,
    cylinder: 4,
    turns: 1,
    limit: 1.52,
    state: 'tight',
  },
  {
    a: 'rod 5',
    b: 'block',
    parts: ['cap', 'pan rail'],
    kind: 'rod-block',
    least: 3.9,
    far: 50,
    afterTdcDeg: 130,
    cylinder: 5,
    turns: 1,
    limit: 1.52,
    state: 'clears',
  },
];
const find = (name: string) => bodies.find((b) => b.name === name)!;
const pairId = (m: Made) => `${m.a} · ${m.b}`;
const turnOf = (m: Made) => m.turns * 2 * Math.PI;
const closestRad = (m: Made) => (cylinderOf(m.cylinder).tdcRad + m.afterTdcDeg * DEG) % turnOf(m);
const gapAt = (m: Made, angle: number) => {
  const d = Math.abs(((angle - closestRad(m) + 1.5 * turnOf(m)) % turnOf(m)) - turnOf(m) / 2);
  return m.least + m.far * Math.sin(Math.min(d, Math.PI) / 2) ** 2;
};
/** Points along the rod or crank, so that the mark turns with something; set apart by the gap. */
const pointsAt = (m: Made, angle: number): GapNow['pointsMm'] => {
  const c = cylinderOf(m.cylinder);
  const pose = new Float64Array(6);
  const on = find(m.b === 'block' ? m.a : m.b);
  on.motion.write(angle, pose);
  const x = m.b.startsWith('piston')
    ? pose[0]! - 22 * Math.sin(c.bankAngleRad)
    : m.b === 'block'
      ? Math.sign(c.bankAngleRad) * 92
      : pose[0]! + 8;
  const y = m.b.startsWith('piston') ? pose[1]! - 22 * Math.cos(c.bankAngleRad) : m.b === 'block' ? -20 : pose[1]! - 16;
  const gap = gapAt(m, angle);
  return [
    [x - gap * Math.sin(c.bankAngleRad), y - gap * Math.cos(c.bankAngleRad)],
    [x, y],
  ];
};

const pairs: Pair[] = made.map((m) => ({
  id: pairId(m),
  kind: m.kind,
  a: find(m.a),
  b: find(m.b),
  periodRad: turnOf(m),
  cylinder: m.cylinder,
  limitMm: m.limit,
  assumed: [],
  key: pairId(m),
  keyShiftRad: 0,
  keyTurnRad: 0,
}));

export function inventedEngine(mirrored: boolean): Engine {
  return { assembly: 'candidate 2', mirrored, cycleRad: 4 * Math.PI, cylinders, bodies, pairs, camAxisMm: cam, side };
}

const flip = (p: readonly [number, number], mirrored: boolean): readonly [number, number] =>
  mirrored ? [-p[0], p[1]] : p;

function gapsOf(states: readonly GapState[] | null, mirrored: boolean): Gap[] {
  return made
    .map((m, k): Gap => {
      const at = closestRad(m);
      const [p, q] = pointsAt(m, at);
      const state = states?.[k] ?? m.state;
      const gapMm = state === m.state ? m.least : m.limit + 1 + k / 10;
      return {
        id: pairId(m),
        kind: m.kind,
        between: [m.a, m.b],
        parts: m.parts,
        gapMm,
        lowerBoundMm: gapMm - 0.0007,
        certified: true,
        budgetSpent: false,
        evaluations: 900,
        slicingMm: 0.01,
        atCrankRad: at,
        pointsMm: [
          [...flip(p, mirrored), 0],
          [...flip(q, mirrored), 0],
        ],
        direction: 'in-plane',
        axialOverlapMm: 6.1,
        limitMm: m.limit,
        state,
        assumed: state === 'unproven' ? ['shoulder height'] : [],
        cylinder: m.cylinder,
        periodRad: turnOf(m),
        deciding: [
          { source: 0, z0Mm: 0, z1Mm: 1 },
          { source: 0, z0Mm: 0, z1Mm: 1 },
        ],
      };
    })
    .sort((a, b) => a.gapMm - a.limitMm - (b.gapMm - b.limitMm));
}

const profiles = new Map<string, Profile>(
  made.map((m) => {
    const stepRad = DEG;
    const count = Math.round(turnOf(m) / stepRad);
    return [
      pairId(m),
      { id: pairId(m), stepRad, gapMm: Float32Array.from({ length: count }, (_, k) => gapAt(m, k * stepRad)) },
    ];
  }),
);

function nowAt(angle: number, cylinder: number, mirrored: boolean): State['now'] {
  const c = cylinderOf(cylinder);
  const from = Math.atan2(Math.sin(angle - c.tdcRad), Math.cos(angle - c.tdcRad));
  return {
    gaps: made.map((m): GapNow => {
      const gapMm = gapAt(m, angle);
      const [p, q] = pointsAt(m, angle);
      const whenClear = m.state === 'unproven' ? 'unproven' : 'clears';
      return {
        id: pairId(m),
        gapMm,
        pointsMm: [flip(p, mirrored), flip(q, mirrored)],
        state: gapMm <= 0 ? 'contact' : gapMm < m.limit ? 'tight' : whenClear,
      };
    }),
    motion: {
      cylinder,
      fromTdcRad: from,
      belowTdcMm: R * (1 - Math.cos(from)) + 2,
      speedMPerS: -R * Math.sin(from) * 0.4,
      accelMPerS2: -8000 * Math.cos(from),
      rodAngleRad: Math.asin((R * Math.sin(from)) / L),
    },
  };
}

export interface Picture {
  readonly mirrored: boolean;
  readonly fits: boolean;
  readonly refused: boolean;
  readonly cylinder: number;
  readonly angleDeg: number;
  readonly units: State['units'];
  /** An engine laid out from a build, shown without gaps. */
  readonly laidOut?: Engine;
}

/** A store that turns and picks, and does nothing else. */
export function inventedStore(picture: Picture): Store {
  const engine = picture.laidOut ?? inventedEngine(picture.mirrored);
  const invented = picture.laidOut === undefined;
  const listeners = new Set<(state: State, changed: ReadonlySet<Changed>) => void>();
  let state: State = {
    doc: {
      format: 'strokewright-build',
      version: 1,
      name: 'Quarry truck V8',
      replaced: 'as it was',
      proposed: 'candidate 2',
      shownUnits: 'both',
      speed: { value: '4200 rpm', from: 'stated' },
      assemblies: [],
    } as unknown as State['doc'],
    assembly: 'candidate 2',
    engine,
    refused: picture.refused
      ? [
          {
            place: 'assemblies[1].crank.stroke',
            value: '12 in',
            rule: 'turns over',
            allowed: 'The rod must be longer than half the stroke plus the offset.',
          },
        ]
      : [],
    figures: {
      strokeMm: 2 * R,
      travelMm: 2 * R,
      rodLengthMm: L,
      rodRatio: L / (2 * R),
      displacementCm3: 6384,
      deckClearanceMm: 0.51,
      compressionHeightMm: CH,
    },
    gaps: !invented ? [] : gapsOf(picture.fits ? made.map(() => 'clears' as const) : null, picture.mirrored),
    profiles,
    cylinder: picture.cylinder,
    crankAngleRad: picture.angleDeg * DEG,
    now: nowAt(picture.angleDeg * DEG, picture.cylinder, picture.mirrored),
    playing: false,
    playRpm: 10,
    units: picture.units,
    held: 'piston',
    picked: null,
    cures: null,
    canUndo: false,
    canRedo: false,
  };
  const set = (part: Partial<State>, ...changed: Changed[]) => {
    state = { ...state, ...part };
    state = { ...state, now: nowAt(state.crankAngleRad, state.cylinder, picture.mirrored) };
    for (const listener of listeners) listener(state, new Set(changed));
  };
  let frame = 0;
  const run = () => {
    set({ crankAngleRad: (state.crankAngleRad + DEG) % engine.cycleRad }, 'angle');
    frame = requestAnimationFrame(run);
  };
  const send = (command: Command): void => {
    const c = engine.cylinders.find((one) => one.number === state.cylinder)!;
    if (command.do === 'turn to') set({ crankAngleRad: command.crankAngleRad }, 'angle');
    else if (command.do === 'pick') set({ picked: command.id }, 'view');
    else if (command.do === 'show cylinder') set({ cylinder: command.number }, 'view', 'angle');
    else if (command.do === 'show units') set({ units: command.units }, 'units');
    else if (command.do === 'play at') set({ playRpm: command.rpm }, 'playing');
    else if (command.do === 'play') {
      set({ playing: true }, 'playing');
      run();
    } else if (command.do === 'pause') {
      cancelAnimationFrame(frame);
      set({ playing: false }, 'playing');
    } else if (command.do === 'step to') {
      const to = command.place === 'tdc' ? c.tdcRad : command.place === 'bdc' ? c.bdcRad : state.gaps[0]!.atCrankRad;
      set({ crankAngleRad: to }, 'angle');
    }
  };
  return {
    get state() {
      return state;
    },
    send,
    watch(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
