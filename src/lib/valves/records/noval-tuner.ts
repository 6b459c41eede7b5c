import type { Valve } from '../types.ts';

/** Noval valves of tuner and frequency changer. */
export const novalTuner: readonly Valve[] = [
	{
		type: 'ECC85',
		equivalents: ['6AQ8'],
		equivalentSources: ['mem'],
		kind: 'double triode',
		roles: ['fm_rf_amp', 'fm_mixer_oscillator'],
		base: 'B9A',
		pins: {
			1: 'triode2:a',
			2: 'triode2:g',
			3: 'triode2:k',
			4: 'heater:f',
			5: 'heater:f',
			6: 'triode1:a',
			7: 'triode1:g',
			8: 'triode1:k',
			9: 'screen:s'
		},
		htPins: [1, 6],
		evidence: 'maker_sheet',
		pinSources: ['sheet_ecc85', 'eh_6aq8', 'svc_fmtuner', 'mem'],
		heater: { volts: 6.3, amps: 0.435, seriesChain: false, sources: ['sheet_ecc85'] },
		systems: [
			{
				name: 'triode1',
				limits: {
					figures: {
						va_max_v: 300,
						pa_max_w: 2.5,
						pa_max_both_w: 4.5,
						ik_max_ma: 15,
						vg_neg_max_v: 100,
						rg_max_mohm: 1,
						vhk_max_v: 90
					},
					source: 'sheet_ecc85'
				},
				points: [
					{
						label: 'static, each triode',
						figures: { va_v: 250, vg1_v: -2.7, ia_ma: 10, gm_ma_v: 6.1, mu: 55 },
						source: 'sheet_ecc85'
					},
					{
						label: 'self-oscillating mixer',
						figures: {
							vb_v: 250,
							anode_load_kohm: 12,
							rg_mohm: 1,
							osc_rms_v: 3,
							ia_ma: 6,
							gc_ma_v: 3,
							ra_kohm: 18,
							va_calc_v: 178
						},
						source: 'sheet_ecc85'
					}
				]
			},
			{
				name: 'triode2',
				limits: {
					figures: {
						va_max_v: 300,
						pa_max_w: 2.5,
						pa_max_both_w: 4.5,
						ik_max_ma: 15,
						rg_max_mohm: 1,
						vhk_max_v: 90
					},
					source: 'sheet_ecc85'
				}
			}
		],
		confidence: 'high',
		notes:
			'In one FM tuner (svc_fmtuner) triode1 is the earthed-grid RF stage and triode2 the self-oscillating mixer; its sheet shows 100 V on pin 6, 155 V on pin 1 and -12 V on pin 2 while it oscillates.'
	},
	{
		type: 'ECH81',
		equivalents: ['6AJ8', 'CV2128', '6I1P'],
		equivalentSources: ['mem'],
		kind: 'triode-heptode',
		roles: ['frequency_changer', 'am_mixer', 'am_oscillator', 'fm_if_amp'],
		base: 'B9A',
		pins: {
			1: 'heptode:g2g4',
			2: 'heptode:g1',
			3: 'common:k+g5+s',
			4: 'heater:f',
			5: 'heater:f',
			6: 'heptode:a',
			7: 'heptode:g3',
			8: 'triode:a',
			9: 'triode:g'
		},
		htPins: [1, 6, 8],
		evidence: 'maker_sheet',
		pinSources: ['phil_ech81', 'kicad', 'mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['phil_ech81'] },
		systems: [
			{
				name: 'heptode',
				limits: {
					figures: {
						va_max_v: 300,
						pa_max_w: 1.7,
						vg2_max_v: 125,
						vg2_low_current_max_v: 300,
						pg2_max_w: 1,
						ik_max_ma: 12.5,
						rg1_max_mohm: 3,
						rg3_max_mohm: 3,
						vhk_max_v: 150
					},
					source: 'phil_ech81'
				},
				points: [
					{
						label: 'mixer, screen resistor shared with an EBF80',
						figures: {
							va_v: 250,
							rg2_kohm: 22,
							vg2_v: 92,
							vg1_v: -2,
							ia_ma: 2.5,
							screen_resistor_ma: 7.2,
							gc_ma_v: 0.7,
							ra_kohm: 1000,
							rg3_gt_kohm: 47,
							ig3_gt_ma: 0.2
						},
						source: 'phil_ech81'
					},
					{
						label: 'mixer, screen resistor shared with an EF85',
						figures: {
							va_v: 250,
							rg2_kohm: 18,
							vg2_v: 97,
							vg1_v: -1.9,
							ia_ma: 3,
							screen_resistor_ma: 8.5,
							gc_ma_v: 0.75,
							ra_kohm: 1000,
							rg3_gt_kohm: 47,
							ig3_gt_ma: 0.2
						},
						source: 'phil_ech81'
					},
					{
						label: 'FM IF stage, screen resistor shared with the next valve',
						figures: {
							va_v: 250,
							vg3_v: 0,
							rg2_kohm: 22,
							vg2_v: 103,
							vg1_v: -2.1,
							ia_ma: 6.5,
							screen_resistor_ma: 6.7,
							gm_ma_v: 2.4,
							ra_kohm: 700
						},
						source: 'phil_ech81'
					}
				]
			},
			{
				name: 'triode',
				limits: {
					figures: { va_max_v: 250, pa_max_w: 0.8, ik_max_ma: 6.5, rg_max_mohm: 3, vhk_max_v: 150 },
					source: 'phil_ech81'
				},
				points: [
					{
						label: 'static only: above the continuous limits',
						figures: { va_v: 100, vg1_v: 0, ia_ma: 13.5, gm_ma_v: 3.7, mu: 22 },
						source: 'phil_ech81'
					},
					{
						label: 'oscillator',
						figures: {
							vb_v: 250,
							anode_load_kohm: 33,
							rg_kohm: 47,
							ig_ma: 0.2,
							ia_ma: 4.5,
							gm_effective_ma_v: 0.65,
							va_calc_v: 101.5
						},
						source: 'phil_ech81'
					}
				]
			}
		],
		confidence: 'high',
		notes:
			'On AM mixer and oscillator; on FM the heptode is usually the first IF stage and the triode rests. Pin 9 is negative only while the triode oscillates: 200 uA through 47 kohm is about -9.4 V (calculated from the sheet).'
	}
];
