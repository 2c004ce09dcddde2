/** The bodies of a section at one crank angle as paths with true arcs: filled, hatched, edged, back to front. */
import type { Body, DrawnShape, Engine } from '../../assembly/engine.ts';
import { type Outline, type Piece, pieceEnd, pieceStart } from '../../core/outline/outline.ts';
import { newPose, POSE_TURN, type Pose, poseX, poseY } from '../../core/plane/pose.ts';
import type { Seen } from '../inView.ts';
import { type Camera, screenX, screenY } from '../scene/camera.ts';
import { CENTRE_LINE_PX, HIDDEN_PX } from '../scene/dashes.ts';
import { ghostStrokes } from '../scene/ghostStrokes.ts';
import { paperSlope } from '../scene/hatchSlope.ts';
import { BEHIND_PX, CUT_PX, hatchSpacingPx, isHatched, THIN_PX } from '../scene/lineWeights.ts';
import type { Ink } from '../theme.ts';
import { hex, px } from './svgPen.ts';

/** An arc of half a circle or more has no single way between its ends. */
const LONGEST_ARC_RAD = (Math.PI * 2) / 3;

export interface BodiesAt {
  readonly engine: Engine;
  readonly crankAngleRad: number;
  readonly camera: Camera;
  readonly ink: Ink;
  /** Begins the ids of the hatchings: two drawings on a page must not share them. */
  readonly id: string;
}

/** Hatchings that were asked for, by their id. */
export type Hatchings = Map<string, string>;

function dividedPieces(outline: Outline): Piece[] {
  return outline.pieces.flatMap((p): Piece[] => {
    if (p.kind === 'line' || Math.abs(p.sweepRad) <= LONGEST_ARC_RAD) return [p];
    const parts = Math.ceil(Math.abs(p.sweepRad) / LONGEST_ARC_RAD);
    const sweepRad = p.sweepRad / parts;
    return Array.from({ length: parts }, (_, k) => ({ ...p, startRad: p.startRad + k * sweepRad, sweepRad }));
  });
}

/** The path of an outline of a body at a pose. */
export function outlinePath(outline: Outline, pose: Pose, mirror: 1 | -1, camera: Camera): string {
  const at = ([x, y]: readonly [number, number]): string =>
    `${px(screenX(camera, mirror * poseX(pose, x, y)))} ${px(screenY(camera, poseY(pose, x, y)))}`;
  const pieces = dividedPieces(outline);
  const first = pieces[0];
  if (first === undefined) return '';
  // y runs down: counterclockwise is the way of falling angles, and mirroring turns it about.
  const steps = pieces.map((p) => {
    if (p.kind === 'line') return `L${at(pieceEnd(p))}`;
    const r = px(p.r * camera.pxPerMm);
    return `A${r} ${r} 0 0 ${p.sweepRad > 0 === (mirror === 1) ? 0 : 1} ${at(pieceEnd(p))}`;
  });
  return `M${at(pieceStart(first))}${steps.join('')}Z`;
}

function hatching(shape: DrawnShape, what: BodiesAt, hatchings: Hatchings): string {
  const { slopeDeg, spacingMm } = shape.hatch!;
  const apart = hatchSpacingPx(spacingMm);
  const slope = paperSlope(what.engine)(slopeDeg);
  const id = `${what.id}-hatch-${px(slope).replace('-', 'm').replace('.', '-')}-${px(apart).replace('.', '-')}`;
  if (!hatchings.has(id)) {
    hatchings.set(
      id,
      `<pattern id="${id}" width="${px(apart)}" height="${px(apart)}" patternUnits="userSpaceOnUse" patternTransform="rotate(${px(-slope)})">` +
        `<path d="M0 ${px(apart / 2)}H${px(apart)}" fill="none" stroke="${hex(what.ink.ink)}" stroke-width="${THIN_PX}" stroke-opacity="${px(what.ink.hatchAlpha)}"/></pattern>`,
    );
  }
  return id;
}

/** Elements of the bodies in view, and what their hatchings are; `open`: not hiding what lies behind, so that an overlap shows. */
export function bodyElements(seen: readonly Seen[], what: BodiesAt, hatchings: Hatchings, open = false): string {
  const { engine, ink, camera } = what;
  const mirror = engine.mirrored ? -1 : 1;
  const pose = newPose();
  const out: string[] = [];
  for (const { body, role, part } of seen) {
    body.motion.write(what.crankAngleRad, pose);
    for (const shape of part === undefined ? body.drawn : body.drawn.filter(part)) {
      const d = [shape.outline, ...(shape.holes ?? [])]
        .map((outline) => outlinePath(outline, pose, mirror, camera))
        .join('');
      if (d === '') continue;
      if (shape.style === 'hidden' || shape.style === 'construction') {
        const dashes = (shape.style === 'hidden' ? HIDDEN_PX : CENTRE_LINE_PX).join(' ');
        out.push(
          `<path d="${d}" fill="none" stroke="${hex(ink.faint)}" stroke-width="${THIN_PX}" stroke-dasharray="${dashes}"/>`,
        );
        continue;
      }
      const cut = shape.style === 'cut' && role === 'cut';
      const edge = `stroke="${hex(role === 'behind' ? ink.faint : ink.ink)}" stroke-width="${cut ? CUT_PX : BEHIND_PX}" stroke-linejoin="round"`;
      if (!open) out.push(`<path d="${d}" fill="${hex(ink.paper)}" fill-rule="evenodd" stroke="none"/>`);
      const fill = isHatched(shape, role) ? `url(#${hatching(shape, what, hatchings)})` : 'none';
      out.push(`<path d="${d}" fill="${fill}" fill-rule="evenodd" ${edge}/>`);
    }
  }
  return out.join('\n');
}

/** The dashed outline of another assembly's part where it differs from the one on show. */
export function ghostElements(
  ghost: readonly Seen[],
  shown: readonly Seen[],
  what: Omit<BodiesAt, 'id'>,
  mirrored: boolean,
): string {
  const { camera, ink } = what;
  const mirror = mirrored ? -1 : 1;
  const pose = newPose();
  const alike = (body: Body): Body | undefined =>
    shown.find(({ body: b }) => b.kind === body.kind && b.name === body.name)?.body;
  const out: string[] = [];
  for (const body of new Set(ghost.map((g) => g.body))) {
    body.motion.write(what.crankAngleRad, pose);
    const strokes = ghostStrokes(body, alike(body), camera.pxPerMm);
    let d = '';
    for (let k = 0; k + 3 < strokes.length; k += 4) {
      for (const [letter, at] of [
        ['M', k],
        ['L', k + 2],
      ] as const) {
        const [x, y] = [strokes[at]! / camera.pxPerMm, -strokes[at + 1]! / camera.pxPerMm];
        d += `${letter}${px(screenX(camera, mirror * poseX(pose, x, y)))} ${px(screenY(camera, poseY(pose, x, y)))}`;
      }
    }
    if (d !== '') out.push(`<path d="${d}" fill="none" stroke="${hex(ink.faint)}" stroke-width="${BEHIND_PX}"/>`);
  }
  return out.join('\n');
}

/** Where a body's own origin stands and how it is turned, px and degrees on the paper. */
export function placeOf(
  body: Body,
  crankAngleRad: number,
  mirror: 1 | -1,
  camera: Camera,
): { readonly x: number; readonly y: number; readonly turnRad: number } {
  const pose = newPose();
  body.motion.write(crankAngleRad, pose);
  return {
    x: screenX(camera, mirror * pose[0]!),
    y: screenY(camera, pose[1]!),
    turnRad: mirror * pose[POSE_TURN]!,
  };
}
