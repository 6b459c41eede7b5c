import { expect, test } from 'vitest';
import { Comparison, type Evidence } from '../../../../src/lib/receiver/stage-check/comparison.ts';
import { weigh } from '../../../../src/lib/receiver/stage-check/sizes.ts';

interface Figures {
	leak: number;
	part: number;
}

/** A reading that is leak times part; the part lies about 1. */
const evidence = (value: number, error: number, sigma: number): Evidence<Figures> => {
	const foretell = ({ leak, part }: Figures) => [leak * part];
	return {
		sound: { leak: 0, part: 1 },
		spreads: [{ key: 'part', sigma }],
		readings: [{ value, error, exact: true }],
		foretell,
		nudged: foretell
	};
};
const weighed = (value: number, error: number, sigma: number) =>
	weigh(
		new Comparison(evidence(value, error, sigma)),
		{
			id: 'leak',
			weight: 1,
			sizes: { from: 0.1, to: 1000 },
			set: (sound, size) => ({ ...sound, leak: size }),
			pins: ['leak']
		},
		Infinity
	);

test('a size read with an error of 2 % lies within 4 % of its reading by 19 to 1', () => {
	const { size, low, high } = weighed(10, 0.2, 1e-6);
	expect(size).toBeCloseTo(10, 1);
	expect(low).toBeCloseTo(9.61, 1);
	expect(high).toBeCloseTo(10.4, 1);
});

test('a part of 10 % standard error in the way makes it wider: from 0.82 to 1.22 of the reading', () => {
	const { size, low, high } = weighed(10, 0.01, 0.1);
	expect(Math.abs(size / 10 - 1)).toBeLessThan(0.01);
	expect(Math.abs(low / 8.22 - 1)).toBeLessThan(0.03);
	expect(Math.abs(high / 12.16 - 1)).toBeLessThan(0.03);
});

test('a needle between two looks is found: 1 % of error in a range of 1 to 10,000', () => {
	const { size, low, high } = weighed(37.3, 0.373, 1e-6);
	expect(Math.abs(size / 37.3 - 1)).toBeLessThan(0.003);
	expect(high / low).toBeLessThan(1.06);
});
