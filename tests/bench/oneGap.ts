/**
 * One gap of a counterweight and a piston, of 10 and 16 edges, measured by the program, by a general-purpose geometry library
 * with exact arcs (@flatten-js/core) and by a general-purpose library of distances between convex shapes (the GJK of planck): the same
 * outlines in the same poses, placing included. The bench times them; tests/core/outline/libraries.test.ts holds them to agree.
 *
 * The convex shapes are fixed: the outlines put together from convex parts, arcs replaced by chords at most CHORD_MM inside them. So that
 * library's distance is never below the true one, and above it by at most that much for each body.
 */
import Flatten from '@flatten-js/core';
import { Distance, DistanceInput, DistanceOutput, SimplexCache, Vec2 } from 'planck';
import type { Mover } from '../../src/core/clearance/gapAt.ts';
import { gapAt, newGapAt } from '../../src/core/clearance/gapAt.ts';
import { crankMotion, pistonMotion } from '../../src/core/kinematics/motions.ts';
import { flatten } from '../../src/core/outline/flat.ts';
import type { Piece } from '../../src/core/outline/outline.ts';
import { newPose, POSE_TURN, POSE_X, POSE_Y } from '../../src/core/plane/pose.ts';

/** Chords lie at most this far inside their arcs, mm. */
export const CHORD_MM = 0.002;

/** The exact library takes the least over edges with this tolerance, mm. */
export const EXACT_MM = 2e-6;

type XY = readonly [number, number];

const DEGREE = Math.PI / 180;

function line(p: XY, q: XY): Piece {
  return { kind: 'line', x0: p[0], y0: p[1], x1: q[0], y1: q[1] };
}

function arc(c: XY, r: number, fromDeg: number, sweepDeg: number): Piece {
  return { kind: 'arc', cx: c[0], cy: c[1], r, startRad: fromDeg * DEGREE, sweepRad: sweepDeg * DEGREE };
}

function polar(r: number, deg: number, c: XY = [0, 0]): XY {
  return [c[0] + r * Math.cos(deg * DEGREE), c[1] + r * Math.sin(deg * DEGREE)];
}

// Counterweight: hub, pin end on +y joined to it by tangents, sector about -y with round corners between flank and rim.
const HUB = 40;
const PIN: XY = [0, 48];
const PIN_END = 30;
const RIM = 78;
const CORNER = 8;
const FLANK_DEG = 25;
const TANGENT_DEG = Math.asin((HUB - PIN_END) / PIN[1]) / DEGREE;
const CORNER_DEG = Math.asin(CORNER / (RIM - CORNER)) / DEGREE;
const FLANK_END = Math.sqrt((RIM - CORNER) ** 2 - CORNER ** 2);
const [LEFT_DEG, RIGHT_DEG] = [180 + FLANK_DEG, 360 - FLANK_DEG];

const sectorEdge: readonly Piece[] = [
  arc(polar(RIM - CORNER, LEFT_DEG + CORNER_DEG), CORNER, LEFT_DEG - 90, 90 + CORNER_DEG),
  arc([0, 0], RIM, LEFT_DEG + CORNER_DEG, RIGHT_DEG - LEFT_DEG - 2 * CORNER_DEG),
  arc(polar(RIM - CORNER, RIGHT_DEG - CORNER_DEG), CORNER, RIGHT_DEG - CORNER_DEG, 90 + CORNER_DEG),
];
const pinEnd: readonly Piece[] = [
  line(polar(HUB, TANGENT_DEG), polar(PIN_END, TANGENT_DEG, PIN)),
  arc(PIN, PIN_END, TANGENT_DEG, 180 - 2 * TANGENT_DEG),
  line(polar(PIN_END, 180 - TANGENT_DEG, PIN), polar(HUB, 180 - TANGENT_DEG)),
];
export const counterweight: readonly Piece[] = [
  arc([0, 0], HUB, -FLANK_DEG, FLANK_DEG + TANGENT_DEG),
  ...pinEnd,
  arc([0, 0], HUB, 180 - TANGENT_DEG, TANGENT_DEG + FLANK_DEG),
  line(polar(HUB, LEFT_DEG), polar(FLANK_END, LEFT_DEG)),
  ...sectorEdge,
  line(polar(FLANK_END, RIGHT_DEG), polar(HUB, RIGHT_DEG)),
];
const counterweightParts: readonly (readonly Piece[])[] = [
  [...pinEnd, arc([0, 0], HUB, 180 - TANGENT_DEG, 180 + 2 * TANGENT_DEG)],
  [line([0, 0], polar(FLANK_END, LEFT_DEG)), ...sectorEdge, line(polar(FLANK_END, RIGHT_DEG), [0, 0])],
];

// Piston: a cup upside down, its edges broken, with a slope between wall and crown.
const leftFoot: readonly Piece[] = [line([-47, -30], [-45.5, -30]), arc([-45.5, -28.5], 1.5, -90, 90)];
const rightFoot: readonly Piece[] = [arc([45.5, -28.5], 1.5, 180, 90), line([45.5, -30], [47, -30])];
const rightHeel = arc([47, -27], 3, -90, 90);
const leftHeel = arc([-47, -27], 3, 180, 90);
const crown: readonly Piece[] = [arc([48, 38], 2, 0, 90), line([48, 40], [-48, 40]), arc([-48, 38], 2, 90, 90)];
export const piston: readonly Piece[] = [
  ...leftFoot,
  line([-44, -28.5], [-44, 18]),
  line([-44, 18], [-40, 22]),
  line([-40, 22], [40, 22]),
  line([40, 22], [44, 18]),
  line([44, 18], [44, -28.5]),
  ...rightFoot,
  rightHeel,
  line([50, -27], [50, 38]),
  ...crown,
  line([-50, 38], [-50, -27]),
  leftHeel,
];
const pistonParts: readonly (readonly Piece[])[] = [
  [line([-50, 22], [50, 22]), line([50, 22], [50, 38]), ...crown, line([-50, 38], [-50, 22])],
  [...leftFoot, line([-44, -28.5], [-44, 22]), line([-44, 22], [-50, 22]), line([-50, 22], [-50, -27]), leftHeel],
  [...rightFoot, rightHeel, line([50, -27], [50, 22]), line([50, 22], [44, 22]), line([44, 22], [44, -28.5])],
  [line([-44, 18], [-40, 22]), line([-40, 22], [-44, 22]), line([-44, 22], [-44, 18])],
  [line([44, 18], [44, 22]), line([44, 22], [40, 22]), line([40, 22], [44, 18])],
];

const SLIDER = { crankRadiusMm: 48, rodLengthMm: 150, offsetMm: 0 };
/** Counterweight on the crank, piston on its bore; they stay apart all round. */
export const a: Mover = { flat: flatten({ pieces: counterweight }), motion: crankMotion(0) };
export const b: Mover = { flat: flatten({ pieces: piston }), motion: pistonMotion(SLIDER, 0, 0, 0) };

const here = newGapAt();

/** Gap at a crank angle, by the program. */
export function byProgram(crankAngleRad: number): number {
  return gapAt(a, b, crankAngleRad, Number.POSITIVE_INFINITY, false, here, false).gapMm;
}

const pose = newPose();

function exactPolygon(pieces: readonly Piece[]): Flatten.Polygon {
  const turn = 2 * Math.PI;
  const wrap = (rad: number): number => ((rad % turn) + turn) % turn;
  const polygon = new Flatten.Polygon();
  polygon.addFace(
    pieces.map((e) =>
      e.kind === 'line'
        ? new Flatten.Segment(new Flatten.Point(e.x0, e.y0), new Flatten.Point(e.x1, e.y1))
        : new Flatten.Arc(
            new Flatten.Point(e.cx, e.cy),
            e.r,
            wrap(e.startRad),
            wrap(e.startRad + e.sweepRad),
            e.sweepRad > 0,
          ),
    ),
  );
  return polygon;
}

const exactA = exactPolygon(counterweight);
const exactB = exactPolygon(piston);

function placedExact(polygon: Flatten.Polygon, mover: Mover, crankAngleRad: number): Flatten.Polygon {
  mover.motion.write(crankAngleRad, pose);
  const [c, s] = [Math.cos(pose[POSE_TURN]!), Math.sin(pose[POSE_TURN]!)];
  return polygon.transform(new Flatten.Matrix(c, -s, s, c, pose[POSE_X]!, pose[POSE_Y]!));
}

/** The same by the library with exact arcs. */
export function byExactLibrary(crankAngleRad: number): number {
  return placedExact(exactA, a, crankAngleRad).distanceTo(placedExact(exactB, b, crankAngleRad))[0];
}

/** Corners of a convex part, its arcs cut into chords. */
function corners(pieces: readonly Piece[]): Vec2[] {
  return pieces.flatMap((p) => {
    if (p.kind === 'line') return [new Vec2(p.x0, p.y0)];
    const n = Math.ceil(Math.abs(p.sweepRad) / (2 * Math.acos(1 - CHORD_MM / p.r)));
    return Array.from({ length: n }, (_, k) => {
      const at = p.startRad + (k * p.sweepRad) / n;
      return new Vec2(p.cx + p.r * Math.cos(at), p.cy + p.r * Math.sin(at));
    });
  });
}

const inputs = counterweightParts.flatMap((partA) =>
  pistonParts.map((partB) => {
    const input = new DistanceInput();
    const [cornersA, cornersB] = [corners(partA), corners(partB)];
    input.proxyA.setVertices(cornersA, cornersA.length, 0);
    input.proxyB.setVertices(cornersB, cornersB.length, 0);
    input.useRadii = false;
    return { input, cache: new SimplexCache() };
  }),
);
const output = new DistanceOutput();

/** The same by the library of convex distances: the least over all pairs of parts, each begun from its last answer. */
export function byConvexLibrary(crankAngleRad: number): number {
  a.motion.write(crankAngleRad, pose);
  const [ax, ay, aTurn] = [pose[POSE_X]!, pose[POSE_Y]!, pose[POSE_TURN]!];
  b.motion.write(crankAngleRad, pose);
  let least = Number.POSITIVE_INFINITY;
  for (const { input, cache } of inputs) {
    input.transformA.p.set(ax, ay);
    input.transformA.q.setAngle(-aTurn);
    input.transformB.p.set(pose[POSE_X]!, pose[POSE_Y]!);
    input.transformB.q.setAngle(-pose[POSE_TURN]!);
    Distance(output, cache, input);
    least = Math.min(least, output.distance);
  }
  return least;
}
