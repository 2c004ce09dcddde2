/** What rules say of the place and of what is allowed, where one rule has several causes. */
import { describe, expect, it } from 'vitest';
import { type Problem, readContent } from '../../src/build/index.ts';
import { outlineFault } from '../../src/build/outlineFault.ts';
import { changed } from '../support/changed.ts';
import { dim, exampleInline6, exampleV8 } from '../support/exampleBuild.ts';
import { liftTable } from '../support/liftTable.ts';

const CAM = 'assemblies[0].camshaft';
const problemsOf = (doc: unknown): readonly Problem[] => {
  const read = readContent(doc);
  return read.ok ? [] : read.problems;
};

describe('a name of a mock-up that is none', () => {
  const between = (name: string) =>
    problemsOf(
      changed(exampleV8(), {
        mockUp: [
          {
            assembly: exampleV8().proposed,
            between: ['counterweight 2 rear', name],
            at: { cylinder: 3, afterTdc: '176 deg' },
            measured: '.055 in',
            with: 'clay',
            date: '2026-11-25',
          },
        ],
      }),
    );

  it('is answered with those that begin alike, else with one of each kind', () => {
    const [alike] = between('piston 9');
    expect(alike!.allowed).toMatch(/piston 1\b.*piston 8\b/);
    expect(alike!.allowed).not.toMatch(/rod 1\b/);
    const [other] = between('gizmo');
    for (const kind of [/piston 1\b/, /rod 1\b/, /counterweight 1 front/]) expect(other!.allowed).toMatch(kind);
    expect(other!.allowed).not.toMatch(/piston 2\b|rod 2\b/);
  });
});

describe('a measured lobe', () => {
  it('that no flat face can follow is told of at the table, by the rule of lobe and follower', () => {
    const table = liftTable({ liftIn: 0.31, openingDeg: 79.8, closingDeg: 79.8 });
    const found = problemsOf(
      changed(exampleInline6(), {
        [`${CAM}.intakeTable`]: table,
        [`${CAM}.baseCircle`]: dim('1.100 in'),
        [`${CAM}.coreDiameter`]: dim('1 in'),
      }),
    );
    const one = found.find((p) => p.place.startsWith(`${CAM}.intakeTable`));
    expect(one).toMatchObject({ rule: 'lobe and follower', place: `${CAM}.intakeTable`, value: table.within.value });
  });

  it('with a flank out of range has that one fault', () => {
    const found = problemsOf(changed(exampleV8(), { [`${CAM}.intakeOpening`]: dim('10 deg') }));
    expect(found.map((p) => [p.rule, p.place])).toEqual([['flanks of a lobe', `${CAM}.intakeOpening`]]);
  });
});

describe('where edges cross', () => {
  const mm = (value: number) => dim(`${value} mm`);
  const points = (list: readonly (readonly [number, number, number?])[]) =>
    list.map(([x, y, bulge]) => ({ x: mm(x), y: mm(y), ...(bulge === undefined ? {} : { bulge }) }));

  it('a half circle of 10 about (20, 18) dips 2 below an edge at 10: 6 to either side, by Pythagoras', () => {
    const fault = outlineFault(
      points([
        [10, 10],
        [30, 10],
        [30, 18, -1],
        [10, 18],
      ]),
    );
    expect(fault).toMatchObject({ kind: 'crossing', point: 2 });
    expect(fault!.says).toContain('x 14.00 mm, y 10.00 mm');
  });

  it('a half circle of 10 about (20, 23) dips over an edge from (0, 0) to (40, 30), which passes 6.4 from its middle', () => {
    // Foot of the middle on the edge: 20 x .8 + 23 x .6 along; half the chord by Pythagoras.
    const along = 29.8 - Math.sqrt(100 - 6.4 * 6.4);
    const fault = outlineFault(
      points([
        [0, 0],
        [40, 30],
        [40, 36],
        [30, 36],
        [30, 23, -1],
        [10, 23],
        [0, 23],
      ]),
    );
    expect(fault).toMatchObject({ kind: 'crossing', point: 4 });
    expect(fault!.says).toContain(`x ${(along * 0.8).toFixed(2)} mm, y ${(along * 0.6).toFixed(2)} mm`);
  });
});
