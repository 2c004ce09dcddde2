/** Sizes of letters follow the browser's setting: rem in style sheets and em in what asks for the window's width. Browser tests look at what comes of it. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';

/** Sheets of a paper are what is printed: they have the size of the paper. */
const PAPER = /view[\\/]paper[\\/](paper|leaf|print)\.css$/;
const SHEETS = readdirSync('src', { recursive: true, encoding: 'utf8' })
  .map((path) => join('src', path))
  .filter((path) => path.endsWith('.css'))
  .filter((path) => !PAPER.test(path));

const rulesOf = (text: string) =>
  [...text.replace(/\/\*.*?\*\//gs, '').matchAll(/([^{}]+)\{([^{}]*)\}/g)].map(([, by, body]) => ({
    by: by!.trim(),
    body: body!,
  }));

it('no letters in px, but those of drawings, which are shown larger as a whole', () => {
  expect(SHEETS.length).toBeGreaterThan(15);
  const fixed: string[] = [];
  for (const path of SHEETS)
    for (const { by, body } of rulesOf(readFileSync(path, 'utf8')))
      if (/(font(-size)?|line-height):[^;]*\d{2}px/.test(body) && !/fill:/.test(body)) fixed.push(`${path}: ${by}`);
  expect(fixed).toEqual([]);
});

it('what asks for the room of the window asks in em', () => {
  const fixed = SHEETS.flatMap((path) =>
    [...readFileSync(path, 'utf8').matchAll(/@(media|container)[^{]*\dpx[^{]*/g)].map(([query]) => `${path}: ${query}`),
  );
  expect(fixed).toEqual([]);
});
