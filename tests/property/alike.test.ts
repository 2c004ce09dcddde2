/**
 * Situations that are solved once for several pairs really are one: bodies that share a key have the same outlines, meet alike along
 * the shaft, and go through the same motion, seen as each pair is looked at. Looked at body by body, without solving, so that many
 * builds can be: random ones with entries of their own for every dimension, in every layout.
 */
import { describe, expect, test } from 'vitest';
import type { Body, Pair } from '../../src/assembly/engine.ts';
import { layOut } from '../../src/assembly/index.ts';
import { readContent } from '../../src/build/index.ts';
import type { Outline } from '../../src/core/outline/outline.ts';
import { newPose, POSE_TURN, POSE_X, POSE_Y } from '../../src/core/plane/pose.ts';
import { RANDOM_LAYOUTS, randomBuild } from '../examine/randomBuild.ts';
import { seeded } from '../oracle/random.ts';
import { withOwnEntries } from './ownEntries.ts';

/** Numbers nearer than this are the same, mm or radians. */
const SAME = 1e-6;

function numbersOf(o: Outline): number[] {
  return o.pieces.flatMap((p) =>
    p.kind === 'line' ? [0, p.x0, p.y0, p.x1, p.y1] : [1, p.cx, p.cy, p.r, p.startRad, p.sweepRad],
  );
}

const TURNS = [0, 0.7, 1.9, 3.3, 4.8, 7.1, 10.9];

/** The outlines of a body, and its poses from the pair's own angle on, turned as the pair is looked at. */
function seenFrom(body: Body, pair: Pair): number[] {
  const [cos, sin] = [Math.cos(pair.keyTurnRad), Math.sin(pair.keyTurnRad)];
  const out: number[] = [];
  for (const l of body.layers) out.push(...numbersOf(l.outline), l.deviationMm ?? 0);
  for (const r of body.round) {
    const wide = r.z1Mm - r.z0Mm;
    out.push(wide, r.centreMm - r.z0Mm);
    for (const [f, g] of [
      [0.1, 0.2],
      [0.4, 0.6],
      [0.8, 0.9],
    ] as const) {
      const slice = r.slice(r.z0Mm + f * wide, r.z0Mm + g * wide);
      out.push(...(slice === null ? [-1] : numbersOf(slice)));
    }
  }
  const pose = newPose();
  for (const turn of TURNS) {
    body.motion.write(turn + pair.keyShiftRad, pose);
    const [x, y] = [pose[POSE_X]!, pose[POSE_Y]!];
    const direction = pose[POSE_TURN]! - pair.keyTurnRad;
    out.push(cos * x - sin * y, sin * x + cos * y);
    // A disc about its own middle looks the same whichever way it is turned.
    if (body.kind !== 'cam core') out.push(Math.cos(direction), Math.sin(direction));
  }
  return out;
}

/** Where two bodies lie along the shaft, from the first: of even layers what they share, or how far apart they are; else every face. */
function meeting({ a, b }: Pair): number[] {
  const from = a.baseMm;
  if (a.round.length + b.round.length > 0) {
    return [a, b].flatMap((body) => [...body.layers, ...body.round].flatMap((l) => [l.z0Mm - from, l.z1Mm - from]));
  }
  return a.layers.flatMap((la) =>
    b.layers.flatMap((lb) => [Math.max(la.z0Mm, lb.z0Mm) - from, Math.min(la.z1Mm, lb.z1Mm) - from]),
  );
}

function differ(a: readonly number[], b: readonly number[]): boolean {
  return a.length !== b.length || a.some((x, k) => !(Math.abs(x - b[k]!) <= SAME));
}

describe('pairs with one key', () => {
  test('are one situation, in builds with entries of their own for every dimension', () => {
    const faults: string[] = [];
    let [builds, compared] = [0, 0];
    for (let k = 0; k < 170; k++) {
      const random = seeded(31 * k + 5);
      const read = readContent(withOwnEntries(randomBuild(random, RANDOM_LAYOUTS[k % RANDOM_LAYOUTS.length]!), random));
      if (!read.ok) continue;
      builds += 1;
      const engine = layOut(read.doc, read.doc.proposed);
      const first = new Map<string, { pair: Pair; a: number[]; b: number[] }>();
      for (const pair of engine.pairs) {
        const known = first.get(pair.key);
        const a = [...seenFrom(pair.a, pair), ...meeting(pair)];
        const b = seenFrom(pair.b, pair);
        if (known === undefined) {
          first.set(pair.key, { pair, a, b });
          continue;
        }
        compared += 1;
        if (
          differ(a, known.a) ||
          differ(b, known.b) ||
          pair.limitMm !== known.pair.limitMm ||
          pair.periodRad !== known.pair.periodRad
        )
          faults.push(`${read.doc.name} ${k}: ${known.pair.id} told for ${pair.id}`);
      }
    }
    expect(faults.slice(0, 10)).toEqual([]);
    expect(builds).toBeGreaterThan(85);
    expect(compared).toBeGreaterThan(1000);
  });
});
