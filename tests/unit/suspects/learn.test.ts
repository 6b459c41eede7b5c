import { describe, expect, test } from 'vitest';
import { learntPriors } from '../../../src/lib/suspects/index.ts';

describe('priors from closed jobs', () => {
	test('without a job they are the words of the flow', () =>
		expect(learntPriors([30, 10], [])).toEqual([0.75, 0.25]));

	test('twenty proved jobs weigh as much as the words', () => {
		const jobs = Array.from({ length: 20 }, () => ({ cause: 1 }));
		expect(learntPriors([1, 1], jobs)[1]).toBeCloseTo(0.75, 12);
	});

	test('a job that was never proved counts half, spread as it ended', () => {
		const [first, second] = learntPriors([1, 1], [{ standings: [0.8, 0.2] }]);
		expect(first).toBeCloseTo((10 + 0.4) / 20.5, 12);
		expect(second).toBeCloseTo((10 + 0.1) / 20.5, 12);
	});

	test('a job that ended with everybody cleared teaches nothing', () =>
		expect(learntPriors([3, 1], [{ standings: [0, 0] }])).toEqual([0.75, 0.25]));

	test('a part that never failed here keeps a share', () => {
		const jobs = Array.from({ length: 1000 }, () => ({ cause: 0 }));
		expect(learntPriors([1, 1], jobs)[1]).toBeCloseTo(10 / 1020, 12);
	});

	test('the order of the jobs is irrelevant', () => {
		const jobs = [{ cause: 0 }, { standings: [0.1, 0.9] }, { cause: 1 }];
		const turned = learntPriors([2, 1], [...jobs].reverse());
		learntPriors([2, 1], jobs).forEach((share, place) => expect(turned[place]).toBeCloseTo(share, 12));
	});
});
