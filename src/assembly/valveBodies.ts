/**
 * Valves as bodies, and the crown of the piston as a valve meets it.
 *
 * The stem leans in a plane square to the crank. A valve's head below its seat is a disc as thick as its margin, square to the stem; what is
 * above the seat is narrower and never nearer. A pocket is a round hole about an axis that leans with the valve, its floor square to it; its
 * depth is that of the floor's lowest place. The gap of the two is taken in space (core/clearance/headAndCrown.ts).
 *
 * `across` counts toward the other bank: that is the bank's `v` side on the bank that stands at the smaller angle, its other side on the
 * other. Heads that are alike then have the same figures on both banks.
 */
import { pistonOf } from '../build/bodyOf.ts';
import type { Assembly, BuildDocument, Valve, ValveDims } from '../build/document.ts';
import { lobeInTime, lobeOf } from '../build/lobeOf.ts';
import { makeCrown } from '../core/clearance/headAndCrown.ts';
import {
  seatInEngine,
  type ValveSeat,
  type ValveTrain,
  valveFromPiston,
  valveMotion,
} from '../core/kinematics/valveMotion.ts';
import { lobeLawOf } from '../core/lobe/lobeSpec.ts';
import type { RoundLayer } from '../core/outline/layers.ts';
import type { Outline } from '../core/outline/outline.ts';
import { box, Path } from '../core/outline/path.ts';
import { union } from '../core/outline/union.ts';
import { lobeAssumed, peakRad } from './camBodies.ts';
import { assumedOf, mm, rad } from './dims.ts';
import type { Body, Cylinder } from './engine.ts';
import { axialReach, halfChord } from './pistonBodies.ts';
import { pocketDrawn } from './pocketDrawn.ts';

/** In the order of the bodies. */
export const VALVES: readonly Valve[] = ['intake', 'exhaust'];

/** +1 where the side toward the other bank is the bank's `v` side, -1 where it is the other. */
function towardOtherBank(cylinders: readonly Cylinder[], c: Cylinder): 1 | -1 {
  return cylinders.some((other) => other.bankAngleRad < c.bankAngleRad) ? -1 : 1;
}

export function layValves(doc: BuildDocument, assembly: Assembly, cylinders: readonly Cylinder[]): Body[] {
  if (assembly.camshaft === undefined || assembly.valvetrain === undefined) return [];
  return cylinders.flatMap((c) => VALVES.map((valve) => layValve(doc, assembly, cylinders, c, valve)));
}

/** One valve of an assembly with a camshaft and valves. */
export function layValve(
  doc: BuildDocument,
  assembly: Assembly,
  cylinders: readonly Cylinder[],
  c: Cylinder,
  valve: Valve,
): Body {
  const camshaft = assembly.camshaft!;
  const valvetrain = assembly.valvetrain!;
  const dims = valvetrain[valve];
  const side = towardOtherBank(cylinders, c);
  const leanRad = side * rad(dims.angle);
  const recessionMm = mm(dims.recession);
  const seat: ValveSeat = {
    acrossMm: side * mm(dims.across) + recessionMm * Math.tan(leanRad),
    heightMm: mm(doc.block.deckHeight) + mm(doc.block.gasketThickness) + recessionMm,
    leanRad,
  };
  const figures = lobeOf(assembly, camshaft, c.number, valve);
  const lobe = lobeInTime(camshaft, figures);
  const train: ValveTrain = {
    ...lobeLawOf(lobe),
    rockerRatio: valvetrain.rockerRatio,
    lashMm: mm(dims.lash),
    peakRad: peakRad(camshaft, cylinders, c, valve),
  };
  const headRadius = mm(dims.headDiameter) / 2;
  const margin = mm(dims.margin);
  const zMm = c.boreCentreMm + mm(dims.axial);
  const head = headLayer(headRadius, margin, zMm);
  const place = seatInEngine(seat, c.bankAngleRad, c.boreOffsetMm);
  const { pocket } = dims;
  const top = crownDims(assembly, c);
  const keyed = (toward: number): string => {
    const key = [headRadius, margin, mm(dims.axial), toward];
    if (pocket !== undefined) key.push(mm(pocket.depth), mm(pocket.diameter), mm(pocket.across), mm(pocket.axial));
    return `valve ${key.join(' ')}`;
  };
  return {
    name: `${valve} valve ${c.number}`,
    kind: 'valve',
    cylinder: c.number,
    motion: valveMotion(train, seat, c.bankAngleRad, c.boreOffsetMm),
    layers: [],
    round: [head],
    drawn: [{ style: 'cut', outline: drawnValve(headRadius, margin), hatch: { slopeDeg: 45, spacingMm: 2 } }],
    z0Mm: zMm - headRadius,
    z1Mm: zMm + headRadius,
    assumed: [...new Set(assumedBy(doc, assembly, c, valve))],
    shapeKey: keyed(side),
    // Front and rear stay: the gap of head and crown is the same either way.
    mirror: { shapeKey: keyed(-side) },
    baseMm: zMm,
    move: {
      kind: 'valve',
      valve,
      turnRad: c.bankAngleRad + leanRad,
      xMm: place.x,
      yMm: place.y,
      train: JSON.stringify([lobe, train.rockerRatio, train.lashMm]),
      peakRad: train.peakRad,
    },
    head: {
      crown: makeCrown({
        headRadiusMm: headRadius,
        marginMm: margin,
        leanRad,
        besideMm: pocket === undefined ? 0 : mm(dims.axial) - mm(pocket.axial),
        topY: top.topY,
        pocket: pocketOf(dims, side, top.topY),
      }),
      motion: valveFromPiston(train, seat, c.slider, c.alphaAtZeroRad),
    },
  };
}

function headLayer(radius: number, margin: number, zMm: number): RoundLayer {
  return {
    part: 'head',
    z0Mm: zMm - radius,
    z1Mm: zMm + radius,
    centreMm: zMm,
    slice: (z0, z1) => {
      const half = halfChord(radius, axialReach(z0, z1, zMm).near);
      return half > 0 ? box(-half, 0, half, margin) : null;
    },
  };
}

interface CrownDims {
  readonly radius: number;
  readonly topY: number;
  readonly underY: number;
}

function crownDims(assembly: Assembly, c: Cylinder): CrownDims {
  const { dims } = pistonOf(assembly, c.number);
  const topY = mm(dims.compressionHeight);
  return { radius: mm(dims.skirtDiameter) / 2, topY, underY: topY - mm(dims.crownThickness) };
}

/** Middle of the pocket's floor in the piston's frame, and its radius. */
function pocketOf(dims: ValveDims, side: 1 | -1, topY: number): { x: number; y: number; radiusMm: number } | null {
  if (dims.pocket === undefined) return null;
  const leanRad = side * rad(dims.angle);
  const radiusMm = mm(dims.pocket.diameter) / 2;
  // The floor's middle may well stand above the crown, where a pocket is cut by its lower edge alone.
  const middleBelow = mm(dims.pocket.depth) - radiusMm * Math.abs(Math.sin(leanRad));
  return { x: side * mm(dims.pocket.across) - middleBelow * Math.tan(leanRad), y: topY - middleBelow, radiusMm };
}

/** What the gap of a valve rests on. */
function assumedBy(doc: BuildDocument, assembly: Assembly, c: Cylinder, valve: Valve): string[] {
  const camshaft = assembly.camshaft!;
  return [
    ...assumedOf(`${valve} valve`, assembly.valvetrain![valve]),
    ...assumedOf('camshaft', camshaft, ['intakeCentreline', 'advance', 'lobeSeparation', 'durationAtLift']),
    ...lobeAssumed(lobeOf(assembly, camshaft, c.number, valve)),
    ...assumedOf('block', doc.block, ['deckHeight', 'gasketThickness']),
    ...assumedOf('piston', pistonOf(assembly, c.number).dims, ['compressionHeight', 'skirtDiameter', 'pinOffset']),
    ...assumedOf('rod', assembly.rod, ['length']),
    ...assumedOf('crank', assembly.crank, ['stroke']),
  ];
}

/** Head and neck as a drawing shows them; of the neck only the head's own figures are true. */
function drawnValve(radius: number, margin: number): Outline {
  const stem = radius * 0.17;
  const seat = radius * 0.14;
  return new Path(-radius, 0)
    .line(radius, 0)
    .line(radius, margin)
    .line(radius - seat, margin + seat)
    .line(stem * 1.9, margin + radius * 0.38)
    .line(stem, margin + radius * 0.62)
    .line(stem, margin + radius * 0.9)
    .line(-stem, margin + radius * 0.9)
    .line(-stem, margin + radius * 0.62)
    .line(-stem * 1.9, margin + radius * 0.38)
    .line(-radius + seat, margin + seat)
    .line(-radius, margin)
    .close();
}

/** The piston cut through its valve pockets, one behind the other; the rim of the crown is seen beyond them. */
export function withPockets(assembly: Assembly, cylinders: readonly Cylinder[], piston: Body): Body {
  const { valvetrain } = assembly;
  if (valvetrain === undefined) return piston;
  const c = cylinders[piston.cylinder! - 1]!;
  const { radius, topY, underY } = crownDims(assembly, c);
  const side = towardOtherBank(cylinders, c);
  const pockets = VALVES.flatMap((valve) => {
    const pocket = pocketOf(valvetrain[valve], side, topY);
    if (pocket === null) return [];
    const outline = pocketDrawn(radius, underY, topY, pocket, side * rad(valvetrain[valve].angle));
    return outline === null ? [] : [outline];
  });
  if (pockets.length === 0) return piston;
  const [whole, ...rest] = piston.drawn;
  return { ...piston, drawn: [{ ...whole!, holes: joinedPockets(pockets) }, ...rest] };
}

function joinedPockets(pockets: readonly Outline[]): readonly Outline[] {
  const [one, other] = pockets;
  if (other === undefined) return pockets;
  try {
    return [union(one!, other)];
  } catch (error) {
    // Apart: two holes.
    if (error instanceof RangeError) return pockets;
    throw error;
  }
}
