import { beforeAll, describe, expect, test } from 'vitest';
import type { Library } from '../../../src/lib/flow/library.ts';
import { Flow } from '../../../src/lib/flow/schema.ts';
import { replay } from '../../../src/lib/job/replay.ts';
import { reportOf, type ReportSection } from '../../../src/lib/job/report.ts';
import type { Snapshot } from '../../../src/lib/job/snapshot.ts';
import { intake, Log, snapshot } from './log.ts';
import { tiny } from './tiny.ts';

const CLOSING = 'closing';
const step = (title: string, more: object = {}) => ({
	kind: 'observe',
	title,
	text: 'Do it.',
	why: 'It tells.',
	power: 'unplugged',
	'hands-off': true,
	minutes: 2,
	outcomes: { well: { label: 'As it should be' }, ill: { label: 'Something is bare' } },
	normal: 'well',
	source: 'from memory',
	...more
});
const closing = Flow.parse({
	id: CLOSING,
	title: 'Closing tests',
	about: 'For tests.',
	procedure: true,
	symptom: {},
	suspects: {},
	opening: ['covers', 'insulation', 'clean'],
	uses: ['covers', 'insulation', 'clean'],
	own: {
		steps: {
			covers: step('Covers', { safety: true }),
			insulation: step('Insulation', { safety: true }),
			clean: step('Clean the dial')
		}
	},
	source: 'from memory'
});
const library: Library = { ...tiny, flows: { ...tiny.flows, [CLOSING]: closing } };

let kept: Snapshot;
let traced: Snapshot;
beforeAll(async () => {
	[kept, traced] = await Promise.all([snapshot(CLOSING, library), snapshot('am-faint', library)]);
});

function begun(): Log {
	const log = new Log();
	log.add('started', {});
	log.add('intake', intake());
	log.add('flow-opened', { flow: CLOSING, plan: 'tiny', hash: kept.hash });
	return log;
}
const lines = (log: Log, id: ReportSection['id']) => {
	const snapshots = { [kept.hash]: kept.library, [traced.hash]: traced.library };
	const { sections } = reportOf(replay(log.events, { snapshots }));
	return sections.find((one) => one.id === id)?.lines ?? [];
};
const safety = (log: Log) => lines(log, 'safety').map(({ text, open = false }) => ({ text, open }));

describe('the closing safety test in the report', () => {
	test('is not tested where no such flow was opened', () => {
		const log = new Log();
		log.add('started', {});
		log.add('intake', intake());
		expect(safety(log)).toEqual([
			{ text: 'Exposed metal and insulation of the finished set: not tested', open: true }
		]);
	});

	test('calls each part of it passed, not passed or not tested', () => {
		const log = begun();
		expect(safety(log)).toEqual([
			{ text: 'Covers: not tested', open: true },
			{ text: 'Insulation: not tested', open: true }
		]);
		log.answer(CLOSING, 'covers', 'well');
		log.answer(CLOSING, 'insulation', 'ill');
		expect(safety(log)).toEqual([
			{ text: 'Covers: passed', open: false },
			{ text: 'Insulation: not passed', open: true }
		]);
	});

	test('an answer that nobody is sure of passes nothing', () => {
		const log = begun();
		log.answer(CLOSING, 'covers', 'well', { sure: false });
		expect(safety(log)[0]).toEqual({ text: 'Covers: not tested', open: true });
	});

	test('a part changed after it makes the test void', () => {
		const log = begun();
		log.answer(CLOSING, 'covers', 'well');
		log.add('flow-opened', { flow: 'am-faint', plan: 'tiny', hash: traced.hash });
		log.repair('am-faint', 'cc-leak', 'cured');
		expect(safety(log)[0]).toEqual({ text: 'Covers: not tested since a part was changed', open: true });
	});

	test('steps of a procedure that were left out are told, and nothing of it is called a trace', () => {
		const log = begun();
		log.answer(CLOSING, 'covers', 'well');
		const open = lines(log, 'not-done').map(({ text }) => text);
		expect(open).toContain('Closing tests, Clean the dial: not tested');
		expect(open.join()).not.toContain('trace');
		expect(lines(log, 'complaint').map(({ text }) => text)).toContain('Worked through: Closing tests');
	});
});
