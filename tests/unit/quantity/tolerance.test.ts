import { describe, expect, test } from 'vitest';
import {
	printWithSpread,
	scaleTolerance,
	splitTolerance,
	withTolerance
} from '../../../src/lib/quantity/index.ts';

describe('tolerance', () => {
	test('4k7 at 20 % may be anything from 3k76 to 5k64', () => {
		expect(withTolerance(4700, 20)).toEqual({ low: 3760, high: 5640 });
	});

	test('a capacitor marked Z may be 80 % over but only 20 % under', () => {
		expect(withTolerance(100, { plus: 80, minus: 20 })).toEqual({ low: 80, high: 180 });
	});

	test('a negative grid voltage keeps its lower end below its upper one', () => {
		expect(withTolerance(-10, 5)).toEqual({ low: -10.5, high: -9.5 });
		expect(withTolerance(-10, { plus: 80, minus: 20 })).toEqual({ low: -18, high: -8 });
	});

	test('current from volts at 2 % and ohms at 10 % is good to 12 %', () => {
		expect(scaleTolerance(2, { pct: 10, power: -1 })).toBe(12);
	});

	test('watts from the same readings are good to 14 %, volts counting twice', () => {
		expect(scaleTolerance({ pct: 2, power: 2 }, { pct: 10, power: -1 })).toBe(14);
	});

	test('a resonant frequency is off by half as much as its capacitor', () => {
		expect(scaleTolerance({ pct: 10, power: -0.5 })).toBe(5);
	});
});

describe('a tolerance typed behind a value', () => {
	test.each([
		['4k7 ±10 %', '4k7', 10],
		['4k7+-10', '4k7', 10],
		['1.2V +/-2.5%', '1.2V', 2.5],
		['-9.4 ±0', '-9.4', 0]
	])('%s', (text, value, pct) => expect(splitTolerance(text)).toEqual({ ok: true, text: value, pct }));

	test.each(['4k7', '-5', '+-5', '±10'])('%s has none', (text) =>
		expect(splitTolerance(text)).toBeUndefined()
	);

	test.each(['4k7 ±', '4k7 ±81', '4k7 ±-5', '4k7 ±10 ±5'])('%s is refused with an example', (text) => {
		expect(splitTolerance(text)).toMatchObject({
			ok: false,
			hint: expect.stringContaining('±10 %') as string
		});
	});
});

describe('a value is printed with its ±', () => {
	test.each([
		[0.05, 0.00612, 'A', '50 ± 6.1 mA'],
		[1.6e6, 2.1e4, 'Hz', '1.6 ± 0.021 MHz'],
		[-9.4, 0.47, 'V', '−9.4 ± 0.47 V'],
		[75, 10.6, '%', '75 ± 11 %'],
		[3.5, 0.1, '', '3.5 ± 0.1']
	] as const)('%d ± %d %s', (value, spread, unit, printed) => {
		expect(printWithSpread(value, spread, unit, { digits: 3 })).toBe(printed);
	});
});
