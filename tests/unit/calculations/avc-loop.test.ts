import { describe, expect, test } from 'vitest';
import { diodeVolts, lineVolts, rectified } from '../../../src/lib/calculations/avc-loop.ts';
import { Dice } from '../../random.ts';

const dice = new Dice(14);

const draw = () => ({
	gain: dice.ratio(1e3, 1e6),
	stages: dice.whole(1, 3),
	perHalving: dice.between(2, 8),
	efficiency: dice.between(0.7, 1),
	delay: dice.one([0, dice.between(1, 6)])
});

describe('the AVC loop', () => {
	test('at rest the line has just what the diode gives', () => {
		for (let i = 0; i < 200; i++) {
			const loop = draw();
			const signal = dice.ratio(1e-6, 0.1);
			const line = lineVolts(loop, signal);
			expect(rectified(diodeVolts(loop, signal, line), loop)).toBeCloseTo(line, 6);
		}
	});

	test('more signal never gives less AVC, and the output rises by less than the signal', () => {
		const loop = { ...draw(), gain: 1e5, delay: 0 };
		const signals = [1e-6, 1e-5, 1e-4, 1e-3, 1e-2];
		const lines = signals.map((signal) => lineVolts(loop, signal));
		expect(lines).toEqual([...lines].sort((a, b) => a - b));
		const [weak = 0, strong = 0] = [1e-3, 1e-2].map((s) => diodeVolts(loop, s, lineVolts(loop, s)));
		expect(strong / weak).toBeGreaterThan(1);
		expect(strong / weak).toBeLessThan(10);
	});

	test('below the delay nothing is held back', () => {
		const loop = { ...draw(), gain: 1e3, delay: 3, efficiency: 1 };
		expect(lineVolts(loop, 1e-3)).toBe(0);
	});
});
