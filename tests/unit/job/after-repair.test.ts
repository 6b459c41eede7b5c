import { beforeAll, describe, expect, test } from 'vitest';
import { causeGate, causeWanted, listening, offersFor } from '../../../src/lib/job/after-repair.ts';
import { suggest } from '../../../src/lib/flow/advice.ts';
import { replay, type Shelf } from '../../../src/lib/job/replay.ts';
import { stateOf } from '../../../src/lib/job/run.ts';
import { evidenceIn, situationIn, traceIn } from '../../../src/lib/job/shared-evidence.ts';
import type { Snapshot } from '../../../src/lib/job/snapshot.ts';
import { undoTarget, type JobState } from '../../../src/lib/job/state.ts';
import { opened, snapshot, type Log } from './log.ts';
import { tiny, tinyWith } from './tiny.ts';

/** The rectifier of this set fails because of what it feeds. */
const library = tinyWith((now) => {
	now.suspects['ht-low']!.behind = 'Measure the reservoir for leakage.';
});

let faint: Snapshot;
let distorted: Snapshot;
let shelf: Shelf;

beforeAll(async () => {
	[faint, distorted] = [await snapshot('am-faint', library), await snapshot('distorted', library)];
	shelf = { snapshots: { [faint.hash]: faint.library, [distorted.hash]: distorted.library } };
});

const play = (log: Log): JobState => replay(log.events, shelf);
const FLOW = 'am-faint';
const open = (log: Log, flow: string, kept: Snapshot) =>
	log.add('flow-opened', { flow, plan: 'tiny', hash: kept.hash });

describe('the cause behind a part', () => {
	const changed = () => {
		const log = opened(faint);
		log.add('suspected', { flow: FLOW, suspect: 'ht-low' });
		log.add('repairing', { flow: FLOW });
		log.add('power', { to: 'unplugged', volts: [0, 0] });
		log.add('part-changed', { flow: FLOW, part: 'ht-low' });
		return log;
	};

	test('a rectifier was changed: no power before somebody says what was behind it', () => {
		const log = changed();
		expect(causeWanted(play(log))).toMatchObject({
			part: 'ht-low',
			text: 'Measure the reservoir for leakage.'
		});
		expect(causeGate(play(log), 'limiter')).toContain('Look for the cause first');
		expect(causeGate(play(log), 'live')).toContain('rectifier');
		expect(causeGate(play(log), 'off')).toBeUndefined();
		log.add('cause-sought', { flow: FLOW, part: 'ht-low', result: 'found', found: 'reservoir leaks 4 mA' });
		expect(causeGate(play(log), 'limiter')).toBeUndefined();
		expect(play(log).trail.at(-1)?.answer).toContain('reservoir leaks 4 mA');
	});

	test('it is asked again when the same part is changed again', () => {
		const log = changed();
		log.add('cause-sought', { flow: FLOW, part: 'ht-low', result: 'none' });
		log.add('power', { to: 'limiter' });
		log.add('power', { to: 'live' });
		log.add('proved', { flow: FLOW, symptom: 'unchanged', partWas: 'bad' });
		log.add('suspected', { flow: FLOW, suspect: 'ht-low' });
		log.add('repairing', { flow: FLOW });
		log.add('power', { to: 'unplugged', volts: [0, 0] });
		log.add('part-changed', { flow: FLOW, part: 'ht-low' });
		expect(causeWanted(play(log))?.part).toBe('ht-low');
	});

	test('what was written of it is taken back by undo, and asked again', () => {
		const log = changed();
		const told = log.add('cause-sought', { flow: FLOW, part: 'ht-low', result: 'none' });
		expect(undoTarget(play(log))).toBe(told);
		log.undo(told);
		expect(causeWanted(play(log))?.part).toBe('ht-low');
		expect(play(log).warnings).toEqual([]);
	});

	test('a part that fails by itself asks for nothing', () => {
		const log = opened(faint);
		log.repair(FLOW, 'cc-leak', 'cured');
		expect(causeWanted(play(log))).toBeUndefined();
	});
});

describe('the bands after a repair', () => {
	test('after a cure every band is heard before the job is done', () => {
		const log = opened(faint);
		log.repair(FLOW, 'aerial-open', 'cured');
		expect(listening(play(log))).toEqual({ wanted: 'cured' });
		log.add('heard', { bands: { am: 'good', fm: 'good' } });
		expect(listening(play(log))?.heard?.bands).toEqual({ am: 'good', fm: 'good' });
	});

	test('a part that changed nothing leaves the bands as they were', () => {
		const log = opened(faint);
		log.repair(FLOW, 'aerial-open', 'unchanged');
		expect(listening(play(log))).toBeUndefined();
	});

	test('a changed symptom asks what each band does now, until the trace goes on', () => {
		const log = opened(faint);
		log.repair(FLOW, 'aerial-open', 'changed');
		expect(listening(play(log))).toEqual({ wanted: 'changed' });
		log.answer(FLOW, 'hear-am', 'distorted');
		expect(listening(play(log))).toBeUndefined();
	});

	test('both bands distorted by now: the flow for it is offered, with what the job knows of it', () => {
		const log = opened(faint);
		log.answer(FLOW, 'grid-volts', 'zero');
		log.repair(FLOW, 'aerial-open', 'changed');
		log.add('heard', { bands: { am: 'distorted', fm: 'distorted' } });
		const state = play(log);
		const offers = offersFor(library, state, state.heard[0]!);
		expect(offers.map(({ flow, fits }) => [flow.id, fits])).toEqual([['distorted', true]]);
		expect(offers[0]).toMatchObject({ answers: 1, open: false });
		open(log, 'distorted', distorted);
		const now = play(log);
		expect(listening(now)).toBeUndefined();
		expect(evidenceIn(now, now.flows['distorted']!).answers.map(({ step }) => step)).toEqual(['grid-volts']);
	});

	test('where no flow says just that, the nearest are offered', () => {
		const log = opened(faint);
		log.repair(FLOW, 'aerial-open', 'changed');
		log.add('heard', { bands: { am: 'hum', fm: 'good' } });
		const state = play(log);
		const offers = offersFor(library, state, state.heard[0]!);
		expect(offers.length).toBeGreaterThan(0);
		expect(offers.some(({ fits }) => fits)).toBe(false);
	});

	test('what was heard on a band before counts no more once the band does otherwise', () => {
		const log = opened(faint);
		log.answer(FLOW, 'hear-am', 'weak');
		log.add('heard', { bands: { am: 'distorted', fm: 'distorted' } });
		const state = play(log);
		expect(traceIn(state, FLOW)?.answers).toEqual([]);
		expect(situationIn(state, FLOW)?.answered).toEqual([]);
	});
});

describe('two faults', () => {
	test('both are found, nothing that still counts is asked again, and what the first explained is', () => {
		const log = opened(faint);
		const asked: string[] = [];
		const offered = (flow: string) =>
			suggest(traceIn(play(log), flow)!, situationIn(play(log), flow)!).map(({ id }) => id);
		const answer = (flow: string, step: string, outcome: string) => {
			asked.push(step);
			log.answer(flow, step, outcome);
		};
		answer(FLOW, 'hear-am', 'weak');
		answer(FLOW, 'grid-volts', 'positive');
		answer(FLOW, 'anode-volts', 'right');
		log.add('power', { to: 'unplugged', volts: [0, 0] });
		answer(FLOW, 'coil-ohms', 'open');
		log.repair(FLOW, 'aerial-open', 'changed');
		// The coil explains the faint AM and its own ohms, not the grid.
		const counting = traceIn(play(log), FLOW)!.answers.map(({ answer: { step } }) => step);
		expect(counting).toEqual(['grid-volts', 'anode-volts']);
		expect(offered(FLOW).filter((id) => counting.includes(id))).toEqual([]);

		log.add('heard', { bands: { am: 'distorted', fm: 'distorted' } });
		open(log, 'distorted', distorted);
		const first = traceIn(play(log), 'distorted')!;
		expect(first.answers.map(({ answer: { step } }) => step)).toEqual(['grid-volts', 'anode-volts']);
		expect(offered('distorted').filter((id) => asked.includes(id))).toEqual([]);
		expect(first.ids[first.now.indexOf(Math.max(...first.now))]).toBe('cc-leak');
		log.repair('distorted', 'cc-leak', 'cured');
		log.add('heard', { bands: { am: 'good', fm: 'good' } });
		log.add('closed', { result: 'mended' });
		const done = play(log);
		expect(done.warnings).toEqual([]);
		expect(stateOf(done.flows['distorted']!.run)).toBe('cured');
		expect(done.closed?.result).toBe('mended');
	});

	test('a cure explains the bad answers that its part shows, also where the part that came out was good', () => {
		const log = opened(faint);
		log.add('power', { to: 'unplugged', volts: [0, 0] });
		log.answer(FLOW, 'coil-ohms', 'open');
		log.repair(FLOW, 'aerial-open', 'cured', 'good');
		log.add('went-on', { flow: FLOW });
		expect(traceIn(play(log), FLOW)?.answers).toEqual([]);
	});
});

test('the flow that a job stands in is marked among those offered', () => {
	const log = opened(faint);
	log.repair(FLOW, 'cc-leak', 'cured');
	log.add('heard', { bands: { am: 'weak', fm: 'good' } });
	const state = play(log);
	expect(offersFor(tiny, state, state.heard[0]!)[0]).toMatchObject({ open: true, fits: true });
});
