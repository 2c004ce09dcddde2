/**
 * An engine of any layout put together in space from its build file and the words of the build document: for checks,
 * imports nothing of the program. Millimetres, radians; seen from the front, clockwise; bodies in frames of their own.
 */
import type { AssemblyFile, BuildFile, Dim, OutlinePoint, OwnEntry } from './buildFile.ts';
import { mm, rad } from './buildFile.ts';
import { lobePoints } from './lobePoints.ts';
import type { CylinderPlace, ThrowPlace } from './places.ts';
import { placesOf } from './places.ts';
import type { XY } from './plane.ts';
import type { At, SliderNumbers } from './poses.ts';
import { pistonAt, rodAt, turning } from './poses.ts';
import { box, bulged, disc } from './random.ts';
import type { Region } from './region.ts';
import { region, together } from './region.ts';

const DEG = Math.PI / 180;

/** The same outline from z0 to z1. */
export interface EvenPiece {
  readonly part: string;
  readonly region: Region;
  readonly z0: number;
  readonly z1: number;
}

/** Its material over a range of z, all of it: at one z when both ends are the same. */
export interface RoundPiece {
  readonly part: string;
  readonly z0: number;
  readonly z1: number;
  readonly centre: number;
  readonly over: (z0: number, z1: number) => Region | null;
}

export interface Solid {
  readonly name: string;
  readonly kind: 'counterweight' | 'rod' | 'piston' | 'lobe' | 'core' | 'bore' | 'case';
  readonly cylinder?: number;
  readonly bank?: number;
  readonly even: readonly EvenPiece[];
  readonly round: readonly RoundPiece[];
  readonly place: (crankRad: number) => At;
}

interface Making {
  readonly file: BuildFile;
  readonly assembly: AssemblyFile;
  readonly cylinders: readonly CylinderPlace[];
  readonly throws: readonly ThrowPlace[];
}

type Dims = Readonly<Record<string, Dim>>;

function ownOf(m: Making, is: (o: OwnEntry) => boolean): OwnEntry | undefined {
  return m.assembly.own?.find(is);
}

function rodDims(m: Making, cylinder: number): Dims {
  return { ...m.assembly.rod, ...ownOf(m, (o) => o.body === 'rod' && o.cylinder === cylinder)?.set };
}

function pistonDims(m: Making, cylinder: number): Dims {
  return { ...m.assembly.piston, ...ownOf(m, (o) => o.body === 'piston' && o.cylinder === cylinder)?.set };
}

function sliderOf(m: Making, c: CylinderPlace): SliderNumbers {
  return {
    r: mm(m.assembly.crank.stroke) / 2,
    l: mm(rodDims(m, c.number)['length']!),
    e: mm(m.file.block.boreOffset) + mm(pistonDims(m, c.number)['pinOffset']!),
    bank: c.bankDeg * DEG,
    alpha0: (c.pinDeg - c.bankDeg) * DEG,
  };
}

/** Every body of the proposed assembly. */
export function solidsOf(file: BuildFile, name = file.proposed): Solid[] {
  const assembly = file.assemblies.find((a) => a.name === name)!;
  const m: Making = { file, assembly, ...placesOf(file) };
  return [
    ...m.cylinders.map((c) => bore(m, c)),
    crankcase(m),
    ...fixedParts(m),
    ...m.throws.flatMap((t) => [cheek(m, t, 'front'), cheek(m, t, 'rear')]),
    ...camshaft(m),
    ...m.cylinders.map((c) => rod(m, c)),
    ...m.cylinders.map((c) => piston(m, c)),
  ];
}

/** A measured outline: points joined by straight edges and bulges. */
export function measured(points: readonly OutlinePoint[]): Region {
  const at = points.map((p): XY => [mm(p.x), mm(p.y)]);
  return region(at.map((p, k) => bulged(p, at[(k + 1) % at.length]!, points[k]!.bulge ?? 0)));
}

function turnedDisc(angleRad: number, away: number, radius: number): Region {
  return region(disc(away * Math.sin(angleRad), away * Math.cos(angleRad), radius));
}

/** Hub, the disc round the pin, the web between their common tangents; and opposite the throw the counterweight. */
function cheek(m: Making, t: ThrowPlace, side: 'front' | 'rear'): Solid {
  const { crank } = m.assembly;
  const own = ownOf(m, (o) => o.body === 'counterweight' && o.throw === t.number && o.side === side);
  const dims: Dims = { ...crank.counterweight, ...own?.set };
  const weighted = crank.weighted === undefined || crank.weighted.some((w) => w.throw === t.number && w.side === side);
  const beside = t.serves.at(side === 'front' ? 0 : -1)!;
  const split = (beside.pinDeg - t.deg) * DEG;
  const r = mm(crank.stroke) / 2;
  const [hub, end] = [mm(dims['hubRadius']!), mm(crank.pinEndRadius)];
  const parts = [turnedDisc(0, 0, hub), turnedDisc(split, r, end)];
  if (r > Math.abs(hub - end)) parts.push(web(r, hub, end, split));
  if (weighted)
    parts.push(
      sector(mm(dims['radius']!), rad(dims['halfAngle']!), mm(dims['cornerRadius']!), own?.phase ? rad(own.phase) : 0),
    );
  const thick = mm(crank.cheekThickness);
  const half = mm(crank.journalLength) / 2;
  const z0 = t.z + (own?.axialShift ? mm(own.axialShift) : 0) + (side === 'front' ? -half - thick : half);
  const outline = own?.outline ? measured(own.outline) : together(parts);
  const called = weighted || own?.outline ? 'counterweight' : 'cheek';
  return {
    name: `${called} ${t.number} ${side}`,
    kind: 'counterweight',
    even: [{ part: called, region: outline, z0, z1: z0 + thick }],
    round: [],
    place: (crankRad) => turning(0, 0, 1, t.deg * DEG, crankRad),
  };
}

/** Between the common outer tangents of two discs a distance r apart, the second in direction `turn`. */
function web(r: number, hub: number, end: number, turn: number): Region {
  const ny = (hub - end) / r;
  const nx = Math.sqrt(1 - ny * ny);
  const points: XY[] = [
    [hub * nx, hub * ny],
    [end * nx, r + end * ny],
    [-end * nx, r + end * ny],
    [-hub * nx, hub * ny],
  ];
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const at = points.map(([x, y]): XY => [c * x + s * y, -s * x + c * y]);
  return region(at.map((p, k) => bulged(p, at[(k + 1) % 4]!, 0)));
}

/** Rim, corners that touch rim and flank, flanks to the axis; its middle opposite +y, turned by `turn`. */
function sector(R: number, half: number, corner: number, turn: number): Region {
  // Directions counted from the middle of the weight, toward +x when seen with the pin up.
  const at = (angle: number, away: number): XY => {
    const down = Math.PI - angle + turn;
    return [away * Math.sin(down), away * Math.cos(down)];
  };
  const inset = corner > 0 ? Math.asin(corner / (R - corner)) : 0;
  const foot = Math.sqrt((R - corner) ** 2 - corner ** 2);
  const arcBetween = (o: XY, p: XY, q: XY): ReturnType<typeof bulged> => {
    const start = Math.atan2(p[1] - o[1], p[0] - o[0]);
    const sweep = Math.atan2(q[1] - o[1], q[0] - o[0]) - start;
    const r0 = Math.hypot(p[0] - o[0], p[1] - o[1]);
    const TURN = 2 * Math.PI;
    return { kind: 'arc', cx: o[0], cy: o[1], r: r0, startRad: start, sweepRad: ((sweep % TURN) + TURN) % TURN };
  };
  const [left, right] = [at(-half, foot), at(half, foot)];
  const edges = [bulged([0, 0], left, 0)];
  if (corner > 0) edges.push(arcBetween(at(-half + inset, R - corner), left, at(-half + inset, R)));
  if (half - inset > 1e-12) edges.push(arcBetween([0, 0], at(-half + inset, R), at(half - inset, R)));
  if (corner > 0) edges.push(arcBetween(at(half - inset, R - corner), at(half - inset, R), right));
  edges.push(bulged(right, [0, 0], 0));
  return region(edges);
}

/** Big end with its bolt bosses; in the beam's width with beam and small end; small end. Crankpin at the origin, piston pin on +y. */
function rod(m: Making, c: CylinderPlace): Solid {
  const d = rodDims(m, c.number);
  const own = ownOf(m, (o) => o.body === 'rod' && o.cylinder === c.number);
  const get = (key: string): number => mm(d[key]!);
  const t = m.throws[c.throw - 1]!;
  const rear = own?.facing === undefined ? c.boreZ > t.z : own.facing === 'rear';
  const middle = c.boreZ + (own?.axialShift ? mm(own.axialShift) : 0);
  const big = middle + (d['beamOffset'] ? (rear ? 1 : -1) * get('beamOffset') : 0);
  const [in0, in1] = [get('boltSpread') - get('boltBossRadius'), get('boltSpread') + get('boltBossRadius')];
  const [low, high] = [-get('boltLength'), get('shoulderHeight')];
  const end = [
    region(disc(0, 0, get('bigEndRadius'))),
    region(box(in0, low, in1, high)),
    region(box(-in1, low, -in0, high)),
  ];
  const half = get('beamWidth') / 2;
  const small = region(disc(0, get('length'), get('smallEndRadius')));
  const beam = region(box(-half, 0, half, get('length')));
  const piece = (part: string, shape: Region, z: number, width: number): EvenPiece => ({
    part,
    region: shape,
    z0: z - width / 2,
    z1: z + width / 2,
  });
  const slider = sliderOf(m, c);
  return {
    name: `rod ${c.number}`,
    kind: 'rod',
    cylinder: c.number,
    bank: c.bank,
    even: [
      piece('big end', together(end), big, get('bigEndWidth')),
      piece('beam', together([...end, beam, small]), middle, get('beamThickness')),
      piece('small end', small, middle, get('smallEndWidth')),
    ],
    round: [],
    place: (crankRad) => rodAt(slider, crankRad),
  };
}

const chord = (radius: number, away: number): number => Math.sqrt(Math.max(0, radius * radius - away * away));

/** Nearest and farthest that a range comes to a centre. */
function reachOf(z0: number, z1: number, centre: number): readonly [number, number] {
  const [p, q] = [z0 - centre, z1 - centre];
  return [p <= 0 && q >= 0 ? 0 : Math.min(Math.abs(p), Math.abs(q)), Math.max(Math.abs(p), Math.abs(q))];
}

/** Crown and round wall, cut away beside the pin bosses; the two bosses. Bore axis on y, pin at height 0. */
function piston(m: Making, c: CylinderPlace): Solid {
  const d = pistonDims(m, c.number);
  const get = (key: string): number => mm(d[key]!);
  const R = get('skirtDiameter') / 2;
  const inside = R - get('skirtThickness');
  const top = get('compressionHeight');
  const under = top - get('crownThickness');
  const panel = Math.min(R, R * Math.sin(rad(d['skirtHalfAngle']!)));
  const z = c.boreZ;
  const wall = (part: string, from: number, to: number, low: number): RoundPiece => ({
    part,
    z0: z + from,
    z1: z + to,
    centre: z,
    over: (z0, z1) => {
      const [near, far] = reachOf(z0, z1, z);
      const [x, hollow] = [chord(R, near), chord(inside, far)];
      if (x === 0) return null;
      if (hollow === 0 || low >= under) return region(box(-x, Math.min(low, under), x, top));
      const points: XY[] = [
        [-x, low],
        [-hollow, low],
        [-hollow, under],
        [hollow, under],
        [hollow, low],
        [x, low],
        [x, top],
        [-x, top],
      ];
      return region(points.map((p, k) => bulged(p, points[(k + 1) % 8]!, 0)));
    },
  });
  const pin = get('pinOffset');
  const round = [wall('skirt', -panel, panel, -get('skirtBelowPin'))];
  const relief = -get('reliefBelowPin');
  if (panel < R) round.push(wall('wall', -R, -panel, relief), wall('wall', panel, R, relief));
  const b = get('bossRadius');
  const boss = together([region(box(pin - b, 0, pin + b, under)), region(disc(pin, 0, b))]);
  const [near, far] = [get('bossGap') / 2, get('bossSpan') / 2];
  const slider = sliderOf(m, c);
  return {
    name: `piston ${c.number}`,
    kind: 'piston',
    cylinder: c.number,
    bank: c.bank,
    even: [
      { part: 'pin boss', region: boss, z0: z - far, z1: z - near },
      { part: 'pin boss', region: boss, z0: z + near, z1: z + far },
    ],
    round,
    place: (crankRad) => pistonAt(slider, mm(m.file.block.boreOffset), crankRad),
  };
}

/** The wall about a bore from its lower end to the deck, each side with its notch; in the bank's frame. */
function bore(m: Making, c: CylinderPlace): Solid {
  const { block } = m.file;
  const r = mm(block.bore) / 2;
  const outer = r + mm(block.boreWall);
  const x = mm(block.boreOffset);
  const [low, deck] = [mm(block.boreBottom), mm(block.deckHeight)];
  const wall = (sign: 1 | -1, from: number, to: number, bottom: number): RoundPiece => ({
    part: 'bore bottom',
    z0: c.boreZ + from,
    z1: c.boreZ + to,
    centre: c.boreZ,
    over: (z0, z1) => {
      const [near, far] = reachOf(z0, z1, c.boreZ);
      const [x0, x1] = [chord(r, far), chord(outer, near)];
      if (x1 <= x0) return null;
      return region(sign > 0 ? box(x + x0, bottom, x + x1, deck) : box(x - x1, bottom, x - x0, deck));
    },
  });
  const notch = block.boreNotch;
  const round = ([1, -1] as const).flatMap((sign): RoundPiece[] => {
    const notched = notch && (notch.side === 'both' || notch.side === (sign > 0 ? 'after-tdc' : 'before-tdc'));
    if (!notched) return [wall(sign, -outer, outer, low)];
    const half = mm(notch.width) / 2;
    return [
      wall(sign, -outer, -half, low),
      wall(sign, -half, half, low + mm(notch.depth)),
      wall(sign, half, outer, low),
    ];
  });
  const at = turning(0, 0, 0, c.bankDeg * DEG, 0);
  return { name: `bore ${c.number}`, kind: 'bore', cylinder: c.number, even: [], round, place: () => at };
}

/** On each side: the wall up from the rail, its flange, and the shelf to the outer lower corner of the outermost bore. */
function crankcase(m: Making): Solid {
  const { block } = m.file;
  const outer = mm(block.bore) / 2 + mm(block.boreWall);
  const rail = mm(block.panRail.height);
  const inner = mm(block.panRail.halfWidth);
  const w = mm(block.panRail.wall);
  const banks = m.cylinders.map((c) => c.bankDeg * DEG);
  const z0 = Math.min(...m.cylinders.map((c) => c.boreZ)) - outer;
  const z1 = Math.max(...m.cylinders.map((c) => c.boreZ)) + outer;
  const side = (sign: 1 | -1): EvenPiece => {
    const bank = sign > 0 ? Math.max(...banks) : Math.min(...banks);
    const across = sign * outer + mm(block.boreOffset);
    const up = mm(block.boreBottom);
    const cx = sign * (up * Math.sin(bank) + across * Math.cos(bank));
    const cy = up * Math.cos(bank) - across * Math.sin(bank);
    const boxes: [number, number, number, number][] = [[inner, rail, inner + 2 * w, rail + w]];
    if (cx < inner) boxes.push([inner, rail, inner + w, cy + w], [cx, cy, inner + w, cy + w]);
    else boxes.push([inner, rail, inner + w, cy + w], [inner, cy, Math.max(cx, inner + w), cy + w]);
    const shapes = boxes.map(([x0, y0, x1, y1]) => region(sign > 0 ? box(x0, y0, x1, y1) : box(-x1, y0, -x0, y1)));
    return { part: 'pan rail', region: together(shapes), z0, z1 };
  };
  return { name: 'crankcase wall', kind: 'case', even: [side(1), side(-1)], round: [], place: standing };
}

const standing = (): At => ({ x: 0, y: 0, turn: 0 });

function fixedParts(m: Making): Solid[] {
  return (m.file.block.fixed ?? []).map((f) => ({
    name: f.name,
    kind: 'case',
    even: [{ part: f.name, region: measured(f.outline), z0: mm(f.front), z1: mm(f.rear) }],
    round: [],
    place: standing,
  }));
}

/** Two lobes a cylinder in the phase in which they open its valves, and the core between them. */
function camshaft(m: Making): Solid[] {
  const cam = m.assembly.camshaft;
  const axis = m.file.block.camAxis;
  if (cam === undefined || axis === undefined) return [];
  const [x, y] = [mm(axis.across), mm(axis.height)];
  const ratio = cam.sense === 'same' ? 0.5 : -0.5;
  const first = sliderOf(m, m.cylinders[0]!);
  // The degree wheel is set on cylinder 1, whose piston is highest when crank and rod are in line.
  const highest = Math.asin(first.e / (first.r + first.l));
  const clouds = new Map<string, Region>();
  const lobe = (c: CylinderPlace, valve: 'intake' | 'exhaust'): Solid => {
    const own = ownOf(m, (o) => o.body === 'lobe' && o.cylinder === c.number && o.valve === valve);
    const lift = mm(own?.lift ?? cam[`${valve}Lift`]);
    const duration = rad(own?.duration ?? cam[`${valve}Duration`]);
    const flank = own?.opening ?? cam[`${valve}Opening`];
    const opening = flank === undefined ? duration / 2 : rad(flank);
    const key = `${lift} ${duration} ${opening}`;
    const shape =
      clouds.get(key) ??
      region(
        lobePoints({
          base: mm(cam.baseCircle) / 2,
          lift,
          duration,
          opening,
          clockwise: cam.sense === 'same',
          atLift: mm(cam.durationAtLift),
          law: cam.law,
          roller: cam.follower.radius ? mm(cam.follower.radius) : 0,
        }).map((p, k, all) => bulged(p, all[(k + 1) % all.length]!, 0)),
      );
    clouds.set(key, shape);
    const early = valve === 'exhaust' ? 2 * rad(cam.lobeSeparation) : 0;
    // A camshaft put in ahead of its mark opens everything so much sooner.
    const ahead = cam.advance === undefined ? 0 : rad(cam.advance);
    const widest = (c.firesDeg + 360) * DEG + highest + rad(cam.intakeCentreline) - ahead - early;
    const toward = rad(cam.followerAngles[c.bank - 1]!);
    const middle = c.boreZ + mm(cam[`${valve}Axial`]) + (own?.axialShift ? mm(own.axialShift) : 0);
    const half = mm(cam.lobeWidth) / 2;
    return {
      name: `${valve} lobe ${c.number}`,
      kind: 'lobe',
      cylinder: c.number,
      even: [{ part: 'lobe', region: shape, z0: middle - half, z1: middle + half }],
      round: [],
      place: (crankRad) => ({ x, y, turn: toward + ratio * (crankRad - widest) }),
    };
  };
  const bores = m.cylinders.map((c) => c.boreZ);
  const r = mm(m.file.block.bore) / 2;
  const core: Solid = {
    name: 'camshaft core',
    kind: 'core',
    even: [
      {
        part: 'core',
        region: region(disc(0, 0, mm(cam.coreDiameter) / 2)),
        z0: Math.min(...bores) - r,
        z1: Math.max(...bores) + r,
      },
    ],
    round: [],
    place: (crankRad) => turning(x, y, ratio, 0, crankRad),
  };
  return [...m.cylinders.flatMap((c) => [lobe(c, 'intake'), lobe(c, 'exhaust')]), core];
}
