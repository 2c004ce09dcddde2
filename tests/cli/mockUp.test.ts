/** `check --mock-up`: the log of a build beside its predictions, as a table and as a document. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { check, demo, demoContent, type Folder, folder, lines } from './command.ts';

let files: Folder;
let withLog: string;
const PROPOSED = (demoContent('bench-rig') as { proposed: string }).proposed;

beforeAll(() => {
  files = folder();
  const entry = (between: readonly string[], measured: string, at?: object) => ({
    assembly: PROPOSED,
    between,
    ...(at === undefined ? {} : { at }),
    measured,
    with: 'clay',
    date: '2026-11-25',
  });
  withLog = files.file(
    'log.json',
    JSON.stringify({
      ...(demoContent('bench-rig') as object),
      mockUp: [
        entry(['piston 1', 'deck'], '.020 in'),
        // The straight wall 98 mm out, the rod's bolt boss on a crankpin 43 mm from the axis: measured as predicted, 2.80 mm at 90 degrees.
        entry(['rod 1', 'crankcase wall'], '2.80 ±0.05 mm', { cylinder: 1, afterTdc: '90 ±1 deg' }),
      ],
    }),
  );
});
afterAll(() => files.remove());

describe('--mock-up', () => {
  it('prints a line for each entry, and under it what would explain one that differs', async () => {
    const { status, out } = await check(withLog, '--mock-up');
    expect(status).toBe(0);
    const said = lines(out);
    // Deck clearance 0.30 mm by the stack; .020 in are 0.508 mm.
    expect(said.find((l) => l.includes('piston 1 · deck  '))).toMatch(
      /TDC +clay +2026-11-25 +\.020 in +0\.30 mm \(\.012 in\) +0\.21 mm +0\.01 mm +differs/,
    );
    expect(said.find((l) => l.includes('90 ±1 deg after TDC 1'))).toMatch(/agrees$/);
    const why = said.findIndex((l) => /^No\. 1 differs by 0\.21 mm, more than the 0\.01 mm/.test(l));
    expect(why).toBeGreaterThan(0);
    // The rod would have to be as much shorter.
    expect(said.slice(why).find((l) => l.includes('rod length'))).toMatch(/138\.0 mm +137\.792 mm +-0\.21 mm/);
  });

  it('gives the same in the document, and nothing unless asked for', async () => {
    const { out } = await check(withLog, '--mock-up', '--json');
    const { mockUp } = JSON.parse(out);
    expect(mockUp.map((e: { differs: boolean }) => e.differs)).toEqual([true, false]);
    expect(mockUp[0].differenceMm).toBeCloseTo(0.508 - 0.3, 9);
    expect(mockUp[0].explanations[0].others.map((o: { entry: number }) => o.entry)).toEqual([1]);
    expect(mockUp[1].explanations).toEqual([]);
    expect(JSON.parse((await check(withLog, '--json')).out).mockUp).toBeUndefined();
  });

  it('says so where the log is empty', async () => {
    expect((await check(demo('bench-rig'), '--mock-up')).out).toContain('has no entry for this assembly');
  });

  it('refuses a log with a day that no calendar has', async () => {
    const spoilt = files.file(
      'spoilt.json',
      JSON.stringify({
        ...(demoContent('bench-rig') as object),
        mockUp: [
          { assembly: PROPOSED, between: ['piston 2', 'deck'], measured: '.020 in', with: 'clay', date: '2026-11-31' },
        ],
      }),
    );
    const { status, err } = await check(spoilt, '--mock-up');
    expect(status).toBe(2);
    expect(err).toMatch(/mockUp\[0\]\.date: "2026-11-31" is refused|mockUp\[0\]\.date: 2026-11-31 is refused/);
  });
});
