/** Whether a lobe's follower can follow it: asked of the lobe module in its own units, the answer made a sentence. */
import { checkLobe, type LobeFault, type LobeSpec } from '../core/lobe/lobeSpec.ts';
import type { Camshaft, Dim } from './document.ts';
import { angleRad, Exact, lengthMm } from './literal.ts';
import { sayMm } from './ruleTable.ts';

const SAID: Readonly<Record<LobeFault['reason'], string>> = {
  'base radius': 'The base circle can’t be ground.',
  lift: 'The lift can’t be ground.',
  'roller radius': 'The roller has no radius.',
  'lift of stated duration': 'The lift at which duration is stated lies outside the lobe.',
  duration: 'The duration can’t be ground.',
  'duration too long': 'Its flanks would be longer than a whole turn of the cam.',
  'too sharp for a flat face': 'A flat face can’t follow the lobe near its nose; half the base circle is too small.',
  'too sharp for the roller': 'The roller can’t follow the lobe: its path is sharper than the roller.',
  'waist under the nose': 'The roller’s path has a waist under the nose.',
};

/** Answers by lobe: the search for the sharpest place costs some hundred evaluations and is asked again at each change. */
const known = new Map<string, string | null>();
const MOST_KNOWN = 500;

/** What is wrong with a lobe of this lift and duration, with what would be allowed; null when it can be followed. */
export function lobeLawFault(camshaft: Camshaft, lift: Dim, duration: Dim): string | null {
  const spec: LobeSpec = {
    baseRadiusMm: lengthMm(camshaft.baseCircle.value) / 2,
    liftMm: lengthMm(lift.value),
    law: camshaft.law,
    durationAtLiftCrankRad: angleRad(duration.value),
    durationAtLiftMm: lengthMm(camshaft.durationAtLift.value),
    follower:
      camshaft.follower.kind === 'flat'
        ? { kind: 'flat' }
        : { kind: 'roller', radiusMm: lengthMm(camshaft.follower.radius.value) },
  };
  const key = JSON.stringify(spec);
  const before = known.get(key);
  if (before !== undefined) return before;
  const fault = checkLobe(spec);
  const answer = fault === null ? null : said(fault);
  if (known.size >= MOST_KNOWN) known.clear();
  known.set(key, answer);
  return answer;
}

function said(fault: LobeFault): string {
  const bounds = [
    ...(fault.above === undefined ? [] : [`more than ${sayValue(fault.above, fault.unit)}`]),
    ...(fault.below === undefined ? [] : [`less than ${sayValue(fault.below, fault.unit)}`]),
  ];
  const allowed = bounds.length === 0 ? '' : `; allowed: ${bounds.join(' and ')}`;
  return `${SAID[fault.reason]} It is ${sayValue(fault.value, fault.unit)}${allowed}.`;
}

function sayValue(value: number, unit: LobeFault['unit']): string {
  return unit === 'rad' ? `${((value * 180) / Math.PI).toFixed(1)} deg` : sayMm(new Exact(value));
}
