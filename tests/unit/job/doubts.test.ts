import { beforeAll, describe, expect, test } from 'vitest';
import { jobDoubts } from '../../../src/lib/job/doubts.ts';
import { replay, type Shelf } from '../../../src/lib/job/replay.ts';
import type { Snapshot } from '../../../src/lib/job/snapshot.ts';
import { Log, opened, snapshot } from './log.ts';

let faint: Snapshot;
let shelf: Shelf;

beforeAll(async () => {
	faint = await snapshot('am-faint');
	shelf = { snapshots: { [faint.hash]: faint.library } };
});

const FLOW = 'am-faint';
const doubts = (log: Log) => jobDoubts(replay(log.events, shelf));
const ofKind = (log: Log, kind: string) => doubts(log).filter((doubt) => doubt.kind === kind);

describe('one step answered twice', () => {
	test('in two ways: both are named, and that the later one counts', () => {
		const log = opened(faint);
		log.answer(FLOW, 'hear-am', 'weak');
		log.answer(FLOW, 'hear-am', 'none');
		const [doubt] = ofKind(log, 'answered-twice');
		expect(doubt?.sentence).toContain('first "Weak", then "Nothing"');
		expect(doubt?.sentence).toContain('comes and goes');
	});

	test('in the same way, or before and after a change of a part: no doubt', () => {
		const same = opened(faint);
		same.answer(FLOW, 'hear-am', 'weak');
		same.answer(FLOW, 'hear-am', 'weak');
		expect(ofKind(same, 'answered-twice')).toEqual([]);
		const changed = opened(faint);
		changed.answer(FLOW, 'hear-am', 'weak');
		changed.repair(FLOW, 'cc-leak', 'unchanged', 'good');
		changed.answer(FLOW, 'hear-am', 'none');
		expect(ofKind(changed, 'answered-twice')).toEqual([]);
	});
});

describe('a part that proved good', () => {
	const log = () => {
		const changed = opened(faint);
		changed.answer(FLOW, 'grid-volts', 'positive');
		changed.repair(FLOW, 'cc-leak', 'unchanged', 'good');
		return changed;
	};

	test('the answer that spoke for it most is to be taken again, until it was', () => {
		expect(ofKind(log(), 'part-was-good')).toMatchObject([{ repeat: { step: 'grid-volts' } }]);
		const again = log();
		again.answer(FLOW, 'hear-am', 'distorted');
		expect(ofKind(again, 'part-was-good')).toHaveLength(1);
		again.answer(FLOW, 'grid-volts', 'positive');
		expect(ofKind(again, 'part-was-good')).toEqual([]);
	});

	test('a part that was bad raises no such doubt', () => {
		const bad = opened(faint);
		bad.answer(FLOW, 'grid-volts', 'positive');
		bad.repair(FLOW, 'cc-leak', 'unchanged', 'bad');
		expect(ofKind(bad, 'part-was-good')).toEqual([]);
	});
});

test('two benches that found different things: the person says which stands', () => {
	const log = opened(faint);
	log.add('took', { flow: FLOW, step: 'hear-am' });
	const fork = log.add('power', { to: 'live' });
	const other = new Log('other');
	log.add('answered', { flow: FLOW, step: 'hear-am', outcome: 'weak', sure: true }, [fork]);
	other.add('took', { flow: FLOW, step: 'hear-am' }, [fork]);
	other.add('answered', { flow: FLOW, step: 'hear-am', outcome: 'none', sure: true }, ['other.1']);
	const state = replay([...log.events, ...other.events], shelf);
	const [doubt] = jobDoubts(state).filter(({ kind }) => kind === 'two-benches');
	expect(doubt?.keep?.answers.map(({ text }) => text).sort()).toEqual(['"Nothing"', '"Weak"']);
});
