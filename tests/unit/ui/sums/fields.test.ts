import { describe, expect, test } from 'vitest';
import {
	type Calculation,
	type CalculationId,
	calculations,
	keysOf
} from '../../../../src/lib/calculations/index.ts';
import {
	fieldsOf,
	fragmentOf,
	likelyWay,
	slugOf,
	strangersIn,
	symbolOf,
	textsFrom,
	type Typed,
	typedFrom,
	WAY,
	wayOf
} from '../../../../src/lib/ui/sums/fields.ts';

const {
	'resistor-drop': drop,
	'grid-leakage': leak,
	'dial-frequencies': dial,
	'alignment-order': order
} = calculations;

describe('inputs in an address', () => {
	test.each([
		{ R_ohm: '1k2', V: '60' },
		{ C_uF: '.05 mfd', f: '4,7 µ & more' },
		{ range_V: '5; 10; 30', bands: 'MW,SW' }
	])('%j comes back as typed', (typed) => expect(typedFrom(`#${fragmentOf(typed)}`)).toEqual(typed));

	test('60 V across 1.2 kohm is an address that can be read', () => {
		expect(fragmentOf({ R_ohm: '1200', V: '60' })).toBe('R_ohm=1200&V=60');
	});

	test('18 under the name of megahertz stays 18 MHz in a field for kilohertz', () => {
		expect(textsFrom(dial, { f_signal_MHz: '18' })['f_signal_kHz']).toBe('18 MHz');
	});

	test('names that the sum has no input for are told apart', () => {
		expect(strangersIn(order, { band: 'AM', by: 'x', colour: 'red' })).toEqual(['colour']);
	});

	test('a word that the sum does not know stays, for the sum to say which it knows', () => {
		expect(textsFrom(order, { band: 'DAB', bands: 'MW,UHF' })).toMatchObject({
			band: 'DAB',
			bands: 'MW,UHF'
		});
	});

	test('no sum has an input of the name that is kept for the way', () => {
		const keys = Object.values(calculations).flatMap(({ inputs }) => Object.values(inputs).flatMap(keysOf));
		expect(keys).not.toContain(WAY);
	});
});

describe('the way of a sum follows what is known', () => {
	test.each<[string, CalculationId, Typed, string]>([
		['resistor and rating', 'resistor-drop', { R_ohm: '1k5', P_rated_W: '4' }, 'what the rating allows'],
		['rating and volts', 'resistor-drop', { R_ohm: '1k5', P_rated_W: '4', V: '65' }, 'volts across the part'],
		['grid volts', 'grid-leakage', { V_grid: '1.5', R_grid_ohm: '470k' }, 'measured grid volts'],
		[
			'dial ends',
			'dial-frequencies',
			{ f_min_kHz: '530', f_max_kHz: '1650', IF_kHz: '455' },
			'the ends of the dial'
		],
		['nothing', 'grid-leakage', {}, 'the insulation']
	])('%s: %s', (_, id, typed, title) => {
		const calculation: Calculation = calculations[id];
		expect(calculation.ways?.[likelyWay(calculation, typed)]?.title).toBe(title);
	});

	test('a way that is named is taken, whatever the figures suggest', () => {
		const last = leak.ways?.at(-1);
		expect(wayOf(leak, { V_feed: '90' }, last && slugOf(last))).toBe(3);
	});

	test('a rating alone asks for no volts', () => {
		const last = (drop.ways?.length ?? 0) - 1;
		const keys = fieldsOf(drop, last).map(({ input, needed }) => [input.key, needed]);
		expect(keys).toEqual([
			['R_ohm', true],
			['P_rated_W', true],
			['V_service', false]
		]);
	});
});

test.each([
	['resistor-drop', 'P_rated_W', 'P_rated'],
	['resistor-drop', 'V', 'V'],
	['grid-leakage', 'R_grid_ohm', 'R_grid'],
	['meter-loading', 'range_V', undefined],
	['alignment-order', 'IF_kHz', undefined]
] as const)('the formulas of %s call %s %s', (id, key, symbol) => {
	expect(symbolOf(calculations[id], key)).toBe(symbol);
});
