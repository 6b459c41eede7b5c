import type { Valve } from '../types.ts';

/** Loctal, side-contact, steel and American 4- and 6-pin bases. */
export const olderBases: readonly Valve[] = [
	{
		type: 'ECH21',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'triode-heptode',
		roles: ['frequency_changer', 'am_mixer', 'am_oscillator', 'am_if_amp', 'af_preamp'],
		base: 'B8G',
		pins: { '1': 'heater:f', '8': 'heater:f' },
		pinsPartial: true,
		htPins: [],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 6.3, amps: 0.33, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'heptode',
				points: [
					{
						label: 'mixer',
						figures: { va_v: 250, vg2_v: 100, vg1_v: -2, ia_ma: 3, gc_ma_v: 0.75 },
						source: 'mem'
					}
				]
			},
			{ name: 'triode' }
		],
		confidence: 'low',
		notes:
			'g3 of the heptode and the triode grid have separate pins, so the valve also serves as IF plus AF amplifier. Only the heater pins are given.'
	},
	{
		type: 'UCH21',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'triode-heptode',
		roles: ['frequency_changer', 'am_mixer', 'am_oscillator', 'am_if_amp', 'af_preamp'],
		base: 'B8G',
		pins: { '1': 'heater:f', '8': 'heater:f' },
		pinsPartial: true,
		htPins: [],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 20, amps: 0.1, seriesChain: true, sources: ['mem'] },
		systems: [{ name: 'heptode' }, { name: 'triode' }],
		confidence: 'low',
		notes: 'As ECH21; only the heater pins are given.'
	},
	{
		type: 'EBL21',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'double diode output pentode',
		roles: ['am_detector', 'avc', 'output'],
		base: 'B8G',
		pins: { '1': 'heater:f', '8': 'heater:f' },
		pinsPartial: true,
		htPins: [],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 6.3, amps: 0.8, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: { figures: { va_max_v: 300, pa_max_w: 11, ik_max_ma: 55 }, source: 'mem' },
				points: [
					{
						label: 'class A',
						figures: {
							va_v: 250,
							vg2_v: 250,
							vg1_v: -6,
							rk_ohm: 150,
							ia_ma: 36,
							ig2_ma: 4.5,
							gm_ma_v: 9,
							ra_kohm: 50,
							load_ohm: 7000,
							power_w: 4.5
						},
						source: 'mem'
					}
				]
			},
			{ name: 'diode1' },
			{ name: 'diode2' }
		],
		confidence: 'low'
	},
	{
		type: 'UBL21',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'double diode output pentode',
		roles: ['am_detector', 'avc', 'output'],
		base: 'B8G',
		pins: { '1': 'heater:f', '8': 'heater:f' },
		pinsPartial: true,
		htPins: [],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 55, amps: 0.1, seriesChain: true, sources: ['mem'] },
		systems: [{ name: 'pentode' }, { name: 'diode1' }, { name: 'diode2' }],
		confidence: 'low'
	},
	{
		type: 'ECH3',
		equivalents: [],
		equivalentSources: ['mem'],
		nearEquivalents: ['ECH33 (octal base)'],
		kind: 'triode-hexode',
		roles: ['frequency_changer', 'am_mixer', 'am_oscillator'],
		base: 'P8',
		pins: {},
		pinsPartial: true,
		htPins: [],
		evidence: 'none',
		pinSources: [],
		heater: { volts: 6.3, amps: 0.2, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'hexode',
				points: [
					{
						label: 'mixer',
						figures: { va_v: 250, vg2_v: 100, vg1_v: -2, ia_ma: 3, ig2_ma: 3, gc_ma_v: 0.65 },
						source: 'mem'
					}
				]
			},
			{ name: 'triode' }
		],
		confidence: 'medium'
	},
	{
		type: 'EF9',
		equivalents: [],
		equivalentSources: ['mem'],
		nearEquivalents: ['EF39 (octal base)'],
		kind: 'RF pentode (variable mu)',
		roles: ['am_if_amp', 'rf_amp'],
		base: 'P8',
		pins: {},
		pinsPartial: true,
		htPins: [],
		evidence: 'none',
		pinSources: [],
		heater: { volts: 6.3, amps: 0.2, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: { figures: { va_max_v: 300, pa_max_w: 2.5, ik_max_ma: 10 }, source: 'mem' },
				points: [
					{
						label: 'IF amplifier',
						figures: {
							va_v: 250,
							vg2_v: 100,
							rk_ohm: 325,
							vg1_v: -2.5,
							ia_ma: 6,
							ig2_ma: 1.7,
							gm_ma_v: 2.2,
							ra_kohm: 1250
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: 'EBL1',
		equivalents: [],
		equivalentSources: ['mem'],
		nearEquivalents: ['EBL31 (octal base)'],
		kind: 'double diode output pentode',
		roles: ['am_detector', 'avc', 'output'],
		base: 'P8',
		pins: {},
		pinsPartial: true,
		htPins: [],
		evidence: 'none',
		pinSources: [],
		heater: { volts: 6.3, amps: 1.18, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: { figures: { va_max_v: 250, pa_max_w: 9 }, source: 'mem' },
				points: [
					{
						label: 'class A',
						figures: {
							va_v: 250,
							vg2_v: 250,
							vg1_v: -6,
							rk_ohm: 150,
							ia_ma: 36,
							ig2_ma: 4,
							gm_ma_v: 9,
							ra_kohm: 50,
							load_ohm: 7000,
							power_w: 4.5
						},
						source: 'mem'
					}
				]
			},
			{ name: 'diode1' },
			{ name: 'diode2' }
		],
		confidence: 'medium',
		notes: 'Control grid on the top cap.'
	},
	{
		type: 'EL3N',
		equivalents: ['EL3'],
		equivalentSources: ['mem'],
		nearEquivalents: ['EL33 (octal base)', 'EL11 (Y8A base)'],
		kind: 'output pentode',
		roles: ['output'],
		base: 'P8',
		pins: {},
		pinsPartial: true,
		htPins: [],
		evidence: 'none',
		pinSources: [],
		heater: { volts: 6.3, amps: 0.9, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: { figures: { va_max_v: 250, pa_max_w: 9, ik_max_ma: 55 }, source: 'mem' },
				points: [
					{
						label: 'class A',
						figures: {
							va_v: 250,
							vg2_v: 250,
							vg1_v: -6,
							rk_ohm: 150,
							ia_ma: 36,
							ig2_ma: 4,
							gm_ma_v: 9,
							ra_kohm: 50,
							load_ohm: 7000,
							power_w: 4.5
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: 'EM4',
		equivalents: [],
		equivalentSources: ['mem'],
		nearEquivalents: ['EM34 (octal base)'],
		kind: 'tuning indicator (dual sensitivity)',
		roles: ['tuning_indicator'],
		base: 'P8',
		pins: {},
		pinsPartial: true,
		htPins: [],
		evidence: 'none',
		pinSources: [],
		heater: { volts: 6.3, amps: 0.2, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'triode',
				points: [
					{
						label: 'control range',
						figures: {
							vb_v: 250,
							anode_load_kohm: 1000,
							vg_sensitive_sector_closed_v: -5,
							vg_other_sector_closed_v: -16
						},
						source: 'mem'
					}
				]
			},
			{ name: 'indicator', points: [{ label: 'luminous target', figures: { target_v: 250 }, source: 'mem' }] }
		],
		confidence: 'low'
	},
	{
		type: 'AZ1',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'full-wave rectifier',
		roles: ['rectifier'],
		base: 'P8',
		pins: {},
		pinsPartial: true,
		htPins: [],
		evidence: 'none',
		pinSources: [],
		heater: { volts: 4, amps: 1.1, seriesChain: false, directlyHeated: true, sources: ['mem'] },
		systems: [
			{
				name: 'rectifier',
				limits: {
					figures: { v_rms_per_anode_max_v: 500, dc_max_ma: 100, c_reservoir_max_uf: 60 },
					source: 'mem',
					note: '100 mA at 300 V, 60 mA at 500 V'
				}
			}
		],
		confidence: 'medium',
		notes: 'Directly heated: the filament winding is at full HT.'
	},
	{
		type: 'ECL11',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'triode tetrode',
		roles: ['af_preamp', 'output'],
		base: 'Y8A',
		pins: {},
		pinsPartial: true,
		htPins: [],
		evidence: 'none',
		pinSources: [],
		heater: { volts: 6.3, amps: 1, seriesChain: false, sources: ['mem'] },
		systems: [
			{ name: 'triode' },
			{
				name: 'tetrode',
				limits: { figures: { pa_max_w: 9 }, source: 'mem' },
				points: [
					{
						label: 'class A',
						figures: {
							va_v: 250,
							vg2_v: 250,
							vg1_v: -6,
							rk_ohm: 150,
							ia_ma: 36,
							ig2_ma: 4,
							gm_ma_v: 9,
							load_ohm: 7000,
							power_w: 3.8
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'low'
	},
	{
		type: 'EM11',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'tuning indicator (dual sensitivity)',
		roles: ['tuning_indicator'],
		base: 'Y8A',
		pins: {},
		pinsPartial: true,
		htPins: [],
		evidence: 'none',
		pinSources: [],
		heater: { volts: 6.3, amps: 0.2, seriesChain: false, sources: ['mem'] },
		systems: [{ name: 'triode' }, { name: 'indicator' }],
		confidence: 'low'
	},
	{
		type: '80',
		equivalents: [],
		equivalentSources: ['mem'],
		nearEquivalents: ['5Y3G (same system, octal base)'],
		kind: 'full-wave rectifier',
		roles: ['rectifier'],
		base: 'UX4',
		pins: { '1': 'rectifier:f', '2': 'rectifier:a1', '3': 'rectifier:a2', '4': 'rectifier:f' },
		htPins: [1, 2, 3, 4],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 5, amps: 2, seriesChain: false, directlyHeated: true, sources: ['mem'] },
		systems: [
			{
				name: 'rectifier',
				limits: { figures: { v_rms_per_anode_max_v: 350, dc_max_ma: 125, piv_max_v: 1400 }, source: 'mem' }
			}
		],
		confidence: 'medium',
		notes: 'Directly heated: the filament winding is at full HT.'
	},
	{
		type: '6E5',
		equivalents: [],
		equivalentSources: ['mem'],
		nearEquivalents: ['6E5S (octal base, Soviet)'],
		kind: 'tuning indicator (shadow angle, with triode)',
		roles: ['tuning_indicator'],
		base: 'UX6',
		pins: {
			'1': 'heater:f',
			'2': 'triode:a',
			'3': 'triode:g',
			'4': 'indicator:target',
			'5': 'common:k',
			'6': 'heater:f'
		},
		htPins: [2, 4],
		evidence: 'memory',
		pinsChecked: [1, 6],
		pinSources: ['eb_6u5', 'mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'triode',
				points: [
					{
						label: 'control range',
						figures: { vb_v: 250, anode_load_kohm: 1000, vg_shadow_90deg_v: 0, vg_shadow_closed_v: -8 },
						source: 'mem'
					}
				]
			},
			{
				name: 'indicator',
				points: [{ label: 'luminous target', figures: { target_v: 250, target_ma: 4 }, source: 'mem' }]
			}
		],
		confidence: 'medium'
	},
	{
		type: '6U5',
		equivalents: ['6G5'],
		equivalentSources: ['mem'],
		kind: 'tuning indicator (shadow angle, with triode)',
		roles: ['tuning_indicator'],
		base: 'UX6',
		pins: {
			'1': 'heater:f',
			'2': 'triode:a',
			'3': 'triode:g',
			'4': 'indicator:target',
			'5': 'common:k',
			'6': 'heater:f'
		},
		htPins: [2, 4],
		evidence: 'memory',
		pinsChecked: [1, 6],
		pinSources: ['eb_6u5', 'mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'triode',
				points: [
					{
						label: 'control range',
						figures: { vb_v: 250, anode_load_kohm: 1000, vg_shadow_90deg_v: 0, vg_shadow_closed_v: -22 },
						source: 'mem'
					}
				]
			},
			{
				name: 'indicator',
				points: [{ label: 'luminous target', figures: { target_v: 250, target_ma: 4 }, source: 'mem' }]
			}
		],
		confidence: 'medium'
	}
];
