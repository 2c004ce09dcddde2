/** From the address to the first picture, in a browser with nothing kept, from a warm server on this machine: median of nine. */
import { preview } from 'vite';
import { launch, openPage } from '../support/browser.ts';

const TIMES = 9;

const server = await preview({ preview: { port: 0, strictPort: false, host: '127.0.0.1' } });
const address = server.httpServer.address();
if (address === null || typeof address === 'string') throw new Error('The server of the built page has no port.');
const browser = await launch();
const found: number[] = [];
for (let k = 0; k <= TIMES; k++) {
  const { page, close } = await openPage(browser, `http://127.0.0.1:${address.port}/`);
  const ms = await page.evaluate(() => performance.getEntriesByName('first picture')[0]!.startTime);
  // The first one warms the server.
  if (k > 0) found.push(ms);
  await close();
}
found.sort((a, b) => a - b);
console.log(
  `start to first picture: median ${found[(TIMES - 1) / 2]!.toFixed(0)} ms, ${found[0]!.toFixed(0)} to ${found.at(-1)!.toFixed(0)} ms`,
);
await browser.close();
await server.close();
process.exit(0);
