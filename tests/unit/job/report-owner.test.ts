import { beforeAll, describe, expect, test } from 'vitest';
import { replay } from '../../../src/lib/job/replay.ts';
import { ownerPage } from '../../../src/lib/job/report-owner.ts';
import { reportOf } from '../../../src/lib/job/report.ts';
import type { Snapshot } from '../../../src/lib/job/snapshot.ts';
import { opened, snapshot, volts, type Log } from './log.ts';

const FLOW = 'am-faint';
const words = {
	capacitor: {
		british: 'Capacitor',
		forms: ['capacitors'],
		means: 'A part that lets the signal pass and stops the supply.'
	},
	valve: { british: 'Valve', american: 'tube', forms: [], means: 'A glass envelope.' }
};
let kept: Snapshot;
beforeAll(async () => {
	kept = await snapshot();
});

const stateOf = (log: Log) => replay(log.events, { snapshots: { [kept.hash]: kept.library } });
const lines = (log: Log, id: string) =>
	ownerPage(stateOf(log), words).find((one) => one.id === id)?.lines ?? [];
const told = (log: Log) =>
	ownerPage(stateOf(log), words)
		.flatMap(({ lines: all }) => all.flatMap(({ text, meaning = '' }) => [text, meaning]))
		.join(' ');

describe("the owner's page", () => {
	test('says what was wrong, what was done and how it is now, with the trade words told at the end', () => {
		const log = opened(kept);
		log.repair(FLOW, 'cc-leak', 'cured');
		log.add('heard', { bands: { am: 'good', fm: 'good' } });
		log.add('closed', { result: 'mended' });
		expect(lines(log, 'came')).toEqual([{ text: 'AM is faint, FM plays well.' }]);
		expect(lines(log, 'wrong')).toEqual([{ text: 'coupling capacitor: leaky' }]);
		expect(lines(log, 'done')).toEqual([
			{ text: 'Changed: coupling capacitor: leaky', meaning: 'After that the fault was gone.' }
		]);
		expect(lines(log, 'now').map(({ text }) => text)).toEqual([
			'The set is mended.',
			'Heard last: AM plays well, FM plays well.'
		]);
		expect(lines(log, 'words')).toEqual([{ text: 'Capacitor', meaning: words.capacitor.means }]);
	});

	test('a cause whose part nobody tested, and a change that nobody heard, stay open', () => {
		const log = opened(kept);
		log.repair(FLOW, 'cc-leak', 'cured', 'not-tested');
		log.add('power', { to: 'unplugged', volts: [0, 0] });
		log.add('part-changed', { part: 'mains lead' });
		expect(lines(log, 'wrong')[0]?.open).toBe(true);
		expect(lines(log, 'done').at(-1)).toMatchObject({
			text: 'Changed: mains lead',
			meaning: 'The set was not tried again after it.',
			open: true
		});
		expect(lines(log, 'now')[0]).toMatchObject({ text: 'The work is not finished.', open: true });
	});

	test('never calls a set safe that was not tested, and says so before the rest of the advice', () => {
		const log = opened(kept);
		log.add('closed', { result: 'mended' });
		expect(lines(log, 'watch')[0]).toMatchObject({
			text: expect.stringContaining('safety test is not complete'),
			open: true
		});
		expect(lines(log, 'open').every(({ open }) => open)).toBe(true);
		expect(told(log)).toContain('licensed practice come first');
		expect(told(log)).not.toMatch(/is safe to|passed/);
	});

	test('what is private to the bench is not on it: notes, sums and readings', () => {
		const log = opened(kept);
		log.answer(FLOW, 'anode-volts', 'low', { reading: volts(150, 'output.anode') });
		log.add('noted', { text: 'owner is in a hurry' });
		expect(told(log)).not.toMatch(/150|hurry/);
	});
});

describe('readings side by side', () => {
	const table = (log: Log) => reportOf(stateOf(log)).sections.find(({ id }) => id === 'readings')?.table;

	test('without a change there is one column, with what a sound set shows', () => {
		const log = opened(kept);
		log.answer(FLOW, 'anode-volts', 'right', { reading: volts(248, 'output.anode') });
		expect(table(log)).toEqual({
			head: ['Place', 'In a sound set', 'Measured'],
			rows: [
				{ cells: ['Volts on the output anode', 'about 250 V (typical of such sets)', '248 V (As expected)'] }
			]
		});
	});

	test('before the first change and after the last; what was not measured again is open', () => {
		const log = opened(kept);
		log.answer(FLOW, 'anode-volts', 'low', { reading: volts(150, 'output.anode') });
		log.answer(FLOW, 'grid-volts', 'positive', { reading: volts(1.2) });
		log.repair(FLOW, 'cc-leak', 'unchanged');
		log.answer(FLOW, 'grid-volts', 'zero', { reading: volts(0) });
		expect(table(log)).toMatchObject({
			head: ['Place', 'In a sound set', 'Before the work', 'After it'],
			rows: [
				{
					cells: ['Volts on the output anode', expect.any(String), '150 V (Low)', 'not measured again'],
					open: true
				},
				{ cells: ['Volts on the output grid', 'zero', '1.2 V (Positive)', '0 V (Zero)'] }
			]
		});
		expect(table(log)?.rows[1]?.open).toBeUndefined();
	});
});
