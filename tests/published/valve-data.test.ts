import { describe, expect, test } from 'vitest';
import { runCalculation } from '../../src/lib/calculations/index.ts';
import { withMeter, withoutMeter } from '../../src/lib/receiver/expected.ts';
import { operatingPoints, pinOf } from '../../src/lib/valves/index.ts';

/** Pins and working points of the data against maker's sheets, each named beside its row. */

describe('pins, as the sheet of the maker numbers them', () => {
	// Philips data sheets EL84, EF89, ECH81, EABC80 (1950 to 1958), ECC85 (1969); Mazda EZ80 (1963); GE 6BE6/12BE6, ET-T891A.
	test.each([
		['EL84', 'g1', undefined, 2],
		['EL84', 'k', undefined, 3],
		['EL84', 'a', undefined, 7],
		['EL84', 'g2', undefined, 9],
		['EF89', 'g1', undefined, 2],
		['EF89', 'k', undefined, 3],
		['EF89', 'a', undefined, 7],
		['EF89', 'g2', undefined, 8],
		['ECH81', 'a', 'heptode', 6],
		['ECH81', 'g2g4', 'heptode', 1],
		['ECH81', 'a', 'triode', 8],
		['EABC80', 'a', 'triode', 9],
		['EABC80', 'g', 'triode', 8],
		['ECC85', 'a', 'triode1', 6],
		['ECC85', 'a', 'triode2', 1],
		['EZ80', 'k', undefined, 3],
		['12BE6', 'a', undefined, 5],
		['12BE6', 'g2g4', undefined, 6]
	])('%s, %s of %s: pin %i', (type, electrode, system, pin) => {
		expect(pinOf(type, electrode, system)).toMatchObject({ named: true, pin });
	});
});

describe('working points', () => {
	test('EL84, class A: 250 V on anode and screen, 48 and 5.5 mA through 135 ohm make its 7.3 V (Philips)', () => {
		const [point] = operatingPoints('EL84');
		const { va_v, vg2_v, ia_ma = 0, ig2_ma = 0, rk_ohm = 0, vg1_v = 0 } = point?.block.figures ?? {};
		expect({ va_v, vg2_v, ia_ma, ig2_ma }).toEqual({ va_v: 250, vg2_v: 250, ia_ma: 48, ig2_ma: 5.5 });
		expect(((ia_ma + ig2_ma) * rk_ohm) / 1000).toBeCloseTo(-vg1_v, 0);
	});

	test('EF89 as IF amplifier: 9 and 3 mA through 160 ohm make 1.95 V, and 51 kohm leave the screen at 97 V (Philips)', () => {
		const [point] = operatingPoints('EF89');
		const { ia_ma = 0, ig2_ma = 0, rk_ohm = 0, rg2_kohm = 0 } = point?.block.figures ?? {};
		expect(((ia_ma + ig2_ma) * rk_ohm) / 1000).toBeCloseTo(1.95, 1);
		expect(250 - ig2_ma * rg2_kohm).toBeCloseTo(97, 0);
	});
});

test('88 V on a meter of 200 kohm from 73 kohm are 119 V on 10 Mohm, by the survey as by the sum', () => {
	const shown = withMeter(withoutMeter(88, 73e3, 200e3), 73e3, 10e6);
	expect(Math.abs(shown - 119)).toBeLessThan(1);
	const sum = runCalculation('meter-loading', {
		V_read: 88,
		R_source_ohm: 73e3,
		R_meter_ohm: 200e3,
		R_mine_ohm: 10e6
	});
	expect(sum.ok && Number(sum.outputs['V_mine'])).toBeCloseTo(shown, 1);
});
