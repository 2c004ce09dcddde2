/** The tour's words: each figure by hand or from the sums, steps only where they apply, sentences a customer can follow. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { layOut } from '../../../src/assembly/layOut.ts';
import { parseBuild } from '../../../src/build/index.ts';
import { certifiedGaps } from '../../../src/model/certified.ts';
import type { Units } from '../../../src/model/state.ts';
import { type Step, tourOf } from '../../../src/view/counter/tour.ts';

function demo(key: string) {
  const read = parseBuild(readFileSync(`assets/demos/${key}.json`, 'utf8'));
  if (!read.ok) throw new Error(key);
  return read.doc;
}

function tour(
  key: string,
  units: Units,
  more: { after?: string; before?: string | null; gaps?: boolean } = {},
): Step[] {
  const doc = demo(key);
  const after = layOut(doc, more.after ?? doc.proposed);
  const before = more.before === null ? null : layOut(doc, more.before ?? doc.replaced);
  const gaps = more.gaps === true ? certifiedGaps(doc, after, new Map()) : [];
  return tourOf({ doc, before, after, cylinder: 1, gaps, cures: null, units });
}

const text = (steps: readonly Step[], key: string): string =>
  steps.find((s) => s.key === key)?.sentences.join(' ') ?? '';

describe('the tour of the V8', () => {
  const steps = tour('quarry-v8', 'in', { gaps: true });

  it('goes from the core to the tight place', () => {
    expect(steps.map((s) => s.key)).toEqual([
      'start',
      'grind',
      'stroke',
      'rod',
      'top',
      'bottom',
      'weight',
      'gap 1',
      'check',
    ]);
  });

  it('says the strokes as they were written, 3 1/2 and 3.720 in, and what lies between them', () => {
    // pi / 4 x 4.180² x 8 x 3.720 = 408.39 in³, x 3.500 = 384.24 in³; in cm³ x 16.387064.
    expect(text(steps, 'stroke')).toContain('travels 3.720 in. Before it was 3.500 in: .220 in more.');
    expect(text(steps, 'stroke')).toContain('6692 cm³ (408.4 in³). Before it was 6297 cm³ (384.2 in³).');
  });

  it('says that compression height makes up for half of it, and that the bottom takes all', () => {
    // 9.480 - 6.000 - 1.860 - 1.610 = .010 and 9.480 - 6.000 - 1.750 - 1.720 = .010.
    expect(text(steps, 'top')).toContain('.010 in below the top of the block, as before.');
    expect(text(steps, 'top')).toContain('shorter: 1.610 in from the pin it hangs on to its top, before 1.720 in.');
    expect(text(steps, 'bottom')).toContain('stops .220 in lower');
    expect(steps.find((s) => s.key === 'bottom')!.turn).toEqual({ kind: 'after TDC', rad: expect.closeTo(Math.PI, 9) });
  });

  it('leans as far as asin(r / l): 1.860 / 6 is 18.06°, 1.750 / 6 is 16.96°', () => {
    expect(text(steps, 'rod')).toContain('at most 18.1° to the side; before it was 17.0°.');
  });

  it('weighs what goes up and down: 498 + 128.5 + 48 + 3 + 186 = 863.5 g, 343 g less', () => {
    expect(text(steps, 'weight')).toContain('863.5 g');
    expect(text(steps, 'weight')).toContain('Before it was 1206.5 g');
    expect(text(steps, 'weight')).toContain('That is 343.0 g (12.10 oz) less');
    expect(steps.find((s) => s.key === 'weight')!.title).toBe('Lighter parts');
  });

  it('names the gap that the verdict names, at the angle where it is', () => {
    const doc = demo('quarry-v8');
    const worst = certifiedGaps(doc, layOut(doc, doc.proposed), new Map())[0]!;
    const gap = steps.find((s) => s.key === 'gap 1')!;
    expect(gap).toMatchObject({ gapId: worst.id, turn: { kind: 'to', crankAngleRad: worst.atCrankRad } });
    expect(gap.title).toBe('Here parts would meet');
    // Its limit .060 in and the allowance of .010 in for what is assumed, as on the plain summary.
    expect(gap.sentences[0]).toMatch(
      /^The counterweights hit the pistons, at the deepest by \.\d{3} in\. The shop wants \.070 in/,
    );
    // Eight pistons, two cheeks a throw.
    expect(gap.sentences[1]).toBe('The picture shows it on cylinder 1. It is the same in 7 more places.');
  });

  it('ends with whether it is ready, and counts what the plain summary counts', () => {
    const doc = demo('quarry-v8');
    const last = steps.at(-1)!;
    expect(last.title).toBe('Not ready to build: as drawn, parts hit each other.');
    const assumed = (value: unknown): number =>
      value === null || typeof value !== 'object'
        ? 0
        : (value as { from?: unknown }).from === 'assumed'
          ? 1
          : Object.values(value).reduce<number>((sum, each) => sum + assumed(each), 0);
    const count = assumed(doc.block) + assumed(doc.assemblies.find((a) => a.name === doc.proposed));
    expect(last.sentences.join(' ')).toContain(`${count} dimensions are assumed`);
  });

  it('the other way round it is a shorter stroke, heavier parts and no grinding', () => {
    const doc = demo('quarry-v8');
    const back = tour('quarry-v8', 'in', { after: doc.replaced, before: doc.proposed });
    expect(back.map((s) => s.key)).not.toContain('grind');
    expect(back.find((s) => s.key === 'stroke')!.title).toBe('A shorter stroke');
    expect(back.find((s) => s.key === 'weight')!.title).toBe('Heavier parts');
    expect(text(back, 'bottom')).toContain('.220 in higher');
    expect(text(back, 'top')).toContain('taller: 1.720 in');
  });
});

describe('the tour of builds that say less', () => {
  it('leaves out what is not stated: no weights, no core', () => {
    for (const key of ['bench-rig', 'lake-launch-six']) {
      const keys = tour(key, 'mm').map((s) => s.key);
      expect(keys).not.toContain('weight');
      expect(keys).not.toContain('grind');
    }
  });

  it('with nothing replaced says so, and compares nothing', () => {
    const alone = tour('bench-rig', 'mm', { before: null, gaps: true });
    expect(alone.map((s) => s.key)).toEqual(['start', 'gap 1', 'check']);
    expect(text(alone, 'start')).toContain('nothing to compare');
    expect(alone.flatMap((s) => s.sentences).join(' ')).not.toMatch(/[Bb]efore it was/);
  });

  it('the same assembly twice keeps its stroke, its rod and its top', () => {
    const doc = demo('bench-rig');
    const same = tour('bench-rig', 'mm', { after: doc.replaced, before: doc.replaced });
    expect(same.map((s) => s.key)).toEqual(['start', 'stroke', 'top', 'check']);
    expect(same[1]!.title).toBe('The stroke stays as it was');
  });
});

it('can be followed: sentences of at most 20 words on the average, none beyond 30, no shop talk', () => {
  for (const key of ['quarry-v8', 'lake-launch-six', 'bench-rig']) {
    const sentences = tour(key, 'mm', { gaps: true })
      .flatMap((s) => s.sentences)
      .flatMap((s) => s.split(/(?<=[.!?])\s+/));
    const words = sentences.map((s) => s.split(/\s+/).length);
    expect(words.reduce((a, b) => a + b, 0) / words.length).toBeLessThanOrEqual(20);
    expect(Math.max(...words)).toBeLessThanOrEqual(30);
    expect(sentences.join(' ')).not.toMatch(/TDC|BDC|journal|bobweight|deck|quench|reciprocat|compression height/i);
  }
});
