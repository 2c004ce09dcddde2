/** Lines, marks and words as Scalable Vector Graphics 1.1: colours and widths as attributes, never as style. Px, y down. */
import type { Pen } from '../scene/pen.ts';

const FAMILY = 'system-ui, Segoe UI, Liberation Sans, DejaVu Sans, sans-serif';

/** A coordinate to a hundredth of a px, no minus before zero. */
export function px(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`A coordinate of a drawing must be finite, got ${value}`);
  const digits = value.toFixed(2).replace(/\.?0+$/, '');
  return digits === '-0' ? '0' : digits;
}

/** 0xRRGGBB as "#rrggbb". */
export function hex(color: number): string {
  return `#${color.toString(16).padStart(6, '0')}`;
}

const ESCAPED: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};
/** What XML 1.0 forbids, and marks that reverse the direction of writing. */
const FORBIDDEN = /[\p{Cc}\p{Cs}\uFFFE\uFFFF\u200E\u200F\u202A-\u202E\u2066-\u2069]/gu;

/** Safe between tags and in a quoted attribute. */
export function escaped(text: string): string {
  return text.replace(FORBIDDEN, '\uFFFD').replace(/[&<>"']/g, (c) => ESCAPED[c]!);
}

/** `alpha` as an attribute, where it is not 1. */
function opacity(name: string, alpha: number | undefined): string {
  return alpha === undefined || alpha === 1 ? '' : ` ${name}="${px(alpha)}"`;
}

export class SvgPen implements Pen {
  #path = '';
  #out: string[] = [];

  moveTo(x: number, y: number): this {
    this.#path += `M${px(x)} ${px(y)}`;
    return this;
  }

  lineTo(x: number, y: number): this {
    this.#path += `L${px(x)} ${px(y)}`;
    return this;
  }

  quadraticCurveTo(cx: number, cy: number, x: number, y: number): this {
    this.#path += `Q${px(cx)} ${px(cy)} ${px(x)} ${px(y)}`;
    return this;
  }

  circle(x: number, y: number, radius: number): this {
    const r = px(radius);
    this.#path += `M${px(x - radius)} ${px(y)}A${r} ${r} 0 1 1 ${px(x + radius)} ${px(y)}A${r} ${r} 0 1 1 ${px(x - radius)} ${px(y)}Z`;
    return this;
  }

  poly(points: readonly number[]): this {
    for (let k = 0; k + 1 < points.length; k += 2) {
      this.#path += `${k === 0 ? 'M' : 'L'}${px(points[k]!)} ${px(points[k + 1]!)}`;
    }
    this.#path += 'Z';
    return this;
  }

  /** Strokes [x0, y0, x1, y1, …]. */
  segments(strokes: readonly number[]): this {
    for (let k = 0; k + 3 < strokes.length; k += 4) {
      this.moveTo(strokes[k]!, strokes[k + 1]!).lineTo(strokes[k + 2]!, strokes[k + 3]!);
    }
    return this;
  }

  stroke(how: {
    readonly width: number;
    readonly color: number;
    readonly alpha?: number;
    readonly cap?: 'round';
  }): this {
    const cap = how.cap === undefined ? '' : ` stroke-linecap="${how.cap}"`;
    const alpha = opacity('stroke-opacity', how.alpha);
    return this.#put(`fill="none" stroke="${hex(how.color)}" stroke-width="${px(how.width)}"${alpha}${cap}`);
  }

  fill(how: { readonly color: number; readonly alpha?: number }): this {
    return this.#put(`fill="${hex(how.color)}"${opacity('fill-opacity', how.alpha)}`);
  }

  #put(attributes: string): this {
    if (this.#path !== '') this.#out.push(`<path d="${this.#path}" ${attributes}/>`);
    this.#path = '';
    return this;
  }

  /** A line of words; `anchor` says which part of it stands at (x, y), whose y is the base line. */
  words(
    text: string,
    x: number,
    y: number,
    how: {
      readonly size: number;
      readonly color: number;
      readonly anchor?: 'start' | 'middle' | 'end';
      readonly turnDeg?: number;
      readonly heavy?: boolean;
    },
  ): this {
    const turn = how.turnDeg === undefined ? '' : ` transform="rotate(${px(how.turnDeg)} ${px(x)} ${px(y)})"`;
    const anchor = how.anchor === undefined || how.anchor === 'start' ? '' : ` text-anchor="${how.anchor}"`;
    const heavy = how.heavy === true ? ' font-weight="600"' : '';
    this.#out.push(
      `<text x="${px(x)}" y="${px(y)}" font-family="${FAMILY}" font-size="${px(how.size)}"${heavy} fill="${hex(how.color)}"${anchor}${turn}>${escaped(text)}</text>`,
    );
    return this;
  }

  /** Finished elements, as they stand. */
  raw(elements: string): this {
    this.#out.push(elements);
    return this;
  }

  /** All that was drawn. */
  elements(): string {
    return this.#out.join('\n');
  }
}

/** About how wide a line of words is, px: a system's sans-serif takes some 0.56 of its size for a letter. */
export function aboutWidth(text: string, size: number): number {
  return Array.from(text).length * size * 0.56;
}
