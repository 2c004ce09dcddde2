/** A deck clearance rests on what the height of its crown rests on, and says so. */
import { describe, expect, it } from 'vitest';
import { layOut } from '../../src/assembly/layOut.ts';
import type { BuildDocument } from '../../src/build/document.ts';
import { deckGapsOf } from '../../src/model/certified.ts';
import type { Gap } from '../../src/model/results.ts';
import { changed } from '../support/changed.ts';
import { dim, exampleV8 } from '../support/exampleBuild.ts';

const WHICH = 1;
const PLACES = {
  'block deck height': ['block.deckHeight'],
  'block bore offset': ['block.boreOffset'],
  'crank stroke': [`assemblies.${WHICH}.crank.stroke`],
  'rod length': [`assemblies.${WHICH}.rod.length`],
  'piston compression height': [`assemblies.${WHICH}.piston.compressionHeight`],
  'piston pin offset': [`assemblies.${WHICH}.piston.pinOffset`],
} as const;

function at(doc: BuildDocument, path: string): { readonly value: string } {
  let here: unknown = doc;
  for (const key of path.split('.')) here = (here as Record<string, unknown>)[key];
  return here as { readonly value: string };
}

function measuredAll(): BuildDocument {
  const doc = exampleV8();
  const changes: Record<string, unknown> = {};
  for (const [path] of Object.values(PLACES)) changes[`${path}.from`] = 'measured';
  return changed(doc, changes) as unknown as BuildDocument;
}

const altered = (doc: BuildDocument, changes: Record<string, unknown>): BuildDocument =>
  changed(doc, changes) as unknown as BuildDocument;

const without = (doc: BuildDocument): BuildDocument => {
  const { assumedAllowance: _, ...rest } = doc;
  return rest;
};

/** 9.310 - 1.395 - 6.000 - 1.905 and a pin .040 aside: what matters here is that it is above zero, and how far. */
function deck(doc: BuildDocument): Gap {
  const name = doc.assemblies[WHICH]!.name;
  return deckGapsOf(doc, layOut(doc, name))[0]!;
}

describe('a deck clearance', () => {
  const measured = without(measuredAll());
  const { gapMm } = deck(measured);
  const limited = (mm: number, doc = measured): BuildDocument =>
    altered(doc, { limits: { ...doc.limits, deck: dim(`${mm.toFixed(6)} mm`) } });

  it('on measured dimensions alone clears at its limit and is tight below it', () => {
    expect(deck(limited(gapMm - 0.1))).toMatchObject({ state: 'clears', assumed: [] });
    expect(deck(limited(gapMm + 0.1)).state).toBe('tight');
  });

  for (const [name, [path]] of Object.entries(PLACES))
    it(`on an assumed ${name} names it, and can't clear without an allowance`, () => {
      const guessed = altered(limited(gapMm - 0.1), { [path]: { ...at(measured, path), from: 'assumed' } });
      expect(deck(guessed)).toMatchObject({ state: 'unproven', assumed: [name] });
      // 0.1 mm above its limit: an allowance of 0.09 mm is had, one of 0.11 mm is not.
      expect(deck(altered(guessed, { assumedAllowance: dim('0.09 mm') })).state).toBe('clears');
      expect(deck(altered(guessed, { assumedAllowance: dim('0.11 mm') })).state).toBe('tight');
    });

  it('is not moved by what the crown does not rest on', () => {
    const guessed = altered(limited(gapMm - 0.1), {
      'block.gasketThickness': { ...at(measured, 'block.gasketThickness'), from: 'assumed' },
      [`assemblies.${WHICH}.crank.rodJournal`]: {
        ...at(measured, `assemblies.${WHICH}.crank.rodJournal`),
        from: 'assumed',
      },
    });
    expect(deck(guessed)).toMatchObject({ state: 'clears', assumed: [] });
  });
});
