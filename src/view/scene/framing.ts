/** How far the parts in view ever reach, and the camera that shows them as large as the screen allows. */
import type { Cylinder } from '../../assembly/engine.ts';
import { newPose, poseX, poseY } from '../../core/plane/pose.ts';
import type { State } from '../../model/state.ts';
import { bodiesInView, chosenCylinder, type Seen } from '../inView.ts';
import { type Box, type Camera, fitCamera } from './camera.ts';
import { sweptBox } from './swept.ts';
import { outlinePoints } from './tessellate.ts';
import { valveReachMm } from './valveReach.ts';

export interface ScreenSize {
  readonly width: number;
  readonly height: number;
  readonly resolution: number;
}

/** A section narrower than this is small: fewer words on it. */
const SMALL_SCREEN_PX = 560;
/** Ring round the crank, beyond everything that turns with it. */
const RING_CLEAR_MM = 7;

/** Room left round the parts, px: for the dimension lines outside the deck, the words at the ring, the buttons below. */
const EDGE_PX = { plain: 14, dimensions: 52, ringWords: 40, small: 12, buttonsBelow: 84 } as const;

export function isSmall(screen: ScreenSize): boolean {
  return screen.width < SMALL_SCREEN_PX;
}

/** Less than this each way leaves no room beside the parts for one of them enlarged, px. */
const INSET_FROM_PX = 280;

export function hasRoomForInset(screen: ScreenSize): boolean {
  return screen.width >= INSET_FROM_PX && screen.height >= INSET_FROM_PX;
}

export function sameSize(a: ScreenSize, b: ScreenSize): boolean {
  return a.width === b.width && a.height === b.height && a.resolution === b.resolution;
}

/** Camera that shows the drawing whole; the parts fill the screen but for what stands round them. */
export function wholeCamera(state: State, screen: ScreenSize, dimensions: boolean): Camera {
  const seen = bodiesInView(state);
  const box = sweptBox(seen, state.engine.mirrored ? -1 : 1, state.engine.cycleRad);
  const reach = ringRadiusMm(seen);
  const over = dimensions ? overTheValves(state) : [];
  const xs = over.map(([x]) => x);
  const ys = over.map(([, y]) => y);
  const whole: Box = {
    x0: Math.min(box.x0, -reach, ...xs),
    y0: Math.min(box.y0, -reach, ...ys),
    x1: Math.max(box.x1, reach, ...xs),
    y1: Math.max(box.y1, reach, ...ys),
  };
  const small = isSmall(screen);
  const side = small ? EDGE_PX.small : dimensions ? EDGE_PX.dimensions : EDGE_PX.plain;
  const top = dimensions ? EDGE_PX.dimensions : EDGE_PX.plain;
  const bottom = small ? EDGE_PX.buttonsBelow : EDGE_PX.ringWords;
  return fitCamera(whole, { x0: side, y0: top, x1: screen.width - side, y1: screen.height - bottom });
}

/** Where the dimension of the bore stands when it has to go over valves: its two ends, engine frame as shown. None where there are no valves. */
export function overTheValves(state: Pick<State, 'engine' | 'cylinder'>): readonly (readonly [number, number])[] {
  const c = chosenCylinder(state);
  const up = valveReachMm(state.engine, c, 0);
  if (up === 0) return [];
  const mirror = state.engine.mirrored ? -1 : 1;
  const [ux, uy] = [Math.sin(c.bankAngleRad), Math.cos(c.bankAngleRad)];
  return [-1, 1].map((side) => {
    const across = c.boreOffsetMm + side * c.boreRadiusMm;
    return [mirror * (up * ux + across * uy), up * uy - across * ux] as const;
  });
}

/** Radius of the ring round the crank of the throw in view, mm: outside all that turns with the crank. */
export function ringRadiusMm(seen: readonly Seen[]): number {
  const pose = newPose();
  let reach = 0;
  for (const { body, role } of seen) {
    if (role !== 'cut' || (body.kind !== 'counterweight' && body.kind !== 'journal')) continue;
    body.motion.write(0, pose);
    for (const shape of body.drawn) {
      const points = outlinePoints(shape.outline, 1);
      for (let k = 0; k < points.length; k += 2) {
        const [x, y] = [points[k]!, -points[k + 1]!];
        reach = Math.max(reach, Math.hypot(poseX(pose, x, y), poseY(pose, x, y)));
      }
    }
  }
  return (reach > 0 ? reach : 80) + RING_CLEAR_MM;
}

/** How far the block reaches from the chosen bore's axis on the outer side, mm, where the pin of its piston ever is. */
export function blockReachMm(seen: readonly Seen[], chosen: Cylinder): number {
  const { bankAngleRad, slider } = chosen;
  const besideFromMm = slider.rodLengthMm - slider.crankRadiusMm;
  const sin = Math.sin(bankAngleRad);
  const cos = Math.cos(bankAngleRad);
  const outer = bankAngleRad < -0.01 ? -1 : 1;
  const pose = newPose();
  let reach = 0;
  for (const { body } of seen) {
    if (body.kind !== 'block') continue;
    body.motion.write(0, pose);
    for (const shape of body.drawn) {
      const points = outlinePoints(shape.outline, 1);
      for (let k = 0; k < points.length; k += 2) {
        const x = poseX(pose, points[k]!, -points[k + 1]!);
        const y = poseY(pose, points[k]!, -points[k + 1]!);
        if (x * sin + y * cos > besideFromMm) reach = Math.max(reach, outer * (x * cos - y * sin));
      }
    }
  }
  return reach > 0 ? reach : 60;
}
