/** Drawings of terms seen from the side of the crank, front at the left: one throw with its journals and rods. */
import type { Sizes } from '../../model/glossary/stand.ts';
import type { Drawing, Told } from './drawing.ts';
import { arc, box, dashed, dim, line, type Mark, type Point, ring, type Window, words } from './marks.ts';

const DEG = Math.PI / 180;

function window({ journalLength, cheek, crankRadius, weightRadius, bigEndRadius }: Sizes): Window {
  const up = crankRadius + bigEndRadius;
  return {
    at: [0, (up - weightRadius) / 2],
    half: Math.max(1.08 * ((up + weightRadius) / 2), 0.62 * (journalLength + 2 * cheek)),
  };
}

/** Height of the pin's centre over the axis as it turns, seen from the side. */
const pinUp = ({ stand: { crankRadius, deg } }: Told): number => crankRadius * Math.cos(deg * DEG);

function ends({ journalLength, cheek }: Sizes): { half: number; outer: number; shaft: number } {
  return {
    half: journalLength / 2,
    outer: journalLength / 2 + cheek,
    shaft: journalLength / 2 + cheek + 0.45 * journalLength,
  };
}

/** Big ends side by side in the middle of the pin. */
function rods(told: Told, tone: 'ink' | 'lit' = 'ink'): { marks: Mark[]; from: number; to: number } {
  const { bigEndWidth: w, bigEndRadius: r, cylinder } = told.stand;
  const count = told.engine.cylinders.filter((c) => c.throw === cylinder.throw).length;
  const from = (-count * w) / 2;
  const up = pinUp(told);
  return {
    marks: Array.from({ length: count }, (_, k) => box(tone, from + k * w, up - r, from + (k + 1) * w, up + r)),
    from,
    to: from + count * w,
  };
}

function crank(told: Told, lit: { pin?: boolean; main?: boolean; cheek?: boolean } = {}): Mark[] {
  const { mainRadius: m, pinRadius: p, weightRadius, deg } = told.stand;
  const { half, outer, shaft } = ends(told.stand);
  const up = pinUp(told);
  const weight = -weightRadius * Math.cos(deg * DEG);
  const high = Math.max(up + 1.25 * p, weight, m);
  const low = Math.min(up - 1.25 * p, weight, -m);
  return [
    ...[1, -1].map((side) => box(lit.main ? 'lit' : 'ink', side * outer, -m, side * shaft, m)),
    box(lit.pin ? 'lit' : 'ink', -half, up - p, half, up + p),
    ...[1, -1].map((side) => box(lit.cheek ? 'lit' : 'ink', side * half, low, side * outer, high)),
  ];
}

const turning = (marks: (told: Told) => readonly Mark[]): Drawing => ({ window, marks, still: 0, turns: 'round' });

export const SIDE = {
  crankshaft: turning((told) => crank(told, { pin: true, main: true, cheek: true })),
  'end play': {
    ...turning((told) => {
      const { mainRadius: m, cheek, deg } = told.stand;
      const { outer, shaft } = ends(told.stand);
      // To and fro by far more than it is.
      const play = 0.12 * cheek * Math.sin(deg * DEG);
      const up = 1.5 * m;
      return [
        ...crank(told),
        box('lit', outer + 0.12 * cheek + play, -up, outer + 0.3 * cheek + play, up),
        box('lit', shaft - 0.3 * cheek + play, -up, shaft - 0.12 * cheek + play, up),
        words([outer, 1.75 * m], 'not to scale', 'start'),
      ];
    }),
    sketch: true,
  },
  'oil film': {
    window: ({ pinRadius }) => ({ at: [0, 0], half: 1.6 * pinRadius }),
    still: 0,
    turns: 'round',
    sketch: true,
    marks: ({ stand: { pinRadius: p, deg } }) => {
      const play = 0.1 * p;
      const at: Point = [0.6 * play * Math.sin(deg * DEG), 0.6 * play * Math.cos(deg * DEG)];
      return [
        { kind: 'circle', tone: 'lit', at: [0, 0], r: p + play, filled: true },
        { kind: 'circle', tone: 'ink', at, r: p, filled: true },
        words([0, 0], 'not to scale'),
      ];
    },
  },
  'journal length': turning((told) => {
    const { half } = ends(told.stand);
    const up = pinUp(told) + 1.15 * told.stand.pinRadius;
    return [...crank(told, { pin: true }), dim([-half, up], [half, up], told.say(2 * half), 'above')];
  }),
  'side clearance': turning((told) => {
    const { half } = ends(told.stand);
    const { marks, from, to } = rods(told);
    const up = pinUp(told);
    const r = 0.6 * told.stand.bigEndRadius;
    return [
      ...crank(told),
      ...marks,
      box('lit', to, up - r, half, up + r),
      box('lit', -half, up - r, from, up + r),
      words([0, up + 1.12 * told.stand.bigEndRadius], `${told.say(2 * half - (to - from))} in all`),
    ];
  }),
  fillet: {
    ...turning((told) => {
      const { pinRadius: p } = told.stand;
      const { half } = ends(told.stand);
      const up = pinUp(told);
      const r = 0.16 * p;
      const corner = (side: 1 | -1, over: 1 | -1): Mark => {
        const at: Point = [side * (half - r), up + over * (p + r)];
        const from = side > 0 ? (over > 0 ? Math.PI / 2 : 0) : over > 0 ? Math.PI : -Math.PI / 2;
        return arc('lit', at, r, from, from + Math.PI / 2);
      };
      return [
        ...crank(told),
        corner(1, 1),
        corner(1, -1),
        corner(-1, 1),
        corner(-1, -1),
        ring('lit', [half - r, up + p + r], 2.4 * r),
      ];
    }),
    sketch: true,
  },
  'journal overlap': turning((told) => {
    const { mainRadius: m, pinRadius: p, crankRadius: c } = told.stand;
    const { outer } = ends(told.stand);
    const up = pinUp(told);
    const overlap = m + p - c;
    const straight = Math.abs(up) > 0.98 * c;
    return [
      ...crank(told, { pin: true, main: true }),
      dashed('lit', [-outer, Math.sign(up || 1) * m], [outer, Math.sign(up || 1) * m]),
      ...(straight ? [dim([0, Math.sign(up) * (c - p)], [0, Math.sign(up) * m], told.say(overlap))] : []),
    ];
  }),
  'oil hole': {
    ...turning((told) => {
      const { outer, shaft } = ends(told.stand);
      const up = pinUp(told);
      const main: Point = [(outer + shaft) / 2, -0.9 * told.stand.mainRadius];
      return [
        ...crank(told),
        line('lit', main, [0, up + told.stand.pinRadius]),
        ring('lit', [0, up + told.stand.pinRadius], 4),
      ];
    }),
    sketch: true,
  },
  'correction plane': turning((told) => {
    const { outer } = ends(told.stand);
    const y = 1.02 * told.stand.weightRadius;
    return [
      ...crank(told),
      ...[1, -1].map((side) =>
        dashed('lit', [side * (outer - 0.5 * told.stand.cheek), -y], [side * (outer - 0.5 * told.stand.cheek), y]),
      ),
    ];
  }),
  bobweight: {
    ...turning((told) => {
      const { pinRadius: p, journalLength } = told.stand;
      const up = pinUp(told);
      const w = 0.36 * journalLength;
      return [...crank(told), box('lit', -w, up - 1.7 * p, w, up + 1.7 * p)];
    }),
    sketch: true,
  },
  'balance factor': {
    ...turning((told) => {
      const { pinRadius: p, journalLength } = told.stand;
      const up = pinUp(told);
      const w = 0.36 * journalLength;
      return [
        ...crank(told),
        box('lit', -w, up - 1.7 * p, 0, up + 1.7 * p),
        box('ink', 0, up - 1.7 * p, w, up + 1.7 * p),
        words([0, up + 2.1 * p], 'what turns · a share of the rest'),
      ];
    }),
    sketch: true,
  },
  'bearing clearance': {
    window: ({ pinRadius }) => ({ at: [0, 0], half: 1.6 * pinRadius }),
    still: 0,
    turns: 'round',
    sketch: true,
    marks: ({ stand: { pinRadius: p, deg } }) => {
      // Far larger than it is: a thousandth of the diameter could not be seen.
      const play = 0.1 * p;
      const at: Point = [play * Math.sin(deg * DEG), play * Math.cos(deg * DEG)];
      return [
        ring('lit', [0, 0], p + play),
        { kind: 'circle', tone: 'ink', at, r: p, filled: true },
        words([0, 0], 'not to scale'),
      ];
    },
  },
} as const satisfies Readonly<Record<string, Drawing>>;
