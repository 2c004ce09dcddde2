/**
 * npm run soak -- [--frames N]: turns the crank of the built page for N drawn frames, as fast as they can be drawn, and looks at ten
 * places what is held after collecting. An hour of turning at 60 frames a second is 216,000 of them; without a number a tenth of that.
 */
import { parseArgs } from 'node:util';
import { preview } from 'vite';
import { launch, openPage, settled } from '../support/browser.ts';
import { held, turn } from '../support/turning.ts';

const HOUR_FRAMES = 216_000;
const PLACES = 10;
/** What may be held more at the end than half way: two percent, for what the browser itself keeps. */
const MORE_ALLOWED = 0.02;

const { values } = parseArgs({ options: { frames: { type: 'string', default: String(HOUR_FRAMES / 10) } } });
const total = Number(values.frames);
if (!Number.isInteger(total) || total < PLACES) throw new Error(`--frames takes a whole number from ${PLACES} on.`);

const server = await preview({ preview: { port: 0, strictPort: false, host: '127.0.0.1' } });
const address = server.httpServer.address();
if (address === null || typeof address === 'string') throw new Error('The server of the built page has no port.');
const browser = await launch();
const { page, complaints } = await openPage(browser, `http://127.0.0.1:${address.port}/`, {
  // Drawn in software a frame costs by its pixels; what it leaves behind does not.
  viewport: { width: 390, height: 300 },
});
await settled(page);
console.log(`${total} frames, ${((100 * total) / HOUR_FRAMES).toFixed(1)} % of an hour's turning`);
const found = [];
for (let k = 0; k <= PLACES; k++) {
  const now = await held(page);
  found.push(now);
  console.log(
    `${String(Math.round((k * total) / PLACES)).padStart(7)} frames: ${(now.heapBytes / 1024).toFixed(0)} kB, ${now.nodes} nodes, ${now.listeners} listeners`,
  );
  if (k < PLACES) await turn(page, Math.ceil(total / PLACES));
}
await browser.close();
await server.close();
const half = found[PLACES / 2]!;
const end = found[PLACES]!;
const faults = [
  ...(end.heapBytes > half.heapBytes * (1 + MORE_ALLOWED) ? ['memory grows'] : []),
  ...(end.nodes > half.nodes ? ['elements are left behind'] : []),
  ...(end.listeners > half.listeners ? ['listeners are left behind'] : []),
  ...complaints,
];
console.log(faults.length === 0 ? 'Flat.' : faults.join('; '));
process.exit(faults.length === 0 ? 0 : 1);
