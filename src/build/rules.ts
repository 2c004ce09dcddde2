/**
 * What cannot be built, in numbers: every rule by name, and the check of a whole document by all of them. A rule refuses only what no
 * machine shop could make or what the program could not lay out; what is merely unwise is a figure or a gap.
 */
import type { BuildDocument } from './document.ts';
import type { Problem } from './problem.ts';
import { camshaftGroup } from './rulesCamshaft.ts';
import { crankGroup } from './rulesCrank.ts';
import { crankcaseGroup, layoutGroup } from './rulesLayout.ts';
import { mockUpGroup } from './rulesMockUp.ts';
import { namesGroup } from './rulesNames.ts';
import { outlineGroup } from './rulesOutline.ts';
import { outlineBodyGroup } from './rulesOutlineBody.ts';
import { pistonGroup } from './rulesPiston.ts';
import { runningGroup } from './rulesRunning.ts';
import { shopGroup } from './rulesShop.ts';
import { valvesGroup } from './rulesValves.ts';
import type { Report, Rule, RuleGroup } from './ruleTable.ts';

export type { Rule } from './ruleTable.ts';

/** Rules that the text and the fields of a file obey, before anything is compared with anything. */
const FILE_RULES: readonly Rule[] = [
  {
    name: 'readable file',
    what: 'JSON text of at most 4 000 000 characters, nested at most 16 deep.',
    why: 'Anything else is no build file.',
  },
  {
    name: 'names once',
    what: 'A name stands once in an object.',
    why: 'Of two values with one name a reader of JSON keeps the last and drops the other without a word.',
  },
  {
    name: 'known names',
    what: 'Only the names of the schema.',
    why: 'A misspelt name would be left out, and its value with it.',
  },
  { name: 'later version', what: 'Version 1.', why: 'A later version may mean something else by the same names.' },
  {
    name: 'required',
    what: 'Everything not marked optional is present.',
    why: 'Nothing is filled in without being asked.',
  },
  {
    name: 'kind of value',
    what: 'Text, number, list or choice as the schema says.',
    why: 'Anything else has no meaning there.',
  },
  {
    name: 'dimension',
    what: 'A number with its unit, of the kind the field holds: length, angle or speed.',
    why: 'A figure without a unit is read in the wrong one sooner or later.',
  },
  { name: 'sign', what: 'Above zero, or from zero, where the field can be nothing else.', why: 'No bore is negative.' },
  {
    name: 'range',
    what: 'Half angles up to 90 degrees.',
    why: 'They are counted from the middle of the part to each side.',
  },
  {
    name: 'date',
    what: 'A day of the calendar as year-month-day: 2026-11-25.',
    why: 'Written any other way day and month are easily exchanged.',
  },
];

/** Judged first: where a layout can't be laid out, no other rule has anything to go by. */
const FIRST: RuleGroup = layoutGroup;
const GROUPS: readonly RuleGroup[] = [
  namesGroup,
  crankGroup,
  pistonGroup,
  shopGroup,
  runningGroup,
  crankcaseGroup,
  outlineGroup,
  outlineBodyGroup,
  camshaftGroup,
  valvesGroup,
  mockUpGroup,
];

/** Every rule, in the order in which they are judged. */
export const RULES: readonly Rule[] = [...FILE_RULES, ...[FIRST, ...GROUPS].flatMap((group) => group.rules)];

/** Every rule that a document with sound fields breaks; empty when it can be built. */
export function checkBuild(doc: BuildDocument): readonly Problem[] {
  const problems: Problem[] = [];
  const report: Report = (rule, place, value, allowed) => problems.push({ rule, place, value, allowed });
  FIRST.check(doc, report);
  if (problems.length > 0) return problems;
  for (const group of GROUPS) group.check(doc, report);
  return problems;
}
