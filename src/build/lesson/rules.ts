/**
 * What the fields of a lesson say together. Each problem names place, value, rule and what is allowed; all of them are found at once.
 * What needs the build laid out is judged in model/lessons/open.ts.
 */
import type { Problem } from '../problem.ts';
import { EXAMPLE_OF, readAmount } from './amount.ts';
import { amountOf, isAnglePlace } from './amountOf.ts';
import { type AmountOf, type Need, QUANTITIES, type QuantityKind } from './quantities.ts';
import type { Lesson, LessonDrawing, Predict } from './schema.ts';
import { readText, textsOf } from './text.ts';

const OWN_NEEDS: readonly Need[] = ['at', 'within', 'share', 'pair', 'place', 'by', 'between', 'kind'];

/** `terms`: the glossary's, in small letters. */
export function checkLesson(lesson: Lesson, terms: ReadonlySet<string>): Problem[] {
  const problems: Problem[] = [];
  const refuse = (place: string, value: string, rule: string, allowed: string): void => {
    problems.push({ place, value, rule, allowed });
  };
  const { figures } = lesson;
  const figureNames = Object.keys(figures);
  const assemblies = lesson.build.assemblies.map((a) => a.name);

  const amount = (place: string, text: string, as: AmountOf, above = Number.NEGATIVE_INFINITY): number | null => {
    const read = readAmount(text, as);
    if (!read.ok) refuse(place, text, 'amount', read.allowed);
    else if (read.value <= above) refuse(place, text, 'amount', `Allowed: above ${above}, such as ${EXAMPLE_OF[as]}.`);
    return read.ok ? read.value : null;
  };
  const known = (place: string, name: string): AmountOf | null => {
    const as = amountOf(figures, name);
    if (as === null) refuse(place, name, 'figure of the lesson', `Allowed: ${figureNames.join(', ')}.`);
    return as;
  };
  /** A crank angle: a literal, or the name of a figure that is an angle. */
  const crankAngle = (place: string, text: string): void => {
    const as = amountOf(figures, text);
    if (as === null) amount(place, text, 'angle');
    else if (as !== 'angle') refuse(place, text, 'crank angle', `Allowed: an angle; ${text} is a ${as}.`);
  };
  const assemblyNamed = (place: string, name: string): void => {
    if (!assemblies.includes(name)) refuse(place, name, 'assembly of the lesson', `Allowed: ${assemblies.join(', ')}.`);
  };

  const { base, file } = lesson.build;
  if ((base === undefined) === (file === undefined))
    refuse(
      'build',
      base ?? '',
      'one base',
      'Allowed: either base, the key of a demo build, or file, a whole build file.',
    );
  assemblies.forEach((name, k) => {
    if (assemblies.indexOf(name) !== k)
      refuse(
        `build.assemblies[${k}].name`,
        name,
        'assembly names once',
        'Allowed: a name that no other assembly of the lesson has.',
      );
  });

  figureNames.forEach((name, k) => {
    const figure = figures[name]!;
    const at = `figures.${name}`;
    const { needs }: QuantityKind = QUANTITIES[figure.is];
    for (const need of OWN_NEEDS) {
      const given = figure[need] !== undefined;
      if (needs.includes(need) === given) continue;
      const text = `“${figure.is}” ${given ? 'takes no' : 'needs'} ${need}`;
      refuse(`${at}.${need}`, given ? JSON.stringify(figure[need]) : '', 'fields of a figure', `${text}.`);
    }
    if (figure.of !== undefined) assemblyNamed(`${at}.of`, figure.of);
    for (const other of figure.between ?? []) {
      if (!figureNames.slice(0, k).includes(other))
        refuse(
          `${at}.between`,
          other,
          'figures in order',
          'Allowed: two figures that stand before this one in the file.',
        );
    }
    const kinds = (figure.between ?? []).map((other) => amountOf(figures, other));
    if (figure.between !== undefined && kinds[0] !== kinds[1])
      refuse(
        `${at}.between`,
        figure.between.join(', '),
        'figures alike',
        'Allowed: two figures of one kind, both lengths or both angles.',
      );
    if (figure.at !== undefined) {
      if (figureNames.includes(figure.at) && !figureNames.slice(0, k).includes(figure.at))
        refuse(`${at}.at`, figure.at, 'figures in order', 'Allowed: a figure that stands before this one in the file.');
      crankAngle(`${at}.at`, figure.at);
    }
    if (figure.within !== undefined) amount(`${at}.within`, figure.within, 'length', 0);
    if (figure.share !== undefined) {
      const share = amount(`${at}.share`, figure.share, 'share', 0);
      if (share !== null && share >= 1) refuse(`${at}.share`, figure.share, 'amount', 'Allowed: below 100 %.');
    }
    if (figure.by !== undefined && figure.place !== undefined)
      amount(`${at}.by`, figure.by, isAnglePlace(figure.place) ? 'angle' : 'length');
  });

  for (const { place, text } of textsOf({ ...lesson, build: undefined, $schema: undefined })) {
    const { pieces, faults } = readText(text);
    for (const fault of faults) refuse(place, fault.value, 'placeholder', fault.allowed);
    for (const piece of pieces) {
      if (piece.kind === 'figure' && !figureNames.includes(piece.name))
        refuse(place, `{${piece.name}}`, 'placeholder', `Allowed in braces: ${figureNames.join(', ')}.`);
      if (piece.kind === 'term' && !terms.has(piece.term))
        refuse(place, `[[${piece.term}]]`, 'glossary term', 'Allowed in double brackets: a term of the glossary.');
    }
  }

  crankAngle('begin.at', lesson.begin.at);
  lesson.rounds.forEach((round, k) => {
    const at = `rounds[${k}]`;
    crankAngle(`${at}.turn.from`, round.turn.from);
    crankAngle(`${at}.turn.to`, round.turn.to);
    prediction(`${at}.predict`, round.predict);
    if (round.explain.figure !== undefined) drawing(`${at}.explain.figure`, round.explain.figure);
  });

  function prediction(at: string, predict: Predict): void {
    if (predict.by === 'choice') {
      predict.options.forEach(({ when }, k) => {
        const of = `${at}.options[${k}].when`;
        const as = known(`${of}.figure`, when.figure);
        if (as === null) return;
        const other = amountOf(figures, when.to);
        if (other === null) amount(`${of}.to`, when.to, as);
        else if (other !== as) refuse(`${of}.to`, when.to, 'figures alike', `Allowed: a figure that is a ${as} too.`);
        if (when.within !== undefined) amount(`${of}.within`, when.within, as, 0);
        else if (when.is === 'about')
          refuse(`${of}.within`, '', 'required', `It is missing. Allowed: how near, such as ${EXAMPLE_OF[as]}.`);
      });
      return;
    }
    const as = known(`${at}.answer`, predict.answer);
    if (as === null) return;
    const wanted = { angle: 'angle', place: 'share', number: as }[predict.by];
    if (as !== wanted)
      refuse(
        `${at}.answer`,
        predict.answer,
        'answer',
        `Allowed: a figure that is a${wanted === 'angle' ? 'n' : ''} ${wanted}; this is a ${as}.`,
      );
    amount(`${at}.within`, predict.within, as, 0);
    if (predict.by === 'angle') span(at, predict.from, predict.to, 'angle');
    if (predict.by === 'number') {
      const example = `1${predict.unit === '' ? '' : ` ${predict.unit}`}`;
      if (!readAmount(example, as).ok)
        refuse(
          `${at}.unit`,
          predict.unit,
          'unit of the answer',
          `Allowed: a unit of a ${as}, as in ${EXAMPLE_OF[as]}.`,
        );
    }
  }

  function span(at: string, from: string, to: string, as: AmountOf): void {
    const low = amount(`${at}.from`, from, as);
    const high = amount(`${at}.to`, to, as);
    if (low !== null && high !== null && low >= high) refuse(`${at}.to`, to, 'from and to', `Allowed: above ${from}.`);
  }

  function drawing(at: string, drawn: LessonDrawing): void {
    if (drawn.draw === 'against') {
      known(`${at}.figure`, drawn.figure);
      span(at, drawn.from, drawn.to, isAnglePlace(drawn.place) ? 'angle' : 'length');
      return;
    }
    span(at, drawn.from, drawn.to, 'angle');
    (drawn.assemblies ?? []).forEach((name, k) => {
      assemblyNamed(`${at}.assemblies[${k}]`, name);
    });
    (drawn.marks ?? []).forEach((name, k) => {
      const as = known(`${at}.marks[${k}]`, name);
      if (as !== null && as !== 'angle')
        refuse(`${at}.marks[${k}]`, name, 'crank angle', `Allowed: an angle; ${name} is a ${as}.`);
    });
    if ((drawn.of === 'gap') !== (drawn.pair !== undefined))
      refuse(`${at}.pair`, drawn.pair ?? '', 'fields of a figure', 'Allowed: with a curve of the gap, and only there.');
  }

  lesson.play.watch.forEach((name, k) => {
    known(`play.watch[${k}]`, name);
  });
  lesson.play.move.forEach((field, k) => {
    const as: AmountOf = isAnglePlace(field.place) ? 'angle' : 'length';
    span(`play.move[${k}]`, field.from, field.to, as);
    amount(`play.move[${k}].step`, field.step, as, 0);
  });
  return problems;
}
