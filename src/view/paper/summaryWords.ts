/**
 * The plain summary in sentences that need no trade: what was there, what comes, what is better, what it costs, what to
 * watch. Each sentence is made from a figure, and says worse where the figure says worse; a figure that is missing makes none.
 */
import type { Room, Standing } from '../../model/paper/rooms.ts';
import type { Range, Summary } from '../../model/paper/summary.ts';
import type { Gap, GapState } from '../../model/results.ts';
import type { Units } from '../../model/state.ts';
import { type Amount, written } from '../../model/sums/index.ts';
import { cautionInPlainWords } from './plainCautions.ts';
import { HEADLINES, roomSentence } from './roomWords.ts';
import { direction, type FigureRow, figureRows, leftOut, type RoomRow, roomRows, type Say } from './summaryTables.ts';

export interface SummaryText {
  readonly verdict: { readonly state: GapState; readonly headline: string; readonly sentences: readonly string[] };
  readonly chapters: readonly { readonly title: string; readonly sentences: readonly string[] }[];
  readonly figures: readonly FigureRow[];
  readonly rooms: readonly RoomRow[];
  readonly leftOut: readonly string[];
}

/** Changes of room below this are not worth a word, mm: what the figures show at all. */
const SAME_ROOM_MM = 0.005;

export function summaryText(
  summary: Summary,
  rooms: readonly Room[],
  gaps: readonly Gap[],
  standing: Standing,
  units: Units,
): SummaryText {
  const say: Say = (found, signed = false) => plainly(found, units, signed);
  const figures = figureRows(summary, say);
  return {
    verdict: verdict(rooms, standing, summary.cylinders, units),
    chapters: [
      { title: 'You had', sentences: had(summary, say) },
      { title: 'You get', sentences: gets(summary, say) },
      { title: 'Better', sentences: better(summary, say) },
      { title: 'Room', sentences: costs(summary, rooms, gaps) },
      { title: 'To watch', sentences: watch(summary, say) },
    ].filter((chapter) => chapter.sentences.length > 0),
    figures,
    rooms: roomRows(rooms, summary, units),
    leftOut: leftOut(summary, figures),
  };
}

/** As the sums write it; of a weight pounds and ounces alone where inches are shown. */
function plainly(found: Amount, units: Units, signed: boolean): string {
  const said = written(found, units, signed);
  return found.as === 'weight' && units === 'in' ? said.replace(/^.*\((.*)\)$/, '$1') : said;
}

const STATES: Readonly<Record<Standing, GapState>> = {
  contact: 'contact',
  tight: 'tight',
  'not proven': 'unproven',
  clears: 'clears',
};

/** Kinds that a page has room to speak of, the gravest first. */
const MOST_KINDS = 3;

function verdict(rooms: readonly Room[], standing: Standing, cylinders: number, units: Units): SummaryText['verdict'] {
  const ill = rooms.filter((r) => r.state !== 'clears');
  const sentences = ill.slice(0, MOST_KINDS).map((room) => roomSentence(room, cylinders, units));
  const rest = ill.length - MOST_KINDS;
  if (rest > 0) sentences.push(`The same holds in ${rest} more ${rest === 1 ? 'kind' : 'kinds'} of place; see below.`);
  if (standing === 'contact') sentences.push('The shop has to change something here before anything is put together.');
  return { state: STATES[standing], headline: HEADLINES[standing], sentences };
}

function had({ changes, compares }: Summary, say: Say): string[] {
  if (!compares) return [];
  const { displacement, travel } = changes;
  const out: string[] = [];
  if (displacement.before !== null) out.push(`The engine had a size of ${say(displacement.before)}.`);
  if (travel.before !== null) out.push(`Each piston went up and down by ${say(travel.before)}.`);
  return out;
}

function gets({ changes, compares, crank, differs, cylinders, displacementShare }: Summary, say: Say): string[] {
  const { displacement, travel } = changes;
  if (!compares) {
    return [
      'Nothing is replaced: this page shows the engine as it is, and there is nothing to compare.',
      ...(displacement.after === null ? [] : [`The engine has a size of ${say(displacement.after)}.`]),
      ...(travel.after === null ? [] : [`Each piston goes up and down by ${say(travel.after)}.`]),
    ];
  }
  const out: string[] = [];
  if (displacement.after !== null && displacement.difference !== null && displacementShare !== null) {
    const sign = direction(displacement, say);
    const more = unsigned(displacement.difference);
    out.push(
      sign === 0
        ? `The engine keeps its size of ${say(displacement.after)}.`
        : `The engine will have ${say(displacement.after)}: ${say(more)} ${sign > 0 ? 'more' : 'less'}, or ${say(unsigned(displacementShare))}.`,
    );
  }
  if (travel.after !== null && travel.difference !== null) {
    const sign = direction(travel, say);
    out.push(
      sign === 0
        ? `The pistons travel as far as before.`
        : `Each piston will travel ${say(travel.after)}: ${say(unsigned(travel.difference))} ${sign > 0 ? 'farther' : 'less far'}.`,
    );
  }
  if (crank.offsetGrind !== null) {
    const { outward, shift, smaller } = crank.offsetGrind;
    const range = ([least, greatest]: Range): string =>
      say(least) === say(greatest) ? say(least) : `up to ${say(greatest)}`;
    out.push(
      `Grinding takes ${range(smaller)} off the crankpins and moves them ${outward ? 'outward' : 'inward'} by ${range(shift)}.`,
    );
  }
  if (crank.turned > 0) {
    const places = crank.turned === 1 ? 'place' : 'places';
    out.push(`The crankshaft is turned down in ${crank.turned} ${places} so that it fits this block.`);
  }
  const others = [
    ...(differs.pistons ? [cylinders === 1 ? 'piston' : 'pistons'] : []),
    ...(differs.rods ? [cylinders === 1 ? 'rod' : 'rods'] : []),
    ...(differs.rodBearings ? ['rod bearings'] : []),
  ];
  if (others.length > 0) out.push(`It takes other ${listed(others)} than before.`);
  return out;
}

/** Only what a figure shows to be better; otherwise the page says that nothing is. */
function better(summary: Summary, say: Say): string[] {
  if (!summary.compares) return [];
  const { displacement, weight, rodBearingSpeed, rodPull } = summary.changes;
  const rpm = summary.rpm.value;
  const out: string[] = [];
  if (direction(displacement, say) > 0)
    out.push('A larger engine draws in more air at each turn. What power that gives is not worked out here.');
  if (direction(weight, say) < 0)
    out.push(`The rods, pistons and their bearings together weigh ${say(unsigned(weight.difference!))} less.`);
  if (direction(rodPull, say) < 0)
    out.push(
      `At ${rpm} each rod is pulled less hard at the top: about ${say(rodPull.after!)} in place of about ${say(rodPull.before!)}.`,
    );
  if (direction(rodBearingSpeed, say) < 0)
    out.push(
      `At ${rpm} the rod bearings rub slower: ${say(rodBearingSpeed.after!)} in place of ${say(rodBearingSpeed.before!)}.`,
    );
  if (out.length === 0) out.push('None of the figures on this page gets better. Ask the shop what the change is for.');
  return out;
}

function costs({ compares }: Summary, rooms: readonly Room[], gaps: readonly Gap[]): string[] {
  const out: string[] = [];
  const both = rooms.filter((r) => r.before !== null);
  if (compares && both.length > 0) {
    const less = both.filter((r) => r.after.gapMm < r.before!.gapMm - SAME_ROOM_MM).length;
    const more = both.filter((r) => r.after.gapMm > r.before!.gapMm + SAME_ROOM_MM).length;
    out.push(
      `Of ${both.length} kinds of place where parts pass each other, ${count(less, 'has', 'have')} less room than before, ${count(more, 'has', 'have')} more.`,
    );
  }
  const close = gaps.filter((g) => g.state === 'tight').length;
  const hit = gaps.filter((g) => g.state === 'contact').length;
  const clear = gaps.filter((g) => g.state === 'clears').length;
  if (gaps.length > 0) {
    const rest = [
      ...(hit > 0 ? [`${count(hit, 'hits', 'hit')}`] : []),
      ...(close > 0 ? [`${count(close, 'is', 'are')} too close`] : []),
    ];
    const what = `${gaps.length} ${gaps.length === 1 ? 'place was' : 'places were'} looked at all through the turn: ${count(clear, 'has', 'have')} the room it takes`;
    out.push(`${rest.length === 0 ? what : `${what}, ${rest.join(', ')}`}.`);
  }
  return out;
}

function watch(summary: Summary, say: Say): string[] {
  const { changes, compares, minded, assumed } = summary;
  const { weight, rodBearingSpeed, meanPistonSpeed, rodPull, skirtOut, displacement } = changes;
  const rpm = summary.rpm.value;
  const out: string[] = [];
  if (compares && direction(displacement, say) < 0) out.push('The engine gets smaller.');
  if (direction(weight, say) > 0)
    out.push(`The rods, pistons and their bearings together are ${say(unsigned(weight.difference!))} heavier.`);
  const faster = direction(meanPistonSpeed, say);
  if (faster !== 0)
    out.push(
      `At ${rpm} the pistons run ${faster > 0 ? 'faster' : 'slower'}: ${say(meanPistonSpeed.after!)} on average, ${say(unsigned(meanPistonSpeed.difference!))} ${faster > 0 ? 'more' : 'less'}.`,
    );
  if (direction(rodPull, say) > 0)
    out.push(
      `At ${rpm} each rod is pulled harder at the top: about ${say(rodPull.after!)} in place of about ${say(rodPull.before!)}.`,
    );
  if (direction(rodBearingSpeed, say) > 0)
    out.push(
      `At ${rpm} the rod bearings rub faster: ${say(rodBearingSpeed.after!)} in place of ${say(rodBearingSpeed.before!)}.`,
    );
  if (direction(skirtOut, say) > 0 && skirtOut.after!.value.gt(0))
    out.push(
      `At the bottom each piston comes ${say(skirtOut.after!)} out of its bore, ${say(unsigned(skirtOut.difference!))} more.`,
    );
  for (const each of minded) {
    const words = cautionInPlainWords(each);
    const said = words !== null && each.before ? `${words} That was so before.` : words;
    if (said !== null && !out.includes(said)) out.push(said);
  }
  if (compares && summary.crank.offsetGrind !== null)
    out.push('Whether the ground crankshaft is strong enough is for a qualified crankshaft grinder to judge.');
  if (assumed > 0)
    out.push(
      `${assumed} ${assumed === 1 ? 'dimension is' : 'dimensions are'} assumed and ${assumed === 1 ? 'has' : 'have'} to be measured.`,
    );
  out.push('The shop checks every gap by hand on the real parts before the engine runs.');
  return out;
}

function unsigned(found: Amount): Amount {
  return { as: found.as, value: found.value.abs() };
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

function count(n: number, one: string, many: string): string {
  return `${n === 0 ? 'none' : n} ${n === 1 ? one : many}`;
}
