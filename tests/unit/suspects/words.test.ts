import { describe, expect, test } from 'vitest';
import { LIKELIHOODS, WEIGHTS, standingNumber, standingWord } from '../../../src/lib/suspects/index.ts';

describe('words for how often a fault shows a sign', () => {
	const numbers = Object.values(LIKELIHOODS);

	test('there are eight, from always down to never, each rarer than the one before', () => {
		expect(numbers).toEqual([0.98, 0.91, 0.75, 0.5, 0.3, 0.12, 0.07, 0.02]);
		expect(numbers).toEqual([...numbers].sort((one, other) => other - one));
	});

	test('no word claims certainty', () => {
		expect(Math.max(...numbers)).toBeLessThan(1);
		expect(Math.min(...numbers)).toBeGreaterThan(0);
	});
});

test('a very common suspect starts a hundred times above one that is not listed', () => {
	expect(WEIGHTS['very common'] / WEIGHTS['not listed']).toBeCloseTo(100, 9);
	expect(Object.values(WEIGHTS)).toEqual([30, 10, 3, 1, 0.3]);
});

test.each([
	[1, 'almost certainly'],
	[0.85, 'almost certainly'],
	[0.849, 'probably'],
	[0.6, 'probably'],
	[0.599, 'in question'],
	[0.2, 'in question'],
	[0.199, 'unlikely'],
	[0.05, 'unlikely'],
	[0.049, 'nearly cleared'],
	[0, 'nearly cleared']
] as const)('a standing of %d reads "%s"', (standing, word) => {
	expect(standingWord(standing)).toBe(word);
});

test.each([
	[0, 'under 1 in 20'],
	[0.0499, 'under 1 in 20'],
	[0.05, '5 %'],
	[0.072, '5 %'],
	[0.34, '35 %'],
	[0.5, '50 %'],
	[0.97, '95 %'],
	[0.98, 'over 95 %'],
	[1, 'over 95 %']
] as const)('a standing of %d is shown as %s', (standing, text) => {
	expect(standingNumber(standing)).toBe(text);
});
