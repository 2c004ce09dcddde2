/**
 * The section at one crank angle as a drawing of its own (Scalable Vector Graphics 1.1): the same parts, lines and marks as
 * on the screen, with true arcs, sharp at any size. For prints, pictures and clips.
 */
import type { Body, Engine } from '../../assembly/engine.ts';
import type { Figures, Gap } from '../../model/results.ts';
import type { Units } from '../../model/state.ts';
import { bodiesInView, chosenCylinder, cylindersOfThrow } from '../inView.ts';
import { type Box, type Camera, fitCamera, screenX, screenY } from '../scene/camera.ts';
import { CENTRE_LINE_PX, dashStrokes } from '../scene/dashes.ts';
import { blockReachMm, overTheValves, ringRadiusMm } from '../scene/framing.ts';
import { FreePlaces } from '../scene/freePlaces.ts';
import { ghostBodies } from '../scene/ghostStrokes.ts';
import { THIN_PX } from '../scene/lineWeights.ts';
import { sweptBox, takeEdges } from '../scene/swept.ts';
import { drawWitness } from '../scene/witnessMark.ts';
import type { Ink } from '../theme.ts';
import { bodyElements, ghostElements, type Hatchings } from './svgBodies.ts';
import { drawSvgDimensions } from './svgDimensions.ts';
import { type CalledOut, callOut, enlarged, paperPoints } from './svgGaps.ts';
import { escaped, hex, px, SvgPen } from './svgPen.ts';

export interface SvgSection {
  readonly engine: Engine;
  readonly cylinder: number;
  readonly crankAngleRad: number;
  /** Certified gaps, worst first: they say which counterweight the cut steps to. */
  readonly gaps: readonly Gap[];
  readonly picked: string | null;
  /** The first is enlarged where it is small enough. */
  readonly calledOut: readonly CalledOut[];
  readonly ghost: Engine | null;
  /** With them the dimension lines are drawn; null: without. */
  readonly figures: Figures | null;
  readonly units: Units;
  readonly ink: Ink;
  /** Px of 1/96 inch. */
  readonly width: number;
  readonly height: number;
  /** Where it is to lie as another drawing does; without it the whole sweep fits the paper. */
  readonly camera?: Camera;
  /** Begins every id in the drawing. */
  readonly id: string;
  /** Read to those who can't see it. */
  readonly title: string;
}

/** Ink on white paper. */
export const PRINT_INK: Ink = {
  paper: 0xffffff,
  ink: 0x000000,
  faint: 0x6b7074,
  hatchAlpha: 0.35,
  clears: 0x00795a,
  tight: 0x9a6200,
  contact: 0xb23a00,
  unproven: 0x4c5256,
  accent: 0x005e93,
};

const EDGE_PX = 14;
const DIMENSIONS_PX = 54;
/** The drawing as text, `<svg …>…</svg>`. Throws RangeError where a coordinate is not finite. */
export function svgSection(what: SvgSection): string {
  const { engine, ink, width, height, crankAngleRad, units } = what;
  const mirror = engine.mirrored ? -1 : 1;
  const seen = bodiesInView(what);
  const chosen = chosenCylinder(what);
  const camera = cameraOf(what);
  const hatchings: Hatchings = new Map();
  const at = { engine, crankAngleRad, camera, ink, id: what.id };
  const places = new FreePlaces(width, height);
  takeEdges(places, seen, mirror, camera, [crankAngleRad]);

  const pen = new SvgPen();
  pen.raw(bodyElements(seen, at, hatchings));
  drawCentres(pen, what, camera);
  if (what.ghost !== null) {
    const state = { cylinder: what.cylinder } as Parameters<typeof ghostBodies>[1];
    pen.raw(ghostElements(ghostBodies(what.ghost, state), seen, at, what.ghost.mirrored));
  }
  if (what.figures !== null) {
    const one = (kind: Body['kind']): Body | undefined =>
      seen.find(
        ({ body, role }) =>
          role === 'cut' && body.kind === kind && (kind === 'counterweight' || body.cylinder === chosen.number),
      )?.body;
    drawSvgDimensions(
      pen,
      {
        engine,
        cylinder: chosen,
        figures: what.figures,
        crankAngleRad,
        units,
        camera,
        ink,
        rod: one('rod'),
        piston: one('piston'),
        counterweight: one('counterweight'),
        blockReachMm: blockReachMm(seen, chosen),
        widthPx: width,
      },
      places,
    );
  }
  const inPlane = what.calledOut.filter(({ gap }) => gap.direction !== 'axial');
  for (const { gap, state, pointsMm } of inPlane) {
    const [[ax, ay], [bx, by]] = paperPoints(pointsMm, camera);
    drawWitness(pen, ax, ay, bx, by, state, ink, gap.id === what.picked);
  }
  const inset = inPlane[0] === undefined ? null : enlarged(pen, what, inPlane[0], camera, places, hatchings);
  for (const one of what.calledOut) callOut(pen, what, one, camera, places, one === inPlane[0] ? inset : null);

  const defs = hatchings.size === 0 ? '' : `<defs>${[...hatchings.values()].join('')}</defs>`;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${px(width)}" height="${px(height)}" viewBox="0 0 ${px(width)} ${px(height)}" role="img" aria-labelledby="${what.id}-title">` +
    `<title id="${what.id}-title">${escaped(what.title)}</title>${defs}` +
    `<rect width="${px(width)}" height="${px(height)}" fill="${hex(ink.paper)}"/>\n${pen.elements()}</svg>`
  );
}

export function cameraOf(what: SvgSection): Camera {
  if (what.camera !== undefined) return what.camera;
  const { engine } = what;
  const seen = bodiesInView(what);
  const swept = sweptBox(seen, engine.mirrored ? -1 : 1, engine.cycleRad);
  const reach = ringRadiusMm(seen);
  const over = what.figures === null ? [] : overTheValves(what);
  const whole: Box = {
    x0: Math.min(swept.x0, -reach, ...over.map(([x]) => x)),
    y0: Math.min(swept.y0, -reach),
    x1: Math.max(swept.x1, reach, ...over.map(([x]) => x)),
    y1: Math.max(swept.y1, reach, ...over.map(([, y]) => y)),
  };
  const edge = what.figures === null ? EDGE_PX : DIMENSIONS_PX;
  return fitCamera(whole, { x0: edge, y0: edge, x1: what.width - edge, y1: what.height - EDGE_PX });
}

function drawCentres(pen: SvgPen, what: SvgSection, camera: Camera): void {
  const { engine, ink } = what;
  const mirror = engine.mirrored ? -1 : 1;
  const line = (x0: number, y0: number, x1: number, y1: number): void => {
    const points = [
      screenX(camera, mirror * x0),
      screenY(camera, y0),
      screenX(camera, mirror * x1),
      screenY(camera, y1),
    ];
    pen.segments(dashStrokes(points, false, CENTRE_LINE_PX));
  };
  const seen = bodiesInView(what);
  const cross = ringRadiusMm(seen);
  const top = sweptBox(seen, mirror, engine.cycleRad);
  const chosen = chosenCylinder(what);
  const end = Math.hypot(Math.max(-top.x0, top.x1, 0) * Math.sin(Math.abs(chosen.bankAngleRad)), top.y1) + 8;
  line(-cross, 0, cross, 0);
  line(0, -cross, 0, cross);
  for (const c of cylindersOfThrow(engine, chosen)) {
    const [sin, cos, v] = [Math.sin(c.bankAngleRad), Math.cos(c.bankAngleRad), c.boreOffsetMm];
    line(v * cos, -v * sin, v * cos + end * sin, -v * sin + end * cos);
  }
  if (engine.camAxisMm !== undefined) {
    const { x, y } = engine.camAxisMm;
    line(x - 34, y, x + 34, y);
    line(x, y - 34, x, y + 34);
  }
  pen.stroke({ width: THIN_PX, color: ink.ink, alpha: 0.75 });
}
