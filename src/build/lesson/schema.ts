/**
 * What a lesson file may contain, field by field. Objects are strict: a name that is not listed is refused. What fields say together
 * stands in rules.ts; whether the lesson's build can be laid out, and what its answers come to, in model/lessons/open.ts.
 *
 * Text may hold {figure} or {figure|way} for a computed figure (ways: fine, signed, size, whole) and [[term]] or [[term|words]]
 * for a term of the glossary.
 */

import { list, name, oneOf, strict, text } from '../schemaPieces.ts';
import { z } from '../zod.ts';
import { QUANTITY_NAMES } from './quantities.ts';

/** Greatest counts and lengths of text: far above any real lesson, low enough that no file can stall the page. */
export const MOST_OF_LESSON = { figures: 40, rounds: 6, options: 6, paragraphs: 8, text: 1200, fields: 6 } as const;

const words = text(MOST_OF_LESSON.text).refine((s) => s.trim() !== '', { error: 'Allowed: a text that is not empty.' });
const paragraphs = list(words, 1, MOST_OF_LESSON.paragraphs);
const literal = text(40).describe(
  'A dimension or an amount with its unit: "5.700 in", "75 deg", "60 %"; a ratio has none.',
);
/** Names of figures stand in braces within texts. */
const figureName = text(40).regex(/^[a-z][a-z0-9 -]*$/, {
  error: 'Allowed: a name of small letters, digits, blanks and hyphens, beginning with a letter.',
});
const place = text(120).regex(/^(?:block|crank|rod|piston|core|camshaft)(?:\.[A-Za-z]+|\[\d+\])+$/, {
  error:
    'Allowed: a dimension of block, crank, rod, piston, core or camshaft, such as rod.length or crank.counterweight.radius.',
});
const inBlock = text(120).regex(/^[A-Za-z]+(?:\.[A-Za-z]+|\[\d+\])*$/);
const settings = (key: typeof place, allowed: string) =>
  z.record(key, literal, { error: (issue) => (issue.code === 'invalid_key' ? allowed : undefined) }).exactOptional();
const gapId = text(120).describe('A pair as the list of gaps names it: "counterweight 1 front · piston 1".');

const figure = strict({
  is: oneOf(QUANTITY_NAMES).describe('A quantity that the core computes for the build of the lesson.'),
  of: name.exactOptional().describe('Name of the assembly; the first one where it is left out.'),
  cylinder: z.int({ error: 'Allowed: a whole number from 1.' }).min(1).exactOptional(),
  at: literal
    .exactOptional()
    .describe('Crank angle after top dead centre, "90 deg", or the name of a figure that is an angle.'),
  within: literal.exactOptional(),
  share: literal.exactOptional(),
  pair: gapId.exactOptional(),
  place: place.exactOptional(),
  by: literal.exactOptional(),
  kind: oneOf([
    'counterweight-piston',
    'counterweight-block',
    'counterweight-camshaft',
    'rod-camshaft',
    'rod-block',
    'rod-piston',
  ]).exactOptional(),
  between: z.tuple([figureName, figureName], { error: 'Allowed: the names of two figures.' }).exactOptional(),
});

const assembly = strict({
  name,
  from: name
    .exactOptional()
    .describe('The assembly of the base build that it starts from; the first one where it is left out.'),
  set: settings(place, 'Allowed: dimensions such as rod.length or crank.counterweight.radius.').describe(
    'Dimensions that differ: place and literal.',
  ),
});

const build = strict({
  base: text(60).exactOptional().describe('Key of a demo build: bench-rig, quarry-v8, lake-launch-six.'),
  file: z.unknown().optional().describe('A whole build file in the place of a base.'),
  block: settings(inBlock, 'Allowed: dimensions of the block, such as deckHeight or panRail.height.').describe(
    'Dimensions of the block that differ.',
  ),
  assemblies: list(assembly, 1, 4).describe('The first is on show; the last is its ghost where there are two or more.'),
});

const reply = words.describe('What is said to such a prediction.');

const option = strict({
  text: words,
  when: strict({
    figure: figureName,
    is: oneOf(['less than', 'about', 'more than']),
    to: text(60).describe('Another figure, or an amount with its unit.'),
    within: literal.exactOptional().describe('How near “about” is; with “less than” and “more than” how far beyond.'),
  }).describe('Holds for exactly one of the options in the build of the lesson.'),
  reply,
});

const replies = strict({ near: reply, less: reply, more: reply });

const predict = z.discriminatedUnion(
  'by',
  [
    strict({ by: z.literal('angle'), from: literal, to: literal, answer: figureName, within: literal, replies }),
    strict({ by: z.literal('place'), answer: figureName, within: literal, replies }),
    strict({ by: z.literal('number'), unit: text(12), answer: figureName, within: literal, replies }),
    strict({ by: z.literal('choice'), options: list(option, 2, MOST_OF_LESSON.options) }),
  ],
  { error: 'Allowed: by angle, place, number or choice.' },
);

const drawn = z.discriminatedUnion(
  'draw',
  [
    strict({
      draw: z.literal('curve'),
      of: oneOf(['travel', 'speed', 'acceleration', 'rod angle', 'gap']),
      pair: gapId.exactOptional(),
      from: literal,
      to: literal,
      assemblies: list(name, 1, 4).exactOptional(),
      marks: list(figureName, 0, 4).exactOptional().describe('Figures that are angles, marked on the curve.'),
      caption: words,
    }),
    strict({
      draw: z.literal('against'),
      place,
      from: literal,
      to: literal,
      figure: figureName.describe(
        'The figure along the upright axis, worked out anew for each value of the dimension.',
      ),
      caption: words,
    }),
  ],
  { error: 'Allowed: draw a curve, or a figure against a dimension.' },
);

const round = strict({
  question: words,
  hint: words.exactOptional(),
  predict,
  turn: strict({
    from: literal.describe('Crank angle after top dead centre, or the name of a figure that is an angle.'),
    to: literal,
    words: words.describe('What to look at meanwhile.'),
  }),
  explain: strict({
    text: paragraphs,
    formula: list(words, 1, 4).exactOptional(),
    figure: drawn.exactOptional(),
  }),
});

export const lessonSchema = strict({
  $schema: text(400).exactOptional(),
  format: z.literal('strokewright-lesson', { error: 'Allowed: strokewright-lesson.' }),
  version: z.literal(1, { error: 'Allowed: 1.' }),
  key: text(60).regex(/^[a-z0-9]+(?:-[a-z0-9]+)*$/, {
    error: 'Allowed: small letters, digits and hyphens, such as long-and-short-rod.',
  }),
  order: z.number({ error: 'Allowed: a number; lessons stand in its order.' }),
  title: name,
  about: words,
  units: oneOf(['in', 'mm']),
  build,
  figures: z.record(figureName, figure, {
    error: (issue) =>
      issue.code === 'invalid_key' ? 'Allowed: names of small letters, digits, blanks and hyphens.' : undefined,
  }),
  begin: strict({
    at: literal,
    pair: gapId.exactOptional().describe('Gap that is picked out in the section.'),
    cylinder: z.int({ error: 'Allowed: a whole number from 1.' }).min(1).exactOptional(),
    ghost: z
      .boolean({ error: 'Allowed: true, false.' })
      .exactOptional()
      .describe('The last assembly dashed over the first.'),
  }),
  rounds: list(round, 1, MOST_OF_LESSON.rounds),
  play: strict({
    text: paragraphs,
    hold: oneOf(['piston', 'deck clearance']),
    move: list(strict({ place, from: literal, to: literal, step: literal }), 1, MOST_OF_LESSON.fields),
    watch: list(figureName, 1, 8),
  }),
}).meta({
  title: 'Strokewright lesson',
  description:
    'A build, what to predict about it, what the turning crank shows, and why. Every figure is computed from the build.',
});

export type Lesson = z.output<typeof lessonSchema>;
export type LessonRound = Lesson['rounds'][number];
export type Predict = LessonRound['predict'];
export type LessonFigure = Lesson['figures'][string];
export type LessonDrawing = NonNullable<LessonRound['explain']['figure']>;
