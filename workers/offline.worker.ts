/// <reference lib="webworker" />
import { BUILD, OFFLINE_FILES } from 'virtual:offline-files';

/*
 * The service worker: keeps every file of the program (not the sample photos), so that it opens and works without a
 * network. A new version is fetched beside the one in use and waits until a person chooses it or no tab is left. The
 * files of the version before stay, for tabs that still run it.
 */

const worker = self as unknown as ServiceWorkerGlobalScope;

const PREFIX = 'swardbook ';
const CACHE = `${PREFIX}${BUILD}`;
const START = './index.html';
/** Answers are found by address alone: servers vary them by origin, and files are named after their content. */
const BY_ADDRESS = { ignoreSearch: true, ignoreVary: true };

worker.addEventListener('install', (event) => event.waitUntil(keepFiles()));
worker.addEventListener('activate', (event) => event.waitUntil(takeOver()));
worker.addEventListener('message', ({ data }) => {
  if (data === 'use-now') void worker.skipWaiting();
});
worker.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== worker.location.origin) return;
  if (!pathname.startsWith(new URL(worker.registration.scope).pathname)) return;
  event.respondWith(answer(request));
});

/** What an earlier version has already is not fetched again, where its name says its content. */
async function keepFiles(): Promise<void> {
  const cache = await caches.open(CACHE);
  await Promise.all(
    OFFLINE_FILES.map(async (path) => {
      const here = path.startsWith('./assets/') ? await caches.match(path, BY_ADDRESS) : undefined;
      if (here) return cache.put(path, here);
      const fetched = await fetch(path, { cache: 'no-cache' });
      if (!fetched.ok) throw new Error(`${path} answered ${fetched.status}`);
      await cache.put(path, fetched);
    }),
  );
}

async function takeOver(): Promise<void> {
  const earlier = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  for (const name of earlier.slice(0, -1)) await caches.delete(name);
  await worker.clients.claim();
}

async function answer(request: Request): Promise<Response> {
  const own = await caches.open(CACHE);
  const kept =
    request.mode === 'navigate'
      ? await own.match(START, BY_ADDRESS)
      : ((await own.match(request, BY_ADDRESS)) ?? (await caches.match(request, BY_ADDRESS)));
  return kept ?? fetch(request);
}
