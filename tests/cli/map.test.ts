/** `check --map`: as characters, as JSON, and what is refused. */
import { describe, expect, it } from 'vitest';
import { readOptions } from '../../src/cli/options.ts';
import { check, demo } from './command.ts';

describe('check --map', () => {
  it('draws the map and gives every design in the JSON document', async () => {
    const asked = ['--map', 'stroke', 'rod length', '--range-a', '80 mm..92 mm', '--cells', '4'];
    const [text, json] = await Promise.all([
      check(demo('bench-rig'), ...asked),
      check(demo('bench-rig'), ...asked, '--json'),
    ]);
    expect(text.out).toContain('Worst margin over stroke (across, 80.0 mm to 92.0 mm) and rod length (upward)');
    expect(text.out).toMatch(/^138\.0 mm {2}[A-Z]/m);
    const { map } = JSON.parse(json.out);
    expect(map.across).toEqual({ dimension: 'stroke', values: ['80.0 mm', '84.0 mm', '88.0 mm', '92.0 mm'] });
    expect(map.cells).toHaveLength(16);
    // More stroke never opens a gap of this rig.
    for (let row = 0; row < 4; row++) {
      const margins = map.cells.slice(4 * row, 4 * row + 4).map((cell: { marginMm: number }) => cell.marginMm);
      expect(margins).toEqual([...margins].sort((p: number, q: number) => q - p));
    }
  });

  it('refuses what is no dimension or no range, naming what is allowed', async () => {
    const unknown = await check(demo('bench-rig'), '--map', 'stroke', 'colour');
    expect(unknown.status).toBe(2);
    expect(unknown.err).toContain('no dimension is called colour. Allowed: stroke, ');
    const range = await check(demo('bench-rig'), '--map', 'stroke', 'crank.counterweight.radius', '--range-a', '80 mm');
    expect(range.err).toContain('--range-a: 80 mm is no range.');
    expect(readOptions(['--cells', '8', 'a.json'])).toEqual({
      kind: 'refused',
      sentence: '--cells goes with --map only. See --help.',
    });
  });
});
