import Dexie from 'dexie';
import { IDBDatabase, IDBFactory, IDBObjectStore } from 'fake-indexeddb';
import { afterEach, beforeAll, describe, expect, test, vi } from 'vitest';
import { JobDatabase } from '../../../src/lib/job/dexie-db.ts';
import { openDexieStore } from '../../../src/lib/job/dexie-store.ts';
import type { Snapshot } from '../../../src/lib/job/snapshot.ts';
import type { JobStore } from '../../../src/lib/job/store.ts';
import { intake, snapshot } from './log.ts';
import { dexie, freshIdb, value, world } from './stores.ts';

let kept: Snapshot;
beforeAll(async () => {
	kept = await snapshot();
});
afterEach(() => {
	vi.restoreAllMocks();
});

async function withNotes(store: JobStore, count: number): Promise<string> {
	const { job } = value(await store.start());
	for (let text = 1; text < count; text++) value(await store.append(job, 'noted', { text: String(text) }));
	return job;
}

/** The same database by its own door, as a bug of ours would reach it. */
async function raw(idb: ReturnType<typeof freshIdb>): Promise<JobDatabase> {
	const db = new JobDatabase('jobs', idb);
	await db.open();
	return db;
}

describe('the log is append-only', () => {
	test.each<[string, (db: JobDatabase, id: string) => PromiseLike<unknown>, string]>([
		['changed', (db, id) => db.events.update(id, { at: 'later' }), 'cannot be changed'],
		[
			'written over',
			async (db, id) => db.events.put({ ...(await db.events.get(id))!, at: 'later' }),
			'cannot be changed'
		],
		['changed in bulk', (db) => db.events.toCollection().modify({ at: 'later' }), 'cannot be changed'],
		['removed', (db, id) => db.events.delete(id), 'cannot be removed'],
		['removed in bulk', (db) => db.events.toCollection().delete(), 'cannot be removed'],
		['cleared away', (db) => db.events.clear(), 'cannot be removed']
	])('an event cannot be %s', async (_, attack, message) => {
		const idb = freshIdb();
		const store = await dexie(idb);
		const job = await withNotes(store, 3);
		const before = await store.events(job);
		await expect(Promise.resolve(attack(await raw(idb), before[1]!.id))).rejects.toThrow(message);
		expect(await store.events(job)).toEqual(before);
	});

	test('a second event with the number of another is refused by the table itself', async () => {
		const idb = freshIdb();
		const store = await dexie(idb);
		const [first] = await store.events(await withNotes(store, 1));
		const db = await raw(idb);
		await expect(Promise.resolve(db.events.add({ ...first!, id: 'forged' }))).rejects.toThrow();
		expect(await db.events.count()).toBe(1);
	});

	test('a purge takes no event of another job', async () => {
		const idb = freshIdb();
		const store = await dexie(idb);
		const [first, second] = [await withNotes(store, 2), await withNotes(store, 2)];
		const db = await raw(idb);
		await db.purge([first]);
		expect((await db.events.toArray()).map(({ job }) => job)).toEqual([second, second]);
		await expect(
			Promise.resolve(
				db.events.where('[job+at]').between([second, Dexie.minKey], [second, Dexie.maxKey]).delete()
			)
		).rejects.toThrow('cannot be removed');
	});
});

describe('durability', () => {
	test('events are written with strict durability', async () => {
		const opened = vi.spyOn(IDBDatabase.prototype, 'transaction');
		await withNotes(await dexie(), 2);
		const writes = opened.mock.calls.filter(([, mode]) => mode === 'readwrite');
		expect(writes.length).toBeGreaterThanOrEqual(2);
		for (const call of writes) expect((call as unknown[])[2]).toEqual({ durability: 'strict' });
	});

	test('a job is there after the page is gone, with the same bench', async () => {
		const idb = freshIdb();
		const first = await dexie(idb);
		const job = await withNotes(first, 3);
		const [events, bench] = [await first.events(job), await first.bench()];
		first.close();
		const second = await dexie(idb, 'other');
		expect([await second.events(job), await second.bench()]).toEqual([events, bench]);
		expect(value(await second.append(job, 'noted', { text: 'on' })).seq).toBe(4);
	});

	test('40 racing entries from two pages get 40 numbers', async () => {
		const idb = freshIdb();
		const pages = [await dexie(idb), await dexie(idb, 'other')];
		const job = await withNotes(pages[0]!, 1);
		await Promise.all(
			Array.from({ length: 40 }, (_, n) => pages[n % 2]!.append(job, 'noted', { text: String(n) }))
		);
		expect(new Set((await pages[1]!.events(job)).map(({ seq }) => seq)).size).toBe(41);
	});

	test('a database that the browser closed is opened again', async () => {
		const store = await dexie();
		const job = await withNotes(store, 1);
		store.close();
		expect(value(await store.append(job, 'noted', { text: 'awake' })).seq).toBe(2);
		store.close();
		expect(await store.events(job)).toHaveLength(2);
	});
});

describe('what the browser refuses is said, and nothing is lost', () => {
	const noRoom = () => {
		throw new DOMException('no room', 'QuotaExceededError');
	};

	test('a full device hands the entry back and keeps what was there', async () => {
		const store = await dexie();
		const job = await withNotes(store, 2);
		const before = [await store.events(job), await store.jobs()];
		const add = vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(noRoom);
		const data = { text: 'one too many' };
		const result = await store.append(job, 'noted', data);
		expect(result).toMatchObject({ ok: false, reason: 'full', unsaved: { kind: 'noted', data } });
		add.mockRestore();
		expect([await store.events(job), await store.jobs()]).toEqual(before);
		expect(value(await store.append(job, 'noted', data)).seq).toBe(3);
	});

	test('a window that keeps nothing is a sentence, not a crash', async () => {
		const idb = freshIdb();
		vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(() => {
			throw new DOMException('private', 'SecurityError');
		});
		const result = await openDexieStore({ name: 'jobs', idb, ...world() });
		expect(result).toMatchObject({ ok: false, reason: 'refused' });
		expect(result.ok ? '' : result.hint).toContain('private window');
	});

	test('jobs of a newer program are left alone', async () => {
		const idb = freshIdb();
		await (await raw(idb)).meta.put({ key: 'format', value: 2 });
		expect(await openDexieStore({ name: 'jobs', idb, ...world() })).toMatchObject({
			ok: false,
			reason: 'newer'
		});
	});
});

describe('the list', () => {
	test('is made again from the events when a row is missing', async () => {
		const idb = freshIdb();
		const store = await dexie(idb);
		const { job } = value(await store.start());
		value(await store.append(job, 'intake', intake()));
		const before = await store.jobs();
		const db = await raw(idb);
		await db.jobs.clear();
		expect(await store.jobs()).toEqual(before);
		await db.jobs.clear();
		value(await store.append(job, 'noted', { text: 'x' }));
		expect(await store.jobs()).toMatchObject([{ job, title: 'Table set, green dial', events: 3 }]);
	});
});

test('a flow is kept once, and goes with the last job that names it', async () => {
	const idb = freshIdb();
	const store = await dexie(idb);
	const jobs: string[] = [];
	for (let count = 0; count < 2; count++) {
		const { job } = value(await store.start());
		value(await store.keepFlow(kept));
		value(await store.append(job, 'flow-opened', { flow: 'am-faint', plan: 'tiny', hash: kept.hash }));
		jobs.push(job);
	}
	const db = await raw(idb);
	expect(await db.flows.count()).toBe(1);
	value(await store.purge(jobs[0]!));
	expect(await db.flows.count()).toBe(1);
	value(await store.purge(jobs[1]!));
	expect([await db.flows.count(), await db.events.count(), await db.jobs.count()]).toEqual([0, 0, 0]);
});
