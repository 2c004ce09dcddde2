/** What is told of one gap, in words: when in the turn, which parts, on what it rests, from static to running. */
import type { Engine } from '../../assembly/engine.ts';
import { afterTdc, type Intervals } from '../../model/intervals.ts';
import type { Gap } from '../../model/results.ts';
import type { RunningEngine } from '../../model/running/allowances.ts';
import type { Units } from '../../model/state.ts';
import { bodyPhrase, formatFixed, formatLength } from '../words.ts';

const twoTurns = (gap: Pick<Gap, 'periodRad'>): boolean => gap.periodRad > 3 * Math.PI;

/** "158.0° to 202.0° after TDC 1, 44.0°"; the whole turn where it never comes free. Empty where there is none. */
export function arcsText(arcs: Intervals['below'], gap: Gap, engine: Engine): string {
  const cylinder = engine.cylinders.find((c) => c.number === gap.cylinder);
  if (cylinder === undefined || arcs.length === 0) return '';
  const told = afterTdc(arcs, cylinder, gap.periodRad);
  if (told.some((arc) => arc.whole)) return twoTurns(gap) ? 'both turns, all round' : 'the whole turn';
  const spans = told.map((arc) => `${formatFixed(arc.fromDeg, 1)}° to ${formatFixed(arc.toDeg, 1)}°`);
  return `${spans.join(', ')} after ${twoTurns(gap) ? 'firing ' : ''}TDC ${gap.cylinder}`;
}

/** "the rim of the front counterweight of throw 1" */
export function partText(gap: Gap, k: 0 | 1, engine: Engine): string {
  const name = gap.between[k];
  const body = engine.bodies.find((b) => b.name === name);
  if (body === undefined) return gap.parts[k] === '' || gap.parts[k] === name ? name : `${gap.parts[k]} of ${name}`;
  return bodyPhrase(body, gap.parts[k]).replace(/^the /, '');
}

/** A change of a gap, to 0.001 mm and 0.0001 in, with its sign. */
export function changeText(mm: number, units: Units): string {
  const text = formatLength(mm, units, 1);
  return /^[\u2212]/.test(text) || !/[1-9]/.test(text) ? text : `+${text}`;
}

/** What a ladder leaves out, and at which speed its rods stretch. */
export function ladderNote(engine: RunningEngine): string {
  const speed = engine.on.includes('rod stretch')
    ? ` Rod stretch at ${formatFixed(engine.rpm, 0)} rpm${engine.buildsSpeed ? ', the speed of the build' : ''}.`
    : '';
  return `About: found again with the parts where inertia takes them. Gas pressure, bending and oil films are left out.${speed}`;
}
