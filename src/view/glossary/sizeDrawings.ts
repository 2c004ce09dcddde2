/** Drawings of terms about dimensions and places of parts, seen from the front. */
import type { Sizes } from '../../model/glossary/stand.ts';
import { crankOnly, type Drawing, parts, type Told, whole } from './drawing.ts';
import {
  arc,
  box,
  dashed,
  dim,
  disc,
  line,
  type Mark,
  type Place,
  type Point,
  placed,
  ring,
  toward,
  type Window,
} from './marks.ts';

const AXIS: Point = [0, 0];

const turning = (marks: (told: Told) => readonly Mark[], still = 60, window: Drawing['window'] = whole): Drawing => ({
  window,
  marks,
  still,
  turns: 'round',
});
const near = (
  window: (s: Sizes) => Window,
  still: Drawing['still'],
  marks: (told: Told) => readonly Mark[],
): Drawing => ({
  window,
  marks,
  still,
  turns: 'to and fro',
});

const rodPlace = ({ stand: { crankpin, lean } }: Told): Place => ({
  across: crankpin[0],
  up: crankpin[1],
  turn: -lean,
});
const weightPlace = ({ stand: { alpha } }: Told): Place => ({ across: 0, up: 0, turn: alpha });

/** The crown's edge at the top of the stroke, close up. */
const atDeck = ({ boreRadius, deck }: Sizes): Window => ({ at: [0.55 * boreRadius, deck - 1], half: 9 });

export const SIZES = {
  'piston rings': {
    ...turning((told) => {
      const { crown, compressionHeight, boreRadius: r, cylinder } = told.stand;
      const step = Math.min(0.1 * r, 0.16 * compressionHeight);
      const rings = [1, 2, 3].flatMap((k): Mark[] =>
        [1, -1].map((side) =>
          box(
            'lit',
            cylinder.boreOffsetMm + side * 0.9 * r,
            crown - (k + 0.4) * step,
            cylinder.boreOffsetMm + side * r,
            crown - k * step,
          ),
        ),
      );
      return [...parts(told), ...rings];
    }, 40),
    sketch: true,
  },
  bore: turning((told) => {
    const { boreRadius: r, deck } = told.stand;
    return [...parts(told, { lit: ['block'] }), dim([-r, deck * 0.985], [r, deck * 0.985], told.say(2 * r), 'above')];
  }, 100),
  crankpin: turning((told) => [
    ...parts(told),
    ring('faint', AXIS, told.stand.crankRadius),
    disc('lit', told.stand.crankpin, told.stand.pinRadius),
  ]),
  'main journal': turning((told) => [...parts(told), disc('lit', AXIS, told.stand.mainRadius)]),
  'main bore': turning(
    (told) => {
      const { mainBoreRadius: r, mainRadius } = told.stand;
      return [disc('faint', AXIS, mainRadius), ring('lit', AXIS, r), dim([-r, 0], [r, 0], told.say(2 * r), 'above')];
    },
    0,
    ({ mainBoreRadius }) => ({ at: AXIS, half: 1.7 * mainBoreRadius }),
  ),
  'compression height': turning((told) => {
    const { pin, crown, boreRadius: r } = told.stand;
    return [
      ...parts(told),
      dashed('lit', [0, pin[1]], [1.4 * r, pin[1]]),
      dashed('lit', [0, crown], [1.4 * r, crown]),
      dim([1.3 * r, pin[1]], [1.3 * r, crown], told.say(crown - pin[1])),
    ];
  }, 0),
  'deck height': turning((told) => {
    const { deck, boreRadius: r } = told.stand;
    const x = 1.45 * r;
    return [
      ...parts(told),
      dashed('lit', [-1.2 * r, deck], [1.6 * r, deck]),
      dashed('lit', AXIS, [1.6 * r, 0]),
      dim([x, 0], [x, deck], told.say(deck)),
    ];
  }),
  'deck clearance': near(atDeck, 0, (told) => {
    const { deck, crown, boreRadius: r } = told.stand;
    return [
      ...parts(told),
      dashed('lit', [0, deck], [1.4 * r, deck]),
      dim([0.7 * r, crown], [0.7 * r, deck], told.say(deck - crown)),
    ];
  }),
  quench: near(atDeck, 0, (told) => {
    const { deck, crown, gasket, boreRadius: r } = told.stand;
    return [
      ...parts(told),
      box('faint', 1.0 * r, deck, 1.3 * r, deck + gasket),
      box('ink', 0, deck + gasket, 1.3 * r, deck + gasket + 4),
      dim([0.7 * r, crown], [0.7 * r, deck + gasket], told.say(deck + gasket - crown)),
    ];
  }),
  'chamber volume': near(
    ({ boreRadius, deck }) => ({ at: [0, deck * 0.98], half: 0.75 * boreRadius }),
    0,
    (told) => {
      const { deck, crown, gasket, boreRadius: r } = told.stand;
      const hollow: Point[] = Array.from({ length: 25 }, (_, k) => {
        const a = (Math.PI * k) / 24;
        return [-0.75 * r * Math.cos(a), deck + gasket + 0.3 * r * Math.sin(a)];
      });
      return [
        ...parts(told),
        {
          kind: 'line',
          tone: 'lit',
          points: [[-r, crown], [-r, deck + gasket], ...hollow, [r, deck + gasket], [r, crown]],
          closed: true,
          filled: true,
        },
      ];
    },
  ),
  counterweight: turning(
    (told) => {
      const { alpha, weightRadius } = told.stand;
      return [
        ...parts(told, { lit: ['counterweight'] }),
        dim(AXIS, toward(AXIS, alpha + Math.PI, weightRadius), told.say(weightRadius)),
      ];
    },
    130,
    crankOnly,
  ),
  'counterweight corner': turning(
    (told) => {
      const { weightRadius, weightHalfAngle, weightCorner } = told.stand;
      const r = weightRadius - weightCorner;
      // Tangent to the flank and to the rim from within.
      const inward = Math.asin(Math.min(1, weightCorner / Math.max(r, 1)));
      const corners = [1, -1].map((side) => {
        const a = Math.PI + side * (weightHalfAngle - inward);
        return placed(weightPlace(told), r * Math.sin(a), r * Math.cos(a));
      });
      return [...parts(told), ...corners.map((at) => ring('lit', at, Math.max(weightCorner, 3)))];
    },
    130,
    crankOnly,
  ),
  cheek: turning((told) => [...parts(told, { lit: ['counterweight'] })], 60, crankOnly),
  'piston pin': turning((told) => [...parts(told), disc('lit', told.stand.pin, told.stand.pistonPinRadius)]),
  'pin boss': turning((told) => [
    ...parts(told),
    disc('lit', told.stand.pin, told.stand.bossRadius),
    ring('ink', told.stand.pin, told.stand.pistonPinRadius),
  ]),
  'pin offset': near(
    ({ pinTop, smallEndRadius }) => ({ at: [0, pinTop], half: 2.2 * smallEndRadius }),
    0,
    (told) => {
      const { pin, pinOffset, boreRadius: r, pistonPinRadius, cylinder } = told.stand;
      const middle = cylinder.boreOffsetMm;
      return [
        ...parts(told),
        dashed('lit', [middle, pin[1] - r], [middle, pin[1] + r]),
        disc('lit', pin, 0.15 * pistonPinRadius),
        dim([middle, pin[1]], [pin[0], pin[1]], told.say(pinOffset), 'above'),
      ];
    },
  ),
  skirt: turning((told) => {
    const { pin, skirtBelowPin, skirtRadius: r, skirtWall, cylinder } = told.stand;
    const [x, low] = [cylinder.boreOffsetMm, pin[1] - skirtBelowPin];
    return [
      ...parts(told),
      box('lit', x - r, low, x - r + skirtWall, pin[1]),
      box('lit', x + r - skirtWall, low, x + r, pin[1]),
    ];
  }, 180),
  'bore bottom': turning((told) => {
    const { boreBottom, boreRadius: r } = told.stand;
    return [
      ...parts(told),
      line('lit', [-1.25 * r, boreBottom], [-r, boreBottom]),
      line('lit', [r, boreBottom], [1.25 * r, boreBottom]),
      ring('lit', [r, boreBottom], 5),
      ring('lit', [-r, boreBottom], 5),
    ];
  }, 70),
  'bore notch': {
    ...turning((told) => {
      const { boreBottom, boreRadius: r } = told.stand;
      return [
        ...parts(told),
        ...[1, -1].map((side): Mark => arc('lit', [side * 1.1 * r, boreBottom], 0.24 * r, -Math.PI / 2, Math.PI / 2)),
      ];
    }, 62),
    sketch: true,
  },
  'big end': turning((told) => [
    ...parts(told, { lit: [] }),
    ring('lit', told.stand.crankpin, told.stand.bigEndRadius),
    ring('lit', told.stand.crankpin, told.stand.pinRadius),
  ]),
  'small end': turning((told) => [
    ...parts(told),
    ring('lit', told.stand.pin, told.stand.smallEndRadius),
    ring('lit', told.stand.pin, told.stand.pistonPinRadius),
  ]),
  'rod bolt': turning((told) => {
    const { boltSpread, boltLength, shoulder } = told.stand;
    const bolts = [1, -1].map(
      (side): Mark => ({
        kind: 'line',
        tone: 'lit',
        points: [
          placed(rodPlace(told), side * boltSpread, -boltLength),
          placed(rodPlace(told), side * boltSpread, shoulder),
        ],
      }),
    );
    return [...parts(told), ...bolts];
  }, 90),
} as const satisfies Readonly<Record<string, Drawing>>;
