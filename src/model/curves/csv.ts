/** Curves as a table of text: crank angle, then one column a curve, with all digits and the unit in the head (RFC 4180). */
import type { Line } from './lines.ts';

/** `degrees` are the places of the lines' values. */
export function csvOf(degrees: Float64Array, lines: readonly Line[], quantity: string, unit: string): string {
  const cell = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text);
  const head = [
    'crank angle after TDC, deg',
    ...lines.map(({ name }) => `${name}: ${quantity}${unit === '' ? '' : `, ${unit}`}`),
  ];
  const rows = Array.from(degrees, (deg, k) => [String(deg), ...lines.map(({ values }) => number(values[k]!))]);
  return `${[head, ...rows].map((row) => row.map(cell).join(',')).join('\r\n')}\r\n`;
}

function number(value: number): string {
  return Number.isFinite(value) ? String(value) : '';
}
