/** Public face of the running state. */

export type { Cure } from './cures.ts';
export * from './results.ts';
export { type Cures, directSolver, type Solver } from './solver.ts';
export * from './state.ts';
export { createStore, type StoreOptions } from './store.ts';
