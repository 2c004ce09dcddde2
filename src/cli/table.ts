/** Rows under titles, as text: columns two spaces apart, each starting or ending at one place in every line. */

export interface Column<Row> {
  readonly title: string;
  /** Figures end at one place, words start at one. */
  readonly right?: boolean;
  readonly cell: (row: Row) => string;
}

/** The lines of a table; a column in which no row says anything is left out. */
export function tableLines<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): string[] {
  const told = columns.map((column) => ({ column, cells: rows.map(column.cell) }));
  const kept = told.filter(({ column, cells }) => column.title === '' || cells.some((cell) => cell !== ''));
  const widths = kept.map(({ column, cells }) => Math.max(...[column.title, ...cells].map((text) => [...text].length)));
  const line = (cells: readonly string[]): string =>
    cells
      .map((text, k) => {
        const blanks = ' '.repeat(widths[k]! - [...text].length);
        return kept[k]!.column.right ? blanks + text : text + blanks;
      })
      .join('  ')
      .trimEnd();
  return [
    line(kept.map(({ column }) => column.title)),
    ...rows.map((_, row) => line(kept.map(({ cells }) => cells[row]!))),
  ];
}
