/** A worker of the bench: the same end of the pool as in a page (src/model/pieces/work.worker.ts), on a thread of node. */
import { parentPort } from 'node:worker_threads';
import { serve } from '../../src/model/pieces/serve.ts';
import { WORK } from '../../src/model/pieces/table.ts';

const port = parentPort;
if (port === null) throw new Error('runs as a thread only');
port.on(
  'message',
  serve(WORK, (message) => port.postMessage(message)),
);
port.postMessage('ready');
