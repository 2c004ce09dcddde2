/**
 * Keeps the built files on this machine, so that the page opens without a network: a service worker of its own, made
 * into `offline.js` beside the page by `scripts/offline.ts`, which writes the list of files before it.
 *
 * Every version has a cache of its own, filled whole before it may be used: half a version is none. A newer one waits until the
 * page asks for it or until no page is open; the one before it is kept for pages that still run it.
 */

/** Written by the build: what this version is made of, as addresses beside this file. */
interface Built {
  readonly version: string;
  readonly files: readonly string[];
}
declare const BUILT: Built;

interface Waiting extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface Fetching extends Waiting {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
interface Scope {
  addEventListener(name: 'install' | 'activate', run: (event: Waiting) => void): void;
  addEventListener(name: 'fetch', run: (event: Fetching) => void): void;
  addEventListener(name: 'message', run: (event: MessageEvent) => void): void;
  skipWaiting(): Promise<void>;
  readonly clients: { claim(): Promise<void> };
  readonly location: Location;
}
const scope = self as unknown as Scope;

const PREFIX = 'strokewright-files-';
const NAME = PREFIX + BUILT.version;
/** This version, and the one that pages opened before may still run. */
const VERSIONS_KEPT = 2;

const addressOf = (file: string): string => new URL(file, scope.location.href).href;
const PAGE = addressOf('index.html');
const OURS: ReadonlySet<string> = new Set(BUILT.files.map(addressOf));

/** A file with a mark of its content in its name is the same in every version that has it. */
const neverChanges = (address: string): boolean => /\/assets\/[^/]+-[\w-]{8}\.\w+$/.test(address);

async function fill(): Promise<void> {
  const cache = await caches.open(NAME);
  await Promise.all(
    [...OURS].map(async (address) => {
      const had = neverChanges(address) ? await caches.match(address) : undefined;
      const fetched = had ?? (await fetch(address, { cache: neverChanges(address) ? 'default' : 'reload' }));
      if (!fetched.ok) throw new Error(`${address} answers ${fetched.status}`);
      await cache.put(address, fetched);
    }),
  );
}

async function clearOut(): Promise<void> {
  const names = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== NAME);
  await Promise.all(names.slice(0, Math.max(0, names.length - (VERSIONS_KEPT - 1))).map((name) => caches.delete(name)));
}

/** The page of this version; a file of this or the version before; the network for what is neither. */
async function answer(request: Request, address: string): Promise<Response> {
  const cache = await caches.open(NAME);
  const kept = (await cache.match(address)) ?? (neverChanges(address) ? await caches.match(address) : undefined);
  return kept ?? fetch(request);
}

scope.addEventListener('install', (event) => event.waitUntil(fill()));
scope.addEventListener('activate', (event) => event.waitUntil(clearOut().then(() => scope.clients.claim())));
scope.addEventListener('message', (event) => {
  if (event.data === 'take over') void scope.skipWaiting();
});
scope.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET') return;
  const asked = new URL(request.url);
  if (asked.origin !== scope.location.origin) return;
  const place = asked.origin + asked.pathname;
  const isPage = request.mode === 'navigate' && (place === PAGE || place === addressOf('./'));
  const address = isPage ? PAGE : place;
  if (isPage || OURS.has(address) || neverChanges(address)) event.respondWith(answer(request, address));
});
