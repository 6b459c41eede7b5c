import type { Valve } from '../types.ts';

/** Noval frequency changers and FM tuner valves, further types. */
export const novalMixers: readonly Valve[] = [
	{
		type: 'UCH81',
		equivalents: ['19AJ8'],
		equivalentSources: ['mem'],
		kind: 'triode-heptode',
		roles: ['frequency_changer', 'am_mixer', 'am_oscillator', 'fm_if_amp'],
		base: 'B9A',
		pins: {
			'1': 'heptode:g2g4',
			'2': 'heptode:g1',
			'3': 'common:k+g5+s',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': 'heptode:a',
			'7': 'heptode:g3',
			'8': 'triode:a',
			'9': 'triode:g'
		},
		htPins: [1, 6, 8],
		evidence: 'maker_sheet_sister',
		pinBasis: 'same electrode system and base as ECH81; that sheet or symbol was read, this type from memory',
		pinSources: ['phil_ech81', 'kicad', 'mem'],
		heater: { volts: 19, amps: 0.1, seriesChain: true, sources: ['mem'] },
		systems: [{ name: 'heptode' }, { name: 'triode' }],
		confidence: 'medium',
		notes:
			'Limits and working currents: use the ECH81 limits as a guide; anode supply in AC/DC sets is usually 170-200 V.'
	},
	{
		type: 'ECC81',
		equivalents: ['12AT7', 'CV455', 'CV4024'],
		equivalentSources: ['mem'],
		kind: 'double triode',
		roles: ['fm_rf_amp', 'fm_mixer_oscillator'],
		base: 'B9A',
		pins: {
			'1': 'triode2:a',
			'2': 'triode2:g',
			'3': 'triode2:k',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': 'triode1:a',
			'7': 'triode1:g',
			'8': 'triode1:k',
			'9': 'heater:f-centre-tap'
		},
		htPins: [1, 6],
		evidence: 'two_sources',
		pinSources: ['kicad', 'codex', 'tubeslib', 'mem'],
		heater: {
			volts: 6.3,
			amps: 0.3,
			seriesChain: false,
			sources: ['mem'],
			alternative: { volts: 12.6, amps: 0.15, how: 'pins 4-5 in series; 6.3 V is pins 4+5 joined against 9' }
		},
		systems: [
			{
				name: 'triode1',
				limits: {
					figures: { va_max_v: 300, pa_max_w: 2.5, vg_neg_max_v: 50, vhk_max_v: 90 },
					source: 'codex'
				},
				points: [
					{
						label: 'static (RCA sheet 1954 as cited)',
						figures: { va_v: 250, rk_ohm: 200, vg1_v: -2, ia_ma: 10, gm_ma_v: 5.5, mu: 60, ra_kohm: 10.9 },
						source: 'codex'
					}
				]
			},
			{
				name: 'triode2',
				limits: {
					figures: { va_max_v: 300, pa_max_w: 2.5, vg_neg_max_v: 50, vhk_max_v: 90 },
					source: 'codex'
				}
			}
		],
		confidence: 'good'
	},
	{
		type: '6BQ7A',
		equivalents: ['6BQ7'],
		equivalentSources: ['mem'],
		kind: 'double triode',
		roles: ['fm_rf_amp'],
		base: 'B9A',
		pins: {
			'1': 'triode2:a',
			'2': 'triode2:g',
			'3': 'triode2:k',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': 'triode1:a',
			'7': 'triode1:g',
			'8': 'triode1:k',
			'9': 'screen:s'
		},
		htPins: [1, 6],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 6.3, amps: 0.4, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'triode1',
				limits: { figures: { va_max_v: 250, pa_max_w: 2, ik_max_ma: 20 }, source: 'mem' },
				points: [
					{
						label: 'static',
						figures: { va_v: 150, rk_ohm: 220, ia_ma: 9, gm_ma_v: 6.4, mu: 39, ra_kohm: 6.1 },
						source: 'mem'
					}
				]
			},
			{ name: 'triode2' }
		],
		confidence: 'medium'
	}
];
