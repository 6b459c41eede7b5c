import { beforeAll, describe, expect, test } from 'vitest';
import { hindsights } from '../../../src/lib/job/hindsight.ts';
import { guessWords, hindsightLines, shortestWords } from '../../../src/lib/job/report-hindsight.ts';
import { reportOf } from '../../../src/lib/job/report.ts';
import { replay, type Shelf } from '../../../src/lib/job/replay.ts';
import type { Snapshot } from '../../../src/lib/job/snapshot.ts';
import { opened, snapshot, type Log } from './log.ts';

let faint: Snapshot;
let shelf: Shelf;

beforeAll(async () => {
	faint = await snapshot('am-faint');
	shelf = { snapshots: { [faint.hash]: faint.library } };
});

const FLOW = 'am-faint';
const play = (log: Log) => replay(log.events, shelf);

/** An open aerial coil, found after three answers that told little. */
function cured(before?: (log: Log) => void): Log {
	const log = opened(faint);
	before?.(log);
	log.answer(FLOW, 'hear-am', 'weak');
	log.answer(FLOW, 'anode-volts', 'right');
	log.answer(FLOW, 'grid-volts', 'zero');
	log.add('power', { to: 'unplugged', volts: [0, 0] });
	log.answer(FLOW, 'coil-ohms', 'open');
	log.repair(FLOW, 'aerial-open', 'cured');
	return log;
}

describe('looking back on a cure', () => {
	test('what was heard on AM decided it, and fewer answers would have done', () => {
		const [look] = hindsights(play(cured()));
		expect(look?.cause).toBe('aerial coil: open');
		expect(look?.deciding.map(({ step }) => step)).toEqual(['hear-am']);
		expect(look?.deciding[0]?.factor).toBeGreaterThan(3);
		expect(look?.deciding[0]?.found).toBe('Listen to AM: weak');
		expect(look?.shortest?.steps).toContain('Listen to AM');
		expect(look!.shortest!.steps.length).toBeLessThan(4);
		expect(look!.shortest!.minutes).toBeLessThanOrEqual(look!.minutes);
		expect(shortestWords(look!)).toMatch(
			/^\d of 4 answers, about \d+ min would have done, in about \d+ min: /
		);
	});

	test('minutes are those of the steps with the changes of power: three live, then one on the dead set', () => {
		const [look] = hindsights(play(cured()));
		// Four steps of 2 min, and 3 min to switch off, discharge and prove it.
		expect(look?.minutes).toBe(4 * 2 + 3);
	});

	test('without a cure there is nothing to look back on', () => {
		const log = opened(faint);
		log.answer(FLOW, 'hear-am', 'weak');
		log.repair(FLOW, 'aerial-open', 'unchanged');
		expect(hindsights(play(log))).toEqual([]);
		expect(hindsightLines(play(log))).toEqual([]);
	});

	test('a part that did not cure is told, and the cause that nobody pointed to is said to be proved by the change', () => {
		const log = opened(faint);
		log.answer(FLOW, 'grid-volts', 'positive');
		log.repair(FLOW, 'cc-leak', 'unchanged', 'good');
		log.repair(FLOW, 'ht-low', 'cured');
		const [look] = hindsights(play(log));
		expect(look?.wrongParts).toEqual(['coupling capacitor: leaky']);
		expect(look?.shortest).toBeUndefined();
		expect(shortestWords(look!)).toContain('the proof after the change decided');
	});

	test('a suspicion written down before the list is shown again, right or wrong', () => {
		const right = cured((log) => log.add('guessed', { flow: FLOW, suspect: 'aerial-open' }));
		expect(guessWords(hindsights(play(right))[0]!)).toBe(
			'You said "aerial coil: open" before the first answer. That was it.'
		);
		const wrong = cured((log) => log.add('guessed', { flow: FLOW, text: 'surely a valve' }));
		expect(guessWords(hindsights(play(wrong))[0]!)).toBe(
			'You said "surely a valve" before the first answer. It was another part.'
		);
	});

	test('a cure that was followed by another fault is looked back on too, by what was known then', () => {
		const log = cured();
		const before = hindsights(play(log));
		log.add('went-on', { flow: FLOW });
		log.answer(FLOW, 'grid-volts', 'positive');
		expect(hindsights(play(log))[0]).toEqual(before[0]);
	});

	test('the report has it under its own head', () => {
		const section = reportOf(play(cured())).sections.find(({ id }) => id === 'hindsight');
		expect(section?.title).toBe('Looking back');
		expect(section?.lines[0]?.text).toBe('AM faint, FM plays: the cause was aerial coil: open');
	});
});
