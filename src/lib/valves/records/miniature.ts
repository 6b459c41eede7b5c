import type { Valve } from '../types.ts';

/** Seven-pin valves of the American AC/DC set, heaters in series. */
export const miniature: readonly Valve[] = [
	{
		type: '12BE6',
		equivalents: ['HK90'],
		equivalentSources: ['mem'],
		kind: 'heptode (pentagrid converter)',
		roles: ['frequency_changer', 'am_mixer', 'am_oscillator'],
		base: 'B7G',
		pins: {
			1: 'heptode:g1',
			2: 'heptode:k+g5',
			3: 'heater:f',
			4: 'heater:f',
			5: 'heptode:a',
			6: 'heptode:g2g4',
			7: 'heptode:g3'
		},
		htPins: [5, 6],
		evidence: 'maker_sheet',
		pinSources: ['ge_6be6', 'chassis13', 'mem'],
		heater: { volts: 12.6, amps: 0.15, seriesChain: true, sources: ['ge_6be6'] },
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
						vhk_max_v: 100
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
		notes: 'Heater and heater-cathode ratings apart, the same as the 6BE6 (stated on the sheet).'
	},
	{
		type: '12BA6',
		equivalents: ['HF93'],
		equivalentSources: ['mem'],
		kind: 'RF pentode (variable mu)',
		roles: ['am_if_amp', 'fm_if_amp', 'rf_amp'],
		base: 'B7G',
		pins: {
			1: 'pentode:g1',
			2: 'pentode:g3+s',
			3: 'heater:f',
			4: 'heater:f',
			5: 'pentode:a',
			6: 'pentode:g2',
			7: 'pentode:k'
		},
		htPins: [5, 6],
		evidence: 'one_source_and_sister',
		pinSources: ['chassis13', 'svc_fmtuner', 'rw_6au6', 'mem'],
		heater: { volts: 12.6, amps: 0.15, seriesChain: true, sources: ['chassis13'] },
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
		confidence: 'good'
	},
	{
		type: '12AV6',
		equivalents: ['HBC91'],
		equivalentSources: ['mem'],
		kind: 'double diode triode',
		roles: ['am_detector', 'avc', 'af_preamp'],
		base: 'B7G',
		pins: {
			1: 'triode:g',
			2: 'common:k',
			3: 'heater:f',
			4: 'heater:f',
			5: 'diode2:a',
			6: 'diode1:a',
			7: 'triode:a'
		},
		htPins: [7],
		evidence: 'two_sources',
		pinSources: ['chassis13', 'kicad_vt', 'mem'],
		heater: { volts: 12.6, amps: 0.15, seriesChain: true, sources: ['chassis13'] },
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
		type: '50C5',
		equivalents: ['HL92'],
		equivalentSources: ['mem'],
		kind: 'output beam tetrode',
		roles: ['output'],
		base: 'B7G',
		pins: {
			1: 'pentode:k+bp',
			2: 'pentode:g1',
			3: 'heater:f',
			4: 'heater:f',
			5: 'pentode:g1',
			6: 'pentode:g2',
			7: 'pentode:a'
		},
		htPins: [6, 7],
		evidence: 'one_source',
		pinSources: ['chassis13', 'mem'],
		heater: { volts: 50, amps: 0.15, seriesChain: true, sources: ['chassis13'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: { va_max_v: 150, pa_max_w: 7, vg2_max_v: 130, pg2_max_w: 1.4 },
					source: 'chassis13'
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
							gm_ma_v: 7.5,
							load_ohm: 2500,
							power_w: 1.9
						},
						source: 'mem'
					}
				]
			}
		],
		confidence: 'good'
	},
	{
		type: '35W4',
		equivalents: ['HY90'],
		equivalentSources: ['mem'],
		kind: 'half-wave rectifier',
		roles: ['rectifier'],
		base: 'B7G',
		pins: { 3: 'heater:f', 4: 'heater:f', 5: 'rectifier:a', 6: 'heater:f-tap', 7: 'rectifier:k' },
		pinsPartial: true,
		htPins: [5, 7],
		evidence: 'memory',
		pinSources: ['mem'],
		heater: { volts: 35, amps: 0.15, seriesChain: true, sources: ['mem'] },
		systems: [
			{
				name: 'rectifier',
				limits: {
					figures: { v_rms_max_v: 117, dc_max_ma: 100 },
					source: 'mem',
					note: 'with a dial lamp on the heater tap and no shunt: 60 mA'
				},
				points: [
					{
						label: 'capacitor input',
						figures: { v_rms_v: 117, dc_ma: 100, r_limit_min_ohm: 15, c_uf: 40 },
						source: 'mem'
					}
				]
			}
		],
		confidence: 'medium',
		notes:
			'The dial lamp is across the heater between pins 4 and 6 (from memory); an open lamp changes the whole chain.'
	}
];
