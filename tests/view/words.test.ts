/**
 * Wording of figures and verdicts. Expected texts follow from the rules of the trade's drawings (no leading zero in
 * inches, one in millimetres, unit always printed) and from 1 in = 25.4 mm exactly, worked by hand.
 */
import { describe, expect, it } from 'vitest';
import type { Body, Cylinder, Engine } from '../../src/assembly/engine.ts';
import type { Gap } from '../../src/model/results.ts';
import {
  certificateWords,
  gapSentence,
  verdictHeadline,
  verdictSentence,
  verdictState,
  worstGap,
} from '../../src/view/gapWords.ts';
import {
  bdcAfterTdcRad,
  bodyPhrase,
  crankAngleAt,
  formatAngleFromTdc,
  formatAngleShort,
  formatDegrees,
  formatFixed,
  formatGap,
  formatLength,
  gapLabel,
  sinceTdcRad,
} from '../../src/view/words.ts';

const DEG = Math.PI / 180;
const TURN = 2 * Math.PI;

const cylinder: Cylinder = {
  number: 3,
  bank: 1,
  bankAngleRad: -45 * DEG,
  throw: 2,
  boreCentreMm: 111.8,
  boreOffsetMm: 0,
  boreRadiusMm: 50.8,
  slider: { crankRadiusMm: 50, rodLengthMm: 150, offsetMm: 0 },
  alphaAtZeroRad: -90 * DEG,
  firingPinRad: 450 * DEG,
  firingTdcRad: 450 * DEG,
  tdcRad: 90 * DEG,
  bdcRad: 270 * DEG,
  deckClearanceMm: 0.5,
};

function body(name: string, kind: Body['kind'], own: Partial<Body> = {}): Body {
  return { name, kind, ...own } as Body;
}

const engine = {
  assembly: 'candidate 2',
  mirrored: false,
  cycleRad: 2 * TURN,
  cylinders: [cylinder, { ...cylinder, number: 4 }],
  bodies: [
    body('counterweight 2 rear', 'counterweight', { throw: 2 }),
    body('piston 3', 'piston', { cylinder: 3 }),
    body('rod 3', 'rod', { cylinder: 3 }),
    body('intake lobe 3', 'lobe', { cylinder: 3 }),
    body('block', 'block'),
  ],
  pairs: [],
  side: [],
} as unknown as Engine;

const hit: Gap = {
  id: 'counterweight 2 rear · piston 3',
  kind: 'counterweight-piston',
  between: ['counterweight 2 rear', 'piston 3'],
  parts: ['rim', 'skirt'],
  gapMm: -0.8128,
  lowerBoundMm: -0.8133,
  certified: true,
  budgetSpent: false,
  evaluations: 1,
  slicingMm: 0,
  atCrankRad: 266 * DEG,
  pointsMm: [
    [0, 0, 0],
    [0, 0, 0],
  ],
  direction: 'in-plane',
  axialOverlapMm: 6.1,
  limitMm: 1.524,
  state: 'contact',
  assumed: [],
  cylinder: 3,
  periodRad: TURN,
  deciding: [
    { source: 0, z0Mm: 0, z1Mm: 1 },
    { source: 0, z0Mm: 0, z1Mm: 1 },
  ],
};
const lobe: Gap = {
  ...hit,
  id: 'rod 3 · intake lobe 3',
  kind: 'rod-camshaft',
  between: ['rod 3', 'intake lobe 3'],
  parts: ['bolt shoulder', 'lobe'],
  gapMm: 1.016,
  lowerBoundMm: 1.0156,
  atCrankRad: 450 * DEG + 363 * DEG,
  state: 'tight',
  periodRad: 2 * TURN,
  deciding: [
    { source: 0, z0Mm: 0, z1Mm: 1 },
    { source: 0, z0Mm: 0, z1Mm: 1 },
  ],
};
const clear: Gap = { ...hit, id: 'clear', gapMm: 3, lowerBoundMm: 2.9995, state: 'clears' };

describe('lengths', () => {
  it('prints millimetres with a leading zero and inches without, the unit always', () => {
    expect(formatLength(0.8128, 'mm')).toBe('0.81 mm');
    expect(formatLength(0.8128, 'in')).toBe('.032 in');
    expect(formatLength(0.8128, 'both')).toBe('0.81 mm (.032 in)');
    expect(formatLength(95.25, 'both')).toBe('95.25 mm (3.750 in)');
  });
  it('prints a real minus, and none before zero', () => {
    expect(formatLength(-0.8128, 'both')).toBe('\u22120.81 mm (\u2212.032 in)');
    expect(formatLength(-0.001, 'mm')).toBe('0.00 mm');
    expect(formatLength(-0.001, 'in')).toBe('.000 in');
  });
  it('adds a decimal for the grinder', () => {
    expect(formatLength(0.0254, 'both', 1)).toBe('0.025 mm (.0010 in)');
  });
  it('refuses what is no number rather than printing it', () => {
    expect(() => formatLength(Number.NaN, 'mm')).toThrow(RangeError);
    expect(() => formatFixed(Number.POSITIVE_INFINITY, 1)).toThrow(RangeError);
  });
  it('gives a gap the decimals it needs to differ from the limit it misses, and from zero', () => {
    expect(formatGap({ gapMm: 1.521, limitMm: 1.524, state: 'tight' }, 'mm')).toBe('1.521 mm');
    expect(formatGap({ gapMm: 1.2, limitMm: 1.524, state: 'tight' }, 'mm')).toBe('1.20 mm');
    expect(formatGap({ gapMm: -0.003, limitMm: 1.524, state: 'contact' }, 'mm')).toBe('\u22120.003 mm');
    expect(formatGap({ gapMm: 0, limitMm: 1.524, state: 'contact' }, 'mm')).toBe('0.00 mm');
  });
});

describe('angles', () => {
  it('counts from the nearest dead centre', () => {
    expect(formatAngleFromTdc(266 * DEG, cylinder, TURN)).toBe('4.0° before bottom dead centre');
    expect(formatAngleFromTdc(282.5 * DEG, cylinder, TURN)).toBe('12.5° after bottom dead centre');
    expect(formatAngleFromTdc(80 * DEG, cylinder, TURN)).toBe('10.0° before top dead centre');
    expect(formatAngleFromTdc(90.02 * DEG, cylinder, TURN)).toBe('at top dead centre');
  });
  it('tells the two dead centres of a double turn apart', () => {
    expect(formatAngleFromTdc(470 * DEG, cylinder, 2 * TURN)).toBe('20.0° after firing top dead centre');
    expect(formatAngleFromTdc(100 * DEG, cylinder, 2 * TURN)).toBe('10.0° after top dead centre at valve overlap');
    expect(formatAngleFromTdc(620 * DEG, cylinder, 2 * TURN)).toBe(
      '10.0° before bottom dead centre after the power stroke',
    );
    expect(formatAngleShort(280 * DEG, cylinder, 2 * TURN)).toBe('10.0° after BDC after intake');
  });
  it('goes from TDC and back', () => {
    for (const crankDeg of [0, 33, 200, 719]) {
      const since = sinceTdcRad(crankDeg * DEG, cylinder, 2 * TURN);
      expect(since).toBeGreaterThanOrEqual(0);
      expect(crankAngleAt(since, cylinder, 2 * TURN)).toBeCloseTo(crankDeg * DEG, 10);
    }
    expect(sinceTdcRad(450 * DEG, cylinder, 2 * TURN)).toBeCloseTo(0, 12);
  });
  it('takes BDC where it truly is', () => {
    expect(bdcAfterTdcRad({ ...cylinder, tdcRad: 350 * DEG, bdcRad: 171 * DEG })).toBeCloseTo(181 * DEG, 12);
    expect(formatDegrees(181 * DEG)).toBe('181.0°');
  });
});

describe('names of parts', () => {
  it('says what a machinist says', () => {
    expect(bodyPhrase(body('counterweight 2 rear', 'counterweight', { throw: 2 }), 'rim')).toBe(
      'the rear counterweight of throw 2',
    );
    expect(bodyPhrase(body('counterweight 1 front', 'counterweight', { throw: 1 }), 'corner')).toBe(
      'the corner of the front counterweight of throw 1',
    );
    expect(bodyPhrase(body('piston 3', 'piston', { cylinder: 3 }), 'pin boss')).toBe('the pin boss of piston 3');
    expect(bodyPhrase(body('exhaust lobe 5', 'lobe', { cylinder: 5 }), 'lobe')).toBe('the exhaust lobe of cylinder 5');
    expect(bodyPhrase(body('cam core', 'cam core'), 'core')).toBe('the camshaft core');
    expect(bodyPhrase(body('cheek 2 front', 'counterweight', { throw: 2 }), 'cheek')).toBe(
      'the front cheek of throw 2',
    );
    expect(bodyPhrase(body('crankcase wall', 'block'), 'pan rail')).toBe('the pan rail');
    expect(bodyPhrase(body('bore 4', 'block', { cylinder: 4 }), 'bore bottom')).toBe('the bore bottom of cylinder 4');
    expect(bodyPhrase(body('oil pump', 'block'), 'oil pump')).toBe('the oil pump');
  });
  it('labels a pair without saying a part twice', () => {
    expect(gapLabel(hit)).toBe('counterweight 2 rear · piston 3 skirt');
    expect(gapLabel(lobe)).toBe('rod 3 bolt shoulder · intake lobe 3');
    expect(gapLabel({ between: ['rod 3', 'crankcase wall'], parts: ['cap', 'pan rail'] })).toBe('rod 3 cap · pan rail');
    expect(gapLabel({ between: ['rod 4', 'bore 4'], parts: ['beam', 'bore bottom'] })).toBe(
      'rod 4 beam · bore bottom 4',
    );
  });
});

describe('verdict', () => {
  it('says what meets what, by how much, where in the turn', () => {
    expect(verdictSentence([hit], engine, 'both')).toBe(
      'The rear counterweight of throw 2 hits the skirt of piston 3 by 0.81 mm (.032 in), 4.0° before bottom dead ' +
        'centre. Limit 1.52 mm (.060 in). They overlap 6.10 mm (.240 in) along the crank.',
    );
    expect(gapSentence(lobe, engine, 'in')).toBe(
      'The bolt shoulder of rod 3 clears the intake lobe of cylinder 3 by only .040 in, 3.0° after top dead centre at ' +
        'valve overlap. Limit .060 in.',
    );
    expect(gapSentence({ ...hit, gapMm: 0 }, engine, 'mm')).toMatch(/^The rear counterweight of throw 2 touches /);
  });
  it('names the cylinder where the sentence does not end with it', () => {
    const rail: Gap = { ...hit, between: ['counterweight 2 rear', 'block'], parts: ['rim', 'pan rail'] };
    expect(gapSentence(rail, engine, 'mm')).toContain('4.0° before bottom dead centre of cylinder 3.');
  });
  it('heads every case, and claims no more than is proven', () => {
    expect(verdictHeadline([])).toBe('No pair of parts to judge.');
    expect(verdictHeadline([hit, lobe])).toBe('Does not fit as drawn.');
    expect(verdictHeadline([lobe, clear])).toBe('Fits, but tight in 1 place.');
    expect(verdictHeadline([lobe, { ...lobe, id: 'b' }])).toBe('Fits, but tight in 2 places.');
    expect(verdictHeadline([clear])).toBe('Fits as drawn.');
    expect(verdictHeadline([{ ...clear, certified: false }])).toBe('Fits so far as sampled.');
    expect(verdictHeadline([{ ...clear, certified: false, budgetSpent: true }])).toBe('Not proven in 1 place.');
    expect(verdictHeadline([{ ...clear, state: 'unproven' }])).toBe('Unproven in 1 place: rests on assumed outlines.');
    expect(verdictHeadline([{ ...clear, state: 'unproven' }, lobe])).toBe('Tight in 1 place, unproven in 1.');
  });
  it('speaks of contact before a smaller margin, and of unproven before clear', () => {
    const unproven: Gap = { ...clear, id: 'u', gapMm: 9, state: 'unproven' };
    expect(worstGap([clear, unproven, lobe, hit])).toBe(hit);
    expect(worstGap([clear, unproven])).toBe(unproven);
    expect(worstGap([])).toBeNull();
    expect(verdictState([clear, { ...clear, certified: false }])).toBe('unproven');
    expect(verdictState([clear])).toBe('clears');
  });
  it('does not call a gap above its limit too small without saying what takes it below', () => {
    const owing: Gap = { ...lobe, gapMm: 1.6, limitMm: 1.524, state: 'tight', assumed: ['bolt length'] };
    const said = gapSentence(owing, engine, 'mm');
    expect(said).toContain('clears the intake lobe of cylinder 3 by 1.60 mm');
    expect(said).not.toContain('only');
    expect(said).toMatch(/Limit 1\.52 mm\. Less the allowance for assumed dimensions it is below that\.$/);
    expect(gapSentence({ ...owing, gapMm: 1.5 }, engine, 'mm')).toMatch(/ by only 1\.50 mm.* Limit 1\.52 mm\.$/);
  });
  it('says which assumed dimensions an unproven gap rests on', () => {
    const unproven: Gap = { ...clear, state: 'unproven', assumed: ['shoulder height', 'bolt length'] };
    expect(gapSentence(unproven, engine, 'mm')).toContain('rests on assumed dimensions: shoulder height, bolt length.');
  });
});

describe('certificate', () => {
  it('rounds a proven bound down, never up', () => {
    expect(certificateWords({ ...clear, lowerBoundMm: 2.9999 }, 'mm')).toBe('at least 2.999 mm');
    expect(certificateWords({ ...hit, lowerBoundMm: -0.8131 }, 'mm')).toBe('at least \u22120.814 mm');
    // 2.9999 mm is 0.118106… in.
    expect(certificateWords({ ...clear, lowerBoundMm: 2.9999 }, 'in')).toBe('at least .1181 in');
  });
  it('says so where there is none', () => {
    expect(certificateWords({ ...clear, certified: false }, 'mm')).toBe('moving');
    expect(certificateWords({ ...clear, lowerBoundMm: 2.9999, deviationMm: 0.05 }, 'mm')).toBe(
      'at least 2.999 mm; 0.05 mm taken off for the measured outline',
    );
    expect(certificateWords({ ...clear, certified: false, budgetSpent: true }, 'mm')).toBe('not finished');
  });
});
