/** Cells of a row of comma-separated values: RFC 4180, with comma, semicolon or tab, one record a line. */

export type Separator = ',' | ';' | '\t';

/** The separator of a row: tab, else semicolon, else comma; null if it holds none of them. Quoted text does not count. */
export function csvSeparator(row: string): Separator | null {
  const bare = row.replace(/"(?:[^"]|"")*"/g, '');
  return (['\t', ';', ','] as const).find((s) => bare.includes(s)) ?? null;
}

/** Cells without the blanks and quotation marks about them, or null if a quoted cell does not end. */
export function csvCells(row: string, separator: Separator): string[] | null {
  const cells: string[] = [];
  let at = 0;
  for (;;) {
    const opening = /^[ ]*"/.exec(row.slice(at));
    let end: number;
    if (opening === null) {
      end = row.indexOf(separator, at);
      if (end < 0) end = row.length;
      cells.push(row.slice(at, end).trim());
    } else {
      const quoted = /^((?:[^"]|"")*)"[ ]*/.exec(row.slice(at + opening[0].length));
      if (quoted === null) return null;
      end = at + opening[0].length + quoted[0].length;
      if (end < row.length && row[end] !== separator) return null;
      cells.push(quoted[1]!.replaceAll('""', '"').trim());
    }
    if (end >= row.length) return cells;
    at = end + 1;
  }
}
