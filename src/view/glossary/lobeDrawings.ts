/** Drawings of terms of the camshaft: the lobe of the build's own cylinder, or an invented one where the build has no camshaft. */
import { lobeOutline } from '../../core/lobe/lobeOutline.ts';
import type { Outline } from '../../core/outline/outline.ts';
import type { Cam, Sizes } from '../../model/glossary/stand.ts';
import { type Drawing, parts, type Told, whole } from './drawing.ts';
import { arc, dashed, dim, disc, line, type Mark, type Point, ring, toward, words } from './marks.ts';

const DEG = Math.PI / 180;
const AXIS: Point = [0, 0];

/** Invented: of the size of a road engine's. */
const INVENTED: Cam = {
  baseRadius: 16,
  intakeLift: 8,
  separation: 110 * DEG,
  centreline: 106 * DEG,
  duration: 220 * DEG,
  atLift: 1.27,
  coreRadius: 14,
};

const camOf = ({ cam }: Sizes): Cam => cam ?? INVENTED;

const made = new Map<string, Outline>();

function lobeOf({ stand, engine }: Told): Outline {
  const own = engine.bodies.find(
    (b) => b.kind === 'lobe' && b.cylinder === stand.cylinder.number && b.name.startsWith('intake'),
  );
  const drawn = own?.drawn[0]?.outline;
  if (drawn !== undefined) return drawn;
  const cam = camOf(stand);
  const known = made.get('invented');
  if (known !== undefined) return known;
  const { outline } = lobeOutline({
    baseRadiusMm: cam.baseRadius,
    liftMm: cam.intakeLift,
    law: '3-4-5',
    durationAtLiftCrankRad: cam.duration,
    durationAtLiftMm: cam.atLift,
    follower: { kind: 'roller', radiusMm: 10 },
  });
  made.set('invented', outline);
  return outline;
}

/** The lobe turns half as fast as the crank, clockwise; at rest its nose stands up. */
const turnOf = ({ stand: { deg } }: Told): number => (deg * DEG) / 2;

const lobe = (told: Told, tone: 'ink' | 'lit' = 'ink', turn = turnOf(told)): Mark => ({
  kind: 'outline',
  tone,
  outline: lobeOf(told),
  place: { across: 0, up: 0, turn },
  filled: true,
});

function drawing(marks: (told: Told, cam: Cam) => readonly Mark[]): Drawing {
  return {
    window: (sizes) => ({ at: [0, 0], half: 1.35 * (camOf(sizes).baseRadius + camOf(sizes).intakeLift) }),
    still: 0,
    turns: 'round',
    sketch: (sizes) => sizes.cam === null,
    marks: (told) => {
      const cam = camOf(told.stand);
      const low = -1.28 * (cam.baseRadius + cam.intakeLift);
      return [
        ...marks(told, cam),
        ...(told.stand.cam === null ? [words([0, low], 'an invented lobe: no camshaft here')] : []),
      ];
    },
  };
}

export const LOBES = {
  flank: drawing((told, cam) => {
    // The opening flank is met first: it goes ahead of the nose.
    const t = turnOf(told);
    const half = cam.duration / 4;
    const r = 1.1 * (cam.baseRadius + cam.intakeLift);
    return [
      lobe(told),
      arc('lit', AXIS, r, t, t + half),
      arc('faint', AXIS, r, t - half, t),
      words(toward(AXIS, t + half / 2, 0.62 * r), 'opening'),
    ];
  }),
  'base circle': drawing((told, cam) => [
    lobe(told),
    ring('lit', AXIS, cam.baseRadius),
    dim([-cam.baseRadius, 0], [cam.baseRadius, 0], told.say(2 * cam.baseRadius), 'above'),
  ]),
  'lobe lift': drawing((told, cam) => {
    const nose = (r: number): Point => toward(AXIS, turnOf(told), r);
    return [
      lobe(told),
      ring('faint', AXIS, cam.baseRadius),
      dim(nose(cam.baseRadius), nose(cam.baseRadius + cam.intakeLift), told.say(cam.intakeLift)),
    ];
  }),
  'lobe separation': drawing((told, cam) => {
    const [a, b] = [turnOf(told) - cam.separation / 2, turnOf(told) + cam.separation / 2];
    const r = cam.baseRadius + cam.intakeLift;
    return [
      lobe(told, 'ink', a),
      lobe(told, 'ink', b),
      dashed('lit', AXIS, toward(AXIS, a, r)),
      dashed('lit', AXIS, toward(AXIS, b, r)),
      arc('lit', AXIS, 0.7 * r, a, b),
      words(toward(AXIS, (a + b) / 2, 0.4 * r), `${(cam.separation / DEG).toFixed(0)}°`),
    ];
  }),
  duration: drawing((told, cam) => {
    // Cam degrees are half of crank degrees: a quarter of the duration to either side of the nose.
    const t = turnOf(told);
    const half = cam.duration / 4;
    const r = 1.18 * (cam.baseRadius + cam.intakeLift);
    return [
      lobe(told),
      dashed('lit', AXIS, toward(AXIS, t - half, r)),
      dashed('lit', AXIS, toward(AXIS, t + half, r)),
      arc('lit', AXIS, r, t - half, t + half),
      words(toward(AXIS, t + Math.PI, 0.5 * cam.baseRadius), `${(cam.duration / DEG).toFixed(0)}° of the crank`),
    ];
  }),
  'intake centreline': {
    ...drawing((told, cam) => {
      const r = cam.baseRadius + cam.intakeLift;
      // The dial shows the crank; the lobe has its nose up when the crank has come to the centreline.
      const crank = told.stand.deg * DEG;
      return [
        lobe(told, 'ink', (crank - cam.centreline) / 2),
        ring('faint', AXIS, 1.2 * r),
        dashed('ink', toward(AXIS, 0, 1.1 * r), toward(AXIS, 0, 1.3 * r)),
        line('lit', toward(AXIS, cam.centreline, 1.1 * r), toward(AXIS, cam.centreline, 1.3 * r)),
        disc('lit', toward(AXIS, crank, 1.2 * r), r * 0.05),
        words([0, -0.2 * cam.baseRadius], `${(cam.centreline / DEG).toFixed(0)}° after the top`),
      ];
    }),
    still: (sizes) => camOf(sizes).centreline / DEG,
  },
  camshaft: {
    window: (sizes) => (sizes.cam === null ? { at: AXIS, half: 34 } : whole(sizes)),
    sketch: (sizes) => sizes.cam === null,
    still: 40,
    turns: 'round',
    marks: (told) => {
      if (told.stand.cam === null)
        return [
          lobe(told, 'lit'),
          disc('ink', AXIS, INVENTED.coreRadius),
          words([0, -31], 'this build has no camshaft'),
        ];
      return parts(told, { cam: true, lit: ['lobe', 'cam core'] });
    },
  },
} as const satisfies Readonly<Record<string, Drawing>>;
