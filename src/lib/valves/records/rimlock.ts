import type { Valve } from '../types.ts';

/** Rimlock valves (B8A). */
export const rimlock: readonly Valve[] = [
	{
		type: 'ECH42',
		equivalents: ['6CU7'],
		equivalentSources: ['mem'],
		kind: 'triode-hexode',
		roles: ['frequency_changer', 'am_mixer', 'am_oscillator'],
		base: 'B8A',
		pins: {
			'1': 'heater:f',
			'2': 'hexode:a',
			'3': 'triode:a',
			'4': 'common:gT+g3',
			'5': 'hexode:g2g4',
			'6': 'hexode:g1',
			'7': 'common:k',
			'8': 'heater:f'
		},
		htPins: [2, 3, 5],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 6.3, amps: 0.23, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'hexode',
				limits: { figures: { va_max_v: 300, pa_max_w: 1.5, pg2_max_w: 0.3 }, source: 'mem' },
				points: [
					{
						label: 'mixer',
						figures: { va_v: 250, vg2_v: 85, vg1_v: -2, ia_ma: 3, ig2_ma: 3, gc_ma_v: 0.75 },
						source: 'mem'
					}
				]
			},
			{ name: 'triode', limits: { figures: { va_max_v: 175, pa_max_w: 0.8 }, source: 'mem' } }
		],
		confidence: 'medium'
	},
	{
		type: 'UCH42',
		equivalents: ['14K7'],
		equivalentSources: ['mem'],
		kind: 'triode-hexode',
		roles: ['frequency_changer', 'am_mixer', 'am_oscillator'],
		base: 'B8A',
		pins: {
			'1': 'heater:f',
			'2': 'hexode:a',
			'3': 'triode:a',
			'4': 'common:gT+g3',
			'5': 'hexode:g2g4',
			'6': 'hexode:g1',
			'7': 'common:k',
			'8': 'heater:f'
		},
		htPins: [2, 3, 5],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 14, amps: 0.1, seriesChain: true, sources: ['mem'] },
		systems: [{ name: 'hexode' }, { name: 'triode' }],
		confidence: 'medium'
	},
	{
		type: 'EF41',
		equivalents: ['6CJ5'],
		equivalentSources: ['mem'],
		kind: 'RF pentode (variable mu)',
		roles: ['am_if_amp', 'rf_amp'],
		base: 'B8A',
		pins: {
			'1': 'heater:f',
			'2': 'pentode:a',
			'5': 'pentode:g2',
			'6': 'pentode:g1',
			'7': 'pentode:k',
			'8': 'heater:f'
		},
		pinsPartial: true,
		htPins: [2, 5],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 6.3, amps: 0.2, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: { va_max_v: 300, pa_max_w: 2, pg2_max_w: 0.3, ik_max_ma: 10, rg1_max_mohm: 3 },
					source: 'mem'
				},
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
							ra_kohm: 1000
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium',
		notes:
			'Do not carry pin numbers over from the EF40: the EF40 symbol in one library has g1 on 5 and g2 on 6, the reverse of the order given here from memory.'
	},
	{
		type: 'UF41',
		equivalents: ['12AC5'],
		equivalentSources: ['mem'],
		kind: 'RF pentode (variable mu)',
		roles: ['am_if_amp', 'rf_amp'],
		base: 'B8A',
		pins: {
			'1': 'heater:f',
			'2': 'pentode:a',
			'5': 'pentode:g2',
			'6': 'pentode:g1',
			'7': 'pentode:k',
			'8': 'heater:f'
		},
		pinsPartial: true,
		htPins: [2, 5],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 12.6, amps: 0.1, seriesChain: true, sources: ['mem'] },
		systems: [{ name: 'pentode' }],
		confidence: 'medium'
	},
	{
		type: 'EAF42',
		equivalents: ['6CT7'],
		equivalentSources: ['mem'],
		kind: 'diode pentode (variable mu)',
		roles: ['am_if_amp', 'am_detector', 'af_preamp'],
		base: 'B8A',
		pins: {
			'1': 'heater:f',
			'2': 'pentode:a',
			'3': 'diode1:a',
			'5': 'pentode:g2',
			'6': 'pentode:g1',
			'7': 'common:k',
			'8': 'heater:f'
		},
		pinsPartial: true,
		htPins: [2, 5],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 6.3, amps: 0.2, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: { figures: { va_max_v: 300, pa_max_w: 2, ik_max_ma: 10 }, source: 'mem' },
				points: [
					{
						label: 'IF amplifier',
						figures: {
							va_v: 250,
							vg2_v: 85,
							rk_ohm: 310,
							vg1_v: -2,
							ia_ma: 5,
							ig2_ma: 1.5,
							gm_ma_v: 2,
							ra_kohm: 1400
						},
						source: 'mem'
					}
				]
			},
			{ name: 'diode1' }
		],
		confidence: 'medium'
	},
	{
		type: 'UAF42',
		equivalents: ['12S7'],
		equivalentSources: ['mem'],
		kind: 'diode pentode (variable mu)',
		roles: ['am_if_amp', 'am_detector', 'af_preamp'],
		base: 'B8A',
		pins: {
			'1': 'heater:f',
			'2': 'pentode:a',
			'3': 'diode1:a',
			'5': 'pentode:g2',
			'6': 'pentode:g1',
			'7': 'common:k',
			'8': 'heater:f'
		},
		pinsPartial: true,
		htPins: [2, 5],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 12.6, amps: 0.1, seriesChain: true, sources: ['mem'] },
		systems: [{ name: 'pentode' }, { name: 'diode1' }],
		confidence: 'medium'
	},
	{
		type: 'EBC41',
		equivalents: ['6CV7'],
		equivalentSources: ['wiki_ddt', 'mem'],
		nearEquivalents: ['EBC81 (same system, noval base)'],
		kind: 'double diode triode',
		roles: ['am_detector', 'avc', 'af_preamp'],
		base: 'B8A',
		pins: {
			'1': 'heater:f',
			'2': 'triode:a',
			'3': 'triode:g',
			'5': 'diode2:a',
			'6': 'diode1:a',
			'7': 'common:k',
			'8': 'heater:f'
		},
		pinsPartial: true,
		htPins: [2],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 6.3, amps: 0.23, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'triode',
				limits: { figures: { va_max_v: 300, pa_max_w: 0.5, ik_max_ma: 5 }, source: 'mem' },
				points: [
					{
						label: 'static',
						figures: { va_v: 250, vg1_v: -3, ia_ma: 1, gm_ma_v: 1.2, mu: 70, ra_kohm: 58 },
						source: 'mem'
					}
				]
			},
			{ name: 'diode1' },
			{ name: 'diode2' }
		],
		confidence: 'medium'
	},
	{
		type: 'UBC41',
		equivalents: ['14L7'],
		equivalentSources: ['mem'],
		kind: 'double diode triode',
		roles: ['am_detector', 'avc', 'af_preamp'],
		base: 'B8A',
		pins: {
			'1': 'heater:f',
			'2': 'triode:a',
			'3': 'triode:g',
			'5': 'diode2:a',
			'6': 'diode1:a',
			'7': 'common:k',
			'8': 'heater:f'
		},
		pinsPartial: true,
		htPins: [2],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 14, amps: 0.1, seriesChain: true, sources: ['mem'] },
		systems: [{ name: 'triode' }, { name: 'diode1' }, { name: 'diode2' }],
		confidence: 'medium'
	},
	{
		type: 'EL41',
		equivalents: ['6CK5'],
		equivalentSources: ['mem'],
		kind: 'output pentode',
		roles: ['output'],
		base: 'B8A',
		pins: {
			'1': 'heater:f',
			'2': 'pentode:a',
			'3': '-:ic',
			'4': '-:ic',
			'5': 'pentode:g2',
			'6': 'pentode:g1',
			'7': 'pentode:k+g3',
			'8': 'heater:f'
		},
		htPins: [2, 5],
		evidence: 'one_source',
		pinSources: ['tubeslib', 'mem'],
		heater: { volts: 6.3, amps: 0.71, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: {
						va_max_v: 300,
						pa_max_w: 9,
						vg2_max_v: 300,
						pg2_max_w: 1.4,
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
							ig2_ma: 5.2,
							gm_ma_v: 10,
							ra_kohm: 40,
							load_ohm: 7000,
							power_w: 4.2
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: 'EL42',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'output pentode',
		roles: ['output'],
		base: 'B8A',
		pins: {
			'1': 'heater:f',
			'2': 'pentode:a',
			'3': '-:ic',
			'4': '-:ic',
			'5': 'pentode:g2',
			'6': 'pentode:g1',
			'7': 'pentode:k+g3',
			'8': 'heater:f'
		},
		htPins: [2, 5],
		evidence: 'one_source',
		pinSources: ['tubeslib', 'mem'],
		heater: { volts: 6.3, amps: 0.2, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: { figures: { va_max_v: 300, pa_max_w: 6, ik_max_ma: 35 }, source: 'mem' },
				points: [
					{
						label: 'class A',
						figures: {
							va_v: 225,
							vg2_v: 225,
							rk_ohm: 360,
							vg1_v: -10.8,
							ia_ma: 26,
							ig2_ma: 4.1,
							gm_ma_v: 3.2,
							ra_kohm: 90,
							load_ohm: 9000,
							power_w: 2.8
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'low'
	},
	{
		type: 'UL41',
		equivalents: ['45A5'],
		equivalentSources: ['mem'],
		kind: 'output pentode',
		roles: ['output'],
		base: 'B8A',
		pins: {
			'1': 'heater:f',
			'2': 'pentode:a',
			'3': '-:ic',
			'4': '-:ic',
			'5': 'pentode:g2',
			'6': 'pentode:g1',
			'7': 'pentode:k+g3',
			'8': 'heater:f'
		},
		htPins: [2, 5],
		evidence: 'one_source_sister',
		pinBasis: 'same base arrangement as EL41 (from memory); the EL41 symbol was read',
		pinSources: ['tubeslib', 'mem'],
		heater: { volts: 45, amps: 0.1, seriesChain: true, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: { va_max_v: 250, pa_max_w: 9, ik_max_ma: 75, rg1_max_auto_mohm: 1 },
					source: 'mem'
				},
				points: [
					{
						label: 'class A',
						figures: {
							va_v: 165,
							vg2_v: 165,
							vg1_v: -9,
							rk_ohm: 140,
							ia_ma: 54.5,
							ig2_ma: 9,
							gm_ma_v: 9.5,
							ra_kohm: 20,
							load_ohm: 3000,
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
		type: 'EZ40',
		equivalents: ['6BT4'],
		equivalentSources: ['mem'],
		kind: 'full-wave rectifier',
		roles: ['rectifier'],
		base: 'B8A',
		pins: { '1': 'heater:f', '2': 'rectifier:a1', '6': 'rectifier:a2', '7': 'rectifier:k', '8': 'heater:f' },
		pinsPartial: true,
		htPins: [2, 6, 7],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 6.3, amps: 0.6, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'rectifier',
				limits: {
					figures: { v_rms_per_anode_max_v: 350, dc_max_ma: 90, c_reservoir_max_uf: 50 },
					source: 'mem'
				},
				points: [
					{
						label: 'capacitor input',
						figures: { v_rms_per_anode_v: 350, dc_ma: 90, r_limit_min_per_anode_ohm: 300, c_uf: 50 },
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium',
		notes:
			'Contacts 3, 4 and 5 are said to be internal connections (weak secondary, tof_api, in line with the pins given here but not counted as a check): leave them free. The same page agrees with 350 V, 90 mA, 50 uF and 300 ohm per anode.'
	},
	{
		type: 'AZ41',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'full-wave rectifier',
		roles: ['rectifier'],
		base: 'B8A',
		pins: { '1': 'rectifier:f', '2': 'rectifier:a1', '6': 'rectifier:a2', '8': 'rectifier:f' },
		pinsPartial: true,
		htPins: [1, 2, 6, 8],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 4, amps: 0.72, seriesChain: false, directlyHeated: true, sources: ['mem'] },
		systems: [
			{
				name: 'rectifier',
				limits: {
					figures: { v_rms_per_anode_max_v: 500, dc_max_ma: 70, c_reservoir_max_uf: 50 },
					source: 'mem',
					note: '70 mA at 300 V, 60 mA at 500 V'
				}
			}
		],
		confidence: 'low',
		notes: 'Directly heated: the filament winding is at full HT.'
	},
	{
		type: 'UY41',
		equivalents: ['31A3'],
		equivalentSources: ['mem'],
		kind: 'half-wave rectifier',
		roles: ['rectifier'],
		base: 'B8A',
		pins: { '1': 'heater:f', '2': 'rectifier:a', '7': 'rectifier:k', '8': 'heater:f' },
		pinsPartial: true,
		htPins: [2, 7],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 31, amps: 0.1, seriesChain: true, sources: ['mem'] },
		systems: [
			{
				name: 'rectifier',
				limits: { figures: { v_rms_max_v: 250, dc_max_ma: 100, c_reservoir_max_uf: 50 }, source: 'mem' },
				points: [
					{
						label: 'capacitor input',
						figures: { v_rms_v: 250, dc_ma: 100, r_limit_min_ohm: 210, c_uf: 50 },
						source: 'mem'
					}
				]
			}
		],
		confidence: 'low'
	}
];
