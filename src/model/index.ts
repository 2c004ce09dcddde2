/** Public face of the running state. */

export { type Problem, problemSentence } from '../build/problem.ts';
export type { Cure } from './cures.ts';
export { inOrder } from './order.ts';
export { replacedOf } from './replaced.ts';
export * from './results.ts';
export { type Scalar, type ScalarName, scalarsOf } from './scalars.ts';
export { type Cures, directSolver, type Solver } from './solver.ts';
export * from './state.ts';
export { createStore, type StoreOptions } from './store.ts';
