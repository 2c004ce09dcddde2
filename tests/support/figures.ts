/** How figures are to be printed, written afresh for the tests: nothing here comes from the program. */

const MINUS = '\u2212';

function fixed(value: number, decimals: number): string {
  const digits = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(digits) !== 0 ? MINUS + digits : digits;
}

/** "0.64 mm": a leading zero, the unit. */
export function inMillimetres(mm: number, decimals = 2): string {
  return `${fixed(mm, decimals)} mm`;
}

/** ".025 in": no leading zero, the unit. */
export function inInches(mm: number, decimals = 3): string {
  return `${fixed(mm / 25.4, decimals).replace(/^(\u2212?)0\./, '$1.')} in`;
}

/** The number at the front of a printed figure: "−.025 in" gives −0.025. NaN where there is none. */
export function numberIn(printed: string): number {
  const found = /(\u2212?)(\d*\.?\d+)/.exec(printed);
  return found === null ? Number.NaN : Number(found[2]) * (found[1] === MINUS ? -1 : 1);
}
