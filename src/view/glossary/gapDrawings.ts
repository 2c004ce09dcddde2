/** Drawings of terms about gaps: the worst one of the cylinder in view where there is one, and sketches of what is said about it. */
import type { Cylinder } from '../../assembly/engine.ts';
import type { Gap } from '../../model/results.ts';
import { type Drawing, parts, type Told, whole } from './drawing.ts';
import { arc, arrow, box, dashed, dim, disc, line, type Mark, type Point, ring, words } from './marks.ts';

const DEG = Math.PI / 180;

/** Nearest points of the gap in the bore's axes, where it is smallest. */
function nearest({ gap, stand: { cylinder }, engine }: Omit<Told, 'say'>): readonly [Point, Point] | null {
  if (gap === null) return null;
  const { bankAngleRad: b } = cylinder;
  const mirror = engine.mirrored ? -1 : 1;
  return gap.pointsMm.map(
    ([x, y]): Point => [mirror * x * Math.cos(b) - y * Math.sin(b), mirror * x * Math.sin(b) + y * Math.cos(b)],
  ) as unknown as readonly [Point, Point];
}

/** Two parts a gap apart, and what is between them: for what is said of any gap. */
const between = (marks: (told: Told, gapMm: number) => readonly Mark[]): Drawing => ({
  window: () => ({ at: [0, 0], half: 14 }),
  still: 90,
  turns: 'round',
  sketch: true,
  marks: (told) => {
    // As the drawing turns the two come nearer and part again.
    const gapMm = 3 - 3.4 * Math.cos(told.stand.deg * DEG);
    return [box('ink', -30, -14, 30, -gapMm / 2), box('ink', -30, gapMm / 2, 30, 14), ...marks(told, gapMm)];
  },
});

/** Crank degrees after the top at which the gap is smallest. */
function sinceTop(cylinder: Cylinder, gap: Gap): number {
  return ((gap.atCrankRad - cylinder.firingTdcRad) / DEG + 1440) % 360;
}

const atGap: Drawing['still'] = ({ cylinder }, { gap }) => (gap === null ? 180 : sinceTop(cylinder, gap));

export const GAPS = {
  gap: {
    window: whole,
    still: atGap,
    turns: 'round',
    marks: (told) => {
      const points = nearest(told);
      if (told.gap === null || points === null) return parts(told);
      const since = sinceTop(told.stand.cylinder, told.gap);
      const here = Math.abs(((told.stand.deg - since + 540) % 360) - 180) < 6;
      return [
        ...parts(told, { cam: true }),
        ...(here ? [line('lit', points[0], points[1]), ring('lit', points[0], 5)] : []),
      ];
    },
  },
  limit: between((_, gapMm) => [
    dashed('lit', [-15, gapMm / 2], [15, gapMm / 2]),
    dashed('lit', [-15, gapMm / 2 - 2], [15, gapMm / 2 - 2]),
    words([0, 9], 'the gap, and the least that is accepted'),
  ]),
  clears: between((_, gapMm) => {
    const state = gapMm <= 0 ? 'contact' : gapMm < 2 ? 'tight' : 'clears';
    return [line('lit', [0, -gapMm / 2], [0, gapMm / 2]), words([0, 9], state)];
  }),
  certificate: {
    window: () => ({ at: [0, 0], half: 50 }),
    still: 180,
    turns: 'round',
    sketch: true,
    marks: ({ stand: { deg } }) => {
      const curve = (d: number): number => 12 + 14 * Math.cos(2 * d * DEG) - 6 * Math.cos(d * DEG);
      const points: Point[] = Array.from({ length: 91 }, (_, k): Point => [-54 + (108 * k) / 90, curve(4 * k)]);
      const least = Math.min(...points.map(([, y]) => y));
      return [
        line('ink', ...points),
        dashed('lit', [-54, least - 1.5], [54, least - 1.5]),
        disc('lit', [-54 + (108 * deg) / 360, curve(deg)], 2),
        words([0, -24], 'nowhere below this line'),
      ];
    },
  },
  'running gap': between((_, gapMm) => [
    arrow([-8, gapMm / 2 + 4], [-8, gapMm / 2 - 1]),
    arrow([8, -gapMm / 2 - 4], [8, -gapMm / 2 + 1]),
    words([0, 9], 'less what the running parts take'),
  ]),
  'piston to valve': {
    window: ({ boreRadius, deck }) => ({ at: [0, deck - 0.1 * boreRadius], half: 0.95 * boreRadius }),
    still: 0,
    turns: 'to and fro',
    sketch: true,
    marks: (told) => {
      const { boreRadius: r, deck, crown, deg } = told.stand;
      // About overlap the valve opens as the piston goes down: a sketch of its head.
      const lift = 0.16 * r * (1 + Math.sin(deg * DEG));
      const face = deck + 0.12 * r - lift;
      return [
        ...parts(told),
        box('lit', -0.55 * r, face, 0.35 * r, face + 0.06 * r),
        line('lit', [-0.1 * r, face], [-0.1 * r, deck + 0.9 * r]),
        dim([0.1 * r, crown], [0.1 * r, face], ''),
        arc('faint', [0, deck], 0.01, 0, 1),
      ];
    },
  },
} as const satisfies Readonly<Record<string, Drawing>>;
