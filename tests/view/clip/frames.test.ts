/** Frames of clips: whole cycles without a jump, steps that stand long enough, the same picture for the same angle. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { layOut } from '../../../src/assembly/layOut.ts';
import { parseBuild } from '../../../src/build/index.ts';
import { createStore, directSolver } from '../../../src/model/index.ts';
import { frameSvg } from '../../../src/view/clip/frameSvg.ts';
import { cycleFrames, readingSeconds, tourFrames } from '../../../src/view/clip/frames.ts';
import { sideOf } from '../../../src/view/counter/compared.ts';
import { tourOf } from '../../../src/view/counter/tour.ts';
import { PRINT_INK } from '../../../src/view/svgSection/svgSection.ts';

const read = parseBuild(readFileSync('assets/demos/bench-rig.json', 'utf8'));
if (!read.ok) throw new Error('the demo can not be read');
const { doc } = read;
const { state } = createStore(doc, { solver: directSolver() });
const ghost = layOut(doc, doc.replaced);
const sheet = { state, ghost, width: 640, height: 400, ink: PRINT_INK };

describe('a cycle', () => {
  it('is cut into equal steps, the one after the last being the first', () => {
    const frames = cycleFrames(4 * Math.PI, 100);
    expect(frames).toHaveLength(100);
    for (const [k, { crankAngleRad }] of frames.entries())
      expect(crankAngleRad).toBeCloseTo((4 * Math.PI * k) / 100, 12);
    expect(() => cycleFrames(1, 0)).toThrow(RangeError);
    expect(() => cycleFrames(1, 2.5)).toThrow(RangeError);
  });

  it('has the same picture at its end as at its beginning, and others between', () => {
    const film = { ...sheet, ghost: null, tour: null };
    const at = (crankAngleRad: number): string => frameSvg(film, { crankAngleRad, step: null });
    expect(at(state.engine.cycleRad)).toBe(at(0));
    expect(at(1)).not.toBe(at(0));
  });
});

describe('the tour', () => {
  const now = sideOf(doc, state.engine, 1);
  const was = sideOf(doc, ghost, 1);
  const steps = tourOf({
    doc,
    before: ghost,
    after: state.engine,
    cylinder: 1,
    gaps: state.gaps,
    cures: null,
    units: 'mm',
  });
  const frames = tourFrames(steps, now.cylinder.firingTdcRad, state.engine.cycleRad, 20);

  it('shows every step in order, each as long as it takes to read', () => {
    expect([...new Set(frames.map((f) => f.step))]).toEqual(steps.map((_, k) => k));
    for (const [k, step] of steps.entries())
      expect(frames.filter((f) => f.step === k).length).toBe(Math.round(readingSeconds(step) * 20));
  });

  it('never jumps: from picture to picture, and from the last to the first, less than 20 degrees', () => {
    const { cycleRad } = state.engine;
    for (const [k, frame] of frames.entries()) {
      const next = frames[(k + 1) % frames.length]!;
      const by = (((next.crankAngleRad - frame.crankAngleRad) % cycleRad) + cycleRad) % cycleRad;
      expect(by, `picture ${k}`).toBeLessThan((20 * Math.PI) / 180);
    }
  });

  it('stands at its place when a step says where to look', () => {
    for (const [k, step] of steps.entries()) {
      if (step.turn.kind !== 'to') continue;
      const last = frames.findLast((f) => f.step === k)!;
      expect(last.crankAngleRad).toBeCloseTo(step.turn.crankAngleRad, 9);
    }
  });

  it('says the words of its step, all of them, within the picture', () => {
    const film = { ...sheet, tour: { steps, was, now } };
    for (const [k, step] of steps.entries()) {
      const text = frameSvg(film, frames.find((f) => f.step === k)!);
      const said = [...text.matchAll(/<text [^>]*y="([\d.]+)"[^>]*>([^<]*)</g)].filter(([, y]) => Number(y) > 280);
      expect(said.map(([, , words]) => words).join(' ')).toBe([step.title, ...step.sentences].join(' '));
      for (const [, y] of said) expect(Number(y)).toBeLessThan(400);
    }
  });
});
