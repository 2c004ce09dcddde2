/** Lettering of the section: two sizes of the system's sans-serif, crisp at the screen's density, tinted when shown. */
import { BitmapFont, BitmapText, Text } from 'pixi.js';

export const SMALL_PX = 13;
export const FIGURE_PX = 15;

const FAMILY = 'system-ui, "Segoe UI", "Liberation Sans", "DejaVu Sans", sans-serif';
const CHARS = [[' ', '~'], '\u00a0°·−±×Ø²³…–—→←'];

let installedAt = 0;

/** Makes the letters at a density (device pixels a px); again only if the density changed. */
export function installLettering(resolution: number): void {
  if (installedAt === resolution) return;
  if (installedAt !== 0) for (const size of [SMALL_PX, FIGURE_PX]) BitmapFont.uninstall(`sw-${size}`);
  for (const [size, weight] of [
    [SMALL_PX, '400'],
    [FIGURE_PX, '600'],
  ] as const) {
    BitmapFont.install({
      name: `sw-${size}`,
      style: { fontFamily: FAMILY, fontSize: size, fontWeight: weight, fill: 0xffffff },
      chars: CHARS.map((c) => (typeof c === 'string' ? c : [c[0]!, c[1]!])),
      resolution,
      padding: 2,
      skipKerning: true,
    });
  }
  installedAt = resolution;
}

/** Lettering that changes while the crank turns. */
export function letters(text: string, size: typeof SMALL_PX | typeof FIGURE_PX, color: number): BitmapText {
  const made = new BitmapText({ text, style: { fontFamily: `sw-${size}`, fontSize: size } });
  made.tint = color;
  return made;
}

/** Lettering that stands still, or turns with a part. */
export function stillLetters(text: string, color: number, resolution: number): Text {
  return new Text({ text, style: { fontFamily: FAMILY, fontSize: SMALL_PX, fill: color }, resolution });
}
