import { beforeAll, describe, expect, test } from 'vitest';
import { reasonsFor } from '../../../src/lib/flow/explain.ts';
import type { Provoked } from '../../../src/lib/flow/terms.ts';
import { standings } from '../../../src/lib/flow/trace.ts';
import { replay, type Shelf } from '../../../src/lib/job/replay.ts';
import { contextOf } from '../../../src/lib/job/run.ts';
import { traceIn } from '../../../src/lib/job/shared-evidence.ts';
import { sheetOf } from '../../../src/lib/job/sheet.ts';
import type { Snapshot } from '../../../src/lib/job/snapshot.ts';
import type { JobState } from '../../../src/lib/job/state.ts';
import { opened, snapshot, volts, type Log } from './log.ts';

const FLOW = 'am-faint';
const STEP = 'own-tap';
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
const tally = (log: Log, provoked: Provoked) => log.add('tallied', { flow: FLOW, step: STEP, provoked });

describe('the sheet of a step in a job', () => {
	test('stands as it was counted last, until it is recorded', () => {
		const log = opened(faint);
		expect(sheetOf(play(log), STEP)).toEqual({});
		tally(log, { tap: [1, 0] });
		tally(log, { tap: [2, 1] });
		expect(sheetOf(play(log), STEP)).toEqual({ tap: [2, 1] });
		log.answer(FLOW, STEP, 'answers', { provoked: { tap: [2, 1] } });
		expect(sheetOf(play(log), STEP)).toEqual({});
	});

	test('leaves no line while it is counted; recorded, the line tells the rounds', () => {
		const log = opened(faint);
		const lines = play(log).trail.length;
		tally(log, { tap: [3, 2] });
		expect(play(log).trail).toHaveLength(lines);
		log.answer(FLOW, STEP, 'answers', { provoked: { tap: [3, 2] } });
		expect(play(log).trail.at(-1)).toMatchObject({
			what: 'Tap the output valve',
			answer: 'The fault came',
			reading: 'Tap it: 2 of 3 rounds'
		});
	});

	test('its rounds weigh, not the single word', () => {
		const shares = [1, 3].map((rounds) => {
			const log = opened(faint);
			log.answer(FLOW, STEP, 'answers', { provoked: { tap: [rounds, rounds] } });
			return share(play(log), 'socket@output');
		});
		expect(shares[1]).toBeGreaterThan(shares[0] ?? NaN);
	});

	test('a recorded word that the rounds contradict is read by the rounds, and told', () => {
		const log = opened(faint);
		log.answer(FLOW, STEP, 'still', { provoked: { tap: [3, 2] } });
		const state = play(log);
		expect(contextOf(state.flows[FLOW]!.run).answers.at(-1)?.outcome).toBe('answers');
		expect(state.warnings).toMatchObject([{ kind: 'reads-otherwise' }]);
	});

	test.each<[string, Provoked, RegExp]>([
		['more rounds with the fault than tried', { tap: [1, 2] }, /Count every round that you tried/],
		['a negative count', { tap: [-1, 0] }, /whole rounds/],
		['a provocation of another step', { warm: [1, 1] }, /Count it at the step that does/]
	])('%s is refused with what to do', (_, provoked, message) => {
		const log = opened(faint);
		tally(log, provoked);
		log.answer(FLOW, STEP, 'answers', { provoked });
		const state = play(log);
		expect(sheetOf(state, STEP)).toEqual({});
		expect(contextOf(state.flows[FLOW]!.run).answers).toEqual([]);
		expect(state.warnings.map((warning) => warning.message)).toEqual([
			expect.stringMatching(message),
			expect.stringMatching(message)
		]);
	});
});

describe('an answer that the person is not sure of', () => {
	const answered = (more: object) => {
		const log = opened(faint);
		log.answer(FLOW, 'grid-volts', 'positive', { reading: volts(3), ...more });
		return play(log);
	};

	test('moves a suspect less than a sure one, and further than none', () => {
		const none = share(play(opened(faint)), 'cc-leak');
		const [sure, unsure] = [share(answered({}), 'cc-leak'), share(answered({ sure: false }), 'cc-leak')];
		expect(unsure).toBeGreaterThan(none);
		expect(unsure).toBeLessThan(sure);
	});

	test('is told as such among the reasons', () => {
		const now = traceIn(answered({ sure: false }), FLOW);
		expect(now && reasonsFor(now, 'cc-leak')[0]?.sentence).toMatch(
			/^Volts on the output grid: 3 V \(positive, not sure\)\./
		);
	});

	test('says so in the trail', () => {
		expect(answered({ sure: false }).trail.at(-1)?.answer).toBe('Positive (not sure)');
	});
});

test('"cannot tell" changes no standing', () => {
	const log = opened(faint);
	const before = traceIn(play(log), FLOW)?.now;
	log.add('took', { flow: FLOW, step: 'grid-volts' });
	log.add('cannot-tell', { flow: FLOW, step: 'grid-volts', reason: 'cannot reach it' });
	expect(traceIn(play(log), FLOW)?.now).toEqual(before);
});

describe('a complaint that comes and goes', () => {
	test('hearing the band play clears less than it does in a steady fault', () => {
		const lowered = [undefined, { am: 'intermittent' as const, fm: 'good' as const }].map((symptom) => {
			const log = opened(faint, symptom ? { symptom } : {});
			// Against "something not listed", which a band that plays hardly moves.
			const odds = () => share(play(log), 'aerial-open') / share(play(log), 'not-listed');
			const before = odds();
			log.answer(FLOW, 'hear-am', 'good');
			return odds() / before;
		});
		expect(lowered[0]).toBeLessThan(0.4);
		expect(lowered[1]).toBeGreaterThan(2 * (lowered[0] ?? NaN));
	});
});
