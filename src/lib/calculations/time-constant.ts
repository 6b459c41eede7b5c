import { defineCalculation } from './define.ts';
import { choice, number, optional } from './inputs.ts';
import { commonPractice, FOSSEE, fromMemory, OWN_NUMBERS, published } from './sources.ts';

const chargeLaw = published(
	'charge to 63.2 % after one time constant, nearly all after five: US Navy NEETS Module 7 (NAVEDTRA 14179) p. 4-14; corner 1 / (2π × R × C): common-cathode stage in a user guide at manualshelf.com'
);
const bypassLaw = published(
	'the shelf of a cathode bypass: zero by R_k and C_k, pole by C_k with R_k and 1 / g_m side by side (ken-gilbert.com, cathode bypass caps)'
);
const triodeBypass = fromMemory(
	'the same for a triode, with (r_a + R_L) / (mu + 1) in the place of 1 / g_m; the full expression stands on p. 484 of the Radiotron Designer’s Handbook, 4th ed.: the page number was read, the formula was not'
);
const couplingBands = commonPractice('coupling corner 10 to 80 Hz in table sets; limits at 5 and 150 Hz');
const bypassBand = commonPractice('cathode bypass corner under 100 Hz');
const avcTime = published('AVC time constant 0.1 to 0.2 s for AM: ham-radio.com, k6sti, AVC');
const avcWider = fromMemory('AVC time constant 0.05 to 0.25 s is still met');
const filterTime = fromMemory('detector filter 50 to 150 µs');
const deEmphasis = published('de-emphasis 50 and 75 µs: memim.com, emphasis; lists.bostonradio.org');
const deEmphasisBands = commonPractice('de-emphasis within 10 % of its nominal value, parts being nominal');
const grob = (example: string) => published(`Grob, Basic Electronics, ex. ${example}; ${FOSSEE}`);

/** After this many time constants a capacitor counts as charged. */
const FULL_AFTER = 5;
const DE_EMPHASIS = [50e-6, 75e-6] as const;
const USES = ['coupling to a grid', 'AVC line', 'detector filter', 'de-emphasis'] as const;
type Use = (typeof USES)[number];

const cornerOf = (tau: number): number => 1 / (2 * Math.PI * tau);
const degrees = (angle: number): number => (180 * angle) / Math.PI;
const decibels = (ratio: number): number => 20 * Math.log10(ratio);

/** What passes at `frequency`, of the whole, and the phase against what goes in. */
function passed(tau: number, frequency: number, kind: 'high-pass' | 'low-pass') {
	const w = 2 * Math.PI * frequency * tau;
	const low = 1 / Math.hypot(1, w);
	return kind === 'high-pass'
		? { ratio: w * low, phase: degrees(Math.atan2(1, w)) }
		: { ratio: low, phase: -degrees(Math.atan(w)) };
}

function charge(tau: number, volts: number | undefined, time: number | undefined) {
	const share = time === undefined ? undefined : 1 - Math.exp(-time / tau);
	return {
		fullAfter: FULL_AFTER * tau,
		afterTau: volts && volts * (1 - Math.exp(-1)),
		afterTime: volts && share && volts * share,
		leftAfterTime: volts && share && volts * (1 - share)
	};
}

/** The figure that is judged for the use of the pair. */
function forUse(tau: number, use: Use | undefined) {
	const nominal = DE_EMPHASIS.map((one) => 100 * Math.abs(tau / one - 1));
	return {
		couplingCorner: use === 'coupling to a grid' ? cornerOf(tau) : undefined,
		avcTime: use === 'AVC line' ? tau : undefined,
		filterTime: use === 'detector filter' ? tau : undefined,
		deEmphasisOff: use === 'de-emphasis' ? Math.min(...nominal) : undefined
	};
}

interface Bypass {
	resistor: number;
	capacitor: number;
	/** Resistance seen looking into the cathode, ohm. */
	cathode: number;
}

/** The shelf of a cathode bypass: gain rises between zero and pole by their ratio. */
function bypass({ resistor, capacitor, cathode }: Bypass) {
	const zero = cornerOf(resistor * capacitor);
	const pole = zero * (1 + resistor / cathode);
	const below = pole ** 2 - 2 * zero ** 2;
	return {
		zero,
		pole,
		bypassCorner: below > 0 ? Math.sqrt(below) : undefined,
		lost: decibels(pole / zero)
	};
}

/**
 * Corner and delay of a resistor with a capacitor, and the shelf of a cathode bypass.
 *
 *     tau = R * C                        s, from ohm and F
 *     f = 1 / (2 pi R C)                 Hz, 3 dB down
 *     zero = 1 / (2 pi R_k C_k),  pole = zero * (1 + R_k / r)      r: 1 / g_m, triode (r_a + R_L) / (mu + 1)
 *
 * R is all that the capacitor sees: the grid leak plus what drives it.
 */
export const timeConstant = defineCalculation({
	id: 'time-constant',
	title: 'Time constant and corner',
	question: 'Where do this resistor and capacitor cut off, and how long do they take?',
	group: 'Signal and audio',
	words: [
		'coupling',
		'bass',
		'thin',
		'motor-boating',
		'de-emphasis',
		'bypass',
		'RC',
		'AVC',
		'cut-off',
		'bass missing',
		'treble missing',
		'tone',
		'dull',
		'motorboating',
		'corner frequency',
		'how long'
	],
	inputs: {
		resistor: optional(number('R_ohm', 'resistor', 1, 100e6)),
		source: optional(number('R_source_ohm', 'resistance of what drives it', 0, 10e6)),
		capacitor: optional({ ...number('C_uF', 'capacitor', 1e-13, 0.1), alsoKeys: ['C_nF', 'C_pF'] }),
		tau: optional({ ...number('tau_us', 'time constant', 1e-9, 1000), alsoKeys: ['tau_ms', 'tau_s'] }),
		multiple: optional(number('t_over_tau', 'time, in time constants', 0, 50)),
		use: optional(choice('use', 'what it does', USES)),
		kind: optional(choice('kind', 'which way round', ['high-pass', 'low-pass'])),
		frequency: optional(number('f_Hz', 'frequency of the signal', 0.01, 100e6)),
		volts: optional(number('V', 'volts that it charges to, or from', 0, 5000)),
		time: optional(number('t_s', 'time after switching', 0, 1e5)),
		cathodeResistor: optional(number('R_k_ohm', 'cathode resistor', 10, 100e3)),
		cathodeCapacitor: optional(number('C_k_uF', 'cathode bypass capacitor', 1e-9, 10e-3)),
		slope: optional(number('gm_mA_V', 'slope of the pentode', 0.1e-3, 50e-3)),
		mu: optional(number('mu', 'amplification factor of the triode', 1, 200)),
		internal: optional(number('r_a_ohm', 'internal resistance of the triode', 100, 500e3)),
		load: optional(number('R_L_ohm', 'anode load of the triode', 100, 1e6))
	},
	ways: [
		{
			title: 'a resistor and a capacitor',
			needs: ['resistor', 'capacitor'],
			also: ['source', 'use', 'kind', 'frequency', 'volts', 'time']
		},
		{ title: 'a time constant', needs: ['tau'], also: ['use', 'kind', 'frequency', 'volts', 'time'] },
		{ title: 'a time in time constants', needs: ['multiple'] },
		{ title: 'the cathode bypass of a pentode', needs: ['cathodeResistor', 'cathodeCapacitor', 'slope'] },
		{
			title: 'the cathode bypass of a triode',
			needs: ['cathodeResistor', 'cathodeCapacitor', 'mu', 'internal', 'load']
		}
	],
	outputs: {
		corner: { key: 'f_Hz', label: 'Corner, 3 dB down' },
		tau: { key: 'tau_s', label: 'Time constant' },
		ratio: { key: 'ratio', label: 'Of the signal there passes' },
		phase: { key: 'phase_deg', label: 'Phase there' },
		cornerPhase: { key: 'phase_deg_at_corner', label: 'Phase at the corner' },
		charged: { key: 'charged_pct', label: 'Charged' },
		left: { key: 'left_pct', label: 'Left when discharging' },
		fullAfterTau: { key: 'full_after_tau', label: 'Full after, in time constants' },
		fullAfter: { key: 'full_after_s', label: 'Nearly full, or empty, after' },
		afterTau: { key: 'V_after_tau', label: 'Volts after one time constant, charging', digits: 4 },
		afterTime: { key: 'V_charged', label: 'Volts then, charging', digits: 4 },
		leftAfterTime: { key: 'V_left', label: 'Volts then, discharging' },
		zero: { key: 'f_zero_Hz', label: 'Below this the bypass does nothing' },
		pole: { key: 'f_pole_Hz', label: 'Above this the gain is whole' },
		bypassCorner: { key: 'f_bypass_Hz', label: 'Gain 3 dB down at' },
		lost: { key: 'lost_dB', label: 'Gain lost without the bypass' },
		couplingCorner: { key: 'coupling_Hz', label: 'Corner as a coupling' },
		avcTime: { key: 'avc_s', label: 'Time constant of the AVC' },
		filterTime: { key: 'filter_us', label: 'Time constant of the filter' },
		deEmphasisOff: { key: 'off_pct', label: 'Off the nearer of 50 and 75 µs' }
	},
	formulaText: [
		'tau = R × C, R with what drives it',
		'f = 1 / (2π × R × C)',
		'w = 2π × f × R × C',
		'high-pass: w / √(1 + w²), phase atan(1 / w)',
		'low-pass: 1 / √(1 + w²), phase −atan(w)',
		'charged after t: 1 − e^(−t / tau)',
		'bypass: zero 1 / (2π × R_k × C_k), pole zero × (1 + R_k × g_m); triode: 1 / g_m is (r_a + R_L) / (mu + 1)'
	],
	refuse({ frequency, kind }) {
		if ((frequency === undefined) === (kind === undefined)) return undefined;
		if (frequency === undefined) return undefined;
		return { key: 'kind', message: 'kind is missing beside f_Hz. Say whether it is high-pass or low-pass.' };
	},
	formula(given) {
		const { multiple, cathodeResistor: resistor, cathodeCapacitor: capacitor } = given;
		if (multiple !== undefined) {
			const left = 100 * Math.exp(-multiple);
			return { charged: 100 - left, left, fullAfterTau: FULL_AFTER };
		}
		if (resistor && capacitor) {
			const triode = given.mu && given.internal && given.load;
			const cathode = given.slope
				? 1 / given.slope
				: triode && ((given.internal ?? 0) + (given.load ?? 0)) / ((given.mu ?? 0) + 1);
			return cathode ? bypass({ resistor, capacitor, cathode }) : {};
		}
		const pair = given.resistor && given.capacitor;
		const tau = given.tau ?? (pair && (given.resistor + (given.source ?? 0)) * given.capacitor);
		if (!tau) return {};
		const { kind, frequency } = given;
		return {
			corner: cornerOf(tau),
			tau,
			...(kind && { cornerPhase: kind === 'high-pass' ? 45 : -45 }),
			...(kind && frequency && passed(tau, frequency, kind)),
			...charge(tau, given.volts, given.time),
			...forUse(tau, given.use)
		};
	},
	summary: [
		'The corner is at {corner}, the time constant {tau}.',
		'Of the signal there passes {ratio}, at a phase of {phase}.',
		'After that time it is charged to {charged}; discharging, {left} would be left.',
		'After that time it stands at {afterTime} when charging, at {leftAfterTime} when discharging.',
		'Without the bypass the stage loses {lost}.',
		'With it the gain is 3 dB down at {bypassCorner}.'
	],
	judge: [
		{
			by: 'couplingCorner',
			bands: [
				{
					below: 5,
					verdict: 'motor-boating',
					says: 'The coupling reaches down to {couplingCorner}: the set may motor-boat.',
					source: couplingBands
				},
				{
					below: 10,
					verdict: 'watch',
					says: 'The coupling reaches lower than in most sets.',
					source: couplingBands
				},
				{
					upTo: 80,
					verdict: 'ok',
					says: 'The coupling passes what a table set does.',
					source: couplingBands
				},
				{
					upTo: 150,
					verdict: 'watch',
					says: 'The coupling takes some bass: it cuts at {couplingCorner}.',
					source: couplingBands
				},
				{
					verdict: 'thin',
					says: 'The coupling cuts at {couplingCorner}: thin sound, as from lost capacitance.',
					source: couplingBands
				}
			]
		},
		{
			by: 'bypassCorner',
			bands: [
				{ below: 100, verdict: 'ok', says: 'The cathode bypass is large enough.', source: bypassBand },
				{
					verdict: 'thin',
					says: 'The cathode bypass is small: gain falls below {bypassCorner}.',
					source: bypassBand
				}
			]
		},
		{
			by: 'avcTime',
			bands: [
				{
					below: 0.05,
					verdict: 'fast',
					says: 'The AVC follows the bass of the programme.',
					source: avcWider
				},
				{ below: 0.1, verdict: 'watch', says: 'The AVC is on the quick side.', source: avcWider },
				{ upTo: 0.2, verdict: 'ok', says: 'The AVC has the usual time constant.', source: avcTime },
				{ upTo: 0.25, verdict: 'watch', says: 'The AVC is on the slow side.', source: avcWider },
				{
					verdict: 'slow',
					says: 'The AVC is slow: stations blare while tuning, fading comes through.',
					source: avcWider
				}
			]
		},
		{
			by: 'filterTime',
			bands: [
				{
					below: 50e-6,
					verdict: 'fast',
					says: 'The detector filter lets IF through to the audio.',
					source: filterTime
				},
				{ upTo: 150e-6, verdict: 'ok', says: 'The detector filter is as usual.', source: filterTime },
				{ verdict: 'slow', says: 'The detector filter takes treble.', source: filterTime }
			]
		},
		{
			by: 'deEmphasisOff',
			bands: [
				{
					upTo: 10,
					verdict: 'ok',
					says: 'The de-emphasis is right for its region.',
					source: deEmphasisBands
				},
				{
					verdict: 'watch',
					says: 'The de-emphasis is {deEmphasisOff} off: sharp or dull on FM.',
					source: deEmphasisBands
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: [] },
		{ verdict: 'watch', next: ['the parts against the service sheet'] },
		{
			verdict: 'fast',
			title: 'Too quick',
			next: ['the capacitor, for lost capacitance', 'the resistor, for a wrong part']
		},
		{
			verdict: 'slow',
			title: 'Too slow',
			next: ['the resistor, for drift upwards', 'the capacitor, for a wrong part']
		},
		{
			verdict: 'thin',
			title: 'Takes the bass',
			next: ['the coupling or bypass capacitor, for lost capacitance', 'the grid leak, for a wrong part']
		},
		{
			verdict: 'motor-boating',
			title: 'May motor-boat',
			next: ['the decoupling of the HT line to this stage', 'the coupling capacitor, for a part too large']
		}
	],
	cautions: [],
	pitfalls: [
		'Values of the service sheet are often nominal: 47 kΩ with 1 nF is “50 µs”.',
		'An FM stereo output has its de-emphasis elsewhere.',
		'The corner of one pair is 3 dB down, not 6 dB.',
		'De-emphasis is 50 µs in Europe and most of the world, 75 µs in the Americas.'
	],
	sources: [
		chargeLaw,
		bypassLaw,
		triodeBypass,
		couplingBands,
		bypassBand,
		avcTime,
		avcWider,
		filterTime,
		deEmphasis,
		deEmphasisBands
	],
	checks: [
		{
			id: 'time-constant/1',
			given: { tau_us: [75, 50] },
			gives: { f_Hz: [2122, 3183] },
			withinPct: 0.2,
			basis: 'published (2.12 kHz, 3.185 kHz)',
			source: published('memim.com, emphasis; lists.bostonradio.org (2120 Hz)')
		},
		{
			id: 'time-constant/2',
			given: { R_ohm: 10e3, C_uF: 1 },
			gives: { f_Hz: 15.9 },
			withinPct: 1,
			basis: 'published (16 Hz)',
			source: published('diyaudio.com thread 377423 (that page calls it -6 dB; for RC it is -3 dB)')
		},
		{
			id: 'time-constant/3',
			given: { t_over_tau: 1 },
			gives: { charged_pct: 63.2, left_pct: 36.8, full_after_tau: 5 },
			withinPct: 0.1,
			basis: 'published',
			source: published('US Navy NEETS Module 7 (NAVEDTRA 14179), electriciantraining.tpub.com/14179 p. 4-14')
		},
		{
			id: 'time-constant/4',
			given: { R_ohm: 220, C_uF: 1, f_Hz: 2000, kind: 'high-pass' },
			gives: { ratio: 0.9404, phase_deg: 19.9 },
			withinPct: 0.2,
			basis: 'published (.94, 19.9)',
			source: published('slideshare.net RC computations (2016) table')
		},
		{
			id: 'time-constant/5',
			given: { R_k_ohm: 135, C_k_uF: 25, gm_mA_V: 11.3 },
			gives: { f_zero_Hz: 47.2, f_pole_Hz: 119.1 },
			verdict: 'ok',
			withinPct: 0.5,
			basis: 'arithmetic (pentode cathode bypass)',
			source: OWN_NUMBERS
		},
		{
			id: 'time-constant/6',
			given: { R_ohm: 470e3, C_nF: 10 },
			gives: { f_Hz: 33.9 },
			withinPct: 0.3,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'time-constant/7',
			given: { R_ohm: 1e6, C_uF: 0.01, V: 300 },
			gives: { tau_s: 0.01, V_after_tau: 189.6, full_after_s: 0.05 },
			withinPct: 0.5,
			basis: 'published (189 V)',
			source: grob('22-4 and 22-5')
		},
		{
			id: 'time-constant/8',
			given: { R_ohm: [10e3, 1500], C_uF: 0.01, kind: 'low-pass' },
			gives: { f_Hz: [1592, 10610], phase_deg_at_corner: -45 },
			withinPct: 0.2,
			basis: 'published',
			source: grob('26-1 and 26-3')
		},
		{
			id: 'time-constant/bypass of a triode',
			given: { R_k_ohm: 1500, C_k_uF: 2, mu: 100, r_a_ohm: 62.5e3, R_L_ohm: 220e3 },
			gives: { f_zero_Hz: 53.05, f_pole_Hz: 81.52, lost_dB: 3.73, f_bypass_Hz: 31.9 },
			verdict: 'ok',
			withinPct: 0.5,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'time-constant/a dried-up cathode bypass',
			given: { R_k_ohm: 135, C_k_uF: 2, gm_mA_V: 11.3 },
			gives: { f_bypass_Hz: 1233, lost_dB: 8.04 },
			verdict: 'thin',
			withinPct: 0.5,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'time-constant/a coupling that has lost its capacitance',
			given: { R_ohm: 470e3, C_nF: 1, use: 'coupling to a grid' },
			gives: { coupling_Hz: 338.6 },
			verdict: 'thin',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'time-constant/a coupling of 100 nF on a large grid leak',
			given: { R_ohm: 1e6, C_nF: 100, R_source_ohm: 100e3, use: 'coupling to a grid' },
			gives: { coupling_Hz: 1.447 },
			verdict: 'motor-boating',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'time-constant/AVC line of 1 MΩ and 0.1 µF',
			given: { R_ohm: '1M', C_uF: 0.1, use: 'AVC line' },
			gives: { avc_s: 0.1 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'time-constant/AVC line with a drifted resistor',
			given: { R_ohm: '4M7', C_uF: 0.1, use: 'AVC line' },
			gives: { avc_s: 0.47 },
			verdict: 'slow',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'time-constant/detector filter without its resistor',
			given: { R_ohm: 1e3, C_pF: 100, use: 'detector filter' },
			gives: { filter_us: 0.1 },
			verdict: 'fast',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'time-constant/47 kΩ and 1 nF for 50 µs',
			given: { R_ohm: 47e3, C_nF: 1, use: 'de-emphasis' },
			gives: { off_pct: 6 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'time-constant/100 kΩ and 1 nF in the place of 50 µs',
			given: { R_ohm: 100e3, C_nF: 1, use: 'de-emphasis' },
			gives: { off_pct: 33.33 },
			verdict: 'watch',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
