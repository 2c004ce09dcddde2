/**
 * A paper as it is printed: blocks measured at the width of the sheet, laid on sheets with frame and title block, and the
 * same sheets are the preview and the print. A table goes over to the next sheet between two rows, its head repeated.
 */
import { html } from '../element.ts';
import { type Block, type Piece, paginate } from './paginate.ts';

export type PaperSize = 'a4' | 'letter';

export interface PaperBlock {
  readonly element: HTMLElement;
  /** Space above, px; none at the top of a sheet. */
  readonly before: number;
  readonly keepWithNext?: boolean;
}

/** What the title block says on every sheet: fields of ISO 7200, those without a value left for the hand. */
export interface TitleFields {
  readonly title: string;
  readonly kind: string;
  readonly assembly: string;
  readonly reference: string;
  readonly date: string;
  readonly scale: string;
  readonly units: string;
}

/** CSS pixels that print may need beyond the screen's measure: rounding of text lines in another resolution. */
const SLACK_PX = 6;

/** Fills `host` with the sheets; returns how many. The host must be on show, so that its blocks can be measured. */
export function showSheets(
  host: HTMLElement,
  size: PaperSize,
  title: TitleFields,
  blocks: readonly PaperBlock[],
): number {
  host.dataset['size'] = size;
  const trial = leaf(title, '', '');
  const measured = html('div', { class: 'sw-leaf-body' });
  measured.append(...blocks.map((b) => b.element));
  trial.firstElementChild!.replaceWith(measured);
  trial.classList.add('sw-leaf-trial');
  host.replaceChildren(trial);
  const room = measured.clientHeight - SLACK_PX;
  // Sheets on the screen may be drawn smaller: heights are wanted as laid out.
  const shown = trial.getBoundingClientRect().width / trial.offsetWidth || 1;
  const heightOf = (element: Element): number => element.getBoundingClientRect().height / shown;
  const heights = blocks.map((b): Block => {
    const common = { before: b.before, ...(b.keepWithNext === true ? { keepWithNext: true } : {}) };
    if (!(b.element instanceof HTMLTableElement)) return { ...common, height: heightOf(b.element) };
    const rows = [...b.element.tBodies[0]!.rows].map(heightOf);
    return { ...common, height: heightOf(b.element) - rows.reduce((x, y) => x + y, 0), rows };
  });
  const pages = paginate(heights, () => room);
  const rows = blocks.map((b) => (b.element instanceof HTMLTableElement ? [...b.element.tBodies[0]!.rows] : []));
  host.replaceChildren(
    ...pages.map((pieces, k) => {
      const made = leaf(title, String(k + 1), String(pages.length));
      made.firstElementChild!.append(...pieces.map((piece, j) => laid(piece, j > 0, blocks, rows)));
      return made;
    }),
  );
  return pages.length;
}

function laid(
  piece: Piece,
  spaced: boolean,
  blocks: readonly PaperBlock[],
  rows: readonly HTMLTableRowElement[][],
): HTMLElement {
  const { element, before } = blocks[piece.block]!;
  const all = rows[piece.block]!;
  const whole = all.length === 0 || piece.to - piece.from === all.length;
  let made = element;
  if (!whole) {
    made = element.cloneNode(false) as HTMLElement;
    for (const part of element.children) if (part.tagName !== 'TBODY') made.append(part.cloneNode(true));
    const body = html('tbody');
    body.append(...all.slice(piece.from, piece.to));
    made.append(body);
    // Columns keep the widths that were set on them by name.
    const cols = element.querySelectorAll('col');
    made.querySelectorAll('col').forEach((col, k) => {
      col.style.width = cols[k]!.style.width;
    });
  }
  made.style.marginTop = spaced ? `${before}px` : '0';
  return made;
}

function leaf(title: TitleFields, sheet: string, of: string): HTMLElement {
  const field = (name: string, value: string, kind = ''): HTMLElement =>
    html(
      'div',
      { class: `sw-leaf-field ${kind}` },
      html('span', { class: 'sw-leaf-name' }, name),
      html('span', { class: 'sw-leaf-value' }, value),
    );
  return html(
    'article',
    { class: 'sw-leaf', 'aria-label': `Sheet ${sheet} of ${of}` },
    html('div', { class: 'sw-leaf-body' }),
    html(
      'footer',
      { class: 'sw-leaf-title' },
      field('Title', title.title, 'sw-leaf-main'),
      field('Document', title.kind),
      field('Sheet', `${sheet} of ${of}`),
      field('Assembly', title.assembly, 'sw-leaf-main'),
      field('Customer reference', title.reference),
      field('Date', title.date),
      field('Scale', title.scale),
      field('Lengths in', title.units),
      field('Made by', ''),
      field('Checked by', ''),
    ),
  );
}
