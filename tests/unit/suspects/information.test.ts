import { describe, expect, test } from 'vitest';
import {
	entropy,
	huffmanCost,
	informationGain,
	outcomeLikelihood,
	outcomeProbabilities,
	update
} from '../../../src/lib/suspects/index.ts';
import { inEveryWorld } from './random.ts';

describe('entropy', () => {
	test('a certain suspect is 0 bits, eight equal ones are 3', () => {
		expect(entropy([1, 0, 0])).toBe(0);
		expect(entropy(Array(8).fill(1))).toBeCloseTo(3, 12);
	});
});

describe('what a check is expected to tell', () => {
	test(
		'it is the entropy before less that expected after',
		inEveryWorld(({ prior, check, bits }) => {
			const after = outcomeProbabilities(prior, check).map(
				(p, outcome) => p * entropy(update(prior, outcomeLikelihood(check, outcome)).posterior)
			);
			const gain = informationGain(prior, check);
			expect(gain).toBeCloseTo(bits - after.reduce((one, other) => one + other), 10);
			expect(gain).toBeGreaterThanOrEqual(0);
		})
	);

	test('a check that reads the same for every suspect tells nothing', () => {
		expect(informationGain([0.5, 0.3, 0.2], Array(3).fill([0.7, 0.2, 0.1]))).toBeCloseTo(0, 12);
	});

	test('a clean split of two equal suspects tells one bit', () => {
		const split = [
			[1, 0],
			[0, 1]
		];
		expect(informationGain([0.5, 0.5], split)).toBe(1);
		expect(informationGain([1, 0], split)).toBe(0);
	});

	test('chances of the outcomes follow the standings', () => {
		const check = [
			[0.9, 0.1],
			[0.2, 0.8]
		];
		expect(outcomeProbabilities([3, 1], check)[0]).toBeCloseTo(0.725, 12);
	});
});

describe('least number of yes/no checks', () => {
	test('one suspect needs none, two need one, four equal ones two', () => {
		expect(huffmanCost([1])).toBe(0);
		expect(huffmanCost([0.9, 0.1])).toBe(1);
		expect(huffmanCost([1, 1, 1, 1])).toBe(2);
	});

	test(
		'it lies between the entropy and one check more',
		inEveryWorld(({ prior, bits }) => {
			expect(huffmanCost(prior)).toBeGreaterThanOrEqual(bits - 1e-12);
			expect(huffmanCost(prior)).toBeLessThan(bits + 1);
		})
	);
});
