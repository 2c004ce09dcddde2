/**
 * Chance builds from a seed: the value of every toleranced dimension of the n-th build, each part drawn by itself.
 *
 * xoroshiro128+ (D. Blackman and S. Vigna, Scrambled linear pseudorandom number generators, ACM Transactions on Mathematical
 * Software 47 (2021); of the package pure-rand). Builds are drawn in lots of LOT; lot n begins n + 1 jumps of 2^64 numbers after the
 * seed's own state, so that lots never share a number and any worker can draw any lot. A seed thus means the same builds
 * however many workers there are, as long as the build has the same toleranced dimensions in the same order.
 */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { Changed } from './gapOfBuild.ts';
import type { Spread } from './spread.ts';
import { bandOf, sdOf } from './spread.ts';
import type { Variable } from './variables.ts';

/** Builds drawn from one stretch of the generator: few enough that a lot is a piece of work short enough to be cancelled. */
export const LOT = 5;

export const LARGEST_SEED = 4_294_967_295;

/**
 * Numbers 0 <= u < 1 of any lot, multiples of 2^-53. `seed`: a whole number from 0 to LARGEST_SEED. Where the last lot's beginning
 * is kept, so that lots asked for one after the other cost a jump each.
 */
export function uniformsOf(seed: number): (lot: number) => () => number {
  if (!Number.isInteger(seed) || seed < 0 || seed > LARGEST_SEED) {
    throw new RangeError(`uniformsOf: seed ${seed}; allowed: a whole number from 0 to ${LARGEST_SEED}`);
  }
  let at = -1;
  let start = xoroshiro128plus(seed | 0);
  return (lot) => {
    if (lot < at) {
      at = -1;
      start = xoroshiro128plus(seed | 0);
    }
    for (; at < lot; at++) start.jump();
    const generator = start.clone();
    return () => uniformFloat64(generator);
  };
}

/** Standard normal, from two uniforms: G. E. P. Box and M. E. Muller, Annals of Mathematical Statistics 29 (1958), 610-611. */
function normal(uniform: () => number): number {
  // 1 - u is above zero, so the logarithm is finite.
  const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
  return radius * Math.cos(2 * Math.PI * uniform());
}

/** One build after the other, from the numbers of a lot; `variables` are those with a tolerance. */
export function buildsFrom(
  variables: readonly Variable[],
  spread: Spread,
  uniform: () => number,
): () => readonly Changed[] {
  return () =>
    variables.map((variable): Changed => {
      const { middle, half } = bandOf(variable);
      if (spread.as === 'normal') return { variable, value: middle + sdOf(half, spread) * normal(uniform) };
      return { variable, value: middle + half * (2 * uniform() - 1) };
    });
}
