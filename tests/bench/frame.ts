/**
 * Milliseconds of a frame on the built page, V8 demo, printed as `name: value unit`. Run after a build:
 * `npx tsx tests/bench/frame.ts`. BUILT_PAGE names another folder than dist.
 */
import { preview } from 'vite';
import { launch, openPage, settled } from '../support/browser.ts';
import { drawNothing, FRAMES, measureFrames, quantile } from '../support/frameWork.ts';

const server = await preview({
  build: { outDir: process.env['BUILT_PAGE'] ?? 'dist' },
  preview: { port: 0, strictPort: false, host: '127.0.0.1' },
});
const address = server.httpServer.address();
if (address === null || typeof address === 'string') throw new Error('The server of the built page has no port.');
const browser = await launch();
const { page, close } = await openPage(browser, `http://127.0.0.1:${address.port}/`, { before: drawNothing });
await settled(page);
// The runner of this script wraps functions in a helper for their names, which the page has not got.
await page.evaluate('globalThis.__name = (made) => made');
const work = await measureFrames(page);
console.log(`frames measured: ${FRAMES} frames`);
for (const name of ['turn', 'drag'] as const) {
  const { sendMs, updateMs } = work[name];
  const whole = sendMs.map((ms, k) => ms + updateMs[k]!);
  for (const [what, values] of [
    ['send', sendMs],
    ['section update', updateMs],
    ['frame', whole],
  ] as const) {
    console.log(`${name}, ${what}, median: ${quantile(values, 0.5).toFixed(2)} ms`);
    console.log(`${name}, ${what}, 95 of 100: ${quantile(values, 0.95).toFixed(2)} ms`);
  }
}
await close();
await browser.close();
await server.close();
