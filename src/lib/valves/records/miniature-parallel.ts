import type { Valve } from '../types.ts';

/** Seven-pin valves, further types. */
export const miniatureParallel: readonly Valve[] = [
	{
		type: 'EC92',
		equivalents: ['6AB4'],
		equivalentSources: ['mem'],
		kind: 'triode',
		roles: ['fm_rf_amp', 'fm_mixer_oscillator'],
		base: 'B7G',
		pins: { '1': 'triode:a', '3': 'heater:f', '4': 'heater:f', '6': 'triode:g', '7': 'triode:k' },
		pinsPartial: true,
		htPins: [1],
		evidence: 'one_source',
		pinSources: ['kicad', 'mem'],
		heater: { volts: 6.3, amps: 0.15, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'triode',
				limits: { figures: { va_max_v: 300, pa_max_w: 2.5, ik_max_ma: 15 }, source: 'mem' },
				points: [
					{
						label: 'static',
						figures: { va_v: 250, vg1_v: -2, ia_ma: 10, gm_ma_v: 5.5, mu: 60 },
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: 'EL95',
		equivalents: ['6DL5'],
		equivalentSources: ['mem'],
		kind: 'output pentode',
		roles: ['output'],
		base: 'B7G',
		pins: {
			'1': 'pentode:g1',
			'2': 'pentode:k+g3',
			'3': 'heater:f',
			'4': 'heater:f',
			'5': 'pentode:a',
			'6': 'pentode:g2'
		},
		pinsPartial: true,
		htPins: [5, 6],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 6.3, amps: 0.2, seriesChain: false, sources: ['rm_el95', 'mem'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: { va_max_v: 300, pa_max_w: 6, vg2_max_v: 300, pg2_max_w: 1.25, ik_max_ma: 35 },
					source: 'mem'
				},
				points: [
					{
						label: 'class A',
						figures: {
							va_v: 250,
							vg2_v: 250,
							vg1_v: -9,
							rk_ohm: 320,
							ia_ma: 24,
							ig2_ma: 4.5,
							gm_ma_v: 5,
							ra_kohm: 80,
							load_ohm: 10000,
							power_w: 3
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium',
		notes:
			'A Radiomuseum substitution article gives the same 24 mA rated anode current and 0.2 A heater, a 330 ohm cathode resistor in use (270 ohm if a pin-compatible 6BM5 with its 0.45 A heater is fitted), and advises against the 6AQ5/EL90 (45 mA) and 6AK6 as substitutes.'
	},
	{
		type: '6BE6',
		equivalents: ['EK90', 'CV453'],
		equivalentSources: ['mem'],
		nearEquivalents: ['6A2P (near equivalent)'],
		kind: 'heptode (pentagrid converter)',
		roles: ['frequency_changer', 'am_mixer', 'am_oscillator'],
		base: 'B7G',
		pins: {
			'1': 'heptode:g1',
			'2': 'heptode:k+g5',
			'3': 'heater:f',
			'4': 'heater:f',
			'5': 'heptode:a',
			'6': 'heptode:g2g4',
			'7': 'heptode:g3'
		},
		htPins: [5, 6],
		evidence: 'maker_sheet',
		pinSources: ['ge_6be6', 'vrkicad', 'mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['ge_6be6'] },
		systems: [
			{
				name: 'heptode',
				limits: {
					figures: {
						va_max_v: 300,
						pa_max_w: 1,
						vg2_max_v: 100,
						vg2_supply_max_v: 300,
						pg2_max_w: 1,
						ik_max_ma: 14,
						vg3_neg_max_v: 50,
						vhk_max_v: 200
					},
					source: 'ge_6be6'
				},
				points: [
					{
						label: 'converter',
						figures: {
							va_v: 250,
							vg2_v: 100,
							vg3_v: -1.5,
							rg1_kohm: 20,
							ig1_ma: 0.5,
							ia_ma: 2.9,
							ig2_ma: 6.8,
							ik_ma: 10.2,
							gc_ma_v: 0.475,
							ra_kohm: 1000,
							vg1_osc_rms_v: 10
						},
						source: 'ge_6be6'
					}
				]
			}
		],
		confidence: 'high',
		notes:
			'Oscillator check: 0.5 mA through the 20 k grid leak is about -10 V on pin 1 (calculated); near 0 V means no oscillation.'
	},
	{
		type: '6BA6',
		equivalents: ['EF93', 'CV454'],
		equivalentSources: ['mem'],
		nearEquivalents: ['6K4P (near equivalent)'],
		kind: 'RF pentode (variable mu)',
		roles: ['am_if_amp', 'fm_if_amp', 'rf_amp'],
		base: 'B7G',
		pins: {
			'1': 'pentode:g1',
			'2': 'pentode:g3+s',
			'3': 'heater:f',
			'4': 'heater:f',
			'5': 'pentode:a',
			'6': 'pentode:g2',
			'7': 'pentode:k'
		},
		htPins: [5, 6],
		evidence: 'one_source_and_sister',
		pinBasis:
			'the 12BA6 table was read (6BA6 differs in heater only, memory); the 6AU6, which shares this basing (from memory), was read in a service schematic and in a symbol',
		pinSources: ['chassis13', 'svc_fmtuner', 'rw_6au6', 'mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: { va_max_v: 300, pa_max_w: 3, vg2_max_v: 125, vg2_supply_max_v: 300, pg2_max_w: 0.6 },
					source: 'mem'
				},
				points: [
					{
						label: 'IF amplifier',
						figures: {
							va_v: 250,
							vg2_v: 100,
							rk_ohm: 68,
							ia_ma: 11,
							ig2_ma: 4.2,
							gm_ma_v: 4.4,
							ra_kohm: 1000
						},
						source: 'mem'
					},
					{
						label: 'IF amplifier',
						figures: {
							va_v: 100,
							vg2_v: 100,
							rk_ohm: 68,
							ia_ma: 10.8,
							ig2_ma: 4.4,
							gm_ma_v: 4.3,
							ra_kohm: 250
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: '6AT6',
		equivalents: ['EBC90', 'CV452'],
		equivalentSources: ['mem'],
		kind: 'double diode triode',
		roles: ['am_detector', 'avc', 'af_preamp'],
		base: 'B7G',
		pins: {
			'1': 'triode:g',
			'2': 'common:k',
			'3': 'heater:f',
			'4': 'heater:f',
			'5': 'diode2:a',
			'6': 'diode1:a',
			'7': 'triode:a'
		},
		htPins: [7],
		evidence: 'two_sources',
		pinSources: ['kicad_vt', 'codex', 'mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'triode',
				limits: { figures: { va_max_v: 300, pa_max_w: 0.5, vhk_max_v: 90 }, source: 'codex' },
				points: [
					{
						label: 'static (RCA RC-19 as cited)',
						figures: { va_v: 250, vg1_v: -3, ia_ma: 1, gm_ma_v: 1.2, mu: 70 },
						source: 'codex'
					}
				]
			},
			{ name: 'diode1', limits: { figures: { i_max_ma: 1 }, source: 'codex' } },
			{ name: 'diode2', limits: { figures: { i_max_ma: 1 }, source: 'codex' } }
		],
		confidence: 'good'
	},
	{
		type: '12AT6',
		equivalents: ['HBC90'],
		equivalentSources: ['mem'],
		kind: 'double diode triode',
		roles: ['am_detector', 'avc', 'af_preamp'],
		base: 'B7G',
		pins: {
			'1': 'triode:g',
			'2': 'common:k',
			'3': 'heater:f',
			'4': 'heater:f',
			'5': 'diode2:a',
			'6': 'diode1:a',
			'7': 'triode:a'
		},
		htPins: [7],
		evidence: 'two_sources_sister',
		pinBasis: 'same electrode system and base as 6AT6; that sheet or symbol was read, this type from memory',
		pinSources: ['kicad_vt', 'codex', 'mem'],
		heater: { volts: 12.6, amps: 0.15, seriesChain: true, sources: ['mem'] },
		systems: [
			{
				name: 'triode',
				limits: { figures: { va_max_v: 300, pa_max_w: 0.5, vhk_max_v: 90 }, source: 'codex' },
				points: [
					{
						label: 'static (RCA RC-19 as cited)',
						figures: { va_v: 250, vg1_v: -3, ia_ma: 1, gm_ma_v: 1.2, mu: 70 },
						source: 'codex'
					}
				]
			},
			{ name: 'diode1', limits: { figures: { i_max_ma: 1 }, source: 'codex' } },
			{ name: 'diode2', limits: { figures: { i_max_ma: 1 }, source: 'codex' } }
		],
		confidence: 'good'
	},
	{
		type: '6AV6',
		equivalents: ['EBC91'],
		equivalentSources: ['wiki_ddt', 'mem'],
		kind: 'double diode triode',
		roles: ['am_detector', 'avc', 'af_preamp'],
		base: 'B7G',
		pins: {
			'1': 'triode:g',
			'2': 'common:k',
			'3': 'heater:f',
			'4': 'heater:f',
			'5': 'diode2:a',
			'6': 'diode1:a',
			'7': 'triode:a'
		},
		htPins: [7],
		evidence: 'two_sources_sister',
		pinBasis:
			'the 6AT6/6AV6/12AV6 symbol and the 12AV6 table were read; 12AV6 differs in heater only (memory)',
		pinSources: ['kicad_vt', 'chassis13', 'mem'],
		heater: { volts: 6.3, amps: 0.3, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'triode',
				limits: { figures: { va_max_v: 300, pa_max_w: 0.5 }, source: 'mem' },
				points: [
					{
						label: 'static',
						figures: { va_v: 250, vg1_v: -2, ia_ma: 1.2, gm_ma_v: 1.6, mu: 100, ra_kohm: 62.5 },
						source: 'mem'
					},
					{
						label: 'static',
						figures: { va_v: 100, vg1_v: -1, ia_ma: 0.5, gm_ma_v: 1.25, mu: 100, ra_kohm: 80 },
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
		type: '6AQ5',
		equivalents: ['EL90', 'CV1862', '6005'],
		equivalentSources: ['mem'],
		kind: 'output beam tetrode',
		roles: ['output'],
		base: 'B7G',
		pins: {
			'1': 'pentode:g1',
			'2': 'pentode:k+bp',
			'3': 'heater:f',
			'4': 'heater:f',
			'5': 'pentode:a',
			'6': 'pentode:g2',
			'7': 'pentode:g1'
		},
		htPins: [5, 6],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 6.3, amps: 0.45, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: {
						va_max_v: 250,
						pa_max_w: 12,
						vg2_max_v: 250,
						pg2_max_w: 2,
						rg1_max_fixed_mohm: 0.1,
						rg1_max_auto_mohm: 0.5
					},
					source: 'mem'
				},
				points: [
					{
						label: 'class A',
						figures: {
							va_v: 250,
							vg2_v: 250,
							vg1_v: -12.5,
							ia_ma: 45,
							ig2_ma: 4.5,
							gm_ma_v: 4.1,
							ra_kohm: 52,
							load_ohm: 5000,
							power_w: 4.5
						},
						source: 'mem'
					},
					{
						label: 'class A',
						figures: {
							va_v: 180,
							vg2_v: 180,
							vg1_v: -8.5,
							ia_ma: 29,
							ig2_ma: 3,
							gm_ma_v: 3.7,
							ra_kohm: 58,
							load_ohm: 5500,
							power_w: 2
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: '35C5',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'output beam tetrode',
		roles: ['output'],
		base: 'B7G',
		pins: {
			'1': 'pentode:k+bp',
			'2': 'pentode:g1',
			'3': 'heater:f',
			'4': 'heater:f',
			'5': 'pentode:g1',
			'6': 'pentode:g2',
			'7': 'pentode:a'
		},
		htPins: [6, 7],
		evidence: 'one_source_sister',
		pinBasis: 'same basing as 50C5 (from memory); the 50C5 table was read',
		pinSources: ['chassis13', 'mem'],
		heater: { volts: 35, amps: 0.15, seriesChain: true, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: { figures: { va_max_v: 135, pa_max_w: 4.5, vg2_max_v: 117, pg2_max_w: 1 }, source: 'mem' },
				points: [
					{
						label: 'class A',
						figures: {
							va_v: 110,
							vg2_v: 110,
							vg1_v: -7.5,
							ia_ma: 40,
							ig2_ma: 3,
							gm_ma_v: 5.8,
							load_ohm: 2500,
							power_w: 1.5
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: '6X4',
		equivalents: ['EZ90', 'CV493'],
		equivalentSources: ['mem'],
		nearEquivalents: ['6Ts4P (near equivalent)'],
		kind: 'full-wave rectifier',
		roles: ['rectifier'],
		base: 'B7G',
		pins: {
			'1': 'rectifier:a2',
			'2': '-:nc',
			'3': 'heater:f',
			'4': 'heater:f',
			'5': '-:nc',
			'6': 'rectifier:a1',
			'7': 'rectifier:k'
		},
		htPins: [1, 6, 7],
		evidence: 'maker_sheet',
		pinSources: ['ge_6x4', 'svc_fmtuner', 'mem'],
		heater: { volts: 6.3, amps: 0.6, seriesChain: false, sources: ['ge_6x4'] },
		systems: [
			{
				name: 'rectifier',
				limits: {
					figures: {
						piv_max_v: 1250,
						ia_peak_per_anode_max_ma: 245,
						vhk_heater_neg_peak_max_v: 450,
						vhk_heater_pos_peak_max_v: 200,
						vhk_heater_pos_dc_max_v: 100,
						v_rms_per_anode_max_v: 325,
						dc_max_ma: 70
					},
					source: 'ge_6x4',
					fromMemory: ['v_rms_per_anode_max_v', 'dc_max_ma'],
					note: 'design-maximum ratings; the 325 V and 70 mA for capacitor input sit on a rating chart that was not read, so these two are from memory'
				},
				points: [
					{
						label: 'reading on a service schematic of an 8-valve FM tuner, capacitor input',
						figures: {
							v_rms_per_anode_v: 210,
							dc_ma: 40,
							dc_out_v: 240,
							c_uf: 40,
							winding_per_anode_ohm: 300
						},
						source: 'svc_fmtuner'
					}
				]
			}
		],
		confidence: 'good',
		notes:
			'Anode numbers 1 and 2 follow the maker sheet (plate 1 on pin 6, plate 2 on pin 1); the two are interchangeable in use.'
	}
];
