import type { Valve } from '../types.ts';

/** Noval output valves, rectifiers and tuning indicators, further types. */
export const novalPower: readonly Valve[] = [
	{
		type: 'UL84',
		equivalents: ['45B5'],
		equivalentSources: ['mem'],
		kind: 'output pentode',
		roles: ['output'],
		base: 'B9A',
		pins: {
			'1': '-:ic',
			'2': 'pentode:g1',
			'3': 'pentode:k+g3',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': '-:ic',
			'7': 'pentode:a',
			'8': '-:ic',
			'9': 'pentode:g2'
		},
		htPins: [7, 9],
		evidence: 'one_source_sister',
		pinBasis:
			'UL84 is the 45 V version of EL86 (from memory); the EL86 symbol was read (2 g1, 3 k, 4-5 f, 7 a, 9 g2)',
		pinSources: ['tubeslib', 'mem'],
		heater: { volts: 45, amps: 0.1, seriesChain: true, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: {
						va_max_v: 250,
						pa_max_w: 12,
						vg2_max_v: 200,
						pg2_max_w: 1.75,
						ik_max_ma: 100,
						rg1_max_auto_mohm: 1
					},
					source: 'mem'
				},
				points: [
					{
						label: 'class A',
						figures: {
							va_v: 170,
							vg2_v: 170,
							vg1_v: -12.5,
							ia_ma: 70,
							ig2_ma: 5,
							gm_ma_v: 10,
							ra_kohm: 23,
							load_ohm: 2400,
							power_w: 5.6
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: 'EZ81',
		equivalents: ['6CA4', 'CV5072'],
		equivalentSources: ['mem'],
		kind: 'full-wave rectifier',
		roles: ['rectifier'],
		base: 'B9A',
		pins: {
			'1': 'rectifier:a1',
			'2': '-:nc',
			'3': 'rectifier:k',
			'4': 'heater:f',
			'5': 'heater:f',
			'6': '-:nc',
			'7': 'rectifier:a2',
			'8': '-:nc',
			'9': '-:nc'
		},
		htPins: [1, 3, 7],
		evidence: 'two_sources',
		pinSources: ['codex', 'tubeslib', 'mem'],
		heater: { volts: 6.3, amps: 1, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'rectifier',
				limits: {
					figures: { v_rms_per_anode_max_v: 450, dc_max_ma: 150, c_reservoir_max_uf: 50 },
					source: 'mem',
					note: '450 V allows 100 mA only; dc_max 150 mA is also in the Circuit Codex entry'
				},
				points: [
					{
						label: 'capacitor input',
						figures: { v_rms_per_anode_v: 350, dc_ma: 150, r_limit_min_per_anode_ohm: 230, c_uf: 50 },
						source: 'mem'
					},
					{
						label: 'capacitor input',
						figures: { v_rms_per_anode_v: 450, dc_ma: 100, r_limit_min_per_anode_ohm: 310, c_uf: 50 },
						source: 'mem'
					}
				]
			}
		],
		confidence: 'good'
	},
	{
		type: 'UY85',
		equivalents: ['38A3'],
		equivalentSources: ['mem'],
		kind: 'half-wave rectifier',
		roles: ['rectifier'],
		base: 'B9A',
		pins: { '3': 'rectifier:k', '4': 'heater:f', '5': 'heater:f', '9': 'rectifier:a' },
		pinsPartial: true,
		htPins: [3, 9],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 38, amps: 0.1, seriesChain: true, sources: ['mem'] },
		systems: [
			{
				name: 'rectifier',
				limits: { figures: { v_rms_max_v: 250, dc_max_ma: 110, c_reservoir_max_uf: 100 }, source: 'mem' },
				points: [
					{
						label: 'capacitor input',
						figures: { v_rms_v: 250, dc_ma: 110, r_limit_min_ohm: 100, c_uf: 100 },
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: 'EM80',
		equivalents: ['6BR5'],
		equivalentSources: ['mem'],
		nearEquivalents: ['6E1P (near equivalent)'],
		kind: 'tuning indicator (fan, with triode)',
		roles: ['tuning_indicator'],
		base: 'B9A',
		pins: {
			'1': 'triode:g',
			'2': 'common:k',
			'4': 'heater:f',
			'5': 'heater:f',
			'7': 'triode:a',
			'9': 'indicator:target'
		},
		pinsPartial: true,
		htPins: [7, 9],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'triode',
				points: [
					{
						label: 'control range',
						figures: { vb_v: 250, anode_load_kohm: 500, vg_shadow_wide_v: -1, vg_shadow_closed_v: -14 },
						source: 'mem'
					}
				]
			},
			{ name: 'indicator', points: [{ label: 'luminous target', figures: { target_v: 250 }, source: 'mem' }] }
		],
		confidence: 'low'
	},
	{
		type: 'UM80',
		equivalents: ['19BR5'],
		equivalentSources: ['mem'],
		kind: 'tuning indicator (fan, with triode)',
		roles: ['tuning_indicator'],
		base: 'B9A',
		pins: {
			'1': 'triode:g',
			'2': 'common:k',
			'4': 'heater:f',
			'5': 'heater:f',
			'7': 'triode:a',
			'9': 'indicator:target'
		},
		pinsPartial: true,
		htPins: [7, 9],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 19, amps: 0.1, seriesChain: true, sources: ['mem'] },
		systems: [{ name: 'triode' }, { name: 'indicator' }],
		confidence: 'low'
	}
];
