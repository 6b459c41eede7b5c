import type { Valve } from '../types.ts';

/** Noval valves of IF stages and detectors. */
export const novalIf: readonly Valve[] = [
	{
		type: 'EF89',
		equivalents: ['6DA6'],
		equivalentSources: ['mem'],
		kind: 'RF pentode (variable mu)',
		roles: ['am_if_amp', 'fm_if_amp', 'rf_amp'],
		base: 'B9A',
		pins: {
			1: 'screen:s',
			2: 'pentode:g1',
			3: 'pentode:k',
			4: 'heater:f',
			5: 'heater:f',
			6: 'screen:s',
			7: 'pentode:a',
			8: 'pentode:g2',
			9: 'pentode:g3'
		},
		htPins: [7, 8],
		evidence: 'maker_sheet',
		pinSources: ['phil_ef89', 'mem'],
		heater: { volts: 6.3, amps: 0.2, seriesChain: false, sources: ['phil_ef89'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: {
						va_max_v: 300,
						pa_max_w: 2.25,
						vg2_max_v: 300,
						pg2_max_w: 0.45,
						ik_max_ma: 16.5,
						rg1_max_mohm: 3,
						rg1_max_grid_current_bias_mohm: 22,
						rg3_max_kohm: 10,
						vhk_max_v: 100
					},
					source: 'phil_ef89'
				},
				points: [
					{
						label: 'IF amplifier',
						figures: {
							va_v: 250,
							rg2_kohm: 51,
							rk_ohm: 160,
							vg1_v: -1.95,
							ia_ma: 9,
							ig2_ma: 3,
							gm_ma_v: 3.5,
							ra_kohm: 900,
							vg2_calc_v: 97
						},
						source: 'phil_ef89'
					},
					{
						label: 'static',
						figures: { va_v: 250, vg2_v: 100, vg1_v: -2, ia_ma: 9, ig2_ma: 3, gm_ma_v: 3.6, ra_kohm: 900 },
						source: 'phil_ef89'
					},
					{
						label: 'grid-leak bias, 10 M',
						figures: {
							va_v: 250,
							rg2_kohm: 62,
							rk_ohm: 0,
							rg1_mohm: 10,
							ia_ma: 9,
							ig2_ma: 2.9,
							gm_ma_v: 4.7,
							ra_kohm: 825
						},
						source: 'phil_ef89'
					}
				]
			}
		],
		confidence: 'high',
		notes:
			'The cathode is on pin 3 alone; the sockets of EF80 and EF85 have it on 1 and 3. Pins 1 and 6 are screens.'
	},
	{
		type: 'EBF89',
		equivalents: ['6DC8'],
		equivalentSources: ['mem'],
		kind: 'double diode pentode (variable mu)',
		roles: ['am_if_amp', 'fm_if_amp', 'am_detector', 'avc'],
		base: 'B9A',
		pins: {
			1: 'pentode:g2',
			2: 'pentode:g1',
			3: 'common:k+s',
			4: 'heater:f',
			5: 'heater:f',
			6: 'pentode:a',
			7: 'diode1:a',
			8: 'diode2:a',
			9: 'pentode:g3'
		},
		htPins: [1, 6],
		evidence: 'maker_sheet',
		pinSources: ['phil_ebf89', 'mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['phil_ebf89'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: {
						va_max_v: 300,
						pa_max_w: 2.25,
						vg2_max_v: 125,
						pg2_max_w: 0.45,
						ik_max_ma: 16.5,
						rg1_max_mohm: 3,
						rg1_max_grid_current_bias_mohm: 22,
						rg3_max_kohm: 10,
						vhk_max_v: 100
					},
					source: 'phil_ebf89',
					note: 'screen limit above 8 mA of anode current; 300 V below 4 mA'
				},
				points: [
					{
						label: 'static',
						figures: { va_v: 250, vg2_v: 100, vg1_v: -2, ia_ma: 9, ig2_ma: 2.7, gm_ma_v: 3.8, ra_kohm: 1000 },
						source: 'phil_ebf89'
					},
					{
						label: 'IF amplifier',
						figures: {
							va_v: 250,
							rg2_kohm: 56,
							vg1_v: -2,
							ia_ma: 9,
							ig2_ma: 2.7,
							gm_ma_v: 3.8,
							ra_kohm: 1000,
							vg2_calc_v: 98.8
						},
						source: 'phil_ebf89'
					},
					{
						label: 'static, low supply',
						figures: { va_v: 170, vg2_v: 100, vg1_v: -1, ia_ma: 12, ig2_ma: 4, gm_ma_v: 5, ra_kohm: 400 },
						source: 'phil_ebf89'
					}
				]
			},
			{
				name: 'diode1',
				limits: {
					figures: { v_inverse_peak_max_v: 200, i_max_ma: 0.8, i_peak_max_ma: 5 },
					source: 'phil_ebf89'
				}
			},
			{
				name: 'diode2',
				limits: {
					figures: { v_inverse_peak_max_v: 200, i_max_ma: 0.8, i_peak_max_ma: 5 },
					source: 'phil_ebf89'
				}
			}
		],
		confidence: 'high'
	},
	{
		type: 'EABC80',
		equivalents: ['6AK8'],
		equivalentSources: ['wiki_ddt', 'mem'],
		kind: 'triple diode triode',
		roles: ['am_detector', 'fm_detector', 'af_preamp'],
		base: 'B9A',
		pins: {
			1: 'diode3:a',
			2: 'diode2:a',
			3: 'diode2:k',
			4: 'heater:f',
			5: 'heater:f',
			6: 'diode1:a',
			7: 'common:k+s',
			8: 'triode:g',
			9: 'triode:a'
		},
		htPins: [9],
		evidence: 'maker_sheet',
		pinSources: ['phil_eabc80', 'kicad', 'mem'],
		heater: { volts: 6.3, amps: 0.48, seriesChain: false, sources: ['phil_eabc80'] },
		systems: [
			{
				name: 'triode',
				limits: {
					figures: {
						va_max_v: 300,
						pa_max_w: 1,
						ik_max_ma: 5,
						rg_max_mohm: 3,
						rg_max_grid_current_bias_mohm: 22,
						vhk_max_v: 150
					},
					source: 'phil_eabc80'
				},
				points: [
					{
						label: 'static',
						figures: { va_v: 250, vg1_v: -3, ia_ma: 1, gm_ma_v: 1.4, mu: 70, ra_kohm: 50 },
						source: 'phil_eabc80'
					},
					{
						label: 'static',
						figures: { va_v: 100, vg1_v: -1, ia_ma: 0.8, gm_ma_v: 1.45, mu: 70, ra_kohm: 48 },
						source: 'phil_eabc80'
					},
					{
						label: 'audio stage, grid leak 10 Mohm',
						figures: { vb_v: 250, anode_load_kohm: 220, ia_ma: 0.76, stage_gain: 54, va_calc_v: 82.8 },
						source: 'phil_eabc80'
					},
					{
						label: 'audio stage, grid leak 10 Mohm',
						figures: { vb_v: 170, anode_load_kohm: 220, ia_ma: 0.46, stage_gain: 51, va_calc_v: 68.8 },
						source: 'phil_eabc80'
					}
				]
			},
			{
				name: 'diode1',
				limits: {
					figures: { v_inverse_peak_max_v: 350, i_max_ma: 1, i_peak_max_ma: 6 },
					source: 'phil_eabc80'
				},
				use: 'AM detector'
			},
			{
				name: 'diode2',
				limits: {
					figures: { v_inverse_peak_max_v: 350, i_max_ma: 10, i_peak_max_ma: 75 },
					source: 'phil_eabc80'
				},
				use: 'FM detector, with its own cathode'
			},
			{
				name: 'diode3',
				limits: {
					figures: { v_inverse_peak_max_v: 350, i_max_ma: 10, i_peak_max_ma: 75 },
					source: 'phil_eabc80'
				},
				use: 'FM detector, cathode shared with the triode'
			}
		],
		confidence: 'high',
		notes: 'The sheet of 10.10.1955 prints 480 mA for the heater; other makers 450 mA.'
	}
];
