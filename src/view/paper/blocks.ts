/** What papers are made of: headings, paragraphs, lists, tables with columns of set widths, drawings. */
import { html } from '../element.ts';
import type { PaperBlock } from './sheets.ts';

type Content = Node | string;

export function heading(text: string): PaperBlock {
  return { element: html('h3', { class: 'sw-paper-heading' }, text), before: 18, keepWithNext: true };
}

export function paragraph(text: string, kind = ''): PaperBlock {
  return { element: html('p', { class: `sw-paper-text ${kind}` }, text), before: 6 };
}

/** Stays with what follows. */
export function leadIn(text: string): PaperBlock {
  return { ...paragraph(text), keepWithNext: true };
}

/** Lines of a text as they were typed, each a paragraph; an empty line leaves a space. */
export function lines(text: string): PaperBlock[] {
  let space = 6;
  return text.split('\n').flatMap((line) => {
    if (line.trim() === '') {
      space = 12;
      return [];
    }
    const made = { ...paragraph(line, 'sw-paper-typed'), before: space };
    space = 2;
    return [made];
  });
}

export interface Column {
  readonly title: string;
  /** Share of the width; all together 100. */
  readonly percent: number;
  /** Figures stand right. */
  readonly figures?: boolean;
}

/** A cell: text, or a text with a class, or nodes. */
export type Cell = string | readonly Content[] | { readonly text: string; readonly kind: string };

export function table(
  caption: string,
  columns: readonly Column[],
  rows: readonly (readonly Cell[])[],
  kind = '',
): PaperBlock {
  const cols = columns.map(({ percent }) => {
    const col = html('col');
    col.style.width = `${percent}%`;
    return col;
  });
  const style = (k: number): string => (columns[k]!.figures === true ? 'sw-paper-figure' : '');
  const cell = (content: Cell, k: number): HTMLElement => {
    const own = typeof content === 'object' && 'kind' in content ? content.kind : '';
    const inside: readonly Content[] =
      typeof content === 'string' ? [content] : 'kind' in content ? [content.text] : content;
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
          // A column without a title has no head, but an empty place.
          ...columns.map(({ title }, k) =>
            title === '' ? html('td', { class: style(k) }) : html('th', { scope: 'col', class: style(k) }, title),
          ),
        ),
      ),
      html('tbody', {}, ...rows.map((row) => html('tr', {}, ...row.map(cell)))),
    ),
    before: 6,
  };
}

/** A row over the whole width that begins a part of a table. */
export function figure(drawing: Element, caption: string): PaperBlock {
  return {
    element: html('figure', { class: 'sw-paper-drawing' }, drawing, html('figcaption', {}, caption)),
    before: 8,
  };
}
