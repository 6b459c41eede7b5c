import { beforeAll, describe, expect, test } from 'vitest';
import { standings } from '../../../src/lib/flow/trace.ts';
import { exportJob } from '../../../src/lib/job/file.ts';
import { marksFrom } from '../../../src/lib/job/marks.ts';
import { listingOf, listingsFor, offersFor } from '../../../src/lib/job/part-offers.ts';
import { partsFrom } from '../../../src/lib/job/parts.ts';
import { readJobFile } from '../../../src/lib/job/read-file.ts';
import { replay, type Shelf } from '../../../src/lib/job/replay.ts';
import { reportOf } from '../../../src/lib/job/report.ts';
import { traceIn } from '../../../src/lib/job/shared-evidence.ts';
import { takeSnapshot, type Snapshot } from '../../../src/lib/job/snapshot.ts';
import { plainState, type JobState } from '../../../src/lib/job/state.ts';
import { unprovedChanges, unprovedWords } from '../../../src/lib/job/unproved.ts';
import { shippedLibrary } from '../../library.ts';
import { digest, intake, Log } from './log.ts';

const FLOW = 'weak-on-am-fine-on-fm';
const library = shippedLibrary();
const AVC = {
	part: 'avc-capacitor',
	name: 'C20',
	kind: 'paper' as const,
	suspects: ['avc-leak', 'avc-open']
};
let shot: Snapshot;
let shelf: Shelf;

beforeAll(async () => {
	const [flow, plan] = [library.flows[FLOW], library.plans['am-fm-shared']];
	if (!flow || !plan) throw new Error(FLOW);
	shot = await takeSnapshot(library, flow, plan, digest);
	shelf = { snapshots: { [shot.hash]: shot.library } };
});

const play = (log: Log): JobState => replay(log.events, shelf);
const leaders = (state: JobState) => {
	const now = traceIn(state, FLOW);
	return now ? standings(now) : [];
};
const share = (state: JobState, id: string) =>
	leaders(state).find((one) => one.id === id)?.probability ?? NaN;

/** A job with its flow open and the coupler on the list as C12. */
function listed(more: Partial<ReturnType<typeof listingOf>> = {}): Log {
	const log = new Log();
	log.add('started', {});
	log.add('intake', intake({ plan: 'am-fm-shared' }));
	log.add('flow-opened', { flow: FLOW, plan: 'am-fm-shared', hash: shot.hash });
	log.add('part-listed', {
		part: 'output-coupling',
		name: 'C12',
		kind: 'paper',
		place: 'output',
		duty: 'output-coupling',
		typed: '.05 mfd',
		value: 5e-8,
		rating: '400 V',
		suspects: ['cc-leak', 'cc-open', 'cc-low'],
		...more
	});
	return log;
}
const part = (log: Log, id = 'output-coupling') => partsFrom(play(log).parts).find((one) => one.id === id);

describe('the parts list', () => {
	test('begins with the parts of such sets; one that is listed is offered no more', () => {
		const log = listed();
		const before = offersFor(replay(log.events.slice(0, 3), shelf), library);
		const after = offersFor(play(log), library);
		expect(before.map(({ id }) => id)).toContain('output-coupling');
		expect(after.length).toBe(before.length - 1);
	});

	test('a part named by a person takes the suspects of that place and duty', () => {
		const log = listed();
		const [paper, again, odd] = listingsFor(play(log), library, [
			{ name: 'C20', kind: 'paper', duty: 'avc', value: 1e-7, typed: '.1' },
			{ name: 'c12', kind: 'paper', rating: '600 V' },
			{ name: 'C99', kind: 'mica' }
		]);
		expect(paper).toMatchObject({ part: 'avc-capacitor', name: 'C20', suspects: ['avc-leak', 'avc-open'] });
		expect(again).toMatchObject({ part: 'output-coupling', value: 5e-8, rating: '600 V' });
		expect(odd).toMatchObject({ part: 'own-c99', name: 'C99' });
		expect(odd?.suspects).toBeUndefined();
	});

	test('every offered part can be listed, and none is refused', () => {
		const log = new Log();
		log.add('started', {});
		log.add('intake', intake({ plan: 'am-fm-shared' }));
		const offers = offersFor(replay(log.events, { snapshots: {}, today: library }), library);
		for (const offer of offers) log.add('part-listed', listingOf(offer));
		const state = replay(log.events, { snapshots: {} });
		expect(offers.length).toBeGreaterThan(80);
		expect(partsFrom(state.parts)).toHaveLength(offers.length);
		expect(state.warnings).toEqual([]);
	});

	test('checked, with its value: the reading is kept, and what was before is not told of it', () => {
		const log = listed();
		log.add('part-checked', { part: 'output-coupling', state: 'left', reason: 'changed last year' });
		log.add('part-checked', { part: 'output-coupling', state: 'value', typed: '52n', value: 52e-9 });
		expect(part(log)).toMatchObject({ state: 'value', found: '52 nF', measured: true });
		expect(part(log)?.reason).toBeUndefined();
	});

	test('a part that is not on the list cannot be checked', () => {
		const log = listed();
		log.add('part-checked', { part: 'wormhole', state: 'continuity' });
		expect(play(log).warnings).toMatchObject([
			{ kind: 'refused', message: expect.stringContaining('List it first') as string }
		]);
	});

	test('undo takes back a listing, a check, a test and a change, each by itself', () => {
		const log = listed();
		// The power state is not undone: a change has to come up through the limiter again whatever becomes of it.
		const told = () => {
			const { parts, ledger, trail } = plainState(play(log));
			return { parts, ledger, trail };
		};
		const deeds = [
			() => log.add('part-listed', { part: 'own-r1', name: 'R1', kind: 'resistor' }),
			() => log.add('part-checked', { part: 'own-r1', state: 'continuity' }),
			() => log.add('part-tested', { part: 'output-coupling', listed: 'output-coupling', result: 'bad' }),
			() => log.add('part-changed', { part: 'C12', listed: 'output-coupling', fitted: '47 nF 630 V' })
		];
		const done = deeds.map((deed) => ({ before: told(), id: deed() }));
		for (const { before, id } of done.reverse()) {
			log.undo(id);
			expect(told()).toEqual(before);
		}
	});

	test('taken off the list, it is gone; listed again, it is untouched', () => {
		const log = listed();
		log.add('part-checked', { part: 'output-coupling', state: 'continuity' });
		log.add('part-listed', { part: 'output-coupling', name: 'C12', kind: 'paper', off: true });
		expect(part(log)).toBeUndefined();
		log.add('part-listed', { part: 'output-coupling', name: 'C12', kind: 'paper' });
		expect(part(log)?.state).toBe('untouched');
	});
});

describe('the list and the trace', () => {
	test('tested good: every way in which it fails is nearly cleared', () => {
		const log = listed();
		const before = ['cc-leak', 'cc-open'].map((id) => share(play(log), id));
		log.add('part-tested', {
			part: 'output-coupling',
			listed: 'output-coupling',
			result: 'good',
			found: '500 Mohm'
		});
		const state = play(log);
		expect(share(state, 'cc-leak')).toBeLessThan(before[0]! / 5);
		expect(share(state, 'cc-open')).toBeLessThan(before[1]! / 5);
		expect(state.trail.at(-1)).toMatchObject({ what: 'Tested: C12', answer: 'good; 500 Mohm' });
	});

	test('tested bad, then changed: first certain, then nearly cleared, and with proof', () => {
		const log = listed();
		log.add('part-listed', AVC);
		log.add('part-tested', { part: AVC.part, listed: AVC.part, result: 'bad' });
		const bad = play(log);
		expect(share(bad, 'avc-leak') + share(bad, 'avc-open')).toBeGreaterThan(0.95);
		log.add('part-changed', { part: 'C20', listed: AVC.part, fitted: '47 nF' });
		const changed = play(log);
		expect(share(changed, 'avc-leak') + share(changed, 'avc-open')).toBeLessThan(0.02);
		expect(changed.trail.at(-1)).toMatchObject({ what: 'Changed: C20', answer: 'fitted: 47 nF' });
	});

	test('a flow that is opened later knows what was tested before', () => {
		const log = new Log();
		log.add('started', {});
		log.add('intake', intake({ plan: 'am-fm-shared' }));
		log.add('part-listed', AVC);
		log.add('part-tested', { part: AVC.part, listed: AVC.part, result: 'bad' });
		log.add('flow-opened', { flow: FLOW, plan: 'am-fm-shared', hash: shot.hash });
		expect(share(play(log), 'avc-leak') + share(play(log), 'avc-open')).toBeGreaterThan(0.95);
	});

	test('what a trace tests or changes stands in the list too, and goes with its undo', () => {
		const log = listed();
		log.add('part-tested', { part: 'cc-leak', result: 'bad' });
		expect(part(log)?.state).toBe('bad');
		log.add('suspected', { flow: FLOW, suspect: 'cc-leak' });
		log.add('noted', { text: 'Grid +3 V', part: 'cc-leak' });
		log.add('repairing', { flow: FLOW });
		log.add('power', { to: 'unplugged', volts: [2, 0.5] });
		const changed = log.add('part-changed', { flow: FLOW, part: 'cc-leak', fitted: '47 nF' });
		expect(part(log)).toMatchObject({ state: 'changed', fitted: '47 nF', measured: true });
		log.undo(changed);
		expect(part(log)?.state).toBe('bad');
		expect(play(log).warnings).toEqual([]);
	});

	test('a flow is not disturbed by a part that it does not know', () => {
		const log = listed({ suspects: [] });
		const before = leaders(play(log)).map(({ id }) => id);
		log.add('part-tested', { part: 'output-coupling', listed: 'output-coupling', result: 'bad' });
		expect(leaders(play(log)).map(({ id }) => id)).toEqual(before);
		expect(play(log).warnings).toEqual([]);
	});
});

describe('one change, one proof', () => {
	const change = (log: Log) =>
		log.add('part-changed', { part: 'C12', listed: 'output-coupling', fitted: '47 nF' });

	test('changes without a listen are counted; one listen proves them all', () => {
		const log = listed();
		expect(unprovedWords(play(log))).toBe('');
		change(log);
		expect(unprovedWords(play(log))).toBe('1 unproved change');
		log.add('part-changed', { part: 'dial lamp' });
		expect(unprovedWords(play(log))).toBe('2 unproved changes');
		const heard = log.add('heard', { bands: {}, listened: 'as-before' });
		expect(unprovedChanges(play(log))).toEqual([]);
		log.undo(heard);
		expect(unprovedWords(play(log))).toBe('2 unproved changes');
	});

	test('dead now: the work on that stage leads the list, and the new part is no longer cleared', () => {
		const log = listed();
		log.answer(FLOW, 'listen-am', 'weak');
		const before = leaders(play(log))[0]?.id;
		change(log);
		log.add('heard', { bands: { am: 'none', fm: 'none' }, listened: 'dead', signs: ['worse-since-work'] });
		const state = play(log);
		expect(before).not.toBe('last-work@output');
		expect(leaders(state)[0]?.id).toBe('last-work@output');
		expect(share(state, 'cc-leak')).toBeGreaterThan(0);
		expect(unprovedChanges(state)).toEqual([]);
	});

	test('as before or better blames nobody', () => {
		for (const listened of ['as-before', 'better'] as const) {
			const log = listed();
			change(log);
			log.add('heard', { bands: {}, listened });
			expect(leaders(play(log))[0]?.id).not.toBe('last-work@output');
			expect(share(play(log), 'cc-leak')).toBeLessThan(0.02);
		}
	});

	test('of two changes the one made since the last listen is blamed', () => {
		const log = listed();
		log.add('part-listed', AVC);
		log.add('part-changed', { part: 'C20', listed: 'avc-capacitor' });
		log.add('heard', { bands: {}, listened: 'as-before' });
		change(log);
		log.add('heard', { bands: {}, listened: 'worse' });
		expect(leaders(play(log))[0]?.id).toBe('last-work@output');
		expect(share(play(log), 'avc-leak')).toBeLessThan(0.02);
	});

	test('in the report a change without proof and without a listen stays open', () => {
		const log = listed();
		change(log);
		const lines = (id: string) => reportOf(play(log)).sections.find((one) => one.id === id)?.lines ?? [];
		expect(lines('changed')[0]).toMatchObject({
			text: expect.stringContaining('without proof') as string,
			meaning: expect.stringContaining('not tried again') as string,
			open: true
		});
		expect(lines('parts')[0]).toMatchObject({
			text: expect.stringContaining('changed, without proof') as string,
			open: true
		});
		expect(lines('not-done').map(({ text }) => text)).toContain('Changed: C12: not tested afterwards');
		log.add('heard', { bands: {}, listened: 'better' });
		expect(lines('changed')[0]?.meaning).toBe('heard after it: better');
		expect(lines('not-done').map(({ text }) => text)).not.toContain('Changed: C12: not tested afterwards');
	});
});

describe('marks on a picture', () => {
	const sheet = `sha256:${'a'.repeat(64)}`;
	test('the latest place of a mark holds, a removed one is gone, undo brings it back', () => {
		const log = listed();
		log.add('marked', { sheet, mark: 'm1', x: 0.2, y: 0.3, part: 'output-coupling' });
		log.add('marked', { sheet, mark: 'm1', x: 0.25, y: 0.3, part: 'output-coupling' });
		log.add('marked', { sheet, mark: 'm2', x: 0.5, y: 0.5, point: 'output.grid' });
		const gone = log.add('unmarked', { mark: 'm2' });
		expect(marksFrom(play(log).marks)).toEqual([
			{ sheet, mark: 'm1', x: 0.25, y: 0.3, part: 'output-coupling' }
		]);
		log.undo(gone);
		expect(marksFrom(play(log).marks).map(({ mark }) => mark)).toEqual(['m1', 'm2']);
	});

	test('a file brings list and marks back as they were', async () => {
		const log = listed();
		log.add('marked', { sheet, mark: 'm1', x: 0, y: 1, label: 'reads 210 V' });
		log.add('part-changed', {
			part: 'C12',
			listed: 'output-coupling',
			value: 47e-9,
			rating: '630 V',
			reason: 'leaky'
		});
		const text = await exportJob(log.events, shelf.snapshots, '2026-02-03T04:05:06.000Z');
		const read = await readJobFile(text, digest);
		if (!read.ok) throw new Error(`${read.place}: ${read.hint}`);
		expect(plainState(replay(read.file.events, { snapshots: read.file.flows }))).toEqual(
			plainState(play(log))
		);
	});

	test.each([
		['off the sheet', { x: 1.2, y: 0 }],
		['a sheet that is no hash', { x: 0, y: 0, sheet: 'javascript:alert(1)' }]
	])('a file with a mark %s is refused', async (_, more) => {
		const log = listed();
		log.add('marked', { sheet, mark: 'm1', ...more } as never);
		const read = await readJobFile(
			await exportJob(log.events, shelf.snapshots, '2026-02-03T04:05:06.000Z'),
			digest
		);
		expect(read.ok).toBe(false);
	});
});

test('what the ohmmeter showed on a resistor is kept with it until it is changed', () => {
	const r14 = { part: 'r14', name: 'R14', kind: 'resistor' as const };
	const log = new Log();
	log.add('started', {});
	log.add('intake', intake({ plan: 'am-fm-shared' }));
	log.add('part-listed', r14);
	log.add('part-checked', { part: 'r14', state: 'value', typed: '152', value: 152 });
	expect(partsFrom(play(log).parts)[0]?.reading).toBe(152);
	log.add('part-changed', { part: 'r14', listed: 'r14', fitted: '135 ohm' });
	expect(partsFrom(play(log).parts)[0]?.reading).toBeUndefined();
});
