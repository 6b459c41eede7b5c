import { describe, expect, test } from 'vitest';
import { anodeTakes, lawOf, spaceCurrent, TAIL } from '../../../../src/lib/receiver/stage-check/laws.ts';
import {
	pointOf,
	type StageKind,
	type WorkingPoint
} from '../../../../src/lib/receiver/stage-check/index.ts';

const sheet = (type: string, stage: StageKind): WorkingPoint => {
	const point = pointOf(type, stage);
	if (!point || !('valve' in point)) throw new Error(`no point of ${type}`);
	return point.valve;
};

const SHEETS = [
	['EL84', 'output-pentode'],
	['EL41', 'output-pentode'],
	['6AQ5', 'output-pentode'],
	['EF89', 'if-pentode'],
	['EBF80', 'if-pentode'],
	['ECC83', 'triode-audio'],
	['EABC80', 'triode-audio'],
	['EBC33', 'triode-audio']
] as const;

describe.each(SHEETS)('the law of the %s as %s', (type, stage) => {
	const point = sheet(type, stage);
	const law = lawOf(point, point.screenVolts === undefined ? 0 : TAIL.output);
	const pull = point.screenVolts ?? point.anodeVolts;
	const anode = (grid: number) => spaceCurrent(law, grid, pull) * law.anodeShare;

	test('gives the anode current of the sheet', () => {
		expect(anode(point.gridVolts) / point.anodeCurrent).toBeCloseTo(1, 2);
	});

	test('gives the slope of the sheet', () => {
		const slope = (anode(point.gridVolts + 0.01) - anode(point.gridVolts - 0.01)) / 0.02;
		expect(slope / (point.slope ?? NaN)).toBeCloseTo(1, 1);
	});

	test('draws next to nothing far below its cut-off', () => {
		expect(anode(point.gridVolts * 6)).toBeLessThan(point.anodeCurrent / 100);
	});
});

test('an anode without volts takes nothing, one with the volts of the screen all its share', () => {
	expect(anodeTakes(0, 250)).toBe(0);
	expect(anodeTakes(250, 250)).toBeGreaterThan(0.99);
});
