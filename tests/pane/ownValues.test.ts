/** Bodies that differ from the value in a field are named beside it. */
import { describe, expect, it } from 'vitest';
import type { Assembly, Dim, Own } from '../../src/build/document.ts';
import { ownNotes } from '../../src/pane/ownValues.ts';
import { SAMPLE } from './sampleBuild.ts';

const dim = (value: string): Dim => ({ value, from: 'measured' });

const OWN: readonly Own[] = [
  { body: 'rod', cylinder: 3, set: { length: dim('5.998 in') } },
  { body: 'rod', cylinder: 4, set: { bigEndRadius: dim('1.390 in') } },
  { body: 'piston', cylinder: 5, set: { bossRadius: dim('.690 in') } },
  { body: 'lobe', cylinder: 2, valve: 'exhaust', lift: dim('.300 in'), duration: dim('220 deg') },
  { body: 'counterweight', throw: 1, side: 'front', set: { radius: dim('3.2 in') } },
  { body: 'counterweight', throw: 4, side: 'rear', outline: [{ x: dim('0 in'), y: dim('1 in') }] },
];

const assembly: Assembly = { ...SAMPLE.assemblies[1]!, own: OWN };
const notes = (...tail: string[]) => ownNotes(assembly, ['assemblies', 1, ...tail]);

describe('own values', () => {
  it('are named at the field of their part and dimension only', () => {
    expect(notes('rod', 'length')).toEqual(['rod 3 has its own: 5.998 in']);
    expect(notes('rod', 'shoulderHeight')).toEqual([]);
    expect(notes('piston', 'bossRadius')).toEqual(['piston 5 has its own: .690 in']);
    expect(notes('piston', 'pinOffset')).toEqual([]);
  });

  it('of a lobe stand at the lift and duration of its own valve', () => {
    expect(notes('camshaft', 'exhaustLift')).toEqual(['exhaust lobe 2 has its own: .300 in']);
    expect(notes('camshaft', 'exhaustDuration')).toEqual(['exhaust lobe 2 has its own: 220 deg']);
    expect(notes('camshaft', 'intakeLift')).toEqual([]);
  });

  it('name a measured outline at every dimension of the counterweight', () => {
    expect(notes('crank', 'counterweight', 'radius')).toEqual([
      'counterweight 1 front has its own: 3.2 in',
      'counterweight 4 rear has a measured outline',
    ]);
    expect(notes('crank', 'counterweight', 'halfAngle')).toEqual(['counterweight 4 rear has a measured outline']);
    expect(notes('crank', 'stroke')).toEqual([]);
  });

  it('name the measured outline of a rod or of pin bosses at what it takes the place of, and nowhere else', () => {
    const outline = [{ x: dim('0 in'), y: dim('1 in') }];
    const traced: Assembly = {
      ...assembly,
      rod: { ...assembly.rod, outline, outlineFrom: 'measured' },
      own: [{ body: 'piston', cylinder: 7, outline, outlineFrom: 'measured' }],
    };
    const notesOf = (...tail: string[]) => ownNotes(traced, ['assemblies', 1, ...tail]);
    expect(notesOf('rod', 'boltSpread')).toEqual(['rods have a measured outline']);
    expect(notesOf('rod', 'bigEndWidth')).toEqual([]);
    expect(notesOf('piston', 'bossRadius')).toEqual(['piston 7 has a measured outline']);
    expect(notesOf('piston', 'skirtBelowPin')).toEqual([]);
    expect(notesOf('crank', 'counterweight', 'radius')).toEqual([]);
  });

  it('do not concern the block', () => {
    expect(ownNotes(assembly, ['block', 'bore'])).toEqual([]);
  });
});
