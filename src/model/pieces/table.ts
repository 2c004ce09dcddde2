/** Every kind of work that workers do, by name. Imported by the worker: nothing here may ask for a page. */
import { compareKind, explainKind } from '../mockUp/work.ts';
import type { Table } from './kind.ts';

export const WORK = {
  'mock-up comparison': compareKind,
  'mock-up explanation': explainKind,
} satisfies Table;

export type Work = typeof WORK;
