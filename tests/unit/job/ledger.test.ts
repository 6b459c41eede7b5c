import { beforeAll, describe, expect, test } from 'vitest';
import { standings } from '../../../src/lib/flow/trace.ts';
import { exportJob } from '../../../src/lib/job/file.ts';
import { readJobFile } from '../../../src/lib/job/read-file.ts';
import { replay, type Shelf } from '../../../src/lib/job/replay.ts';
import { reportOf } from '../../../src/lib/job/report.ts';
import { traceIn } from '../../../src/lib/job/shared-evidence.ts';
import type { Snapshot } from '../../../src/lib/job/snapshot.ts';
import { plainState, undoTarget, type JobState } from '../../../src/lib/job/state.ts';
import { digest, opened, snapshot, type Log } from './log.ts';

const FLOW = 'am-faint';
let faint: Snapshot;
let shelf: Shelf;

beforeAll(async () => {
	faint = await snapshot(FLOW);
	shelf = { snapshots: { [faint.hash]: faint.library } };
});

const play = (log: Log): JobState => replay(log.events, shelf);
const share = (state: JobState, id: string) => {
	const now = traceIn(state, FLOW);
	return now ? (standings(now).find((one) => one.id === id)?.probability ?? NaN) : NaN;
};
const lineOf = (state: JobState, kind: string) => state.trail.findLast((line) => line.kind === kind);

describe('a part tested on the way', () => {
	test('good: the trail and the report say so, and it is nearly cleared', () => {
		const log = opened(faint);
		const before = share(play(log), 'aerial-open');
		log.add('part-tested', { part: 'aerial-open', result: 'good', found: '12 ohm' });
		const state = play(log);
		expect(state.warnings).toEqual([]);
		expect(share(state, 'aerial-open')).toBeLessThan(before / 5);
		expect(lineOf(state, 'part-tested')).toMatchObject({
			what: 'Tested: aerial coil: open',
			answer: 'good; 12 ohm'
		});
		const found = reportOf(state).sections.find(({ id }) => id === 'found');
		expect(found?.lines.map(({ text }) => text)).toContain('Tested: aerial coil: open: good; 12 ohm');
	});

	test('bad: it is nearly certain', () => {
		const log = opened(faint);
		log.add('part-tested', { part: 'cc-leak', result: 'bad' });
		expect(share(play(log), 'cc-leak')).toBeGreaterThan(0.85);
	});

	test('undo takes it back, whatever stands after it in the trail', () => {
		const log = opened(faint);
		const before = plainState(play(log));
		const tested = log.add('part-tested', { part: 'cc-leak', result: 'bad' });
		expect(undoTarget(play(log))).toBe(tested);
		log.undo(tested);
		expect(plainState(play(log))).toEqual(before);
	});

	test('undo takes back the later of an answer and a test', () => {
		const log = opened(faint);
		const tested = log.add('part-tested', { part: 'cc-leak', result: 'good' });
		const [, answered] = log.answer(FLOW, 'grid-volts', 'zero');
		expect(undoTarget(play(log))).toBe(answered);
		log.undo(answered);
		log.undo(log.events.findLast(({ kind }) => kind === 'took')?.id ?? '');
		expect(undoTarget(play(log))).toBe(tested);
	});

	test('a part that no flow of the job knows is refused with what to do', () => {
		const log = opened(faint);
		log.add('part-tested', { part: 'wormhole', result: 'bad' });
		const { warnings, ledger } = play(log);
		expect(ledger).toEqual([]);
		expect(warnings).toMatchObject([
			{
				kind: 'refused',
				message: expect.stringMatching(/knows the part "wormhole"\. Open the flow/) as string
			}
		]);
	});

	test('good and then bad: the later counts, and the page asks for one more test', () => {
		const log = opened(faint);
		log.add('part-tested', { part: 'cc-leak', result: 'good' });
		log.add('part-tested', { part: 'cc-leak', result: 'bad' });
		const state = play(log);
		expect(share(state, 'cc-leak')).toBeGreaterThan(0.85);
		expect(state.warnings).toMatchObject([
			{
				kind: 'ledger-contradicts',
				message: expect.stringMatching(/tested good and then bad\. The later test counts\./) as string
			}
		]);
	});

	test('tested, changed and tested again contradicts nothing', () => {
		const log = opened(faint);
		log.add('part-tested', { part: 'cc-leak', result: 'bad' });
		log.add('part-changed', { part: 'cc-leak' });
		log.add('part-tested', { part: 'cc-leak', result: 'good' });
		expect(play(log).warnings).toEqual([]);
	});
});

describe('a part changed on the way', () => {
	test('it is nearly cleared, and the next power is on the limiter', () => {
		const log = opened(faint);
		const before = share(play(log), 'aerial-open');
		log.add('part-changed', { part: 'aerial-open', fitted: 'another rod' });
		const state = play(log);
		expect(share(state, 'aerial-open')).toBeLessThan(before / 5);
		expect(state.power.limiterPassed).toBe(false);
		expect(lineOf(state, 'part-changed')?.answer).toBe('fitted: another rod; without proof');
	});

	test('changed after it was tested bad: that is its proof', () => {
		const log = opened(faint);
		log.add('part-tested', { part: 'cc-leak', result: 'bad' });
		log.add('part-changed', { part: 'cc-leak' });
		expect(lineOf(play(log), 'part-changed')?.answer ?? '').not.toContain('without proof');
	});

	test('a part in free words is written down and moves nobody', () => {
		const log = opened(faint);
		const before = share(play(log), 'cc-leak');
		log.add('part-changed', { part: 'dial lamp' });
		expect(play(log).ledger).toEqual([]);
		expect(share(play(log), 'cc-leak')).toBeCloseTo(before, 12);
	});
});

test('a file brings the ledger back as it was', async () => {
	const log = opened(faint);
	log.add('part-tested', { part: 'cc-leak', result: 'good', found: '470 Mohm' });
	log.add('part-changed', { part: 'aerial-open' });
	const text = await exportJob(log.events, shelf.snapshots, '2026-02-03T04:05:06.000Z');
	const read = await readJobFile(text, digest);
	if (!read.ok) throw new Error(`${read.place}: ${read.hint}`);
	expect(plainState(replay(read.file.events, { snapshots: read.file.flows }))).toEqual(plainState(play(log)));
});
