import type { Valve } from '../types.ts';

/** Directly heated seven-pin valves of battery sets. */
export const battery: readonly Valve[] = [
	{
		type: 'DK91',
		equivalents: ['1R5', 'CV782'],
		equivalentSources: ['rm_b7g', 'mem'],
		kind: 'heptode (pentagrid converter)',
		roles: ['frequency_changer', 'am_mixer', 'am_oscillator'],
		base: 'B7G',
		pins: {
			'1': 'heptode:f-',
			'2': 'heptode:a',
			'3': 'heptode:g2g4',
			'4': 'heptode:g1',
			'5': 'heptode:f-+g5',
			'6': 'heptode:g3',
			'7': 'heptode:f+'
		},
		htPins: [2, 3],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: {
			volts: 1.4,
			amps: 0.05,
			seriesChain: false,
			directlyHeated: true,
			sources: ['mullard_batt', 'mem']
		},
		systems: [
			{
				name: 'heptode',
				limits: { figures: { va_max_v: 90, vg2_max_v: 67.5, ik_max_ma: 5.5 }, source: 'mem' },
				points: [
					{
						label: 'converter',
						figures: {
							va_v: 90,
							vg2_v: 67.5,
							vg3_v: 0,
							rg1_kohm: 100,
							ia_ma: 1.6,
							ig2_ma: 3.2,
							gc_ma_v: 0.3,
							ra_kohm: 600
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: 'DK92',
		equivalents: ['1AC6'],
		equivalentSources: ['mem'],
		kind: 'heptode (pentagrid converter)',
		roles: ['frequency_changer', 'am_mixer', 'am_oscillator'],
		base: 'B7G',
		pins: {
			'1': 'heptode:f-',
			'2': 'heptode:a',
			'3': 'heptode:g2',
			'4': 'heptode:g1',
			'5': 'heptode:g4',
			'6': 'heptode:g3',
			'7': 'heptode:f+'
		},
		htPins: [2, 3, 5],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 1.4, amps: 0.05, seriesChain: false, directlyHeated: true, sources: ['mem'] },
		systems: [{ name: 'heptode' }],
		confidence: 'low'
	},
	{
		type: 'DK96',
		equivalents: ['1AB6'],
		equivalentSources: ['mem'],
		kind: 'heptode (pentagrid converter)',
		roles: ['frequency_changer', 'am_mixer', 'am_oscillator'],
		base: 'B7G',
		pins: {
			'1': 'heptode:f-',
			'2': 'heptode:a',
			'3': 'heptode:g2',
			'4': 'heptode:g1',
			'5': 'heptode:g4',
			'6': 'heptode:g3',
			'7': 'heptode:f+'
		},
		htPins: [2, 3, 5],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 1.4, amps: 0.025, seriesChain: false, directlyHeated: true, sources: ['mem'] },
		systems: [{ name: 'heptode' }],
		confidence: 'low'
	},
	{
		type: 'DF91',
		equivalents: ['1T4', 'CV785'],
		equivalentSources: ['rm_b7g', 'mem'],
		kind: 'RF pentode (variable mu)',
		roles: ['am_if_amp', 'rf_amp'],
		base: 'B7G',
		pins: {
			'1': 'pentode:f-+g3',
			'2': 'pentode:a',
			'3': 'pentode:g2',
			'5': 'pentode:f-',
			'6': 'pentode:g1',
			'7': 'pentode:f+'
		},
		pinsPartial: true,
		htPins: [2, 3],
		evidence: 'memory',
		pinsChecked: [1, 3, 5, 7],
		pinSources: ['wa_1u4', 'mem'],
		heater: {
			volts: 1.4,
			amps: 0.05,
			seriesChain: false,
			directlyHeated: true,
			sources: ['mullard_batt', 'mem']
		},
		systems: [
			{
				name: 'pentode',
				limits: { figures: { va_max_v: 90, vg2_max_v: 67.5, ik_max_ma: 5.5 }, source: 'mem' },
				points: [
					{
						label: 'IF amplifier',
						figures: { va_v: 90, vg2_v: 67.5, vg1_v: 0, ia_ma: 3.5, ig2_ma: 1.4, gm_ma_v: 0.9, ra_kohm: 500 },
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: 'DF96',
		equivalents: ['1AJ4'],
		equivalentSources: ['mem'],
		kind: 'RF pentode (variable mu)',
		roles: ['am_if_amp', 'rf_amp'],
		base: 'B7G',
		pins: {
			'1': 'pentode:f-+g3',
			'2': 'pentode:a',
			'3': 'pentode:g2',
			'5': 'pentode:f-',
			'6': 'pentode:g1',
			'7': 'pentode:f+'
		},
		pinsPartial: true,
		htPins: [2, 3],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 1.4, amps: 0.025, seriesChain: false, directlyHeated: true, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				points: [
					{
						label: 'IF amplifier',
						figures: { va_v: 85, vg2_v: 64, vg1_v: 0, ia_ma: 1.65, ig2_ma: 0.55, gm_ma_v: 0.85 },
						source: 'mem'
					}
				]
			}
		],
		confidence: 'low'
	},
	{
		type: 'DAF91',
		equivalents: ['1S5', 'CV784'],
		equivalentSources: ['rm_b7g', 'mem'],
		kind: 'diode pentode',
		roles: ['am_detector', 'af_preamp'],
		base: 'B7G',
		pins: {
			'1': 'pentode:f-',
			'3': 'diode1:a',
			'4': 'pentode:g2',
			'5': 'pentode:a',
			'6': 'pentode:g1',
			'7': 'pentode:f+'
		},
		pinsPartial: true,
		htPins: [4, 5],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: {
			volts: 1.4,
			amps: 0.05,
			seriesChain: false,
			directlyHeated: true,
			sources: ['mullard_batt', 'mem']
		},
		systems: [
			{
				name: 'pentode',
				limits: { figures: { va_max_v: 90, vg2_max_v: 90 }, source: 'mem' },
				points: [
					{
						label: 'static',
						figures: {
							va_v: 67.5,
							vg2_v: 67.5,
							vg1_v: 0,
							ia_ma: 1.6,
							ig2_ma: 0.4,
							gm_ma_v: 0.625,
							ra_kohm: 600
						},
						source: 'mem'
					},
					{
						label: 'AF amplifier, 90 V supply',
						figures: { vb_v: 90, stage_gain: 100 },
						source: 'mullard_batt'
					},
					{
						label: 'AF amplifier, 45 V supply',
						figures: { vb_v: 45, stage_gain: 50 },
						source: 'mullard_batt'
					}
				]
			},
			{ name: 'diode1', use: 'at the negative end of the filament (Mullard note)' }
		],
		confidence: 'medium'
	},
	{
		type: 'DAF96',
		equivalents: ['1AH5'],
		equivalentSources: ['mem'],
		kind: 'diode pentode',
		roles: ['am_detector', 'af_preamp'],
		base: 'B7G',
		pins: {
			'1': 'pentode:f-',
			'3': 'diode1:a',
			'4': 'pentode:g2',
			'5': 'pentode:a',
			'6': 'pentode:g1',
			'7': 'pentode:f+'
		},
		pinsPartial: true,
		htPins: [4, 5],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 1.4, amps: 0.025, seriesChain: false, directlyHeated: true, sources: ['mem'] },
		systems: [{ name: 'pentode' }, { name: 'diode1' }],
		confidence: 'low'
	},
	{
		type: 'DL92',
		equivalents: ['3S4', 'CV820'],
		equivalentSources: ['rm_b7g', 'mem'],
		kind: 'output pentode',
		roles: ['output'],
		base: 'B7G',
		pins: {
			'1': 'pentode:f-',
			'2': 'pentode:a',
			'3': 'pentode:g1',
			'4': 'pentode:g2',
			'5': 'pentode:f-centre+g3',
			'6': 'pentode:a',
			'7': 'pentode:f+'
		},
		htPins: [2, 4, 6],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: {
			volts: 1.4,
			amps: 0.1,
			seriesChain: false,
			directlyHeated: true,
			sources: ['mullard_batt', 'mem'],
			alternative: { volts: 2.8, amps: 0.05, how: 'halves in series, pins 1 and 7; 1.4 V is 1+7 against 5' }
		},
		systems: [
			{
				name: 'pentode',
				limits: { figures: { va_max_v: 90, vg2_max_v: 67.5 }, source: 'mem' },
				points: [
					{
						label: 'class A, parallel filament',
						figures: {
							va_v: 90,
							vg2_v: 67.5,
							vg1_v: -7,
							ia_ma: 7.4,
							ig2_ma: 1.4,
							gm_ma_v: 1.575,
							load_ohm: 8000,
							power_w: 0.27
						},
						source: 'mem'
					},
					{ label: '90 V supply', figures: { vb_v: 90, power_w: 0.16 }, source: 'mullard_batt' }
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: 'DL94',
		equivalents: ['3V4'],
		equivalentSources: ['mem'],
		kind: 'output pentode',
		roles: ['output'],
		base: 'B7G',
		pins: {
			'1': 'pentode:f-',
			'2': 'pentode:a',
			'3': 'pentode:g2',
			'5': 'pentode:f-centre+g3',
			'6': 'pentode:g1',
			'7': 'pentode:f+'
		},
		pinsPartial: true,
		htPins: [2, 3],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: {
			volts: 1.4,
			amps: 0.1,
			seriesChain: false,
			directlyHeated: true,
			sources: ['mullard_batt', 'mem'],
			alternative: { volts: 2.8, amps: 0.05, how: 'halves in series, pins 1 and 7; 1.4 V is 1+7 against 5' }
		},
		systems: [
			{
				name: 'pentode',
				limits: { figures: { va_max_v: 90, vg2_max_v: 90, ik_max_ma: 12 }, source: 'mem' },
				points: [
					{
						label: 'class A, equal anode and screen voltage',
						figures: { va_v: 90, vg2_v: 90, power_w: 0.27, distortion_pct: 7, drive_rms_v: 3.2 },
						source: 'mullard_batt'
					},
					{
						label: 'class A, parallel filament',
						figures: {
							va_v: 90,
							vg2_v: 90,
							vg1_v: -4.5,
							ia_ma: 9.5,
							ig2_ma: 2.1,
							gm_ma_v: 2.15,
							ra_kohm: 100,
							load_ohm: 10000,
							power_w: 0.27
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: 'DL96',
		equivalents: ['3C4'],
		equivalentSources: ['mem'],
		kind: 'output pentode',
		roles: ['output'],
		base: 'B7G',
		pins: {
			'1': 'pentode:f-',
			'2': 'pentode:a',
			'3': 'pentode:g2',
			'5': 'pentode:f-centre+g3',
			'6': 'pentode:g1',
			'7': 'pentode:f+'
		},
		pinsPartial: true,
		htPins: [2, 3],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: {
			volts: 1.4,
			amps: 0.05,
			seriesChain: false,
			directlyHeated: true,
			sources: ['mem'],
			alternative: { volts: 2.8, amps: 0.025, how: 'halves in series' }
		},
		systems: [
			{
				name: 'pentode',
				points: [
					{
						label: 'class A',
						figures: {
							va_v: 85,
							vg2_v: 85,
							vg1_v: -5.2,
							ia_ma: 5,
							ig2_ma: 0.9,
							gm_ma_v: 1.3,
							load_ohm: 13000,
							power_w: 0.2
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'low'
	}
];
