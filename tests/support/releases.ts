/**
 * A server of the built page that can bring out a newer version, and be switched off. The newer version is the same page under another
 * title: its list of files carries another version, so browsers fetch it as one.
 */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { join } from 'node:path';

const KINDS: Readonly<Record<string, string>> = {
  html: 'text/html; charset=utf-8',
  js: 'text/javascript',
  css: 'text/css',
  svg: 'image/svg+xml',
  png: 'image/png',
  webmanifest: 'application/manifest+json',
};

export interface Releases {
  readonly baseUrl: string;
  /** Paths asked for, in order. */
  readonly asked: string[];
  /** From now on the server has this version; 1 is the build as it is. */
  bringOut(version: number): void;
  /** The network is gone: every connexion is cut. */
  cut(): Promise<void>;
}

export async function serveReleases(folder = process.env['BUILT_PAGE'] ?? 'dist'): Promise<Releases> {
  let version = 1;
  const asked: string[] = [];
  const server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://localhost').pathname;
    asked.push(path);
    const file = join(folder, path === '/' ? 'index.html' : path);
    if (!existsSync(file) || !statSync(file).isFile()) {
      response.writeHead(404).end();
      return;
    }
    let body: string | Buffer = readFileSync(file);
    if (version > 1 && path === '/offline.js')
      body = body.toString().replace(/"version":"\w+"/, `"version":"${version}"`);
    if (version > 1 && /^\/(index\.html)?$/.test(path)) {
      body = body.toString().replace('<html lang="en">', `<html lang="en" data-release="${version}">`);
    }
    response.writeHead(200, { 'Content-Type': KINDS[file.split('.').at(-1)!] ?? 'application/octet-stream' });
    response.end(body);
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('The server has no port.');
  return {
    baseUrl: `http://127.0.0.1:${address.port}/`,
    asked,
    bringOut: (next) => {
      version = next;
    },
    cut: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
}
