import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import type { JobEvent } from '../../../src/lib/job/events.ts';
import { LARGEST_OLD_FILE } from '../../../src/lib/job/file-limits.ts';
import type { FileRefusal } from '../../../src/lib/job/file-refused.ts';
import { exportJob } from '../../../src/lib/job/file.ts';
import { readJobFile, type FileResult } from '../../../src/lib/job/read-file.ts';
import type { Imported } from '../../../src/lib/job/store.ts';
import { everything, FLOW } from './everything.ts';
import { replay } from '../../../src/lib/job/replay.ts';
import { fnv1a64 } from '../../../src/lib/job/hash.ts';
import { canonicalText, type Snapshot } from '../../../src/lib/job/snapshot.ts';
import { plainState } from '../../../src/lib/job/state.ts';
import { digest, intake, Log, snapshot } from './log.ts';
import { dexie, flowsIn, value } from './stores.ts';

const WHEN = '2026-02-03T04:05:06.000Z';

let kept: Snapshot;
let log: Log;
let text: string;

beforeAll(async () => {
	kept = await snapshot();
	log = everything(kept);
	text = await readFile(join(import.meta.dirname, 'files/version-1.valvetrail.json'), 'utf8');
});

const read = (given: string): Promise<FileResult> => readJobFile(given, digest);
async function refusalOf(given: string): Promise<FileRefusal> {
	const result = await read(given);
	if (result.ok) throw new Error('It was taken.');
	return result;
}

type Loose = {
	format: string;
	version: number;
	events: Record<string, unknown>[];
	flows: Record<string, Record<string, unknown>>;
	[key: string]: unknown;
};
/** The file after a change of its data. */
function changed(change: (file: Loose) => void): string {
	const file = JSON.parse(text) as Loose;
	change(file);
	return JSON.stringify(file);
}

describe('a job in a file of version 1', () => {
	test('is played without a warning', () => {
		expect(replay(log.events, { snapshots: { [kept.hash]: kept.library } }).warnings).toEqual([]);
	});

	test('reads as the job that it was saved from', async () => {
		expect(await read(text)).toEqual({
			ok: true,
			file: { exported: WHEN, events: log.events, flows: { [kept.hash]: kept.library }, pictures: [] }
		});
	});

	test('taken out, removed and brought in again, it is the same job in the same state', async () => {
		const store = await dexie();
		const result = await read(text);
		if (!result.ok) throw new Error(result.hint);
		const [{ job }] = value(await store.importJobs([result.file])) as [Imported];
		const played = async () => [
			await store.events(job),
			plainState(replay(await store.events(job), { snapshots: await flowsIn(store, job) }))
		];
		const before = await played();
		const out = await exportJob(await store.events(job), await flowsIn(store, job), WHEN);
		value(await store.purge(job));
		const again = await read(out);
		if (!again.ok) throw new Error(again.hint);
		value(await store.importJobs([again.file]));
		expect(await played()).toEqual(before);
	});

	test('made on a page without SHA-256 it is read by any page', async () => {
		const hash = `fnv:${fnv1a64(canonicalText(kept.library))}`;
		const weak = new Log();
		weak.add('started', {});
		weak.add('flow-opened', { flow: FLOW, plan: 'tiny', hash });
		const file = await exportJob(weak.events, { [hash]: kept.library }, WHEN);
		expect((await readJobFile(file, digest)).ok).toBe(true);
		expect((await readJobFile(file, undefined)).ok).toBe(true);
		expect((await readJobFile(text, undefined)).ok).toBe(true);
		const altered = await exportJob(weak.events, { [hash]: { ...kept.library, steps: {} } }, WHEN);
		expect(await readJobFile(altered, undefined)).toMatchObject({
			ok: false,
			place: expect.stringContaining('flow fnv:')
		});
	});
});

const event = (number: number) => `event bench.${number}`;
const refused: [string, (file: Loose) => void, string, string][] = [
	[
		'of another program',
		(f) => void (f.format = 'shopping-list'),
		'the beginning',
		'not a job of this program'
	],
	['of a later version', (f) => void (f.version = 2), 'version', 'is of version 2'],
	['without its date', (f) => void delete f['exported'], 'exported', 'not as it was saved'],
	['without events', (f) => void (f.events = []), 'events', 'not as it was saved'],
	['with something more in it', (f) => void (f['extra'] = 1), 'the beginning', 'not as it was saved'],
	[
		'with an entry of an unknown kind',
		(f) => void (f.events[4]!['kind'] = 'dreamt'),
		`${event(5)}, kind`,
		'"dreamt"'
	],
	[
		'with an entry that is no entry',
		(f) => void (f.events[4] = null as never),
		'event number 5',
		'cannot be read'
	],
	[
		'with data that are missing',
		(f) => void (f.events[4]!['data'] = {}),
		`${event(5)}, data, flow`,
		'cannot be read'
	],
	[
		'with data that do not belong there',
		(f) => void Object.assign(f.events[4]!['data'] as object, { html: '<b>' }),
		`${event(5)}, data`,
		'cannot be read'
	],
	[
		'with a date that is none',
		(f) => void (f.events[4]!['at'] = 'yesterday'),
		`${event(5)}, at`,
		'cannot be read'
	],
	[
		'with a parent that is missing',
		(f) => void (f.events[4]!['parents'] = ['bench.999']),
		event(5),
		'missing from the file'
	],
	[
		'with parents in a ring',
		(f) => void (f.events[4]!['parents'] = ['bench.6']),
		event(5),
		'missing from the file, or follows it'
	],
	[
		'with two beginnings',
		(f) => void f.events.push({ ...f.events[0], id: 'x.1', bench: 'x', seq: 1 }),
		'job job',
		'2 beginnings'
	],
	[
		'with an entry that follows nothing',
		(f) => void (f.events[4]!['parents'] = []),
		event(5),
		'one beginning'
	],
	['with the same entry twice', (f) => void f.events.push(f.events[4]!), event(5), 'Two entries'],
	['with an id that is not its own', (f) => void (f.events[4]!['seq'] = 99), event(5), 'does not go with'],
	['with entries of two jobs', (f) => void (f.events[4]!['job'] = 'other'), event(5), 'another job'],
	['without the flow that it opens', (f) => void (f.flows = {}), event(3), 'not in the file'],
	[
		'with a flow that it never opens',
		(f) => void (f.flows['fnv:0000000000000000'] = Object.values(f.flows)[0]!),
		'flow fnv:',
		'not the one'
	],
	[
		'with a flow that was changed',
		(f) =>
			void ((Object.values(f.flows)[0]!['flows'] as Record<string, { title: string }>)[FLOW]!.title =
				'Other'),
		'flow sha256:',
		'changed since'
	],
	[
		'with a flow that is none',
		(f) => void (Object.values(f.flows)[0]!['flows'] = { [FLOW]: {} }),
		'flow sha256:',
		'cannot be read'
	],
	[
		'that opens a plan which is not there',
		(f) => void ((f.events[2]!['data'] as Record<string, string>)['plan'] = 'other'),
		event(3),
		'not in the file'
	]
];

describe('refused whole, with place and reason', () => {
	test.each(refused)('a file %s', async (_, change, place, reason) => {
		const refusal = await refusalOf(changed(change));
		expect(refusal.place).toContain(place);
		expect(refusal.hint).toContain(reason);
	});

	test('a file that breaks off, with the line where it does', async () => {
		const cut = text.slice(0, text.indexOf('"id":"bench.9"') + 30);
		const lines = cut.split('\n').length;
		const refusal = await refusalOf(cut);
		expect(refusal).toMatchObject({ place: `line ${lines}`, hint: expect.stringContaining('breaks off') });
	});

	test('an entry that cannot be read, with its line', async () => {
		const broken = text.replace('"to":"live"', '"to":"glowing"');
		const line = text.split('\n').findIndex((one) => one.includes('"to":"live"')) + 1;
		expect((await refusalOf(broken)).place).toBe(`line ${line}, event bench.4, data, to`);
	});

	test('what is not JSON at all, or nothing', async () => {
		for (const given of ['', 'Dear friend', '[]', 'null', '7'])
			expect((await refusalOf(given)).hint).toMatch(/damaged|not a job/);
	});

	test('more than 20 MB, before it is looked at', async () => {
		expect(await refusalOf(' '.repeat(LARGEST_OLD_FILE + 1))).toMatchObject({
			place: 'the file',
			hint: expect.stringContaining('20 MB')
		});
		// Two bytes a letter: the limit is on bytes.
		expect((await refusalOf('Ω'.repeat(LARGEST_OLD_FILE / 2 + 1))).place).toBe('the file');
	});

	test('a sum that is nested without end', async () => {
		const deep = changed((f) => {
			const sum = f.events.find(({ kind }) => kind === 'calculated')!;
			(sum['data'] as Record<string, unknown>)['given'] = { x: 'DEEP' };
		}).replace('"DEEP"', `${'['.repeat(50_000)}${']'.repeat(50_000)}`);
		expect((await refusalOf(deep)).hint).toContain('cannot be read');
	});

	test('a flow whose names lead nowhere, even under its right hash', async () => {
		const library = structuredClone(kept.library);
		library.steps['grid-volts']!.expect = { 'cc-leak': { sideways: 'usually' } };
		const hash = `fnv:${fnv1a64(canonicalText(library))}`;
		const events = log.events.map((one) =>
			one.kind === 'flow-opened' ? { ...one, data: { ...one.data, hash } } : one
		) as JobEvent[];
		expect(await refusalOf(await exportJob(events, { [hash]: library }, WHEN))).toMatchObject({
			place: 'flows',
			hint: expect.stringContaining('sideways')
		});
	});

	test.each(['"__proto__"', String.raw`"\u005f_proto_\u005f"`])(
		'a file with the key %s, at any depth; nothing inherits from it',
		async (key) => {
			const evil = changed((f) => {
				const sum = f.events.find(({ kind }) => kind === 'calculated')!;
				(sum['data'] as Record<string, unknown>)['given'] = { x: { KEY: { polluted: 1 } } };
			}).replace('"KEY"', key);
			expect((await refusalOf(evil)).hint).toContain('a key "__proto__"');
			expect(({} as { polluted?: number }).polluted).toBeUndefined();
		}
	);

	test('a file whose words are names of built-ins does no harm', async () => {
		const odd = new Log('constructor', 'toString');
		odd.add('started', {});
		odd.add(
			'intake',
			intake({ title: '__proto__', plan: 'constructor', symptom: { constructor: 'weak' } as never })
		);
		const result = await read(await exportJob(odd.events, {}, WHEN));
		expect(result.ok).toBe(true);
		expect(replay(odd.events, { snapshots: {} }).warnings).toEqual([]);
	});
});

describe('a sheet in a file', () => {
	const sheet = (tap: unknown) =>
		changed(({ events }) => {
			const event = events.find(({ kind }) => kind === 'tallied');
			if (event) (event['data'] as Record<string, unknown>)['provoked'] = { tap };
		});

	test.each<[string, unknown, RegExp]>([
		['more rounds with the fault than tried', [1, 2], /cannot have come in more rounds than were tried/],
		['a negative count', [-1, 0], /cannot be read/],
		['half a round', [1.5, 0], /cannot be read/]
	])('%s is refused whole', async (_, tap, hint) => {
		expect(await refusalOf(sheet(tap))).toMatchObject({
			place: expect.stringContaining('provoked') as string,
			hint: expect.stringMatching(hint) as string
		});
	});
});
