/** The camshaft as bodies: two lobes a cylinder in their firing phase, and the core between them. */
import type { Assembly, BuildDocument, Valve } from '../build/document.ts';
import { camMotion } from '../core/kinematics/motions.ts';
import { lobeOutline } from '../core/lobe/lobeOutline.ts';
import type { LobeSpec } from '../core/lobe/lobeSpec.ts';
import { disc } from '../core/outline/path.ts';
import { assumedOf, mm, rad } from './dims.ts';
import type { Body, Cylinder } from './engine.ts';
import { remember } from './remember.ts';

const outlines = remember((spec: LobeSpec) => lobeOutline(spec).outline);

/**
 * Lobe phase. The shaft is one piece, ground to even firing of the pins and set by a degree wheel on cylinder 1, whose zero
 * is that cylinder's true TDC. The intake valve of a cylinder is fully open `intakeCentreline` crank degrees after its gas-exchange TDC,
 * which is a turn after it fires; the exhaust valve 2 x lobe separation (cam degrees) earlier. There the nose points
 * along the follower axis: ratio * crank angle + phase = follower angle.
 */
export function layCamshaft(doc: BuildDocument, assembly: Assembly, cylinders: readonly Cylinder[]): Body[] {
  const { camshaft } = assembly;
  const axis = doc.block.camAxis;
  if (camshaft === undefined || axis === undefined) return [];
  const xMm = mm(axis.across);
  const yMm = mm(axis.height);
  const ratio = camshaft.sense === 'same' ? 0.5 : -0.5;
  const width = mm(camshaft.lobeWidth);
  const trueTopRad = cylinders[0]!.firingTdcRad - cylinders[0]!.firingPinRad;
  const placeAssumed = assumedOf('camshaft axis', axis);
  const lobe = (c: Cylinder, valve: Valve): Body => {
    const own = assembly.own?.find((o) => o.body === 'lobe' && o.cylinder === c.number && o.valve === valve);
    const mine = own?.body === 'lobe' ? own : undefined;
    const lift = mine?.lift ?? (valve === 'intake' ? camshaft.intakeLift : camshaft.exhaustLift);
    const duration = mine?.duration ?? (valve === 'intake' ? camshaft.intakeDuration : camshaft.exhaustDuration);
    const spec: LobeSpec = {
      baseRadiusMm: mm(camshaft.baseCircle) / 2,
      liftMm: mm(lift),
      law: camshaft.law,
      durationAtLiftCrankRad: rad(duration),
      durationAtLiftMm: mm(camshaft.durationAtLift),
      follower:
        camshaft.follower.kind === 'flat'
          ? { kind: 'flat' }
          : { kind: 'roller', radiusMm: mm(camshaft.follower.radius) },
    };
    const { key, made } = outlines(spec);
    const centreline = rad(camshaft.intakeCentreline);
    const peak =
      c.firingPinRad +
      trueTopRad +
      2 * Math.PI +
      centreline -
      (valve === 'exhaust' ? 2 * rad(camshaft.lobeSeparation) : 0);
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
      assumed: [...assumedOf('camshaft', camshaft), ...assumedOf('lobe', { lift, duration }), ...placeAssumed],
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
  };
  return [...cylinders.flatMap((c) => [lobe(c, 'intake'), lobe(c, 'exhaust')]), core];
}
