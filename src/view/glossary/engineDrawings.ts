/** Drawings of terms about the whole engine: its block, its banks, in which order it fires. */
import { type Drawing, parts, type Told, whole } from './drawing.ts';
import { arc, arrow, disc, line, type Mark, type Point, ring, toward, words } from './marks.ts';

const AXIS: Point = [0, 0];

const turning = (
  marks: (told: Told) => readonly Mark[],
  still: number,
  window: Drawing['window'] = whole,
): Drawing => ({
  window,
  marks,
  still,
  turns: 'round',
});

export const ENGINE = {
  unbalance: {
    ...turning(
      ({ stand: { alpha, crankRadius: r } }) => {
        const heavy = toward(AXIS, alpha, 0.62 * r);
        return [
          ring('ink', AXIS, r),
          disc('lit', heavy, 0.16 * r),
          line('lit', AXIS, heavy),
          arrow(heavy, toward(AXIS, alpha, 1.35 * r)),
        ];
      },
      40,
      ({ crankRadius }) => ({ at: [0, 0], half: 1.6 * crankRadius }),
    ),
    sketch: true,
  },
  'shaking force': turning((told) => {
    const { accel, crankRadius, speedRpm } = told.stand;
    const omega = (speedRpm / 60) * 2 * Math.PI;
    // The engine is pushed the other way than its piston is sped up.
    const push = (-accel / (omega * omega * (crankRadius / 1000))) * crankRadius;
    return [...parts(told), arrow(AXIS, [0, push])];
  }, 10),
  'reciprocating weight': turning((told) => {
    const { pin, smallEndRadius, crankpin, bigEndRadius } = told.stand;
    return [
      ...parts(told, { lit: ['piston'] }),
      ring('lit', pin, smallEndRadius),
      ring('faint', crankpin, bigEndRadius),
    ];
  }, 60),
  'bearing load': {
    ...turning(
      ({ stand: { pinRadius: p, alpha } }) => {
        const at = toward(AXIS, alpha, 0.08 * p);
        return [
          ring('ink', AXIS, 1.1 * p),
          disc('ink', at, p),
          ...[-0.5, -0.25, 0, 0.25, 0.5].map((a) =>
            arrow(toward(AXIS, alpha + a, (1.75 - Math.abs(a)) * p), toward(AXIS, alpha + a, 1.14 * p)),
          ),
        ];
      },
      0,
      ({ pinRadius }) => ({ at: [0, 0], half: 2 * pinRadius }),
    ),
    sketch: true,
  },
  block: turning(
    (told) => parts(told, { crankcase: true, lit: ['block'] }),
    90,
    ({ railHalfWidth, deck }) => ({ at: [0, 0.38 * deck], half: Math.max(1.2 * railHalfWidth, 0.68 * deck) }),
  ),
  'pan rail': turning(
    (told) => {
      const { railHeight: y, railHalfWidth: x, cylinder } = told.stand;
      // The crankcase stands upright; the drawing stands with the bore.
      const rail = (across: number): Point =>
        toward(toward(AXIS, -cylinder.bankAngleRad, y), Math.PI / 2 - cylinder.bankAngleRad, across);
      const edges = [1, -1].flatMap((side): Mark[] => [
        line('lit', rail(side * 1.2 * x), rail(side * x)),
        ring('lit', rail(side * x), 5),
      ]);
      return [...parts(told, { crankcase: true }), ...edges];
    },
    90,
    ({ railHalfWidth }) => ({ at: [0, 0.35 * railHalfWidth], half: 1.3 * railHalfWidth }),
  ),
  bank: {
    window: ({ deck }) => ({ at: [0, 0.42 * deck], half: 0.62 * deck }),
    still: 0,
    turns: 'round',
    marks: ({ stand: { bankAngles, deck, crankRadius, deg, cylinder } }) => {
      const lines = bankAngles.flatMap((a): Mark[] => [
        line('ink', AXIS, toward(AXIS, (a * Math.PI) / 180, deck)),
        line(
          'ink',
          toward(toward(AXIS, (a * Math.PI) / 180, deck), (a * Math.PI) / 180 + Math.PI / 2, -0.18 * deck),
          toward(toward(AXIS, (a * Math.PI) / 180, deck), (a * Math.PI) / 180 + Math.PI / 2, 0.18 * deck),
        ),
      ]);
      const [one, two] = bankAngles;
      const between =
        one === undefined || two === undefined
          ? [words([0, 0.55 * deck], 'one bank')]
          : [
              arc('lit', AXIS, 0.6 * deck, (one * Math.PI) / 180, (two * Math.PI) / 180),
              words([0, 0.66 * deck], `${Math.abs(two - one).toFixed(0)}°`),
            ];
      const pin = toward(AXIS, cylinder.bankAngleRad + (deg * Math.PI) / 180, crankRadius);
      return [...lines, ...between, ring('faint', AXIS, crankRadius), disc('lit', pin, 4), line('lit', AXIS, pin)];
    },
  },
  'firing order': {
    window: () => ({ at: AXIS, half: 60 }),
    still: 0,
    turns: 'round',
    marks: ({ stand: { firingOrder, deg } }) => {
      // A turn of the drawing stands for the whole cycle of two turns.
      const count = firingOrder.length;
      const now = Math.min(count - 1, Math.floor((deg / 360) * count));
      return [
        ring('faint', AXIS, 40),
        ...firingOrder.flatMap((number, k): Mark[] => {
          const at = toward(AXIS, (2 * Math.PI * k) / count, 40);
          return [k === now ? disc('lit', at, 8) : disc('ink', at, 8), words([at[0], at[1] - 2.4], String(number))];
        }),
      ];
    },
  },
} as const satisfies Readonly<Record<string, Drawing>>;
