import { describe, expect, test } from 'vitest';
import {
	type ParseOptions,
	type Unit,
	parseAnyQuantity,
	parseQuantity,
	units
} from '../../../src/lib/quantity/index.ts';

// Expected values are our own arithmetic on what is written; the notation is IEC 60062 (letter for point) and trade usage.
const good: readonly (readonly [text: string, unit: Unit, value: number, echo: string])[] = [
	['4k7', 'ohm', 4700, '4.7 kΩ'],
	['4K7', 'ohm', 4700, '4.7 kΩ'],
	['4,7k', 'ohm', 4700, '4.7 kΩ'],
	['1k5', 'ohm', 1500, '1.5 kΩ'],
	['M47', 'ohm', 470e3, '0.47 MΩ (470 kΩ)'],
	['R47', 'ohm', 0.47, '0.47 Ω'],
	['4R7', 'ohm', 4.7, '4.7 Ω'],
	['47K3', 'ohm', 47300, '47.3 kΩ'],
	['47', 'ohm', 47, '47 Ω'],
	['220k', 'ohm', 220e3, '220 kΩ'],
	['1.5 Mohm', 'ohm', 1.5e6, '1.5 MΩ'],
	['1M5', 'ohm', 1.5e6, '1.5 MΩ'],
	['10 meg', 'ohm', 10e6, '10 MΩ'],
	['2 megohms', 'ohm', 2e6, '2 MΩ'],
	['10,000.0 ohms', 'ohm', 10e3, '10,000 Ω (10 kΩ)'],
	['1,234,567 ohm', 'ohm', 1234567, '1,234,567 Ω (1.234567 MΩ)'],
	['3.3 kΩ', 'ohm', 3300, '3.3 kΩ'],
	['3.3 kΩ', 'ohm', 3300, '3.3 kΩ'],
	['.05 mfd', 'F', 5e-8, '0.05 µF (50 nF)'],
	['.05 MFD.', 'F', 5e-8, '0.05 µF (50 nF)'],
	['300 mmfd', 'F', 3e-10, '300 pF'],
	['300 MMF', 'F', 3e-10, '300 pF'],
	['50 uuF', 'F', 5e-11, '50 pF'],
	['100 pF', 'F', 1e-10, '100 pF'],
	['2u2', 'F', 2.2e-6, '2.2 µF'],
	['1n', 'F', 1e-9, '1 nF'],
	['4n7', 'F', 4.7e-9, '4.7 nF'],
	['p47', 'F', 4.7e-13, '0.47 pF'],
	['2u2F', 'F', 2.2e-6, '2.2 µF'],
	['8 mfd', 'F', 8e-6, '8 µF'],
	['0.047µF', 'F', 4.7e-8, '0.047 µF (47 nF)'],
	['0.047μF', 'F', 4.7e-8, '0.047 µF (47 nF)'],
	['0,1 uF', 'F', 1e-7, '0.1 µF (100 nF)'],
	['0,047 uF', 'F', 4.7e-8, '0.047 µF (47 nF)'],
	['-1.2V', 'V', -1.2, '−1.2 V'],
	['−1.2', 'V', -1.2, '−1.2 V'],
	['minus 1.2', 'V', -1.2, '−1.2 V'],
	['- 0.6 V', 'V', -0.6, '−0.6 V'],
	['+2 V', 'V', 2, '2 V'],
	['250', 'V', 250, '250 V'],
	['6V3', 'V', 6.3, '6.3 V'],
	['6.3 V a.c.', 'V', 6.3, '6.3 V'],
	['240 volts', 'V', 240, '240 V'],
	['500 mV', 'V', 0.5, '500 mV (0.5 V)'],
	['1.234,5 V', 'V', 1234.5, '1,234.5 V'],
	['-0', 'V', 0, '0 V'],
	['43 mA', 'A', 0.043, '43 mA'],
	['43ma', 'A', 0.043, '43 mA'],
	['0.3 A', 'A', 0.3, '0.3 A (300 mA)'],
	['50 µA', 'A', 5e-5, '50 µA'],
	['2 W', 'W', 2, '2 W'],
	['1/2 watt', 'W', 0.5, '0.5 W'],
	['½ W', 'W', 0.5, '0.5 W'],
	['1½W', 'W', 1.5, '1.5 W'],
	['1 1/2 W', 'W', 1.5, '1.5 W'],
	['470 kc', 'Hz', 470e3, '470 kHz'],
	['455 kc/s', 'Hz', 455e3, '455 kHz'],
	['455KHZ', 'Hz', 455e3, '455 kHz'],
	['10.7 Mc/s', 'Hz', 10.7e6, '10.7 MHz'],
	['98.15 MHz', 'Hz', 98.15e6, '98.15 MHz'],
	['50 c/s', 'Hz', 50, '50 Hz'],
	['1600 kc', 'Hz', 1.6e6, '1,600 kHz (1.6 MHz)'],
	['160 uH', 'H', 1.6e-4, '160 µH'],
	['10 H', 'H', 10, '10 H'],
	['12 min', 's', 720, '12 min'],
	['90 sec', 's', 90, '90 s'],
	['1.5 h', 's', 5400, '1.5 h (90 min)'],
	['5 %', '%', 5, '5 %'],
	['10 per cent', '%', 10, '10 %'],
	['-6 dB', 'dB', -6, '−6 dB'],
	['70 °C', 'degC', 70, '70 °C'],
	['45:1', '', 45, '45'],
	['5.2 mA/V', 'S', 5.2e-3, '5.2 mA/V'],
	['1500 micromhos', 'S', 1.5e-3, '1,500 µA/V (1.5 mA/V)'],
	['20 kohm/V', 'ohm/V', 20e3, '20 kΩ/V'],
	['4.7e-8 F', 'F', 4.7e-8, '0.000000047 F (47 nF)']
];

const doubtful: readonly (readonly [text: string, unit: Unit, choices: readonly number[], inHint: string])[] =
	[
		['1k', 'F', [1e-9], '1,000 pF (1 nF)'],
		['4k7', 'F', [4.7e-9], '4,700 pF (4.7 nF)'],
		['47', 'F', [4.7e-11, 4.7e-5], '47 pF or 47 µF'],
		['.05', 'F', [5e-14, 5e-8], '0.05 µF (50 nF)'],
		['104', 'F', [1e-7, 1.04e-10, 1.04e-4], 'three-figure code'],
		['1,000', 'ohm', [1000, 1], '1,000 Ω (1 kΩ) or 1 Ω'],
		['1,500 kc', 'Hz', [1.5e6, 1.5e3], '1,500 kHz (1.5 MHz) or 1.5 kHz'],
		['10 000', 'ohm', [10e3], '10,000 Ω'],
		['5m', 'ohm', [5e6, 5e-3], '5 MΩ or 5 mΩ'],
		['5 mohm', 'ohm', [5e6, 5e-3], '5 MΩ or 5 mΩ'],
		['5m', 'Hz', [5e6, 5e-3], '5 MHz or 5 mHz'],
		['8 mF', 'F', [8e-6, 8e-3], '8 µF or 8 mF'],
		['8 MF', 'F', [8e-6, 8e-3], '8 µF'],
		['M1', 'F', [1e-7], '0.1 µF'],
		['43', 'A', [0.043, 43], '43 mA or 43 A'],
		['43 MA', 'A', [0.043], '43 mA'],
		['470', 'Hz', [470e3, 470, 470e6], '470 kHz'],
		['5 m', 's', [300, 5e-3], '5 min'],
		['4E7', 'ohm', [4.7, 4e7], '4.7 Ω or 40,000,000 Ω (40 MΩ)']
	];

const refused: readonly (readonly [text: string, unit: Unit, kind: string, inHint: string])[] = [
	['', 'V', 'empty', 'Type a voltage, for example 12 V'],
	['   ', 'ohm', 'empty', 'for example 4k7'],
	['12..5', 'V', 'unreadable', 'two points in "12..5". Keep one: 12.5.'],
	['1.2.3', 'V', 'unreadable', 'two points'],
	['1,,5', 'V', 'unreadable', 'Keep one: 1.5.'],
	['12,34,5', 'V', 'unreadable', 'do not set off thousands'],
	['--2', 'V', 'unreadable', 'two signs'],
	['-', 'V', 'unreadable', 'no number'],
	['1.2-', 'V', 'unreadable', 'Type it before the number'],
	['hot', 'V', 'unreadable', 'no number in "hot"'],
	['ECC83', 'V', 'unreadable', 'does not begin with a number'],
	['> 20 M', 'ohm', 'unreadable', 'Leave off what stands before it'],
	['4.7k2', 'ohm', 'unreadable', 'Keep one of them: 4.7k or 4k7'],
	['4k7.5', 'ohm', 'unreadable', 'more than one value'],
	['4k7J', 'ohm', 'unreadable', 'tolerance letter'],
	['16+16 mfd', 'F', 'unreadable', 'more than one value'],
	['10 mfd 450 V', 'F', 'unreadable', 'more than one value'],
	['1h30', 's', 'unreadable', 'more than one value'],
	['12 bananas', 'V', 'unreadable', '"bananas"'],
	['3 constructor', 'V', 'unreadable', '"constructor"'],
	['1e999', 'V', 'unreadable', 'beyond anything in a set'],
	['12 mA', 'V', 'wrong-unit', '"12 mA" is a current; volts are wanted here'],
	['12 V', 'A', 'wrong-unit', 'amps are wanted here. Type it like 43 mA'],
	['100 pF', 'ohm', 'wrong-unit', 'a capacitance; ohms are wanted'],
	['10 %', '', 'wrong-unit', 'a number alone is wanted'],
	['455 kc', 's', 'wrong-unit', 'a frequency; seconds are wanted']
];

describe('a value that is certain', () => {
	test.each(good)('%s as %s is %d, echoed as %s', (text, unit, value, echo) => {
		expect(parseQuantity(text, unit)).toEqual({ ok: true, value, echo });
	});
});

describe('a value that is in doubt', () => {
	test.each(doubtful)('%s as %s is asked about', (text, unit, values, inHint) => {
		const parsed = parseQuantity(text, unit);
		expect(parsed).toMatchObject({ ok: false, kind: 'doubtful' });
		if (parsed.ok) return;
		expect(parsed.choices?.map(({ value }) => value)).toEqual(values);
		expect(parsed.hint).toContain(inHint);
		expect(parsed.hint).toMatch(/\?$/);
	});
});

describe('what is no value', () => {
	test.each(refused)('"%s" as %s is %s', (text, unit, kind, inHint) => {
		const parsed = parseQuantity(text, unit);
		expect(parsed).toMatchObject({ ok: false, kind });
		expect(parsed.ok ? '' : parsed.hint).toContain(inHint);
	});

	test('a long text is cut in the hint, so that it fits a small screen', () => {
		const parsed = parseQuantity('x'.repeat(500), 'V');
		expect(parsed.ok ? '' : parsed.hint.length).toBeLessThan(120);
	});
});

describe('what the field knows settles the doubt', () => {
	const settled: readonly (readonly [string, Unit, ParseOptions, number])[] = [
		['470', 'Hz', { bare: 'kHz' }, 470e3],
		['.05', 'F', { bare: 'uF' }, 5e-8],
		['12', 's', { bare: 'min' }, 720],
		['10.7 MHz', 'Hz', { bare: 'kHz' }, 10.7e6],
		['1,000', 'ohm', { comma: 'thousands' }, 1000],
		['1,234', 'V', { comma: 'decimal' }, 1.234],
		['0', 'A', {}, 0],
		['0', 'F', {}, 0]
	];
	test.each(settled)('%s as %s with %o is %d', (text, unit, options, value) => {
		expect(parseQuantity(text, unit, options)).toMatchObject({ ok: true, value });
	});

	test('a scale of another unit beside the box is our own mistake', () => {
		expect(() => parseQuantity('5', 'V', { bare: 'mA' })).toThrow('mA is no scale for volts');
	});
});

describe('the unit is read from the text', () => {
	const named: readonly (readonly [string, Unit, number])[] = [
		['1.2 V', 'V', 1.2],
		['43 mA', 'A', 0.043],
		['4k7', 'ohm', 4700],
		['1 M', 'ohm', 1e6],
		['2u2', 'F', 2.2e-6],
		['1n', 'F', 1e-9],
		['.05 mfd', 'F', 5e-8],
		['470 kc', 'Hz', 470e3],
		['10 H', 'H', 10],
		['2 h', 's', 7200],
		['2 s', 's', 2],
		['2 mS', 'S', 2e-3],
		['70 C', 'degC', 70],
		['3 dB', 'dB', 3],
		['-20 %', '%', -20],
		['0.98', '', 0.98]
	];
	test.each(named)('%s is in %s', (text, unit, value) => {
		expect(parseAnyQuantity(text)).toMatchObject({ ok: true, unit, value });
	});

	const unnamed: readonly (readonly [string, string, string])[] = [
		['', 'empty', 'with its unit'],
		['5 m', 'unreadable', 'does not name its unit'],
		['20 degrees', 'unreadable', 'could be a temperature or an angle'],
		['8 mF', 'doubtful', '8 µF or 8 mF'],
		['5 mohm', 'doubtful', '5 MΩ or 5 mΩ'],
		['1,000 V', 'doubtful', '1,000 V or 1 V'],
		['3 constructor', 'unreadable', 'is not a unit']
	];
	test.each(unnamed)('"%s" is %s', (text, kind, inHint) => {
		const parsed = parseAnyQuantity(text);
		expect(parsed).toMatchObject({ ok: false, kind });
		expect(parsed.ok ? '' : parsed.hint).toContain(inHint);
	});
});

describe('the example in every hint', () => {
	test.each(Object.entries(units))('for %s reads as that unit', (unit, { example }) => {
		expect(parseQuantity(example, unit as Unit)).toMatchObject({ ok: true });
	});
});
