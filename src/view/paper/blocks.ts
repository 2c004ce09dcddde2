/** What papers are made of: headings, paragraphs, lists, tables with columns of set widths, drawings. */
import { html } from '../element.ts';
import type { PaperBlock } from './sheets.ts';

type Content = Node | string;

/** A figure stays on one line with its unit, a part with its number. */
export function bound(text: string): string {
  return text
    .replace(/(\d\)?) (?=(mm|in³?|cm³|g|kg|oz|lb|lbf|N|m\/s|ft\/min|rpm|deg|cc|psi|MPa|%)(?![\p{L}]))/gu, '$1\u00a0')
    .replace(/(?<=\p{L}) (?=\d+( |$|,|;|\)|:))/gu, '\u00a0');
}

export function heading(text: string): PaperBlock {
  return { element: html('h3', { class: 'sw-paper-heading' }, text), before: 18, keepWithNext: true };
}

export function paragraph(text: string, kind = ''): PaperBlock {
  return { element: html('p', { class: `sw-paper-text ${kind}` }, bound(text)), before: 6 };
}

/** Stays with what follows. */
export function leadIn(text: string): PaperBlock {
  return { ...paragraph(text), keepWithNext: true };
}

/** Characters of a paragraph that no sheet is too low for, however wide they are. */
const MOST_TOGETHER = 2000;

/** Lines of a text as they were typed, each a paragraph; an empty line leaves a space. One that no sheet would hold is divided. */
export function lines(text: string): PaperBlock[] {
  let space = 6;
  return text.split('\n').flatMap((line) => {
    if (line.trim() === '') {
      space = 12;
      return [];
    }
    return divided(line).map((part, k): PaperBlock => {
      const made = {
        element: html('p', { class: 'sw-paper-text sw-paper-typed' }, part),
        before: k === 0 ? space : 0,
      };
      space = 2;
      return made;
    });
  });
}

function divided(line: string): string[] {
  const parts: string[] = [];
  let rest = line;
  while (rest.length > MOST_TOGETHER) {
    const blank = rest.lastIndexOf(' ', MOST_TOGETHER);
    const at = blank > 0 ? blank : MOST_TOGETHER;
    parts.push(rest.slice(0, at));
    rest = rest.slice(at).trimStart();
  }
  return [...parts, rest];
}

export interface Column {
  readonly title: string;
  /** Share of the width; all together 100. */
  readonly percent: number;
  /** Figures stand right. */
  readonly figures?: boolean;
}

/** One head over all columns. */
export interface Spanned {
  readonly title: string;
  readonly columns: readonly Omit<Column, 'title'>[];
}

/** A cell: text, or a text with a class, or nodes. */
export type Cell = string | readonly Content[] | { readonly text: string; readonly kind: string };

export function table(
  caption: string,
  heads: readonly Column[] | Spanned,
  rows: readonly (readonly Cell[])[],
  kind = '',
): PaperBlock {
  const columns = 'columns' in heads ? heads.columns : heads;
  const cols = columns.map(({ percent }) => {
    const col = html('col');
    col.style.width = `${percent}%`;
    return col;
  });
  const style = (k: number): string => (columns[k]!.figures === true ? 'sw-paper-figure' : '');
  const cell = (content: Cell, k: number): HTMLElement => {
    const own = typeof content === 'object' && 'kind' in content ? content.kind : '';
    const inside: readonly Content[] =
      typeof content === 'string' ? [bound(content)] : 'kind' in content ? [bound(content.text)] : content;
    const made =
      k === 0
        ? html('th', { scope: 'row', class: `${style(k)} ${own}` }, ...inside)
        : html('td', { class: `${style(k)} ${own}` }, ...inside);
    return made;
  };
  return {
    element: html(
      'table',
      { class: `sw-paper-table ${kind}`, 'aria-label': caption },
      html('colgroup', {}, ...cols),
      html(
        'thead',
        {},
        html(
          'tr',
          {},
          ...('columns' in heads
            ? [html('th', { scope: 'colgroup', colspan: String(columns.length) }, heads.title)]
            : // A column without a title has no head, but an empty place.
              heads.map(({ title }, k) =>
                title === '' ? html('td', { class: style(k) }) : html('th', { scope: 'col', class: style(k) }, title),
              )),
        ),
      ),
      html('tbody', {}, ...rows.map((row) => html('tr', {}, ...row.map(cell)))),
    ),
    before: 6,
  };
}

/** A drawing with what it shows below it. */
export function figure(drawing: Element, caption: string): PaperBlock {
  return {
    element: html('figure', { class: 'sw-paper-drawing' }, drawing, html('figcaption', {}, caption)),
    before: 8,
  };
}
