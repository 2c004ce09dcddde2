/** Public face of the build document: what a build file may contain, reading and writing it, and what cannot be built. */
export * from './document.ts';
export * from './layouts.ts';
export * from './limits.ts';
export * from './literal.ts';
export { type Problem, problemSentence } from './problem.ts';
