/**
 * Random builds in every layout, plausible in their proportions and careless about clearances: counterweights, rods and
 * lobes are sized about the place where they meet the next part, so that some clear, some touch and some run into one
 * another. Imports nothing of the program; what its rules refuse is left to them.
 */
import type { BuildFile, Dim, OutlinePoint, OwnEntry } from '../oracle/buildFile.ts';
import { mm } from '../oracle/buildFile.ts';
import { banksOf } from '../oracle/places.ts';
import { between, seeded } from '../oracle/random.ts';

export const RANDOM_LAYOUTS = [
  'single',
  'inline-3',
  'inline-4',
  'inline-5',
  'inline-6',
  'v6-90-shared-pins',
  'v6-90-split-pins',
  'v6-60-split-pins',
  'v8-cross-plane',
  'v8-cross-plane-1-left',
  'v8-flat-plane',
  'flat-4',
  'free',
] as const;

/** An order in which each named layout fires. */
const ORDERS: Readonly<Record<string, readonly (readonly number[])[]>> = {
  single: [[1]],
  'inline-3': [[1, 3, 2]],
  'inline-4': [
    [1, 3, 4, 2],
    [1, 2, 4, 3],
  ],
  'inline-5': [[1, 2, 4, 5, 3]],
  'inline-6': [
    [1, 5, 3, 6, 2, 4],
    [1, 2, 4, 6, 5, 3],
  ],
  'v6-90-shared-pins': [[1, 6, 5, 4, 3, 2]],
  'v6-90-split-pins': [[1, 6, 5, 4, 3, 2]],
  'v6-60-split-pins': [[1, 2, 3, 4, 5, 6]],
  'v8-cross-plane': [
    [1, 5, 6, 3, 4, 2, 7, 8],
    [1, 2, 7, 3, 4, 5, 6, 8],
    [1, 2, 7, 8, 4, 5, 6, 3],
  ],
  'v8-cross-plane-1-left': [
    [1, 8, 4, 3, 6, 5, 7, 2],
    [1, 8, 7, 2, 6, 5, 4, 3],
  ],
  'v8-flat-plane': [[1, 8, 3, 6, 7, 2, 5, 4]],
  'flat-4': [[1, 3, 2, 4]],
};

export type Random = () => number;

export interface RandomDim extends Dim {
  readonly from: 'measured' | 'stated' | 'assumed';
}

/** The file with the fields that only the program reads. */
export type RandomBuild = BuildFile & { readonly format: string };

const chance = (random: Random, p: number): boolean => random() < p;
const pick = <T>(random: Random, from: readonly T[]): T => from[Math.floor(random() * from.length)]!;

/** A length in the unit at hand: thousandths of a millimetre or ten-thousandths of an inch. */
function length(random: Random, value: number): RandomDim {
  const from = pick(random, ['measured', 'stated', 'stated'] as const);
  const sign = value < 0 ? '-' : '';
  const size = Math.abs(value);
  if (chance(random, 0.5)) return { value: `${sign}${size.toFixed(3)} mm`, from };
  if (chance(random, 0.1)) return { value: `${sign}${(size / 0.0254).toFixed(1)} thou`, from };
  const tolerance = chance(random, 0.1) ? ' ±0.0005' : '';
  return { value: `${sign}${(size / 25.4).toFixed(4).replace(/^0\./, '.')}${tolerance} in`, from };
}

function angle(random: Random, deg: number): RandomDim {
  return { value: `${deg.toFixed(2)} deg`, from: pick(random, ['measured', 'stated'] as const) };
}

/** A closed outline seen from a point all round, counterclockwise, some edges bent. */
function starOutline(
  random: Random,
  cx: number,
  cy: number,
  radius: (angle: number) => number,
  n = 5 + Math.floor(9 * random()),
): OutlinePoint[] {
  return Array.from({ length: n }, (_, k) => {
    const a = ((k + 0.4 * random()) / n) * 2 * Math.PI;
    const r = radius(a);
    const kind = random();
    const bulge = kind < 0.5 ? 0 : kind < 0.85 ? between(random, 0.02, 0.12) : between(random, -0.03, -0.01);
    return {
      x: length(random, cx + r * Math.cos(a)),
      y: length(random, cy + r * Math.sin(a)),
      ...(bulge === 0 ? {} : { bulge: Number(bulge.toFixed(4)) }),
    };
  });
}

interface Free {
  readonly layout: NonNullable<BuildFile['block']['freeLayout']>;
  readonly order: readonly number[];
  readonly banks: readonly number[];
  readonly shared: boolean;
  /** The bank of the first throw's first cylinder. */
  readonly first: number;
}

/** One or two banks at any angle, throws in any direction, one or two cylinders each, split pins now and then. */
function freeLayout(random: Random): Free {
  const two = chance(random, 0.7);
  const banks = two
    ? [between(random, -70, -20), between(random, 15, 75)]
    : [chance(random, 0.5) ? 0 : between(random, -40, 40)];
  if (two && chance(random, 0.5)) banks.reverse();
  const shared = two && chance(random, 0.7);
  const throws = 1 + Math.floor(random() * (shared ? 4 : 5)) + (two && !shared ? 1 : 0);
  const phases = Array.from({ length: throws }, () =>
    chance(random, 0.5) ? 30 * Math.floor(12 * random()) : between(random, 0, 360),
  );
  const cylinders: NonNullable<BuildFile['block']['freeLayout']>['cylinders'][number][] = [];
  const split = shared && chance(random, 0.4) ? between(random, -35, 35) : 0;
  const first = chance(random, 0.7) ? 1 : 2;
  for (let t = 1; t <= throws; t++) {
    const on = !two ? [1] : shared ? [first, 3 - first] : [t % 2 === 0 ? 3 - first : first];
    for (const bank of on) {
      cylinders.push({
        cylinder: cylinders.length + 1,
        bank,
        throw: t,
        ...(split === 0 ? {} : { pinSplit: angle(random, bank === 1 ? -split / 2 : split / 2) }),
      });
    }
  }
  const layout = {
    banks: banks.map((deg) => ({ angle: angle(random, deg) })),
    throws: phases.map((deg) => ({ phase: angle(random, deg) })),
    cylinders,
  };
  return { layout, order: orderOf(random, layout), banks, shared, first };
}

/** Tops in turn, each cylinder in one or the other turn of its cycle. */
function orderOf(random: Random, free: NonNullable<BuildFile['block']['freeLayout']>): number[] {
  const top = free.cylinders.map((c) => {
    const pin = mm(free.throws[c.throw - 1]!.phase) + (c.pinSplit ? mm(c.pinSplit) : 0);
    return mm(free.banks[c.bank - 1]!.angle) - pin;
  });
  const after = top.map((t, k) => {
    const on = (((t - top[0]!) % 360) + 360) % 360;
    return { cylinder: k + 1, at: k === 0 ? 0 : on + (on < 1 || chance(random, 0.5) ? 360 : 0) };
  });
  return after.sort((p, q) => p.at - q.at).map((p) => p.cylinder);
}

/** A build that may break a rule here or there; the same for the same random numbers. */
export function randomBuild(random: Random, layout: string = pick(random, RANDOM_LAYOUTS)): RandomBuild {
  return unlikeFlanks(builtAtRandom(random, layout));
}

/** Every third camshaft has flanks unlike each other. Drawn from the build itself, so that what is known of a seed stays so. */
function unlikeFlanks(build: RandomBuild): RandomBuild {
  const [assembly] = build.assemblies;
  const cam = assembly?.camshaft;
  if (assembly === undefined || cam === undefined) return build;
  const random = seeded([...JSON.stringify(build)].reduce((sum, c) => (sum * 31 + c.charCodeAt(0)) | 0, 7));
  if (!chance(random, 0.33)) return build;
  // The rules allow from a quarter to three quarters of the duration.
  const opening = (duration: Dim): Dim => angle(random, mm(duration) * between(random, 0.4, 0.6));
  const camshaft = {
    ...cam,
    intakeOpening: opening(cam.intakeDuration),
    exhaustOpening: opening(cam.exhaustDuration),
  };
  const own = assembly.own?.map((o) =>
    o.body === 'lobe' && o.duration !== undefined ? { ...o, opening: opening(o.duration) } : o,
  );
  return { ...build, assemblies: [{ ...assembly, camshaft, ...(own === undefined ? {} : { own }) }] };
}

function builtAtRandom(random: Random, layout: string): RandomBuild {
  const L = (value: number): RandomDim => length(random, value);
  const A = (deg: number): RandomDim => angle(random, deg);
  const u = (low: number, high: number): number => between(random, low, high);
  const free = layout === 'free' ? freeLayout(random) : undefined;
  const banks = free?.banks ?? [...new Set(banksOf(layout)!)];
  const vee = banks.length === 2;
  const shared = free?.shared ?? layout.startsWith('v');
  const cylinders = free?.layout.cylinders.length ?? banksOf(layout)!.length;
  const throws = free?.layout.throws.length ?? (shared ? cylinders / 2 : cylinders);

  const B = chance(random, 0.1) ? u(35, 160) : u(70, 110);
  const S = B * u(0.65, 1.2);
  const r = S / 2;
  const pinOffset = chance(random, 0.5) ? 0 : B * u(-0.02, 0.02);
  const boreOffset = chance(random, 0.7) ? 0 : B * u(-0.06, 0.06);
  const e = pinOffset + boreOffset;
  const l = Math.max(S * u(1.35, 2.1), r + Math.abs(e) + 1);
  const journal = B * u(0.42, 0.58);
  const main = B * u(0.5, 0.7);
  const bigEnd = (journal / 2) * u(1.2, 1.55);
  const bigWidth = B * u(0.2, 0.29);
  const beamThick = bigWidth * u(0.5, 0.9);
  const pin = B * u(0.2, 0.26);
  const smallEnd = (pin / 2) * u(1.25, 1.55);
  const pair = shared ? 2 : 1;
  const beamOffset = shared && chance(random, 0.3) ? bigWidth * u(0, 0.08) : 0;
  const sign = shared ? (chance(random, 0.8) ? 1 : -1) : free?.first === 2 ? -1 : 1;
  const journalLength = bigWidth * pair * u(1.02, 1.09) + 2 * beamOffset;
  const cheek = B * u(0.13, 0.24);
  const web = B * u(0.15, 0.28);
  const apart = journalLength + 2 * cheek + web;
  // Throws of their own for opposed cylinders stand one behind another, two to a bore spacing.
  const offset = !vee ? 0 : sign * (shared ? bigWidth * u(1.005, 1.06) : Math.max(B * u(0.5, 0.7), apart * 1.01));
  const room = vee && !shared ? Math.abs(offset) + apart * 1.01 : apart * 1.01;
  const space = Math.max(B * u(1.05, 1.25), room);

  const top = Math.sqrt((l + r) ** 2 - e * e);
  const bottom = Math.sqrt((l - r) ** 2 - e * e);
  const height = B * u(0.32, 0.52);
  const skirtBelow = B * u(0.18, 0.42);
  const deck = top + height + u(-0.6, 1.5);
  const halfBank = vee ? (Math.abs(banks[0]! - banks[1]!) / 2) * (Math.PI / 180) : Math.PI / 2;
  const least = halfBank < 1.5 ? ((B / 2) * Math.cos(halfBank)) / Math.sin(halfBank) + 1 : 0;
  // The skirt leaves the bore by some millimetres at the bottom.
  const boreBottom = Math.max(least + Math.abs(boreOffset) * 2, bottom - skirtBelow + B * u(-0.1, 0.25), B * 0.3);
  const hub = Math.max((main / 2) * u(1.01, 1.3), B * 0.28);
  // The rim about where it would meet the skirt at the bottom.
  const radius = Math.max(hub + B * 0.06, Math.min(bottom - skirtBelow + B * u(-0.09, 0.06), B * 1.1));
  const corner = chance(random, 0.2) ? 0 : Math.min((radius - hub) * u(0.1, 0.8), radius * 0.2);
  const pinEnd = (journal / 2) * u(1.1, 1.5);

  const boreWall = B * u(0.04, 0.09);
  const railWall = B * u(0.05, 0.1);
  const lean = Math.max(...banks.map((b) => (Math.abs(b) * Math.PI) / 180));
  const cornerHeight = boreBottom * Math.cos(lean) - (B / 2 + boreWall + Math.abs(boreOffset)) * Math.sin(lean);
  const rail = Math.min(-B * u(-0.1, 0.9), cornerHeight - railWall * 1.1);
  const inner = Math.max(radius, r + bigEnd * 1.15) + B * u(-0.08, 0.2);

  const base = B * u(0.24, 0.4);
  const lift = B * u(0.05, 0.085);
  const flat = chance(random, 0.35);
  const axial = shared ? Math.abs(offset) * u(0.96, 1.03) : space * u(0.16, 0.24);
  const cam = layout === 'single' ? chance(random, 0.5) : chance(random, 0.75);
  const wantAxis = vee
    ? { across: chance(random, 0.5) ? 0 : B * u(-0.03, 0.03), height: r + bigEnd + base * u(0.5, 1.0) + lift * u(0, 1) }
    : { across: B * u(0.75, 1.1) * (chance(random, 0.5) ? 1 : -1), height: B * u(0.5, 1.2) };
  const followers = vee
    ? banks.map((b) => b + (chance(random, 0.7) ? 0 : u(-6, 6)))
    : [chance(random, 0.5) ? 0 : u(-20, 20)];

  const weight = { radius: L(radius), halfAngle: A(u(40, 89)), hubRadius: L(hub), cornerRadius: L(corner) };
  const weighted = chance(random, 0.7)
    ? undefined
    : Array.from({ length: throws }, (_, k) => k + 1).flatMap((t) =>
        (['front', 'rear'] as const).filter(() => chance(random, 0.6)).map((side) => ({ throw: t, side })),
      );
  const bossSpan = B * u(0.55, 0.75);
  const relief = chance(random, 0.3) ? skirtBelow * u(0.2, 1) : B * u(-0.12, 0.1);
  const smallWidth = bigWidth * u(0.75, 1.02);
  const rod: Record<string, RandomDim> = {
    length: L(l),
    bigEndRadius: L(bigEnd),
    bigEndWidth: L(bigWidth),
    boltSpread: L((journal / 2) * u(1.05, 1.3)),
    boltBossRadius: L(B * u(0.05, 0.09)),
    shoulderHeight: L(bigEnd * u(0.35, 0.85)),
    boltLength: L(bigEnd * u(0.65, 1.05)),
    beamWidth: L(smallEnd * u(0.9, 1.8)),
    beamThickness: L(Math.min(beamThick, smallEnd)),
    smallEndRadius: L(smallEnd),
    smallEndWidth: L(smallWidth),
    ...(beamOffset === 0 ? {} : { beamOffset: L(beamOffset) }),
  };
  const piston: Record<string, RandomDim> = {
    compressionHeight: L(height),
    pinOffset: L(pinOffset),
    pinDiameter: L(pin),
    skirtDiameter: L(B - u(0.03, 0.12)),
    skirtBelowPin: L(skirtBelow),
    skirtThickness: L(B * u(0.03, 0.07)),
    skirtHalfAngle: A(chance(random, 0.1) ? 90 : u(22, 60)),
    reliefBelowPin: L(Math.min(relief, skirtBelow * 0.999)),
    crownThickness: L((height - pin / 2) * u(0.3, 0.9)),
    bossGap: L(Math.min(smallWidth * u(1.03, 1.2), bossSpan * 0.9)),
    bossSpan: L(bossSpan),
    bossRadius: L((pin / 2) * u(1.25, 1.75)),
  };
  const own: OwnEntry[] = [];
  const shift = (): RandomDim => L(u(-0.15, 0.15));
  for (let t = 1; t <= throws; t++) {
    for (const side of ['front', 'rear'] as const) {
      if (!chance(random, 0.15)) continue;
      if (weighted !== undefined && !weighted.some((w) => w.throw === t && w.side === side)) continue;
      const kind = random();
      if (kind < 0.3) {
        // Round the axis and far enough out on every side to be a cheek.
        const up = (r + journal / 2) * 1.3;
        const shape = (a: number): number => (Math.sin(a) > -0.3 ? up : Math.max(hub * 1.1, radius * u(0.85, 1.02)));
        const outline = starOutline(random, 0, 0, shape, 14 + Math.floor(8 * random()));
        own.push({ body: 'counterweight', throw: t, side, outline, ...{ outlineFrom: 'measured' } });
      } else {
        own.push({
          body: 'counterweight',
          throw: t,
          side,
          ...(kind < 0.8 ? { set: { radius: L(radius + u(-2, 2)) } } : {}),
          ...(chance(random, 0.5) ? { axialShift: shift() } : {}),
          ...(chance(random, 0.5) ? { phase: A(u(-8, 8)) } : {}),
        });
      }
    }
  }
  for (let c = 1; c <= cylinders; c++) {
    if (chance(random, 0.12))
      own.push({
        body: 'rod',
        cylinder: c,
        set: pick(random, [
          { boltLength: L(bigEnd * u(0.8, 1.1)) },
          { bigEndRadius: L(bigEnd * u(1, 1.08)) },
          { length: L(l + u(-0.2, 0.2)) },
          { shoulderHeight: L(bigEnd * u(0.5, 0.9)) },
        ]),
        ...(chance(random, 0.3) ? { axialShift: L(u(-0.05, 0.05)) } : {}),
      });
    if (chance(random, 0.12))
      own.push({
        body: 'piston',
        cylinder: c,
        set: pick(random, [
          { skirtBelowPin: L(skirtBelow + u(0, 2)) },
          { compressionHeight: L(height + u(-0.2, 0.2)) },
          { pinOffset: L(pinOffset + u(-0.4, 0.4)) },
          { bossRadius: L((pin / 2) * u(1.4, 1.8)) },
        ]),
      });
    if (cam && chance(random, 0.1))
      own.push({
        body: 'lobe',
        cylinder: c,
        valve: pick(random, ['intake', 'exhaust'] as const),
        ...(chance(random, 0.6) ? { lift: L(lift * u(0.95, 1.05)) } : { duration: A(u(210, 260)) }),
        ...(chance(random, 0.5) ? { axialShift: shift() } : {}),
      });
  }
  const fixed = Array.from({ length: chance(random, 0.3) ? 1 + Math.floor(2 * random()) : 0 }, (_, k) => {
    const way = u(0, 2 * Math.PI);
    const away = Math.max(radius, r + bigEnd) + B * u(0.05, 0.25);
    const z = u(-0.5, throws - 0.5) * space;
    return {
      name: `fixed part ${k + 1}`,
      front: L(z),
      rear: L(z + B * u(0.1, 0.6)),
      outline: starOutline(random, away * Math.cos(way), -Math.abs(away * Math.sin(way)), () => B * u(0.08, 0.2)),
      from: 'measured' as const,
    };
  });
  const assembly = {
    name: 'Proposed',
    route: 'made up',
    crank: {
      stroke: L(S),
      rodJournal: L(journal),
      mainJournal: L(main),
      journalLength: L(journalLength),
      cheekThickness: L(cheek),
      pinEndRadius: L(pinEnd),
      counterweight: weight,
      ...(weighted === undefined ? {} : { weighted }),
    },
    rod,
    piston,
    ...(cam
      ? {
          camshaft: {
            baseCircle: L(base),
            intakeLift: L(lift),
            exhaustLift: L(lift * u(0.95, 1.05)),
            intakeDuration: A(u(205, 260)),
            exhaustDuration: A(u(205, 265)),
            durationAtLift: L(Math.min(1.27, lift * 0.3)),
            lobeSeparation: A(u(102, 116)),
            intakeCentreline: A(u(98, 114)),
            sense: pick(random, ['same', 'opposite']),
            law: pick(random, ['3-4-5', 'cycloidal']),
            follower: flat ? { kind: 'flat' } : { kind: 'roller', radius: L(B * u(0.08, 0.14)) },
            followerAngles: followers.map(A),
            coreDiameter: L(base * u(0.75, 0.98)),
            lobeWidth: L(Math.min(B * u(0.1, 0.17), axial * 0.9)),
            intakeAxial: L(axial),
            exhaustAxial: L(-axial),
          },
        }
      : {}),
    ...(own.length === 0 ? {} : { own }),
  };
  const notch = chance(random, 0.4)
    ? {
        boreNotch: {
          depth: L(B * u(0.02, 0.12)),
          width: L(B * u(0.2, 0.5)),
          side: pick(random, ['after-tdc', 'before-tdc', 'both']),
        },
      }
    : {};
  return {
    format: 'strokewright-build',
    ...{ version: 1, name: `Random ${layout}`, replaced: 'Proposed', shownUnits: pick(random, ['in', 'mm', 'both']) },
    ...{ speed: { value: '5000 rpm', from: 'stated' } },
    proposed: 'Proposed',
    block: {
      layout,
      ...(free === undefined ? {} : { freeLayout: free.layout }),
      rotation: chance(random, 0.7) ? 'clockwise' : 'counterclockwise',
      firingOrder: free?.order ?? pick(random, ORDERS[layout]!),
      bore: L(B),
      deckHeight: L(deck),
      boreSpacing: L(space),
      bankOffset: vee ? L(offset) : L(0),
      boreOffset: L(boreOffset),
      boreBottom: L(boreBottom),
      boreWall: L(boreWall),
      ...notch,
      ...(cam ? { camAxis: { across: L(wantAxis.across), height: L(wantAxis.height) } } : {}),
      panRail: { height: L(rail), halfWidth: L(inner), wall: L(railWall) },
      ...{ bulkhead: { thickness: L(web * 0.98), mainBore: L(main * 1.05) } },
      ...{ gasketThickness: L(1) },
      ...(fixed.length === 0 ? {} : { fixed }),
    },
    assemblies: [assembly],
  } as RandomBuild;
}
