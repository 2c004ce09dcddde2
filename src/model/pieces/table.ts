/** Every kind of work that workers do, by name. Imported by the worker: nothing here may ask for a page. */
import type { Table } from './kind.ts';

export const WORK = {} satisfies Table;

export type Work = typeof WORK;
