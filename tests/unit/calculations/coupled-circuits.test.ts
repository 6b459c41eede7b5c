import { describe, expect, test } from 'vitest';
import {
	type CoupledCircuits,
	criticalCoupling,
	peaksOf,
	responseAt,
	transfer,
	widthAt
} from '../../../src/lib/calculations/coupled-circuits.ts';
import { Dice } from '../../random.ts';

const dice = new Dice(12);

function draw(times = dice.between(0.3, 2)): CoupledCircuits {
	const [q1, q2] = [dice.between(30, 150), dice.between(30, 150)];
	const coupling = times * criticalCoupling(q1, q2);
	return { middle: 455e3, q1, q2, coupling, off1: 0, off2: 0, cans: dice.whole(1, 3) };
}

describe('two coupled tuned circuits', () => {
	test('the width is where the response has fallen by just so much, above and below', () => {
		for (let i = 0; i < 200; i++) {
			const circuits = draw();
			const down = dice.between(1, 40);
			const half = widthAt(circuits, down) / 2;
			expect(responseAt(circuits, half)).toBeCloseTo(-down, 6);
			expect(responseAt(circuits, -half)).toBeCloseTo(-down, 6);
		}
	});

	test('on tune the middle stands at nought, and both sides are alike', () => {
		const circuits = draw();
		expect(responseAt(circuits, 0)).toBeCloseTo(0, 10);
		expect(responseAt(circuits, 3e3)).toBeCloseTo(responseAt(circuits, -3e3), 10);
	});

	test('two cans lose twice the decibels of one', () => {
		const one = { ...draw(), cans: 1 };
		expect(responseAt({ ...one, cans: 2 }, 4e3)).toBeCloseTo(2 * responseAt(one, 4e3), 10);
	});

	test('at a peak the response falls to both sides; up to critical there is one peak only', () => {
		const equal = { q1: 100, q2: 100, middle: 455e3, off1: 0, off2: 0, cans: 1 };
		const tight = { ...equal, coupling: 0.02 };
		const peaks = peaksOf(tight);
		if (!peaks) throw new Error('no peaks');
		expect(responseAt(tight, peaks.offset)).toBeGreaterThan(responseAt(tight, peaks.offset * 1.05));
		expect(responseAt(tight, peaks.offset)).toBeGreaterThan(responseAt(tight, peaks.offset * 0.95));
		expect(peaksOf({ ...equal, coupling: 0.01 })).toBeUndefined();
	});

	test('critical coupling gives the most gain, half of slope times impedance', () => {
		expect(transfer(draw(1))).toBeCloseTo(0.5, 10);
		expect(transfer(draw(0.7))).toBeLessThan(0.5);
		expect(transfer(draw(1.4))).toBeLessThan(0.5);
	});

	test('both circuits off by the same amount move the whole curve', () => {
		const circuits = draw();
		const moved = { ...circuits, off1: 2e3, off2: 2e3 };
		expect(responseAt(moved, 5e3)).toBeCloseTo(responseAt(circuits, 3e3), 10);
	});
});
