/** Draws marks as SVG at a fixed size in pixels, so that lines and letters keep theirs however large the parts are. */
import type { Piece } from '../../core/outline/outline.ts';
import { pieceEnd, pieceStart } from '../../core/outline/outline.ts';
import { svg } from '../element.ts';
import { type Mark, type Place, type Point, placed, toward, type Window } from './marks.ts';

export const SHEET = { width: 288, height: 230 } as const;
const ARROW_PX = 8;
/** Between a dimension line and its words. */
const WORDS_PX = 7;

export function drawMarks(marks: readonly Mark[], window: Window): SVGElement[] {
  const pxPerMm = SHEET.height / 2 / window.half;
  const px = ([x, y]: Point): readonly [number, number] => [
    SHEET.width / 2 + (x - window.at[0]) * pxPerMm,
    SHEET.height / 2 - (y - window.at[1]) * pxPerMm,
  ];
  const say = (p: readonly [number, number]): string => `${p[0].toFixed(1)} ${p[1].toFixed(1)}`;
  const path = (points: readonly Point[], closed: boolean): string =>
    points.map((p, k) => `${k === 0 ? 'M' : 'L'}${say(px(p))}`).join('') + (closed ? 'Z' : '');
  const name = (tone: string, filled?: boolean, isDashed?: boolean): string =>
    `sw-g-${tone}${filled ? ' sw-g-filled' : ''}${isDashed ? ' sw-g-dashed' : ''}`;

  function arrowHead(tip: readonly [number, number], from: readonly [number, number]): SVGElement {
    const away = Math.atan2(tip[1] - from[1], tip[0] - from[0]);
    const corner = (turn: number): readonly [number, number] => [
      tip[0] - ARROW_PX * Math.cos(away + turn),
      tip[1] - ARROW_PX * Math.sin(away + turn),
    ];
    return svg('path', { class: 'sw-g-head', d: `M${say(tip)}L${say(corner(0.3))}L${say(corner(-0.3))}Z` });
  }

  function text(at: readonly [number, number], said: string, anchor: string): SVGElement {
    // Words that would run over the edge are moved in.
    const half = said.length * 3.6;
    const left = anchor === 'start' ? 0 : anchor === 'end' ? 2 * half : half;
    const x = Math.min(Math.max(at[0], left + 3), SHEET.width - (2 * half - left) - 3);
    const y = Math.min(Math.max(at[1], 14), SHEET.height - 5);
    return svg('text', { class: 'sw-g-words', x: x.toFixed(1), y: y.toFixed(1), 'text-anchor': anchor }, said);
  }

  function dimension(a: Point, b: Point, said: string, side: string): SVGElement[] {
    const [p, q] = [px(a), px(b)];
    const long = Math.hypot(q[0] - p[0], q[1] - p[1]);
    const line = svg('path', { class: 'sw-g-dim', d: `M${say(p)}L${say(q)}` });
    const middle: readonly [number, number] = [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
    const at: readonly [number, number] =
      side === 'above'
        ? [middle[0], Math.min(p[1], q[1]) - WORDS_PX]
        : [middle[0] + (side === 'left' ? -WORDS_PX : WORDS_PX), middle[1] + 5];
    const heads = long > 2.5 * ARROW_PX ? [arrowHead(p, q), arrowHead(q, p)] : [];
    return [line, ...heads, text(at, said, side === 'above' ? 'middle' : side === 'left' ? 'end' : 'start')];
  }

  const draw = (mark: Mark): SVGElement[] => {
    switch (mark.kind) {
      case 'line':
        return [
          svg('path', { class: name(mark.tone, mark.filled, mark.dashed), d: path(mark.points, mark.closed ?? false) }),
        ];
      case 'circle': {
        const [cx, cy] = px(mark.at);
        return [
          svg('circle', {
            class: name(mark.tone, mark.filled, mark.dashed),
            cx: cx.toFixed(1),
            cy: cy.toFixed(1),
            r: Math.max(0, mark.r * pxPerMm).toFixed(1),
          }),
        ];
      }
      case 'arc': {
        const [a, b] = [toward(mark.at, mark.from, mark.r), toward(mark.at, mark.to, mark.r)];
        const r = (mark.r * pxPerMm).toFixed(1);
        const large = Math.abs(mark.to - mark.from) > Math.PI ? 1 : 0;
        return [
          svg('path', {
            class: name(mark.tone),
            d: `M${say(px(a))}A${r} ${r} 0 ${large} ${mark.to > mark.from ? 1 : 0} ${say(px(b))}`,
          }),
        ];
      }
      case 'outline':
        return [
          svg('path', {
            class: name(mark.tone, mark.filled),
            d: outlinePath(mark.outline.pieces, mark.place, px, pxPerMm),
          }),
        ];
      case 'dim':
        return dimension(mark.a, mark.b, mark.words, mark.side ?? 'right');
      case 'arrow': {
        const [p, q] = [px(mark.a), px(mark.b)];
        if (Math.hypot(q[0] - p[0], q[1] - p[1]) < 2) return [];
        return [
          svg('path', { class: 'sw-g-dim sw-g-strong', d: `M${say(p)}L${say(q)}` }),
          arrowHead(q, p),
          ...(mark.words === undefined ? [] : [text([q[0] + 8, q[1]], mark.words, 'start')]),
        ];
      }
      case 'words':
        return [text(px(mark.at), mark.words, mark.anchor ?? 'middle')];
    }
  };
  return marks.flatMap(draw);
}

/** Arcs in halves, so that a full circle has two ends. The plane's counterclockwise is that of the page, whose y runs down, seen in a mirror. */
function outlinePath(
  pieces: readonly Piece[],
  place: Place,
  px: (p: Point) => readonly [number, number],
  pxPerMm: number,
): string {
  const say = ([x, y]: readonly [number, number]): string => {
    const p = px(placed(place, x, y));
    return `${p[0].toFixed(1)} ${p[1].toFixed(1)}`;
  };
  const steps = pieces.map((piece) => {
    if (piece.kind === 'line') return `L${say(pieceEnd(piece))}`;
    const middle = piece.startRad + piece.sweepRad / 2;
    const half: readonly [number, number] = [
      piece.cx + piece.r * Math.cos(middle),
      piece.cy + piece.r * Math.sin(middle),
    ];
    const r = (piece.r * pxPerMm).toFixed(1);
    const turn = piece.sweepRad > 0 ? 0 : 1;
    return `A${r} ${r} 0 0 ${turn} ${say(half)}A${r} ${r} 0 0 ${turn} ${say(pieceEnd(piece))}`;
  });
  const [first] = pieces;
  return first === undefined ? '' : `M${say(pieceStart(first))}${steps.join('')}Z`;
}
