import { describe, expect, test } from 'vitest';
import {
	type ScaleName,
	type Unit,
	fromBase,
	parseQuantity,
	scaleOf,
	scales,
	toBase,
	unitOfKey
} from '../../../src/lib/quantity/index.ts';

const names = Object.keys(scales) as ScaleName[];

describe('scales', () => {
	test('moving the point leaves no rounding behind', () => {
		expect(toBase(4.7, 'pF')).toBe(4.7e-12);
		expect(toBase(0.05, 'uF')).toBe(5e-8);
		expect(toBase(1e-7, 'mA')).toBe(1e-10);
		expect(toBase(10.7, 'MHz')).toBe(10.7e6);
		expect(toBase(12, 'min')).toBe(720);
		expect(fromBase(4.7e-12, 'pF')).toBe(4.7);
		expect(fromBase(5400, 'h')).toBe(1.5);
	});

	test('30 pF per foot is 98.4 pF per metre', () => {
		expect(toBase(30, 'pF_per_ft') * 1e12).toBeCloseTo(98.425, 3);
	});

	test.each(names)('%s goes to base units and back', (name) => {
		expect(fromBase(toBase(1.234, name), name)).toBeCloseTo(1.234, 12);
	});

	test.each(names)('the printed symbol of %s is read again, or asked about', (name) => {
		const { symbol, unit } = scaleOf(name);
		const parsed = parseQuantity(`3 ${symbol}`, unit);
		const values = parsed.ok ? [parsed.value] : (parsed.choices ?? []).map(({ value }) => value);
		expect(values).toContain(toBase(3, name));
	});
});

const keys: readonly (readonly [key: string, unit: Unit, scale: number, symbol: string])[] = [
	['IF_kHz', 'Hz', 1e3, 'kHz'],
	['I_max_mA', 'A', 1e-3, 'mA'],
	['C_uF', 'F', 1e-6, 'µF'],
	['R_ohm', 'ohm', 1, 'Ω'],
	['f_signal_MHz', 'Hz', 1e6, 'MHz'],
	['R_leak_ohm', 'ohm', 1, 'Ω'],
	['insulation_Mohm', 'ohm', 1e6, 'MΩ'],
	['P_W', 'W', 1, 'W'],
	['t_min', 's', 60, 'min'],
	['f_min', 'Hz', 1, 'Hz'],
	['load_pct', '%', 1, '%'],
	['gm_mA_V', 'S', 1e-3, 'mA/V'],
	['ohm_per_volt', 'ohm/V', 1, 'Ω/V'],
	['C_pF_per_m', 'F/m', 1e-12, 'pF/m'],
	['perveance_uA_V1_5', 'A/V^1.5', 1e-6, 'µA/V^1.5'],
	['impulse_kV_max', 'V', 1e3, 'kV'],
	['V_supply', 'V', 1, 'V'],
	['dV_grid', 'V', 1, 'V'],
	['U2_peak_V', 'V', 1, 'V'],
	['dI_a_for_r_A', 'A', 1, 'A'],
	['R_s', 'ohm', 1, 'Ω'],
	['tau_us', 's', 1e-6, 'µs'],
	['tau_s', 's', 1, 's'],
	['opens_s', 's', 1, 's'],
	['T_full_C', 'degC', 1, '°C'],
	['T_osc_pF', 'F', 1e-12, 'pF'],
	['C', 'F', 1, 'F'],
	['X_C', 'ohm', 1, 'Ω'],
	['Q_C', '', 1, ''],
	['Q_for_200_kHz', '', 1, ''],
	['C_ratio', '', 1, ''],
	['ripple_factor', '', 1, ''],
	['gain_IF_dB', 'dB', 1, 'dB'],
	['dB_at_9kHz_off', 'dB', 1, 'dB'],
	['phase_deg', 'deg', 1, '°'],
	['D_mm', 'm', 1e-3, 'mm'],
	['length_m', 'm', 1, 'm'],
	['rg1_max_mohm', 'ohm', 1e6, 'MΩ'],
	['gm_ma_v', 'S', 1e-3, 'mA/V'],
	['vg2_max_v', 'V', 1, 'V'],
	['mu', '', 1, '']
];

describe('the unit in a keyed name', () => {
	test.each(keys)('%s is in %s, times %d', (key, unit, scale, symbol) => {
		expect(unitOfKey(key)).toMatchObject({ unit, scale, symbol });
	});

	test('the name that comes with it turns a value into base units', () => {
		expect(toBase(465, unitOfKey('IF_kHz').name)).toBe(465e3);
	});
});
