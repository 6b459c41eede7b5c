import { describe, expect, test } from 'vitest';
import { ladderRatios } from '../../../src/lib/calculations/filter-ladder.ts';
import { calculations, picturesOf, runCalculation } from '../../../src/lib/calculations/index.ts';
import { pulsesOf, runRectifier } from '../../../src/lib/calculations/rectifier.ts';

const problemOf = (given: Record<string, unknown>): string => {
	const answer = runCalculation('supply-ripple', given);
	return answer.ok ? '' : (answer.problems[0]?.message ?? '');
};

describe('smoothing sections', () => {
	const rc = { resistance: 1000, capacitance: 32e-6 };

	test('one section is the formula', () => {
		const byHand = 1 / Math.hypot(1, 2 * Math.PI * 100 * 0.032);
		expect(ladderRatios([rc], 100)[0]).toBeCloseTo(byHand, 12);
	});

	test('a light section behind a heavy one leaves nearly the product of both', () => {
		const light = { resistance: 100e3, capacitance: 0.5e-6 };
		const [first = 0, both = 0] = ladderRatios([rc, light], 100);
		const [alone = 0] = ladderRatios([light], 100);
		expect(both / (first * alone)).toBeCloseTo(1, 9);
		expect(first / (ladderRatios([rc], 100)[0] ?? NaN)).toBeCloseTo(1, 3);
	});

	test('each further section lowers the ripple, and so does a load', () => {
		const ratios = ladderRatios([rc, rc, rc], 100);
		expect([...ratios].sort((a, b) => b - a)).toEqual(ratios);
		expect(ladderRatios([rc], 100, 500)[0]).toBeLessThan(ladderRatios([rc], 100)[0] ?? 0);
	});

	test('the picture goes from the reservoir through every section', () => {
		const [picture] = picturesOf(calculations['supply-ripple'], {
			rectifier: 'full',
			f_mains: 50,
			I_dc_A: 0.05,
			C_uF: 32,
			sections: [
				[1000, null, 32],
				[null, 10, 32]
			]
		});
		expect(picture?.x.ticks?.map(({ label }) => label)).toEqual(['reservoir', 'section 1', 'section 2']);
		expect(picture?.curves[0]?.points[0]?.[1]).toBeCloseTo(15.625, 6);
	});
});

describe('the reservoir', () => {
	const winding = { peak: Math.SQRT2 * 250, ohms: 150, capacitance: 32e-6, current: 0.052, mains: 50 };

	test('the saw-tooth is the upper bound behind any rectifier', () => {
		for (const ohms of [10, 50, 150, 300]) {
			expect(runRectifier({ ...winding, ohms }).ripple).toBeLessThan(0.052 / (100 * 32e-6));
		}
	});

	test('without current the reservoir stands at the peak, less a diode', () => {
		expect(runRectifier({ ...winding, current: 0 }).dc).toBeCloseTo(Math.SQRT2 * 250 - 0.8, 0);
	});

	test('conduction and discharge fill the period, and the pulse carries the whole charge', () => {
		const { conducting, discharging, pulse } = pulsesOf(20, 2, 0.04, 60, 1);
		expect(conducting + discharging).toBeCloseTo(1 / 60, 12);
		expect(pulse * conducting).toBeCloseTo(0.04 / 60, 12);
	});
});

describe('what is refused', () => {
	test.each([
		['more volts with load than without', { V_no_load: 250, V_full_load: 270 }, 'Read both again'],
		[
			'ripple above the direct volts',
			{ rectifier: 'full', f_mains: 50, C_uF: 32, V_pp: 50, V_dc: 20 },
			'blocks DC'
		],
		['a choke near resonance', { section: 'LC', L_H: 0.1, C_uF: 32, f: 100 }, 'near resonance'],
		['a section of a capacitor alone', { sections: [[null, null, 32]], f: 100 }, 'R_ohm or L_H'],
		['a hum that is no mains hum', { rectifier: 'full', f_mains: 50, f_hum: 75 }, 'motor-boating']
	])('%s', (_, given, part) => {
		expect(problemOf(given)).toContain(part);
	});
});
