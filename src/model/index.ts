/** Public face of the running state. */

export * from './results.ts';
export { directSolver, type Solver } from './solver.ts';
export * from './state.ts';
export { createStore, type StoreOptions } from './store.ts';
