/** Public face of the build document: what a build file may contain, reading and writing it, and what cannot be built. */
export {
  counterweightOf,
  type MeasuredOutline,
  measuredOf,
  pistonOf,
  type Resolved,
  rodOf,
  weightedCheeks,
} from './bodyOf.ts';
export * from './document.ts';
export * from './firing.ts';
export * from './layouts.ts';
export * from './limits.ts';
export * from './literal.ts';
export { outlinePieces } from './outlinePieces.ts';
export { type Problem, problemSentence } from './problem.ts';
export { checkBuild, RULES, type Rule } from './rules.ts';
export { buildSchema } from './schema.ts';
export { deepFreeze, formatBuild, type ParsedBuild, parseBuild, readContent } from './text.ts';
