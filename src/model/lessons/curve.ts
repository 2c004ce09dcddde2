/** The figures of a lesson as points: motion or gap against crank angle, or a figure of the lesson against one dimension. */
import {
  type AmountOf,
  amountOf,
  isAnglePlace,
  type LessonDrawing,
  type LessonFigure,
  readAmount,
} from '../../build/lesson/index.ts';
import { Exact, speedRpm } from '../../build/literal.ts';
import { motionNow } from '../now.ts';
import type { Steps } from '../pieces/kind.ts';
import { changedBuild } from './changed.ts';
import type { OpenLesson } from './open.ts';
import { placeWords } from './play.ts';
import { quantityOf } from './quantityOf.ts';
import { NotThere, type Setting, settingsOf } from './setting.ts';
import { pathOf } from './setUp.ts';
import { degreesOf, madeFrom, valueSteps } from './values.ts';

export interface Line {
  readonly name: string;
  /** In mm, degrees or the plain number; speeds in m/s. */
  readonly points: readonly (readonly [number, number])[];
}

export interface Chart {
  readonly xAs: AmountOf;
  readonly yAs: AmountOf;
  readonly xName: string;
  readonly yName: string;
  readonly lines: readonly Line[];
  readonly marks: readonly { readonly x: number; readonly y: number; readonly name: string }[];
}

/** Points of a curve: one a pixel or two at the width it is drawn. */
const POINTS = 180;
/** Points of a figure against a dimension: each is a build laid out anew. */
const BUILDS = 33;
/** A gap at an angle is a certificate of its own. */
const GAP_POINTS = 60;

const DEG = Math.PI / 180;

/** A point, or a build, at a step. */
export function* chartSteps(opened: OpenLesson, drawn: LessonDrawing): Steps<Chart> {
  return drawn.draw === 'curve' ? yield* curve(opened, drawn) : yield* against(opened, drawn);
}

const Y: Readonly<
  Record<Extract<LessonDrawing, { draw: 'curve' }>['of'], { readonly as: AmountOf; readonly name: string }>
> = {
  travel: { as: 'length', name: 'travel from the top' },
  speed: { as: 'speed', name: 'speed toward the crank' },
  acceleration: { as: 'acceleration', name: 'acceleration outward' },
  'rod angle': { as: 'angle', name: 'rod angle' },
  gap: { as: 'length', name: 'gap' },
};

function* curve({ doc, values }: OpenLesson, drawn: Extract<LessonDrawing, { draw: 'curve' }>): Steps<Chart> {
  const settings = settingsOf(doc);
  const [from, to] = [degreesOf(drawn.from, values), degreesOf(drawn.to, values)];
  const count = drawn.of === 'gap' ? GAP_POINTS : POINTS;
  const names = drawn.assemblies ?? [doc.assemblies[0]!.name];
  const lines: Line[] = [];
  for (const name of names) {
    const setting = settings.of(name, undefined);
    const points: [number, number][] = [];
    for (let k = 0; k <= count; k++) {
      const deg = from + ((to - from) * k) / count;
      points.push([deg, yAt(setting, drawn, deg)]);
      if (drawn.of === 'gap') yield;
    }
    lines.push({ name, points });
  }
  const first = settings.of(names[0], undefined);
  const marks = (drawn.marks ?? []).map((name) => {
    const x = values.get(name)!.value;
    return { x, y: yAt(first, drawn, x), name };
  });
  return {
    xAs: 'angle',
    yAs: Y[drawn.of].as,
    xName: 'crank angle after top dead centre',
    yName: Y[drawn.of].name,
    lines,
    marks,
  };
}

function yAt(setting: Setting, { of, pair }: Extract<LessonDrawing, { draw: 'curve' }>, deg: number): number {
  const { doc, engine, cylinder } = setting;
  const asked = (figure: LessonFigure): number => quantityOf(figure, setting, deg);
  if (of === 'travel') return asked({ is: 'piston travel from TDC' });
  if (of === 'gap') return asked({ is: 'gap at an angle', pair: pair! });
  const now = motionNow(engine, cylinder.number, cylinder.tdcRad + deg * DEG, speedRpm(doc.speed.value));
  if (of === 'speed') return -now.speedMPerS;
  return of === 'acceleration' ? now.accelMPerS2 : Math.abs(now.rodAngleRad) / DEG;
}

/** The figure worked out anew for builds between two values of a dimension; compression height follows as in the lesson's play. */
function* against({ lesson, doc }: OpenLesson, drawn: Extract<LessonDrawing, { draw: 'against' }>): Steps<Chart> {
  const angle = isAnglePlace(drawn.place);
  const as: AmountOf = angle ? 'angle' : 'length';
  const wanted = madeFrom(lesson, [drawn.figure]);
  const [from, to] = [boundOf(drawn.from, as), boundOf(drawn.to, as)];
  const path = pathOf(drawn.place, 0);
  const points: [number, number][] = [];
  for (let k = 0; k < BUILDS; k++) {
    yield;
    const x = from + ((to - from) * k) / (BUILDS - 1);
    const literal = `${new Exact(x.toFixed(5)).toFixed()} ${angle ? 'deg' : 'mm'}`;
    const next = changedBuild(doc, path, literal, lesson.play.hold === 'deck clearance');
    const worked = next === null ? null : yield* valueSteps(lesson, next, wanted);
    // Beyond what can be built the curve ends.
    if (worked?.ok) points.push([x, worked.values.get(drawn.figure)!.value]);
  }
  if (points.length < 2) throw new NotThere(`no two builds between ${drawn.from} and ${drawn.to} can be laid out`);
  return {
    xAs: as,
    yAs: amountOf(lesson.figures, drawn.figure)!,
    xName: placeWords(drawn.place).toLowerCase(),
    yName: drawn.figure,
    lines: [{ name: drawn.figure, points }],
    marks: [],
  };
}

function boundOf(text: string, as: AmountOf): number {
  const read = readAmount(text, as);
  if (!read.ok) throw new NotThere(`${text} is no ${as}`);
  return read.value;
}
