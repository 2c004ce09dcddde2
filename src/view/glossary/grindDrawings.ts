/** Drawings of terms of grinding: the pin before and after, seen from the front, pin upward. Where the build states no core, a sketch of one. */
import type { Sizes } from '../../model/glossary/stand.ts';
import type { Drawing, Told } from './drawing.ts';
import { arc, dashed, dim, disc, line, type Mark, type Point, ring, toward, words } from './marks.ts';

interface Pins {
  /** Before and after, and how far the centre moved out. */
  readonly before: number;
  readonly after: number;
  readonly out: number;
  readonly stock: number;
  readonly caseDepth: number;
  readonly stated: boolean;
}

/** Of a pin of the size of the build's: a sixth smaller, the centre out by all that gives. */
function pinsOf({ core, pinRadius, crankRadius }: Sizes): Pins {
  if (core !== null && core.pinRadius > pinRadius)
    return {
      before: core.pinRadius,
      after: pinRadius,
      out: crankRadius - core.crankRadius,
      stock: core.stock ?? 0.02 * core.pinRadius,
      caseDepth: core.caseDepth ?? 0.1 * core.pinRadius,
      stated: true,
    };
  const before = 1.2 * pinRadius;
  return {
    before,
    after: pinRadius,
    out: before - pinRadius,
    stock: 0.04 * before,
    caseDepth: 0.14 * before,
    stated: false,
  };
}

const about = (sizes: Sizes): { at: Point; half: number } => ({ at: [0, 0], half: 1.45 * pinsOf(sizes).before });

/** The centre wanders out to where it is to go, and back, as the drawing turns. */
const moved = ({ stand: { deg } }: Told, out: number): number => (out * (1 + Math.cos((deg * Math.PI) / 180))) / 2;

function drawing(marks: (told: Told, pins: Pins) => readonly Mark[]): Drawing {
  return {
    window: about,
    still: 0,
    turns: 'round',
    sketch: (sizes) => !pinsOf(sizes).stated,
    marks: (told) => {
      const pins = pinsOf(told.stand);
      const note = pins.stated ? [] : [words([0, -1.36 * pins.before], 'a sketch: this build states no core')];
      return [...marks(told, pins), ...note];
    },
  };
}

export const GRIND = {
  'offset grind': drawing((told, p) => {
    const up = moved(told, p.out);
    return [
      disc('faint', [0, 0], p.before),
      disc('lit', [0, up], p.after),
      line('ink', [0, 0], [0, up]),
      dim([1.15 * p.before, 0], [1.15 * p.before, up], told.say(up)),
    ];
  }),
  core: drawing((told, p) => [
    disc('lit', [0, 0], p.before),
    dashed('ink', [-p.before, 0], [p.before, 0]),
    dim([-p.before, 0], [p.before, 0], p.stated ? told.say(2 * p.before) : 'journal of the core', 'above'),
  ]),
  'least stock': drawing((told, p) => {
    const up = moved(told, p.out);
    return [
      disc('ink', [0, 0], p.before),
      ring('faint', [0, 0], p.before - p.stock),
      disc('lit', [0, Math.min(up, p.before - p.after - p.stock)], p.after),
      words([0, 1.14 * p.before], p.stated ? `${told.say(p.stock)} here at least` : 'so much here at least'),
    ];
  }),
  'case depth': drawing((told, p) => {
    const up = moved(told, p.out);
    return [
      disc('lit', [0, 0], p.before),
      disc('ink', [0, 0], p.before - p.caseDepth),
      ring('ink', [0, up], p.after),
      words(
        [0, 1.14 * p.before],
        p.stated && told.stand.core?.caseDepth ? `case ${told.say(p.caseDepth)}` : 'hardened case',
      ),
    ];
  }),
  'index error': {
    window: ({ crankRadius, pinRadius }) => ({ at: [0, 0.45 * crankRadius], half: 1.1 * (crankRadius + pinRadius) }),
    still: 90,
    turns: 'round',
    sketch: true,
    marks: ({ stand: { crankRadius, pinRadius, deg } }) => {
      // Some degrees where a real throw is off by minutes.
      const off = 0.16 * Math.sin((deg * Math.PI) / 180);
      const [right, real] = [toward([0, 0], 0, crankRadius), toward([0, 0], off, crankRadius)];
      return [
        dashed('ink', [0, 0], right),
        ring('faint', right, pinRadius),
        line('lit', [0, 0], real),
        ring('lit', real, pinRadius),
        arc('lit', [0, 0], 0.6 * crankRadius, Math.min(0, off), Math.max(0, off)),
        words([0, -0.18 * crankRadius], 'not to scale'),
      ];
    },
  },
} as const satisfies Readonly<Record<string, Drawing>>;
