import { describe, expect, test } from 'vitest';
import { bandsOf, fromBands, fromBody } from '../../../src/lib/calculations/colour-code.ts';
import { readPrinted } from '../../../src/lib/calculations/printed-code.ts';
import { SERIES, valuesAround } from '../../../src/lib/calculations/preferred-values.ts';
import { runCalculation } from '../../../src/lib/calculations/index.ts';

describe('marks on parts', () => {
	test('the bands of every E24 value read back as that value', () => {
		const values = [1, 1e3, 1e6].flatMap((decade) => valuesAround(decade, 'E24', 1));
		expect(values.length).toBeGreaterThan(24 * 8);
		for (const value of values) {
			const bands = bandsOf(value, 10);
			expect(bands && fromBands(bands)).toEqual({ value, tolerance: 10 });
		}
	});

	test('a dot that cannot be seen has the colour of the body', () => {
		expect(fromBody('red', 'violet')).toEqual({ value: 2700, tolerance: 20 });
	});

	test('five bands are three figures', () => {
		expect(fromBands(['brown', 'black', 'black', 'red', 'brown'])).toEqual({ value: 10e3, tolerance: 1 });
	});

	test.each([
		['4n7', 4.7e-9],
		['u1', 0.1e-6],
		['µ47', 0.47e-6],
		['47p', 47e-12],
		['104', 0.1e-6],
		['109', 1e-12]
	])('%s is a capacitor of so many farads', (code, value) => {
		const [read] = readPrinted(code);
		expect(read?.kind).toBe('capacitor');
		expect(read?.value).toBeCloseTo(value, 18);
	});

	test('2J473K bears 630 V and is within 10 %', () => {
		expect(readPrinted('2J473K')).toEqual([{ kind: 'capacitor', value: 47e-9, letter: 'K', volts: 630 }]);
	});

	test('100K may be 100 kohm or 10 pF: the kind of part is asked for', () => {
		const answer = runCalculation('part-codes', { code: '100K' });
		expect(answer.ok ? [] : answer.problems.map(({ key }) => key)).toEqual(['kind']);
		const told = runCalculation('part-codes', { code: '100K', kind: 'resistor' });
		expect(told.ok && told.outputs['ohm']).toBe(100e3);
	});

	test.each(['hello', '12', 'R', '9Z104', ''])('"%s" is no code', (code) => {
		expect(readPrinted(code)).toEqual([]);
	});

	test('gold or silver first means that the part is held the wrong way round', () => {
		const answer = runCalculation('part-codes', { colours: ['silver', 'gold', 'blue', 'grey'] });
		expect(answer.ok ? '' : answer.problems[0]?.message).toContain('begin on the other side');
	});
});

test.each([
	['E48', 48],
	['E96', 96]
] as const)('%s has so many values in a decade, each once, and three figures each', (name, count) => {
	const values = SERIES[name];
	expect(new Set(values).size).toBe(count);
	expect(values.every((value) => value >= 100 && value < 1000)).toBe(true);
	expect(SERIES.E96).toEqual(expect.arrayContaining([...SERIES.E48]));
});
