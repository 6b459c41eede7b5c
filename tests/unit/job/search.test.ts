import { describe, expect, test } from 'vitest';
import { rowAfter, rowAnew, rowOf, emptyRow, type JobRow } from '../../../src/lib/job/row.ts';
import { JobSearch, namesOf, noNames } from '../../../src/lib/job/search.ts';
import { intake, Log } from './log.ts';
import { tiny } from './tiny.ts';

const FLOW = 'am-faint';
const names = namesOf(tiny);

function job(id: string, title: string, write: (log: Log) => void = () => undefined): JobRow {
	const log = new Log('bench', id);
	log.add('started', {});
	log.add('intake', intake({ title }));
	write(log);
	return rowOf(log.events);
}

const cured = job('cured', 'Kitchen set', (log) => {
	log.add('flow-opened', { flow: FLOW, plan: 'tiny', hash: 'fnv:0000000000000000' });
	log.repair(FLOW, 'cc-leak', 'cured');
	log.add('closed', { result: 'mended' });
});
const noted = job('noted', 'Table set', (log) => {
	log.add('noted', { text: 'The Röhre in the left socket wobbles' });
	log.add('part-tested', { part: 'ht-low', result: 'bad', found: '60 mA only' });
});
const aside = job('aside', 'Portable', (log) =>
	log.add('closed', { result: 'set-aside', note: 'no dial glass' })
);
const found = (query: string, shown?: Parameters<JobSearch['find']>[1]) =>
	new JobSearch([cured, noted, aside], names).find(query, shown).map(({ job: id }) => id);

describe('the search over jobs', () => {
	test.each([
		['by its name', 'kitchen', ['cured']],
		['by a valve of its kind', 'el84', ['cured', 'noted', 'aside']],
		['by the kind of set', 'three stages portable', ['aside']],
		['by the part that was changed and its failure', 'coupling leaky', ['cured']],
		['by what was fitted', 'new one', ['cured']],
		['by a part tested on the way, and what was measured', 'rectifier 60 mA', ['noted']],
		['by the complaint', 'faint kitchen', ['cured']],
		['by the flow that it was traced as', 'am faint, fm plays kitchen', ['cured']],
		['by words of a note, with or without accents', 'rohre WOBBLES', ['noted']],
		['by the words of its closing', 'dial glass', ['aside']],
		['by a part of a word', 'porta', ['aside']],
		['only where every word stands', 'kitchen wobbles', []]
	])('finds a job %s', (_, query, jobs) => expect(found(query)).toEqual(jobs));

	test('open, mended and closed jobs are told apart', () => {
		expect(found('', 'open')).toEqual(['noted']);
		expect(found('', 'mended')).toEqual(['cured']);
		expect(found('', 'ended')).toEqual(['aside']);
		expect(found('set', 'mended')).toEqual(['cured']);
	});

	test('a name found in the title stands before the same word in a note', () => {
		const told = job('told', 'Other', (log) => log.add('noted', { text: 'as in the kitchen set' }));
		expect(new JobSearch([told, cured], names).find('kitchen').map(({ job: id }) => id)).toEqual([
			'cured',
			'told'
		]);
	});

	test('without the library the ids still speak', () =>
		expect(new JobSearch([cured], noNames).find('cc leak')).toEqual([cured]));

	test('a row that has grown is read again, and names that came later count', () => {
		const search = new JobSearch([noted], noNames);
		expect(search.find('worn')).toEqual([]);
		expect(search.with([noted], names).find('rectifier: worn')).toEqual([noted]);
		const more = { ...noted, title: 'Green dial', events: noted.events + 1 };
		expect(search.with([more], noNames).find('green')).toEqual([more]);
	});
});

describe('the row of a job', () => {
	test('a cause is kept with the minutes at the bench, long pauses left out', () => {
		const log = new Log();
		log.add('started', {});
		log.repair(FLOW, 'cc-leak', 'cured');
		const minutely = log.events.map((event, index) => ({
			...event,
			at: new Date(Date.UTC(2026, 0, 1, index > 4 ? 5 : 0, index * 2)).toISOString()
		}));
		const { facts, minutes } = rowOf(minutely);
		// Seven steps of two minutes, one of them over five hours of night.
		expect(minutes).toBe(12);
		expect(facts.at(-1)).toMatchObject({ kind: 'cause', suspect: 'cc-leak', was: 'bad', minutes: 12 });
	});

	test('what was undone is found no more, whatever it was', () => {
		const log = new Log();
		log.add('started', {});
		const empty = rowOf(log.events).facts;
		const entries = [
			() => log.add('noted', { text: 'hum at the left' }),
			() => log.add('part-changed', { part: 'mains lead' }),
			() => log.add('closed', { result: 'not-mended', note: 'no transformer' })
		];
		for (const enter of entries) {
			const id = enter();
			expect(rowOf(log.events).facts).toHaveLength(1);
			log.undo(id);
		}
		expect(rowOf(log.events).facts).toEqual(empty);
		expect(rowOf(log.events).closed).toBeUndefined();
	});

	test('a complaint that comes back takes an untested cause with it; a part that was bad stays one', () => {
		for (const [was, left] of [
			['not-tested', 0],
			['bad', 1]
		] as const) {
			const log = new Log();
			log.add('started', {});
			log.repair(FLOW, 'cc-leak', 'cured', was);
			log.add('went-on', { flow: FLOW });
			expect(rowOf(log.events).facts.filter(({ kind }) => kind === 'cause')).toHaveLength(left);
		}
	});

	test('one written by an older program is made again from the events and keeps what the played job said', () => {
		const log = new Log();
		log.add('started', {});
		log.add('intake', intake());
		log.add('noted', { text: 'loose knob' });
		const {
			facts: _,
			minutes: __,
			flows: ___,
			version: ____,
			...before
		} = {
			...rowOf(log.events),
			leading: [{ name: 'Coil: open', word: 'probably' }],
			lastStep: 'Listen to AM'
		};
		const anew = rowAnew(before as JobRow, log.events);
		expect(anew).toEqual({ ...rowOf(log.events), leading: before.leading, lastStep: before.lastStep });
	});

	test('a log of many notes leaves the row small', () => {
		const text = 'x'.repeat(10_000);
		const event = {
			id: 'b.1',
			job: 'j',
			bench: 'b',
			seq: 1,
			parents: [],
			kind: 'noted',
			data: { text },
			at: '2026-01-01T00:00:00Z'
		} as const;
		let row = emptyRow('j');
		for (let index = 0; index < 1000; index++) row = rowAfter(row, { ...event, parents: [] });
		expect(JSON.stringify(row).length).toBeLessThan(100_000);
	});
});
