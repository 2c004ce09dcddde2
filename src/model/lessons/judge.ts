/**
 * What is said to a prediction: whether it is near, or how far off and to which side, or what is the matter with what was typed. A
 * prediction is held against the figure that the core found; nothing is graded.
 */
import { type AmountOf, amountOf, type LessonRound, readAmount } from '../../build/lesson/index.ts';
import { kindOf } from '../../build/literal.ts';
import type { Units } from '../state.ts';
import { holds, type OpenLesson } from './open.ts';
import { plainly, type Said, say, sayValue } from './say.ts';
import type { Value } from './values.ts';

/** A prediction as it was made: an angle in degrees, a share of the stroke, the place of an option, or the text typed. */
export type Prediction =
  | { readonly by: 'angle' | 'place'; readonly value: number | null }
  | { readonly by: 'choice'; readonly option: number | null }
  | { readonly by: 'number'; readonly text: string };

export type Judged =
  /** Nothing to be held against the figure yet: why, and what to do. */
  | { readonly taken: false; readonly words: string }
  | {
      readonly taken: true;
      readonly near: boolean;
      /** "You said 60.0°. It is 74.5°: 14.5° later." */
      readonly words: string;
      readonly reply: readonly Said[];
      /** The prediction as it is kept and shown again. */
      readonly said: string;
    };

/** What is typed longer than this is no number. */
const LONGEST_TYPED = 60;

/** Beyond this many times the figure, and of an angle beyond a turn, a prediction is told to be out of all proportion. */
const ABSURD_TIMES = 100;

export function judge(opened: OpenLesson, round: LessonRound, prediction: Prediction, units: Units): Judged {
  const { predict } = round;
  if (predict.by === 'choice') {
    const chosen =
      prediction.by === 'choice' && prediction.option !== null ? predict.options[prediction.option] : undefined;
    if (chosen === undefined)
      return { taken: false, words: 'Choose one of the answers first. A guess is good enough.' };
    const right = predict.options.find((option) => holds(option.when, opened.lesson, opened.values))!;
    const said = plainly(say(chosen.text, opened.values, units));
    const near = chosen === right;
    const is = plainly(say(right.text, opened.values, units));
    const words = near ? `You said: ${said} So it is.` : `You said: ${said} It is: ${is}`;
    return { taken: true, near, words, reply: say(chosen.reply, opened.values, units), said };
  }
  const answer = opened.values.get(predict.answer)!;
  const as = amountOf(opened.lesson.figures, predict.answer)!;
  const given = givenBy(prediction, as, predict.by === 'number' ? predict.unit : '', answer);
  if (!given.ok) return { taken: false, words: given.words };
  const off = given.value - answer.value;
  const within = readAmount(predict.within, as);
  const near = within.ok && Math.abs(off) <= within.value;
  const value = (v: number): string => sayValue({ as, value: v }, units, fineness(as, answer.value));
  const said = value(given.value);
  const words = near
    ? `You said ${said}. It is ${value(answer.value)}, within ${predict.within}.`
    : `You said ${said}. It is ${value(answer.value)}: yours is ${value(Math.abs(off))} too ${tooMuch(as, off > 0, predict.by)}.`;
  const reply = near ? predict.replies.near : off > 0 ? predict.replies.more : predict.replies.less;
  return { taken: true, near, words, reply: say(reply, opened.values, units), said };
}

function tooMuch(as: AmountOf, more: boolean, by: 'angle' | 'place' | 'number'): string {
  if (by === 'place') return more ? 'low' : 'high';
  if (as === 'angle' && by === 'angle') return more ? 'late' : 'early';
  return more ? 'large' : 'small';
}

/** Small lengths are read one decimal finer, as a grinder reads them. */
const FINE_BELOW_MM = 1;
function fineness(as: AmountOf, value: number): readonly ['fine'] | readonly [] {
  return as === 'length' && Math.abs(value) < FINE_BELOW_MM ? ['fine'] : [];
}

type Given = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly words: string };

function givenBy(prediction: Prediction, as: AmountOf, unit: string, answer: Value): Given {
  if (prediction.by === 'angle' || prediction.by === 'place') {
    if (prediction.value !== null) return { ok: true, value: prediction.value };
    return { ok: false, words: 'Put the marker where you think it is first. A guess is good enough.' };
  }
  if (prediction.by !== 'number') return { ok: false, words: 'A number is asked for here.' };
  const example = `${exampleNumber(as)}${unit === '' ? '' : ` ${unit}`}`;
  const typed = prediction.text.trim();
  if (typed === '') return { ok: false, words: `Write a number first, such as ${example}. A guess is good enough.` };
  if (typed.length > LONGEST_TYPED)
    return { ok: false, words: `That is too long to be one number. Write it as ${example}.` };
  if (/nan|infinit|∞/i.test(typed))
    return { ok: false, words: `“${typed}” is not a number. Write one with its unit, as ${example}.` };
  // A bare number is taken in the unit asked for.
  const bare = /[\d.]$/.test(typed) && unit !== '';
  const text = bare ? `${typed} ${unit}` : typed;
  const read = readAmount(text, as);
  // What would be read if it were of a usual size is told for what it is.
  const usual = readAmount(text.replace(/^[-−]\s*/, '').replace(/[\d.]+/, '1'), as).ok;
  if (!read.ok && !usual) return { ok: false, words: misread(typed, as, example, read.allowed) };
  if (/^[-−]/.test(typed) && answer.value >= 0)
    return {
      ok: false,
      words: `${typed} is below nothing, and ${whatCantBe(as)}. Write what you expect as ${example}.`,
    };
  const most = as === 'angle' ? 360 : ABSURD_TIMES * Math.abs(answer.value);
  if (!read.ok || Math.abs(read.value) > most)
    return {
      ok: false,
      words: `${typed} is out of all proportion to an engine of this size. Look at the dimensions in the section, and at the unit.`,
    };
  return { ok: true, value: read.value };
}

function exampleNumber(as: AmountOf): string {
  return { length: '.500', angle: '45', share: '30', ratio: '1.5' }[as as string] ?? '10';
}

function whatCantBe(as: AmountOf): string {
  return as === 'length'
    ? 'the length asked for here can’t be'
    : as === 'angle'
      ? 'the angle asked for here is counted forward'
      : 'what is asked for here can’t be';
}

/** Says what is the matter: another kind of unit, no number at all, or what the grammar of dimensions wants. */
function misread(typed: string, as: AmountOf, example: string, allowed: string): string {
  if (!/\d/.test(typed)) return `“${typed}” holds no number. Write one with its unit, as ${example}.`;
  const kind = kindOf(typed);
  if (kind !== null && kind !== as)
    return `“${typed}” is ${/^[aeiou]/.test(kind) ? 'an' : 'a'} ${kind}; ${/^[aeiou]/.test(as) ? 'an' : 'a'} ${as} is asked for. Write it as ${example}.`;
  return `“${typed}” can’t be read. ${allowed} Here, for example, ${example}.`;
}
