/**
 * The whole section drawing as a tree of pixi containers, from back to front: ring, parts, centre lines, ghost,
 * dimensions, marks at the gaps, inset, callouts. `rebuild` makes everything for a camera; `turn` only moves it.
 */
import { Container, Graphics } from 'pixi.js';
import type { Body, Engine } from '../../assembly/engine.ts';
import type { Band } from '../../model/envelope/watcher.ts';
import type { Gap } from '../../model/results.ts';
import type { State } from '../../model/state.ts';
import { bodiesInView, chosenCylinder, cylindersOfThrow, pairsInView, type Seen } from '../inView.ts';
import type { Ink } from '../theme.ts';
import { gapsAlongCrank, gapsShownNow, gapsSpokenOf, type SpokenOf, tightestNow } from './calledOut.ts';
import { createCallouts } from './callouts.ts';
import { type Box, type Camera, screenX, screenY } from './camera.ts';
import { drawCentreLines } from './centreLines.ts';
import { createCrankRing } from './crankRing.ts';
import { createDimensions } from './dimensions.ts';
import { blockReachMm, hasRoomForInset, isSmall, ringRadiusMm, type ScreenSize } from './framing.ts';
import { FreePlaces, type GivePlace } from './freePlaces.ts';
import { createInset } from './inset.ts';
import { createSectionBand } from './sectionBand.ts';
import { createSectionGhost } from './sectionGhost.ts';
import { createSectionParts } from './sectionParts.ts';
import { sweptBox, takeSwept } from './swept.ts';
import { drawWitness } from './witnessMark.ts';

/** What is told of the gaps: all, with the ring round the crank; those here and now alone; or nothing, the parts speak for themselves. */
export type Told = 'all' | 'gaps' | 'nothing';

export interface DrawingOptions {
  readonly dimensions: boolean;
  readonly ghost: Engine | null;
  readonly told: Told;
  /** What a body sweeps, behind everything. */
  readonly band: Band | null;
  /** Boxes of the screen that lie under other things, px. */
  readonly covered: readonly Box[];
  /** While a dimension is dragged: what has a place on the screen keeps it. */
  readonly hold: boolean;
}

export interface SectionDrawing {
  readonly root: Container;
  rebuild(state: State, camera: Camera, ink: Ink, screen: ScreenSize, options: DrawingOptions): void;
  turn(state: State, camera: Camera): void;
  /** Radius of the ring round the crank, mm: inside it a hand turns the crank. */
  ringMm(): number;
  destroy(): void;
}

const MOST_CALLOUTS = 3;

interface Built {
  readonly camera: Camera;
  readonly ink: Ink;
  readonly small: boolean;
  readonly inset: boolean;
  readonly spoken: readonly SpokenOf[];
}

export function createDrawing(): SectionDrawing {
  const root = new Container();
  const ring = createCrankRing();
  const centreLines = new Graphics();
  const parts = createSectionParts();
  const band = createSectionBand();
  const ghost = createSectionGhost();
  const dimensions = createDimensions();
  const marks = new Graphics();
  const inset = createInset();
  const callouts = createCallouts();
  root.addChild(
    band.view,
    ring.under,
    parts.view,
    centreLines,
    ghost.view,
    ring.over,
    dimensions.view,
    marks,
    inset.view,
    callouts.view,
  );
  let built: Built | null = null;
  let ringMm = 100;
  /** What the bodies sweep over; while a dimension is dragged, as it was. */
  let box: Box | null = null;
  /** Places given, by what they were given to. */
  const given = new Map<string, { x: number; y: number }>();

  /** Gives dimension lines, inset and callouts their places on the screen, in the order in which they matter. */
  function placeWords(state: State, seen: readonly Seen[], screen: ScreenSize, options: DrawingOptions): void {
    const { camera, ink, small, spoken } = built!;
    const { engine } = state;
    const mirror = engine.mirrored ? -1 : 1;
    const places = new FreePlaces(screen.width, screen.height);
    for (const covered of options.covered) places.reserve(covered);
    if (!options.hold) given.clear();
    let swept = false;
    const give: GivePlace = (key, width, height, x, y) => {
      const before = given.get(key);
      if (before !== undefined) {
        places.reserve({ x0: before.x, y0: before.y, x1: before.x + width, y1: before.y + height });
        return before;
      }
      if (!swept) takeSwept(places, seen, mirror, camera, engine.cycleRad);
      swept = true;
      const place = places.give(width, height, x, y);
      given.set(key, place);
      return place;
    };
    places.reserve(ring.labelBox(camera));
    places.takeDisc(camera.x, camera.y, ringMm * camera.pxPerMm + 16);
    if (options.dimensions) {
      const chosen = chosenCylinder(state);
      const one = (kind: Body['kind']) =>
        seen.find(
          ({ body, role }) =>
            role === 'cut' && body.kind === kind && (kind === 'counterweight' || body.cylinder === chosen.number),
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
          blockReachMm: blockReachMm(seen, chosen),
          extent: small ? 'few' : 'all',
        },
        places,
      );
    } else dimensions.clear();

    const anchor = ({ pointsMm: [a, b] }: Gap) => ({
      x: screenX(camera, (a[0] + b[0]) / 2),
      y: screenY(camera, (a[1] + b[1]) / 2),
    });
    const gaps = spoken.map(({ gap }) => gap);
    // Where there is little room the words come first, in short; else the inset does, being the larger.
    if (small) callouts.rebuild(gaps.slice(0, 1), state.units, ink, give, anchor, true);
    if (!hasRoomForInset(screen)) {
      if (!small) callouts.rebuild(gaps, state.units, ink, give, anchor, false);
      return;
    }
    const radiusPx = small ? 46 : Math.min(96, Math.max(60, screen.height * 0.16));
    const first = gaps[0] === undefined ? { x: screen.width, y: screen.height / 2 } : anchor(gaps[0]);
    const wide = Math.max(2 * radiusPx, 140);
    const place = give('inset', wide, 2 * radiusPx + 24, first.x, first.y);
    inset.rebuild({ engine, gaps, ink, radiusPx, x: place.x + wide / 2, y: place.y + radiusPx });
    if (small) return;
    // The words of the gap that the inset is likely to magnify stand by the inset.
    const [x, y] = [place.x + wide / 2, place.y + radiusPx];
    callouts.rebuild(gaps, state.units, ink, give, (gap) => (gap === gaps[0] ? { x, y } : anchor(gap)), false);
  }

  return {
    root,
    ringMm: () => ringMm,
    rebuild(state, camera, ink, screen, options) {
      const { engine } = state;
      const seen = bodiesInView(state);
      const pairs = pairsInView(engine, seen);
      const mirror = engine.mirrored ? -1 : 1;
      const chosen = chosenCylinder(state);
      const spoken = options.told === 'nothing' ? [] : gapsSpokenOf(state, pairs);
      ring.under.visible = ring.over.visible = options.told === 'all';
      built = { camera, ink, small: isSmall(screen), inset: hasRoomForInset(screen), spoken };
      ringMm = ringRadiusMm(seen);

      parts.rebuild(engine, seen, camera.pxPerMm, ink);
      band.rebuild(options.band, engine, camera.pxPerMm, ink);
      ghost.rebuild(options.ghost, state, camera.pxPerMm, ink);
      ring.rebuild({
        camera,
        radiusMm: ringMm,
        mirror,
        widthPx: screen.width,
        cylinder: chosen,
        gaps: state.gaps.filter((g) => pairs.has(g.id)),
        profiles: state.profiles,
        ink,
        covered: options.covered,
      });
      if (!options.hold || box === null) box = sweptBox(seen, mirror, engine.cycleRad);
      drawCentreLines(centreLines, {
        engine,
        cylinders: cylindersOfThrow(engine, chosen),
        pxPerMm: camera.pxPerMm,
        ink,
        crossMm: ringMm + 6,
        boreEndMm: Math.hypot(Math.max(-box.x0, box.x1, 0) * Math.sin(Math.abs(chosen.bankAngleRad)), box.y1) + 8,
      });
      placeWords(state, seen, screen, options);
    },
    turn(state, camera) {
      if (built === null) return;
      const { ink, spoken, small } = built;
      const scale = camera.pxPerMm / built.camera.pxPerMm;
      for (const about of [ring.under, ring.over, centreLines]) {
        about.position.set(camera.x, camera.y);
        about.scale.set(scale);
      }
      parts.turn(camera, state.crankAngleRad);
      band.turn(camera, state.crankAngleRad);
      ghost.turn(camera, state.crankAngleRad);
      ring.turn(state.crankAngleRad);
      dimensions.turn(camera, state.crankAngleRad);

      const shown = gapsShownNow(spoken, state.now.gaps);
      // A gap along the crank is told, not marked.
      const axial = gapsAlongCrank(spoken, shown);
      const inPlane = shown.filter((g) => !axial.has(g.id));
      marks.clear();
      for (const { id, pointsMm, state: is } of inPlane) {
        const [[ax, ay], [bx, by]] = pointsMm;
        const [x0, y0, x1, y1] = [screenX(camera, ax), screenY(camera, ay), screenX(camera, bx), screenY(camera, by)];
        drawWitness(marks, x0, y0, x1, y1, is, ink, id === state.picked);
      }
      const tightest = built.inset ? tightestNow(spoken, inPlane, state.picked) : null;
      const magnified = inset.turn(tightest, camera, state.crankAngleRad);
      callouts.turn(shown, camera, small ? 1 : MOST_CALLOUTS, axial, magnified);
    },
    destroy() {
      ring.destroy();
      parts.destroy();
      band.destroy();
      ghost.destroy();
      dimensions.destroy();
      inset.destroy();
      callouts.destroy();
      root.destroy({ children: true });
    },
  };
}
