import type { Page } from '@playwright/test';
import type { Library } from '../../src/lib/flow/library.ts';
import { normalOf } from '../../src/lib/flow/evidence.ts';
import { powerSuits } from '../../src/lib/flow/compile.ts';
import type { Power } from '../../src/lib/flow/machine-types.ts';
import type { ResolvedFlow } from '../../src/lib/flow/resolve.ts';
import type { EventData, EventKind, JobEvent } from '../../src/lib/job/events.ts';
import { rowOf, type JobRow } from '../../src/lib/job/row.ts';
import { takeSnapshot, type Snapshot } from '../../src/lib/job/snapshot.ts';
import { nextEvent } from '../../src/lib/job/store.ts';

/** Jobs put into the browser's database in bulk, each as the app would have written it one entry at a time. */

/** Fewer for a first look: `JOBS=500`. */
export const JOBS = Number(process.env['JOBS'] ?? 5000);
export const EVENTS = 60;

/** Jobs that are written in one transaction. */
const BATCH = 250;
const DAY = 24 * 3600 * 1000;

/** One job, from which the others are copied under ids of their own. */
export interface Pattern {
	events: JobEvent[];
	row: JobRow;
	kept: Snapshot;
}

/** A job of so many entries on this flow, answered as a sound set would be. */
export async function patternJob(library: Library, { flow, plan, steps }: ResolvedFlow): Promise<Pattern> {
	const kept = await takeSnapshot(library, flow, plan, globalThis.crypto.subtle);
	const events: JobEvent[] = [];
	const add = <Kind extends EventKind>(kind: Kind, data: EventData[Kind]) => {
		const stamp = {
			job: 'job',
			bench: 'seeded',
			seq: events.length + 1,
			now: Date.UTC(2024, 0, 1) + events.length * 120_000
		};
		events.push(nextEvent(events, stamp, kind, data) as JobEvent);
	};
	add('started', {});
	const symptom = Object.fromEntries(Object.keys(plan.bands).map((band) => [band, 'weak' as const]));
	add('intake', {
		title: 'Set',
		plan: plan.id,
		symptom,
		history: [],
		instruments: ['meter-10M'],
		playing: true
	});
	add('flow-opened', { flow: flow.id, plan: plan.id, hash: kept.hash });
	const plain = Object.entries(steps).filter(([, step]) => !step.prepare);
	let power: Power = 'off';
	for (let index = 0; events.length < EVENTS; index++) {
		const [id, step] = plain[index % plain.length]!;
		if (!powerSuits(step, power)) {
			power = step.power;
			add('power', power === 'unplugged' ? { to: power, volts: [0, 0] } : { to: power });
		}
		add('took', { flow: flow.id, step: id });
		add('answered', { flow: flow.id, step: id, outcome: normalOf(step), sure: true });
	}
	return { events: events.slice(0, EVENTS), row: rowOf(events.slice(0, EVENTS)), kept };
}

interface Batch {
	events: JobEvent[];
	row: JobRow;
	from: number;
	count: number;
	day: number;
}

/** Writes copies of the job. Runs in the page, which has nothing of ours: all it needs stands in it. */
async function writeBatch({ events, row, from, count, day }: Batch): Promise<void> {
	const opened = indexedDB.open('valvetrail');
	await new Promise((done) => (opened.onsuccess = done));
	const written = opened.result.transaction(['events', 'jobs'], 'readwrite', { durability: 'relaxed' });
	const later = (at: string, number: number) => new Date(Date.parse(at) + (number * day) / 10).toISOString();
	for (let number = from; number < from + count; number++) {
		const job = `seeded${number}`;
		const id = (seq: number) => `seeded.${number * events.length + seq}`;
		for (const event of events) {
			const parents = event.seq > 1 ? [id(event.seq - 1)] : [];
			const data = event.kind === 'intake' ? { ...event.data, title: `Set no. ${number}` } : event.data;
			const seq = number * events.length + event.seq;
			const at = later(event.at, number);
			written.objectStore('events').put({ ...event, id: id(event.seq), job, seq, parents, data, at });
		}
		written
			.objectStore('jobs')
			.put({ ...row, job, title: `Set no. ${number}`, updated: later(row.updated, number) });
	}
	await new Promise((done, fail) => {
		written.oncomplete = done;
		written.onabort = () => fail(written.error ?? new Error('aborted'));
	});
	opened.result.close();
}

async function writeFlow({ hash, library }: Snapshot): Promise<void> {
	const opened = indexedDB.open('valvetrail');
	await new Promise((done) => (opened.onsuccess = done));
	const written = opened.result.transaction(['flows'], 'readwrite');
	written.objectStore('flows').put({ hash, library });
	await new Promise((done) => (written.oncomplete = done));
	opened.result.close();
}

/** Fill the database of a page on which the app has been open once. */
export async function seedJobs(page: Page, { events, row, kept }: Pattern): Promise<void> {
	await page.evaluate(writeFlow as (given: unknown) => Promise<void>, kept as unknown);
	for (let from = 0; from < JOBS; from += BATCH)
		await page.evaluate(
			writeBatch as (given: unknown) => Promise<void>,
			{ events, row, from, count: Math.min(BATCH, JOBS - from), day: DAY } as unknown
		);
}
