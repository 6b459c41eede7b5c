import { describe, expect, test } from 'vitest';
import { raiseToFirst, SHIFT_WORDS, SHIFTS } from '../../../src/lib/suspects/index.ts';

const sum = (weights: readonly number[]) => weights.reduce((a, b) => a + b, 0);

test('likelier and less likely undo each other, and much of either is more', () => {
	expect(SHIFTS.likelier * SHIFTS['less likely']).toBeCloseTo(1, 12);
	expect(SHIFTS['much likelier'] * SHIFTS['much less likely']).toBeCloseTo(1, 12);
	expect(SHIFTS['much likelier']).toBeGreaterThan(SHIFTS.likelier);
	expect(SHIFT_WORDS).toContain('comes first');
});

describe('what comes first', () => {
	test('weighs together as much as the heaviest other, its places in their ratio', () => {
		const raised = raiseToFirst([30, 10, 1, 3], [false, false, true, true]);
		expect(sum(raised.slice(2))).toBeCloseTo(30, 12);
		expect((raised[3] ?? 0) / (raised[2] ?? 1)).toBeCloseTo(3, 12);
		expect(raised.slice(0, 2)).toEqual([30, 10]);
	});

	test('stays where it is when it leads already, or weighs nothing', () => {
		expect(raiseToFirst([1, 5], [false, true])).toEqual([1, 5]);
		expect(raiseToFirst([1, 0], [false, true])).toEqual([1, 0]);
		expect(raiseToFirst([1, 2], [false, false])).toEqual([1, 2]);
	});
});
