import Dexie from 'dexie';
import { IDBFactory, IDBKeyRange } from 'fake-indexeddb';
import { openDexieStore } from '../../../src/lib/job/dexie-store.ts';
import type { Library } from '../../../src/lib/flow/library.ts';
import { hashesOf, type JobStore, type Kept, type StoreWorld } from '../../../src/lib/job/store.ts';

// Live queries look for a database on the page itself, whichever one they are given.
Dexie.dependencies.indexedDB = new IDBFactory();

/** A clock that goes on a second at each look, and names that count up. */
export function world(prefix = 'id'): StoreWorld {
	let [looks, names] = [0, 0];
	return {
		now: () => Date.UTC(2026, 0, 1) + 1000 * looks++,
		newId: () => `${prefix}${++names}`
	};
}

export const freshIdb = () => ({ indexedDB: new IDBFactory(), IDBKeyRange });

export async function dexie(idb = freshIdb(), prefix?: string): Promise<JobStore> {
	return value(await openDexieStore({ name: 'jobs', idb, ...world(prefix) }));
}

/** What was done, or a failed test with the reason. */
export function value<Value>(kept: Kept<Value>): Value {
	if (!kept.ok) throw new Error(`${kept.reason}: ${kept.hint}`);
	return kept.value;
}

/** The flows that a job has opened, by hash, as the store has them. */
export async function flowsIn(store: JobStore, job: string): Promise<Record<string, Library>> {
	const hashes = hashesOf(await store.events(job));
	const found = await Promise.all(hashes.map(async (hash) => [hash, await store.flow(hash)] as const));
	return Object.fromEntries(found.flatMap(([hash, library]) => (library ? [[hash, library]] : [])));
}
