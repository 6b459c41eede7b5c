import { beforeAll, describe, expect, test } from 'vitest';
import { memoryStore } from '../../../src/lib/job/memory-store.ts';
import { replay } from '../../../src/lib/job/replay.ts';
import { rowOf } from '../../../src/lib/job/row.ts';
import type { Snapshot } from '../../../src/lib/job/snapshot.ts';
import type { Imported, JobFile, JobStore } from '../../../src/lib/job/store.ts';
import { intake, opened, snapshot } from './log.ts';
import { dexie, flowsIn, value, world } from './stores.ts';

let kept: Snapshot;
beforeAll(async () => {
	kept = await snapshot();
});

/** A job with its flow open. */
async function openJob(store: JobStore): Promise<string> {
	const { job } = value(await store.start());
	value(await store.append(job, 'intake', intake()));
	value(await store.keepFlow(kept));
	value(await store.append(job, 'flow-opened', { flow: 'am-faint', plan: 'tiny', hash: kept.hash }));
	return job;
}

const fileOf = (): JobFile => ({
	exported: '2026-01-01T00:00:00.000Z',
	events: opened(kept).events,
	flows: { [kept.hash]: kept.library },
	pictures: []
});

const next = async (look: () => unknown): Promise<void> => {
	for (let tries = 0; tries < 100 && !look(); tries++) await new Promise((wake) => setTimeout(wake, 5));
};

describe.each([
	['the database', () => dexie()],
	['the memory', async () => memoryStore(world())]
])('a job kept in %s', (_, open) => {
	test('is a chain of events of this bench, numbered from one', async () => {
		const store = await open();
		const job = await openJob(store);
		const events = await store.events(job);
		const bench = await store.bench();
		expect(events.map(({ id }) => id)).toEqual([1, 2, 3].map((seq) => `${bench}.${seq}`));
		expect(events.map(({ parents }) => parents)).toEqual([[], [`${bench}.1`], [`${bench}.2`]]);
		expect(events.map(({ at }) => at)).toEqual([...events.map(({ at }) => at)].sort());
		expect(replay(events, { snapshots: await flowsIn(store, job) })).toMatchObject({
			open: 'am-faint',
			warnings: []
		});
	});

	test('40 racing entries get 40 numbers, and each follows the one before', async () => {
		const store = await open();
		const job = await openJob(store);
		await Promise.all(
			Array.from({ length: 40 }, (_, text) => store.append(job, 'noted', { text: String(text) }))
		);
		const events = await store.events(job);
		expect(new Set(events.map(({ seq }) => seq)).size).toBe(43);
		expect(
			events.slice(1).every(({ parents }, index) => parents.length === 1 && parents[0] === events[index]?.id)
		).toBe(true);
	});

	test('takes the entries of one deed together, each after the one before', async () => {
		const store = await open();
		const job = await openJob(store);
		const added = value(
			await store.appendAll(job, [
				['noted', { text: 'first' }],
				['power', { to: 'limiter' }],
				['noted', { text: 'last' }]
			])
		);
		const events = await store.events(job);
		expect(events.slice(-3)).toEqual(added);
		expect(added.map(({ parents }) => parents)).toEqual(events.slice(2, 5).map(({ id }) => [id]));
		expect((await store.jobs())[0]).toEqual(rowOf(events));
		expect(value(await store.appendAll(job, []))).toEqual([]);
	});

	test('takes all entries of a deed or none', async () => {
		const store = await open();
		const job = await openJob(store);
		const before = await store.events(job);
		const deed = store.appendAll(job, [
			['noted', { text: 'lost with the other' }],
			['flow-opened', { flow: 'am-faint', plan: 'tiny', hash: 'sha256:nobody' }]
		]);
		await expect(deed).rejects.toThrow('has to be kept');
		expect(await store.events(job)).toEqual(before);
		value(await store.append(job, 'noted', { text: 'next' }));
		expect(await store.events(job)).toHaveLength(before.length + 1);
	});

	test('begins with its start, once', async () => {
		const store = await open();
		const job = await openJob(store);
		await expect(store.append(job, 'started', {})).rejects.toThrow('only once');
	});

	test('that was deleted in another tab takes no entry: what was written is handed back, with a sentence', async () => {
		const store = await open();
		const job = await openJob(store);
		value(await store.purge(job));
		const refused = await store.append(job, 'noted', { text: 'late' });
		expect(refused).toMatchObject({ ok: false, reason: 'gone', unsaved: { data: { text: 'late' } } });
		expect(refused).toMatchObject({ hint: expect.stringContaining('has been deleted') as string });
		expect(await store.events(job)).toEqual([]);
		expect(await store.jobs()).toEqual([]);
	});

	test('opens no flow that is not kept', async () => {
		const store = await open();
		const { job } = value(await store.start());
		const opening = store.append(job, 'flow-opened', { flow: 'am-faint', plan: 'tiny', hash: kept.hash });
		await expect(opening).rejects.toThrow('has to be kept');
		expect(await store.events(job)).toHaveLength(1);
	});

	test('stands in the list, the latest first, with the day of its last copy', async () => {
		const store = await open();
		const [first, second] = [await openJob(store), await openJob(store)];
		expect((await store.jobs()).map(({ job }) => job)).toEqual([second, first]);
		value(await store.append(first, 'noted', { text: 'here again' }));
		value(
			await store.describe(first, {
				leading: [{ name: 'valve', word: 'probably' }],
				complaint: 'AM is faint',
				power: 'off'
			})
		);
		value(await store.markExported(new Map([[first, 4]]), false));
		const [row, other] = await store.jobs();
		expect(row).toMatchObject({
			job: first,
			events: 4,
			described: 4,
			leading: [{ name: 'valve', word: 'probably' }]
		});
		expect(row?.exported).toMatch(/^2026-01-01T/);
		expect(other).toEqual(rowOf(await store.events(second)));
	});

	test('tells those who watch it, and no longer once they stop', async () => {
		const store = await open();
		const job = await openJob(store);
		const [seen, rows]: [number[], number[]] = [[], []];
		const stops = [
			store.watch(job, (events) => seen.push(events.length)),
			store.watchJobs((list) => rows.push(list[0]?.events ?? 0))
		];
		await next(() => seen.length && rows.length);
		value(await store.append(job, 'noted', { text: 'x' }));
		await next(() => seen.at(-1) === 4 && rows.at(-1) === 4);
		for (const stop of stops) stop();
		value(await store.append(job, 'noted', { text: 'y' }));
		await new Promise((wake) => setTimeout(wake, 30));
		expect([seen[0], seen.at(-1), rows[0], rows.at(-1)]).toEqual([3, 4, 3, 4]);
	});

	test('comes in from a file as it went out', async () => {
		const store = await open();
		const file = fileOf();
		expect(value(await store.importJobs([file]))).toEqual([{ job: 'job', copied: false }]);
		expect(await store.events('job')).toEqual(file.events);
		expect(await flowsIn(store, 'job')).toEqual(file.flows);
		expect(await store.jobs()).toMatchObject([{ title: 'Table set, green dial', events: 4 }]);
	});

	test('that is here already comes in as a copy, and the first one stays as it was', async () => {
		const store = await open();
		const file = fileOf();
		value(await store.importJobs([file]));
		value(await store.append('job', 'noted', { text: 'since then' }));
		const undo = {
			...file,
			events: [
				...file.events,
				{
					...file.events[3]!,
					id: 'bench.5',
					seq: 5,
					parents: ['bench.4'],
					kind: 'undone',
					data: { target: 'bench.4' }
				}
			]
		};
		const [{ job, copied }] = value(await store.importJobs([undo as JobFile])) as [Imported];
		expect([copied, job === 'job']).toEqual([true, false]);
		expect(await store.events('job')).toHaveLength(5);
		const copy = await store.events(job);
		const bench = await store.bench();
		expect(copy.map((event) => [event.bench, event.job])).toEqual(copy.map(() => [bench, job]));
		expect(copy[0]).toMatchObject({ kind: 'started', data: { copyOf: 'job' }, at: file.events[0]!.at });
		expect(copy.at(-1)).toMatchObject({ parents: [copy.at(-2)!.id], data: { target: copy[3]!.id } });
		expect(value(await store.append(job, 'noted', { text: 'goes on' })).parents).toEqual([copy.at(-1)!.id]);
	});

	test('is removed whole, and nothing else with it', async () => {
		const store = await open();
		const [first, second] = [await openJob(store), await openJob(store)];
		value(await store.markExported(new Map([[first, 4]]), false));
		const before = [await store.events(second), await flowsIn(store, second)];
		value(await store.purge(first));
		expect(await store.events(first)).toEqual([]);
		expect([await store.events(second), await flowsIn(store, second)]).toEqual(before);
		expect((await store.jobs()).map(({ job }) => job)).toEqual([second]);
	});

	test('leaves its numbers behind: they are never given out again', async () => {
		const store = await open();
		const job = await openJob(store);
		const last = (await store.events(job)).at(-1)!.seq;
		value(await store.purge(job));
		expect(value(await store.start()).seq).toBe(last + 1);
	});
});

test('the memory says that it keeps nothing, the database that it does', async () => {
	expect([memoryStore(world()).keeps, (await dexie()).keeps]).toEqual([false, true]);
});
