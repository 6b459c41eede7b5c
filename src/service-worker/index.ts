/// <reference no-default-lib="true" />
/// <reference lib="esnext" />
/// <reference lib="webworker" />
/// <reference types="@sveltejs/kit" />
import { base, build, files, prerendered, version } from '$service-worker';
import { isOurs, precached } from './plan.ts';

/** Keeps the whole app in the browser, so that it opens at a bench without a network. */

const worker = globalThis.self as unknown as ServiceWorkerGlobalScope;
const CACHE = `valvetrail-${version}`;
/** The page for addresses which only the browser knows. Kit leaves it out of its lists. */
const FALLBACK = `${base}/200.html`;
const STORED = precached([...build, ...files, ...prerendered, FALLBACK]);

async function store(): Promise<void> {
	const cache = await caches.open(CACHE);
	// `reload` passes the browser's own cache by: an old page there would ask for chunks that are gone.
	await cache.addAll(STORED.map((path) => new Request(path, { cache: 'reload' })));
}

async function dropOlder(): Promise<void> {
	const names = await caches.keys();
	await Promise.all(
		names
			.filter((name) => name.startsWith('valvetrail-') && name !== CACHE)
			.map((name) => caches.delete(name))
	);
}

async function answer(request: Request): Promise<Response> {
	const cache = await caches.open(CACHE);
	const stored = await cache.match(request, { ignoreSearch: request.mode === 'navigate' });
	if (stored) return stored;
	try {
		return await fetch(request);
	} catch (cause) {
		const fallback = request.mode === 'navigate' ? await cache.match(FALLBACK) : undefined;
		if (fallback) return fallback;
		throw cause;
	}
}

worker.addEventListener('install', (event) => event.waitUntil(store()));

// Claims only open pages of a first visit: a newer version waits until the user asks for it.
worker.addEventListener('activate', (event) =>
	event.waitUntil(dropOlder().then(() => worker.clients.claim()))
);

worker.addEventListener('message', (event) => {
	if (event.data === 'take over') void worker.skipWaiting();
});

worker.addEventListener('fetch', (event) => {
	if (isOurs(event.request, worker.location.origin, base)) event.respondWith(answer(event.request));
});
