import { beforeAll, describe, expect, test } from 'vitest';
import { replay } from '../../../src/lib/job/replay.ts';
import { reportOf, type ReportSection } from '../../../src/lib/job/report.ts';
import { powerUnknown, rowAfter, rowOf, emptyRow } from '../../../src/lib/job/row.ts';
import type { Snapshot } from '../../../src/lib/job/snapshot.ts';
import { summaryOf } from '../../../src/lib/job/summary.ts';
import { opened, snapshot, volts, type Log } from './log.ts';

const FLOW = 'am-faint';
let kept: Snapshot;
beforeAll(async () => {
	kept = await snapshot();
});

const stateOf = (log: Log) => replay(log.events, { snapshots: { [kept.hash]: kept.library } });
const report = (log: Log) => reportOf(stateOf(log));
const section = (log: Log, id: ReportSection['id']) =>
	report(log).sections.find((one) => one.id === id)?.lines ?? [];
const texts = (log: Log, id: ReportSection['id']) => section(log, id).map(({ text }) => text);

describe('the report', () => {
	test('begins with local codes and licensed practice', () => {
		const [first] = report(opened(kept)).sections;
		expect(first).toMatchObject({
			id: 'first',
			lines: [{ text: expect.stringContaining('licensed practice come first') }]
		});
	});

	test('names set, past, meter and complaint', () => {
		const log = opened(kept, { mains: 228, meter: 1e7 });
		expect(
			section(log, 'set').map(({ text, reading }) => [text, reading].filter(Boolean).join(': '))
		).toEqual([
			'Table set, green dial',
			'AM/FM set of three stages',
			'It was running on full mains when it came in.',
			'Nobody seems to have worked on it.',
			'Mains on the day: 228 V',
			'Meter on volts: 10 MΩ',
			'On the bench: multimeter of 10 Mohm or more on volts.'
		]);
		expect(texts(log, 'complaint')).toEqual(['AM is faint, FM plays well.', 'Traced as: AM faint, FM plays']);
	});

	test('what was noticed beside the sound belongs to the complaint', () => {
		const log = opened(kept, { symptom: {}, signs: ['fuse-blows', 'ht-low'] });
		expect(texts(log, 'complaint')[0]).toBe('The fuse blows, HT measures low.');
	});

	test('a reading stands beside what is expected there, and what it means', () => {
		const log = opened(kept);
		log.answer(FLOW, 'anode-volts', 'low', { reading: volts(150, 'output.anode') });
		log.answer(FLOW, 'grid-volts', 'positive', { reading: volts(1.2) });
		expect(section(log, 'found')).toMatchObject([
			{
				text: 'Volts on the output anode: Low',
				reading: '150 V',
				expected: 'about 250 V (typical of such sets)'
			},
			{
				text: 'Volts on the output grid: Positive',
				reading: '1.2 V',
				expected: 'zero',
				meaning: 'Something feeds the grid. Cleared: power supply.'
			}
		]);
	});

	test('what was undone is not told', () => {
		const log = opened(kept);
		const [took, answered] = log.answer(FLOW, 'hear-am', 'none');
		log.undo(answered);
		log.undo(took);
		log.undo(log.add('noted', { text: 'wrong' }));
		expect([section(log, 'found'), section(log, 'notes')]).toEqual([[], []]);
	});

	test('a change and its proof, and a change without one', () => {
		const log = opened(kept);
		log.repair(FLOW, 'cc-leak', 'unchanged', 'not-tested');
		log.add('power', { to: 'unplugged', volts: [0, 0] });
		log.add('part-changed', { part: 'mains lead' });
		expect(section(log, 'changed')).toMatchObject([
			{ text: 'Changed: coupling capacitor: leaky; fitted: new one; without proof', open: true },
			{
				text: 'Changed: mains lead; without proof',
				meaning: 'the symptom was not tried again after it',
				open: true
			}
		]);
		expect(section(log, 'proof')).toMatchObject([
			{
				text: 'After coupling capacitor: leaky: unchanged',
				meaning: 'the part that came out was not tested',
				open: true
			},
			{ text: 'The job is not closed.', open: true }
		]);
		expect(texts(log, 'not-done')).toContain('Changed: mains lead: not tested afterwards');
	});

	test('a part measured before its change is not called changed without proof', () => {
		const log = opened(kept);
		log.add('noted', { text: '3 Mohm (bad)', part: 'cc-leak' });
		log.repair(FLOW, 'cc-leak', 'cured');
		expect(texts(log, 'changed')).toEqual(['Changed: coupling capacitor: leaky; fitted: new one']);
		expect(section(log, 'changed')[0]?.open).toBeUndefined();
		expect(texts(log, 'notes')).toEqual(['Note on coupling capacitor: leaky: 3 Mohm (bad)']);
	});

	test('what was put off or could not be told is "not tested", never passed', () => {
		const log = opened(kept);
		log.add('took', { flow: FLOW, step: 'anode-volts' });
		log.add('cannot-tell', { flow: FLOW, step: 'anode-volts', reason: 'cannot reach it' });
		log.add('took', { flow: FLOW, step: 'hear-am' });
		log.add('skipped', { flow: FLOW, step: 'hear-am' });
		const lines = section(log, 'not-done');
		expect(lines).toMatchObject([
			{ text: 'AM faint, FM plays: the trace was not finished' },
			{ text: 'Volts on the output anode: not tested', meaning: 'cannot reach it' },
			{ text: 'Listen to AM: not tested' }
		]);
		expect(lines.every(({ open }) => open)).toBe(true);
		log.answer(FLOW, 'hear-am', 'weak');
		expect(texts(log, 'not-done')).not.toContain('Listen to AM: not tested');
	});

	test('after a cure the band that was good is still to be heard again', () => {
		const log = opened(kept);
		log.repair(FLOW, 'aerial-open', 'cured');
		log.add('closed', { result: 'mended' });
		expect(texts(log, 'not-done')).toContain('FM after the last change: not tested');
		expect(texts(log, 'not-done')).not.toContain('AM after the last change: not tested');
		expect(section(log, 'proof').map(({ text, open }) => [text, open])).toEqual([
			['After aerial coil: open: cured', undefined],
			['Result: mended', undefined]
		]);
	});

	test('cautions are those of the steps, parts and power states that came up', () => {
		const log = opened(kept);
		expect(section(log, 'cautions')).toEqual([]);
		log.answer(FLOW, 'hear-am', 'weak');
		log.add('suspected', { flow: FLOW, suspect: 'cc-leak' });
		expect(texts(log, 'cautions').sort()).toEqual(['Discharge the capacitor', 'One hand in the pocket']);
	});

	test('what does not go as written is told', () => {
		const log = opened(kept);
		log.add('answered', { flow: FLOW, step: 'grid-volts', outcome: 'zero', sure: true });
		expect(section(log, 'doubts')).toMatchObject([
			{ text: expect.stringContaining('not the step in hand'), open: true }
		]);
	});
});

describe('the row of the list', () => {
	test('names set, complaint, last step and the suspects that lead', () => {
		const log = opened(kept);
		log.answer(FLOW, 'grid-volts', 'positive', { reading: volts(3) });
		const row = summaryOf(log.events, stateOf(log));
		expect(row).toMatchObject({
			job: 'job',
			title: 'Table set, green dial',
			plan: 'tiny',
			complaint: 'AM is faint, FM plays well',
			lastStep: 'Volts on the output grid',
			power: 'live',
			events: 6,
			described: 6,
			updated: log.events.at(-1)!.at
		});
		expect(row.leading[0]).toEqual({ name: 'coupling capacitor: leaky', word: 'in question' });
	});

	test('a log that ended under power leaves the power unknown', () => {
		const log = opened(kept);
		expect(powerUnknown(rowOf(log.events))).toBe(true);
		log.add('power', { to: 'off' });
		expect(powerUnknown(rowOf(log.events))).toBe(false);
	});

	test('kept up entry by entry it is the row made anew', () => {
		const log = opened(kept);
		log.answer(FLOW, 'hear-am', 'weak');
		const closing = log.add('closed', { result: 'set-aside' });
		expect(log.events.reduce(rowAfter, emptyRow('job'))).toEqual(rowOf([...log.events].reverse()));
		expect(rowOf(log.events).closed?.result).toBe('set-aside');
		log.undo(closing);
		expect(rowOf(log.events).closed).toBeUndefined();
	});
});
