import { beforeAll, describe, expect, test } from 'vitest';
import { clockStart } from '../../../src/lib/job/clock.ts';
import { replay, type Shelf } from '../../../src/lib/job/replay.ts';
import type { Snapshot } from '../../../src/lib/job/snapshot.ts';
import type { JobState } from '../../../src/lib/job/state.ts';
import { opened, snapshot, type Log } from './log.ts';

const FLOW = 'am-faint';
let faint: Snapshot;
let shelf: Shelf;

beforeAll(async () => {
	faint = await snapshot(FLOW);
	shelf = { snapshots: { [faint.hash]: faint.library } };
});

const play = (log: Log): JobState => replay(log.events, shelf);
const timeOf = (log: Log, id: string) => log.events.find((event) => event.id === id)?.at;
const since = (log: Log, step: string) => {
	const state = play(log);
	const found = state.flows[FLOW]?.run.resolved.steps[step];
	if (!found) throw new Error(step);
	return clockStart(state, step, found);
};

describe('the time of a step under power', () => {
	test('runs from the moment the set came under power', () => {
		const log = opened(faint);
		const on = log.events.at(-1)?.id ?? '';
		expect(since(log, 'grid-volts')).toBe(timeOf(log, on));
	});

	test('goes on from the limiter to full mains, and begins anew after switching off', () => {
		const log = opened(faint);
		log.add('power', { to: 'off' });
		expect(since(log, 'grid-volts')).toBeUndefined();
		const limiter = log.add('power', { to: 'limiter' });
		log.add('power', { to: 'live' });
		expect(since(log, 'grid-volts')).toBe(timeOf(log, limiter));
	});

	test('begins anew where the person starts the clock of the step, and not for other steps', () => {
		const log = opened(faint);
		const on = log.events.at(-1)?.id ?? '';
		const started = log.add('clock-started', { flow: FLOW, step: 'grid-volts' });
		expect(since(log, 'grid-volts')).toBe(timeOf(log, started));
		expect(since(log, 'anode-volts')).toBe(timeOf(log, on));
	});

	test('a clock from before the set was switched off is overtaken', () => {
		const log = opened(faint);
		log.add('clock-started', { flow: FLOW, step: 'grid-volts' });
		log.add('power', { to: 'off' });
		const limiter = log.add('power', { to: 'limiter' });
		expect(since(log, 'grid-volts')).toBe(timeOf(log, limiter));
	});
});

test('a cold step has the time of its own clock only', () => {
	const log = opened(faint);
	expect(since(log, 'coil-ohms')).toBeUndefined();
	const started = log.add('clock-started', { flow: FLOW, step: 'coil-ohms' });
	expect(since(log, 'coil-ohms')).toBe(timeOf(log, started));
});

test('a clock leaves no line in the trail and refuses nothing', () => {
	const log = opened(faint);
	const lines = play(log).trail.length;
	log.add('clock-started', { flow: FLOW, step: 'grid-volts' });
	log.answer(FLOW, 'grid-volts', 'zero');
	expect(play(log).trail).toHaveLength(lines + 1);
	expect(play(log).warnings).toEqual([]);
});
