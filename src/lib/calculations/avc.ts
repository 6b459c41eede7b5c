import { type AvcLoop, diodeVolts, lineVolts, rectified } from './avc-loop.ts';
import { defineCalculation, parallel } from './define.ts';
import { choice, number, numbers, optional } from './inputs.ts';
import { numbersBetween, type Picture } from './picture.ts';
import { commonPractice, FOSSEE, fromMemory, OWN_NUMBERS, published } from './sources.ts';

const stationVolts = published(
	'signal generator manual (Precision Apparatus E-200-C, p. 8): about 7 to 25 V on locals, 1 to 2 V with none'
);
const restVolts = commonPractice('no signal: nought to -2 V, from contact potential and bias');
const faults = commonPractice('AVC near nought, positive, or high with a weak sound');
const rectifier = fromMemory('a diode with 200 kohm or more gives 0.7 to 0.95 of the peak');
const ef41 = published('Philips EF41 data as given at tubeofile.com/api/tubes/EF41');
const control = fromMemory('faster at first, about 3 V for a halving, and for valves of shorter base');
const whoGetsIt = published('radioexperimenter.us, A.V.C.: which stages take the full volts');
const ofSets = published('military communications receiver manual as quoted on mailman.qth.net, August 2016');

const TAP = ['tap: R1 in series, shunts across R2', 'no tap: shunts across R1 and R2'] as const;

/** Usual volts on the line, and the bias that stands there without a signal; lists are in the unit of their key. */
const STATIONS = {
	'strong local': { range: [-25, -7], rest: [-2, -1] },
	none: { range: [-2, 0], rest: [-2, -1] }
} as const;

/** EF41 with a sliding screen: to a hundredth between -2.5 and -39 V. */
const USUAL_HALVING = 5.5;
const USUAL_EFFICIENCY = 0.85;
const STRONG = STATIONS['strong local'].range;

function diodeLoad(r1: number, r2: number, shunts: readonly number[], tap: (typeof TAP)[number]) {
	const dc = r1 + r2;
	const across = (one: number): number => shunts.reduce((sum, shunt) => parallel(sum, shunt), one);
	const ac = tap === TAP[0] ? r1 + across(r2) : across(dc);
	return { dc, ac, deepest: ac / dc };
}

/** A leak from the line to chassis divides what comes through the filter resistor. */
const afterLeak = (volts: number, filter: number | undefined, leak: number | undefined): number =>
	filter === undefined || leak === undefined ? volts : (volts * leak) / (filter + leak);

function controlOf(grids: readonly number[], slopeRatio: number) {
	const [first = 0, last = 0] = grids;
	return {
		controlDb: Math.abs(20 * Math.log10(slopeRatio)),
		perHalving: Math.abs((last - first) / Math.log2(slopeRatio))
	};
}

interface LoopGiven {
	gain: number | undefined;
	stages: number | undefined;
	halving: number | undefined;
	efficiency: number | undefined;
	delay: number | undefined;
}

function loopOf(given: LoopGiven): AvcLoop | undefined {
	if (!given.gain) return undefined;
	return {
		gain: given.gain,
		stages: given.stages ?? 2,
		perHalving: given.halving ?? USUAL_HALVING,
		efficiency: given.efficiency ?? USUAL_EFFICIENCY,
		delay: given.delay ?? 0
	};
}

/** AVC, IF at the diode, and by how much that rises when the signal rises ten times. */
function held(loop: AvcLoop, signal: number) {
	const [now, tenfold] = [signal, 10 * signal].map((one) => diodeVolts(loop, one, lineVolts(loop, one)));
	return {
		volts: -lineVolts(loop, signal),
		atDiode: now,
		rise: now && tenfold ? 20 * Math.log10(tenfold / now) : undefined
	};
}

/** What the reading on the line is judged by: the drive, which is the volts with their sign turned. */
function readingOf(station: keyof typeof STATIONS | undefined, read: number | undefined, sound?: string) {
	if (read === undefined || station === undefined) return {};
	const drive = -read;
	if (station === 'none') return { atRest: drive };
	return { onStrong: drive, weakSound: sound === 'weak' && drive >= 7 ? drive : undefined };
}

/**
 * AVC volts for a signal, how well they hold it, and the load of the detector diode.
 *
 *     V_avc = -(sqrt2 * V_if_rms * eta - V_delay)         V, nought while that is above nought
 *     slope falls by half for each V_per_halving, in every controlled stage
 *     m_max = Z_ac / R_dc                                 deepest modulation that the diode follows
 *
 * The loop takes every stage as equal, and the law of the valve as one straight line in decibels.
 */
export const avc = defineCalculation({
	id: 'avc',
	title: 'Automatic volume control',
	question: 'How many volts should stand on the AVC line, and do they hold the signal?',
	group: 'Tuning and alignment',
	words: [
		'AGC',
		'AVC line',
		'AGC voltage',
		'AVC volts',
		'magic eye',
		'fading',
		'overload',
		'delay',
		'diode load',
		'detector',
		'tuning indicator',
		'strong stations distort',
		'controlled volts'
	],
	inputs: {
		station: optional(choice('station', 'station tuned in', ['strong local', 'none'])),
		read: optional(number('V_avc_read', 'volts on the AVC line, as read', -100, 50)),
		sound: optional(choice('sound', 'sound of that station', ['right', 'loud and distorted', 'weak'])),
		atDiode: optional(number('V_if_rms', 'IF at the diode, RMS', 0, 100)),
		efficiency: optional(number('efficiency', 'efficiency of the diode', 0.1, 1)),
		delay: optional(number('V_delay', 'delay', 0, 50)),
		filter: optional(number('R_filter_ohm', 'filter resistor of the line', 1e3, 20e6)),
		leak: optional(number('R_leak_ohm', 'leak of the line to chassis', 1e3, 1e12)),
		signal: optional({
			...number('V_signal_uV', 'signal at the grid of the first controlled stage', 1e-7, 1),
			alsoKeys: ['V_signal_mV']
		}),
		gain: optional(number('gain', 'gain from there to the diode, AVC at rest', 1, 1e7)),
		stages: optional(number('stages', 'controlled stages', 1, 4)),
		halving: optional(number('V_per_halving', 'volts that halve the slope of a stage', 0.5, 20)),
		r1: optional(number('R1_ohm', 'diode load, part in series with the tap', 0, 5e6)),
		r2: optional(number('R2_ohm', 'diode load, part across the tap', 1e3, 5e6)),
		shunts: optional(numbers('R_shunts_ohm', 'what hangs on it for audio and AVC', 1e3, 50e6, { most: 6 })),
		note: optional(choice('note', 'where that hangs', TAP)),
		grid: optional(number('V_if_grid_uV', 'signal at the IF grid', 1e-7, 1)),
		load: optional(number('V_diode_load', 'DC at the diode load then', -100, 0)),
		grids: optional(numbers('V_g1', 'two grid volts of a controlled valve', -100, 0, { least: 2, most: 2 })),
		slopeRatio: optional(number('gm_ratio', 'slope at the second, of that at the first', 1e-4, 0.99)),
		valve: optional(choice('valve', 'valve', ['EF41', 'other'])),
		anode: optional(number('I_a_mA', 'anode current', 0, 0.1)),
		screen: optional(number('I_g2_mA', 'screen current', 0, 0.05)),
		screenResistor: optional(number('R_g2_ohm', 'screen resistor', 100, 5e6)),
		supply: optional(number('V_supply', 'HT at the screen resistor', 0, 500))
	},
	ways: [
		{ title: 'a reading on the line', needs: ['station', 'read'], also: ['sound'] },
		{ title: 'the kind of station', needs: ['station'] },
		{ title: 'IF volts at the diode', needs: ['atDiode'], also: ['efficiency', 'delay', 'filter', 'leak'] },
		{
			title: 'the signal and the gain',
			needs: ['signal', 'gain'],
			also: ['efficiency', 'delay', 'stages', 'halving', 'filter', 'leak']
		},
		{ title: 'the load of the diode', needs: ['r1', 'r2', 'shunts'], also: ['note'] },
		{ title: 'the IF grid and the diode load', needs: ['grid', 'load'] },
		{
			title: 'two points of a controlled valve',
			needs: ['grids', 'slopeRatio'],
			also: ['valve', 'anode', 'screen', 'screenResistor', 'supply']
		}
	],
	outputs: {
		volts: { key: 'V_avc', label: 'On the AVC line' },
		range: { key: 'V_avc_range', label: 'Usual on the AVC line, from and to' },
		rest: { key: 'V_bias_no_signal', label: 'Without a signal, from and to' },
		atDiode: { key: 'V_at_diode_rms', label: 'IF at the diode' },
		rise: { key: 'rise_dB', label: 'The output rises, when the signal rises ten times, by' },
		onStrong: { key: 'drive_strong_V', label: 'Control on the strong station' },
		weakSound: { key: 'drive_weak_sound_V', label: 'Control behind the weak sound' },
		atRest: { key: 'drive_rest_V', label: 'Control without a station' },
		dc: { key: 'R_dc_ohm', label: 'Diode load for DC', digits: 4 },
		ac: { key: 'Z_ac_ohm', label: 'Diode load for audio', digits: 4 },
		deepest: { key: 'm_max', label: 'Deepest modulation it follows' },
		atDiodeLeast: { key: 'V_if_at_diode_rms_min', label: 'IF at the diode, at least' },
		gainLeast: { key: 'gain_min', label: 'Gain from the IF grid, at least' },
		controlDb: { key: 'control_dB', label: 'Control of one stage' },
		perHalving: { key: 'V_per_halving', label: 'Volts for half the slope' },
		screenVolts: { key: 'V_g2', label: 'Screen volts' },
		screenShare: { key: 'screen_share_pct', label: 'Screen current, of the cathode current' }
	},
	formulaText: [
		'V_avc = −(√2 × V_if_rms × efficiency − V_delay), never above nought',
		'after a leak: V_avc × R_leak / (R_filter + R_leak)',
		'slope = full slope × 2^(−V / V_per_halving), in every controlled stage',
		'm_max = Z_ac / R_dc',
		'V_per_halving = |V_g1 second − first| / log2(1 / gm_ratio)'
	],
	refuse({ leak, filter, stages, grids, load, sound, station }) {
		if ((leak === undefined) !== (filter === undefined)) {
			const key = leak === undefined ? 'R_leak_ohm' : 'R_filter_ohm';
			return { key, message: `${key} is missing. Give R_filter_ohm and R_leak_ohm together.` };
		}
		if (stages !== undefined && !Number.isInteger(stages))
			return { key: 'stages', message: 'stages is not a whole number. Count the controlled stages.' };
		if (grids && grids[0] === grids[1])
			return { key: 'V_g1', message: 'V_g1 holds the same volts twice. Give two points of the valve.' };
		if (load === 0)
			return {
				key: 'V_diode_load',
				message: 'V_diode_load is nought: nothing is rectified. Tune to the signal.'
			};
		if (sound !== undefined && station === 'none')
			return { key: 'sound', message: 'There is no station to judge the sound by. Leave out sound.' };
		return undefined;
	},
	formula(given) {
		const { station, signal, r1, r2, shunts, grid, load, grids, slopeRatio } = given;
		if (station) return { ...STATIONS[station], ...readingOf(station, given.read, given.sound) };
		if (given.atDiode !== undefined) {
			const { efficiency = USUAL_EFFICIENCY, delay = 0 } = given;
			const line = rectified(given.atDiode, { efficiency, delay });
			return { volts: -afterLeak(line, given.filter, given.leak) };
		}
		const loop = loopOf(given);
		if (signal && loop) {
			const { volts, ...rest } = held(loop, signal);
			return { volts: afterLeak(volts, given.filter, given.leak), ...rest };
		}
		if (r1 !== undefined && r2 && shunts) return diodeLoad(r1, r2, shunts, given.note ?? TAP[0]);
		if (grid && load) {
			const atDiodeLeast = -load / Math.SQRT2;
			return { atDiodeLeast, gainLeast: atDiodeLeast / grid };
		}
		if (!grids || !slopeRatio) return {};
		const { anode, screen, screenResistor, supply } = given;
		return {
			...controlOf(grids, slopeRatio),
			screenVolts: screen && screenResistor && supply ? supply - screen * screenResistor : undefined,
			screenShare: anode && screen ? (100 * screen) / (anode + screen) : undefined
		};
	},
	summary: [
		'The AVC line has {volts}.',
		'The diode gets {atDiode}. Ten times the signal raises that by {rise}.',
		'For DC the diode load is {dc}, for audio {ac}: it follows a modulation up to {deepest}.',
		'The diode gets {atDiodeLeast} or more, so the gain from the IF grid is at least {gainLeast}.',
		'One stage is controlled by {controlDb}, at {perHalving} for each halving.',
		'The screen stands at {screenVolts}.'
	],
	judge: [
		{
			by: 'onStrong',
			bands: [
				{
					below: -0.1,
					verdict: 'positive',
					says: 'The line is positive on a station: something feeds it.',
					source: faults
				},
				{
					below: 1,
					verdict: 'no-avc',
					says: 'There is hardly any AVC on a strong station.',
					source: faults
				},
				{
					below: 7,
					verdict: 'watch',
					says: 'The AVC is less than most sets have on a strong local.',
					source: stationVolts
				},
				{ upTo: 25, verdict: 'ok', says: 'The AVC is as most sets have it.', source: stationVolts },
				{
					verdict: 'watch',
					says: 'The AVC is more than most sets have, even on a strong local.',
					source: stationVolts
				}
			]
		},
		{
			by: 'atRest',
			bands: [
				{
					below: -0.1,
					verdict: 'positive',
					says: 'The line is positive without a station: something feeds it.',
					source: faults
				},
				{ upTo: 2, verdict: 'ok', says: 'The line is at rest without a station.', source: restVolts },
				{
					verdict: 'watch',
					says: 'The line is driven without a station: strong noise, or a stage oscillates.',
					source: restVolts
				}
			]
		},
		{
			by: 'weakSound',
			bands: [
				{
					verdict: 'audio-side',
					says: 'The AVC is well driven, so the signal reaches the detector: the weak sound is made behind it.',
					source: faults
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: [] },
		{ verdict: 'watch', next: ['the same reading on other stations', 'the aerial'] },
		{
			verdict: 'audio-side',
			title: 'Look behind the detector',
			next: ['the audio stages: inject at the volume control', 'the volume control']
		},
		{
			verdict: 'no-avc',
			title: 'Hardly any AVC',
			next: [
				'loud and distorted: the AVC capacitor, for leakage',
				'the filter resistor of the line, for open',
				'the diode load, for a short',
				'weak as well: the signal before the detector'
			]
		},
		{
			verdict: 'positive',
			title: 'The line is positive',
			next: ['the coupling capacitor to the AVC diode, for leakage', 'grid emission of a controlled valve']
		}
	],
	pictures(given) {
		const loop = loopOf(given);
		if (!loop || !given.signal) return [];
		const signals = numbersBetween(given.signal / 1e3, given.signal * 1e2, 81, 'log');
		const line = (of: AvcLoop) => signals.map((one) => [one, lineVolts(of, one)] as const);
		const diode = signals.map((one) => [one, diodeVolts(loop, one, lineVolts(loop, one))] as const);
		const x = { label: 'Signal', unit: 'uV', scale: 'log' } as const;
		const undelayed = line({ ...loop, delay: 0 });
		const volts: Picture = {
			title: 'AVC against signal',
			x,
			y: { label: 'AVC, negative', unit: 'V', scale: 'linear' },
			curves: [
				{ label: 'AVC', style: 'solid', points: line(loop) },
				...(loop.delay > 0 ? [{ label: 'without delay', style: 'dashed' as const, points: undelayed }] : [])
			],
			marks: [{ label: 'now', x: given.signal, y: lineVolts(loop, given.signal) }],
			bands: [{ axis: 'y', from: -STRONG[1], to: -STRONG[0], label: 'strong local, many sets' }]
		};
		const held: Picture = {
			title: 'IF at the diode against signal',
			x,
			y: { label: 'IF at the diode', unit: 'V', scale: 'log' },
			curves: [
				{ label: 'with AVC', style: 'solid', points: diode },
				{ label: 'without', style: 'dashed', points: signals.map((one) => [one, diodeVolts(loop, one, 0)]) }
			]
		};
		return [volts, held];
	},
	cautions: [],
	pitfalls: [
		'Measure with 10 MΩ or more and a resistor at the tip, or the line collapses.',
		'With one IF stage the IF valve, mixer and RF valve take the full volts; a self-oscillating mixer usually none.',
		'On short waves the mixer is often taken off the line.',
		'The magic eye closes as the line goes negative.',
		'How fast it acts: see the time constant.'
	],
	sources: [stationVolts, restVolts, faults, rectifier, ef41, control, whoGetsIt, ofSets],
	checks: [
		{
			id: 'avc/1',
			given: { R1_ohm: 100e3, R2_ohm: 200e3, R_shunts_ohm: [510e3, 1e6], note: TAP[0] },
			gives: { R_dc_ohm: 300e3, Z_ac_ohm: 225600, m_max: 0.752 },
			withinPct: 0.2,
			basis: 'published',
			source: published(
				'Communication textbook worked example 8.8, p. 8-29, numbers as transcribed in FOSSEE Scilab Textbook Companion, book 1409 (book title not seen)'
			)
		},
		{
			id: 'avc/2',
			given: { V_if_rms: 7, efficiency: 1 },
			gives: { V_avc: -9.9 },
			withinPct: 0.5,
			basis: 'arithmetic (peak rectification)',
			source: OWN_NUMBERS
		},
		{
			id: 'avc/3',
			given: { station: 'strong local' },
			gives: { V_avc_range: [-25, -7], V_bias_no_signal: [-2, -1] },
			withinPct: 0,
			basis: 'published',
			source: stationVolts
		},
		{
			id: 'avc/4',
			given: { R1_ohm: 110e3, R2_ohm: 220e3, R_shunts_ohm: [470e3, 1e6], note: TAP[0] },
			gives: { R_dc_ohm: 330e3, Z_ac_ohm: 240300, m_max: 0.728 },
			withinPct: 0.3,
			basis: 'published (0.73)',
			source: published(`Kennedy, Electronic Communication Systems, ex. 7.3, p. 164; ${FOSSEE}`)
		},
		{
			id: 'avc/5',
			given: { V_if_grid_uV: 150, V_diode_load: -7 },
			gives: { V_if_at_diode_rms_min: 4.95, gain_min: 33000 },
			withinPct: 1,
			basis: 'published pair (150 uV at the IF grid, -7 V at the diode load), arithmetic gain',
			source: ofSets
		},
		{
			id: 'avc/6',
			given: {
				valve: 'EF41',
				V_g1: [-2.5, -39],
				gm_ratio: 0.01,
				I_a_mA: 6,
				I_g2_mA: 1.7,
				R_g2_ohm: 90e3,
				V_supply: 250
			},
			gives: { control_dB: 40, V_per_halving: 5.49, V_g2: 97, screen_share_pct: 22.1 },
			withinPct: 0.5,
			basis: 'published data, arithmetic results; data give "about 100 V" on the screen',
			source: ef41
		},
		{
			id: 'avc/a leaky AVC capacitor',
			given: { V_if_rms: 10, efficiency: 1, V_delay: 0, R_filter_ohm: 1e6, R_leak_ohm: 100e3 },
			gives: { V_avc: -1.2856 },
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'avc/delay not yet reached',
			given: { V_if_rms: 2, efficiency: 1, V_delay: 3 },
			gives: { V_avc: 0 },
			withinPct: 0,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'avc/the loop at rest on 1 mV',
			given: { V_signal_uV: 1000, gain: 33000, stages: 2, V_per_halving: 5.5, efficiency: 1 },
			gives: { V_avc: -7.339, V_at_diode_rms: 5.19, rise_dB: 5.57 },
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'avc/-12 V on a strong local',
			given: { station: 'strong local', V_avc_read: -12, sound: 'right' },
			gives: { drive_strong_V: 12 },
			verdict: 'ok',
			withinPct: 0,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'avc/-4 V on a strong local',
			given: { station: 'strong local', V_avc_read: -4 },
			gives: { drive_strong_V: 4 },
			verdict: 'watch',
			withinPct: 0,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'avc/-0.2 V on a strong local that distorts',
			given: { station: 'strong local', V_avc_read: -0.2, sound: 'loud and distorted' },
			gives: { drive_strong_V: 0.2 },
			verdict: 'no-avc',
			withinPct: 0,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'avc/-15 V and a weak sound',
			given: { station: 'strong local', V_avc_read: -15, sound: 'weak' },
			gives: { drive_weak_sound_V: 15 },
			verdict: 'audio-side',
			withinPct: 0,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'avc/positive without a station',
			given: { station: 'none', V_avc_read: 0.8 },
			gives: { drive_rest_V: -0.8 },
			verdict: 'positive',
			withinPct: 0,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
