import Dexie from 'dexie';
import { beforeAll, describe, expect, test } from 'vitest';
import { JobDatabase } from '../../../src/lib/job/dexie-db.ts';
import { openDexieStore } from '../../../src/lib/job/dexie-store.ts';
import { memoryStore } from '../../../src/lib/job/memory-store.ts';
import { MOST_PICTURES, type KeptPicture } from '../../../src/lib/job/picture.ts';
import { changedSinceCopy, rowOf } from '../../../src/lib/job/row.ts';
import type { Snapshot } from '../../../src/lib/job/snapshot.ts';
import { LOOSE_FOR, type JobStore } from '../../../src/lib/job/store.ts';
import { everything, PICTURE, pictured } from './everything.ts';
import { snapshot } from './log.ts';
import { dexie, flowsIn, freshIdb, value, world } from './stores.ts';

let kept: Snapshot;
beforeAll(async () => {
	kept = await snapshot();
});

const another = (number: number): KeptPicture => ({
	...PICTURE,
	hash: `fnv:${number.toString(16).padStart(16, '0')}`
});

describe.each([
	['the database', () => dexie()],
	['the memory', async () => memoryStore(world())]
])('a picture kept in %s', (_, open) => {
	const begun = async (store: JobStore) => value(await store.start()).job;

	test('is there byte for byte, once for all jobs that name it', async () => {
		const store = await open();
		const [first, second] = [await begun(store), await begun(store)];
		for (const job of [first, second]) {
			value(await store.keepPicture(job, PICTURE));
			value(await store.append(job, 'pictured', pictured()));
		}
		expect(await store.picture(PICTURE.hash)).toEqual(PICTURE);
		value(await store.purge(first));
		expect(await store.picture(PICTURE.hash)).toEqual(PICTURE);
		value(await store.purge(second));
		expect(await store.picture(PICTURE.hash)).toBeUndefined();
	});

	test('has to be kept before it is named', async () => {
		const store = await open();
		const job = await begun(store);
		await expect(store.append(job, 'pictured', pictured())).rejects.toThrow('has to be kept');
		expect(await store.events(job)).toHaveLength(1);
	});

	test('goes to no job that was deleted', async () => {
		const store = await open();
		const job = await begun(store);
		value(await store.purge(job));
		expect(await store.keepPicture(job, PICTURE)).toMatchObject({ ok: false, reason: 'gone' });
	});

	test(`is refused with a sentence after ${MOST_PICTURES} in one job; one of these is not`, async () => {
		const store = await open();
		const job = await begun(store);
		for (let number = 0; number < MOST_PICTURES; number++) {
			value(await store.keepPicture(job, another(number)));
			value(await store.append(job, 'pictured', pictured({ picture: another(number).hash })));
		}
		expect(await store.keepPicture(job, PICTURE)).toMatchObject({
			ok: false,
			reason: 'many',
			hint: expect.stringContaining(`${MOST_PICTURES} pictures`) as string
		});
		expect(await store.keepPicture(job, another(3))).toMatchObject({ ok: true });
	});

	test('a copy in a file is counted: an entry after it makes the job changed, whatever the clock says', async () => {
		const store = await open();
		const job = await begun(store);
		const row = async () => (await store.jobs()).find((one) => one.job === job)!;
		expect(changedSinceCopy(await row())).toBe(true);
		expect(await store.wholeCopy()).toBeUndefined();
		value(await store.markExported(new Map([[job, 1]]), true));
		expect(changedSinceCopy(await row())).toBe(false);
		expect(await store.wholeCopy()).toBe((await row()).exported);
		value(await store.append(job, 'noted', { text: 'x' }));
		expect(changedSinceCopy(await row())).toBe(true);
	});
});

test('a picture that no event has named after a day is dropped as the page is opened; a named one stays', async () => {
	const idb = freshIdb();
	const store = await dexie(idb);
	const { job } = value(await store.start());
	value(await store.keepPicture(job, PICTURE));
	value(await store.append(job, 'pictured', pictured()));
	value(await store.keepPicture(job, another(1)));
	store.close();
	const later = async (milliseconds: number) => {
		const start = Date.UTC(2026, 0, 1) + milliseconds;
		const opened = await openDexieStore({ name: 'jobs', idb, now: () => start, newId: () => 'x' });
		const pictures = [
			await value(opened).picture(PICTURE.hash),
			await value(opened).picture(another(1).hash)
		];
		value(opened).close();
		return pictures.map(Boolean);
	};
	expect(await later(LOOSE_FOR / 2)).toEqual([true, true]);
	expect(await later(2 * LOOSE_FOR)).toEqual([true, false]);
});

test('jobs stored before there were pictures are all there, take pictures, and are removed with their flows', async () => {
	const idb = freshIdb();
	const { events } = everything(kept);
	const old = new Dexie('jobs', idb);
	old.version(1).stores({ events: 'id, [job+at], &[bench+seq]', jobs: 'job', flows: 'hash', meta: 'key' });
	await old.table('events').bulkAdd(events);
	await old.table('jobs').add(rowOf(events));
	await old.table('flows').add({ hash: kept.hash, library: kept.library });
	await old.table('meta').bulkAdd([
		{ key: 'format', value: 1 },
		{ key: 'bench', value: 'bench' },
		{ key: 'seq', value: events.length },
		{ key: 'exported:job', value: '2030-01-01T00:00:00.000Z' }
	]);
	old.close();

	const store = await dexie(idb);
	expect(await store.events('job')).toEqual(events);
	expect(await flowsIn(store, 'job')).toEqual({ [kept.hash]: kept.library });
	expect(await store.jobs()).toEqual([{ ...rowOf(events), exported: '2030-01-01T00:00:00.000Z' }]);
	expect(changedSinceCopy((await store.jobs())[0]!)).toBe(false);
	value(await store.keepPicture('job', PICTURE));
	expect(value(await store.append('job', 'pictured', pictured())).seq).toBe(events.length + 1);
	value(await store.purge('job'));
	const db = new JobDatabase('jobs', idb);
	await db.open();
	const counts = await Promise.all([db.events, db.jobs, db.flows, db.pictures].map((table) => table.count()));
	expect(counts).toEqual([0, 0, 0, 0]);
	expect((await db.meta.toArray()).map(({ key }) => key).sort()).toEqual(['bench', 'format', 'seq']);
});
