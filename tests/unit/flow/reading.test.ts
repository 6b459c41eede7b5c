import { describe, expect, test } from 'vitest';
import {
	expectedAt,
	judgeReading,
	parseReading,
	printReading,
	unitOfStep
} from '../../../src/lib/flow/reading.ts';
import { Step } from '../../../src/lib/flow/schema.ts';
import { samplePlan } from './small.ts';

type Measure = Extract<Step, { kind: 'measure' }>;

/** A measuring step with these ranges; an outcome without one is answered in words. */
function measure(what: Measure['measure'], whens: Record<string, string | undefined>): Measure {
	const outcomes = Object.entries(whens).map(([id, when]) => [id, { label: id, ...(when && { when }) }]);
	return Step.parse({
		kind: 'measure',
		measure: what,
		at: 'output.cathode',
		title: 'Measure',
		text: 'Measure it.',
		why: 'It tells.',
		power: 'live',
		minutes: 1,
		outcomes: Object.fromEntries(outcomes) as unknown,
		normal: Object.keys(whens)[0],
		source: 'common practice'
	}) as Measure;
}

const GRID = measure('DC volts', {
	zero: '-0.1 .. 0.1 V',
	positive: '> 0.5 V',
	raised: '0.1 .. 0.5 V',
	negative: '< -0.1 V'
});
const CATHODE = measure('DC volts', {
	right: '80 .. 120 % of expected',
	low: '< 80 % of expected',
	high: '> 120 % of expected'
});

describe('what is typed at a step', () => {
	test('12..5 is refused with the cure', () => {
		expect(parseReading(GRID, '12..5')).toEqual({
			ok: false,
			hint: 'There are two points in "12..5". Keep one: 12.5.'
		});
	});

	test('milliamps at a step that measures volts are refused', () => {
		const result = parseReading(GRID, '12 mA');
		expect(result).toMatchObject({ ok: false });
		expect(result.ok ? '' : result.hint).toContain('volts are wanted here');
	});

	test.each([
		['DC volts', '12', 12],
		['DC volts', '-.3V', -0.3],
		['DC volts', '300 mV', 0.3],
		['AC volts', '6.3', 6.3],
		['ohms', '4k7', 4700],
		['milliamps', '43', 0.043],
		['milliamps', '43 mA', 0.043],
		['milliamps', '0.05 A', 0.05],
		['capacitance', '47', 47e-9],
		['capacitance', '0.05 µF', 50e-9],
		['frequency', '455', 455e3],
		['frequency', '10.7 MHz', 10.7e6]
	] as const)('%s: "%s" is %d in base units', (what, typed, value) => {
		const step = measure(what, { one: undefined, other: undefined });
		const read = parseReading(step, typed);
		expect(read.ok ? read.value : read.hint).toBeCloseTo(value, 12);
	});

	test('an empty field is told what to type', () => {
		const read = parseReading(GRID, ' ');
		expect(read.ok ? '' : read.hint).toMatch(/^Nothing is typed yet\. Type a voltage/);
	});

	test('a reading is shown in the unit of its step', () => {
		const current = measure('milliamps', { one: undefined, other: undefined });
		expect(unitOfStep(current)).toBe('A');
		expect(printReading(current, 0.043)).toBe('43 mA');
	});
});

describe('what is expected at a point', () => {
	const plan = samplePlan();

	test('the sheet goes before the typical volts of the plan', () => {
		expect(expectedAt(plan, 'output.cathode', { 'output.cathode': 6.8 })).toEqual({
			value: 6.8,
			basis: 'sheet'
		});
		expect(expectedAt(plan, 'output.cathode', { 'output.grid': 0 })).toEqual({
			value: 7.3,
			basis: 'typical'
		});
	});

	test('a sheet that gives nought is believed', () => {
		expect(expectedAt(plan, 'coupling.feed', { 'coupling.feed': 0 })).toEqual({ value: 0, basis: 'sheet' });
	});

	test('where neither says anything, nothing is expected', () => {
		expect(expectedAt(plan, 'output.grid')).toBeUndefined();
		expect(expectedAt(plan, 'no.point')).toBeUndefined();
	});
});

describe('what a reading means', () => {
	test.each([
		[2, 'positive'],
		[0.5, 'positive'],
		[0.3, 'raised'],
		[0.1, 'raised'],
		[0, 'zero'],
		[-0.1, 'zero'],
		[-0.2, 'negative']
	])('a grid at %d V is %s, whatever is expected there', (volts, outcome) => {
		expect(judgeReading(GRID, volts, undefined)).toMatchObject({ outcome, basis: 'absolute' });
		expect(judgeReading(GRID, volts, { value: 9, basis: 'sheet' })).toMatchObject({
			outcome,
			basis: 'absolute'
		});
	});

	test('shares stand in the order of the outcomes of the step', () => {
		expect(judgeReading(GRID, 2, undefined)?.membership).toEqual([0, 1, 0, 0]);
		const edge = judgeReading(GRID, 0.1, undefined)?.membership ?? [];
		expect(edge.map((share) => Number(share.toFixed(9)))).toEqual([0.5, 0, 0.5, 0]);
	});

	test.each([
		[7.3, 'right'],
		[5.84, 'right'],
		[5.8, 'low'],
		[8.7, 'right'],
		[8.9, 'high'],
		[0, 'low'],
		[-1, 'low']
	])('%d V on a cathode that should have 7.3 V is %s', (volts, outcome) => {
		expect(judgeReading(CATHODE, volts, { value: 7.3, basis: 'typical' })).toMatchObject({
			outcome,
			basis: 'typical'
		});
	});

	test('the same reading is judged by the sheet where there is one', () => {
		expect(judgeReading(CATHODE, 7.3, { value: 10, basis: 'sheet' })).toMatchObject({
			outcome: 'low',
			basis: 'sheet'
		});
	});

	test.each([
		[-10, 'right'],
		[-13, 'high'],
		[-5, 'low'],
		[2, 'low']
	])('%d V where -10 V is expected is %s: further from nought is more', (volts, outcome) => {
		expect(judgeReading(CATHODE, volts, { value: -10, basis: 'sheet' })).toMatchObject({ outcome });
	});

	test('percent of an unknown or of nought mean nothing', () => {
		expect(judgeReading(CATHODE, 7.3, undefined)).toBeUndefined();
		expect(judgeReading(CATHODE, 7.3, { value: 0, basis: 'sheet' })).toBeUndefined();
	});

	test('a step without ranges is answered in words', () => {
		const inWords = measure('DC volts', { steady: undefined, wandering: undefined });
		expect(judgeReading(inWords, 5, { value: 5, basis: 'sheet' })).toBeUndefined();
	});

	test('an outcome without a range has no share of a reading', () => {
		const step = measure('ohms', { right: '< 10 ohm', open: '>= 10 ohm', jumps: undefined });
		expect(judgeReading(step, 3, undefined)).toEqual({
			outcome: 'right',
			membership: [1, 0, 0],
			basis: 'absolute'
		});
	});
});
