import { expect, test } from 'vitest';
import { calculationOf, putKeys, runCalculation } from '../../../src/lib/calculations/index.ts';

/**
 * The page puts the label of a field in the place of its key: a key that is an ordinary word (`valve`, `band`) must not stand in
 * a sentence about something else.
 */
function ordinaryWords(id: string, answer: ReturnType<typeof runCalculation>): string[] {
	const calculation = calculationOf(id);
	if (answer.ok || !calculation) return [];
	// Ways are told by their titles: there a key may stand.
	const told = answer.problems.filter(({ message }) => !message.includes('one figure too many'));
	return told.flatMap(({ key, message }) => {
		const found: string[] = [];
		putKeys(calculation, message, (word) => {
			found.push(word);
			return word;
		});
		return found.filter((word) => /^[a-z]+$/.test(word) && word !== key);
	});
}

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
	[
		'a screen above the HT',
		'valve-operating-point',
		{ V_k: 10, R_k_ohm: 1000, valve: 'RF pentode', V_a: 200, V_g2: 300, V_supply: 250, P_a_max_W: 2 },
		'V_g2'
	],
	[
		'an anode above the HT, read to its cathode',
		'valve-operating-point',
		{ V_k: 10, R_k_ohm: 1000, valve: 'triode', V_ak: 260, V_supply: 250, P_a_max_W: 2 },
		'V_ak'
	],
	[
		'a cathode above the HT',
		'valve-operating-point',
		{ V_k: 40, R_k_ohm: 1000, V_supply: 20, I_k_service_A: 0.05 },
		'V_k'
	],
	[
		'more anode current than the cathode resistor passes',
		'valve-operating-point',
		{ V_k: 10, R_k_ohm: 1000, I_a_A: 0.05, V_ak: 250, P_a_max_W: 12 },
		'I_a_A'
	],
	[
		'anode and screen together more than the cathode',
		'valve-operating-point',
		{ V_k: 10, R_k_ohm: 1000, I_a_A: 0.008, I_g2_A: 0.008, V_ak: 250, P_a_max_W: 12 },
		'I_a_A'
	],
	[
		'the screen of a triode',
		'valve-operating-point',
		{ V_k: 10, R_k_ohm: 1000, valve: 'triode', V_a: 200, V_g2: 180, P_a_max_W: 2 },
		'V_g2'
	],
	[
		'half of the grid leak',
		'valve-operating-point',
		{ V_k: 10, R_k_ohm: 1000, R_g1_ohm: 1e6, I_k_service_A: 0.01 },
		'R_g1_max_ohm'
	],
	[
		'a leak that would lift the grid above its feed',
		'grid-leakage',
		{ V_feed: 100, I_leak_A: 1e-3, R_grid_ohm: 1e6 },
		'I_leak_A'
	],
	[
		'a reading beyond full scale',
		'meter-loading',
		{ V_read: 85, range_V: 50, ohm_per_volt: 1000, R_source_ohm: 2e5 },
		'V_read'
	],
	[
		'a point that drives the meter off its scale',
		'meter-loading',
		{ V_supply: 300, R_top_ohm: 1e3, R_bottom_ohm: 1e5, range_V: 10, ohm_per_volt: 1000 },
		'range_V'
	],
	[
		'volts beyond the range of the meter',
		'apparent-resistance',
		{ V: 100, I_A: 0.005, range_V: 50, ohm_per_volt: 1000 },
		'V'
	],
	[
		'a screen resistor that drops more than the HT',
		'avc',
		{ V_g1: [-2.5, -39], gm_ratio: 0.01, I_a_mA: 6, I_g2_mA: 5, R_g2_ohm: 90e3, V_supply: 250 },
		'I_g2_mA'
	],
	[
		'a reservoir that runs empty',
		'supply-ripple',
		{ rectifier: 'full', f_mains: 50, C_uF: 1, I_dc_A: 0.3, V_peak: 100 },
		'C_uF'
	],
	[
		'a section that drops more than it gets',
		'supply-ripple',
		{ section: 'RC', R_ohm: 10e3, C_uF: 10, f: 100, I_A: 0.1, V_dc_in: 150, V_ripple_in_rms: 1 },
		'I_dc_A'
	],
	[
		'a filter that drops more than the reservoir has',
		'supply-ripple',
		{ rectifier: 'full', f_mains: 50, I_dc_A: 0.05, C_uF: 32, V_peak: 300, sections: [[10e3, null, 32]] },
		'sections'
	],
	[
		'a load and a current of a section',
		'supply-ripple',
		{ section: 'RC', R_ohm: 500, C_uF: 10, f: 120, R_load_ohm: 5000, V_dc_in: 150, I_A: 0.5 },
		'I_dc_A'
	],
	[
		'peak, load and current that do not agree',
		'supply-ripple',
		{ V_peak: 325, I_dc_A: 1, f_mains: 50, ripple_factor: 0.01, rectifier: 'full', R_load_ohm: 32527 },
		'I_dc_A'
	],
	['an RC section with a choke', 'supply-ripple', { section: 'RC', L_H: 10, C_uF: 32, f: 100 }, 'section'],
	[
		'an LC section with a resistor',
		'supply-ripple',
		{ section: 'LC', R_ohm: 10, C_uF: 32, f: 100 },
		'section'
	],
	[
		'more current than the winding gives',
		'supply-ripple',
		{ V_rms_per_half: 100, R_per_side_ohm: 2000, C_uF: 32, I_A: 0.3, f_mains: 50 },
		'I_dc_A'
	],
	[
		'a secondary of more ohms than the loudspeaker',
		'output-transformer',
		{ Z_p_ohm: 5000, Z_s_ohm: 3, R_pri_ohm: 300, R_sec_ohm: 20 },
		'R_sec_ohm'
	],
	[
		'a gang that opens the wrong way',
		'tracking',
		{
			L_signal_uH: 180,
			T_signal_pF: 35,
			IF_kHz: 455,
			f_kHz: [600, 1000, 1400],
			C_gang_min_pF: 200,
			C_gang_max_pF: 30
		},
		'C_gang_max_pF'
	],
	[
		'a place that the dial never reaches',
		'tracking',
		{ L_signal_uH: 180, T_signal_pF: 35, IF_kHz: 455, f_kHz: [600, 1000, 1400], f_err_kHz: [20000] },
		'f_err_kHz'
	],
	[
		'more light from fewer watts',
		'lamp-limiter',
		{ W_low: 11, light_low_cp: 15, W_high: 17, light_high_cp: 5 },
		'light_high_cp'
	],
	[
		'a lamp of 12 V on 230 V mains',
		'lamp-limiter',
		{ W_lamp: 60, V_mains: 230, V_rated: 12, V_set: 20 },
		'V_rated'
	],
	['a lamp at twice its volts', 'lamp-limiter', { V_lamp: 5, V_rated: 2.5, I_rated_A: 0.3 }, 'V_lamp'],
	[
		'heater volts that no tap makes',
		'mains-overvoltage',
		{ V_heater_nominal: 6.3, V_heater: 100 },
		'V_heater'
	],
	[
		'the whole supply across one heater, which is open',
		'heater-chain',
		{ V_heater_nominal: 6.3, V_warm_up: 230 },
		'V_warm_up'
	],
	[
		'channels of no raster',
		'dial-frequencies',
		{ region: '1 and 3 (9 kHz)', first_kHz: 531, last_kHz: 1600 },
		'last_kHz'
	],
	[
		'a change larger than the current',
		'gm-check',
		{ dV_grid: 1, dI_A: 0.02, I_A: 0.005, gm_data_mA_V: 5, I_data_A: 0.01 },
		'I_A'
	],
	[
		'a resistor that current climbs',
		'resistor-drop',
		{ R_ohm: 1200, V_before: 210, V_after: 270 },
		'V_after'
	],
	[
		'an anode pulled below chassis',
		'resistor-drop',
		{ R_ohm: 100e3, I_A: 0.005, V_supply: 250, P_rated_W: 1 },
		'I_A'
	],
	[
		'a cathode above its anode',
		'resistor-drop',
		{ R_ohm: 100e3, I_A: 0.0024, V_supply: 250, V_k: 20 },
		'V_k'
	],
	[
		'the service volts twice',
		'resistor-drop',
		{ R_ohm: 1200, V_before: 270, V_after: 210, V_service: 60, V_service_before: 270, V_service_after: 210 },
		'V_service'
	],
	['an FM detector in an AM set', 'alignment-order', { band: 'AM', detector: 'discriminator' }, 'detector'],
	['no generator and nothing to align', 'alignment-order', { generator: 'none' }, 'band'],
	['medium waves in an FM set', 'alignment-order', { band: 'FM', bands: ['MW'] }, 'bands'],
	['no fuse at hand that carries the set', 'fuse', { W_set: 45, V_mains: 230, row_A: [0.05, 0.1] }, 'row_A']
])('%s is refused at its key, without a verdict', (_, id, given, key) => {
	const answer = runCalculation(id, given);
	expect(answer).not.toHaveProperty('verdict');
	expect(ordinaryWords(id, answer)).toEqual([]);
	expect(answer.ok ? [] : answer.problems.map((problem) => problem.key)).toEqual([key]);
});
