/** Serves the built page to the browser tests, on a free port of this machine. Build it first: `npx vite build`. */
import { existsSync } from 'node:fs';
import { preview } from 'vite';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    /** Address of the page, with a slash at the end. */
    baseUrl: string;
  }
}

/** Folder of the built page; BUILT_PAGE names another, so that a build under way does not disturb a test run. */
const FOLDER = process.env['BUILT_PAGE'] ?? 'dist';

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  if (!existsSync(`${FOLDER}/index.html`)) {
    throw new Error(`There is no built page in ${FOLDER}: run "npx vite build" first.`);
  }
  const server = await preview({
    build: { outDir: FOLDER },
    preview: { port: 0, strictPort: false, host: '127.0.0.1' },
  });
  const address = server.httpServer.address();
  if (address === null || typeof address === 'string') throw new Error('The server of the built page has no port.');
  project.provide('baseUrl', `http://127.0.0.1:${address.port}/`);
  return () => server.close();
}
