/** The table of clearances that are one figure each. */
import { type Alike, alike, placesText } from '../model/scalarPlaces.ts';
import type { Scalar } from '../model/scalars.ts';
import { type Column, tableLines } from './table.ts';
import { inInches, inMm, plain } from './words.ts';

const COLUMNS: readonly Column<Alike>[] = [
  { title: 'single figures', cell: ({ scalar }) => scalar.name },
  { title: 'of', cell: ({ places }) => placesText(places) },
  { title: 'state', cell: ({ scalar }) => scalar.state ?? '' },
  { title: 'value', right: true, cell: ({ scalar }) => inMm(scalar.valueMm) },
  { title: '', right: true, cell: ({ scalar }) => inInches(scalar.valueMm) },
  { title: 'at least', right: true, cell: ({ scalar: { guideMm } }) => (guideMm === null ? '' : inMm(guideMm)) },
  { title: '', right: true, cell: ({ scalar: { guideMm } }) => (guideMm === null ? '' : inInches(guideMm)) },
  { title: 'source', cell: ({ scalar }) => (scalar.guideMm === null ? '' : scalar.guideSource) },
  { title: 'assumed', cell: ({ scalar }) => scalar.assumed.join(', ') },
];

export function scalarLines(scalars: readonly Scalar[]): string[] {
  return tableLines(COLUMNS, alike(scalars)).map(plain);
}
