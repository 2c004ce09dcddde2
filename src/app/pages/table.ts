/** The pages that take the place of the section, in the order of the bar. */
import type { PageEntry } from './page.ts';

export const PAGES: readonly PageEntry[] = [
  { name: 'sums', label: 'Shop sums', load: () => import('./sums.ts') },
  { name: 'customer', label: 'For the customer', load: () => import('./customer.ts') },
  { name: 'curves', label: 'Curves', load: () => import('./curves.ts') },
  { name: 'lessons', label: 'Lessons', load: () => import('./lessons.ts') },
  { name: 'hand-out', label: 'Hand out', load: () => import('./handOut.ts') },
  { name: 'jobs', label: 'Jobs', load: () => import('./jobs.ts') },
];
