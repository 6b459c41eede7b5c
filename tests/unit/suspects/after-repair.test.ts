import { describe, expect, test } from 'vitest';
import { atShare, strongestFor, withoutExplained, withoutSuspect } from '../../../src/lib/suspects/index.ts';
import { apart } from './random.ts';

describe('after a repair that did not cure', () => {
	test('a part that was good is out and the others keep their ratios', () => {
		expect(apart(withoutSuspect([0.6, 0.3, 0.1], 0), [0, 0.75, 0.25])).toBeLessThan(1e-12);
	});

	test('a suspect that was the only one does not come back', () => {
		expect(withoutSuspect([1, 0], 0)).toEqual([0, 0]);
	});

	test('the answer to repeat is the one that spoke most for the good part', () => {
		const answers = [
			[0.6, 0.4],
			[0.9, 0.1],
			[0.3, 0.7]
		];
		expect(strongestFor([0.5, 0.5], answers, 0)).toBe(1);
		expect(strongestFor([0.5, 0.5], answers, 1)).toBe(2);
		expect(strongestFor([0.5, 0.5], answers.slice(2), 0)).toBe(-1);
		expect(strongestFor([0.5, 0.5], [], 0)).toBe(-1);
	});

	test('a part that was bad takes the bad answers it explains with it; good answers stay', () => {
		const answers = [
			{ bad: true, badGiven: [0.95, 0.05] },
			{ bad: true, badGiven: [0.3, 0.9] },
			{ bad: false, badGiven: [0.95, 0.05] },
			{ bad: true, badGiven: [0.5, 0.5] }
		];
		expect(withoutExplained(answers, 0)).toEqual({ kept: [1, 2], dropped: [0, 3] });
	});

	test('something not listed goes back to the share it began with', () => {
		expect(apart(atShare([0.2, 0.2, 0.6], 2, 0.04), [0.48, 0.48, 0.04])).toBeLessThan(1e-12);
		expect(atShare([0, 1], 1, 0.04)).toEqual([0, 1]);
	});
});
