import { describe, expect, test } from 'vitest';
import { fillCalculation, parseFill, type Known } from '../../../src/lib/flow/fill.ts';
import { Step } from '../../../src/lib/flow/schema.ts';
import { samplePlan } from './small.ts';

const known = (more: Partial<Known> = {}): Known => ({ plan: samplePlan(), readings: {}, ...more });

const filled = (fill: Record<string, unknown>, what: Known = known()) =>
	fillCalculation(
		'grid-volts',
		Step.parse({
			kind: 'observe',
			title: 'Look',
			text: 'Look at it.',
			why: 'It tells.',
			power: 'live',
			minutes: 1,
			outcomes: { one: { label: 'One' }, other: { label: 'Other' } },
			normal: 'one',
			calculation: { id: 'grid-leakage', fill },
			source: 'common practice'
		}),
		what
	);

describe('where an input comes from', () => {
	test.each([
		['reading', { kind: 'reading', of: undefined }],
		[' reading ', { kind: 'reading', of: undefined }],
		['reading of v-af', { kind: 'reading', of: 'v-af' }],
		['volts at output.grid', { kind: 'volts', at: 'output.grid' }],
		['value of output.grid-leak', { kind: 'value', of: 'output.grid-leak' }],
		['limit of output: ik_max_ma', { kind: 'limit', valve: 'output', field: 'ik_max_ma' }],
		['heater volts of output', { kind: 'heater', valve: 'output', field: 'volts' }],
		['heater amps of output', { kind: 'heater', valve: 'output', field: 'amps' }],
		['mains', { kind: 'mains' }],
		['meter', { kind: 'meter' }]
	])('"%s" is understood', (text, source) => {
		expect(parseFill(text)).toEqual(source);
	});

	test.each([
		'',
		'readings',
		'reading of',
		'volts at output',
		'value of grid leak',
		'limit of output',
		'470 kohm'
	])('"%s" says nothing known', (text) => {
		expect(parseFill(text)).toBeUndefined();
	});
});

describe('filling the inputs of a calculation', () => {
	test('the reading of the open step, and that of an earlier one', () => {
		const readings = { 'grid-volts': 1.5, 'af-volts': 90 };
		expect(filled({ V_grid: 'reading', V_feed: 'reading of af-volts' }, known({ readings }))).toEqual({
			given: { V_grid: 1.5, V_feed: 90 },
			from: { V_grid: 'this reading', V_feed: 'reading of af-volts' }
		});
	});

	test('the mains and the meter of the job', () => {
		expect(filled({ V_feed: 'mains', R_grid_ohm: 'meter' }, known({ mains: 236, meter: 1e7 }))).toEqual({
			given: { V_feed: 236, R_grid_ohm: 1e7 },
			from: { V_feed: 'the mains of this job', R_grid_ohm: 'the meter of this job' }
		});
		expect(filled({ V_feed: 'mains', R_grid_ohm: 'meter' }).given).toEqual({});
	});

	test('a reading of nought is a reading', () => {
		expect(filled({ V_grid: 'reading' }, known({ readings: { 'grid-volts': 0 } })).given).toEqual({
			V_grid: 0
		});
	});

	test('what is not known yet stays open to be typed', () => {
		expect(
			filled({ V_grid: 'reading', V_feed: 'volts at output.grid', R_grid_ohm: 'value of output.stopper' })
		).toEqual({
			given: {},
			from: {}
		});
	});

	test('the volts of the sheet go before the typical ones, and each says which it is', () => {
		const fill = { V_feed: 'volts at coupling.feed' };
		expect(filled(fill)).toEqual({
			given: { V_feed: 80 },
			from: { V_feed: 'typical volts: Feed of the coupling capacitor' }
		});
		expect(filled(fill, known({ service: { 'coupling.feed': 95 } }))).toEqual({
			given: { V_feed: 95 },
			from: { V_feed: 'service sheet volts: Feed of the coupling capacitor' }
		});
	});

	test('a value of the plan says that nobody has measured it', () => {
		expect(filled({ R_grid_ohm: 'value of output.grid-leak' })).toEqual({
			given: { R_grid_ohm: 470e3 },
			from: { R_grid_ohm: 'Output grid leak, 470 kohm (marked or usual, not measured)' }
		});
	});

	test('a limit of the valve comes in the unit of the input: 65 mA for an EL84', () => {
		expect(filled({ I_max_mA: 'limit of output: ik_max_ma' })).toEqual({
			given: { I_max_mA: expect.closeTo(65, 9) as number },
			from: { I_max_mA: 'limit of the EL84' }
		});
		expect(filled({ I_max_A: 'limit of output: ik_max_ma' }).given['I_max_A']).toBeCloseTo(0.065, 12);
	});

	test.each([
		'limit of output: ik_max_furlongs',
		'limit of rectifier: ik_max_ma',
		'limit of output: constructor'
	])('"%s" is not known and stays open', (text) => {
		expect(filled({ I_max_mA: text })).toEqual({ given: {}, from: {} });
	});

	test('a number and a word of the calculation itself are taken as they stand', () => {
		expect(filled({ f_signal_kHz: 1000, side: 'above' })).toEqual({
			given: { f_signal_kHz: 1000, side: 'above' },
			from: {}
		});
	});

	const chain = {
		sections: [
			{
				R_ohm: 'value of output.grid-leak',
				V_service: 'volts at coupling.feed',
				V_seen: 'reading of af-volts'
			},
			{ R_ohm: 10000, I_mA: 2, V_seen: 'reading' }
		]
	};

	test('a table is filled cell by cell, and tells where its cells came from', () => {
		const readings = { 'af-volts': 90, 'grid-volts': 75 };
		const { given, from } = filled(chain, known({ readings }));
		const [first, second] = given['sections'] as Record<string, number>[];
		expect(first).toMatchObject({ V_service: 80, V_seen: 90 });
		expect(second).toEqual({ R_ohm: 10000, I_mA: 2, V_seen: 75 });
		expect(from['sections']).toContain('typical volts: Feed of the coupling capacitor; reading of af-volts');
	});

	test('a cell that is not known is left to be typed, its row stays', () => {
		const rows = filled(chain).given['sections'] as Record<string, number>[];
		expect(rows).toHaveLength(2);
		expect(rows[1]).toEqual({ R_ohm: 10000, I_mA: 2 });
	});

	test('a cell is in the unit of its column: 1.5 mA read is 1.5 under I_mA', () => {
		const readings = { 'grid-volts': 0.0015 };
		const rows = filled({ series_min_mA: [{ t_min: 10, I_mA: 'reading' }] }, known({ readings }));
		expect(rows.given['series_min_mA']).toEqual([{ t_min: 10, I_mA: 1.5 }]);
	});

	test('several values are all there or none: a chain short of a heater would be reckoned wrong', () => {
		const fill = { V: [6.3, 'reading of heater-volts'] };
		expect(filled(fill).given).toEqual({});
		expect(filled(fill, known({ readings: { 'heater-volts': 25 } })).given).toEqual({ V: [6.3, 25] });
	});

	test('a step without a calculation fills nothing', () => {
		const step = Step.parse({
			kind: 'listen',
			band: 'fm',
			title: 'Listen',
			text: 'Listen to it.',
			why: 'It tells.',
			power: 'limiter',
			minutes: 1,
			source: 'common practice'
		});
		expect(fillCalculation('listen', step, known())).toEqual({ given: {}, from: {} });
	});
});
