/** A worker of the pool in a page. */
import type { ToWorker } from './serve.ts';
import { serve } from './serve.ts';
import { WORK } from './table.ts';

const take = serve(WORK, (message) => self.postMessage(message));

self.onmessage = (event: MessageEvent<ToWorker>): void => take(event.data);
