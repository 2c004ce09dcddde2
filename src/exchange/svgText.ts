/** Text for a drawing: escaped for XML 1.0, free of characters that it forbids or that would turn the line about, and wrapped. */

/** Names longer than this are cut, in characters; a build allows less. */
const LONGEST = 300;
/** What XML 1.0 forbids: control characters, halves of surrogate pairs, U+FFFE, U+FFFF; and marks that reverse the direction of writing. */
const FORBIDDEN = /[\p{Cc}\p{Cs}\uFFFE\uFFFF\u200E\u200F\u202A-\u202E\u2066-\u2069]/gu;

const ESCAPED: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Safe between tags and in a quoted attribute. */
export function svgText(text: string): string {
  return plain(text).replace(/[&<>"']/g, (c) => ESCAPED[c]!);
}

/** Rows of at most `most` characters, broken at blanks where there are any. Not escaped. */
export function wrapped(text: string, most: number): string[] {
  const width = Math.max(1, most);
  const rows: string[] = [];
  let row = '';
  for (const word of plain(text).split(' ')) {
    let rest = Array.from(word);
    const joined = row === '' ? rest.length : Array.from(row).length + 1 + rest.length;
    if (joined <= width) {
      row = row === '' ? word : `${row} ${word}`;
      continue;
    }
    if (row !== '') rows.push(row);
    while (rest.length > width) {
      rows.push(rest.slice(0, width).join(''));
      rest = rest.slice(width);
    }
    row = rest.join('');
  }
  rows.push(row);
  return rows;
}

function plain(text: string): string {
  const clean = Array.from(text.replace(/\s+/g, ' ').replace(FORBIDDEN, '\uFFFD').trim());
  return clean.length <= LONGEST ? clean.join('') : `${clean.slice(0, LONGEST - 1).join('')}…`;
}
