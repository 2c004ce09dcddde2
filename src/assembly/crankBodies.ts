/** The crank as bodies: a cheek with its counterweight on each side of a throw, and the journals for the picture. */
import { counterweightOf, measuredOf, weightedCheeks } from '../build/bodyOf.ts';
import type { Assembly, BuildDocument, CheekSide } from '../build/document.ts';
import { layoutOfBlock, referenceBankDeg } from '../build/layouts.ts';
import { crankMotion } from '../core/kinematics/motions.ts';
import type { Outline } from '../core/outline/outline.ts';
import { disc, Path } from '../core/outline/path.ts';
import { union } from '../core/outline/union.ts';
import { onThrow, throwCentreMm } from './cylinders.ts';
import { assumedOf, mm, rad } from './dims.ts';
import type { Body, Cylinder } from './engine.ts';
import { measuredShape } from './measured.ts';
import { remember } from './remember.ts';

const DEG = Math.PI / 180;

interface CheekDims {
  readonly crankRadiusMm: number;
  readonly pinEndRadiusMm: number;
  readonly hubRadiusMm: number;
  /** Where the pins of a throw are split: turn of the one beside this cheek from the middle of the throw, clockwise. */
  readonly pinTurnRad?: number;
  /** Absent: a bare cheek. */
  readonly weight?: {
    readonly radiusMm: number;
    readonly halfAngleRad: number;
    readonly cornerRadiusMm: number;
    readonly turnRad: number;
  };
}

/** Hull of the hub about the crank axis and the disc about the pin (on +y): two arcs and their common tangents. */
function cheekOutline(d: CheekDims): Outline {
  const { crankRadiusMm: r, hubRadiusMm: h, pinEndRadiusMm: p } = d;
  if (r <= Math.abs(h - p)) return h >= p ? disc(0, 0, h) : disc(0, r, p);
  // Outward normals of the tangents make an angle a with the y axis: cos a = (h - p) / r.
  const a = Math.acos((h - p) / r);
  const x = Math.sin(a);
  const y = Math.cos(a);
  return new Path(h * x, h * y)
    .line(p * x, r + p * y)
    .arcTo(0, r, -p * x, r + p * y)
    .line(-h * x, h * y)
    .arcTo(0, 0, h * x, h * y)
    .close();
}

/**
 * Sector of the counterweight, middle on -y: from the crank axis out to `radiusMm`, flanks radial, outer corners rounded
 * by arcs tangent to flank and rim.
 */
function sectorOutline(radiusMm: number, halfAngleRad: number, cornerRadiusMm: number): Outline {
  // Centre of the corner arc: at radius R - c, at angle asin(c / (R - c)) inside the flank.
  const c = cornerRadiusMm;
  const inset = c > 0 ? Math.asin(c / (radiusMm - c)) : 0;
  const flankLength = c > 0 ? Math.sqrt((radiusMm - c) ** 2 - c * c) : radiusMm;
  const at = (fromDown: number, radius: number): [number, number] => [
    radius * Math.sin(fromDown),
    -radius * Math.cos(fromDown),
  ];
  const half = halfAngleRad;
  const [x0, y0] = at(-half, flankLength);
  const path = new Path(0, 0).line(x0, y0);
  if (c > 0) path.arcTo(...at(-half + inset, radiusMm - c), ...at(-half + inset, radiusMm));
  path.arcTo(0, 0, ...at(half - inset, radiusMm));
  if (c > 0) path.arcTo(...at(half - inset, radiusMm - c), ...at(half, flankLength));
  return path.close();
}

function turned(o: Outline, clockwiseRad: number): Outline {
  if (clockwiseRad === 0) return o;
  const c = Math.cos(clockwiseRad);
  const s = Math.sin(clockwiseRad);
  const x = (px: number, py: number): number => c * px + s * py;
  const y = (px: number, py: number): number => -s * px + c * py;
  return {
    pieces: o.pieces.map((p) =>
      p.kind === 'line'
        ? { kind: 'line', x0: x(p.x0, p.y0), y0: y(p.x0, p.y0), x1: x(p.x1, p.y1), y1: y(p.x1, p.y1) }
        : { ...p, cx: x(p.cx, p.cy), cy: y(p.cx, p.cy), startRad: p.startRad - clockwiseRad },
    ),
  };
}

const cheek = remember((d: CheekDims): Outline => {
  const bare = turned(cheekOutline(d), d.pinTurnRad ?? 0);
  if (d.weight === undefined) return bare;
  const { radiusMm, halfAngleRad, cornerRadiusMm, turnRad } = d.weight;
  return union(bare, turned(sectorOutline(radiusMm, halfAngleRad, cornerRadiusMm), turnRad));
});

/**
 * Two bodies a throw, front and rear; own frame: crank axis at the origin, the throw on +y. Where pins are split, the pin end of each
 * cheek goes round the pin beside it, while the counterweight keeps opposite the throw's own phase.
 */
export function layCheeks(doc: BuildDocument, assembly: Assembly, cylinders: readonly Cylinder[]): Body[] {
  const { count, lay } = cheeksOf(doc, assembly, cylinders);
  return Array.from({ length: count }, (_, k) => lay(k));
}

/** The same, one at a time: front and rear of throw 1, front and rear of throw 2 ... */
export function cheeksOf(
  doc: BuildDocument,
  assembly: Assembly,
  cylinders: readonly Cylinder[],
): { readonly count: number; readonly lay: (k: number) => Body } {
  const layout = layoutOfBlock(doc.block);
  const weighted = weightedCheeks(assembly, layout);
  const { crank } = assembly;
  const thickness = mm(crank.cheekThickness);
  const half = mm(crank.journalLength) / 2;
  return {
    count: 2 * layout.throwPhasesDeg.length,
    lay: (place) => {
      const number = Math.floor(place / 2) + 1;
      const phaseDeg = layout.throwPhasesDeg[number - 1]!;
      const side: CheekSide = place % 2 === 0 ? 'front' : 'rear';
      const centre = throwCentreMm(cylinders, number);
      const resolved = counterweightOf(assembly, number, side);
      const { dims, own } = resolved;
      const beside = onThrow(cylinders, number).at(side === 'front' ? 0 : -1)!;
      const splitDeg = layout.cylinders[beside.number - 1]!.pinSplitDeg;
      const hasWeight = weighted.some((w) => w.throw === number && w.side === side);
      const points = measuredOf(resolved);
      const measured = points && measuredShape(points, 'counterweight outline');
      const base: CheekDims = {
        crankRadiusMm: mm(crank.stroke) / 2,
        pinEndRadiusMm: mm(crank.pinEndRadius),
        hubRadiusMm: mm(dims.hubRadius),
        ...(splitDeg === 0 ? {} : { pinTurnRad: splitDeg * DEG }),
      };
      const entry = measured
        ? { key: measured.key, made: measured.outline }
        : cheek(
            hasWeight
              ? {
                  ...base,
                  weight: {
                    radiusMm: mm(dims.radius),
                    halfAngleRad: rad(dims.halfAngle),
                    cornerRadiusMm: mm(dims.cornerRadius),
                    turnRad: own?.phase ? rad(own.phase) : 0,
                  },
                }
              : base,
          );
      const shift = own?.axialShift ? mm(own.axialShift) : 0;
      const z0Mm = centre + shift + (side === 'front' ? -half - thickness : half);
      const z1Mm = z0Mm + thickness;
      const phaseRad = (referenceBankDeg(layout) + phaseDeg) * DEG;
      const assumed = measured
        ? measured.assumed
        : [
            ...(hasWeight ? assumedOf('counterweight', dims) : assumedOf('counterweight', dims, ['hubRadius'])),
            ...assumedOf('crank', crank, ['stroke', 'pinEndRadius']),
          ];
      return {
        name: `${hasWeight || measured ? 'counterweight' : 'cheek'} ${number} ${side}`,
        kind: 'counterweight',
        throw: number,
        motion: crankMotion(phaseRad),
        layers: [
          {
            part: hasWeight || measured ? 'counterweight' : 'cheek',
            outline: entry.made,
            z0Mm,
            z1Mm,
            deviationMm: measured?.deviationMm ?? 0,
          },
        ],
        round: [],
        drawn: [{ style: 'cut', outline: entry.made, hatch: { slopeDeg: 45, spacingMm: 4 } }],
        z0Mm,
        z1Mm,
        assumed: [...assumed, ...assumedOf('crank', crank, ['journalLength', 'cheekThickness'])],
        shapeKey: `cheek ${entry.key} ${thickness}`,
        baseMm: z0Mm,
        move: { kind: 'crank', phaseRad },
        ...(measured === undefined && splitDeg === 0 && !(own?.phase && rad(own.phase) !== 0)
          ? { mirror: { shapeKey: `cheek ${entry.key} ${thickness}`, baseMm: -z1Mm } }
          : {}),
      };
    },
  };
}

/** Crankpins with the main journal, for the picture only: one a throw, or one a cylinder where the pins are split. */
export function layJournals(doc: BuildDocument, assembly: Assembly, cylinders: readonly Cylinder[]): Body[] {
  const layout = layoutOfBlock(doc.block);
  const half = mm(assembly.crank.journalLength) / 2;
  const pin = disc(0, mm(assembly.crank.stroke) / 2, mm(assembly.crank.rodJournal) / 2);
  const main = disc(0, 0, mm(assembly.crank.mainJournal) / 2);
  const journal = (name: string, number: number, phaseDeg: number, z0Mm: number, z1Mm: number): Body => {
    const phaseRad = (referenceBankDeg(layout) + phaseDeg) * DEG;
    return {
      name,
      kind: 'journal',
      throw: number,
      motion: crankMotion(phaseRad),
      layers: [],
      round: [],
      drawn: [
        { style: 'behind', outline: main },
        { style: 'cut', outline: pin, hatch: { slopeDeg: 45, spacingMm: 4 } },
      ],
      z0Mm,
      z1Mm,
      assumed: [],
      shapeKey: 'journal',
      baseMm: (z0Mm + z1Mm) / 2,
      move: { kind: 'crank', phaseRad },
    };
  };
  return layout.throwPhasesDeg.flatMap((phaseDeg, k): Body[] => {
    const centre = throwCentreMm(cylinders, k + 1);
    const [front, rear] = onThrow(cylinders, k + 1).map((c) => layout.cylinders[c.number - 1]!.pinSplitDeg);
    if (rear === undefined || rear === front) {
      const phase = phaseDeg + (front ?? 0);
      return [journal(`rod journal ${k + 1}`, k + 1, phase, centre - half, centre + half)];
    }
    return [
      journal(`rod journal ${k + 1} front`, k + 1, phaseDeg + front!, centre - half, centre),
      journal(`rod journal ${k + 1} rear`, k + 1, phaseDeg + rear, centre, centre + half),
    ];
  });
}
