/**
 * A cross-plane V8 in absolute x, y, z, written out from the numbers of the example build and the words of the build
 * document alone: imports nothing of the program. Millimetres, radians.
 *
 * Seen from the front: x right, y up, z to the flywheel. Angles from up, growing as the crank turns; for an engine that
 * turns counterclockwise everything is placed mirrored in x, as it really stands.
 */
import type { Edge, Shape, XY } from './plane.ts';
import { placed, shape } from './plane.ts';
import type { At, SliderNumbers } from './poses.ts';
import { pistonAt, rodAt, turning } from './poses.ts';
import { box, bulged, disc } from './random.ts';

const IN = 25.4;
const DEG = Math.PI / 180;

export interface Variant {
  readonly counterclockwise: boolean;
  readonly sense: 'same' | 'opposite';
  readonly firingOrder: readonly number[];
  readonly camAcrossIn: number;
  readonly boreOffsetIn: number;
  readonly beamOffsetIn: number;
  /** Flat when 0. */
  readonly rollerRadiusIn: number;
  readonly baseCircleIn: number;
}

/** A straight prism: an outline from z0 to z1. */
export interface Prism {
  readonly shape: Shape;
  readonly z0: number;
  readonly z1: number;
}

/** A body: prisms, and sections of round parts at any z; in its own frame, with its place at a crank angle. */
export interface Part {
  readonly prisms: readonly Prism[];
  /** Range of z of the round part, where its section jumps or turns back, and its outlines at z. */
  readonly round?: {
    readonly z0: number;
    readonly z1: number;
    readonly edges: readonly number[];
    readonly at: (z: number) => Shape[];
  };
  /** Points close together all along an outline that is neither lines nor arcs, with its z range. */
  readonly cloud?: { readonly points: readonly XY[]; readonly z0: number; readonly z1: number };
  readonly place: (crank: number) => At;
}

// Throw 1 at the front; directions of the pins from that of throw 1 while cylinder 1 is at the top.
const THROWS_DEG = [0, 90, 270, 180];
// Cylinder 1 on the bank 45 degrees before the top in the sense of rotation, even cylinders on the one after it.
const bankDeg = (cylinder: number): number => (cylinder % 2 === 1 ? -45 : 45);
const throwOf = (cylinder: number): number => Math.ceil(cylinder / 2);

export const boreZ = (cylinder: number): number =>
  ((throwOf(cylinder) - 1) * 4.48 + (cylinder % 2 === 0 ? 0.948 : 0)) * IN;
export const throwZ = (number: number): number => ((number - 1) * 4.48 + 0.474) * IN;

const CRANK_RADIUS = (3.81 / 2) * IN;
const ROD = 6 * IN;
const PIN_OFFSET = -0.04 * IN;
const END_OF_BLOCK = (4.06 / 2 + 0.25) * IN;

function slider(v: Variant, cylinder: number): SliderNumbers {
  const bank = bankDeg(cylinder) * DEG;
  // The pin of throw 1 points along the bore of cylinder 1 at crank angle 0.
  const pin = (-45 + THROWS_DEG[throwOf(cylinder) - 1]!) * DEG;
  return { r: CRANK_RADIUS, l: ROD, e: v.boreOffsetIn * IN + PIN_OFFSET, bank, alpha0: pin - bank };
}

/** Hub, pin end, the web between them, and the counterweight opposite the pin; pin on +y. */
export function counterweight(number: number, side: 'front' | 'rear', radiusIn = 2.9, shiftIn = 0): Part {
  const hub = 1.6 * IN;
  const end = 1.4 * IN;
  const r = CRANK_RADIUS;
  // Where the common tangents of the two discs touch them: n square to the tangent, n.(0, r) = hub - end.
  const ny = (hub - end) / r;
  const nx = Math.sqrt(1 - ny * ny);
  const web: XY[] = [
    [hub * nx, hub * ny],
    [end * nx, r + end * ny],
    [-end * nx, r + end * ny],
    [-hub * nx, hub * ny],
  ];
  const R = radiusIn * IN;
  const c = 0.25 * IN;
  const half = 66 * DEG;
  // Rim, then a corner of radius c that touches the rim from inside and the flank, then the flank to the axis. The corner's
  // centre is c from the flank and R - c from the axis.
  const foot = Math.sqrt((R - c) ** 2 - c ** 2);
  const flank: XY = [Math.sin(half), -Math.cos(half)];
  const inward: XY = [-Math.cos(half), -Math.sin(half)];
  const centre: XY = [foot * flank[0] + c * inward[0], foot * flank[1] + c * inward[1]];
  const onRim: XY = [(centre[0] * R) / (R - c), (centre[1] * R) / (R - c)];
  const onFlank: XY = [foot * flank[0], foot * flank[1]];
  const arc = (o: XY, from: XY, to: XY): Edge => {
    const startRad = Math.atan2(from[1] - o[1], from[0] - o[0]);
    const sweep = Math.atan2(to[1] - o[1], to[0] - o[0]) - startRad;
    const r0 = Math.hypot(from[0] - o[0], from[1] - o[1]);
    return { kind: 'arc', cx: o[0], cy: o[1], r: r0, startRad, sweepRad: sweep < 0 ? sweep + 2 * Math.PI : sweep };
  };
  const left = (p: XY): XY => [-p[0], p[1]];
  const sector: Edge[] = [
    bulged([0, 0], left(onFlank), 0),
    arc(left(centre), left(onFlank), left(onRim)),
    arc([0, 0], left(onRim), onRim),
    arc(centre, onRim, onFlank),
    bulged(onFlank, [0, 0], 0),
  ];
  const z0 = throwZ(number) + shiftIn * IN + (side === 'front' ? -(0.95 + 0.8) : 0.95) * IN;
  const z1 = z0 + 0.8 * IN;
  const prism = (edges: readonly Edge[]): Prism => ({ shape: shape(edges), z0, z1 });
  const webEdges = web.map((p, k) => bulged(p, web[(k + 1) % 4]!, 0));
  const phase = (-45 + THROWS_DEG[number - 1]!) * DEG;
  return {
    prisms: [prism(disc(0, 0, hub)), prism(disc(0, r, end)), prism(webEdges), prism(sector)],
    place: (crank) => turning(0, 0, 1, phase, crank),
  };
}

/** Big end with its two bolt bosses, beam, small end; crankpin at the origin, piston pin on +y. */
export function rod(v: Variant, cylinder: number): Part {
  const z = boreZ(cylinder);
  // Front rods face the front cheek, rear ones the rear cheek: the big end of an offset rod stands nearer to it.
  const big = z + (cylinder % 2 === 1 ? -1 : 1) * v.beamOffsetIn * IN;
  const boss = (side: 1 | -1): Edge[] => {
    const [x0, x1] = [side * 1.19 - 0.3, side * 1.19 + 0.3];
    return box(x0 * IN, -1.15 * IN, x1 * IN, 0.85 * IN);
  };
  const at = (edges: readonly Edge[], middle: number, halfIn: number): Prism => ({
    shape: shape(edges),
    z0: middle - halfIn * IN,
    z1: middle + halfIn * IN,
  });
  // The beam's own layer, 0.70 in wide, holds the outline of the big end too: within the big end's width, so nothing is added.
  const bigEnd = [disc(0, 0, 1.4 * IN), boss(1), boss(-1)];
  return {
    prisms: [
      ...bigEnd.map((e) => at(e, big, 0.47)),
      at(box(-0.45 * IN, 0, 0.45 * IN, ROD), z, 0.35),
      at(disc(0, ROD, 0.64 * IN), z, 0.47),
    ],
    place: (crank) => rodAt(slider(v, cylinder), crank),
  };
}

/** Half the chord of a circle at a distance from its middle. */
function chord(radius: number, distance: number): number {
  return Math.sqrt(Math.max(0, radius * radius - distance * distance));
}

/** Crown and wall as thin sections, pin bosses as prisms; bore axis on y, pin at height 0. */
export function piston(v: Variant, cylinder: number): Part {
  const z = boreZ(cylinder);
  const R = (4.056 / 2) * IN;
  const inner = R - 0.16 * IN;
  const top = 1.395 * IN;
  const under = top - 0.26 * IN;
  const panel = R * Math.sin(32 * DEG);
  const sections = (at: number): Shape[] => {
    const d = Math.abs(at - z);
    const low = (d <= panel ? -1.05 : -0.1) * IN;
    const [x, hollow] = [chord(R, d), chord(inner, d)];
    if (x === 0) return [];
    if (hollow === 0) return [shape(box(-x, low, x, top))];
    return [box(-x, under, x, top), box(-x, low, -hollow, under), box(hollow, low, x, under)].map(shape);
  };
  const x = PIN_OFFSET;
  const boss = (from: number): Prism[] =>
    [box(x - 0.68 * IN, 0, x + 0.68 * IN, under), disc(x, 0, 0.68 * IN)].map((e) => ({
      shape: shape(e),
      z0: z + from * IN,
      z1: z + (from + 0.8) * IN,
    }));
  return {
    prisms: [...boss(-1.3), ...boss(0.5)],
    round: { z0: z - R, z1: z + R, edges: [z - inner, z - panel, z, z + panel, z + inner], at: sections },
    place: (crank) => pistonAt(slider(v, cylinder), v.boreOffsetIn * IN, crank),
  };
}

/** Wall about a bore from its lower end up, as thin sections, in the bank's frame. */
export function bore(v: Variant, cylinder: number): Part {
  const z = boreZ(cylinder);
  const outer = END_OF_BLOCK;
  const x = v.boreOffsetIn * IN;
  const sections = (at: number): Shape[] => {
    const d = Math.abs(at - z);
    const [x0, x1] = [chord(2.03 * IN, d), chord(outer, d)];
    if (x1 <= x0) return [];
    return [box(x + x0, 3.9 * IN, x + x1, 9.31 * IN), box(x - x1, 3.9 * IN, x - x0, 9.31 * IN)].map(shape);
  };
  return {
    prisms: [],
    round: { z0: z - outer, z1: z + outer, edges: [z - 2.03 * IN, z, z + 2.03 * IN], at: sections },
    place: () => turning(0, 0, 0, bankDeg(cylinder) * DEG, 0),
  };
}

/** Crankcase walls: inner faces 3.8 in to either side, from the rail at the crank axis's height to the outer corners of the bores. */
export function crankcase(v: Variant): Part {
  const z0 = boreZ(1) - END_OF_BLOCK;
  const z1 = boreZ(8) + END_OF_BLOCK;
  // Outer lower corner of a bank's bore wall: 3.9 in out along the bank, 2.28 in across it and the bore offset.
  const wall = (side: 1 | -1): Prism[] => {
    const across = 2.28 + side * v.boreOffsetIn;
    const [cx, cy] = [(3.9 + across) * Math.SQRT1_2, (3.9 - across) * Math.SQRT1_2];
    const boxes: [number, number, number, number][] = [
      [3.8, 0, 4.1, cy + 0.3],
      [3.8, 0, 4.4, 0.3],
      [3.8, cy, Math.max(cx, 4.1), cy + 0.3],
    ];
    return boxes.map(([x0, y0, x1, y1]) => {
      const edges = side > 0 ? box(x0 * IN, y0 * IN, x1 * IN, y1 * IN) : box(-x1 * IN, y0 * IN, -x0 * IN, y1 * IN);
      return { shape: shape(edges), z0, z1 };
    });
  };
  return { prisms: [...wall(1), ...wall(-1)], place: () => turning(0, 0, 0, 0, 0) };
}

export function core(v: Variant): Part {
  return {
    prisms: [{ shape: shape(disc(0, 0, 0.55 * IN)), z0: boreZ(1) - 2.03 * IN, z1: boreZ(8) + 2.03 * IN }],
    place: (crank) => turning(v.camAcrossIn * IN, 4.74 * IN, v.sense === 'same' ? 0.5 : -0.5, 0, crank),
  };
}

/** The 3-4-5 rise and its slope, by the part of the flank climbed. */
const rise = (u: number): number => 10 * u ** 3 - 15 * u ** 4 + 6 * u ** 5;
const riseSlope = (u: number): number => 30 * u ** 2 - 60 * u ** 3 + 30 * u ** 4;

/** Points of the lobe's surface about its axis, nose on +y: where the follower, led round it, touches it. */
function lobePoints(v: Variant, liftIn: number, durationDeg: number, count: number): XY[] {
  // Part of the rise at which the stated lift of .050 in is reached, by halving.
  let [low, high] = [0, 1];
  for (let k = 0; k < 60; k++) {
    const u = (low + high) / 2;
    if (liftIn * rise(u) < 0.05) low = u;
    else high = u;
  }
  // From the nose to that place the cam turns a quarter of the crank duration.
  const flank = (durationDeg * DEG) / 4 / (1 - low);
  const base = (v.baseCircleIn / 2) * IN;
  const roller = v.rollerRadiusIn * IN;
  return Array.from({ length: count }, (_, k): XY => {
    const psi = -Math.PI + (2 * Math.PI * k) / count;
    const u = Math.max(0, 1 - Math.abs(psi) / flank);
    const h = liftIn * IN * rise(u);
    const slope = (-Math.sign(psi) * liftIn * IN * riseSlope(u)) / flank;
    const [ux, uy] = [Math.sin(psi), Math.cos(psi)];
    const [tx, ty] = [Math.cos(psi), -Math.sin(psi)];
    if (roller === 0) {
      // A flat face at base + h from the axis touches beside the follower's line by the slope.
      return [(base + h) * ux + slope * tx, (base + h) * uy + slope * ty];
    }
    // The roller's centre moves along d = slope u + p t; the lobe lies one roller radius from it, square to d, on the axis's side.
    const p = base + roller + h;
    const [dx, dy] = [slope * ux + p * tx, slope * uy + p * ty];
    const length = Math.hypot(dx, dy);
    // Square to d and outward: d turned so that it has a positive part along u.
    const [nx, ny] = [-dy / length, dx / length];
    return [p * ux - roller * nx, p * uy - roller * ny];
  });
}

export function lobe(v: Variant, cylinder: number, valve: 'intake' | 'exhaust', shiftIn = 0): Part {
  const lift = valve === 'intake' ? 0.31 : 0.315;
  const duration = valve === 'intake' ? 224 : 230;
  // Fires every 90 degrees in its order, from cylinder 1 at 0; the intake valve is open widest 106 degrees after the next
  // top of the stroke, the exhaust valve 2 x 110 crank degrees before that.
  const fires = 90 * v.firingOrder.indexOf(cylinder);
  // The degree wheel is set on cylinder 1, whose piston with its offset is highest a little off the pin's own top.
  const trueTop = Math.asin((v.boreOffsetIn * IN + PIN_OFFSET) / (CRANK_RADIUS + ROD));
  const widest = (fires + 360 + 106 - (valve === 'exhaust' ? 220 : 0)) * DEG + trueTop;
  const ratio = v.sense === 'same' ? 0.5 : -0.5;
  const middle = boreZ(cylinder) + ((valve === 'intake' ? 0.94 : -0.94) + shiftIn) * IN;
  return {
    prisms: [],
    cloud: { points: lobePoints(v, lift, duration, 6000), z0: middle - 0.3 * IN, z1: middle + 0.3 * IN },
    place: (crank) => {
      // Then the nose points along the bank's follower, 45 degrees to either side.
      const nose = bankDeg(cylinder) * DEG + ratio * (crank - widest);
      return { x: v.camAcrossIn * IN, y: 4.74 * IN, turn: nose };
    },
  };
}

export function inPlace(v: Variant, s: Shape, at: At): Shape {
  return placed(s, at.x, at.y, at.turn, v.counterclockwise);
}
