/**
 * The whole section drawing as a tree of pixi containers, from back to front: ring, centre lines, parts, ghost,
 * dimensions, marks at the gaps, inset, callouts. `rebuild` makes everything for a camera; `turn` only moves it.
 */
import { Container, Graphics } from 'pixi.js';
import type { Body, Engine } from '../../assembly/engine.ts';
import { newPose, poseX, poseY } from '../../core/plane/pose.ts';
import type { Gap, GapNow } from '../../model/results.ts';
import type { State } from '../../model/state.ts';
import { bodiesInView, chosenCylinder, cylindersOfThrow, leadingGaps, pairsInView, type Seen } from '../inView.ts';
import type { Ink } from '../theme.ts';
import { createCallouts } from './callouts.ts';
import { type Box, type Camera, fitCamera, screenX, screenY } from './camera.ts';
import { drawCentreLines } from './centreLines.ts';
import { createCrankRing } from './crankRing.ts';
import { createDimensions } from './dimensions.ts';
import { FreePlaces } from './freePlaces.ts';
import { createInset } from './inset.ts';
import { createSectionParts, sweptBox, takeSwept } from './sectionParts.ts';
import { outlinePoints } from './tessellate.ts';
import { drawWitness } from './witnessMark.ts';

export interface ScreenSize {
  readonly width: number;
  readonly height: number;
  readonly resolution: number;
}

export interface DrawingOptions {
  readonly dimensions: boolean;
  readonly ghost: Engine | null;
  /** Boxes of the screen that lie under other things, px. */
  readonly covered: readonly Box[];
}

export interface SectionDrawing {
  readonly root: Container;
  /** Camera that shows the drawing whole. */
  wholeCamera(state: State, screen: ScreenSize): Camera;
  rebuild(state: State, camera: Camera, ink: Ink, screen: ScreenSize, options: DrawingOptions): void;
  turn(state: State, camera: Camera): void;
  /** Radius of the ring round the crank, mm: inside it a hand turns the crank. */
  ringMm(): number;
  destroy(): void;
}

const SMALL_SCREEN_PX = 560;
/** A gap is marked on the drawing when it is smaller than this many limits, or than the plain figure. */
const NEAR_IN_LIMITS = 8;
const NEAR_MM = 10;
/** And called out in a box when smaller than this. */
const CALLED_IN_LIMITS = 3;
const CALLED_MM = 2;
const RING_CLEAR_MM = 7;
const CALLOUT_PLACES = 5;

export function createDrawing(): SectionDrawing {
  const root = new Container();
  const ring = createCrankRing();
  const centreLines = new Graphics();
  const parts = createSectionParts();
  const ghostParts = createSectionParts();
  const dimensions = createDimensions();
  const marks = new Graphics();
  const inset = createInset();
  const callouts = createCallouts();
  root.addChild(
    ring.under,
    parts.view,
    centreLines,
    ghostParts.view,
    ring.over,
    dimensions.view,
    marks,
    inset.view,
    callouts.view,
  );
  let built: { camera: Camera; ink: Ink; small: boolean; leading: readonly Gap[]; pairs: ReadonlySet<string> } | null =
    null;
  let ringRadiusMm = 100;

  return {
    root,
    ringMm: () => ringRadiusMm,
    wholeCamera(state, screen) {
      const seen = bodiesInView(state);
      const mirror = state.engine.mirrored ? -1 : 1;
      const box = sweptBox(seen, mirror, state.engine.cycleRad);
      const reach = crankReach(seen) + RING_CLEAR_MM;
      const whole = {
        x0: Math.min(box.x0, -reach),
        y0: Math.min(box.y0, -reach),
        x1: Math.max(box.x1, reach),
        y1: Math.max(box.y1, reach),
      };
      const small = screen.width < SMALL_SCREEN_PX;
      const margin = small ? 66 : 54;
      const sides = small ? 16 : Math.min(140, screen.width * 0.12);
      return fitCamera(whole, {
        x0: sides,
        y0: margin,
        x1: screen.width - sides,
        y1: screen.height - (small ? 64 : 40),
      });
    },
    rebuild(state, camera, ink, screen, options) {
      const { engine } = state;
      const seen = bodiesInView(state);
      const pairs = pairsInView(engine, seen);
      const mirror = engine.mirrored ? -1 : 1;
      const chosen = chosenCylinder(state);
      const small = screen.width < SMALL_SCREEN_PX;
      const leading = leadingGaps(state, pairs, CALLOUT_PLACES);
      built = { camera, ink, small, leading, pairs };
      ringRadiusMm = crankReach(seen) + RING_CLEAR_MM;

      parts.rebuild(seen, mirror, camera.pxPerMm, ink);
      if (options.ghost === null) ghostParts.clear();
      else
        ghostParts.rebuild(
          ghostBodies(options.ghost, state),
          options.ghost.mirrored ? -1 : 1,
          camera.pxPerMm,
          ink,
          true,
        );
      ring.rebuild({
        camera,
        radiusMm: ringRadiusMm,
        mirror,
        cylinder: chosen,
        gaps: state.gaps.filter((g) => pairs.has(g.id)),
        profiles: state.profiles,
        ink,
      });
      const box = sweptBox(seen, mirror, engine.cycleRad);
      drawCentreLines(centreLines, {
        engine,
        cylinders: cylindersOfThrow(engine, chosen),
        pxPerMm: camera.pxPerMm,
        ink,
        crossMm: ringRadiusMm + 6,
        boreEndMm: Math.hypot(Math.max(-box.x0, box.x1, 0) * Math.sin(Math.abs(chosen.bankAngleRad)), box.y1) + 8,
      });

      const places = new FreePlaces(screen.width, screen.height);
      for (const covered of options.covered) places.reserve(covered);
      takeSwept(places, seen, mirror, camera, engine.cycleRad);
      places.reserve(ring.labelBox(camera));
      places.takeDisc(camera.x, camera.y, ringRadiusMm * camera.pxPerMm + 16);
      if (options.dimensions) {
        const one = (kind: Body['kind']) =>
          seen.find(
            (s) =>
              s.role === 'cut' &&
              s.body.kind === kind &&
              (kind === 'counterweight' || s.body.cylinder === chosen.number),
          )?.body;
        dimensions.rebuild(
          {
            engine,
            cylinder: chosen,
            figures: state.figures,
            units: state.units,
            camera,
            ink,
            resolution: screen.resolution,
            rod: one('rod'),
            piston: one('piston'),
            counterweight: one('counterweight'),
            blockReachMm: blockReach(seen, chosen.bankAngleRad, chosen.slider.rodLengthMm),
            extent: small ? 'few' : 'all',
          },
          places,
        );
      } else dimensions.clear();
      const radiusPx = small ? 46 : Math.min(84, Math.max(60, screen.height * 0.16));
      const anchor = (gap: Gap) => ({
        x: screenX(camera, (gap.pointsMm[0][0] + gap.pointsMm[1][0]) / 2),
        y: screenY(camera, (gap.pointsMm[0][1] + gap.pointsMm[1][1]) / 2),
      });
      // Where there is little room the words come first, in short; else the inset does, being the larger.
      const placeCallouts = () =>
        callouts.rebuild(leading.slice(0, small ? 1 : CALLOUT_PLACES), state.units, ink, places, anchor, small);
      if (small) placeCallouts();
      const first = leading[0] === undefined ? { x: screen.width, y: screen.height / 2 } : anchor(leading[0]);
      const wide = Math.max(2 * radiusPx, 140);
      const place = places.give(wide, 2 * radiusPx + 24, first.x, first.y);
      inset.rebuild({
        engine,
        ink,
        radiusPx,
        x: place.x + wide / 2,
        y: place.y + radiusPx,
      });
      if (!small) placeCallouts();
    },
    turn(state, camera) {
      if (built === null) return;
      const { ink, leading, pairs, small } = built;
      const scale = camera.pxPerMm / built.camera.pxPerMm;
      for (const about of [ring.under, ring.over, centreLines]) {
        about.position.set(camera.x, camera.y);
        about.scale.set(scale);
      }
      parts.turn(camera, state.crankAngleRad);
      ghostParts.turn(camera, state.crankAngleRad);
      ring.turn(state.crankAngleRad);
      dimensions.turn(camera, state.crankAngleRad);

      const near = nearGaps(state, pairs, leading);
      marks.clear();
      for (const gap of near) {
        const [[ax, ay], [bx, by]] = gap.pointsMm;
        drawWitness(
          marks,
          screenX(camera, ax),
          screenY(camera, ay),
          screenX(camera, bx),
          screenY(camera, by),
          gap.state,
          ink,
          gap.id === state.picked,
        );
      }
      const named = leading.flatMap(
        (g) => near.find((n) => n.id === g.id && isClose(n, g.limitMm, state.picked)) ?? [],
      );
      inset.turn(tightest(named, state), camera, state.crankAngleRad);
      callouts.turn(named, camera, small ? 1 : 3);
    },
    destroy() {
      ring.destroy();
      parts.destroy();
      ghostParts.destroy();
      dimensions.destroy();
      inset.destroy();
      callouts.destroy();
      root.destroy({ children: true });
    },
  };
}

/** Whether a gap is small enough to be called out. */
function isClose(gap: GapNow, limitMm: number, picked: string | null): boolean {
  return gap.id === picked || gap.gapMm < Math.max(limitMm * CALLED_IN_LIMITS, CALLED_MM);
}

/** Gaps in view that are small now, or picked. */
function nearGaps(state: State, pairs: ReadonlySet<string>, leading: readonly Gap[]): readonly GapNow[] {
  const limits = new Map(leading.map((g) => [g.id, g.limitMm]));
  return state.now.gaps.filter((g) => {
    if (g.id === state.picked) return true;
    const limit = limits.get(g.id);
    return pairs.has(g.id) && limit !== undefined && g.gapMm < Math.max(limit * NEAR_IN_LIMITS, NEAR_MM);
  });
}

/** The picked gap, else the one now smallest against its limit. */
function tightest(near: readonly GapNow[], state: State): GapNow | null {
  const picked = near.find((g) => g.id === state.picked);
  if (picked !== undefined) return picked;
  const limitOf = (g: GapNow) => state.gaps.find((s) => s.id === g.id)?.limitMm ?? 0;
  let best: GapNow | null = null;
  for (const gap of near) {
    if (best === null || gap.gapMm - limitOf(gap) < best.gapMm - limitOf(best)) best = gap;
  }
  return best;
}

function ghostBodies(ghost: Engine, state: State): readonly Seen[] {
  if (!ghost.cylinders.some((c) => c.number === state.cylinder)) return [];
  const seen = bodiesInView({ engine: ghost, cylinder: state.cylinder, gaps: [], picked: null });
  return seen.filter(({ role, body }) => role === 'cut' && body.kind !== 'block');
}

/** How far the crank of the throw in view reaches from its axis, mm. */
function crankReach(seen: readonly Seen[]): number {
  const pose = newPose();
  let reach = 0;
  for (const { body, role } of seen) {
    if (role !== 'cut' || (body.kind !== 'counterweight' && body.kind !== 'journal')) continue;
    body.motion.write(0, pose);
    for (const shape of body.drawn) {
      const points = outlinePoints(shape.outline, 1);
      for (let k = 0; k < points.length; k += 2) {
        reach = Math.max(
          reach,
          Math.hypot(poseX(pose, points[k]!, -points[k + 1]!), poseY(pose, points[k]!, -points[k + 1]!)),
        );
      }
    }
  }
  return reach > 0 ? reach : 80;
}

/** How far the block reaches from the chosen bore's axis on the outer side, beside the bore, mm. */
function blockReach(seen: readonly Seen[], bankAngleRad: number, besideFromMm: number): number {
  const sin = Math.sin(bankAngleRad);
  const cos = Math.cos(bankAngleRad);
  const outer = bankAngleRad < -0.01 ? -1 : 1;
  let reach = 0;
  for (const { body } of seen) {
    if (body.kind !== 'block') continue;
    for (const shape of body.drawn) {
      const points = outlinePoints(shape.outline, 1);
      for (let k = 0; k < points.length; k += 2) {
        const x = points[k]!;
        const y = -points[k + 1]!;
        if (x * sin + y * cos > besideFromMm * 0.6) reach = Math.max(reach, outer * (x * cos - y * sin));
      }
    }
  }
  return reach > 0 ? reach : 60;
}
