import { beforeAll, describe, expect, test } from 'vitest';
import { askText, MOST_WORDS, wordsIn } from '../../../src/lib/job/ask.ts';
import { demo } from '../../../src/lib/job/demo.ts';
import { replay } from '../../../src/lib/job/replay.ts';
import { takeSnapshot, type Snapshot } from '../../../src/lib/job/snapshot.ts';
import { shippedLibrary } from '../../library.ts';
import { digest, Log, opened, snapshot, volts } from './log.ts';

const FLOW = 'am-faint';
let kept: Snapshot;
beforeAll(async () => {
	kept = await snapshot();
});

const asked = (log: Log) => askText(replay(log.events, { snapshots: { [kept.hash]: kept.library } }));

describe('a job as a question to others', () => {
	test('holds kind of set, valves, each band, meter, changes, readings against expected, and the question', () => {
		const log = opened(kept, { meter: 1e7, mains: 228, title: 'Set of Mrs Example, High Street' });
		log.answer(FLOW, 'hear-am', 'weak');
		log.answer(FLOW, 'anode-volts', 'low', { reading: volts(150, 'output.anode') });
		log.add('part-tested', { part: 'ht-low', result: 'good', found: '60 mA' });
		log.repair(FLOW, 'cc-leak', 'unchanged', 'good');
		const { text, words } = asked(log);
		for (const part of [
			'AM/FM set of three stages',
			'Valves of such a set: EL84',
			'AM is faint, FM plays well',
			'Nobody seems to have worked on it',
			'10 MΩ on volts',
			'Mains: 228 V',
			'multimeter of 10 Mohm or more on volts',
			'coupling capacitor: leaky: changed; unchanged; the part that came out was good',
			'rectifier: worn: tested good',
			'Volts on the output anode: 150 V; sound: about 250 V (typical of such sets)',
			'Listen to AM: Weak',
			'what would you measure next?'
		])
			expect(text).toContain(part);
		expect(words).toBe(wordsIn(text));
	});

	test('a set that was heard again says what it does now', () => {
		const log = opened(kept);
		log.add('heard', { bands: { am: 'hum', fm: 'good' } });
		expect(asked(log).text).toMatch(/AM is faint, FM plays well\n- Now: AM .*hum/);
	});

	test('what was written freely stays here and is counted', () => {
		const log = opened(kept, { title: 'Set of Mrs Example, High Street' });
		log.add('noted', { text: 'Collected from Mr Sample' });
		log.add('noted', { text: 'Promised to Mr Sample', part: 'cc-leak' });
		log.add('power', { to: 'unplugged', volts: [0, 0] });
		log.add('part-changed', { part: 'lamp that Mr Sample brought' });
		log.add('part-changed', { part: 'cc-leak', fitted: 'from Mr Sample' });
		log.add('part-tested', { part: 'ht-low', result: 'bad', found: 'as Mr Sample said' });
		log.add('closed', { result: 'set-aside', note: 'Mr Sample has no money' });
		const { text, leftOut } = asked(log);
		expect(text).not.toMatch(/Example|Sample|Street/);
		expect(leftOut).toEqual(['the title', '3 notes', '1 change of a part that you named yourself']);
	});

	test('an undone answer is not told', () => {
		const log = opened(kept);
		const [, answered] = log.answer(FLOW, 'hear-am', 'none');
		log.undo(answered);
		expect(asked(log).text).not.toContain('Listen to AM');
	});

	test('a job that was never taken in still asks', () =>
		expect(askText(replay([], { snapshots: {} })).text).toContain('Kind of set not known yet'));
});

describe('a long job', () => {
	const library = shippedLibrary();

	async function long() {
		const { intake, flow, entries } = demo();
		const snap = await takeSnapshot(library, library.flows[flow]!, library.plans[intake.plan]!, digest);
		const log = new Log();
		log.add('started', {});
		log.add('intake', { ...intake, history: ['stored-long', 'recapped', 'worked-on'] });
		log.add('flow-opened', { flow, plan: intake.plan, hash: snap.hash });
		for (const [kind, data] of entries) log.add(kind, data);
		log.add('power', { to: 'unplugged', volts: [0, 0] });
		log.add('power', { to: 'limiter' });
		log.add('power', { to: 'live' });
		for (const [step, { kind, ...rest }] of Object.entries(
			replay(log.events, { snapshots: { [snap.hash]: snap.library } }).flows[flow]!.run.resolved.steps
		))
			log.answer(
				flow,
				step,
				'outcomes' in rest ? Object.keys(rest.outcomes)[0]! : kind === 'listen' ? 'weak' : 'none'
			);
		return replay(log.events, { snapshots: { [snap.hash]: snap.library } });
	}

	test('stays under 300 words, keeps what is asked back first, and counts what it leaves out', async () => {
		const state = await long();
		const { text, words } = askText(state);
		expect(wordsIn(text)).toBe(words);
		expect(words).toBeLessThan(MOST_WORDS);
		expect(words).toBeGreaterThan(MOST_WORDS - 60);
		expect(text).toMatch(/- and \d+ more/);
		for (const part of [
			'Set:',
			'Complaint:',
			'Changed so far:',
			'Measured, against a sound set:',
			'On my bench:',
			'Question:'
		])
			expect(text).toContain(part);
		expect(text).toContain('Somebody has worked on it');
	});
});
