import type { Page } from '@playwright/test';
import { eventId, type EventData, type EventKind, type JobEvent } from '../../src/lib/job/events.ts';
import { rowOf } from '../../src/lib/job/row.ts';

/** Jobs put into the browser's database in bulk, as the app would have written them one entry at a time. */

type Entry = { [Kind in EventKind]: readonly [kind: Kind, data: EventData[Kind]] }[EventKind];

/** The log of one job, an entry every other minute from the given day of 2026 on. */
export function logOf(job: string, entries: readonly Entry[], firstSeq: number, day = 0): JobEvent[] {
	return entries.map(([kind, data], index) => ({
		id: eventId('seeded', firstSeq + index),
		job,
		bench: 'seeded',
		seq: firstSeq + index,
		parents: index === 0 ? [] : [eventId('seeded', firstSeq + index - 1)],
		kind,
		data,
		at: new Date(Date.UTC(2026, 0, 1 + day, 9, 2 * index)).toISOString()
	})) as JobEvent[];
}

const HASH = 'fnv:0123456789abcdef';

/** A job cured by the change of one part and closed; the flow itself is not kept, for a row needs none. */
export const curedEntries = (title: string, flow: string, part: string): Entry[] => [
	['started', {}],
	[
		'intake',
		{
			title,
			plan: 'am-fm-shared',
			symptom: { am: 'weak', fm: 'good' },
			history: [],
			instruments: ['meter'],
			playing: true
		}
	],
	['flow-opened', { flow, plan: 'am-fm-shared', hash: HASH }],
	['suspected', { flow, suspect: part }],
	['repairing', { flow }],
	['power', { to: 'unplugged', volts: [1, 0] }],
	['part-changed', { flow, part }],
	['proved', { flow, symptom: 'cured', partWas: 'bad' }],
	['closed', { result: 'mended' }]
];

/** Write the jobs with their rows. The app has to have been open once, so that its database is there. */
export async function seed(page: Page, logs: readonly JobEvent[][]): Promise<void> {
	await page.getByText('Looking for jobs').waitFor({ state: 'hidden' });
	await page.waitForFunction(async () =>
		(await indexedDB.databases()).some(({ name }) => name === 'valvetrail')
	);
	for (let from = 0; from < logs.length; from += 1000) {
		const some = logs.slice(from, from + 1000);
		const written = JSON.stringify({ events: some.flat(), rows: some.map((log) => rowOf(log)) });
		await page.evaluate(async (text) => {
			const { events, rows } = JSON.parse(text) as { events: unknown[]; rows: unknown[] };
			const opened = indexedDB.open('valvetrail');
			await new Promise((done) => (opened.onsuccess = done));
			const writing = opened.result.transaction(['events', 'jobs'], 'readwrite');
			for (const event of events) writing.objectStore('events').put(event);
			for (const row of rows) writing.objectStore('jobs').put(row);
			await new Promise((done) => (writing.oncomplete = done));
			opened.result.close();
		}, written);
	}
}
