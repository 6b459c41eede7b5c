import { describe, expect, test } from 'vitest';
import { shiftOf } from '../../../src/lib/calculations/dial-shift.ts';
import { runCalculation } from '../../../src/lib/calculations/index.ts';
import { Dice } from '../../random.ts';

const MARKS = [600e3, 1000e3, 1400e3];
const often = (trial: (dice: Dice) => void) => {
	const dice = new Dice(910);
	for (let i = 0; i < 100; i++) trial(dice);
};

describe('what shifts the stations of a dial', () => {
	test('an IF that is off shifts them all by so many kilohertz', () => {
		often((dice) => {
			const off = dice.one([1, -1]) * dice.between(15e3, 40e3);
			const seen = MARKS.map((heard) => ({ heard, truth: heard - off }));
			const { word, amount } = shiftOf(seen, dice.one([455e3, 470e3]));
			expect(word).toBe('the same amount');
			expect(amount).toBeCloseTo(off, 3);
		});
	});

	test('an oscillator that runs too high or too low by a share shifts the high end most', () => {
		often((dice) => {
			const [IF, share] = [dice.one([455e3, 470e3]), 1 + dice.one([1, -1]) * dice.between(0.02, 0.06)];
			const seen = MARKS.map((heard) => ({ heard, truth: (heard + IF) * share - IF }));
			const { word, oscillatorPct } = shiftOf(seen, IF);
			expect(word).toBe('in proportion');
			expect(oscillatorPct).toBeCloseTo(100 * (share - 1), 6);
		});
	});

	test('a padder that has drifted moves the low end, strays the high end', () => {
		const at = (low: number, high: number) =>
			shiftOf(
				[
					{ heard: 600e3, truth: 600e3 + low },
					{ heard: 1400e3, truth: 1400e3 + high }
				],
				455e3
			).word;
		expect([at(60e3, 5e3), at(-60e3, 2e3), at(3e3, 90e3)]).toEqual([
			'at the low end',
			'at the low end',
			'at the high end'
		]);
	});

	test('one image among the stations is told as an image', () => {
		expect(shiftOf([{ heard: 602e3, truth: 1510e3 }], 455e3).word).toBe('image');
	});

	test('one shifted station, or two side by side, do not tell, and are asked for more', () => {
		for (const stations_kHz of [
			[[650, 600]],
			[
				[650, 600],
				[700, 660]
			]
		]) {
			const answer = runCalculation('dial-frequencies', { IF_kHz: 455, stations_kHz });
			expect(answer).not.toHaveProperty('verdict');
			expect(answer.ok ? '' : answer.problems[0]?.message).toContain('from both ends of the dial');
		}
	});
});
