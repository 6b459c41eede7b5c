import { describe, expect, test } from 'vitest';
import {
	gangAt,
	oscillatorAt,
	type Points,
	signalAt,
	solveThreePoints,
	solveTwoPoints,
	trackingError
} from '../../../src/lib/calculations/tracking-circuit.ts';
import { Dice } from '../../random.ts';

const dice = new Dice(11);

/** A medium-wave circuit with three points within its dial. */
function draw() {
	const signal = { coil: dice.between(150e-6, 250e-6), trimmer: dice.between(15e-12, 50e-12) };
	const points: Points = [
		dice.between(550e3, 650e3),
		dice.between(900e3, 1050e3),
		dice.between(1350e3, 1500e3)
	];
	return { signal, points, intermediate: dice.between(440e3, 480e3) };
}

describe('the oscillator on the gang of the signal circuit', () => {
	test.each(['gang', 'coil'] as const)(
		'with the trimmer across the %s the dial is right at all three points',
		(across) => {
			for (let i = 0; i < 100; i++) {
				const { signal, points, intermediate } = draw();
				const parts = solveThreePoints(signal, intermediate, points, across);
				if (!parts) throw new Error(`no parts for ${JSON.stringify({ signal, points, intermediate })}`);
				for (const point of points)
					expect(Math.abs(trackingError(signal, parts, intermediate, point))).toBeLessThan(0.1);
			}
		}
	);

	test('where the trimmer sits changes the parts, not the error between the points', () => {
		const { signal, points, intermediate } = draw();
		const [gang, coil] = (['gang', 'coil'] as const).map((across) =>
			solveThreePoints(signal, intermediate, points, across)
		);
		if (!gang || !coil) throw new Error('no parts');
		expect(coil.coil).toBeLessThan(gang.coil);
		for (const place of [700e3, 1200e3, 1600e3])
			expect(trackingError(signal, coil, intermediate, place)).toBeCloseTo(
				trackingError(signal, gang, intermediate, place),
				3
			);
	});

	test('the signal circuit stands where its gang was set for', () => {
		const { signal } = draw();
		expect(signalAt(signal, gangAt(signal, 1e6))).toBeCloseTo(1e6, 3);
	});

	test('an oscillator that may not be reached has no parts', () => {
		const signal = { coil: 180e-6, trimmer: 35e-12 };
		expect(solveThreePoints(signal, -455e3, [600e3, 1000e3, 1400e3], 'gang')).toBeUndefined();
	});

	test('padder and coil from the ends of a dial are right at both ends', () => {
		for (let i = 0; i < 100; i++) {
			const [low, high, intermediate] = [
				dice.between(500e3, 600e3),
				dice.between(1500e3, 1650e3),
				dice.between(440e3, 480e3)
			];
			const most = dice.between(300e-12, 500e-12);
			const { padder, coil, least } = solveTwoPoints(low, high, intermediate, most);
			const parts = { coil, padder, trimmer: 0, trimmerAcross: 'gang' as const };
			expect(oscillatorAt(parts, most) - low - intermediate).toBeCloseTo(0, 3);
			expect(oscillatorAt(parts, least) - high - intermediate).toBeCloseTo(0, 3);
		}
	});
});
