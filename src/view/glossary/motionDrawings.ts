/** Drawings of terms about motion: stroke, dead centres, angles, speed. */
import { type Drawing, parts, type Told, whole } from './drawing.ts';
import { arc, arrow, box, dashed, dim, disc, line, type Mark, type Point, ring, toward, words } from './marks.ts';

const AXIS: Point = [0, 0];
const TURN = 2 * Math.PI;

const turning = (marks: (told: Told) => readonly Mark[], still = 60): Drawing => ({
  window: whole,
  marks,
  still,
  turns: 'round',
});

/** Levels of the crown at both dead centres, right across and a little beyond. */
function level({ stand: { boreRadius: r } }: Told, up: number): Mark {
  return dashed('lit', [-1.25 * r, up], [1.7 * r, up]);
}

export const MOTION = {
  stroke: turning((told) => {
    const { stand: s, say } = told;
    const [top, bottom] = [s.pinTop + s.compressionHeight, s.pinBottom + s.compressionHeight];
    return [
      ...parts(told),
      level(told, top),
      level(told, bottom),
      dim([1.5 * s.boreRadius, top], [1.5 * s.boreRadius, bottom], say(s.pinTop - s.pinBottom)),
    ];
  }),
  throw: turning((told) => {
    const { crankpin, crankRadius } = told.stand;
    return [...parts(told), ring('faint', AXIS, crankRadius), dim(AXIS, crankpin, told.say(crankRadius))];
  }),
  'rod length': turning((told) => [
    ...parts(told, { lit: ['rod'] }),
    dim(told.stand.crankpin, told.stand.pin, told.say(told.stand.rodLength)),
  ]),
  'rod ratio': turning((told) => {
    const { stand: s, say } = told;
    const [top, bottom] = [s.pinTop + s.compressionHeight, s.pinBottom + s.compressionHeight];
    const ratio = (s.rodLength / (2 * s.crankRadius)).toFixed(2);
    return [
      ...parts(told, { lit: ['rod'] }),
      dim(s.crankpin, s.pin, say(s.rodLength), 'left'),
      dim([1.5 * s.boreRadius, top], [1.5 * s.boreRadius, bottom], say(2 * s.crankRadius)),
      words([1.25 * s.boreRadius, bottom - 0.35 * s.crankRadius], `ratio ${ratio}`, 'start'),
    ];
  }),
  'rod angle': turning((told) => {
    const { pin, rodLength, lean } = told.stand;
    const foot: Point = [pin[0], pin[1] - rodLength];
    // Seen from the pin the rod points down: its direction is half a turn less the lean.
    const down = Math.PI - lean;
    const degrees = `${Math.abs((lean * 180) / Math.PI).toFixed(1)}°`;
    const at = toward(pin, (Math.PI + down) / 2, 0.72 * rodLength);
    return [
      ...parts(told),
      dashed('lit', pin, foot),
      line('lit', pin, told.stand.crankpin),
      arc('lit', pin, 0.6 * rodLength, Math.min(Math.PI, down), Math.max(Math.PI, down)),
      words([at[0] + Math.sign(lean || 1) * 0.12 * rodLength, at[1]], degrees, lean >= 0 ? 'start' : 'end'),
    ];
  }, 75),
  'side force': turning((told) => {
    const { pin, lean, boreRadius: r } = told.stand;
    // The rod leans toward one side and so the piston is pushed to the other.
    const push = -Math.tan(lean) * 3.2 * r;
    return [...parts(told, { lit: ['piston'] }), arrow([0, pin[1]], [push, pin[1]])];
  }, 70),
  'top dead centre': { ...turning((told) => deadCentre(told, told.stand.pinTop, 'TDC'), 0) },
  'bottom dead centre': turning((told) => deadCentre(told, told.stand.pinBottom, 'BDC'), 180),
  'piston speed': turning((told) => {
    const { crown, speed, crankRadius, speedRpm, boreRadius } = told.stand;
    const perMs = (1.1 * crankRadius) / ((speedRpm / 60) * TURN * (crankRadius / 1000) * 1.1);
    return [
      ...parts(told),
      arrow([1.3 * boreRadius, crown], [1.3 * boreRadius, crown + speed * perMs], `${Math.abs(speed).toFixed(1)} m/s`),
    ];
  }, 75),
  'piston acceleration': turning((told) => {
    const { crown, accel, crankRadius, speedRpm, boreRadius } = told.stand;
    const omega = (speedRpm / 60) * TURN;
    const perMs2 = (1.1 * crankRadius) / (omega * omega * (crankRadius / 1000) * 1.4);
    return [
      ...parts(told),
      arrow(
        [1.3 * boreRadius, crown],
        [1.3 * boreRadius, crown + accel * perMs2],
        `${Math.abs(accel).toFixed(0)} m/s²`,
      ),
    ];
  }, 20),
  'rod stretch': {
    window: whole,
    still: 0,
    turns: 'to and fro',
    marks: (told) => {
      const { pin, crankpin, bigEndRadius, smallEndRadius } = told.stand;
      return [
        ...parts(told, { lit: ['rod'] }),
        arrow(pin, [pin[0], pin[1] + 2.6 * smallEndRadius]),
        arrow(crankpin, [crankpin[0], crankpin[1] - 1.9 * bigEndRadius]),
      ];
    },
  },
  'crank angle': turning((told) => {
    const { alpha, tdcAlpha, crankRadius, deg } = told.stand;
    const r = 1.25 * crankRadius;
    return [
      ...parts(told),
      dashed('lit', AXIS, toward(AXIS, tdcAlpha, r)),
      line('lit', AXIS, toward(AXIS, alpha, r)),
      ...(deg > 0.5 ? [arc('lit', AXIS, r, tdcAlpha, alpha)] : []),
      words(toward(AXIS, (tdcAlpha + alpha) / 2, 1.75 * crankRadius), `${deg.toFixed(0)}°`),
    ];
  }),
  displacement: turning((told) => {
    const { boreRadius: r, pinTop, pinBottom, compressionHeight: c } = told.stand;
    return [...parts(told), box('lit', -r, pinBottom + c, r, pinTop + c)];
  }, 180),
  'compression ratio': turning((told) => {
    const { boreRadius: r, pinTop, pinBottom, compressionHeight: c, deck } = told.stand;
    return [
      ...parts(told),
      box('lit', -r, pinBottom + c, r, pinTop + c),
      box('faint', -r, pinTop + c, r, deck * 1.04),
      words([1.2 * r, deck], 'at the top', 'start'),
      words([1.2 * r, (pinTop + pinBottom) / 2 + c], 'swept', 'start'),
    ];
  }, 180),
  'mock-up': turning((told) => {
    const { alpha, crankRadius } = told.stand;
    const r = 1.35 * crankRadius;
    const ticks = Array.from({ length: 36 }, (_, k) => {
      const a = (k * TURN) / 36 + alpha;
      return line('lit', toward(AXIS, a, r), toward(AXIS, a, r * (k % 9 === 0 ? 0.86 : 0.93)));
    });
    return [
      ...parts(told),
      ring('lit', AXIS, r),
      ...ticks,
      line('ink', [0, 1.45 * crankRadius], [0, 1.2 * crankRadius]),
    ];
  }, 150),
} as const satisfies Readonly<Record<string, Drawing>>;

/** Crank and rod in one line, and the height of the crown there. */
function deadCentre(told: Told, pinUp: number, name: string): Mark[] {
  const { boreRadius: r, compressionHeight: c, crankpin, pin } = told.stand;
  return [
    ...parts(told),
    level(told, pinUp + c),
    words([1.25 * r, pinUp + c + 0.08 * r], name, 'start'),
    line('lit', AXIS, crankpin, pin),
    disc('lit', crankpin, 2.5),
  ];
}
