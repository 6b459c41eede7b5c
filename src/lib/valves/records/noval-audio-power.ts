import type { Valve } from '../types.ts';

/** Noval valves of audio, output, supply and tuning indicator. */
export const novalAudioPower: readonly Valve[] = [
	{
		type: 'ECC83',
		equivalents: ['12AX7', '12AX7A', '7025', 'CV492', 'CV4004'],
		equivalentSources: ['mem'],
		kind: 'double triode',
		roles: ['af_preamp', 'phase_splitter'],
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
			9: 'heater:f-centre-tap'
		},
		htPins: [1, 6],
		evidence: 'two_sources',
		pinSources: ['kicad', 'kicad_vt', 'codex', 'tubeslib', 'rs_lbr', 'mem'],
		heater: {
			volts: 6.3,
			amps: 0.3,
			seriesChain: false,
			sources: ['mem'],
			alternative: {
				volts: 12.6,
				amps: 0.15,
				how: 'pins 4 and 5 in series; for 6.3 V they are joined against pin 9'
			}
		},
		systems: [
			{
				name: 'triode1',
				limits: {
					figures: { va_max_v: 300, pa_max_w: 1, vg_neg_max_v: 50, vhk_max_v: 180 },
					source: 'codex'
				},
				points: [
					{
						label: 'static (RCA RC-19, as cited)',
						figures: { va_v: 250, vg1_v: -2, ia_ma: 1.2, gm_ma_v: 1.6, mu: 100, ra_calc_kohm: 62.5 },
						source: 'codex'
					},
					{
						label: 'static (RCA RC-19, as cited)',
						figures: { va_v: 100, vg1_v: -1, ia_ma: 0.5, gm_ma_v: 1.25, mu: 100 },
						source: 'codex'
					}
				]
			},
			{
				name: 'triode2',
				limits: { figures: { va_max_v: 300, pa_max_w: 1, vg_neg_max_v: 50, vhk_max_v: 180 }, source: 'codex' }
			}
		],
		confidence: 'good'
	},
	{
		type: 'EL84',
		equivalents: ['6BQ5', 'CV2975', '6P14P'],
		equivalentSources: ['mem'],
		kind: 'output pentode',
		roles: ['output'],
		base: 'B9A',
		pins: {
			1: '-:ic',
			2: 'pentode:g1',
			3: 'pentode:k+g3',
			4: 'heater:f',
			5: 'heater:f',
			6: '-:ic',
			7: 'pentode:a',
			8: '-:ic',
			9: 'pentode:g2'
		},
		htPins: [7, 9],
		evidence: 'maker_sheet',
		pinSources: ['phil_el84', 'kicad', 'codex', 'tubeslib', 'mem'],
		heater: { volts: 6.3, amps: 0.76, seriesChain: false, sources: ['phil_el84'] },
		systems: [
			{
				name: 'pentode',
				limits: {
					figures: {
						va_max_v: 300,
						pa_max_w: 12,
						vg2_max_v: 300,
						pg2_max_w: 2,
						pg2_peak_max_w: 4,
						ik_max_ma: 65,
						rg1_max_fixed_mohm: 0.3,
						rg1_max_auto_mohm: 1,
						vhk_max_v: 100
					},
					source: 'phil_el84'
				},
				points: [
					{
						label: 'class A, one valve',
						figures: {
							va_v: 250,
							vg2_v: 250,
							vg1_v: -7.3,
							rk_ohm: 135,
							ia_ma: 48,
							ig2_ma: 5.5,
							gm_ma_v: 11.3,
							ra_kohm: 38,
							load_ohm: 5200,
							power_w: 5.7,
							distortion_pct: 10,
							drive_rms_v: 4.3
						},
						source: 'phil_el84'
					},
					{
						label: 'class A, one valve, lower load',
						figures: {
							va_v: 250,
							vg2_v: 250,
							vg1_v: -7.3,
							rk_ohm: 135,
							ia_ma: 48,
							ig2_ma: 5.5,
							gm_ma_v: 11.3,
							ra_kohm: 38,
							load_ohm: 4500,
							power_w: 5.7,
							distortion_pct: 10,
							drive_rms_v: 4.4
						},
						source: 'phil_el84'
					},
					{
						label: 'class AB, two valves',
						figures: {
							va_v: 250,
							vg2_v: 250,
							rk_ohm: 130,
							ia_ma: 31,
							ig2_ma: 3.5,
							load_ohm: 8000,
							power_w: 11,
							distortion_pct: 3
						},
						source: 'phil_el84',
						note: 'per valve at no signal; cathode resistor shared'
					}
				]
			}
		],
		confidence: 'high'
	},
	{
		type: 'EZ80',
		equivalents: ['6V4', 'CV1535'],
		equivalentSources: ['mem'],
		kind: 'full-wave rectifier',
		roles: ['rectifier'],
		base: 'B9A',
		pins: {
			1: 'rectifier:a2',
			2: '-:ic',
			3: 'rectifier:k',
			4: 'heater:f',
			5: 'heater:f',
			6: '-:ic',
			7: 'rectifier:a1',
			8: '-:ic',
			9: '-:ic'
		},
		htPins: [1, 3, 7],
		evidence: 'maker_sheet',
		pinSources: ['mazda_ez80', 'tubeslib', 'mem'],
		heater: { volts: 6.3, amps: 0.6, seriesChain: false, sources: ['mazda_ez80'] },
		systems: [
			{
				name: 'rectifier',
				limits: {
					figures: {
						v_rms_per_anode_max_v: 350,
						dc_max_ma: 90,
						piv_max_v: 980,
						i_peak_per_anode_max_ma: 270,
						vhk_peak_max_v: 500,
						c_reservoir_max_uf: 50
					},
					source: 'mazda_ez80',
					note: '90 mA is what every typical row uses; the rating chart allows slightly more at lower volts'
				},
				points: [
					{
						label: 'capacitor input',
						figures: {
							v_rms_per_anode_v: 250,
							dc_ma: 90,
							dc_out_v: 265,
							r_limit_min_per_anode_ohm: 125,
							c_uf: 50
						},
						source: 'mazda_ez80'
					},
					{
						label: 'capacitor input',
						figures: {
							v_rms_per_anode_v: 275,
							dc_ma: 90,
							dc_out_v: 285,
							r_limit_min_per_anode_ohm: 175,
							c_uf: 50
						},
						source: 'mazda_ez80'
					},
					{
						label: 'capacitor input',
						figures: {
							v_rms_per_anode_v: 350,
							dc_ma: 90,
							dc_out_v: 360,
							r_limit_min_per_anode_ohm: 300,
							c_uf: 50
						},
						source: 'mazda_ez80'
					}
				]
			}
		],
		confidence: 'high',
		notes: 'Where the heater shares the 6.3 V winding, the whole HT stands between heater and cathode.'
	},
	{
		type: 'EM84',
		equivalents: ['6FG6', 'EM85E', '6E3P', 'EM840'],
		equivalentSources: ['rm_em84'],
		kind: 'tuning indicator (bar, with triode)',
		roles: ['tuning_indicator'],
		base: 'B9A',
		pins: {
			1: 'triode:g',
			3: 'common:k',
			4: 'heater:f',
			5: 'heater:f',
			6: 'indicator:target',
			7: 'indicator:deflector',
			9: 'triode:a'
		},
		pinsPartial: true,
		htPins: [6, 7, 9],
		evidence: 'two_sources',
		pinSources: ['tubeslib', 'retro_em84', 'kicad', 'mem'],
		heater: { volts: 6.3, amps: 0.21, seriesChain: false, sources: ['rm_em84'] },
		systems: [
			{
				name: 'triode',
				points: [
					{
						label: 'control range',
						figures: { vb_v: 250, anode_load_kohm: 470, vg_bars_apart_v: 0, vg_bars_meet_v: -22 },
						source: 'rm_em84',
						note: 'bars 0 to 21 mm'
					}
				]
			},
			{ name: 'indicator', points: [{ label: 'target', figures: { target_v: 250 }, source: 'ax_eye' }] }
		],
		confidence: 'good',
		notes:
			'Cathode: settled on pin 3 by two sources; one symbol library shows 2. Pin 7 is usually joined to pin 9. One magazine gives 0 to -24 V for the full swing. Dim with the right voltages means a worn indicator (common practice, no source).'
	}
];
