import { describe, expect, test } from 'vitest';
import { parseQuantity, type ScaleName, scaleOf } from '../../../src/lib/quantity/index.ts';
import { readValue, readValues, typedValue } from '../../../src/lib/ui/value.ts';

describe('a value is told again in full', () => {
	test.each<[string, ScaleName, string]>([
		['4k7', 'ohm', '4.7 kΩ (4,700 Ω)'],
		['4700', 'ohm', '4,700 Ω (4.7 kΩ)'],
		['43m', 'A', '43 mA (0.043 A)'],
		['.05 mfd', 'uF', '0.05 µF (50 nF)'],
		['50 nF', 'uF', '50 nF'],
		['1470', 'kHz', '1,470 kHz (1.47 MHz)'],
		['-1.2V', 'V', '−1.2 V'],
		['2', 'mA_V', '2 mA/V (0.002 A/V)']
	])('%s in a field for %s is %s', (text, scale, echo) => {
		expect(readValue(text, scale)).toMatchObject({ state: 'read', echo });
	});
});

describe('a doubtful value', () => {
	test.each<[string, ScaleName]>([
		['1k', 'uF'],
		['1,500', 'ohm'],
		['-1,500', 'V'],
		['1,000 pF', 'uF']
	])('%s offers texts that can be read in one way only', (text, scale) => {
		const { unit } = scaleOf(scale);
		const asked = parseQuantity(text, unit, { bare: scale });
		const meant = asked.ok ? [] : (asked.choices ?? []);
		const reading = readValue(text, scale);
		const offered = reading.state === 'refused' ? reading.choices : [];
		expect(meant.length).toBeGreaterThan(0);
		expect(offered.map((choice) => readValue(choice.text, scale))).toMatchObject(
			meant.map(({ value }) => ({ state: 'read', values: [value] }))
		);
	});

	test('1.5 nA comes out as text without loss', () => expect(typedValue(1.5e-9, 'A')).toBe('1.5 nA'));
});

describe('several values with semicolons', () => {
	test('5; 10; 30 on a volt range are three ranges', () => {
		expect(readValues('5; 10;30', 'V')).toEqual({
			state: 'read',
			values: [5, 10, 30],
			echo: '5 V; 10 V; 30 V'
		});
	});

	test('a semicolon that has only just been typed is no complaint', () => {
		expect(readValues('5;', 'V')).toMatchObject({ state: 'read', values: [5] });
	});

	test('a gap is named', () => expect(readValues('5;;10', 'V')).toMatchObject({ state: 'refused' }));

	test('of 10; 1,500 only the doubtful one is asked about, the other kept', () => {
		const reading = readValues('10; 1,500', 'ohm');
		const texts = reading.state === 'refused' ? reading.choices.map(({ text }) => text) : [];
		expect(texts).toEqual(['10; 1.5 kΩ', '10; 1.5 Ω']);
	});

	test('nothing but blanks is an empty field', () =>
		expect(readValues(' ', 'V')).toEqual({ state: 'empty' }));
});
