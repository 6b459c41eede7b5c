import { describe, expect, test } from 'vitest';
import {
	logEvidence,
	outcomeLikelihood,
	outcomeProbabilities,
	posterior,
	update
} from '../../../src/lib/suspects/index.ts';
import { apart, table, inEveryWorld } from './random.ts';

const total = (list: readonly number[]) => list.reduce((one, other) => one + other, 0);

describe('one answer', () => {
	test('evidence of 0 and 1 clears and proves exactly', () => {
		expect(update([0.25, 0.25, 0.5], [1, 0, 0])).toEqual({ posterior: [1, 0, 0], evidence: 0.25 });
	});

	test('weights count by their ratio only', () => {
		const { posterior: after, evidence } = update([30, 10], [0.5, 0.5]);
		expect(after).toEqual([0.75, 0.25]);
		expect(evidence).toBe(0.5);
	});

	test('an answer that no suspect allows moves nothing and has evidence 0', () => {
		expect(update([3, 1, 0], [0, 0, 1])).toEqual({ posterior: [0.75, 0.25, 0], evidence: 0 });
	});

	test('a negative weight or a missing likelihood is an error of ours, not a result', () => {
		expect(() => update([1, -1], [1, 1])).toThrow(RangeError);
		expect(() => update([1, NaN], [1, 1])).toThrow(RangeError);
		expect(() => update([1, 1], [1])).toThrow(RangeError);
	});
});

describe('many answers', () => {
	test(
		'the order of the answers is irrelevant',
		inEveryWorld(({ prior, next }) => {
			const answers = Array.from({ length: 9 }, () => outcomeLikelihood(table(next, prior.length, 3), 0));
			const straight = posterior(prior, answers);
			expect(apart(straight, posterior(prior, [...answers].reverse()))).toBeLessThan(1e-12);
			const oneByOne = answers.reduce<readonly number[]>((so, row) => update(so, row).posterior, prior);
			expect(apart(straight, oneByOne)).toBeLessThan(1e-12);
		})
	);

	test(
		'the standings sum to 1',
		inEveryWorld(({ prior, check }) => {
			const after = posterior(prior, Array(40).fill(outcomeLikelihood(check, 0)));
			expect(Math.abs(total(after) - 1)).toBeLessThan(1e-12);
		})
	);

	test(
		'the standings expected after a check are those before it',
		inEveryWorld(({ prior, check }) => {
			const outcomes = outcomeProbabilities(prior, check);
			const expected = prior.map((_, suspect) =>
				total(
					outcomes.map((p, o) => p * (update(prior, outcomeLikelihood(check, o)).posterior[suspect] ?? NaN))
				)
			);
			expect(apart(expected, prior)).toBeLessThan(1e-12);
		})
	);

	test(
		'a check that cannot be done changes nothing',
		inEveryWorld(({ prior }) => {
			expect(apart(posterior(prior, []), prior)).toBeLessThan(1e-12);
			expect(apart(posterior(prior, [prior.map(() => 0.3)]), prior)).toBeLessThan(1e-12);
		})
	);

	test('a thousand answers against every suspect still leave the likelier one ahead', () => {
		const after = posterior([0.5, 0.5], Array(1000).fill([0.011, 0.01]));
		expect(after[0]).toBeCloseTo(1, 12);
		expect(total(after)).toBeCloseTo(1, 12);
	});

	test('answers that no suspect allows together move nothing', () => {
		const answers = [
			[1, 0],
			[0, 1]
		];
		expect(posterior([0.3, 0.7], answers)).toEqual([0.3, 0.7]);
		expect(logEvidence([0.3, 0.7], answers)).toBe(-Infinity);
	});

	test('no answers are certain: 0 bits', () => {
		expect(logEvidence([0.3, 0.7], [])).toBe(0);
		expect(logEvidence([0.5, 0.5], [[0.5, 0]])).toBeCloseTo(-2, 12);
	});
});
