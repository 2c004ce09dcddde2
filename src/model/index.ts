/** Public face of the running state. */
export { createStore, type StoreOptions } from './store.ts';
export { directSolver, type Solver } from './solver.ts';
export * from './results.ts';
export * from './state.ts';
