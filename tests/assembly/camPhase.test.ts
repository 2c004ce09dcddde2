/**
 * Where the lobes stand and how they lift, told in words and written out anew: the intake lobe lifts most at the installed centreline after
 * the gas-exchange top; before it the opening flank is under the follower, after it the closing one, whichever way the shaft turns.
 * The lift is read off the laid-out body as a flat face would read it: how far its outline reaches along the follower's line.
 */
import { describe, expect, it } from 'vitest';
import type { Body, Engine } from '../../src/assembly/engine.ts';
import { layOut } from '../../src/assembly/layOut.ts';
import { readContent } from '../../src/build/index.ts';
import { newPose, poseX, poseY } from '../../src/core/plane/pose.ts';
import { changed } from '../support/changed.ts';
import { dim, exampleV8 } from '../support/exampleBuild.ts';
import { liftIn, liftTable } from '../support/liftTable.ts';

const DEG = Math.PI / 180;
const CAM = 'assemblies[0].camshaft';
/** A wide base circle, so that a flat face can follow. */
const FLAT = {
  [`${CAM}.follower`]: { kind: 'flat' },
  [`${CAM}.baseCircle`]: dim('2.2 in'),
  'block.camAxis.height': dim('6 in'),
  // The degree wheel's zero is the true top: with pins on the bore axes it is that of the crankpin.
  'assemblies[0].piston.pinOffset': dim('0 in'),
};

function engineOf(changes: Record<string, unknown>): Engine {
  const read = readContent(changed(exampleV8(), { ...FLAT, ...changes }));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return layOut(read.doc, read.doc.assemblies[0]!.name);
}

/** How far a body reaches from the cam axis along a direction clockwise from up, by points of its outline a quarter of a degree apart. */
function reachMm(body: Body, engine: Engine, crankRad: number, directionRad: number): number {
  const pose = newPose();
  body.motion.write(crankRad, pose);
  let most = 0;
  for (const p of body.layers[0]!.outline.pieces) {
    const steps = p.kind === 'line' ? 1 : Math.ceil(Math.abs(p.sweepRad) / 0.004);
    for (let k = 0; k <= steps; k++) {
      const t = k / steps;
      const [x, y] =
        p.kind === 'line'
          ? [p.x0 + t * (p.x1 - p.x0), p.y0 + t * (p.y1 - p.y0)]
          : [p.cx + p.r * Math.cos(p.startRad + t * p.sweepRad), p.cy + p.r * Math.sin(p.startRad + t * p.sweepRad)];
      const along =
        (poseX(pose, x, y) - engine.camAxisMm!.x) * Math.sin(directionRad) +
        (poseY(pose, x, y) - engine.camAxisMm!.y) * Math.cos(directionRad);
      most = Math.max(most, along);
    }
  }
  return most;
}

/** Firing order 1 5 6 3 4 2 7 8, a quarter turn apart; banks at -45 and 45 degrees with followers along them. */
const FIRES_DEG: Readonly<Record<number, number>> = { 1: 0, 5: 90, 6: 180, 3: 270, 4: 360, 2: 450, 7: 540, 8: 630 };

/** Flanks of 224 crank degrees at .050 in, 108 of them opening: the u at which .310 s(u) = .050, found by halving. */
function flanksDeg(
  openingCrank: number,
  closingCrank: number,
): { liftIn: number; openingDeg: number; closingDeg: number } {
  let [low, high] = [0, 1];
  for (let k = 0; k < 60; k++) {
    const u = (low + high) / 2;
    if (0.31 * (10 * u ** 3 - 15 * u ** 4 + 6 * u ** 5) < 0.05) low = u;
    else high = u;
  }
  return { liftIn: 0.31, openingDeg: openingCrank / 2 / (1 - low), closingDeg: closingCrank / 2 / (1 - low) };
}

const UNLIKE = { [`${CAM}.intakeOpening`]: dim('108 deg'), [`${CAM}.advance`]: dim('4 deg') };
const READ = flanksDeg(108, 116);

describe.each(['same', 'opposite'])('the shaft turning the %s way', (sense) => {
  describe.each([
    ['unlike flanks', UNLIKE, flanksDeg(108, 116), 0.003],
    ['measured lifts', { [`${CAM}.intakeTable`]: liftTable(READ), [`${CAM}.advance`]: dim('4 deg') }, READ, 0.02],
  ] as const)('%s', (_, changes, law, withinMm) => {
    it.each(['clockwise', 'counterclockwise'])(
      'each cylinder in its turn, seen in the frame of a clockwise engine, engine %s',
      (rotation) => {
        const engine = engineOf({ ...changes, [`${CAM}.sense`]: sense, 'block.rotation': rotation });
        for (const cylinder of [1, 2, 5, 8]) {
          const lobe = engine.bodies.find((b) => b.name === `intake lobe ${cylinder}`)!;
          const follower = (cylinder % 2 === 1 ? -45 : 45) * DEG;
          // Centreline 106, set 4 ahead; the gas-exchange top comes a turn after the firing one.
          const peak = FIRES_DEG[cylinder]! + 360 + 106 - 4;
          for (const after of [-150, -90, -40, -10, 0, 10, 40, 90, 150, 200]) {
            const lift = reachMm(lobe, engine, (peak + after) * DEG, follower) - 1.1 * 25.4;
            const expected = 25.4 * liftIn(law, after / 2);
            expect(Math.abs(lift - expected)).toBeLessThan(withinMm);
          }
        }
      },
    );
  });
});

it('the exhaust lobe stands twice the lobe separation before the intake lobe, advance and all', () => {
  const engine = engineOf({ [`${CAM}.advance`]: dim('-3 deg') });
  const lobe = engine.bodies.find((b) => b.name === 'exhaust lobe 1')!;
  // 360 + 106 + 3 - 220.
  const at = (deg: number) => reachMm(lobe, engine, deg * DEG, -45 * DEG);
  expect(at(249)).toBeCloseTo((1.1 + 0.315) * 25.4, 2);
  expect(at(219)).toBeCloseTo(at(279), 2);
});
