import { describe, expect, test } from 'vitest';
import {
	type PrintOptions,
	type Unit,
	parseQuantity,
	printQuantity,
	units
} from '../../../src/lib/quantity/index.ts';

const printed: readonly (readonly [value: number, unit: Unit, options: PrintOptions, text: string])[] = [
	[4700, 'ohm', {}, '4.7 kΩ'],
	[4700, 'ohm', { style: 'code' }, '4k7'],
	[0.47, 'ohm', { style: 'code' }, 'R47'],
	[47, 'ohm', { style: 'code' }, '47R'],
	[470e3, 'ohm', { style: 'code' }, '470k'],
	[2.2e-6, 'F', { style: 'code' }, '2u2'],
	[1e-9, 'F', { style: 'code' }, '1n'],
	[0.5, 'V', { style: 'code' }, '0V5'],
	[-1.2, 'V', { style: 'code' }, '-1V2'],
	[-1.2, 'V', {}, '−1.2 V'],
	[-0, 'V', {}, '0 V'],
	[0, 'F', {}, '0 pF'],
	[0.1 + 0.2, 'V', {}, '0.3 V'],
	[60 / 1160, 'A', {}, '51.72 mA'],
	[60 / 1160, 'A', { digits: 3 }, '51.7 mA'],
	[3 * 1.1, 'W', {}, '3.3 W'],
	[999.96, 'ohm', { digits: 4 }, '1 kΩ'],
	[4700, 'ohm', { digits: 3, keepNoughts: true }, '4.70 kΩ'],
	[5, 'V', { digits: 3, keepNoughts: true }, '5.00 V'],
	[1.6e6, 'Hz', { as: 'kHz' }, '1,600 kHz'],
	[105.25e6, 'Hz', {}, '105.25 MHz'],
	[5e-8, 'F', {}, '50 nF'],
	[5e-3, 'F', {}, '5,000 µF'],
	[1e-21, 'F', {}, '0.000000001 pF'],
	[1234.5, 'V', {}, '1,234.5 V'],
	[12345678, '', {}, '12,350,000'],
	[12345678, '', { digits: 8 }, '12,345,678'],
	[720, 's', {}, '12 min'],
	[90, 's', {}, '90 s'],
	[725, 's', {}, '725 s'],
	[7200, 's', {}, '2 h'],
	[0.02, 's', {}, '20 ms'],
	[5, '%', { style: 'code' }, '5 %'],
	[45, 'deg', {}, '45°'],
	[8e-11, 'F/m', {}, '80 pF/m']
];

describe('printing', () => {
	test.each(printed)('%d in %s with %o reads %s', (value, unit, options, text) => {
		expect(printQuantity(value, unit, options)).toBe(text);
	});

	test('no value without an end is printed, nor one in a scale of another unit', () => {
		expect(() => printQuantity(Infinity, 'V')).toThrow('must be finite');
		expect(() => printQuantity(NaN, 'V')).toThrow('must be finite');
		expect(() => printQuantity(1, 'V', { as: 'mA' })).toThrow('cannot be printed in mA');
	});
});

/** A small generator with a fixed seed (linear congruential), so that a failure can be run again. */
function numbersFrom(seed: number): () => number {
	let state = seed;
	return () => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32;
}

/** A value of up to `digits` figures, between 1e-13 and 1e10, of either sign. */
function valueOf(random: () => number, digits: number): number {
	const figures = Math.floor(random() * 10 ** digits);
	const power = Math.floor(random() * 17) - 8 - digits;
	return Number(`${random() < 0.3 ? '-' : ''}${figures}e${power}`);
}

describe('what is printed reads back', () => {
	const rounds: readonly (readonly [PrintOptions, digits: number])[] = [
		[{}, 6],
		[{ style: 'code' }, 6],
		[{ digits: 12 }, 12],
		[{ style: 'code', digits: 12 }, 12],
		[{ digits: 12, keepNoughts: true }, 6]
	];
	test.each(rounds)('with %o, values of up to %d figures in every unit', (options, digits) => {
		const random = numbersFrom(1947);
		for (const unit of Object.keys(units) as Unit[]) {
			for (let round = 0; round < 400; round++) {
				const value = valueOf(random, digits) + 0;
				const text = printQuantity(value, unit, options);
				expect(parseQuantity(text, unit, { comma: 'thousands' }), text).toMatchObject({ ok: true, value });
			}
		}
	});

	test('rounding to three figures is never further off than half of the last one', () => {
		const random = numbersFrom(1938);
		for (let round = 0; round < 2000; round++) {
			const value = valueOf(random, 9);
			const parsed = parseQuantity(printQuantity(value, 'ohm', { digits: 3 }), 'ohm', { comma: 'thousands' });
			expect(parsed.ok && Math.abs(parsed.value - value) <= Math.abs(value) * 0.00501, String(value)).toBe(
				true
			);
		}
	});
});
