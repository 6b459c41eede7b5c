import { beforeAll, describe, expect, test } from 'vitest';
import { beginsWith } from '../../../src/lib/flow/standing-words.ts';
import { causesIn, ownJobsFor, tallyOf } from '../../../src/lib/job/experience.ts';
import { replay } from '../../../src/lib/job/replay.ts';
import { rowOf, type JobRow } from '../../../src/lib/job/row.ts';
import { traceIn } from '../../../src/lib/job/shared-evidence.ts';
import type { Snapshot } from '../../../src/lib/job/snapshot.ts';
import { plainState } from '../../../src/lib/job/state.ts';
import type { EventData } from '../../../src/lib/job/events.ts';
import { Log, opened, snapshot } from './log.ts';

const FLOW = 'am-faint';
let kept: Snapshot;
beforeAll(async () => {
	kept = await snapshot();
});

function closedJob(
	id: string,
	cause: string,
	was: EventData['proved']['partWas'] = 'bad',
	more: { open?: true } = {}
): JobRow {
	const log = new Log('bench', id);
	log.add('started', {});
	log.repair(FLOW, cause, 'cured', was);
	if (!more.open) log.add('closed', { result: 'mended' });
	return rowOf(log.events);
}

describe('the tally of own jobs', () => {
	const rows = [
		closedJob('a', 'cc-leak'),
		closedJob('b', 'socket@output'),
		closedJob('c', 'socket@fm-front'),
		closedJob('d', 'socket@output', 'not-tested'),
		closedJob('e', 'cc-leak', 'good'),
		closedJob('f', 'cc-leak', 'bad', { open: true })
	];

	test('counts closed jobs whose part was bad, untested ones apart, and no part that was good', () => {
		expect(causesIn(rows).map(({ job }) => job)).toEqual(['a', 'b', 'c', 'd']);
		expect(ownJobsFor(rows, FLOW)).toEqual({
			proved: { 'cc-leak': 1, 'socket@fm-front': 1, 'socket@output': 1 },
			untested: { 'socket@output': 1 }
		});
		expect(ownJobsFor(rows, 'distorted')).toEqual({ proved: {}, untested: {} });
	});

	test('the job that asks does not count itself', () =>
		expect(ownJobsFor(rows, FLOW, 'a').proved['cc-leak']).toBeUndefined());

	test('by complaint and kind of part, all its places together, the commonest first', () => {
		expect(tallyOf(rows)).toMatchObject([
			{
				flow: FLOW,
				jobs: 4,
				of: ['a', 'b', 'c', 'd'],
				causes: [
					{ family: 'socket', places: ['socket@output', 'socket@fm-front'], proved: 2, untested: 1 },
					{ family: 'cc-leak', proved: 1, untested: 0 }
				]
			}
		]);
	});

	test('the minutes of a cause are its middle, least and most', () => {
		const timed = rows.slice(1, 4).map((row, index) => ({
			...row,
			facts: row.facts.map((fact) =>
				fact.kind === 'cause' ? { ...fact, minutes: [90, 30, 60][index]! } : fact
			)
		}));
		expect(tallyOf(timed)[0]?.causes[0]?.minutes).toEqual({ middle: 60, from: 30, to: 90 });
	});
});

describe('own jobs in a trace', () => {
	const play = (log: Log) => replay(log.events, { snapshots: { [kept.hash]: kept.library } });
	const share = (log: Log, id: string) => {
		const now = traceIn(play(log), FLOW)!;
		return now.words[now.ids.indexOf(id)]!;
	};

	test('move the weights by the rule: twenty jobs are worth the words of the flow', () => {
		const log = opened(kept, { history: [] });
		const [coil, leak] = [share(log, 'aerial-open'), share(log, 'cc-leak')];
		log.add('experience', { flow: FLOW, proved: { 'cc-leak': 20 }, untested: {} });
		// 0.96 is what "not listed" leaves to the suspects.
		expect(share(log, 'cc-leak')).toBeCloseTo((((leak / 0.96) * 20 + 20) / 40) * 0.96, 12);
		expect(share(log, 'aerial-open')).toBeCloseTo(coil / 2, 12);
	});

	test('an untested part counts half, and a cause that this set has not says nothing', () => {
		const log = opened(kept, { history: [] });
		const leak = share(log, 'cc-leak');
		log.add('experience', { flow: FLOW, proved: { elsewhere: 50 }, untested: { 'cc-leak': 10 } });
		expect(share(log, 'cc-leak')).toBeCloseTo((((leak / 0.96) * 20 + 5) / 25) * 0.96, 12);
	});

	test('are told on the suspect, and taken back by undo or by an empty table', () => {
		const log = opened(kept);
		const before = plainState(play(log));
		const told = () => beginsWith(traceIn(play(log), FLOW)!, 'cc-leak').join(' ');
		const said = log.add('experience', {
			flow: FLOW,
			proved: { 'cc-leak': 2, 'aerial-open': 5 },
			untested: { 'cc-leak': 1 }
		});
		expect(told()).toContain('In your 8 jobs with this complaint it was the cause in 3. 1 of these untested');
		log.add('experience', { flow: FLOW, proved: {}, untested: {} });
		expect(told()).not.toContain('your');
		log.undo(log.events.at(-1)!.id);
		log.undo(said);
		expect(plainState(play(log))).toEqual(before);
	});

	test('of another complaint say nothing here', () => {
		const log = opened(kept);
		const leak = share(log, 'cc-leak');
		log.add('experience', { flow: 'distorted', proved: { 'cc-leak': 50 }, untested: {} });
		expect(share(log, 'cc-leak')).toBe(leak);
	});
});
