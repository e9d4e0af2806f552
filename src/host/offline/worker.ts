/**
 * Keeps Hourline for the time without a network. It serves one complete version: all files are fetched when it is
 * installed, and the page, the only file that is not named by its content, must be the one that was built with them.
 * A later version is fetched beside it and is what the next load gets; a page still open goes on with its own files,
 * since what is named by its content cannot be mixed up.
 */

/** Names and versions, put in by the build (src/tools/build.ts). */
declare const HOURLINE_EDITION: { version: string; page: string; files: string[] };

interface Lasting extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface Asking extends Event {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
/** What a service worker has; TypeScript knows either its types or those of a page. */
interface Worker {
  readonly registration: { readonly scope: string };
  skipWaiting(): Promise<void>;
  addEventListener(kind: 'install' | 'activate', act: (event: Lasting) => void): void;
  addEventListener(kind: 'fetch', act: (event: Asking) => void): void;
}

const worker = globalThis as unknown as Worker;
const { version, page, files } = HOURLINE_EDITION;
const PAGE = 'index.html';
/** Editions kept: this one, and the one that open pages may still need. */
const KEPT = 2;

const { scope } = worker.registration;
/** Other copies of Hourline may be served from the same origin. */
const prefix = `hourline ${scope} `;
const present = prefix + version;

async function install(): Promise<void> {
  const cache = await caches.open(present);
  // Past the browser's own cache, whose copy may be of another version.
  await cache.addAll([PAGE, ...files].map((file) => new Request(scope + file, { cache: 'reload' })));
  const stored = await (await cache.match(scope + PAGE))!.arrayBuffer();
  if ((await hashOf(stored)) !== page) {
    await caches.delete(present);
    throw new Error('the files on the server are of different versions; the next visit tries again');
  }
  await worker.skipWaiting();
}

async function hashOf(bytes: ArrayBuffer): Promise<string> {
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(hash, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

const ownCaches = async () => (await caches.keys()).filter((name) => name.startsWith(prefix)); // oldest first

async function dropOld(): Promise<void> {
  const old = (await ownCaches()).filter((name) => name !== present).slice(0, 1 - KEPT);
  await Promise.all(old.map((name) => caches.delete(name)));
}

/** The page of this version, or a file that its name identifies of any version that is kept; else what the server says. */
async function answer(request: Request): Promise<Response> {
  const [address] = request.url.split(/[?#]/, 1);
  const isPage = address === scope || address === scope + PAGE;
  const names = isPage ? [present] : await ownCaches();
  for (const cacheName of names) {
    const kept = await caches.match(isPage ? scope + PAGE : address!, { cacheName });
    if (kept) return kept;
  }
  return fetch(request);
}

worker.addEventListener('install', (event) => event.waitUntil(install()));
worker.addEventListener('activate', (event) => event.waitUntil(dropOld()));
worker.addEventListener('fetch', (event) => {
  if (event.request.method === 'GET' && event.request.url.startsWith(scope))
    event.respondWith(answer(event.request));
});
