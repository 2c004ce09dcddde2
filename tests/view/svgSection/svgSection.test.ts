/** The section as a drawing of its own: well formed, to scale, true arcs, and the figures of the model in its words. */
import { describe, expect, it } from 'vitest';
import { disc } from '../../../src/core/outline/path.ts';
import { newPose } from '../../../src/core/plane/pose.ts';
import { createStore, directSolver, replacedOf, type State } from '../../../src/model/index.ts';
import { sectionAtGap, sectionNow } from '../../../src/view/svgSection/atState.ts';
import { outlinePath } from '../../../src/view/svgSection/svgBodies.ts';
import { PRINT_INK, type SvgSection, svgSection } from '../../../src/view/svgSection/svgSection.ts';
import { exampleInline6, exampleSingle, exampleV8 } from '../../support/exampleBuild.ts';

async function settled(doc: ReturnType<typeof exampleV8>): Promise<{ state: State; ghost: SvgSection['ghost'] }> {
  const store = createStore(doc, { solver: directSolver() });
  await new Promise<void>((done) => {
    if (store.state.gaps.every((g) => g.certified || g.budgetSpent)) done();
    store.watch((state) => {
      if (state.gaps.every((g) => g.certified || g.budgetSpent)) done();
    });
  });
  return { state: store.state, ghost: replacedOf(store)() };
}

const SHEET = { ink: PRINT_INK, width: 960, height: 640, id: 'one', title: 'Section' } as const;

/** Tags in order, each closed where it must be; attributes quoted; no bare markup in between. */
function wellFormed(text: string): void {
  const open: string[] = [];
  let at = 0;
  const tag = /<(\/?)([a-zA-Z]+)((?:\s+[a-zA-Z:-]+="[^"<]*")*)\s*(\/?)>/y;
  while (at < text.length) {
    if (text[at] === '<') {
      tag.lastIndex = at;
      const m = tag.exec(text);
      expect(m, text.slice(at, at + 120)).not.toBeNull();
      if (m![1] === '/') expect(open.pop()).toBe(m![2]);
      else if (m![4] !== '/') open.push(m![2]!);
      at = tag.lastIndex;
    } else {
      expect(text[at], text.slice(at, at + 60)).not.toBe('>');
      if (text[at] === '&') expect(text.slice(at, at + 6)).toMatch(/^&(amp|lt|gt|quot|#39);/);
      at++;
    }
  }
  expect(open).toEqual([]);
}

describe('the drawn section', () => {
  for (const [name, doc] of [
    ['V8', exampleV8()],
    ['inline six', exampleInline6()],
    ['single', exampleSingle()],
  ] as const)
    it(`${name}: is well formed, with and without ghost and dimensions, at every gap's closest place`, async () => {
      const { state, ghost } = await settled(doc);
      for (const gap of state.gaps.slice(0, 4)) {
        wellFormed(svgSection({ ...sectionAtGap(state, gap), ...SHEET, ghost }));
        wellFormed(svgSection({ ...sectionAtGap(state, gap), ...SHEET, figures: null, ghost: null }));
      }
      wellFormed(svgSection({ ...sectionNow(state), ...SHEET, ghost }));
    });

  it('says the gap as the verdict does, and the dimensions as they were written', async () => {
    const { state } = await settled(exampleV8());
    const gap = state.gaps.find((g) => g.kind !== 'deck' && g.direction === 'in-plane')!;
    const text = svgSection({ ...sectionAtGap({ ...state, units: 'in' }, gap), ...SHEET, ghost: null });
    const inches = `${(gap.gapMm / 25.4).toFixed(3).replace('-', '−').replace(/0\./, '.')} in`;
    expect(text).toContain(`>${inches}</text>`);
    // 3.810 in stroke and a 6.000 in rod, with the pin off centre; the example's own figures.
    expect(text).toContain('rod 6.000 in');
    expect(text).toMatch(/stroke 3\.810 in/);
  });

  it('shows no markup that a name brings along', async () => {
    const { state } = await settled(exampleSingle());
    const text = svgSection({
      ...sectionNow(state),
      ...SHEET,
      ghost: null,
      title: '<script>alert("1")</script> & \u202e\u0000',
    });
    wellFormed(text);
    expect(text).not.toContain('<script');
    expect(text).toContain('&lt;script&gt;');
  });

  it('has a circle as true arcs through its four quarters, and turns it about where the engine is mirrored', () => {
    // Radius 2 about (3, 1) at 10 px a mm from (100, 200): x 110 to 150, y 170 to 210.
    const at = outlinePath(disc(3, 1, 2), newPose(), 1, { pxPerMm: 10, x: 100, y: 200 });
    expect(at).toBe('M150 190A20 20 0 0 0 120 172.68A20 20 0 0 0 120 207.32A20 20 0 0 0 150 190Z');
    const mirrored = outlinePath(disc(3, 1, 2), newPose(), -1, { pxPerMm: 10, x: 100, y: 200 });
    expect(mirrored).toBe('M50 190A20 20 0 0 1 80 172.68A20 20 0 0 1 80 207.32A20 20 0 0 1 50 190Z');
  });
});
