import type { Valve } from '../types.ts';

/** Octal valves of the signal stages. */
export const octalSignal: readonly Valve[] = [
	{
		type: 'ECH35',
		equivalents: ['CV1347'],
		equivalentSources: ['mem'],
		kind: 'triode-hexode',
		roles: ['frequency_changer', 'am_mixer', 'am_oscillator'],
		base: 'octal',
		pins: {
			'1': 'screen:m',
			'2': 'heater:f',
			'3': 'hexode:a',
			'4': 'hexode:g2g4',
			'5': 'common:gT+g3',
			'6': 'triode:a',
			'7': 'heater:f',
			'8': 'common:k'
		},
		topCap: 'hexode:g1',
		htPins: [3, 4, 6],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['mem'] },
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
		type: 'EF39',
		equivalents: ['CV1053'],
		equivalentSources: ['mem'],
		kind: 'RF pentode (variable mu)',
		roles: ['am_if_amp', 'rf_amp'],
		base: 'octal',
		pins: {
			'1': 'screen:m',
			'2': 'heater:f',
			'3': 'pentode:a',
			'4': 'pentode:g2',
			'5': 'pentode:g3',
			'7': 'heater:f',
			'8': 'pentode:k'
		},
		topCap: 'pentode:g1',
		pinsPartial: true,
		htPins: [3, 4],
		evidence: 'memory',
		pinSources: ['mem'],
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
		type: 'EBC33',
		equivalents: ['CV1055'],
		equivalentSources: ['mem'],
		kind: 'double diode triode',
		roles: ['am_detector', 'avc', 'af_preamp'],
		base: 'octal',
		pins: {
			'1': 'screen:m',
			'2': 'heater:f',
			'3': 'triode:a',
			'4': 'diode2:a',
			'5': 'diode1:a',
			'7': 'heater:f',
			'8': 'common:k'
		},
		topCap: 'triode:g',
		pinsPartial: true,
		htPins: [3],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 6.3, amps: 0.2, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'triode',
				points: [
					{
						label: 'static',
						figures: { va_v: 250, vg1_v: -5.5, ia_ma: 5, gm_ma_v: 2, mu: 30, ra_kohm: 15 },
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
		type: '6SA7',
		equivalents: [],
		equivalentSources: ['mem'],
		nearEquivalents: ['6A7 (Soviet)'],
		kind: 'heptode (pentagrid converter)',
		roles: ['frequency_changer', 'am_mixer', 'am_oscillator'],
		base: 'octal',
		pins: {
			'1': 'heptode:g5+shell',
			'2': 'heater:f',
			'3': 'heptode:a',
			'4': 'heptode:g2g4',
			'5': 'heptode:g1',
			'6': 'heptode:k',
			'7': 'heater:f',
			'8': 'heptode:g3'
		},
		htPins: [3, 4],
		evidence: 'two_sources_sister',
		pinBasis: 'two 12SA7 symbols read; 6SA7 differs in heater only (memory)',
		pinSources: ['vrkicad', 'lepton', 'mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'heptode',
				limits: {
					figures: { va_max_v: 300, pa_max_w: 1, vg2_max_v: 100, pg2_max_w: 1, ik_max_ma: 14 },
					source: 'mem'
				},
				points: [
					{
						label: 'converter',
						figures: {
							va_v: 250,
							vg2_v: 100,
							vg3_v: 0,
							rg1_kohm: 20,
							ig1_ma: 0.5,
							ia_ma: 3.5,
							ig2_ma: 8.5,
							gc_ma_v: 0.45,
							ra_kohm: 1000
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: '12SA7',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'heptode (pentagrid converter)',
		roles: ['frequency_changer', 'am_mixer', 'am_oscillator'],
		base: 'octal',
		pins: {
			'1': 'heptode:g5+shell',
			'2': 'heater:f',
			'3': 'heptode:a',
			'4': 'heptode:g2g4',
			'5': 'heptode:g1',
			'6': 'heptode:k',
			'7': 'heater:f',
			'8': 'heptode:g3'
		},
		htPins: [3, 4],
		evidence: 'two_sources',
		pinSources: ['vrkicad', 'lepton', 'mem'],
		heater: { volts: 12.6, amps: 0.15, seriesChain: true, sources: ['mem'] },
		systems: [
			{
				name: 'heptode',
				limits: {
					figures: { va_max_v: 300, pa_max_w: 1, vg2_max_v: 100, pg2_max_w: 1, ik_max_ma: 14 },
					source: 'mem'
				},
				points: [
					{
						label: 'converter',
						figures: {
							va_v: 250,
							vg2_v: 100,
							vg3_v: 0,
							rg1_kohm: 20,
							ig1_ma: 0.5,
							ia_ma: 3.5,
							ig2_ma: 8.5,
							gc_ma_v: 0.45,
							ra_kohm: 1000
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'good'
	},
	{
		type: '6SK7',
		equivalents: [],
		equivalentSources: ['mem'],
		nearEquivalents: ['6K3 (Soviet)'],
		kind: 'RF pentode (variable mu)',
		roles: ['am_if_amp', 'rf_amp'],
		base: 'octal',
		pins: {
			'1': 'screen:shell',
			'2': 'heater:f',
			'3': 'pentode:g3',
			'4': 'pentode:g1',
			'5': 'pentode:k',
			'6': 'pentode:g2',
			'7': 'heater:f',
			'8': 'pentode:a'
		},
		htPins: [6, 8],
		evidence: 'one_source_and_sister',
		pinBasis:
			'the 12SK7 symbol was read (no heater pins on it; 6SK7 differs in heater only, memory); the 6SJ7 symbol, which shares this basing (from memory), agrees and gives the heater pins',
		pinSources: ['lepton', 'tubeslib', 'mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: { figures: { va_max_v: 300, pa_max_w: 4, vg2_max_v: 125, pg2_max_w: 0.4 }, source: 'mem' },
				points: [
					{
						label: 'IF amplifier',
						figures: { va_v: 250, vg2_v: 100, vg1_v: -3, ia_ma: 9.2, ig2_ma: 2.6, gm_ma_v: 2, ra_kohm: 800 },
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: '12SK7',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'RF pentode (variable mu)',
		roles: ['am_if_amp', 'rf_amp'],
		base: 'octal',
		pins: {
			'1': 'screen:shell',
			'2': 'heater:f',
			'3': 'pentode:g3',
			'4': 'pentode:g1',
			'5': 'pentode:k',
			'6': 'pentode:g2',
			'7': 'heater:f',
			'8': 'pentode:a'
		},
		htPins: [6, 8],
		evidence: 'one_source_and_sister',
		pinBasis:
			'the 12SK7 symbol was read (no heater pins on it); the 6SJ7 symbol, which shares this basing (from memory), agrees and gives the heater pins',
		pinSources: ['lepton', 'tubeslib', 'mem'],
		heater: { volts: 12.6, amps: 0.15, seriesChain: true, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: { figures: { va_max_v: 300, pa_max_w: 4, vg2_max_v: 125, pg2_max_w: 0.4 }, source: 'mem' },
				points: [
					{
						label: 'IF amplifier',
						figures: { va_v: 250, vg2_v: 100, vg1_v: -3, ia_ma: 9.2, ig2_ma: 2.6, gm_ma_v: 2, ra_kohm: 800 },
						source: 'mem'
					}
				]
			}
		],
		confidence: 'good'
	},
	{
		type: '6SQ7',
		equivalents: [],
		equivalentSources: ['mem'],
		nearEquivalents: ['6G2 (Soviet, near equivalent)'],
		kind: 'double diode triode',
		roles: ['am_detector', 'avc', 'af_preamp'],
		base: 'octal',
		pins: {
			'1': 'screen:shell',
			'2': 'triode:g',
			'3': 'common:k',
			'4': 'diode2:a',
			'5': 'diode1:a',
			'6': 'triode:a',
			'7': 'heater:f',
			'8': 'heater:f'
		},
		htPins: [6],
		evidence: 'two_sources_sister',
		pinBasis:
			'two 12SQ7 symbols read; 6SQ7 differs in heater only (memory); heater pins 7 and 8 of the 6SQ7 itself confirmed by a tube-tester manual',
		pinSources: ['lepton', 'vrkicad', 'tm_tv2', 'mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'triode',
				limits: { figures: { va_max_v: 300, pa_max_w: 0.5 }, source: 'mem' },
				points: [
					{
						label: 'static',
						figures: { va_v: 250, vg1_v: -2, ia_ma: 0.9, gm_ma_v: 1.1, mu: 100, ra_kohm: 91 },
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
		type: '12SQ7',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'double diode triode',
		roles: ['am_detector', 'avc', 'af_preamp'],
		base: 'octal',
		pins: {
			'1': 'screen:shell',
			'2': 'triode:g',
			'3': 'common:k',
			'4': 'diode2:a',
			'5': 'diode1:a',
			'6': 'triode:a',
			'7': 'heater:f',
			'8': 'heater:f'
		},
		htPins: [6],
		evidence: 'two_sources',
		pinSources: ['lepton', 'vrkicad', 'mem'],
		heater: { volts: 12.6, amps: 0.15, seriesChain: true, sources: ['mem'] },
		systems: [
			{
				name: 'triode',
				limits: { figures: { va_max_v: 300, pa_max_w: 0.5 }, source: 'mem' },
				points: [
					{
						label: 'static',
						figures: { va_v: 250, vg1_v: -2, ia_ma: 0.9, gm_ma_v: 1.1, mu: 100, ra_kohm: 91 },
						source: 'mem'
					}
				]
			},
			{ name: 'diode1' },
			{ name: 'diode2' }
		],
		confidence: 'good'
	},
	{
		type: '6K8',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'triode-hexode',
		roles: ['frequency_changer', 'am_mixer', 'am_oscillator'],
		base: 'octal',
		pins: {
			'1': 'screen:shell',
			'2': 'heater:f',
			'3': 'hexode:a',
			'4': 'hexode:g2g4',
			'5': 'common:gT+g1',
			'6': 'triode:a',
			'7': 'heater:f',
			'8': 'common:k'
		},
		topCap: 'hexode:g3',
		htPins: [3, 4, 6],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'hexode',
				points: [
					{
						label: 'mixer',
						figures: { va_v: 250, vg2_v: 100, vg3_v: -3, ia_ma: 2.5, ig2_ma: 6, gc_ma_v: 0.35 },
						source: 'mem'
					}
				]
			},
			{
				name: 'triode',
				points: [
					{ label: 'oscillator', figures: { va_v: 100, rg_kohm: 50, ia_ma: 3.8, ig_ma: 0.15 }, source: 'mem' }
				]
			}
		],
		confidence: 'medium',
		notes:
			'On 6K8 the signal goes to g3 (top cap) and the oscillator to g1, the reverse of the European triode-hexodes.'
	},
	{
		type: '6A8',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'heptode (pentagrid converter)',
		roles: ['frequency_changer', 'am_mixer', 'am_oscillator'],
		base: 'octal',
		pins: {
			'1': 'screen:shell',
			'2': 'heater:f',
			'3': 'heptode:a',
			'4': 'heptode:g3g5',
			'5': 'heptode:g1',
			'6': 'heptode:g2',
			'7': 'heater:f',
			'8': 'heptode:k'
		},
		topCap: 'heptode:g4',
		htPins: [3, 4, 6],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'heptode',
				points: [
					{
						label: 'converter',
						figures: {
							va_v: 250,
							vg3g5_v: 100,
							vg4_v: -3,
							osc_anode_supply_v: 250,
							osc_anode_resistor_kohm: 20,
							rg1_kohm: 50,
							ia_ma: 3.5,
							ig3g5_ma: 2.7,
							ig2_osc_anode_ma: 4,
							ig1_ma: 0.4,
							gc_ma_v: 0.55,
							ra_kohm: 360
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium',
		notes: 'Pin 4 is the screen (g3+g5) and pin 6 the oscillator anode (g2); both carry HT.'
	},
	{
		type: '6K7',
		equivalents: [],
		equivalentSources: ['mem'],
		nearEquivalents: ['6K7 (Soviet 6K7)'],
		kind: 'RF pentode (variable mu)',
		roles: ['am_if_amp', 'rf_amp'],
		base: 'octal',
		pins: {
			'1': 'screen:shell',
			'2': 'heater:f',
			'3': 'pentode:a',
			'4': 'pentode:g2',
			'5': 'pentode:g3',
			'7': 'heater:f',
			'8': 'pentode:k'
		},
		topCap: 'pentode:g1',
		pinsPartial: true,
		htPins: [3, 4],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: { va_max_v: 300, pa_max_w: 2.75, vg2_max_v: 125, pg2_max_w: 0.35 },
					source: 'mem'
				},
				points: [
					{
						label: 'IF amplifier',
						figures: { va_v: 250, vg2_v: 100, vg1_v: -3, ia_ma: 7, ig2_ma: 1.7, gm_ma_v: 1.45, ra_kohm: 800 },
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: '6Q7',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'double diode triode',
		roles: ['am_detector', 'avc', 'af_preamp'],
		base: 'octal',
		pins: {
			'1': 'screen:shell',
			'2': 'heater:f',
			'3': 'triode:a',
			'4': 'diode2:a',
			'5': 'diode1:a',
			'7': 'heater:f',
			'8': 'common:k'
		},
		topCap: 'triode:g',
		pinsPartial: true,
		htPins: [3],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'triode',
				limits: { figures: { va_max_v: 300 }, source: 'mem' },
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
	}
];
