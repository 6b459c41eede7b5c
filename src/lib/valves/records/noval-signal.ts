import type { Valve } from '../types.ts';

/** Noval pentodes, triodes and diodes, further types. */
export const novalSignal: readonly Valve[] = [
	{
		type: 'UF89',
		equivalents: ['12DA6'],
		equivalentSources: ['mem'],
		kind: 'RF pentode (variable mu)',
		roles: ['am_if_amp', 'fm_if_amp', 'rf_amp'],
		base: 'B9A',
		pins: {
			'1': 'screen:s',
			'2': 'pentode:g1',
			'3': 'pentode:k',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': 'screen:s',
			'7': 'pentode:a',
			'8': 'pentode:g2',
			'9': 'pentode:g3'
		},
		htPins: [7, 8],
		evidence: 'maker_sheet_sister',
		pinBasis: 'same electrode system and base as EF89; that sheet or symbol was read, this type from memory',
		pinSources: ['phil_ef89', 'mem'],
		heater: { volts: 12.6, amps: 0.1, seriesChain: true, sources: ['mem'] },
		systems: [{ name: 'pentode' }],
		confidence: 'medium',
		notes: 'Use the EF89 limits as a guide.'
	},
	{
		type: 'EF85',
		equivalents: ['6BY7', 'CV1375'],
		equivalentSources: ['mem'],
		kind: 'RF pentode (variable mu)',
		roles: ['am_if_amp', 'fm_if_amp', 'rf_amp'],
		base: 'B9A',
		pins: {
			'1': 'pentode:k',
			'2': 'pentode:g1',
			'3': 'pentode:k',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': 'screen:s',
			'7': 'pentode:a',
			'8': 'pentode:g2',
			'9': 'pentode:g3'
		},
		htPins: [7, 8],
		evidence: 'one_source',
		pinBasis:
			'KiCad derives EF85 from its EF80 symbol; cathode pins 1 and 3 from memory and from the EF80 excerpt',
		pinSources: ['kicad', 'mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: {
						va_max_v: 300,
						pa_max_w: 2.5,
						vg2_max_v: 300,
						pg2_max_w: 0.65,
						ik_max_ma: 15,
						rg1_max_mohm: 3
					},
					source: 'mem'
				},
				points: [
					{
						label: 'IF amplifier',
						figures: {
							va_v: 250,
							vg2_v: 100,
							rk_ohm: 160,
							vg1_v: -2,
							ia_ma: 10,
							ig2_ma: 2.5,
							gm_ma_v: 6,
							ra_kohm: 500
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium',
		notes: 'Some makers bring the cathode out on pins 1 and 3; measure at either.'
	},
	{
		type: 'EF80',
		equivalents: ['6BX6', 'CV1376'],
		equivalentSources: ['mem'],
		kind: 'RF pentode (sharp cut-off)',
		roles: ['fm_if_amp', 'rf_amp'],
		base: 'B9A',
		pins: {
			'1': 'pentode:k',
			'2': 'pentode:g1',
			'3': 'pentode:k',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': 'screen:s',
			'7': 'pentode:a',
			'8': 'pentode:g2',
			'9': 'pentode:g3'
		},
		htPins: [7, 8],
		evidence: 'one_source',
		pinBasis:
			'grids, anode, screen and heater from the KiCad symbol (which mislabels pin 3); cathode on pins 1 and 3 from the EF80 page excerpt',
		pinSources: ['kicad', 'tof_ef80', 'mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: {
						va_max_v: 300,
						pa_max_w: 2.5,
						vg2_max_v: 300,
						pg2_max_w: 0.7,
						ik_max_ma: 15,
						rg1_max_fixed_mohm: 0.5,
						rg1_max_auto_mohm: 1
					},
					source: 'mem'
				},
				points: [
					{
						label: 'static',
						figures: {
							va_v: 170,
							vg2_v: 170,
							rk_ohm: 160,
							vg1_v: -2,
							ia_ma: 10,
							ig2_ma: 2.5,
							gm_ma_v: 7.4,
							ra_kohm: 500
						},
						source: 'mem'
					},
					{
						label: 'static',
						figures: { va_v: 250, vg2_v: 250, vg1_v: -3.5, ia_ma: 10, ig2_ma: 2.8, gm_ma_v: 6.8 },
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: 'EF86',
		equivalents: ['6267', 'CV2901'],
		equivalentSources: ['mem'],
		kind: 'AF pentode (low noise)',
		roles: ['af_preamp'],
		base: 'B9A',
		pins: {
			'1': 'pentode:g2',
			'2': 'screen:s',
			'3': 'pentode:k',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': 'pentode:a',
			'7': 'screen:s',
			'8': 'pentode:g3',
			'9': 'pentode:g1'
		},
		htPins: [1, 6],
		evidence: 'two_sources',
		pinSources: ['kicad', 'codex', 'tubeslib', 'mem'],
		heater: { volts: 6.3, amps: 0.2, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: {
						va_max_v: 300,
						pa_max_w: 1,
						vg2_max_v: 200,
						pg2_max_w: 0.2,
						ik_max_ma: 6,
						rg1_max_mohm: 3,
						rg1_max_when_pa_below_0_2w_mohm: 10,
						rg1_max_grid_current_bias_mohm: 22,
						vhk_max_v: 100,
						vhk_max_heater_positive_v: 50
					},
					source: 'codex'
				},
				points: [
					{
						label: 'static (Philips 1970 as cited)',
						figures: {
							va_v: 250,
							vg2_v: 140,
							vg3_v: 0,
							vg1_v: -2.2,
							ia_ma: 3,
							ig2_ma: 0.6,
							gm_ma_v: 2.2,
							ra_kohm: 2500
						},
						source: 'codex'
					}
				]
			}
		],
		confidence: 'good'
	},
	{
		type: 'EBF80',
		equivalents: ['6N8'],
		equivalentSources: ['mem'],
		kind: 'double diode pentode (variable mu)',
		roles: ['am_if_amp', 'am_detector', 'avc'],
		base: 'B9A',
		pins: {
			'1': 'pentode:g2',
			'2': 'pentode:g1',
			'3': 'common:k+s',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': 'pentode:a',
			'7': 'diode1:a',
			'8': 'diode2:a',
			'9': 'pentode:g3'
		},
		htPins: [1, 6],
		evidence: 'maker_sheet',
		pinSources: ['phil_ebf80', 'mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['phil_ebf80'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: {
						va_max_v: 300,
						pa_max_w: 1.5,
						vg2_max_v: 125,
						pg2_max_w: 0.3,
						ik_max_ma: 10,
						rg1_max_auto_mohm: 3,
						rg1_max_grid_current_bias_mohm: 22,
						vhk_max_v: 100
					},
					source: 'phil_ebf80',
					note: 'screen limit at Ia = 5 mA; 300 V below 2.5 mA'
				},
				points: [
					{
						label: 'IF amplifier',
						figures: {
							va_v: 250,
							rg2_kohm: 95,
							rk_ohm: 300,
							vg1_v: -2,
							vg2_v: 85,
							ia_ma: 5,
							ig2_ma: 1.75,
							gm_ma_v: 2.2,
							ra_kohm: 1400
						},
						source: 'phil_ebf80'
					},
					{
						label: 'AF amplifier, R-C coupled',
						figures: {
							vb_v: 250,
							anode_load_kohm: 100,
							rg2_kohm: 390,
							rk_ohm: 1000,
							ia_ma: 1.5,
							ig2_ma: 0.53,
							stage_gain: 80,
							va_calc_v: 100
						},
						source: 'phil_ebf80'
					}
				]
			},
			{
				name: 'diode1',
				limits: {
					figures: { v_inverse_peak_max_v: 350, i_max_ma: 0.8, i_peak_max_ma: 5 },
					source: 'phil_ebf80'
				}
			},
			{
				name: 'diode2',
				limits: {
					figures: { v_inverse_peak_max_v: 350, i_max_ma: 0.8, i_peak_max_ma: 5 },
					source: 'phil_ebf80'
				}
			}
		],
		confidence: 'high'
	},
	{
		type: 'UBF80',
		equivalents: ['17N8'],
		equivalentSources: ['mem'],
		kind: 'double diode pentode (variable mu)',
		roles: ['am_if_amp', 'am_detector', 'avc'],
		base: 'B9A',
		pins: {
			'1': 'pentode:g2',
			'2': 'pentode:g1',
			'3': 'common:k+s',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': 'pentode:a',
			'7': 'diode1:a',
			'8': 'diode2:a',
			'9': 'pentode:g3'
		},
		htPins: [1, 6],
		evidence: 'maker_sheet_sister',
		pinBasis: 'same electrode system and base as EBF80; that sheet or symbol was read, this type from memory',
		pinSources: ['phil_ebf80', 'mem'],
		heater: { volts: 17, amps: 0.1, seriesChain: true, sources: ['mem'] },
		systems: [{ name: 'pentode' }, { name: 'diode1' }, { name: 'diode2' }],
		confidence: 'medium',
		notes: 'Use the EBF80 limits as a guide.'
	},
	{
		type: 'UBF89',
		equivalents: ['19FL8'],
		equivalentSources: ['mem'],
		kind: 'double diode pentode (variable mu)',
		roles: ['am_if_amp', 'fm_if_amp', 'am_detector', 'avc'],
		base: 'B9A',
		pins: {
			'1': 'pentode:g2',
			'2': 'pentode:g1',
			'3': 'common:k+s',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': 'pentode:a',
			'7': 'diode1:a',
			'8': 'diode2:a',
			'9': 'pentode:g3'
		},
		htPins: [1, 6],
		evidence: 'maker_sheet_sister',
		pinBasis: 'same electrode system and base as EBF89; that sheet or symbol was read, this type from memory',
		pinSources: ['phil_ebf89', 'mem'],
		heater: { volts: 19, amps: 0.1, seriesChain: true, sources: ['vt_ebf89', 'mem'] },
		systems: [{ name: 'pentode' }, { name: 'diode1' }, { name: 'diode2' }],
		confidence: 'medium',
		notes: 'Use the EBF89 limits as a guide.'
	},
	{
		type: 'UABC80',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'triple diode triode',
		roles: ['am_detector', 'fm_detector', 'af_preamp'],
		base: 'B9A',
		pins: {
			'1': 'diode3:a',
			'2': 'diode2:a',
			'3': 'diode2:k',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': 'diode1:a',
			'7': 'common:k+s',
			'8': 'triode:g',
			'9': 'triode:a'
		},
		htPins: [9],
		evidence: 'maker_sheet_sister',
		pinBasis: 'the symbol library gives UABC80 the EABC80 pins',
		pinSources: ['kicad', 'phil_eabc80', 'mem'],
		heater: { volts: 28.5, amps: 0.1, seriesChain: true, sources: ['mem'] },
		systems: [{ name: 'triode' }, { name: 'diode1' }, { name: 'diode2' }, { name: 'diode3' }],
		confidence: 'medium',
		notes: 'Use the EABC80 limits and R-C coupled rows (170 V row) as a guide.'
	},
	{
		type: '6T8',
		equivalents: ['6T8A'],
		equivalentSources: ['mem'],
		nearEquivalents: ['EABC80 (near)'],
		kind: 'triple diode triode',
		roles: ['am_detector', 'fm_detector', 'af_preamp'],
		base: 'B9A',
		pins: {
			'1': 'diode3:a',
			'2': 'diode2:a',
			'3': 'diode2:k',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': 'diode1:a',
			'7': 'common:k+s',
			'8': 'triode:g',
			'9': 'triode:a'
		},
		htPins: [9],
		evidence: 'maker_sheet_sister',
		pinBasis: 'EABC80 and 6T8 share one basing (from memory); the EABC80 sheet was read',
		pinSources: ['phil_eabc80', 'mem'],
		heater: { volts: 6.3, amps: 0.45, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'triode',
				limits: { figures: { va_max_v: 300, pa_max_w: 1 }, source: 'mem' },
				points: [
					{
						label: 'static',
						figures: { va_v: 250, vg1_v: -3, ia_ma: 1, gm_ma_v: 1.2, mu: 70, ra_kohm: 58 },
						source: 'mem'
					}
				]
			},
			{ name: 'diode1' },
			{ name: 'diode2' },
			{ name: 'diode3' }
		],
		confidence: 'medium'
	},
	{
		type: '19T8',
		equivalents: ['HABC80'],
		equivalentSources: ['mem'],
		kind: 'triple diode triode',
		roles: ['am_detector', 'fm_detector', 'af_preamp'],
		base: 'B9A',
		pins: {
			'1': 'diode3:a',
			'2': 'diode2:a',
			'3': 'diode2:k',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': 'diode1:a',
			'7': 'common:k+s',
			'8': 'triode:g',
			'9': 'triode:a'
		},
		htPins: [9],
		evidence: 'maker_sheet_sister',
		pinBasis: 'as 6T8',
		pinSources: ['phil_eabc80', 'mem'],
		heater: { volts: 18.9, amps: 0.15, seriesChain: true, sources: ['mem'] },
		systems: [{ name: 'triode' }, { name: 'diode1' }, { name: 'diode2' }, { name: 'diode3' }],
		confidence: 'medium'
	},
	{
		type: 'ECL82',
		equivalents: ['6BM8'],
		equivalentSources: ['mem'],
		kind: 'triode pentode',
		roles: ['af_preamp', 'output'],
		base: 'B9A',
		pins: {
			'1': 'triode:g',
			'2': 'pentode:k+g3+s',
			'3': 'pentode:g1',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': 'pentode:a',
			'7': 'pentode:g2',
			'8': 'triode:k',
			'9': 'triode:a'
		},
		htPins: [6, 7, 9],
		evidence: 'maker_sheet',
		pinSources: ['kicad', 'tubeslib', 'eh_6bm8', 'mem'],
		heater: { volts: 6.3, amps: 0.78, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'triode',
				limits: {
					figures: { va_max_v: 300, pa_max_w: 1, ik_max_ma: 15, rg_max_auto_mohm: 3 },
					source: 'mem'
				},
				points: [
					{
						label: 'static',
						figures: { va_v: 100, vg1_v: 0, ia_ma: 3.5, gm_ma_v: 2.5, mu: 70, ra_kohm: 28 },
						source: 'mem'
					}
				]
			},
			{
				name: 'pentode',
				limits: {
					figures: {
						va_max_v: 300,
						pa_max_w: 7,
						vg2_max_v: 300,
						pg2_max_w: 1.8,
						ik_max_ma: 50,
						rg1_max_fixed_mohm: 1,
						rg1_max_auto_mohm: 2
					},
					source: 'mem'
				},
				points: [
					{
						label: 'class A',
						figures: {
							va_v: 170,
							vg2_v: 170,
							vg1_v: -11.5,
							ia_ma: 41,
							ig2_ma: 8,
							gm_ma_v: 7.5,
							ra_kohm: 16,
							load_ohm: 3900,
							power_w: 3.3
						},
						source: 'mem'
					},
					{
						label: 'class A',
						figures: {
							va_v: 200,
							vg2_v: 200,
							vg1_v: -16,
							ia_ma: 35,
							ig2_ma: 7,
							gm_ma_v: 6.4,
							ra_kohm: 20,
							load_ohm: 5600,
							power_w: 3.5
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium',
		notes: 'The 6BM8EH excerpt gives a heater current range of 770-930 mA for present-day production.'
	},
	{
		type: 'UCL82',
		equivalents: ['50BM8'],
		equivalentSources: ['mem'],
		kind: 'triode pentode',
		roles: ['af_preamp', 'output'],
		base: 'B9A',
		pins: {
			'1': 'triode:g',
			'2': 'pentode:k+g3+s',
			'3': 'pentode:g1',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': 'pentode:a',
			'7': 'pentode:g2',
			'8': 'triode:k',
			'9': 'triode:a'
		},
		htPins: [6, 7, 9],
		evidence: 'maker_sheet_sister',
		pinBasis: 'same electrode system and base as ECL82; that sheet or symbol was read, this type from memory',
		pinSources: ['kicad', 'eh_6bm8', 'tubeslib', 'mem'],
		heater: { volts: 50, amps: 0.1, seriesChain: true, sources: ['mem'] },
		systems: [{ name: 'triode' }, { name: 'pentode' }],
		confidence: 'medium',
		notes: 'Use the ECL82 limits as a guide.'
	},
	{
		type: 'ECL86',
		equivalents: ['6GW8'],
		equivalentSources: ['mem'],
		kind: 'triode pentode',
		roles: ['af_preamp', 'output'],
		base: 'B9A',
		pins: {
			'1': 'triode:g',
			'2': 'triode:k',
			'3': 'pentode:g2',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': 'pentode:a',
			'7': 'pentode:k+g3',
			'8': 'pentode:g1',
			'9': 'triode:a'
		},
		htPins: [3, 6, 9],
		evidence: 'two_sources',
		pinSources: ['kicad', 'tubeslib', 'mem'],
		heater: { volts: 6.3, amps: 0.66, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'triode',
				limits: {
					figures: { va_max_v: 300, pa_max_w: 0.5, ik_max_ma: 4, rg_max_auto_mohm: 1 },
					source: 'mem'
				},
				points: [
					{
						label: 'static',
						figures: { va_v: 250, vg1_v: -1.9, ia_ma: 1.2, gm_ma_v: 1.6, mu: 100, ra_kohm: 62 },
						source: 'mem'
					}
				]
			},
			{
				name: 'pentode',
				limits: {
					figures: {
						va_max_v: 300,
						pa_max_w: 9,
						vg2_max_v: 300,
						pg2_max_w: 1.5,
						ik_max_ma: 55,
						rg1_max_auto_mohm: 1
					},
					source: 'mem'
				},
				points: [
					{
						label: 'class A',
						figures: {
							va_v: 250,
							vg2_v: 250,
							vg1_v: -7,
							rk_ohm: 170,
							ia_ma: 36,
							ig2_ma: 6,
							gm_ma_v: 10,
							ra_kohm: 48,
							load_ohm: 7000,
							power_w: 4
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: 'PCL86',
		equivalents: ['14GW8'],
		equivalentSources: ['mem'],
		kind: 'triode pentode',
		roles: ['af_preamp', 'output'],
		base: 'B9A',
		pins: {
			'1': 'triode:g',
			'2': 'triode:k',
			'3': 'pentode:g2',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': 'pentode:a',
			'7': 'pentode:k+g3',
			'8': 'pentode:g1',
			'9': 'triode:a'
		},
		htPins: [3, 6, 9],
		evidence: 'two_sources_sister',
		pinBasis: 'same electrode system and base as ECL86; that sheet or symbol was read, this type from memory',
		pinSources: ['kicad', 'tubeslib', 'mem'],
		heater: { volts: 13.3, amps: 0.3, seriesChain: true, sources: ['mem'] },
		systems: [{ name: 'triode' }, { name: 'pentode' }],
		confidence: 'medium',
		notes:
			'Same systems as ECL86; use its limits as a guide. The 13.3 V / 0.3 A heater cannot be fed from a 6.3 V winding.'
	},
	{
		type: 'ECL80',
		equivalents: ['6AB8'],
		equivalentSources: ['mem'],
		kind: 'triode pentode',
		roles: ['af_preamp', 'output'],
		base: 'B9A',
		pins: {
			'1': 'triode:a',
			'2': 'triode:g',
			'3': 'common:k',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': 'pentode:a',
			'7': 'pentode:g3',
			'8': 'pentode:g2',
			'9': 'pentode:g1'
		},
		htPins: [1, 6, 8],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['mem'] },
		systems: [
			{ name: 'triode', limits: { figures: { va_max_v: 200, pa_max_w: 1, ik_max_ma: 8 }, source: 'mem' } },
			{
				name: 'pentode',
				limits: {
					figures: { va_max_v: 400, pa_max_w: 3.5, vg2_max_v: 250, pg2_max_w: 1.2, ik_max_ma: 25 },
					source: 'mem'
				},
				points: [
					{
						label: 'class A',
						figures: {
							va_v: 200,
							vg2_v: 200,
							vg1_v: -8,
							ia_ma: 17.5,
							ig2_ma: 3.3,
							gm_ma_v: 3.3,
							ra_kohm: 150,
							load_ohm: 11000,
							power_w: 1.4
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'low'
	}
];
