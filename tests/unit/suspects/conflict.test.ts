import { describe, expect, test } from 'vitest';
import { conflictBits, findConflict, likelihoodGivenOthers } from '../../../src/lib/suspects/index.ts';

const even = [0.5, 0.5];

describe('answers that contradict each other', () => {
	test('two answers for different suspects conflict, two for the same agree', () => {
		// P(each) = 0.5; together 0.95 * 0.05 against 0.95² / 2 + 0.05² / 2.
		const against = [
			[0.95, 0.05],
			[0.05, 0.95]
		];
		expect(conflictBits(even, against)).toBeCloseTo(Math.log2(0.25 / 0.0475), 12);
		expect(conflictBits(even, [against[0]!, against[0]!])).toBeCloseTo(Math.log2(0.25 / 0.4525), 12);
	});

	test('a single answer conflicts with nothing, none at all neither', () => {
		expect(conflictBits(even, [[0.9, 0.1]])).toBeCloseTo(0, 12);
		expect(findConflict(even, [])).toEqual({ bits: 0, warn: false, repeat: -1, likelihoods: [] });
	});

	test('the odd one out of four answers is the one to repeat', () => {
		const answers = [
			[0.95, 0.05],
			[0.9, 0.1],
			[0.03, 0.97],
			[0.92, 0.08]
		];
		const conflict = findConflict(even, answers);
		expect(conflict.repeat).toBe(2);
		expect(conflict.warn).toBe(true);
		expect(conflict.likelihoods[2]).toBeLessThan(0.05);
	});

	test('many mild contradictions warn together, though no single answer was unlikely', () => {
		const answers = [...Array<number[]>(4).fill([0.8, 0.2]), ...Array<number[]>(4).fill([0.2, 0.8])];
		const conflict = findConflict(even, answers);
		expect(Math.min(...conflict.likelihoods)).toBeGreaterThan(0.05);
		expect(conflict.bits).toBeGreaterThan(2);
		expect(conflict.warn).toBe(true);
	});

	test('answers that agree give no warning', () => {
		expect(findConflict(even, Array(4).fill([0.9, 0.1])).warn).toBe(false);
	});

	test('how likely an answer was in the light of the other follows from Bayes', () => {
		const [first] = likelihoodGivenOthers(even, [
			[0.8, 0.4],
			[0.9, 0.1]
		]);
		expect(first).toBeCloseTo(0.9 * 0.8 + 0.1 * 0.4, 12);
	});

	test('answers that no suspect allows together are an endless conflict, and the culprit is still found', () => {
		const answers = [
			[1, 0],
			[0.5, 0.5],
			[0, 1],
			[1, 0]
		];
		const conflict = findConflict(even, answers);
		expect(conflict).toMatchObject({ bits: Infinity, warn: true, repeat: 2 });
		expect(conflict.likelihoods).toEqual([1, 1, 0, 1]);
	});
});
