import type { Valve } from '../types.ts';

/** Octal output valves, rectifiers and tuning indicators. */
export const octalPower: readonly Valve[] = [
	{
		type: 'EM34',
		equivalents: ['6CD7'],
		equivalentSources: ['mem'],
		kind: 'tuning indicator (dual sensitivity)',
		roles: ['tuning_indicator'],
		base: 'octal',
		pins: { '2': 'heater:f', '7': 'heater:f', '8': 'common:k' },
		pinsPartial: true,
		htPins: [],
		evidence: 'memory',
		pinSources: ['mem'],
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
		confidence: 'low',
		notes:
			'Two triode anodes, each with its own 1 M load; anode, grid and target pins are not given because they could not be checked.'
	},
	{
		type: 'EL33',
		equivalents: [],
		equivalentSources: ['mem'],
		nearEquivalents: ['EL3N (side contact base)'],
		kind: 'output pentode',
		roles: ['output'],
		base: 'octal',
		pins: {
			'2': 'heater:f',
			'3': 'pentode:a',
			'4': 'pentode:g2',
			'5': 'pentode:g1',
			'7': 'heater:f',
			'8': 'pentode:k+g3'
		},
		pinsPartial: true,
		htPins: [3, 4],
		evidence: 'memory',
		pinSources: ['mem'],
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
		type: '5Z4G',
		equivalents: ['CV1863'],
		equivalentSources: ['mem'],
		kind: 'full-wave rectifier',
		roles: ['rectifier'],
		base: 'octal',
		pins: { '2': 'heater:f', '4': 'rectifier:a1', '6': 'rectifier:a2', '8': 'rectifier:k+f' },
		pinsPartial: true,
		htPins: [4, 6, 8],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 5, amps: 2, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'rectifier',
				limits: { figures: { v_rms_per_anode_max_v: 350, dc_max_ma: 125 }, source: 'mem' }
			}
		],
		confidence: 'medium',
		notes: 'Cathode joined to the heater at pin 8, so the 5 V winding is at full HT.'
	},
	{
		type: 'UY1N',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'half-wave rectifier',
		roles: ['rectifier'],
		base: 'octal',
		pins: { '2': 'heater:f', '5': 'rectifier:a', '7': 'heater:f', '8': 'rectifier:k' },
		pinsPartial: true,
		htPins: [5, 8],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 50, amps: 0.1, seriesChain: true, sources: ['mem'] },
		systems: [
			{ name: 'rectifier', limits: { figures: { v_rms_max_v: 250, dc_max_ma: 140 }, source: 'mem' } }
		],
		confidence: 'low'
	},
	{
		type: '6V6GT',
		equivalents: ['CV511'],
		equivalentSources: ['mem'],
		nearEquivalents: ['6P6S (near equivalent)'],
		kind: 'output beam tetrode',
		roles: ['output'],
		base: 'octal',
		pins: {
			'1': '-:nc (shell on metal type)',
			'2': 'heater:f',
			'3': 'pentode:a',
			'4': 'pentode:g2',
			'5': 'pentode:g1',
			'6': '-:nc',
			'7': 'heater:f',
			'8': 'pentode:k+bp'
		},
		htPins: [3, 4],
		evidence: 'maker_sheet',
		pinSources: ['eh_6v6', 'kicad_vt', 'codex', 'tubeslib', 'mem'],
		heater: { volts: 6.3, amps: 0.45, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: {
						va_max_v: 315,
						pa_max_w: 12,
						vg2_max_v: 285,
						vg2_supply_max_v: 315,
						pg2_max_w: 2,
						rg1_max_fixed_mohm: 0.1,
						rg1_max_auto_mohm: 0.5
					},
					source: 'codex'
				},
				points: [
					{
						label: 'class A (RCA RC-19 as cited)',
						figures: { va_v: 250, vg2_v: 250, vg1_v: -12.5, ia_ma: 45, ig2_ma: 4.5, gm_ma_v: 4.1 },
						source: 'codex'
					},
					{
						label: 'class A load',
						figures: { va_v: 250, vg2_v: 250, load_ohm: 5000, power_w: 4.5 },
						source: 'mem'
					}
				]
			}
		],
		confidence: 'good',
		notes: 'The 6V6EH excerpt allows 33-59 mA anode current at the same point for present-day production.'
	},
	{
		type: '50L6GT',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'output beam tetrode',
		roles: ['output'],
		base: 'octal',
		pins: {
			'1': '-:nc',
			'2': 'heater:f',
			'3': 'pentode:a',
			'4': 'pentode:g2',
			'5': 'pentode:g1',
			'6': '-:nc',
			'7': 'heater:f',
			'8': 'pentode:k+bp'
		},
		htPins: [3, 4],
		evidence: 'two_sources',
		pinSources: ['lepton', 'vrkicad', 'mem'],
		heater: { volts: 50, amps: 0.15, seriesChain: true, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: {
						va_max_v: 200,
						pa_max_w: 10,
						vg2_max_v: 125,
						pg2_max_w: 1.25,
						rg1_max_fixed_mohm: 0.1,
						rg1_max_auto_mohm: 0.5
					},
					source: 'mem'
				},
				points: [
					{
						label: 'class A',
						figures: {
							va_v: 110,
							vg2_v: 110,
							vg1_v: -7.5,
							ia_ma: 49,
							ig2_ma: 4,
							load_ohm: 2000,
							power_w: 2.1
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'good'
	},
	{
		type: '35L6GT',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'output beam tetrode',
		roles: ['output'],
		base: 'octal',
		pins: {
			'1': '-:nc',
			'2': 'heater:f',
			'3': 'pentode:a',
			'4': 'pentode:g2',
			'5': 'pentode:g1',
			'6': '-:nc',
			'7': 'heater:f',
			'8': 'pentode:k+bp'
		},
		htPins: [3, 4],
		evidence: 'two_sources_sister',
		pinBasis: 'same basing as 50L6GT (from memory); two 50L6GT symbols were read',
		pinSources: ['lepton', 'vrkicad', 'mem'],
		heater: { volts: 35, amps: 0.15, seriesChain: true, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: {
						va_max_v: 200,
						pa_max_w: 8.5,
						vg2_max_v: 125,
						pg2_max_w: 1,
						rg1_max_fixed_mohm: 0.1,
						rg1_max_auto_mohm: 0.5
					},
					source: 'mem'
				},
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
		type: '35Z5GT',
		equivalents: [],
		equivalentSources: ['mem'],
		kind: 'half-wave rectifier',
		roles: ['rectifier'],
		base: 'octal',
		pins: { '2': 'heater:f', '3': 'heater:f-tap', '5': 'rectifier:a', '7': 'heater:f', '8': 'rectifier:k' },
		pinsPartial: true,
		htPins: [5, 8],
		evidence: 'two_sources',
		pinSources: ['vrkicad', 'lepton', 'mem'],
		heater: { volts: 35, amps: 0.15, seriesChain: true, tapSectionVolts: 7.5, sources: ['note_35z5'] },
		systems: [
			{
				name: 'rectifier',
				limits: {
					figures: { v_rms_max_v: 235, dc_max_ma: 100 },
					source: 'note_35z5',
					fromMemory: ['v_rms_max_v'],
					note: 'dc_max_ma is without a dial lamp; less with one: 60 mA with no shunt resistor'
				},
				points: [
					{
						label: 'capacitor input',
						figures: { v_rms_v: 117, dc_ma: 100, r_limit_min_ohm: 15 },
						source: 'mem'
					},
					{
						label: 'capacitor input',
						figures: { v_rms_v: 235, dc_ma: 100, r_limit_min_ohm: 100 },
						source: 'mem'
					}
				]
			}
		],
		confidence: 'good',
		notes:
			'Dial lamp across the heater section between pins 2 and 3; the anode is usually fed from the tap (common practice, no source). Magazine note of the launch: 7.5 V on that section without a lamp; with one, the lamp takes about 110 mA (two thirds of its rating) and the shunted section about 90 mA.'
	},
	{
		type: '6F6',
		equivalents: ['6F6S'],
		equivalentSources: ['mem'],
		kind: 'output pentode',
		roles: ['output'],
		base: 'octal',
		pins: {
			'1': 'screen:shell',
			'2': 'heater:f',
			'3': 'pentode:a',
			'4': 'pentode:g2',
			'5': 'pentode:g1',
			'7': 'heater:f',
			'8': 'pentode:k+g3'
		},
		pinsPartial: true,
		htPins: [3, 4],
		evidence: 'one_source',
		pinSources: ['tubeslib', 'mem'],
		heater: { volts: 6.3, amps: 0.7, seriesChain: false, sources: ['mem'] },
		systems: [
			{
				name: 'pentode',
				limits: { figures: { va_max_v: 375, pa_max_w: 11, vg2_max_v: 285, pg2_max_w: 3.75 }, source: 'mem' },
				points: [
					{
						label: 'class A',
						figures: {
							va_v: 250,
							vg2_v: 250,
							vg1_v: -16.5,
							rk_ohm: 410,
							ia_ma: 34,
							ig2_ma: 6.5,
							gm_ma_v: 2.5,
							ra_kohm: 80,
							load_ohm: 7000,
							power_w: 3.2
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium'
	},
	{
		type: '5Y3GT',
		equivalents: ['CV1856'],
		equivalentSources: ['mem'],
		kind: 'full-wave rectifier',
		roles: ['rectifier'],
		base: 'octal',
		pins: {
			'1': '-:nc',
			'2': 'rectifier:f',
			'3': '-:nc',
			'4': 'rectifier:a2',
			'5': '-:nc',
			'6': 'rectifier:a1',
			'7': '-:nc',
			'8': 'rectifier:f'
		},
		htPins: [2, 4, 6, 8],
		evidence: 'two_sources',
		pinSources: ['kicad_vt', 'codex', 'tubeslib', 'rs_lbr', 'mem'],
		heater: { volts: 5, amps: 2, seriesChain: false, directlyHeated: true, sources: ['mem'] },
		systems: [
			{
				name: 'rectifier',
				limits: {
					figures: { v_rms_per_anode_max_v: 350, dc_max_ma: 125, piv_max_v: 1400 },
					source: 'mem',
					note: 'capacitor input; at least 50 ohm effective supply resistance per anode at 350 V'
				},
				points: [
					{
						label: 'drop (RCA RC-19 as cited)',
						figures: { drop_v: 60, at_per_anode_ma: 125 },
						source: 'codex'
					}
				]
			}
		],
		confidence: 'good',
		notes:
			'Directly heated: the 5 V filament winding is at full HT; HT is taken from pin 8 (or the winding centre tap).'
	}
];
