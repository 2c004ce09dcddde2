/** Public face of lessons: opening one, what its figures come to, what is said to a prediction, what is kept. */
export { type Lesson, parseLesson } from '../../build/lesson/index.ts';
export { type LessonAsker, lessonAsker } from './asker.ts';
export { type Chart, chartSteps, type Line } from './curve.ts';
export { type Judged, judge, type Prediction } from './judge.ts';
export { holds, type OpenedLesson, type OpenLesson, openLesson } from './open.ts';
export { type MoveField, type PlayField, placeWords, playField } from './play.ts';
export { type Kept, type KeptLesson, type Progress, progressIn, type Slot } from './progress.ts';
export { plainly, type Said, say, sayValue } from './say.ts';
export { NotThere, type Setting, settingsOf } from './setting.ts';
export { type Bases, pathOf, setUp } from './setUp.ts';
export { degreesOf, madeFrom, type Value, type Values, valuesOf } from './values.ts';
