import { resolve } from '$app/paths';
import type { Library } from '$lib/flow/library.ts';
import type { JobStore } from '$lib/job/store.ts';

/** What the pages share: one store and one library, opened when first asked for. */

const newId = () => {
	const letters = crypto.getRandomValues(new Uint8Array(10));
	return [...letters].map((byte) => 'abcdefghijkmnpqrstuvwxyz23456789'[byte % 32]).join('');
};
/** Time and chance, as a store asks for them. */
export const world = { now: () => Date.now(), newId };

/** SHA-256 of the page; there is none over plain http except on localhost. */
export const digest = () => (globalThis.crypto.subtle as SubtleCrypto | undefined) ?? undefined;

export interface OpenedStore {
	store: JobStore;
	/** Why nothing outlives the page, where that is so. */
	hint?: string;
}

let opened: Promise<OpenedStore> | undefined;

async function open(): Promise<OpenedStore> {
	const { openDexieStore } = await import('$lib/job/dexie-store.ts');
	const found = await openDexieStore({ name: 'valvetrail', ...world });
	if (found.ok) return { store: found.value };
	const { memoryStore } = await import('$lib/job/memory-store.ts');
	return { store: memoryStore(world), hint: found.hint };
}

export const openStore = (): Promise<OpenedStore> => (opened ??= open());

let library: Promise<Library> | undefined;

async function fetchLibrary(): Promise<Library> {
	const answer = await fetch(resolve('/library.json'));
	if (!answer.ok) throw new Error(`The flows could not be fetched (${answer.status}).`);
	return (await answer.json()) as Library;
}

/** Today's library. A failed fetch is tried again the next time. */
export function openLibrary(): Promise<Library> {
	library ??= fetchLibrary().catch((cause: unknown) => {
		library = undefined;
		throw cause;
	});
	return library;
}

/** Ask the browser to keep the data; what it answers is shown, not hidden. */
export const askToKeep = async (): Promise<boolean> => (await navigator.storage?.persist?.()) ?? false;
