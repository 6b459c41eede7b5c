import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { toBase64 } from '../../../src/lib/job/base64.ts';
import { lookInto, takeIn, writeOut } from '../../../src/lib/job/copies.ts';
import { EVENT_KINDS } from '../../../src/lib/job/event-schema.ts';
import { MIGRATIONS } from '../../../src/lib/job/file-migrations.ts';
import type { FileRefusal } from '../../../src/lib/job/file-refused.ts';
import { VERSION } from '../../../src/lib/job/file.ts';
import { hashOfBytes } from '../../../src/lib/job/hash.ts';
import { memoryStore } from '../../../src/lib/job/memory-store.ts';
import { emptySetData } from '../../../src/lib/job/set-data.ts';
import { readJobFile } from '../../../src/lib/job/read-file.ts';
import type { Snapshot } from '../../../src/lib/job/snapshot.ts';
import type { JobStore } from '../../../src/lib/job/store.ts';
import { everything, FLOW, PICTURE, pictured } from './everything.ts';
import { digest, intake, snapshot, volts } from './log.ts';
import { dexie, flowsIn, value, world } from './stores.ts';

const WHEN = '2026-02-03T04:05:06.000Z';
const on = async () => true;
const none: string[] = [];

let kept: Snapshot;
beforeAll(async () => {
	kept = await snapshot();
});

const described = {
	...emptySetData(),
	valves: [
		{ id: 'output', role: 'Output pentode', listed: 'EL84', fitted: 'EL84', planned: 'EL84', bands: ['am'] }
	],
	volts: { 'output.anode': 245 },
	sheet: { ohmsPerVolt: 1000, range: 250, mains: 220, from: 'sheet found in the cabinet' },
	parts: { 'ht.smoothing-resistor': { typed: '1k2', value: 1200, name: 'R12', watts: 4 } },
	differs: [{ what: 'mains flex renewed', why: 'the old one was perished' }],
	answers: { supply: 'transformer' as const, fm: 'yes' as const }
};
const reading = {
	...volts(210),
	point: 'output.anode',
	power: 'live' as const,
	ht: { point: 'ht.smoothed', value: 220 }
};

/** A store with one job of every kind of event and two small ones, a picture in two of them. */
async function filled(store: JobStore): Promise<string[]> {
	value(
		await store.importJobs([
			{
				exported: WHEN,
				events: everything(kept).events,
				flows: { [kept.hash]: kept.library },
				pictures: []
			}
		])
	);
	value(await store.keepPicture('job', PICTURE));
	value(await store.append('job', 'pictured', pictured({ caption: 'Burnt resistor' })));
	// Kinds that came after version 1.
	value(
		await store.append('job', 'phase', { phase: 'alignment', state: 'not-needed', reason: 'Dial is right' })
	);
	value(await store.append('job', 'experience', { flow: FLOW, proved: { 'cc-leak': 3 }, untested: {} }));
	const sum = { calculation: 'resistor-drop', title: 'Current and heat', given: {}, outputs: {} };
	value(
		await store.append('job', 'calculated', { ...sum, inputs: 'Resistor 1 kΩ', sentence: '5 mA flows.' })
	);
	value(await store.append('job', 'part-listed', { part: 'own-c12', name: 'C12', kind: 'paper' }));
	value(await store.append('job', 'part-checked', { part: 'own-c12', state: 'continuity' }));
	value(await store.append('job', 'marked', { sheet: PICTURE.hash, mark: 'm1', x: 0.5, y: 0.25 }));
	value(await store.append('job', 'unmarked', { mark: 'm1' }));
	value(await store.append('job', 'set-described', described));
	value(await store.append('job', 'read', { point: 'output.anode', reading }));
	const jobs = ['job'];
	for (const title of ['First set', 'Second set']) {
		const { job } = value(await store.start());
		value(await store.append(job, 'intake', intake({ title })));
		jobs.push(job);
	}
	value(await store.keepPicture(jobs[2]!, PICTURE));
	value(await store.append(jobs[2]!, 'pictured', pictured({ of: { kind: 'chassis' } })));
	return jobs;
}

/** All that a store holds of these jobs. */
const holds = async (store: JobStore, jobs: readonly string[]) => ({
	logs: await Promise.all(jobs.map((job) => store.events(job))),
	flows: await Promise.all(jobs.map((job) => flowsIn(store, job))),
	picture: await store.picture(PICTURE.hash)
});

async function fileOf(store: JobStore, jobs: readonly string[]): Promise<Blob> {
	return (await writeOut(store, jobs, WHEN, on))!.file;
}

describe.each([
	['the database', () => dexie()],
	['the memory', async () => memoryStore(world())]
])('everything out of %s as one file', (_, open) => {
	test('and into an empty one: entries, flows, pictures and dates are the same', async () => {
		const [store, other] = [await open(), await open()];
		const jobs = await filled(store);
		const kinds = (await store.events('job')).map(({ kind }) => kind);
		expect(new Set(kinds)).toEqual(new Set(EVENT_KINDS));
		const file = await fileOf(store, jobs);
		const looked = await lookInto(other, file, digest, on);
		expect(looked).toMatchObject({ ok: true, found: { exported: WHEN, pictures: 1 } });
		expect(looked.ok && looked.found.jobs.map(({ here }) => here)).toEqual(['new', 'new', 'new']);
		expect(await takeIn(other, file, none, on)).toEqual({
			ok: true,
			jobs: jobs.map((job) => ({ job, copied: false }))
		});
		expect(await holds(other, jobs)).toEqual(await holds(store, jobs));
		expect(await (await fileOf(other, jobs)).text()).toBe(await file.text());
	});

	test('and into the same one: what is here as in the file is told, and becomes a copy or is left out', async () => {
		const store = await open();
		const jobs = await filled(store);
		const file = await fileOf(store, jobs);
		value(await store.append(jobs[1]!, 'noted', { text: 'since then' }));
		const before = await holds(store, jobs);
		const looked = await lookInto(store, file, digest, on);
		expect(looked.ok && looked.found.jobs.map(({ here }) => here)).toEqual(['same', 'other', 'same']);
		const skip = [jobs[0]!, jobs[2]!];
		const taken = await takeIn(store, file, skip, on);
		expect(taken).toMatchObject({ ok: true, jobs: [{ copied: true }] });
		const all = await takeIn(store, file, none, on);
		expect(all).toMatchObject({ ok: true, jobs: [{ copied: true }, { copied: true }, { copied: true }] });
		expect(await holds(store, jobs)).toEqual(before);
		expect(await store.jobs()).toHaveLength(7);
	});

	test('jobs that one bench wrote turn by turn come in as themselves; one with a known entry as a copy', async () => {
		const [store, other] = [await open(), await open()];
		const jobs = [value(await store.start()).job, value(await store.start()).job];
		for (let turn = 0; turn < 6; turn++)
			value(await store.append(jobs[turn % 2]!, 'noted', { text: `Turn ${turn}` }));
		for (const job of jobs)
			expect(await takeIn(other, await fileOf(store, [job]), none, on)).toEqual({
				ok: true,
				jobs: [{ job, copied: false }]
			});
		expect(await holds(other, jobs)).toEqual(await holds(store, jobs));
		const renamed = (await (await fileOf(store, jobs.slice(0, 1))).text()).replaceAll(
			`"job":"${jobs[0]}"`,
			'"job":"renamed"'
		);
		expect(await takeIn(other, new Blob([renamed]), none, on)).toMatchObject({
			ok: true,
			jobs: [{ copied: true }]
		});
	});

	test('stopped on the way, nothing is written and nothing is taken in', async () => {
		const [store, other] = [await open(), await open()];
		const jobs = await filled(store);
		const stop = async () => false;
		expect(await writeOut(store, jobs, WHEN, stop)).toBeUndefined();
		const file = await fileOf(store, jobs);
		expect(await lookInto(other, file, digest, stop)).toMatchObject({ ok: false });
		expect(await other.jobs()).toEqual([]);
	});

	test('stopped after jobs were written, these go out again, and how far that is gets told', async () => {
		const [store, other] = [await open(), await open()];
		const jobs = await filled(store);
		for (let count = 0; count < 60; count++) jobs.push(value(await store.start()).job);
		const file = await fileOf(store, jobs);
		const own = value(await other.start()).job;
		const before = await holds(other, jobs);
		const [pieces, back]: [number[], [number, number][]] = [[], []];
		const taken = await takeIn(
			other,
			file,
			none,
			async (done) => pieces.push(done) < 2,
			async (...far) => back.push(far) > 0
		);
		expect(taken).toEqual({ ok: false, hint: 'Stopped. Nothing was taken in.' });
		expect(pieces).toHaveLength(2);
		expect(back).toEqual([
			[0, 50],
			[25, 50]
		]);
		expect((await other.jobs()).map(({ job }) => job)).toEqual([own]);
		expect(await holds(other, jobs)).toEqual(before);
	});

	test('a device that fills up on the way is left as it was', async () => {
		const [store, other] = [await open(), await open()];
		for (let count = 0; count < 30; count++) value(await store.start());
		const file = await fileOf(
			store,
			(await store.jobs()).map(({ job }) => job)
		);
		const before = await filled(other);
		const [write, writes] = [other.importJobs.bind(other), { count: 0 }];
		other.importJobs = (files) =>
			writes.count++ === 0
				? write(files)
				: Promise.resolve({ ok: false, reason: 'full', hint: 'There is no room left.' });
		expect(await takeIn(other, file, none, on)).toEqual({ ok: false, hint: 'There is no room left.' });
		expect(writes.count).toBe(2);
		expect((await other.jobs()).map(({ job }) => job).sort()).toEqual([...before].sort());
	});
});

test('a picture that a job left out has brought goes to the next job that names it', async () => {
	const [store, other] = [await dexie(), await dexie(undefined, 'other')];
	const jobs = await filled(store);
	const file = await fileOf(store, jobs);
	expect(await takeIn(other, file, ['job'], on)).toMatchObject({ ok: true });
	expect(await other.picture(PICTURE.hash)).toEqual(PICTURE);
});

test('a job that a file has brought has its copy: that file', async () => {
	const [store, other] = [await dexie(), await dexie()];
	const jobs = await filled(store);
	await takeIn(other, await fileOf(store, jobs), none, on);
	expect((await other.jobs()).map(({ exported }) => exported)).toEqual(jobs.map(() => WHEN));
});

test('there is a migration from each earlier version, and a file that was kept of each', async () => {
	expect(MIGRATIONS.map(({ from }) => from)).toEqual(
		Array.from({ length: VERSION - 1 }, (_, index) => index + 1)
	);
	for (const { from } of MIGRATIONS) {
		const text = await readFile(join(import.meta.dirname, `files/version-${from}.valvetrail.json`), 'utf8');
		const read = await readJobFile(text, digest);
		if (!read.ok) throw new Error(`${read.place}: ${read.hint}`);
		const store = await dexie();
		value(await store.importJobs([read.file]));
		expect(await store.events('job')).toEqual(everything(kept).events);
		expect(await flowsIn(store, 'job')).toEqual({ [kept.hash]: kept.library });
	}
});

type Line = Record<string, unknown>;
type Change = (lines: Line[]) => unknown;
const at = (lines: Line[], word: string) => lines.findIndex((line) => Object.hasOwn(line, word));
const entry = (lines: Line[], word: string) => lines[at(lines, word)]!;
const after = (lines: Line[], word: string, ...more: Line[]) => lines.splice(at(lines, word) + 1, 0, ...more);

/** A WebP file whose head says that it is so large. */
const webp = (width: number, height: number): Uint8Array<ArrayBuffer> => {
	const bytes = new Uint8Array(PICTURE.bytes.slice(0));
	new DataView(bytes.buffer).setUint32(21, (width - 1) | ((height - 1) << 14), true);
	return bytes;
};

async function withPicture(
	lines: Line[],
	bytes: Uint8Array<ArrayBuffer>,
	type = 'image/webp'
): Promise<void> {
	const hash = await hashOfBytes(bytes, digest);
	Object.assign(entry(lines, 'picture'), { picture: hash, type, data: toBase64(bytes) });
	for (const { event } of lines as { event?: { kind: string; data: Line } }[])
		if (event?.kind === 'pictured') event.data['picture'] = hash;
}

const refused: [string, Change, string, string][] = [
	['that breaks off between two lines', (lines) => lines.pop(), 'line', 'breaks off here'],
	['that has lost a line', (lines) => lines.splice(-2, 1), 'line', 'lost some of its lines'],
	['with a line after its end', (lines) => lines.push({ job: 'x' }), 'line', 'follows the end'],
	[
		'with a line of another kind',
		(lines) => after(lines, 'job', { html: '<b>' }),
		'line',
		'none that this program writes'
	],
	['with two beginnings', (lines) => after(lines, 'job', lines[0]!), 'line', 'one beginning'],
	[
		'with an entry before its job',
		(lines) => lines.splice(1, 0, entry(lines, 'event')),
		'line 2',
		'under no job'
	],
	['with a job twice', (lines) => lines.splice(-1, 0, entry(lines, 'job')), 'line', 'Two jobs'],
	['with a flow twice', (lines) => after(lines, 'flow', entry(lines, 'flow')), 'line', 'Two flows'],
	[
		'with a picture twice',
		(lines) => after(lines, 'picture', entry(lines, 'picture')),
		'line',
		'Two pictures'
	],
	[
		'without the picture that it names',
		(lines) => lines.splice(at(lines, 'picture'), 1),
		'event',
		'not in the file'
	],
	[
		'with an entry of the job before',
		(lines) => Object.assign(lines.findLast(({ event }) => event)!['event'] as Line, { job: 'job' }),
		'event',
		'another job'
	],
	[
		'with a picture that was changed',
		(lines) => (entry(lines, 'picture')['data'] = toBase64(webp(9, 9))),
		'picture sha256:',
		'changed since'
	],
	[
		'with a picture that is a page',
		(lines) =>
			withPicture(lines, new TextEncoder().encode('<svg onload="alert(1)"></svg><!-- padding padding -->')),
		'picture sha256:',
		'neither a WebP nor a JPEG'
	],
	[
		'with a picture called a page',
		(lines) => withPicture(lines, webp(2, 2), 'text/html'),
		'picture',
		'called text/html'
	],
	[
		'with a picture of 100 million pixels',
		(lines) => withPicture(lines, webp(10_000, 10_000)),
		'picture',
		'10000 by 10000'
	],
	[
		'with a picture of 2 MB',
		(lines) => withPicture(lines, new Uint8Array(2_000_000)),
		'picture',
		'more than 1.5 MB'
	],
	[
		'with a picture that is no base64',
		(lines) => (entry(lines, 'picture')['data'] = '%%%'),
		'picture',
		'cannot be read'
	],
	[
		'with a picture larger than it is said to be allowed',
		(lines) => {
			for (const { event } of lines as { event?: { kind: string; data: Line } }[])
				if (event?.kind === 'pictured') event.data['width'] = 1e6;
		},
		'data, width',
		'cannot be read'
	],
	['of a later version', (lines) => (lines[0]!['version'] = 3), 'version', 'Reload the page']
];

describe('refused whole, with place and reason', () => {
	let text: string;
	beforeAll(async () => {
		const store = await dexie();
		text = await (await fileOf(store, await filled(store))).text();
	});

	/** Looked into by a store that has jobs of its own: they stay as they are. */
	async function refusalOf(given: BlobPart): Promise<FileRefusal> {
		const store = memoryStore(world());
		const jobs = await filled(store);
		const before = [await holds(store, jobs), await store.jobs()];
		const looked = await lookInto(store, new Blob([given]), digest, on);
		if (looked.ok) throw new Error('It was taken.');
		expect([await holds(store, jobs), await store.jobs()]).toEqual(before);
		return looked;
	}

	test.each(refused)('a file %s', async (_, change, place, reason) => {
		const lines = text
			.trimEnd()
			.split('\n')
			.map((line) => JSON.parse(line) as Line);
		await change(lines);
		const refusal = await refusalOf(lines.map((line) => JSON.stringify(line)).join('\n'));
		expect(refusal.place).toContain(place);
		expect(refusal.hint).toContain(reason);
	});

	test('a file that breaks off within a line, with the number of the line', async () => {
		const cut = text.slice(0, text.indexOf('"seq":9') + 4);
		expect(await refusalOf(cut)).toMatchObject({
			place: `line ${cut.split('\n').length}`,
			hint: expect.stringContaining('breaks off') as string
		});
	});

	test('brackets within brackets without end', async () => {
		const deep = `${text.split('\n')[0]}\n${'['.repeat(100_000)}`;
		expect(await refusalOf(deep)).toMatchObject({
			place: 'line 2',
			hint: expect.stringContaining('brackets') as string
		});
	});

	test('a line without end', async () => {
		const long = `${text.split('\n')[0]}\n"${'x'.repeat(9_000_000)}`;
		expect((await refusalOf(long)).hint).toContain('longer than any');
	});

	test('bytes that are no text', async () => {
		const bytes = new Uint8Array([...new TextEncoder().encode(text.slice(0, 300)), 0xff, 0xfe, 0xff]);
		expect((await refusalOf(bytes)).hint).toMatch(/no text/);
	});
});
