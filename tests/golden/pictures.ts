/**
 * The pictures of the section that are kept: each is compared with tests/golden/<name>.png. A picture named here and
 * missing there fails; `UPDATE_GOLDEN=1 npx vitest run --project e2e tests/e2e/golden.test.ts` writes all of them anew.
 */
export interface GoldenPicture {
  readonly name: string;
  readonly query: string;
  /** Crank angle from zero of cylinder 1, degrees. */
  readonly crankAngleDeg: number;
}

export const GOLDEN_PICTURES: readonly GoldenPicture[] = [
  { name: 'quarry-v8', query: '?demo=quarry-v8', crankAngleDeg: 180 },
  { name: 'lake-launch-six', query: '?demo=lake-launch-six', crankAngleDeg: 75 },
  { name: 'bench-rig', query: '?demo=bench-rig', crankAngleDeg: 40 },
];
