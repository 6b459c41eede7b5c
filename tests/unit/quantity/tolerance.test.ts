import { describe, expect, test } from 'vitest';
import { scaleTolerance, withTolerance } from '../../../src/lib/quantity/index.ts';

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
