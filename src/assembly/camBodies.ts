/** The camshaft as bodies: two lobes a cylinder in their firing phase, and the core between them. */
import type { Assembly, BuildDocument, Camshaft, Valve } from '../build/document.ts';
import { type LobeFigures, lobeGround, lobeOf } from '../build/lobeOf.ts';
import { camMotion } from '../core/kinematics/motions.ts';
import { lobeOutline } from '../core/lobe/lobeOutline.ts';
import type { AnyLobe } from '../core/lobe/lobeSpec.ts';
import { disc } from '../core/outline/path.ts';
import { assumedOf, mm, rad } from './dims.ts';
import type { Body, Cylinder } from './engine.ts';
import { remember } from './remember.ts';

const outlines = remember((lobe: AnyLobe) => lobeOutline(lobe).outline);

/**
 * Crank angle, 0 to 4 pi and beyond, at which a lobe's nose stands in line with its follower. The shaft is one piece, ground to even
 * firing of the pins and set by a degree wheel on cylinder 1, whose zero is that cylinder's true TDC. The intake valve of a cylinder is
 * fully open `intakeCentreline`, less the `advance` with which the shaft is set, crank degrees after its gas-exchange TDC, which is a turn
 * after it fires; the exhaust valve 2 x lobe separation (cam degrees) earlier.
 */
export function peakRad(camshaft: Camshaft, cylinders: readonly Cylinder[], c: Cylinder, valve: Valve): number {
  const trueTopRad = cylinders[0]!.firingTdcRad - cylinders[0]!.firingPinRad;
  const installedRad = rad(camshaft.intakeCentreline) - (camshaft.advance === undefined ? 0 : rad(camshaft.advance));
  const behindRad = valve === 'exhaust' ? 2 * rad(camshaft.lobeSeparation) : 0;
  return c.firingPinRad + trueTopRad + 2 * Math.PI + installedRad - behindRad;
}

/** Assumed figures that a lobe's outline rests on: a measured one on its table alone. */
export function lobeAssumed({ valve, lift, duration, opening, table }: LobeFigures): string[] {
  if (table !== undefined)
    return table.from === 'assumed' ? [`${valve} lobe lift table`] : assumedOf('lobe table', { within: table.within });
  return assumedOf('lobe', { lift, duration, ...(opening === undefined ? {} : { opening }) });
}

/** Bodies of the camshaft: the nose points along the follower axis at its peak, ratio * crank angle + phase = follower angle. */
export function layCamshaft(doc: BuildDocument, assembly: Assembly, cylinders: readonly Cylinder[]): Body[] {
  const { camshaft } = assembly;
  const axis = doc.block.camAxis;
  if (camshaft === undefined || axis === undefined) return [];
  const xMm = mm(axis.across);
  const yMm = mm(axis.height);
  const ratio = camshaft.sense === 'same' ? 0.5 : -0.5;
  const width = mm(camshaft.lobeWidth);
  const placeAssumed = assumedOf('camshaft axis', axis);
  const lobe = (c: Cylinder, valve: Valve): Body => {
    const figures = lobeOf(assembly, camshaft, c.number, valve);
    const mine = figures.own;
    const { key, made } = outlines(lobeGround(camshaft, figures));
    const peak = peakRad(camshaft, cylinders, c, valve);
    const phaseRad = rad(camshaft.followerAngles[c.bank - 1]!) - ratio * peak;
    const axial = mm(valve === 'intake' ? camshaft.intakeAxial : camshaft.exhaustAxial);
    const z0Mm = c.boreCentreMm + axial + (mine?.axialShift ? mm(mine.axialShift) : 0) - width / 2;
    return {
      name: `${valve} lobe ${c.number}`,
      kind: 'lobe',
      cylinder: c.number,
      motion: camMotion(xMm, yMm, ratio, phaseRad),
      layers: [{ part: 'lobe', outline: made, z0Mm, z1Mm: z0Mm + width }],
      round: [],
      drawn: [{ style: 'cut', outline: made, hatch: { slopeDeg: valve === 'intake' ? 45 : -45, spacingMm: 2.5 } }],
      z0Mm,
      z1Mm: z0Mm + width,
      assumed: [...new Set([...assumedOf('camshaft', camshaft), ...lobeAssumed(figures), ...placeAssumed])],
      shapeKey: `lobe ${key} ${width}`,
      baseMm: z0Mm,
      move: { kind: 'cam', xMm, yMm, ratio, phaseRad },
    };
  };
  const radius = mm(doc.block.bore) / 2;
  const z0Mm = Math.min(...cylinders.map((c) => c.boreCentreMm)) - radius;
  const z1Mm = Math.max(...cylinders.map((c) => c.boreCentreMm)) + radius;
  const coreOutline = disc(0, 0, mm(camshaft.coreDiameter) / 2);
  const core: Body = {
    name: 'camshaft core',
    kind: 'cam core',
    motion: camMotion(xMm, yMm, ratio, 0),
    layers: [{ part: 'core', outline: coreOutline, z0Mm, z1Mm }],
    round: [],
    drawn: [{ style: 'behind', outline: coreOutline }],
    z0Mm,
    z1Mm,
    assumed: [...assumedOf('camshaft', camshaft, ['coreDiameter']), ...placeAssumed],
    shapeKey: `core ${mm(camshaft.coreDiameter)} ${z1Mm - z0Mm}`,
    baseMm: z0Mm,
    move: { kind: 'cam', xMm, yMm, ratio, phaseRad: 0 },
    mirror: { shapeKey: `core ${mm(camshaft.coreDiameter)} ${z1Mm - z0Mm}` },
  };
  return [...cylinders.flatMap((c) => [lobe(c, 'intake'), lobe(c, 'exhaust')]), core];
}
