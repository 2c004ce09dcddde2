/** The block as bodies: the wall of each bore with its lower edge and notches, the crankcase walls with the pan rails, further fixed parts. */
import { outerBoreCorner } from '../build/boreCorner.ts';
import type { BuildDocument } from '../build/document.ts';
import { layoutOfBlock } from '../build/layouts.ts';
import { camMotion, fixedMotion } from '../core/kinematics/motions.ts';
import type { RoundLayer } from '../core/outline/layers.ts';
import type { Outline } from '../core/outline/outline.ts';
import { box, disc, Path } from '../core/outline/path.ts';
import { mirrorX } from '../core/outline/transform.ts';
import { assumedOf, mm } from './dims.ts';
import type { Body, Cylinder, DrawnShape } from './engine.ts';
import { measuredShape } from './measured.ts';
import { axialReach, halfChord } from './pistonBodies.ts';

const HATCH = { slopeDeg: 45, spacingMm: 5 };

/**
 * One body a bore, own frame turned to the bank: x across, y outward. The void of the bore takes the chord at the
 * largest distance from its axis within a slice, the outside of the wall that at the smallest, so that the slice is the
 * union of the wall over it, exactly.
 */
export function layBores(doc: BuildDocument, cylinders: readonly Cylinder[]): Body[] {
  const { block } = doc;
  const low = mm(block.boreBottom);
  const deck = mm(block.deckHeight);
  const wallMm = mm(block.boreWall);
  const notch = block.boreNotch;
  const notchHalf = notch ? mm(notch.width) / 2 : 0;
  const notchLow = notch ? low + mm(notch.depth) : low;
  return cylinders.map((c): Body => {
    const r = c.boreRadiusMm;
    const outer = r + wallMm;
    const x = c.boreOffsetMm;
    const z = c.boreCentreMm;
    const side = (sign: 1 | -1, from: number, to: number, lowY: number): RoundLayer => ({
      part: 'bore bottom',
      z0Mm: z + from,
      z1Mm: z + to,
      centreMm: z,
      slice: (z0, z1) => {
        const { near, far } = axialReach(z0, z1, z);
        const x0 = halfChord(r, far);
        const x1 = halfChord(outer, near);
        if (x1 - x0 <= 0) return null;
        return sign > 0 ? box(x + x0, lowY, x + x1, deck) : box(x - x1, lowY, x - x0, deck);
      },
    });
    const notched = (sign: 1 | -1): boolean =>
      notch !== undefined && (notch.side === 'both' || (notch.side === 'after-tdc') === sign > 0);
    const round: RoundLayer[] = [];
    for (const sign of [1, -1] as const) {
      if (!notched(sign)) round.push(side(sign, -outer, outer, low));
      else
        round.push(
          side(sign, -outer, -notchHalf, low),
          side(sign, -notchHalf, notchHalf, notchLow),
          side(sign, notchHalf, outer, low),
        );
    }
    const drawn: DrawnShape[] = ([1, -1] as const).map((sign) => {
      const y = notched(sign) ? notchLow : low;
      const outline = sign > 0 ? box(x + r, y, x + outer, deck) : box(x - outer, y, x - r, deck);
      return { style: 'cut', outline, hatch: HATCH };
    });
    return {
      name: `bore ${c.number}`,
      kind: 'block',
      cylinder: c.number,
      motion: camMotion(0, 0, 0, c.bankAngleRad),
      layers: [],
      round,
      drawn,
      z0Mm: z - outer,
      z1Mm: z + outer,
      assumed: assumedOf('block', block, ['bore', 'boreBottom', 'boreWall', 'boreNotch']),
      shapeKey: `bore ${r} ${outer} ${x} ${low} ${deck} ${notchHalf} ${notchLow} ${notch?.side ?? ''}`,
      baseMm: z,
      move: { kind: 'fixed', turnRad: c.bankAngleRad },
      mirror: {
        shapeKey: `bore ${r} ${outer} ${-x} ${low} ${deck} ${notchHalf} ${notchLow} ${otherSide(notch?.side)}`,
        baseMm: -z,
      },
    };
  });
}

/** Where the notches of a bore are in its mirror image. */
function otherSide(side: 'both' | 'before-tdc' | 'after-tdc' | undefined): string {
  if (side === 'before-tdc') return 'after-tdc';
  return side === 'after-tdc' ? 'before-tdc' : (side ?? '');
}

/** A crankcase wall on the +x side: upright from the rail to the height of the bore's corner, then a shelf that joins the bore's wall. */
function crankcaseWall(railY: number, halfWidth: number, wall: number, cornerX: number, cornerY: number): Outline {
  const outerX = halfWidth + wall;
  const foot = new Path(halfWidth, railY)
    .line(outerX + wall, railY)
    .line(outerX + wall, railY + wall)
    .line(outerX, railY + wall);
  if (cornerX < halfWidth) {
    return foot
      .line(outerX, cornerY + wall)
      .line(cornerX, cornerY + wall)
      .line(cornerX, cornerY)
      .line(halfWidth, cornerY)
      .close();
  }
  const shelfX = Math.max(cornerX, outerX);
  return foot
    .line(outerX, cornerY)
    .line(shelfX, cornerY)
    .line(shelfX, cornerY + wall)
    .line(halfWidth, cornerY + wall)
    .close();
}

/** Crankcase walls, and the fixed parts of the file. */
export function layCrankcase(doc: BuildDocument, cylinders: readonly Cylinder[]): Body[] {
  const { block } = doc;
  const layout = layoutOfBlock(block);
  const banks = layout.bankAnglesDeg.map((deg) => (deg * Math.PI) / 180);
  const rail = mm(block.panRail.height);
  const halfWidth = mm(block.panRail.halfWidth);
  const wall = mm(block.panRail.wall);
  const bore = {
    boreMm: mm(block.bore),
    wallMm: mm(block.boreWall),
    offsetMm: mm(block.boreOffset),
    bottomMm: mm(block.boreBottom),
  };
  const [rightX, rightY] = outerBoreCorner(bore, Math.max(...banks), 1);
  const [leftX, leftY] = outerBoreCorner(bore, Math.min(...banks), -1);
  const right = crankcaseWall(rail, halfWidth, wall, rightX, rightY);
  const left = mirrorX(crankcaseWall(rail, halfWidth, wall, -leftX, leftY));
  const outer = mm(block.bore) / 2 + mm(block.boreWall);
  const z0Mm = Math.min(...cylinders.map((c) => c.boreCentreMm)) - outer;
  const z1Mm = Math.max(...cylinders.map((c) => c.boreCentreMm)) + outer;
  const rails: Body = {
    name: 'crankcase wall',
    kind: 'block',
    motion: fixedMotion(),
    layers: [
      { part: 'pan rail', outline: right, z0Mm, z1Mm },
      { part: 'pan rail', outline: left, z0Mm, z1Mm },
    ],
    round: [],
    drawn: [
      { style: 'cut', outline: right, hatch: HATCH },
      { style: 'cut', outline: left, hatch: HATCH },
      { style: 'hidden', outline: disc(0, 0, mm(block.bulkhead.mainBore) / 2) },
    ],
    z0Mm,
    z1Mm,
    assumed: assumedOf('pan rail', block.panRail),
    shapeKey: `rails ${[rail, halfWidth, wall, rightX, rightY, leftX, leftY, z0Mm, z1Mm].join(' ')}`,
    baseMm: 0,
    move: { kind: 'fixed', turnRad: 0 },
    mirror: { shapeKey: `rails ${[rail, halfWidth, wall, -leftX, leftY, -rightX, rightY, z0Mm, z1Mm].join(' ')}` },
  };
  const fixed = (block.fixed ?? []).map((part): Body => {
    const { outline, key, deviationMm, assumed } = measuredShape(
      { points: part.outline, from: part.from, deviation: part.outlineDeviation, own: true },
      `outline of ${part.name}`,
    );
    const front = mm(part.front);
    const rear = mm(part.rear);
    return {
      name: part.name,
      kind: 'block',
      motion: fixedMotion(),
      layers: [{ part: part.name, outline, z0Mm: front, z1Mm: rear, deviationMm }],
      round: [],
      drawn: [{ style: 'cut', outline, hatch: HATCH }],
      z0Mm: front,
      z1Mm: rear,
      assumed,
      shapeKey: `fixed ${part.name} ${key} ${front} ${rear}`,
      baseMm: 0,
      move: { kind: 'fixed', turnRad: 0 },
    };
  });
  return [rails, ...fixed];
}
