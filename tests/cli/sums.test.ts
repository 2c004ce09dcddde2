/** The command `sums` as a process: tables, JSON, refusals. */
import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { demo, type Ran } from './command.ts';

function sums(...args: readonly string[]): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = execFile(
      process.execPath,
      ['--import', 'tsx', 'src/cli/sums.ts', ...args],
      { cwd: join(import.meta.dirname, '../..'), maxBuffer: 64_000_000 },
      (error, out, err) => {
        if (child.exitCode === null) reject(error);
        else resolve({ status: child.exitCode, out, err });
      },
    );
  });
}

describe('sums', () => {
  test('as text, each figure with its formula, inputs and source', async () => {
    const { status, out, err } = await sums(demo('quarry-v8'), '--explain');
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).not.toMatch(/NaN|undefined|Infinity|30000000000000004/);
    // By hand: 9.480 − 3.720 / 2 − 6.000 − 1.610 in, and for the assembly replaced 9.480 − 3.500 / 2 − 6.000 − 1.720 in.
    expect(out).toMatch(/ {2}deck clearance\n {6}both {6}\.0100 in\n {6}formula/);
    expect(out).toContain('from      rod length: 6.000 in (stated)');
    expect(out).toContain('qualified crankshaft grinder');
    // pi/4 x 4.18² x 3.72 x 8 = 408.39 in³.
    expect(out).toMatch(/displacement\n {6}replaced {2}384\.2 in³\n {6}proposed {2}408\.4 in³/);
  });

  test('as JSON, exact decimals in base units', async () => {
    const { status, out } = await sums(demo('quarry-v8'), '--json');
    expect(status).toBe(0);
    const report = JSON.parse(out);
    const all = report.groups.flatMap((g: { sums: unknown[] }) => g.sums) as Record<string, never>[];
    const named = (name: string) => all.find((s) => s['name'] === name) as never as { proposed: { amount: unknown } };
    expect(named('deck clearance').proposed.amount).toEqual({ value: '0.254', unit: 'mm' });
    // By hand: 2 x (472.5 + 44) + 5 + 863.5 = 1901.5 g.
    expect(named('bobweight of a crankpin').proposed.amount).toEqual({ value: '1901.5', unit: 'g' });
    expect(all.length).toBeGreaterThan(50);
  });

  test('refuses with a sentence and status 2', async () => {
    const runs = await Promise.all([
      sums(),
      sums('nowhere.json'),
      sums(demo('quarry-v8'), '--proposed', 'Some other crank'),
      sums(demo('quarry-v8'), '--sum'),
    ]);
    expect(runs.map((r) => r.status)).toEqual([2, 2, 2, 2]);
    expect(runs.map((r) => r.out)).toEqual(['', '', '', '']);
    expect(runs[0]!.err).toContain('No build file is named');
    expect(runs[1]!.err).toContain('there is no such file');
    expect(runs[2]!.err).toContain('It has: As removed');
    expect(runs[3]!.err).toContain('--sum is not an option');
  });
});
