/**
 * Curves of gaps: at every angle the gap of a pair as an engine put together by hand in space has it (tests/oracle), over the whole
 * period, of any assembly and variation; cut off and begun anew without stale answers.
 */
import { describe, expect, it } from 'vitest';
import type { BuildDocument } from '../../../src/build/document.ts';
import { DEPTH_TOLERANCE_MM } from '../../../src/core/clearance/gapAt.ts';
import { SLICING_MM } from '../../../src/core/clearance/layered.ts';
import { type Compared, comparisonsOf } from '../../../src/model/curves/compare.ts';
import { FAR_ERROR_MM, FAR_MM, gapCurveKind } from '../../../src/model/curves/gapCurve.ts';
import { type GapLines, watchGapLines } from '../../../src/model/curves/gapLines.ts';
import { directPool, type Pool, toTheEnd } from '../../../src/model/pieces/kind.ts';
import { WORK, type Work } from '../../../src/model/pieces/table.ts';
import type { BuildFile } from '../../oracle/buildFile.ts';
import { solidsOf } from '../../oracle/engine.ts';
import { gapAtAngle } from '../../oracle/solidGap.ts';
import { changed } from '../../support/changed.ts';
import { demo } from '../../support/demo.ts';
import { exampleV8 } from '../../support/exampleBuild.ts';

const rig = demo('bench-rig');
const v8 = exampleV8();
const DEG = Math.PI / 180;
/** Points of the oracle's sections stand so far apart at most that a gap comes out so much too large, mm. */
const ORACLE_MM = 0.02;

function drawn(list: readonly Compared[], pairId: string, restDeg?: number): GapLines {
  const watcher = watchGapLines(
    directPool(WORK),
    'test',
    () => {},
    () => {},
  );
  watcher.show(list, pairId);
  if (restDeg !== undefined) watcher.rest(restDeg);
  return watcher.show(list, pairId);
}

/** Gaps at some angles, as the pool works them out for the curve. */
function at({ doc, assembly }: Compared, pairId: string, atDeg: readonly number[]): (readonly [number, number])[] {
  const result = toTheEnd(
    gapCurveKind({ engines: [{ doc, assembly }], pairId })({ engine: 0, asked: { ask: 'gaps', atDeg, fine: false } }),
  );
  return 'gapMm' in result ? atDeg.map((deg, k) => [deg, result.gapMm[k]!] as const) : [];
}

function byHand(doc: BuildDocument, assembly: string, pairId: string, crankRad: number): number {
  const solids = solidsOf(doc as unknown as BuildFile, assembly);
  const [a, b] = pairId.split(' · ').map((name) => solids.find((s) => s.name === name)!);
  return gapAtAngle(a!, b!, crankRad, { capMm: FAR_MM, fine: true, depthStepMm: 0.1 }).gapMm;
}

/** Crank angle of true TDC of cylinder 1, whose crankpin stands in line with its bore at crank angle 0. */
const topRad = ({ slider: { crankRadiusMm: r, rodLengthMm: l, offsetMm: e } }: Compared['cylinders'][number]): number =>
  Math.asin(e / (l + r));

describe('the curve of a gap', () => {
  it.each([
    ['rod 1 · bore 1', [60, 210]],
    ['counterweight 1 rear · bore 1', [0, 47, 100, 173, 210, 305]],
    ['counterweight 1 rear · piston 1', [0, 47, 100, 173, 210, 305]],
  ] as const)(
    'of an assembly that is not on show, and of a variation, is the gap by hand: %s',
    (id, degrees) => {
      const others = comparisonsOf(rig, rig.proposed, 1, 'assemblies', '').list.slice(1);
      const longer = comparisonsOf(rig, rig.proposed, 1, 'stroke', '4 mm').list.slice(2);
      for (const compared of [...others.slice(0, 1), ...longer]) {
        for (const [deg, mine] of at(compared, id, degrees)) {
          const hand = byHand(compared.doc, compared.assembly, id, topRad(compared.cylinders[0]!) + deg * DEG);
          if (hand >= FAR_MM - ORACLE_MM) {
            expect(Number.isNaN(mine) || mine > FAR_MM - ORACLE_MM - FAR_ERROR_MM, `${deg}`).toBe(true);
            continue;
          }
          expect(mine, `${compared.name} ${deg}`).toBeLessThanOrEqual(hand + DEPTH_TOLERANCE_MM);
          expect(mine, `${compared.name} ${deg}`).toBeGreaterThan(hand - FAR_ERROR_MM - ORACLE_MM);
        }
      }
    },
    20_000,
  );

  it('where the cursor rests is as exact as the list of gaps', () => {
    const [compared] = comparisonsOf(rig, rig.proposed, 1, 'assemblies', '').list;
    const id = 'counterweight 1 rear · bore 1';
    const deg = 150.37;
    const { value, exact } = drawn([compared!], id, deg).lines[0]!.at(deg);
    const hand = byHand(rig, compared!.assembly, id, topRad(compared!.cylinders[0]!) + deg * DEG);
    expect(exact).toBe(true);
    expect(value).toBeLessThanOrEqual(hand + DEPTH_TOLERANCE_MM);
    expect(value).toBeGreaterThan(hand - SLICING_MM - ORACLE_MM);
  });

  it('of a pair with a lobe goes over two turns, which differ, each as by hand', () => {
    const [, compared] = comparisonsOf(v8, v8.proposed, 1, 'assemblies', '').list;
    const id = 'rod 1 · intake lobe 1';
    const { lines, degrees, turns } = drawn([compared!], id);
    expect(turns).toBe(2);
    expect([degrees[0], degrees.at(-1), lines[0]!.values.length]).toEqual([0, 720, 721]);
    const seen: number[] = [];
    for (const deg of [20, 380, 60, 420]) {
      const hand = byHand(v8, compared!.assembly, id, topRad(compared!.cylinders[0]!) + deg * DEG);
      const mine = lines[0]!.values[deg]!;
      seen.push(mine);
      expect(Math.abs(mine - hand), `${deg}`).toBeLessThan(FAR_ERROR_MM + ORACLE_MM);
    }
    expect(Math.max(Math.abs(seen[0]! - seen[1]!), Math.abs(seen[2]! - seen[3]!))).toBeGreaterThan(1);
    // Firing top to firing top: after two turns it is where it was.
    expect(lines[0]!.values[720]).toBe(lines[0]!.values[0]);
  });

  it('has its ring at the certified smallest gap, below which no sample goes by more than rounding and slices', () => {
    const [compared] = comparisonsOf(rig, rig.proposed, 1, 'assemblies', '').list;
    for (const id of ['counterweight 1 rear · piston 1', 'counterweight 1 rear · bore 1']) {
      const { lines } = drawn([compared!], id);
      const [mark] = lines[0]!.marks;
      const least = Math.min(...lines[0]!.values.filter(Number.isFinite));
      expect(least).toBeGreaterThan(mark!.value - FAR_ERROR_MM);
      expect(least).toBeLessThan(mark!.value + 0.05);
      expect(lines[0]!.at(mark!.deg).value).toBeCloseTo(mark!.value, 1);
    }
  });

  it('of a valve and its piston goes over two turns', () => {
    const six = demo('lake-launch-six');
    const [compared] = comparisonsOf(six, six.proposed, 1, 'assemblies', '').list;
    const found = drawn([compared!], 'no such pair');
    expect(found.lines).toEqual([]);
    expect(found.without).toEqual([compared!.name]);
    const quarry = demo('quarry-v8');
    const { turns, lines } = drawn(
      comparisonsOf(quarry, quarry.proposed, 1, 'assemblies', '').list.slice(1, 2),
      'intake valve 1 · piston 1',
    );
    expect(turns).toBe(2);
    expect(lines[0]!.values.filter(Number.isFinite).length).toBeGreaterThan(20);
  });
});

describe('the work', () => {
  it('is asked for once, goes on from what is there, and what was asked before is dropped', () => {
    const begun: { readonly owner: string; readonly pieces: number; cancelled: boolean; on: unknown }[] = [];
    const pool: Pool<Work> = {
      run: (owner, _, __, pieces, on) => {
        const job = { owner, pieces: pieces.length, cancelled: false, on };
        begun.push(job);
        return () => {
          job.cancelled = true;
        };
      },
    };
    let grown = 0;
    const watcher = watchGapLines(
      pool,
      'curves',
      () => grown++,
      () => {},
    );
    // Documents of its own, so that nothing is known of them.
    const { list } = comparisonsOf(changed(rig, {}) as unknown as BuildDocument, rig.proposed, 1, 'assemblies', '');
    const id = 'counterweight 1 rear · piston 1';
    const first = watcher.show(list, id);
    expect([first.done, first.of]).toEqual([0, begun[0]!.pieces]);
    watcher.show(list, id);
    expect(begun).toHaveLength(1);
    const { piece } = begun[0]!.on as { piece: (k: number, r: unknown) => void };
    piece(0, { smallest: { gapMm: 1, lowerBoundMm: 0.999, certified: false, atDeg: 12 } });
    expect(grown).toBe(1);
    const now = watcher.show(list, id);
    expect(now.done).toBe(1);
    expect(now.lines[0]!.at(77.5).exact).toBe(false);
    // Not proven: no ring, and it says so.
    expect(now.lines[0]!.marks).toEqual([]);
    expect(now.unproven).toEqual([list[0]!.name]);
    watcher.show(list.slice(0, 1), id);
    expect(begun[0]!.cancelled).toBe(true);
    expect(begun[1]!.pieces).toBe(begun[0]!.pieces / 3 - 1);
    watcher.rest(77.5);
    watcher.rest(77.5);
    expect(begun.map((job) => job.owner)).toEqual(['curves', 'curves', 'curves, cursor']);
    watcher.stop();
    expect(begun.every((job) => job.cancelled)).toBe(true);
  });
});
