/** Whether a lobe's follower can follow it: asked of the lobe module in its own units, the answer made a sentence. */
import type { TableFault } from '../core/lobe/fitTable.ts';
import { type AnyLobe, checkLobe, type LobeFault } from '../core/lobe/lobeSpec.ts';
import { Exact } from './literal.ts';
import { sayMm } from './ruleTable.ts';

const SAID: Readonly<Record<LobeFault['reason'], string>> = {
  'base radius': 'The base circle can’t be ground.',
  lift: 'The lift can’t be ground.',
  'roller radius': 'The roller has no radius.',
  'lift of stated duration': 'The lift at which duration is stated lies outside the lobe.',
  duration: 'The duration can’t be ground.',
  'opening flank': 'The opening flank leaves nothing for the closing one.',
  table: 'The measured lifts can’t be followed.',
  'duration too long': 'Its flanks would be longer than a whole turn of the cam.',
  'too sharp for a flat face': 'A flat face can’t follow the lobe near its nose; half the base circle is too small.',
  'too sharp for the roller': 'The roller can’t follow the lobe: its path is sharper than the roller.',
  'waist under the nose': 'The roller’s path has a waist under the nose.',
};

/** Answers by lobe: the search for the sharpest place costs some hundred evaluations and is asked again at each change. */
const known = new Map<string, LobeFault | null>();
const MOST_KNOWN = 500;

/** What is wrong with a lobe; null when it can be followed. */
export function lobeFault(lobe: AnyLobe): LobeFault | null {
  const key = JSON.stringify(lobe);
  const before = known.get(key);
  if (before !== undefined) return before;
  const answer = checkLobe(lobe);
  if (known.size >= MOST_KNOWN) known.clear();
  known.set(key, answer);
  return answer;
}

/** The same as a sentence, with what would be allowed. */
export function sayLobeFault(fault: LobeFault): string {
  return fault.table === undefined ? said(fault) : saidOfTable(fault.table);
}

function saidOfTable({ reason, unit, value, allowed }: TableFault): string {
  const say = (v: number) => (unit === 'readings' ? String(v) : sayValue(v, unit));
  switch (reason) {
    case 'too few readings':
      return `Only ${value} lifts stand off the base circle; allowed: at least ${allowed}.`;
    case 'order of angles':
      return `Angles rise from reading to reading, within half a turn of the cam to either side; it is ${say(-value)} beside ${say(-allowed)}.`;
    case 'ends not on the base circle':
      return `The first and the last lift lie on the base circle, within ${say(allowed)} of zero; it is ${say(value)}.`;
    case 'lift below the base circle':
      return `It is ${say(value)}; allowed: not below zero by more than the lifts are right within, ${say(-allowed)}.`;
    case 'no single nose':
      return `Lift rises to one nose and falls from it; here it is ${say(value)}, above the ${say(allowed)} nearer to the nose.`;
    case 'nose away from zero':
      return `Angles are counted from the nose; the greatest lift stands ${say(Math.abs(value))} from zero, allowed: ${say(allowed)}.`;
    case 'readings too far apart':
      return `Readings are ${say(value)} apart; allowed: at most ${say(allowed)} of cam angle between the ends of the lift.`;
    case 'too rough to follow':
      return `No smooth lift passes the readings: the nearest curve misses this one by ${say(value)}; allowed: ${say(allowed)}, what the lifts are said to be right within.`;
  }
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
