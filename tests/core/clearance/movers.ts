/** Random moving outlines for checks: each with the program's motion and, beside it, the oracle's own. */
import type { Mover } from '../../../src/core/clearance/gapAt.ts';
import { camMotion, crankMotion, fixedMotion, pistonMotion, rodMotion } from '../../../src/core/kinematics/motions.ts';
import { flatten } from '../../../src/core/outline/flat.ts';
import { type Edge, placed, type Shape, shape } from '../../oracle/plane.ts';
import { type At, pistonAt, rodAt, type SliderNumbers, turning } from '../../oracle/poses.ts';
import { anyOutline, between, box } from '../../oracle/random.ts';

export type Kind = 'crank' | 'rod' | 'piston' | 'cam' | 'fixed';

export interface Moving {
  readonly mover: Mover;
  readonly at: (crank: number) => Shape;
}

function moving(edges: readonly Edge[], motion: Mover['motion'], pose: (crank: number) => At): Moving {
  const own = shape(edges);
  return {
    mover: { flat: flatten({ pieces: edges }), motion },
    at: (crank) => {
      const p = pose(crank);
      return placed(own, p.x, p.y, p.turn);
    },
  };
}

function shifted(edges: readonly Edge[], dx: number, dy: number): Edge[] {
  return edges.map((e) =>
    e.kind === 'line'
      ? { ...e, x0: e.x0 + dx, x1: e.x1 + dx, y0: e.y0 + dy, y1: e.y1 + dy }
      : { ...e, cx: e.cx + dx, cy: e.cy + dy },
  );
}

/** Counterweight: rim of radius R, straight flanks from the crank axis at ± half about -y. */
export function sector(R: number, half: number): Edge[] {
  const [x, y] = [R * Math.sin(half), -R * Math.cos(half)];
  return [
    { kind: 'line', x0: 0, y0: 0, x1: -x, y1: y },
    { kind: 'arc', cx: 0, cy: 0, r: R, startRad: -Math.PI / 2 - half, sweepRad: 2 * half },
    { kind: 'line', x0: x, y0: y, x1: 0, y1: 0 },
  ];
}

export function slider(random: () => number): SliderNumbers {
  const r = between(random, 30, 60);
  return {
    r,
    l: r * between(random, 2.6, 4),
    e: between(random, -3, 3),
    bank: between(random, -1, 1),
    alpha0: between(random, 0, 2 * Math.PI),
  };
}

/** One of the five motions with an outline of about the size an engine's parts have. */
export function randomMoving(kind: Kind, random: () => number, s: SliderNumbers): Moving {
  const size = between(random, 15, 50);
  if (kind === 'crank') {
    const phase = between(random, 0, 2 * Math.PI);
    const edges = random() < 0.75 ? sector(between(random, 40, 85), between(random, 0.6, 1.4)) : anyOutline(random, 65);
    return moving(edges, crankMotion(phase), (c) => turning(0, 0, 1, phase, c));
  }
  if (kind === 'rod') {
    const motion = rodMotion({ crankRadiusMm: s.r, rodLengthMm: s.l, offsetMm: s.e }, s.bank, s.alpha0);
    return moving(anyOutline(random, size), motion, (c) => rodAt(s, c));
  }
  if (kind === 'piston') {
    const boreOffset = between(random, -2, 2);
    const motion = pistonMotion({ crankRadiusMm: s.r, rodLengthMm: s.l, offsetMm: s.e }, s.bank, s.alpha0, boreOffset);
    const edges = random() < 0.5 ? box(-50, -25, 50, 35) : anyOutline(random, size);
    return moving(edges, motion, (c) => pistonAt(s, boreOffset, c));
  }
  if (kind === 'cam') {
    const [x, y] = [between(random, -40, 40), between(random, 60, 120)];
    const ratio = random() < 0.5 ? 0.5 : -0.5;
    const phase = between(random, 0, 2 * Math.PI);
    const edges = shifted(anyOutline(random, between(random, 8, 20)), 0, between(random, 0, 6));
    return moving(edges, camMotion(x, y, ratio, phase), (c) => turning(x, y, ratio, phase, c));
  }
  const [far, angle] = [between(random, 30, 100), between(random, 0, 2 * Math.PI)];
  const [dx, dy] = [far * Math.cos(angle), far * Math.sin(angle)];
  return moving(shifted(anyOutline(random, size), dx, dy), fixedMotion(), () => turning(0, 0, 0, 0, 0));
}
