/** Hot loops make nothing: measured on the heap of a process of its own, over a million evaluations of each (tests/support/allocated.ts). */
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

/** Bytes an evaluation. One object of a number would be 16. */
const ALMOST_NOTHING = 2;

const script = fileURLToPath(new URL('../../support/allocated.ts', import.meta.url));
const nursery = ['--expose-gc', '--max-semi-space-size=128', '--min-semi-space-size=128'];

describe('bytes that one evaluation leaves on the heap', () => {
  const made = JSON.parse(
    execFileSync(process.execPath, [...nursery, '--import', 'tsx', script], { encoding: 'utf8' }),
  ) as Record<string, number>;

  it.each(['signed gap', 'distance', 'distance with safe turns', 'overlap', 'head and crown'])('%s: none', (name) => {
    expect(made[name]).toBeGreaterThanOrEqual(0);
    expect(made[name]).toBeLessThan(ALMOST_NOTHING);
  });
});
