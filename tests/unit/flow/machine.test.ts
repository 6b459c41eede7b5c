import { describe, expect, test } from 'vitest';
import { stepState } from '../../../src/lib/flow/compile.ts';
import type { Findings, MachineContext, MachineEvent } from '../../../src/lib/flow/machine-types.ts';
import { contextOf, powerTo, send, startRun, stateOf, takeStep, type Run } from '../../../src/lib/job/run.ts';
import { shipped } from '../../library.ts';

const resolved = shipped('distorted-output-valve-hot', 'am-fm-shared');
const start = (playing = true) => startRun(resolved, { playing });

function must(run: Run, ...events: MachineEvent[]): Run {
	return events.reduce((now, event) => {
		const next = send(now, event);
		if (!next) throw new Error(`${event.type} is refused in ${stateOf(now)}`);
		return next;
	}, run);
}

const findings = ({
	answers,
	unavailable,
	skipped,
	mended,
	suspect,
	wanted,
	prepared
}: MachineContext): Findings => ({
	answers,
	unavailable,
	skipped,
	mended,
	suspect,
	wanted,
	prepared
});

const answer = (step: string, outcome: string) => (run: Run) =>
	must(takeStep(run, step), { type: 'ANSWER', outcome });

describe('answers', () => {
	test('an answer keeps its reading, what was typed and the power state', () => {
		const run = must(takeStep(start(), 'v-og'), {
			type: 'ANSWER',
			outcome: 'positive',
			typed: '+1,2',
			reading: 1.2
		});
		expect(stateOf(run)).toBe('choosing');
		expect(contextOf(run).answers).toEqual([
			{ step: 'v-og', outcome: 'positive', typed: '+1,2', reading: 1.2, power: 'live' }
		]);
	});

	test('a reading outside the band of its outcome is refused', () => {
		expect(
			send(takeStep(start(), 'v-og'), { type: 'ANSWER', outcome: 'zero', reading: 1.2 })
		).toBeUndefined();
	});

	test('an outcome that the step does not have is refused', () => {
		expect(send(takeStep(start(), 'v-og'), { type: 'ANSWER', outcome: 'purple' })).toBeUndefined();
	});

	test('cannot tell keeps its reason; skip keeps the step for later', () => {
		const run = must(takeStep(start(), 'v-og'), { type: 'CANNOT_TELL', reason: 'pin out of reach' });
		expect(contextOf(run).unavailable).toEqual([{ step: 'v-og', reason: 'pin out of reach' }]);
		expect(contextOf(must(takeStep(run, 'v-ok'), { type: 'SKIP' })).skipped).toEqual(['v-ok']);
	});

	test('another step can be taken from within a step', () => {
		expect(stateOf(must(takeStep(start(), 'v-og'), { type: 'TAKE', step: 'v-ok' }))).toBe(stepState('v-ok'));
	});
});

describe('gates', () => {
	test('a live step on a cold set opens the gate, not the step', () => {
		const run = must(start(), { type: 'TAKE', step: 'v-og' });
		expect(stateOf(run)).toBe('gate');
		expect(stateOf(must(run, { type: 'POWER', to: 'live' }))).toBe(stepState('v-og'));
	});

	test('a set that did not play goes through the limiter first', () => {
		const run = must(start(false), { type: 'TAKE', step: 'v-og' });
		expect(send(run, { type: 'POWER', to: 'live' })).toBeUndefined();
		expect(stateOf(must(run, { type: 'POWER', to: 'limiter' }, { type: 'POWER', to: 'live' }))).toBe(
			stepState('v-og')
		);
	});

	test('a lamp that stayed bright has passed nothing: switched off from the limiter, full mains stay shut', () => {
		const bright = must(start(false), { type: 'POWER', to: 'limiter' }, { type: 'POWER', to: 'off' });
		expect(send(bright, { type: 'POWER', to: 'live' })).toBeUndefined();
	});

	test('40 V at the reservoir is not dead, 3 V and 1 V are', () => {
		const live = powerTo(start(), 'live');
		expect(send(live, { type: 'POWER', to: 'unplugged', volts: [40, 2] })).toBeUndefined();
		expect(contextOf(must(live, { type: 'POWER', to: 'unplugged', volts: [3, 1] })).power).toBe('unplugged');
	});

	test('switched off is not proved dead: a step that touches the chassis stays shut', () => {
		const off = must(powerTo(start(), 'live'), { type: 'POWER', to: 'off' }, { type: 'TAKE', step: 'r-ot' });
		expect(stateOf(off)).toBe('gate');
	});

	test('only looking is allowed on a set that is merely off', () => {
		const step = Object.entries(resolved.steps).find(([, s]) => s.power === 'unplugged' && s['hands-off']);
		if (!step) throw new Error('The flow has no step that is only looking.');
		expect(stateOf(must(start(), { type: 'TAKE', step: step[0] }))).toBe(stepState(step[0]));
	});

	test('a lead is lifted on the dead set, the reading taken live', () => {
		const run = must(powerTo(start(), 'live'), { type: 'TAKE', step: 'v-lift' });
		expect(stateOf(run)).toBe('gate');
		expect(send(run, { type: 'PREPARED' })).toBeUndefined();
		const lifted = must(run, { type: 'POWER', to: 'unplugged', volts: [0, 0] }, { type: 'PREPARED' });
		expect(stateOf(lifted)).toBe('gate');
		expect(stateOf(must(lifted, { type: 'POWER', to: 'live' }))).toBe(stepState('v-lift'));
	});

	test('switching off within a step leaves the step', () => {
		const run = must(takeStep(start(), 'v-og'), { type: 'POWER', to: 'off' });
		expect(stateOf(run)).toBe('gate');
		expect(send(run, { type: 'ANSWER', outcome: 'zero' })).toBeUndefined();
	});

	test('after a red anode no live step opens before the limiter', () => {
		const red = answer('glance', 'anode-red')(start());
		expect(stateOf(must(red, { type: 'TAKE', step: 'v-og' }))).toBe('gate');
		const proved = must(
			red,
			{ type: 'TAKE', step: 'v-og' },
			{ type: 'POWER', to: 'limiter' },
			{ type: 'POWER', to: 'live' }
		);
		expect(stateOf(proved)).toBe(stepState('v-og'));
	});
});

describe('repair', () => {
	const repairing = must(
		powerTo(start(), 'live'),
		{ type: 'SUSPECT', suspect: 'cc-leak' },
		{ type: 'REPAIR' }
	);

	test('no part is changed on a set that is not proved dead', () => {
		expect(send(repairing, { type: 'CHANGED' })).toBeUndefined();
	});

	test('after a change the next power is on the limiter', () => {
		const changed = must(powerTo(repairing, 'unplugged'), { type: 'CHANGED' });
		expect(stateOf(changed)).toBe('proving');
		expect(send(changed, { type: 'POWER', to: 'live' })).toBeUndefined();
		expect(contextOf(powerTo(changed, 'live')).power).toBe('live');
	});

	const proving = powerTo(must(powerTo(repairing, 'unplugged'), { type: 'CHANGED' }), 'live');

	test('the proof waits for full mains', () => {
		const cold = must(powerTo(repairing, 'unplugged'), { type: 'CHANGED' });
		expect(send(cold, { type: 'PROVE', symptom: 'cured', partWas: 'bad' })).toBeUndefined();
	});

	test('cured ends the trace and remembers the part; it can go on', () => {
		const cured = must(proving, { type: 'PROVE', symptom: 'cured', partWas: 'bad' });
		expect(stateOf(cured)).toBe('cured');
		expect(contextOf(cured).suspect).toBe('cc-leak');
		expect(stateOf(must(cured, { type: 'GO_ON' }))).toBe('choosing');
	});

	test.each(['unchanged', 'changed'] as const)(
		'symptom %s: the trace goes on without that part',
		(symptom) => {
			const on = must(proving, { type: 'PROVE', symptom, partWas: 'good' });
			expect(stateOf(on)).toBe('choosing');
			expect(contextOf(on).mended).toEqual([{ suspect: 'cc-leak', was: 'good', after: 0 }]);
		}
	);

	test('what is not a suspect of this trace cannot be condemned', () => {
		expect(send(start(), { type: 'SUSPECT', suspect: 'flux-capacitor' })).toBeUndefined();
	});
});

describe('undo', () => {
	test('n answers and n undos give the findings before, and the power state as it is now', () => {
		const before = answer('v-og', 'positive')(powerTo(start(), 'live'));
		const after = [answer('v-ok', 'high'), answer('r-ot', 'as-usual'), answer('v-lift', 'zero')].reduce(
			(run, go) => go(run),
			before
		);
		const steps = contextOf(after).past.length - contextOf(before).past.length;
		const back = Array.from({ length: steps }, (): MachineEvent => ({ type: 'UNDO' })).reduce(
			(run, event) => must(run, event),
			after
		);
		expect(findings(contextOf(back))).toEqual(findings(contextOf(before)));
		expect(contextOf(back).power).toBe('live');
		expect(stateOf(back)).toBe('choosing');
	});

	test('undo into a step that wants another power state opens its gate', () => {
		const cold = powerTo(answer('v-og', 'zero')(start()), 'unplugged');
		const back = must(cold, { type: 'UNDO' });
		expect(stateOf(back)).toBe('gate');
		expect(contextOf(back)).toMatchObject({ wanted: 'v-og', power: 'unplugged', answers: [] });
	});

	test('there is nothing to undo at the start', () => {
		expect(send(start(), { type: 'UNDO' })).toBeUndefined();
	});

	test('undoing a change of a part does not undo the demand for the limiter', () => {
		const changed = must(
			powerTo(must(start(), { type: 'SUSPECT', suspect: 'cc-leak' }, { type: 'REPAIR' }), 'unplugged'),
			{ type: 'CHANGED' }
		);
		expect(contextOf(must(changed, { type: 'UNDO' })).limiterPassed).toBe(false);
	});
});
