/**
 * The offset grind as a drawing with dimensions: the throw with the circles on which the middle of its pin goes round before
 * and after, and the pin by itself with the metal that comes off hatched. Outward, away from the crank axis, is up.
 */
import type { GroundRow } from '../../model/paper/grindSheet.ts';
import type { Units } from '../../model/state.ts';
import { type Amount, written } from '../../model/sums/index.ts';
import { arc, between, board, circle, cross, height, leader, line, words } from './draft.ts';

/** Width of a sheet between its margins, mm; both sheets have room for it. */
const WIDTH_MM = 172;
/** Scales of ISO 5455, the largest first: drawing over thing. */
const SCALES = [
  [5, '5:1'],
  [2, '2:1'],
  [1, '1:1'],
  [0.5, '1:2'],
  [0.2, '1:5'],
] as const;
const PIN_MOST_MM = 72;
const THROW_MOST_MM = 78;
/** Beside the pin, for the words of its leaders. */
const WORDS_MM = 34;

export interface GrindDrawing {
  readonly element: SVGSVGElement;
  readonly caption: string;
  /** "throw 1:2, pin 1:1" */
  readonly scale: string;
}

function scaleFor(sizeMm: number, mostMm: number): readonly [number, string] {
  return SCALES.find(([scale]) => sizeMm * scale <= mostMm) ?? SCALES.at(-1)!;
}

export function grindDrawing(row: GroundRow, mainJournalMm: number, caseMm: number | null, units: Units): GrindDrawing {
  // One unit on a drawing.
  const say = (found: Amount): string => written(found, units === 'in' ? 'in' : 'mm');
  const mm = (found: Amount): number => found.value.toNumber();
  const which = row.throwNumber === null ? 'all throws' : `throw ${row.throwNumber}`;

  // The throw, on the left: from the main journal's lower edge to the pin's upper one.
  const [r0, r1, d0, d1] = [mm(row.radiusBefore), mm(row.radiusAfter), mm(row.journalBefore), mm(row.journalAfter)];
  const tall = mainJournalMm / 2 + Math.max(r0 + d0 / 2, r1 + d1 / 2);
  const [k, throwScale] = scaleFor(tall, THROW_MOST_MM);
  const [p, pinScale] = scaleFor(d0, PIN_MOST_MM);
  const pinTall = d0 * p;
  const high = Math.max(tall * k, pinTall + 8) + 22;
  const reach = (Math.max(d0, mainJournalMm) / 2) * k;
  const axis: readonly [number, number] = [reach + 16, high - 12 - (mainJournalMm / 2) * k];
  const old: readonly [number, number] = [axis[0], axis[1] - r0 * k];
  const fresh: readonly [number, number] = [axis[0], axis[1] - r1 * k];
  const theThrow = [
    circle(axis, (mainJournalMm / 2) * k, 'dashed'),
    ...cross(axis, (mainJournalMm / 2) * k + 3),
    arc(axis, r0 * k, -38, 38, 'centre'),
    arc(axis, r1 * k, -38, 38, 'centre'),
    circle(old, (d0 / 2) * k, 'thin'),
    circle(fresh, (d1 / 2) * k, 'edge'),
    line([axis[0], axis[1]], [axis[0], Math.min(old[1] - (d0 / 2) * k, fresh[1] - (d1 / 2) * k) - 3], 'centre'),
    ...height(axis[0] - reach - 7, [axis[1], old[1]], [axis[0], old[0]], `core ${say(row.radiusBefore)}`, 'along'),
    ...height(axis[0] + reach + 9, [axis[1], fresh[1]], [axis[0], fresh[0]], `new ${say(row.radiusAfter)}`, 'along'),
    words(`Throw, ${throwScale}`, [axis[0], high - 1], 'middle', 'sw-draft-name'),
  ];

  // The pin, on the right.
  const middle: readonly [number, number] = [WIDTH_MM - WORDS_MM - pinTall / 2, 6 + pinTall / 2 + 4];
  const c = mm(row.movement) * p * (r1 < r0 ? -1 : 1);
  const moved: readonly [number, number] = [middle[0], middle[1] - c];
  const [R0, R1] = [(d0 / 2) * p, (d1 / 2) * p];
  const on = (radius: number, deg: number, about: readonly [number, number]): readonly [number, number] => [
    about[0] + radius * Math.sin((deg * Math.PI) / 180),
    about[1] - radius * Math.cos((deg * Math.PI) / 180),
  ];
  const right = middle[0] + R0 + 4;
  const pin = [
    ...between(middle, R0, moved, R1),
    circle(middle, R0, 'thin'),
    circle(moved, R1, 'edge'),
    ...(caseMm === null || caseMm >= d0 / 2 ? [] : [circle(middle, R0 - caseMm * p, 'dashed')]),
    line([middle[0], middle[1] - R0 - 4], [middle[0], middle[1] + R0 + 4], 'centre'),
    line([middle[0] - 7, middle[1]], [middle[0] + 7, middle[1]], 'centre'),
    line([moved[0] - 7, moved[1]], [moved[0] + 7, moved[1]], 'centre'),
    ...height(middle[0] - R0 * 0.22, [middle[1], moved[1]], [middle[0] - 7, moved[0] - 7], say(row.movement), 'left'),
    ...leader(on(R0, 58, middle), [right, middle[1] - R0 * 0.72], `⌀ ${say(row.journalBefore)}`, 'start'),
    ...leader(on(R1, 100, moved), [right, middle[1] + 3], `⌀ ${say(row.journalAfter)}`, 'start'),
    ...leader(
      [middle[0] + 1.5, (middle[1] - R0 + (moved[1] - R1)) / 2],
      [right, middle[1] - R0 - 1],
      `${say(row.thin)} off`,
      'start',
    ),
    ...leader(
      [middle[0] + 1.5, (middle[1] + R0 + (moved[1] + R1)) / 2],
      [right, middle[1] + R0 - 1],
      `${say(row.thick)} off`,
      'start',
    ),
    words(`Crankpin, ${pinScale}`, [middle[0], high - 1], 'middle', 'sw-draft-name'),
  ];
  const dashed = caseMm === null ? '' : ' Dashed within the pin: the depth of the hardened case.';
  return {
    element: board(
      WIDTH_MM,
      high,
      `Offset grind of ${which}: journal of ${say(row.journalBefore)} ground to ${say(row.journalAfter)}, its middle moved by ${say(row.movement)}.`,
      ...theThrow,
      ...pin,
    ),
    caption: `Offset grind, ${which}. Thin line: the core. Heavy line: as ground. Hatched: metal that comes off. Dashed about the crank axis: the main journal.${dashed}`,
    scale: `throw ${throwScale}, pin ${pinScale}`,
  };
}
