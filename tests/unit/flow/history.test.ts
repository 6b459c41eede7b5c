import { describe, expect, test } from 'vitest';
import { pastSentences, pastShifts } from '../../../src/lib/flow/history.ts';
import { HISTORY, type HistoryWord } from '../../../src/lib/flow/terms.ts';
import { cleared, standings, trace } from '../../../src/lib/flow/trace.ts';
import { allShipped, shipped, shippedLibrary } from '../../library.ts';

const hot = shipped('distorted-output-valve-hot', 'am-fm-shared');
const traceWith = (resolved: typeof hot, history: HistoryWord[]) =>
	trace(resolved, { answers: [], mended: [], history });
const share = (of: ReturnType<typeof trace>, wanted: (id: string) => boolean) =>
	standings(of).reduce((sum, { id, probability }) => sum + (wanted(id) ? probability : 0), 0);
const isWork = (id: string) => shippedLibrary().suspects[id.split('@')[0] ?? '']?.kind === 'work';

test('every word of a set’s past has its shifts in the library', () => {
	expect(Object.keys(shippedLibrary().history).sort()).toEqual(Object.keys(HISTORY).sort());
});

describe.each(
	allShipped().map((resolved) => ({ name: `${resolved.flow.id} on ${resolved.plan.id}`, resolved }))
)('parts just changed: $name', ({ resolved }) => {
	test('a slip in that work comes before every other single suspect', () => {
		const after = traceWith(resolved, ['just-changed']);
		const others = standings(after).filter(({ id }) => !isWork(id));
		expect(share(after, isWork)).toBeGreaterThanOrEqual((others[0]?.probability ?? 1) - 1e-12);
		expect(after.now.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
	});
});

describe('the past shifts the weights', () => {
	const without = traceWith(hot, []);

	test('long storage: paper capacitors and electrolytics rise, turned cores fall', () => {
		const stored = traceWith(hot, ['stored-long']);
		expect(share(stored, (id) => id === 'cc-leak')).toBeGreaterThan(share(without, (id) => id === 'cc-leak'));
		expect(share(stored, (id) => id === 'ov-gas')).toBeLessThan(share(without, (id) => id === 'ov-gas'));
	});

	test('played until lately: nobody has left a slip', () => {
		expect(share(traceWith(hot, ['played-until-lately']), isWork)).toBeLessThan(share(without, isWork));
	});

	test('repaired by others: slips and exchanged valves rise', () => {
		const after = traceWith(hot, ['worked-on']);
		expect(share(after, isWork)).toBeGreaterThan(share(without, isWork));
		expect(share(after, (id) => id.startsWith('valve-wrong'))).toBeGreaterThan(
			share(without, (id) => id.startsWith('valve-wrong'))
		);
	});

	test('dropped: joints rise most', () => {
		const joints = (of: typeof without) => share(of, (id) => id.startsWith('joint@'));
		expect(joints(traceWith(hot, ['dropped']))).toBeGreaterThan(3 * joints(without));
	});

	test('the same word twice counts once', () => {
		expect(traceWith(hot, ['moved', 'moved']).now).toEqual(traceWith(hot, ['moved']).now);
	});

	test('the past clears nobody: it is no answer', () => {
		for (const word of Object.keys(HISTORY) as HistoryWord[])
			expect(cleared(traceWith(hot, [word]))).toEqual({ sections: [], places: [] });
	});

	test('a job from before the library knew of a past goes on without', () => {
		const old = { ...hot, history: {} };
		expect(traceWith(old, ['just-changed']).now).toEqual(without.now);
	});
});

test('the shift of a standing is told with its reason and its source', () => {
	const joint = hot.suspects.find(({ family }) => family === 'joint');
	const work = hot.suspects.find(({ family }) => family === 'last-work');
	if (!joint || !work) throw new Error('The families have changed.');
	const [shift] = pastShifts(hot, joint, ['dropped', 'recapped']);
	expect(shift).toMatchObject({ word: 'dropped', shift: 'much likelier' });
	expect(shift?.source.length).toBeGreaterThan(0);
	expect(pastSentences(pastShifts(hot, work, ['just-changed']))[0]).toMatch(
		/^Parts were changed just before it went wrong, so this comes first\. .*\.$/
	);
});
