import { beforeAll, describe, expect, test } from 'vitest';
import { standings } from '../../../src/lib/flow/trace.ts';
import type { JobEvent } from '../../../src/lib/job/events.ts';
import { replay, reopened, type Shelf } from '../../../src/lib/job/replay.ts';
import { contextOf, stateOf } from '../../../src/lib/job/run.ts';
import { situationIn, traceIn } from '../../../src/lib/job/shared-evidence.ts';
import { loadReckoning } from '../../../src/lib/job/set-reckoning.ts';
import type { Snapshot } from '../../../src/lib/job/snapshot.ts';
import { plainState, undoTarget, type JobState } from '../../../src/lib/job/state.ts';
import { everything } from './everything.ts';
import { Log, opened, snapshot, volts } from './log.ts';
import { tiny, tinyWith } from './tiny.ts';

let faint: Snapshot;
let distorted: Snapshot;
let shelf: Shelf;

beforeAll(async () => {
	[faint, distorted] = [await snapshot('am-faint'), await snapshot('distorted')];
	shelf = { snapshots: { [faint.hash]: faint.library, [distorted.hash]: distorted.library } };
});

const play = (log: Log): JobState => replay(log.events, shelf);
const FLOW = 'am-faint';

test('a log played entry by entry, as it grows, stands where it stands when it is played at once', async () => {
	const { events } = everything(faint);
	await loadReckoning();
	const growing = { snapshots: { ...shelf.snapshots } };
	for (const place of events.keys()) {
		const some = events.slice(0, place + 1);
		const atOnce = replay(some, { snapshots: { ...shelf.snapshots } });
		expect(plainState(replay(some, growing))).toEqual(plainState(atOnce));
	}
});

describe('a log is played', () => {
	test('an answer stands in words with its reading and what it taught', () => {
		const log = opened(faint);
		log.answer(FLOW, 'grid-volts', 'positive', { reading: volts(1.2) });
		const state = play(log);
		expect(state.warnings).toEqual([]);
		expect(state.trail.map(({ what }) => what)).toEqual([
			'Job opened',
			'Taken in: Table set, green dial',
			'Flow opened: AM faint, FM plays',
			'Set live, on full supply',
			'Volts on the output grid'
		]);
		expect(state.trail.at(-1)).toMatchObject({
			answer: 'Positive',
			reading: '1.2 V',
			learnt: 'Something feeds the grid.',
			undone: false
		});
		expect(state.trail[2]?.learnt).toContain('AM is faint, FM plays well');
		expect(contextOf(state.flows[FLOW]!.run).answers).toEqual([
			{ step: 'grid-volts', outcome: 'positive', typed: '1.2 V', reading: 1.2, power: 'live' }
		]);
	});

	test('the order in which events are handed over is irrelevant', () => {
		const log = opened(faint);
		log.answer(FLOW, 'hear-am', 'weak');
		log.answer(FLOW, 'grid-volts', 'zero', { reading: volts(0) });
		log.add('noted', { text: 'Dial cord is new' });
		const forwards = plainState(play(log));
		for (const shuffled of [
			[...log.events].reverse(),
			[...log.events].sort((a, b) => a.kind.localeCompare(b.kind))
		])
			expect(plainState(replay(shuffled, shelf))).toEqual(forwards);
	});

	test('a bench whose clock runs backwards plays the same', () => {
		const log = opened(faint);
		log.answer(FLOW, 'hear-am', 'weak');
		const backwards = log.events.map((event, index) => ({
			...event,
			at: new Date(Date.UTC(2026, 0, 1) - index).toISOString()
		}));
		const contexts = [log.events, backwards].map((events) =>
			contextOf(replay(events, shelf).flows[FLOW]!.run)
		);
		expect(contexts[1]).toEqual(contexts[0]);
	});

	test('the tenth event of a bench follows the ninth', () => {
		const log = opened(faint);
		for (let count = 0; count < 8; count++) log.add('noted', { text: String(count) }, ['bench.1']);
		expect(play(log).notes.map(({ text }) => text)).toEqual(['0', '1', '2', '3', '4', '5', '6', '7']);
	});

	test('cannot tell and put off stand in the trail', () => {
		const log = opened(faint);
		log.add('took', { flow: FLOW, step: 'hear-am' });
		log.add('cannot-tell', { flow: FLOW, step: 'hear-am', reason: 'no station by day' });
		log.add('took', { flow: FLOW, step: 'anode-volts' });
		log.add('skipped', { flow: FLOW, step: 'anode-volts' });
		const state = play(log);
		expect(state.trail.slice(-2).map(({ answer }) => answer)).toEqual([
			'cannot tell; no station by day',
			'put off'
		]);
		expect(situationIn(state, FLOW)).toMatchObject({ unavailable: ['hear-am'], skipped: ['anode-volts'] });
	});

	test('a flow of the job can have any name, even that of a built-in', () => {
		const log = opened(faint);
		log.add('took', { flow: 'constructor', step: 'hear-am' });
		log.add('took', { flow: FLOW, step: 'constructor' });
		expect(play(log).warnings.map(({ kind }) => kind)).toEqual(['refused', 'refused']);
	});
});

describe('undo', () => {
	const answers: [string, string, number?][] = [
		['hear-am', 'weak'],
		['grid-volts', 'positive', 1.5],
		['anode-volts', 'low', 150],
		['hear-am', 'good']
	];

	test.each([1, 2, 3, 4])('%i answers and as many undos leave the job as it was', (count) => {
		const log = opened(faint);
		const before = plainState(play(log));
		const given = answers
			.slice(0, count)
			.flatMap(([step, outcome, value]) =>
				log.answer(FLOW, step, outcome, value === undefined ? {} : { reading: volts(value) })
			);
		expect(plainState(play(log))).not.toEqual(before);
		for (const target of given.reverse()) {
			expect(undoTarget(play(log))).toBe(target);
			log.undo(target);
		}
		const after = play(log);
		expect(plainState(after)).toEqual(before);
		expect(after.trail.filter(({ undone }) => undone)).toHaveLength(count);
	});

	test('a repair is taken back whole, but the power and the demand for the limiter stay', () => {
		const log = opened(faint);
		log.answer(FLOW, 'hear-am', 'weak');
		const before = plainState(play(log));
		log.repair(FLOW, 'aerial-open', 'unchanged');
		log.add('power', { to: 'unplugged', volts: [1, 1] });
		log.repair(FLOW, 'cc-leak', 'unchanged');
		for (
			let target = undoTarget(play(log));
			target && target !== log.events[5]?.id;
			target = undoTarget(play(log))
		)
			log.undo(target);
		const after = plainState(play(log));
		const findings = ({
			context: { power: _, limiterPassed: __, ...rest },
			...flow
		}: (typeof after.flows)[0]) => ({ ...flow, rest });
		expect(after.flows.map(findings)).toEqual(before.flows.map(findings));
		expect(after.trail.filter(({ kind }) => kind !== 'power')).toEqual(
			before.trail.filter(({ kind }) => kind !== 'power')
		);
		expect(after.power.partChanged).toBe(true);
	});

	test('only the last entry of a flow can be undone', () => {
		const log = opened(faint);
		const [, first] = log.answer(FLOW, 'hear-am', 'weak');
		log.answer(FLOW, 'grid-volts', 'zero');
		const before = plainState(play(log)).flows;
		log.undo(first);
		const state = play(log);
		expect(plainState(state).flows).toEqual(before);
		expect(state.warnings).toMatchObject([{ kind: 'refused' }]);
	});

	test('a note and the closing of the job are taken back by themselves', () => {
		const log = opened(faint);
		const before = plainState(play(log));
		const note = log.add('noted', { text: 'wrong set' });
		const closing = log.add('closed', { result: 'set-aside' });
		expect(play(log)).toMatchObject({ closed: { result: 'set-aside' }, notes: [{ text: 'wrong set' }] });
		log.undo(note);
		log.undo(closing);
		expect(plainState(play(log))).toEqual(before);
		log.undo(note);
		expect(play(log).warnings).toHaveLength(1);
	});

	test('the power state is never undone', () => {
		const log = opened(faint);
		log.undo(log.events.at(-1)!.id);
		expect(play(log)).toMatchObject({ power: { now: 'live' }, warnings: [{ kind: 'refused' }] });
	});
});

describe('power', () => {
	test('is one for the set: every open flow knows it', () => {
		const log = opened(faint);
		log.add('flow-opened', { flow: 'distorted', plan: 'tiny', hash: distorted.hash });
		log.add('power', { to: 'unplugged', volts: [3, 1] });
		const powers = Object.values(play(log).flows).map(({ run }) => contextOf(run).power);
		expect(powers).toEqual(['unplugged', 'unplugged']);
	});

	test('40 V at the reservoir are not dead', () => {
		const log = opened(faint);
		log.add('power', { to: 'unplugged', volts: [40, 2] });
		const state = play(log);
		expect(state.power.now).toBe('live');
		expect(state.warnings[0]?.message).toContain('discharge again');
		expect(state.trail.at(-1)).toMatchObject({ reading: '40 V at the reservoir, 2 V after the smoothing' });
	});

	test('a set that did not play comes up on the limiter first', () => {
		const log = opened(faint, { playing: false });
		expect(play(log)).toMatchObject({ power: { now: 'off' }, warnings: [{ kind: 'refused' }] });
		log.add('power', { to: 'limiter' });
		log.add('power', { to: 'live' });
		expect(play(log).power.now).toBe('live');
	});

	test('a part changed in one flow sends every flow through the limiter', () => {
		const log = opened(faint);
		log.add('flow-opened', { flow: 'distorted', plan: 'tiny', hash: distorted.hash });
		log.add('suspected', { flow: FLOW, suspect: 'aerial-open' });
		log.add('repairing', { flow: FLOW });
		log.add('power', { to: 'unplugged', volts: [0, 0] });
		log.add('part-changed', { flow: FLOW, part: 'aerial coil' });
		log.add('power', { to: 'live' });
		const state = play(log);
		expect(state.power.now).toBe('unplugged');
		expect(Object.values(state.flows).map(({ run }) => contextOf(run).limiterPassed)).toEqual([false, false]);
		log.add('power', { to: 'limiter' });
		log.add('power', { to: 'live' });
		expect(Object.values(play(log).flows).map(({ run }) => contextOf(run).power)).toEqual(['live', 'live']);
	});

	test('a part changed outside a flow asks for the limiter too', () => {
		const log = opened(faint);
		log.add('power', { to: 'unplugged', volts: [0, 0] });
		log.add('part-changed', { part: 'mains lead' });
		expect(play(log).power).toEqual({ now: 'unplugged', limiterPassed: false, partChanged: true });
	});

	test('a job opened again is off, and not proved dead', () => {
		const log = opened(faint);
		log.answer(FLOW, 'grid-volts', 'zero');
		log.add('power', { to: 'unplugged', volts: [1, 1] });
		log.add('took', { flow: FLOW, step: 'coil-ohms' });
		expect(stateOf(play(log).flows[FLOW]!.run)).toBe('step:coil-ohms');
		const power = reopened(play(log));
		expect(power).toEqual({ to: 'off' });
		log.add('power', power!);
		const state = play(log);
		expect(reopened(state)).toBeUndefined();
		expect(stateOf(state.flows[FLOW]!.run)).toBe('gate');
		expect(contextOf(state.flows[FLOW]!.run).wanted).toBe('coil-ohms');
	});

	test('a connection is made with the set dead before the reading is taken live', () => {
		const log = opened(faint);
		log.add('took', { flow: FLOW, step: 'grid-lifted' });
		log.add('power', { to: 'unplugged', volts: [0, 0] });
		log.add('prepared', { flow: FLOW });
		log.add('power', { to: 'live' });
		log.add('answered', { flow: FLOW, step: 'grid-lifted', outcome: 'gone', sure: false });
		const state = play(log);
		expect(state.warnings).toEqual([]);
		expect(state.trail.at(-1)?.answer).toBe('Gone (not sure)');
	});
});

describe('several flows on one set', () => {
	test('an answer counts in every flow that has its step', () => {
		const log = opened(faint);
		log.answer(FLOW, 'grid-volts', 'positive', { reading: volts(2) });
		log.add('flow-opened', { flow: 'distorted', plan: 'tiny', hash: distorted.hash });
		const state = play(log);
		expect(state.open).toBe('distorted');
		expect(standings(traceIn(state, 'distorted')!)[0]?.id).toBe('cc-leak');
		expect(situationIn(state, 'distorted')!.answered).toEqual([{ step: 'grid-volts', outcome: 'positive' }]);
	});

	test('a part that cured one symptom is no suspect of the next', () => {
		const log = opened(faint);
		log.answer(FLOW, 'grid-volts', 'positive', { reading: volts(2) });
		log.repair(FLOW, 'cc-leak', 'cured');
		log.add('flow-opened', { flow: 'distorted', plan: 'tiny', hash: distorted.hash });
		const state = play(log);
		const of = (flow: string) =>
			standings(traceIn(state, flow)!).find(({ id }) => id === 'cc-leak')?.probability;
		expect(of('distorted')).toBe(0);
		expect(of(FLOW)).toBeGreaterThan(0.4);
		// The reading that the old part explains may be taken again.
		expect(situationIn(state, 'distorted')!.reopened).toEqual(['grid-volts']);
	});

	test('a step answered again counts once, with its latest answer', () => {
		const log = opened(faint);
		log.answer(FLOW, 'hear-am', 'none');
		log.answer(FLOW, 'grid-volts', 'zero');
		log.answer(FLOW, 'hear-am', 'weak');
		expect(traceIn(play(log), FLOW)!.answers.map(({ answer }) => [answer.step, answer.outcome])).toEqual([
			['grid-volts', 'zero'],
			['hear-am', 'weak']
		]);
	});

	test('a flow opened anew from another snapshot keeps what was answered', async () => {
		const newer = await snapshot(
			FLOW,
			tinyWith(({ flows }) => void (flows[FLOW]!.title = 'AM faint'))
		);
		const log = opened(faint);
		log.answer(FLOW, 'hear-am', 'weak');
		log.add('flow-opened', { flow: FLOW, plan: 'tiny', hash: newer.hash });
		const state = replay(log.events, { snapshots: { ...shelf.snapshots, [newer.hash]: newer.library } });
		expect(state.flows[FLOW]!.run.resolved.flow.title).toBe('AM faint');
		expect(situationIn(state, FLOW)!.answered).toEqual([{ step: 'hear-am', outcome: 'weak' }]);
	});
});

describe('what does not go as written is reported', () => {
	test('an answer to a step that was not in hand stays in the trail and does not count', () => {
		const log = opened(faint);
		log.add('answered', { flow: FLOW, step: 'grid-volts', outcome: 'zero', sure: true });
		const state = play(log);
		expect(state.warnings).toEqual([
			{ event: 'bench.5', kind: 'refused', message: '"Volts on the output grid" was not the step in hand.' }
		]);
		expect(state.trail.at(-1)).toMatchObject({
			what: 'Volts on the output grid',
			answer: 'Zero',
			refused: expect.any(String)
		});
		expect(traceIn(state, FLOW)!.answers).toEqual([]);
	});

	test('a reading counts by what it says, whatever was recorded beside it', () => {
		const log = opened(faint);
		log.answer(FLOW, 'grid-volts', 'zero', { reading: volts(1.2) });
		const state = play(log);
		expect(state.warnings).toMatchObject([{ event: 'bench.6', kind: 'reads-otherwise' }]);
		expect(state.trail.at(-1)).toMatchObject({ answer: 'Positive', reading: '1.2 V' });
	});

	test('volts of a sheet found later judge the earlier readings', () => {
		const log = opened(faint);
		log.answer(FLOW, 'anode-volts', 'low', { reading: volts(180, 'output.anode') });
		expect(play(log).warnings).toEqual([]);
		log.add('intake', {
			...(log.events[1] as JobEvent & { kind: 'intake' }).data,
			service: { 'output.anode': 190 }
		});
		const state = play(log);
		expect(contextOf(state.flows[FLOW]!.run).answers[0]?.outcome).toBe('right');
		expect(state.warnings.map(({ kind }) => kind)).toEqual(['reads-otherwise']);
	});

	test('an old job goes on with its own flow when the library has changed', () => {
		const today = tinyWith(({ steps }) => {
			const step = steps['grid-volts'];
			if (step?.kind === 'measure')
				Object.assign(step.outcomes, {
					positive: { label: 'Positive', when: '> 2 V' },
					zero: { label: 'Zero', when: '<= 2 V' }
				});
		});
		const log = opened(faint);
		log.answer(FLOW, 'grid-volts', 'positive', { reading: volts(1.2) });
		const state = replay(log.events, { ...shelf, today });
		expect(contextOf(state.flows[FLOW]!.run).answers[0]?.outcome).toBe('positive');
		expect(state.warnings.map(({ kind, event }) => [kind, event])).toEqual([
			['flow-changed', 'bench.3'],
			['reads-otherwise-today', 'bench.6']
		]);
		expect(replay(log.events, { ...shelf, today: tiny }).warnings).toEqual([]);
	});

	test('a flow that has left the library is still played', () => {
		const log = opened(faint);
		log.answer(FLOW, 'hear-am', 'weak');
		const state = replay(log.events, { ...shelf, today: tinyWith(({ flows }) => void delete flows[FLOW]) });
		expect(state.warnings.map(({ kind }) => kind)).toEqual(['flow-gone']);
		expect(contextOf(state.flows[FLOW]!.run).answers).toHaveLength(1);
	});

	test('without its snapshot a job is played with the flow of today, or shown as it was written', () => {
		const log = opened(faint);
		log.answer(FLOW, 'hear-am', 'weak');
		const today = replay(log.events, { snapshots: {}, today: tiny });
		expect(today.warnings.map(({ kind }) => kind)).toEqual(['snapshot-missing']);
		const none = replay(log.events, { snapshots: {} });
		expect(none.warnings.map(({ kind }) => kind)).toEqual(['refused', 'refused', 'refused']);
		expect(none.trail.at(-1)).toMatchObject({ what: 'Step "hear-am"', answer: 'weak' });
	});

	test('an entry of a kind that this program does not know stays in the trail', () => {
		const log = opened(faint);
		log.add('dreamt' as 'noted', { text: 'chassis' });
		const state = play(log);
		expect(state.warnings).toMatchObject([{ event: 'bench.5', kind: 'refused' }]);
		expect(state.trail.at(-1)).toMatchObject({ what: 'dreamt' });
	});

	test('an event whose parent is missing is played and named', () => {
		const log = opened(faint);
		const lost = log.add('noted', { text: 'lost' });
		log.answer(FLOW, 'hear-am', 'weak');
		const state = replay(
			log.events.filter(({ id }) => id !== lost),
			shelf
		);
		expect(state.warnings).toMatchObject([{ event: 'bench.6', kind: 'parent-missing' }]);
		expect(contextOf(state.flows[FLOW]!.run).answers).toHaveLength(1);
	});
});

describe('two benches', () => {
	/** The log of one bench, and what another did apart from it since the set was live. */
	function apart(): { log: Log; all: () => JobEvent[] } {
		const log = opened(faint);
		const fork = log.events.at(-1)!.id;
		const other = new Log('zweite', 'job');
		other.add('took', { flow: FLOW, step: 'hear-am' }, [fork]);
		other.add('answered', { flow: FLOW, step: 'hear-am', outcome: 'none', sure: true });
		log.answer(FLOW, 'hear-am', 'weak');
		return { log, all: () => [...log.events, ...other.events] };
	}

	test('answers that differ both stay until one is chosen', () => {
		const { log, all } = apart();
		const state = replay(all(), shelf);
		expect(state.contradictions).toEqual([{ step: 'hear-am', answers: ['bench.6', 'zweite.2'] }]);
		log.add('resolved', { step: 'hear-am', keep: 'bench.6' }, ['bench.6', 'zweite.2']);
		const settled = replay(all(), shelf);
		expect(settled.contradictions).toEqual([]);
		expect(traceIn(settled, FLOW)!.answers.map(({ answer }) => answer.outcome)).toEqual(['weak']);
		expect(settled.trail.at(-1)?.what).toBe('Contradiction settled: Listen to AM');
	});

	test('the joined log plays the same from either side', () => {
		const { all } = apart();
		expect(plainState(replay([...all()].reverse(), shelf))).toEqual(plainState(replay(all(), shelf)));
	});
});
