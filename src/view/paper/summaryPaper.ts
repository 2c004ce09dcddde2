/** The plain summary as blocks of a paper: one page. */

import { html } from '../element.ts';
import { paragraph, table } from './blocks.ts';
import { wordsIn } from './plainParts.ts';
import type { PaperBlock } from './sheets.ts';
import type { SummaryText } from './summaryWords.ts';

/** Left out, step by step, where the page would not hold it: room that is not asked about, words that most people know. */
export const BRIEFEST = 3;
const ROOMS = [5, 4, 3, 2] as const;

export function summaryBlocks(
  text: SummaryText,
  job: string,
  names: readonly [before: string, after: string],
  compares: boolean,
  rpm: string,
  brevity: number,
): PaperBlock[] {
  const { verdict } = text;
  const told = text.rooms.filter((row, k) => row.state !== 'clears' || k < ROOMS[brevity]!).slice(0, ROOMS[0]);
  const [before, after] = names;
  const figures = table(
    compares ? 'What changes, in figures' : 'In figures',
    compares
      ? [
          { title: `At ${rpm}`, percent: 34 },
          { title: 'Before', percent: 22, figures: true },
          { title: 'After', percent: 22, figures: true },
          { title: 'Change', percent: 22, figures: true },
        ]
      : [
          { title: `At ${rpm}`, percent: 60 },
          { title: 'As it is', percent: 40, figures: true },
        ],
    text.figures
      .filter((row) => brevity < BRIEFEST || row.name !== 'greatestPistonSpeed')
      .map((row) => (compares ? [row.what, row.before, row.after, row.change] : [row.what, row.after])),
    'sw-paper-lay',
  );
  const rooms = table(
    'Room between parts',
    [
      { title: 'Room between', percent: 34 },
      ...(compares ? [{ title: 'Before', percent: 20, figures: true }] : []),
      { title: compares ? 'After' : 'As it is', percent: compares ? 20 : 26, figures: true },
      { title: 'Wanted', percent: compares ? 13 : 20, figures: true },
      { title: '', percent: compares ? 13 : 20 },
    ],
    told.map((row) => [
      row.what.charAt(0).toUpperCase() + row.what.slice(1),
      ...(compares ? [row.before] : []),
      row.after,
      row.wanted,
      { text: row.state, kind: `sw-paper-state sw-paper-${row.state}` },
    ]),
    'sw-paper-lay',
  );
  const explained = wordsIn(plainTextOf({ ...text, rooms: told }), brevity > 1);
  return [
    { element: html('h2', { class: 'sw-paper-title' }, job), before: 0, keepWithNext: true },
    paragraph(compares ? `${after}, in place of: ${before}` : after, 'sw-paper-quiet'),
    {
      element: html(
        'div',
        { class: `sw-paper-verdict sw-paper-${verdict.state}` },
        html('p', { class: 'sw-paper-headline' }, verdict.headline),
        ...(verdict.sentences.length === 0 ? [] : [html('p', {}, verdict.sentences.join(' '))]),
      ),
      before: 10,
    },
    {
      element: html(
        'div',
        { class: 'sw-paper-chapters' },
        ...text.chapters.map(({ title, sentences }) =>
          html('section', {}, html('h3', {}, title), html('p', { class: 'sw-paper-text' }, sentences.join(' '))),
        ),
      ),
      before: 10,
    },
    { ...figures, before: 12 },
    ...(told.length === 0 ? [] : [{ ...rooms, before: 12 }]),
    ...(text.leftOut.length === 0 ? [] : [paragraph(text.leftOut.join(' '), 'sw-paper-quiet')]),
    {
      element: html(
        'p',
        { class: 'sw-paper-words' },
        html('b', {}, 'Words: '),
        ...explained.flatMap(({ term, means }, k) => [
          html('b', {}, term),
          `: ${means}${k < explained.length - 1 ? '; ' : '.'}`,
        ]),
      ),
      before: 8,
    },
  ];
}

/** Everything the page says, for finding the words that need explaining. */
export function plainTextOf(text: SummaryText): string {
  return [
    text.verdict.headline,
    ...text.verdict.sentences,
    ...text.chapters.flatMap((c) => [c.title, ...c.sentences]),
    ...text.figures.map((row) => row.what),
    ...text.rooms.map((row) => row.what),
    ...text.leftOut,
  ].join('\n');
}
