/** Designs that are said to lie alike along the shaft without being laid out do so when they are, body by body. */
import { describe, expect, it } from 'vitest';
import { alongTheShaft } from '../../src/assembly/along.ts';
import { bodiesOf, layDesign } from '../../src/assembly/design.ts';
import type { BuildDocument } from '../../src/build/document.ts';
import { lengthMm } from '../../src/build/literal.ts';
import { withLiteral } from '../../src/model/edit.ts';
import { mapDims } from '../../src/model/map/axis.ts';
import { exampleV8 } from '../support/exampleBuild.ts';

/** Every face of every layer, with its body's name. */
function faces(doc: BuildDocument, name: string): string {
  const bodies = bodiesOf(layDesign(doc, name, null));
  return JSON.stringify(bodies.map((b) => [b.name, ...[...b.layers, ...b.round].flatMap((l) => [l.z0Mm, l.z1Mm])]));
}

describe('two designs along the shaft', () => {
  it('lie alike exactly when no face has moved, whichever dimension is changed', () => {
    const doc = exampleV8();
    const { name } = doc.assemblies[1]!;
    const before = layDesign(doc, name, null);
    const was = faces(doc, name);
    let [alike, moved] = [0, 0];
    for (const dim of mapDims(doc, name)) {
      const value = dim.path.reduce<unknown>((tree, key) => (tree as Record<string | number, unknown>)[key], doc);
      const text = (value as { value: string }).value;
      if (text.endsWith('deg')) continue;
      const next = withLiteral(doc, dim.path, `${(lengthMm(text) * 1.01 + 0.05).toFixed(4)} mm`);
      const same = faces(next, name) === was;
      expect(alongTheShaft(before, layDesign(next, name, before)), dim.id).toBe(same);
      if (same) alike += 1;
      else moved += 1;
    }
    expect(alike).toBeGreaterThan(20);
    expect(moved).toBeGreaterThan(8);
  });
});
