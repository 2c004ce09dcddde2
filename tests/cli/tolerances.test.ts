/** `check --sensitivities` and `--monte-carlo`: the table, the document, and what is refused. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readOptions } from '../../src/cli/options.ts';
import { check, demo, demoContent, type Folder, folder, lines } from './command.ts';

let files: Folder;
let withTolerances: string;

/**
 * The bench rig's worst gap is its rod's bolt boss against the straight crankcase wall, level with the bolt when the crank stands out
 * to the side: half width 84 mm less what the bolt stands out, so the wall counts one to one. Its band is 0.4 mm, a bolt's 0.1 mm.
 */
beforeAll(() => {
  files = folder();
  const rig = structuredClone(demoContent('bench-rig')) as {
    block: { panRail: { halfWidth: { value: string } } };
    assemblies: { rod: { boltSpread: { value: string } } }[];
    limits?: unknown;
  };
  rig.block.panRail.halfWidth.value = '84 ±0.2 mm';
  for (const { rod } of rig.assemblies) rod.boltSpread.value = '26.0 +0.1 -0.0 mm';
  rig.limits = { 'rod-block': { value: '2.80 mm', from: 'stated' } };
  withTolerances = files.file('tolerances.json', JSON.stringify({ ...rig, assumedAllowance: undefined }));
});
afterAll(() => files.remove());

interface Documented {
  readonly tolerances: readonly {
    readonly between: readonly string[];
    readonly gapMm: number;
    readonly worstSumMm: number;
    readonly worstMm: number;
    readonly worstLowerBoundMm: number;
    readonly rssMm: number;
    readonly sensitivities: readonly {
      body: string;
      dimension: string;
      slope: number | null;
      tolerance: object | null;
    }[];
  }[];
  readonly chanceBuilds: {
    readonly builds: number;
    readonly seed: number;
    readonly below: number;
    readonly chance: number;
  };
}

describe('the document', () => {
  it('has sensitivities and sums, and chance builds that a seed repeats', async () => {
    const run = () => check(withTolerances, '--sensitivities', '--monte-carlo', '30', '--seed', '9', '--json');
    const [one, two] = await Promise.all([run(), run()]);
    expect(one.out).toBe(two.out);
    const { tolerances, chanceBuilds } = JSON.parse(one.out) as Documented;
    const [first] = tolerances;
    expect(first!.between).toEqual(['rod 1', 'crankcase wall']);
    const wall = first!.sensitivities.find((s) => s.dimension === 'pan rail half width')!;
    expect(wall).toMatchObject({ body: 'block', tolerance: { plus: 0.2, minus: 0.2 } });
    expect(wall.slope).toBeCloseTo(1, 3);
    const bolt = first!.sensitivities.find((s) => s.dimension === 'bolt spread')!;
    expect(bolt.body).toBe('rod 1');
    // Worst: wall in by 0.2, bolt out by 0.1 at its slope.
    expect(first!.worstSumMm).toBeCloseTo(first!.gapMm - 0.2 + 0.1 * bolt.slope!, 3);
    expect(first!.worstMm).toBeCloseTo(first!.worstSumMm, 2);
    expect(first!.worstLowerBoundMm).toBeLessThanOrEqual(first!.worstMm);
    expect(first!.rssMm).toBeCloseTo(Math.hypot(0.2, 0.05 * bolt.slope!), 3);
    expect(chanceBuilds).toMatchObject({ builds: 30, seed: 9 });
    expect(chanceBuilds.chance).toBeCloseTo(chanceBuilds.below / 30, 12);
    // The gap as written is at its limit, the bolt can only close it: above half of the builds are below, not all.
    expect(chanceBuilds.below).toBeGreaterThan(12);
    expect(chanceBuilds.below).toBeLessThan(30);
  });

  it('has neither unless asked for', async () => {
    const { out } = await check(demo('bench-rig'), '--json');
    expect(JSON.parse(out)).not.toHaveProperty('tolerances');
    expect(JSON.parse(out)).not.toHaveProperty('chanceBuilds');
  });
});

describe('the table', () => {
  it('says what a tenth does, what the tolerances add up to, and how often a limit is missed', async () => {
    const { out } = await check(withTolerances, '--sensitivities', '--monte-carlo', '30');
    const said = lines(out);
    const row = said.find((l) => l.includes('block, pan rail half width'))!;
    expect(row).toMatch(/84 ±0\.2 mm +\+0\.100 mm +-0\.100 mm +\+\.00100 in +-0\.20 mm \(-\.008 in\)/);
    expect(said.find((l) => l.includes('rod 1, bolt boss radius'))).toMatch(/none stated: exact$/);
    expect(out).toMatch(/worst case: .* as a sum, .*, certified on the build laid out so/);
    expect(out).toMatch(
      /30 chance builds from seed 1, each part by itself, each tolerance any value of its band alike:/,
    );
    expect(out).toMatch(/some gap below what it needs: \d+\.\d %, with 95 % confidence \d+\.\d % to \d+\.\d %/);
  });
});

describe('what is refused', () => {
  it.each([
    [['--monte-carlo', '0'], '--monte-carlo takes a whole number from 1 to 100000, not 0.'],
    [['--monte-carlo', '1e3'], '--monte-carlo takes a whole number from 1 to 100000, not 1e3.'],
    [['--monte-carlo'], '--monte-carlo needs how many builds.'],
    [
      ['--monte-carlo', '10', '--seed', '4294967296'],
      '--seed takes a whole number from 0 to 4294967295, not 4294967296.',
    ],
    [['--seed', '4'], '--seed goes with --monte-carlo only.'],
  ])('%j', (args, sentence) => {
    expect(readOptions(['build.json', ...args])).toEqual({ kind: 'refused', sentence: `${sentence} See --help.` });
  });
});
