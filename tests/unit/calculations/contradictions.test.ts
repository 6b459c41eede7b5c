import { expect, test } from 'vitest';
import { runCalculation } from '../../../src/lib/calculations/index.ts';

/** Each figure may be true by itself; together they cannot. */
test.each([
	[
		'a part hotter than its kind can be',
		'resistor-derating',
		{ P_rated_W: 1, T_C: 160, kind: 'film' },
		'T_C'
	],
	[
		'corners the wrong way round',
		'resistor-derating',
		{ P_rated_W: 1, T_C: 80, T_full_C: 150, T_zero_C: 70 },
		'T_zero_C'
	],
	[
		'less current than the voltmeter alone takes',
		'apparent-resistance',
		{ V: 100, I_A: 5e-6, R_meter_ohm: 10e6 },
		'I_A'
	],
	[
		'more volts over the resistor than the supply has',
		'reform-resistor',
		{ V: 300, R_ohm: 1e5, V_across_R: 310 },
		'V_across_R'
	],
	[
		'a reading over a resistor that is not known',
		'reform-resistor',
		{ V: 300, rule: 'careful', V_across_R: 10 },
		'V_across_R'
	],
	[
		'a dropper without a chain',
		'heater-chain',
		{ V_heater_nominal: 6.3, V_warm_up: 8, R_dropper_ohm: 100 },
		'R_dropper_ohm'
	],
	[
		'a touch current without a class',
		'insulation-touch-current',
		{ U2_peak_V: 0.1, I_rms_mA: 0.1 },
		'I_rms_mA'
	],
	[
		'more slope than the cathode resistor allows',
		'gm-check',
		{ dV_grid: 1, dI_A: 0.01, R_k_ohm: 200 },
		'dI_A'
	],
	['a perveance away from zero volts without mu', 'gm-check', { V_anode: 100, V_grid: -2, I_A: 0.01 }, 'mu'],
	[
		'a leakage without rated volts',
		'capacitor-condition',
		{ C_marked_uF: 8, C_read_uF: 8, I_mA: 1 },
		'V_rated'
	],
	[
		'a multiple that the sheet does not have',
		'fuse',
		{ type: 'T ceramic, IEC 60127-2 sheet 5', rating_A: 0.5, times_rating: [3] },
		'times_rating'
	],
	['no fuse at hand that carries the set', 'fuse', { W_set: 45, V_mains: 230, row_A: [0.05, 0.1] }, 'row_A']
])('%s is refused at its key, without a verdict', (_, id, given, key) => {
	const answer = runCalculation(id, given);
	expect(answer).not.toHaveProperty('verdict');
	expect(answer.ok ? [] : answer.problems.map((problem) => problem.key)).toEqual([key]);
});
