import { describe, expect, test } from 'vitest';
import { sheetDoubts } from '../../../src/lib/job/sheet-doubts.ts';
import type { Plan } from '../../../src/lib/receiver/index.ts';
import { shippedLibrary } from '../../library.ts';

const plan = shippedLibrary().plans['am-fm-shared'] as Plan;
const SHEET = {
	'ht.reservoir': 270,
	'ht.smoothed': 250,
	'output.anode': 245,
	'if.screen': 95,
	'output.cathode': 7.3
};

describe('a sheet typed with a slip', () => {
	test('one that is as such sets are is not asked about', () => {
		expect(sheetDoubts(plan, SHEET)).toEqual([]);
	});

	test('a set with half the HT brings its other volts with it', () => {
		const half = Object.fromEntries(Object.entries(SHEET).map(([id, value]) => [id, value / 2]));
		expect(sheetDoubts(plan, half)).toEqual([]);
	});

	test.each([
		[
			'a lost decimal',
			{ 'output.anode': 24.5 },
			/^Anode of the output valve: 24.5 V, where about \d+ V? ?belong. Is it 245 V/
		],
		['a decimal too many', { 'output.cathode': 73 }, /Is it 7.3 V/],
		['a wrong sign', { 'if.screen': -95 }, /Is it 95 V/],
		['HT itself', { 'ht.smoothed': 25 }, /Is it 250 V/],
		['a screen above HT', { 'if.screen': 300 }, /stands above HT, 270 V/]
	])('%s', (_, slip, says) => {
		const doubts = sheetDoubts(plan, { ...SHEET, ...slip });
		expect(doubts).toHaveLength(1);
		expect(doubts[0]).toMatch(says);
	});
});
