/** Chance numbers: the generator against its authors' own, lots that never share a number, and what is drawn for a band. */
import { xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import { buildsFrom, LARGEST_SEED, uniformsOf } from '../../../src/model/tolerances/draws.ts';
import type { Spread } from '../../../src/model/tolerances/spread.ts';
import type { Variable } from '../../../src/model/tolerances/variables.ts';

const M64 = (1n << 64n) - 1n;

/** xoroshiro128+ 1.0 as its authors publish it (D. Blackman, S. Vigna, prng.di.unimi.it/xoroshiro128plus.c, 2018), in whole numbers. */
function reference(s0: bigint, s1: bigint) {
  const rotl = (x: bigint, k: bigint): bigint => ((x << k) | (x >> (64n - k))) & M64;
  const next = (): bigint => {
    const out = (s0 + s1) & M64;
    const t = s1 ^ s0;
    s0 = (rotl(s0, 24n) ^ t ^ (t << 16n)) & M64;
    s1 = rotl(t, 37n);
    return out;
  };
  const jump = (): void => {
    let a = 0n;
    let b = 0n;
    for (const word of [0xdf900294d8f554a5n, 0x170865df4b3201fcn]) {
      for (let bit = 0n; bit < 64n; bit++) {
        if ((word >> bit) & 1n) {
          a ^= s0;
          b ^= s1;
        }
        next();
      }
    }
    s0 = a;
    s1 = b;
  };
  return { next, jump };
}

/** First outputs from the state 1, 2: printed with the reference implementation in the tests of several independent ports. */
const FROM_1_2 = [
  3n,
  412333834243n,
  2360170716294286339n,
  9295852285959843169n,
  2797080929874688578n,
  6019711933173041966n,
  3076529664176959358n,
  3521761819100106140n,
  7493067640054542992n,
  920801338098114767n,
];

describe('the generator', () => {
  it('is the published one', () => {
    const theirs = reference(1n, 2n);
    expect(FROM_1_2.map(() => theirs.next())).toEqual(FROM_1_2);
    // The package gives the lower half of each, as a signed 32-bit number; its state is told upper half first.
    const ours = xoroshiro128plusFromState([0, 1, 0, 2]);
    for (const value of FROM_1_2) expect(ours.next() | 0).toBe(Number(BigInt.asIntN(32, value)));
    theirs.jump();
    ours.jump();
    for (let k = 0; k < 10; k++) expect(ours.next() | 0).toBe(Number(BigInt.asIntN(32, theirs.next())));
  });

  it('gives lot n the numbers that follow n + 1 jumps from the seed, whichever lot was asked for before', () => {
    const seed = 20_261_125;
    const numbersOf = uniformsOf(seed);
    for (const lot of [0, 3, 1, 7, 7]) {
      // The seed's state: all ones and its complement, itself and zero.
      const theirs = reference((0xffffffffn << 32n) | BigInt(~seed >>> 0), BigInt(seed >>> 0) << 32n);
      for (let k = 0; k <= lot; k++) theirs.jump();
      const uniform = numbersOf(lot);
      for (let k = 0; k < 20; k++) {
        const high = theirs.next() & 0x3ffffffn;
        const low = theirs.next() & 0x7ffffffn;
        expect(uniform()).toBe(Number((high << 27n) | low) / 2 ** 53);
      }
    }
  });

  it('takes whole seeds from 0 to 4294967295', () => {
    for (const seed of [0, 1, LARGEST_SEED]) expect(uniformsOf(seed)(0)()).toBeLessThan(1);
    for (const seed of [-1, 0.5, LARGEST_SEED + 1, Number.NaN]) expect(() => uniformsOf(seed)).toThrow(RangeError);
  });
});

describe('what is drawn', () => {
  const variable = (plus: number, minus: number): Variable => ({
    path: [],
    body: 'rod 1',
    label: 'length',
    kind: 'length',
    from: 'measured',
    text: '',
    value: 100,
    band: { plus, minus },
  });
  const drawn = (spread: Spread, v: Variable, count: number): number[] => {
    const build = buildsFrom([v], spread, uniformsOf(5)(0));
    return Array.from({ length: count }, () => build()[0]!.value);
  };
  const N = 20_000;
  const momentsOf = (list: readonly number[]) => {
    const mean = list.reduce((a, b) => a + b, 0) / list.length;
    const moment = (k: number): number => list.reduce((sum, v) => sum + (v - mean) ** k, 0) / list.length;
    return { mean, sd: Math.sqrt(moment(2)), kurtosis: moment(4) / moment(2) ** 2 };
  };

  it('alike over the band: middle, (b - a) / sqrt 12, kurtosis 9/5, nothing outside', () => {
    const list = drawn({ as: 'uniform' }, variable(0.1, 0.3), N);
    expect(Math.max(...list)).toBeLessThanOrEqual(100.1);
    expect(Math.min(...list)).toBeGreaterThanOrEqual(99.7);
    const { mean, sd, kurtosis } = momentsOf(list);
    const sigma = 0.4 / Math.sqrt(12);
    expect(Math.abs(mean - 99.9)).toBeLessThan((3 * sigma) / Math.sqrt(N));
    expect(sd).toBeCloseTo(sigma, 3);
    expect(kurtosis).toBeCloseTo(1.8, 1);
  });

  it('normal about the middle with the band at two standard deviations: 4.6 % outside, kurtosis 3', () => {
    const list = drawn({ as: 'normal', sigmas: 2 }, variable(0, 0.2), N);
    const { mean, sd, kurtosis } = momentsOf(list);
    expect(Math.abs(mean - 99.9)).toBeLessThan((3 * 0.05) / Math.sqrt(N));
    expect(Math.abs(sd - 0.05)).toBeLessThan((3 * 0.05) / Math.sqrt(2 * N));
    expect(Math.abs(kurtosis - 3)).toBeLessThan(3 * Math.sqrt(24 / N));
    // 2 (1 - Phi(2)) = 0.0455003 (any table of the normal distribution).
    const outside = list.filter((v) => v > 100 || v < 99.8).length / N;
    expect(Math.abs(outside - 0.0455)).toBeLessThan(3 * Math.sqrt((0.0455 * 0.9545) / N));
  });
});
