import { beforeAll, describe, expect, test } from 'vitest';
import { PHASES, type Phase } from '../../../src/lib/job/events.ts';
import { PHASE_FLOWS, phasesOf } from '../../../src/lib/job/phases.ts';
import { replay } from '../../../src/lib/job/replay.ts';
import type { Snapshot } from '../../../src/lib/job/snapshot.ts';
import { plainState, undoTarget } from '../../../src/lib/job/state.ts';
import { shippedLibrary } from '../../library.ts';
import { intake, Log, opened, snapshot, volts } from './log.ts';

const FLOW = 'am-faint';
let kept: Snapshot;
beforeAll(async () => {
	kept = await snapshot();
});

const stateOf = (log: Log) => replay(log.events, { snapshots: { [kept.hash]: kept.library } });
const phase = (log: Log, id: Phase) => phasesOf(stateOf(log)).find((one) => one.id === id)!;
const word = (log: Log, id: Phase) => phase(log, id).state;

describe('the phases of a job', () => {
	test('stand in the order of the trade, each with what it rests on', () => {
		const rows = phasesOf(stateOf(opened(kept)));
		expect(rows.map(({ id }) => id)).toEqual(Object.keys(PHASES));
		for (const { because } of rows) expect(because).toMatch(/\.$/);
	});

	test('a job that nobody took in has everything to do', () => {
		const log = new Log();
		log.add('started', {});
		expect(new Set(phasesOf(stateOf(log)).map(({ state }) => state))).toEqual(new Set(['to do']));
	});

	test('two readings make it safe; a set left and opened again has to be proved anew', () => {
		const log = opened(kept);
		expect(word(log, 'make-safe')).toBe('to do');
		log.add('power', { to: 'unplugged', volts: [2, 0] });
		expect(word(log, 'make-safe')).toBe('done');
		log.add('power', { to: 'off' });
		expect(word(log, 'make-safe')).toBe('begun');
	});

	test('a set that came in playing needs no first power, until a part is changed', () => {
		const log = opened(kept);
		expect(word(log, 'first-power')).toBe('not needed');
		log.add('power', { to: 'unplugged', volts: [2, 0] });
		log.add('part-changed', { part: 'cc-leak' });
		expect(phase(log, 'first-power')).toMatchObject({
			state: 'begun',
			because: expect.stringContaining('limiter again')
		});
		log.add('power', { to: 'limiter' });
		expect(word(log, 'first-power')).toBe('begun');
		log.add('power', { to: 'live' });
		expect(word(log, 'first-power')).toBe('done');
	});

	test('cold answers, voltages and the trace begin with the first answer', () => {
		const log = opened(kept);
		expect(['cold-checks', 'voltages', 'trace'].map((id) => word(log, id as Phase))).toEqual([
			'to do',
			'to do',
			'begun'
		]);
		log.answer(FLOW, 'anode-volts', 'right', { reading: volts(250, 'output.anode') });
		// The only point of this plan that has volts.
		expect(word(log, 'voltages')).toBe('done');
		log.add('power', { to: 'unplugged', volts: [2, 0] });
		log.answer(FLOW, 'coil-ohms', 'whole');
		expect(word(log, 'cold-checks')).toBe('begun');
	});

	test('a change without proof keeps the parts open; a proved cure ends the trace', () => {
		const log = opened(kept);
		log.repair(FLOW, 'cc-leak', 'cured');
		expect([word(log, 'parts'), word(log, 'trace')]).toEqual(['done', 'done']);
		log.add('part-changed', { part: 'mains lead' });
		expect(phase(log, 'parts')).toMatchObject({ state: 'begun', because: '1 change not heard since.' });
	});

	test('capacitors of the list are done when each is settled: tested, changed, or left on purpose', () => {
		const log = opened(kept);
		const list = (part: string) => log.add('part-listed', { part, name: part.toUpperCase(), kind: 'paper' });
		list('c1');
		list('c2');
		expect(phase(log, 'capacitors')).toMatchObject({
			state: 'to do',
			because: expect.stringContaining('2 capacitors')
		});
		log.add('part-checked', { part: 'c1', state: 'left', reason: 'mica' });
		expect(phase(log, 'capacitors')).toMatchObject({
			state: 'begun',
			because: '1 of 2 on the list settled.'
		});
		log.add('part-checked', { part: 'c2', state: 'value', typed: '10n', value: 1e-8 });
		expect(word(log, 'capacitors')).toBe('done');
	});

	test('every band plays and nothing is noticed: there is nothing to trace', () => {
		const log = new Log();
		log.add('started', {});
		log.add('intake', intake({ symptom: { am: 'good', fm: 'good' } }));
		expect(word(log, 'trace')).toBe('not needed');
	});

	test('closing the job ends the report', () => {
		const log = opened(kept);
		log.add('closed', { result: 'mended' });
		expect(word(log, 'report')).toBe('done');
	});
});

describe('a phase said by hand', () => {
	test('holds before what the log shows, is undone like any entry, and the log speaks again', () => {
		const log = opened(kept);
		const before = plainState(stateOf(log));
		const said = log.add('phase', { phase: 'alignment', state: 'not-needed', reason: 'dial is right' });
		expect(phase(log, 'alignment')).toMatchObject({
			state: 'not needed',
			because: 'Said by hand: dial is right',
			said
		});
		expect(stateOf(log).trail.at(-1)).toMatchObject({
			what: 'Alignment: not needed, said by hand',
			answer: 'dial is right'
		});
		expect(undoTarget(stateOf(log))).toBe(said);
		log.undo(said);
		expect(plainState(stateOf(log))).toEqual(before);
		expect(word(log, 'alignment')).toBe('to do');
	});

	test('never makes a set safe: the meter does', () => {
		const log = opened(kept);
		log.add('phase', { phase: 'make-safe', state: 'done' });
		expect(word(log, 'make-safe')).toBe('to do');
		expect(stateOf(log).warnings).toMatchObject([
			{ kind: 'refused', message: expect.stringContaining('two readings') }
		]);
	});

	test('of the soak and the safety test ends with the next change of a part', () => {
		const log = opened(kept);
		log.add('phase', { phase: 'closing', state: 'done' });
		expect(word(log, 'closing')).toBe('done');
		log.add('power', { to: 'unplugged', volts: [2, 0] });
		log.add('part-changed', { part: 'cc-leak' });
		expect(word(log, 'closing')).toBe('to do');
	});
});

test('every flow that a phase leads to is a procedure of the library', () => {
	const { flows } = shippedLibrary();
	for (const id of Object.values(PHASE_FLOWS).flat()) expect(flows[id]?.procedure, id).toBe(true);
});
