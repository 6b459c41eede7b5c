import { describe, expect, test } from 'vitest';
import {
	combinations,
	distance,
	nearestPreferred,
	reciprocalSum,
	valuesAround
} from '../../../src/lib/calculations/preferred-values.ts';
import { runCalculation } from '../../../src/lib/calculations/index.ts';
import { Dice } from '../../random.ts';

const dice = new Dice(13);

describe('a part made of two', () => {
	test('two equal resistors side by side are half of one', () => {
		expect(reciprocalSum([400e3, 400e3])).toBeCloseTo(200e3, 6);
	});

	test('no pair of the drawer comes nearer than the first one named', () => {
		for (let i = 0; i < 60; i++) {
			const stock = Array.from({ length: 12 }, () => dice.ratio(10, 1e6));
			const wanted = dice.ratio(20, 5e5);
			const [best] = combinations(wanted, stock, 'in series', 1);
			const every = stock.flatMap((one) =>
				stock.flatMap((two) => [one + two, reciprocalSum([one, two]), one])
			);
			const least = Math.min(...every.map((value) => distance(value, wanted)));
			expect(best && distance(best.value, wanted)).toBeCloseTo(least, 9);
		}
	});

	test('a part that fits alone comes before a pair', () => {
		const [best] = combinations(470, valuesAround(470, 'E12', 1), 'in series', 3);
		expect(best).toEqual({ parts: [470], joined: 'alone', value: 470 });
	});

	test('capacitors add side by side', () => {
		const [best] = combinations(16, [8], 'in parallel', 1);
		expect(best).toEqual({ parts: [8, 8], joined: 'in parallel', value: 16 });
	});

	test('an old value goes to its nearest of today', () => {
		expect([0.05, 0.02, 0.25, 8, 16].map((value) => nearestPreferred(value, 'E6'))).toEqual([
			0.047, 0.022, 0.22, 6.8, 15
		]);
		expect(nearestPreferred(500e3, 'E24')).toBe(510e3);
	});
});

describe('what may not be put in', () => {
	const verdictOf = (given: Record<string, unknown>) => {
		const answer = runCalculation('replacement-value', given);
		return answer.ok ? answer.verdict : answer.problems[0]?.message;
	};

	test('a reservoir larger than the rectifier bears is refused, whatever its volts', () => {
		const part = { C_old_uF: 16, C_new_uF: 22, use: 'reservoir or smoothing', V_old: 350, V_new: 450 };
		expect(verdictOf({ ...part, C_limit_uF: 32 })).toBe('fits');
		expect(verdictOf({ ...part, C_limit_uF: 16 })).toBe('refuse');
	});

	test('22 nF in a tone circuit of 20 nF is refused; as a coupling it is like for like', () => {
		const part = { C_old_uF: 0.02, C_new_uF: 0.022 };
		expect(verdictOf({ ...part, use: 'tuned or tone circuit' })).toBe('refuse');
		expect(verdictOf({ ...part, use: 'coupling or decoupling' })).toBe('same');
	});

	test('an unmarked part is refused at the mains, and an X part to a touchable place', () => {
		expect(verdictOf({ position: 'across the mains', mark: 'none' })).toBe('refuse');
		expect(verdictOf({ position: 'across the mains', mark: 'Y2' })).toBe('same');
		const aerial = 'mains to chassis, or live chassis to aerial/earth';
		expect(verdictOf({ position: aerial, mark: 'X1' })).toBe('refuse');
	});
});
