import { describe, expect, test } from 'vitest';
import {
	bitsOf,
	informationGain,
	outcomeProbabilities,
	outcomeWeight,
	pack,
	packed,
	packWeights,
	weightsAfter
} from '../../../src/lib/suspects/index.ts';
import { inEveryWorld } from './random.ts';

describe('a packed table', () => {
	test(
		'tells the same bits as the plain reckoning',
		inEveryWorld(({ prior, check }) => {
			expect(bitsOf(packWeights(prior), 1, pack(check))).toBeCloseTo(informationGain(prior, check), 10);
		})
	);

	test(
		'gives each outcome the same chance, and the suspects the same shares after it',
		inEveryWorld(({ prior, check }) => {
			const table = pack(check);
			const after = new Float64Array(prior.length);
			outcomeProbabilities(prior, check).forEach((chance, outcome) => {
				expect(outcomeWeight(packWeights(prior), table, outcome)).toBeCloseTo(chance, 12);
				expect(weightsAfter(packWeights(prior), table, outcome, after)).toBeCloseTo(chance, 12);
				prior.forEach((share, suspect) =>
					expect(after[suspect]).toBeCloseTo(share * (check[suspect]?.[outcome] ?? NaN), 12)
				);
			});
		})
	);

	test('a row that does not sum to 1 is scaled, a row of zeros says nothing', () => {
		const table = pack([
			[1.8, 0.2],
			[0, 0]
		]);
		expect([...table.chances]).toEqual([0.9, 0.5, 0.1, 0.5]);
	});

	test('a check with no outcome tells nothing', () => {
		expect(bitsOf(packWeights([1, 1]), 1, pack([[], []]))).toBe(0);
	});

	test('one table is packed once', () => {
		const table = [[0.5, 0.5]];
		expect(packed(table)).toBe(packed(table));
	});
});
