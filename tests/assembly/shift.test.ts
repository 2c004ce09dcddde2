/** How far a layer may have moved between two designs: never less than its own points move, tried at many crank angles. */
import { describe, expect, it } from 'vitest';
import { bodiesOf, layDesign } from '../../src/assembly/design.ts';
import { layOut } from '../../src/assembly/layOut.ts';
import { bodyShiftsMm } from '../../src/assembly/shift.ts';
import type { BuildDocument } from '../../src/build/document.ts';
import { pieceEnd, pieceStart } from '../../src/core/outline/outline.ts';
import { newPose, poseX, poseY } from '../../src/core/plane/pose.ts';
import { withLiteral } from '../../src/model/edit.ts';
import { exampleV8 } from '../support/exampleBuild.ts';

const poseA = newPose();
const poseB = newPose();

/** Places of `doc.assemblies[1]` and values to change to. */
const CHANGES: readonly (readonly [path: readonly (string | number)[], text: string])[] = [
  [['crank', 'stroke'], '3.700 in'],
  [['rod', 'length'], '5.900 in'],
  [['piston', 'compressionHeight'], '1.500 in'],
  [['piston', 'pinOffset'], '.060 in'],
  [['crank', 'counterweight', 'radius'], '3.200 in'],
];

function changed(doc: BuildDocument, which: number): BuildDocument {
  return CHANGES.reduce(
    (next, [path, text], k) => (which & (1 << k) ? withLiteral(next, ['assemblies', 1, ...path], text) : next),
    doc,
  );
}

describe('bounds on what has moved', () => {
  it('hold for every corner of every layer, whichever dimensions are changed', () => {
    const doc = exampleV8();
    const name = doc.assemblies[1]!.name;
    const before = layDesign(doc, name, null);
    let compared = 0;
    for (let which = 1; which < 1 << CHANGES.length; which++) {
      const after = layDesign(changed(doc, which), name, before);
      const [p, q] = [bodiesOf(before), bodiesOf(after)];
      for (const [k, a] of p.entries()) {
        const b = q[k]!;
        const shifts = bodyShiftsMm(a, b);
        for (const [n, layer] of a.layers.entries()) {
          const other = b.layers[n]!;
          const boundMm = shifts?.[n] ?? 0;
          if (boundMm === Number.POSITIVE_INFINITY) continue;
          expect(other.outline.pieces.length).toBe(layer.outline.pieces.length);
          for (let at = 0; at < 4 * Math.PI; at += 0.35) {
            a.motion.write(at, poseA);
            b.motion.write(at, poseB);
            for (const [m, piece] of layer.outline.pieces.entries()) {
              for (const end of [pieceStart, pieceEnd]) {
                const [x0, y0] = end(piece);
                const [x1, y1] = end(other.outline.pieces[m]!);
                const dx = poseX(poseB, x1, y1) - poseX(poseA, x0, y0);
                const dy = poseY(poseB, x1, y1) - poseY(poseA, x0, y0);
                if (Math.hypot(dx, dy) > boundMm + 1e-9)
                  expect.fail(`${a.name} ${layer.part}: ${Math.hypot(dx, dy)} > ${boundMm}`);
                compared += 1;
              }
            }
          }
        }
      }
    }
    expect(compared).toBeGreaterThan(100_000);
  });

  it('and a design laid out from another is the one laid out from nothing', () => {
    const doc = exampleV8();
    const name = doc.assemblies[1]!.name;
    const before = layDesign(doc, name, null);
    for (const which of [1, 2, 4, 8, 16, 31]) {
      const next = changed(doc, which);
      const plain = (bodies: readonly unknown[]): string => JSON.stringify(bodies);
      const whole = layOut(next, name).bodies.filter((body) => body.kind !== 'journal');
      expect(plain(bodiesOf(layDesign(next, name, before)))).toBe(plain(whole));
    }
  });
});
