import { describe, expect, test } from 'vitest';
import { type Calculation, runOn } from '../../../src/lib/calculations/index.ts';
import { defineCalculation } from '../../../src/lib/calculations/define.ts';
import { column, list, number, numbers, optional, rows, text } from '../../../src/lib/calculations/inputs.ts';

/** A sum that hands out what it was given, to see how each kind of input is read. */
const echo: Calculation = defineCalculation({
	id: 'echo',
	title: 'Echo',
	question: 'What was given?',
	group: 'Parts and values',
	inputs: {
		series: optional(
			rows('series_min_mA', 'times and currents', {
				time: column('t_min', 'time', 0, 6e5),
				current: column('I_mA', 'current', 0, 1),
				volts: optional(column('V', 'volts', 0, 500))
			})
		),
		heaters: optional(numbers('V_heater', 'heater volts', 1, 120, { least: 2, most: 4 })),
		code: optional(text('code', 'letters on the part', '4K7')),
		bands: optional(list('colours', 'bands', ['red', 'green'], { places: ['first', 'second', 'third'] })),
		resistance: optional(number('R_ohm', 'resistor', 1, 22e6))
	},
	outputs: {
		times: { key: 't_min', label: 'Times' },
		lines: { key: 'lines', label: 'Lines', columns: { I_mA: 'Current' } },
		sum: { key: 'V_sum', label: 'Sum' },
		code: { key: 'code', label: 'Code' },
		bands: { key: 'colours', label: 'Bands' },
		errors: { key: 'err_kHz', label: 'Errors' }
	},
	formulaText: [],
	formula: ({ series, heaters, code, bands }) => ({
		times: series?.map(({ time }) => time),
		lines: series?.map(({ current, volts }) => ({ I_mA: current, V: volts ?? null })),
		sum: heaters?.reduce((sum, volts) => sum + volts, 0),
		code,
		bands: bands && [...bands],
		errors: { '600': 1500 }
	}),
	summary: [],
	cautions: [],
	pitfalls: [],
	sources: [],
	checks: []
});

function outputsOf(given: Record<string, unknown>) {
	const answer = runOn(echo, given);
	if (!answer.ok) throw new Error(answer.problems.map(({ message }) => message).join('; '));
	return answer.outputs;
}

function messageOf(given: Record<string, unknown>) {
	const answer = runOn(echo, given);
	return answer.ok ? undefined : answer.problems.map(({ message }) => message).join(' ');
}

describe('a series of readings', () => {
	test('rows are lists in the order of the columns, seconds and amps inside, minutes and milliamps outside', () => {
		const given = {
			series_min_mA: [
				[10, 3.1],
				[30, '2.6 mA', 350]
			]
		};
		expect(outputsOf(given)).toMatchObject({
			t_min: [10, 30],
			lines: [
				{ I_mA: 3.1, V: null },
				{ I_mA: 2.6, V: 350 }
			]
		});
	});

	test('or objects by the names of the columns', () => {
		expect(outputsOf({ series_min_mA: [{ t_min: '1 h', I_mA: 2 }] })).toMatchObject({ t_min: [60] });
	});

	test('the series is told again as it was understood', () => {
		const answer = runOn(echo, { series_min_mA: [[10, 3.1, 350]] });
		expect(answer.ok && answer.given['series_min_mA']).toBe('10 min, 3.1 mA, 350 V');
	});

	test.each([
		['a current left out', [[10, 3.1], [30]], 'row 2: I_mA is missing'],
		['a time that is no time', [['soon', 1]], 'row 1: t_min'],
		['more than an amp', [[10, 1200]], 'row 1: I_mA is 1.2 A'],
		['no rows at all', [], 'has 0 rows. Give 1 or more'],
		['a row that is a number', [10], 'row 1 is no row. Write [t_min, I_mA, V]'],
		['no list', 'ten minutes', 'wants rows: [[t_min, I_mA, V], ...]'],
		['61 rows', Array.from({ length: 61 }, () => [1, 1]), 'has 61 rows. Give 60 at most']
	])('%s is refused with the place and the cure', (_, series, part) => {
		expect(messageOf({ series_min_mA: series })).toContain(part);
	});
});

describe('several values for one sum', () => {
	test('the heaters of a chain are added up, the sum is not done for each', () => {
		expect(outputsOf({ V_heater: [12.6, 12.6, 50] })['V_sum']).toBeCloseTo(75.2, 9);
		expect(outputsOf({ V_heater: '12.6; 50' })['V_sum']).toBeCloseTo(62.6, 9);
	});

	test.each([
		[[6.3], 'has 1 values. Give 2 or more'],
		[[6.3, 'x'], 'V_heater'],
		[[6.3, 500], 'V_heater is 500 V']
	])('%j is refused', (V_heater, part) => expect(messageOf({ V_heater })).toContain(part));
});

describe('what stands on a part', () => {
	test('a code comes through trimmed; a list of codes does the sum for each', () => {
		expect(outputsOf({ code: ' 4K7 ' })['code']).toBe('4K7');
		expect(outputsOf({ code: ['R47', '4K7'] })['code']).toEqual(['R47', '4K7']);
	});

	test('an empty or endless code is refused with an example', () => {
		expect(messageOf({ code: '  ' })).toContain('Write it as 4K7');
		expect(messageOf({ code: 'x'.repeat(41) })).toContain('longer than 40');
	});

	test('colours keep their order, and one may come twice', () => {
		expect(outputsOf({ colours: ['red', 'green', 'red'] })['colours']).toEqual(['red', 'green', 'red']);
	});

	test('a place without a colour is named', () => {
		expect(messageOf({ colours: ['red', '', 'red'] })).toContain('second');
		expect(messageOf({ colours: ['red', 'mauve'] })).toContain('"red" or "green"');
		expect(messageOf({ colours: ['red', 'red', 'red', 'red'] })).toContain('3 at most');
	});
});

test('results by place are in the unit of their key', () => {
	expect(outputsOf({ R_ohm: 1 })['err_kHz']).toEqual({ '600': 1.5 });
});
