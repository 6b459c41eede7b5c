import { defineCalculation } from './define.ts';
import { choice, number, optional } from './inputs.ts';
import { commonPractice, FOSSEE, fromMemory, OWN_NUMBERS, published } from './sources.ts';

const carson = published(
	`Carson's rule with 75 kHz and 15 kHz: Blake, Electronic Communication Systems, ex. 13.1c; ${FOSSEE}`
);
const ratioDetector = published(
	'Seeley and Avins, The Ratio Detector, in RCA Frequency Modulation vol. I (1948) pp. 364-379'
);
const stabiliserTime = fromMemory('time constant of the stabiliser 0.1 to 0.25 s; under 0.05 s AM is heard');
const offBand = commonPractice('audio DC off zero by more than 10 % of the stabiliser volts');
const stationVolts = fromMemory('across the stabiliser 1 to 3 V on a weak, 5 to 15 V on a strong station');
const limiterVolts = fromMemory('limiter grid: -1 V just limiting, -5 V firm');
const widthBand = fromMemory('IF of FM sets 150 to 250 kHz wide, against the 180 kHz that are needed');
const fcc = published(
	'Couch, Digital and Analog Communication Systems, table 5-4 (yumpu.com 58322109 p. 752)'
);
const oirt = published('Wikipedia, FM broadcasting (copy at howstuflvvorks.com)');
const bandPlans = published(
	'FM bands: Europe 87.5 to 108 MHz, Japan 76 to 95 MHz (Wikipedia, FM broadcast band, copy at wikiclassic.com); OIRT in steps of 30 kHz (fmtrick.blogspot.com); early US band 42 to 50 MHz (tenwatts.blogspot.com)'
);
const bandMemory = fromMemory(
	'100 kHz steps and 50 µs in Europe, 50 µs in Japan and the OIRT band, 50 kHz deviation there, 75 kHz in the early band'
);
const stereoWidth = published('200 to 300 kHz of IF for stereo: iwistaoblog.com, valve FM IF amplifiers');

interface BandPlan {
	/** Hz, both ends. */
	range: readonly [number, number];
	step: number | undefined;
	deviation: number | undefined;
	/** Seconds. */
	preEmphasis: number | undefined;
}

const BANDS: Readonly<Record<'Europe' | 'Americas' | 'Japan' | 'OIRT' | 'early US', BandPlan>> = {
	Europe: { range: [87.5e6, 108e6], step: 100e3, deviation: 75e3, preEmphasis: 50e-6 },
	Americas: { range: [88.1e6, 107.9e6], step: 200e3, deviation: 75e3, preEmphasis: 75e-6 },
	Japan: { range: [76e6, 95e6], step: undefined, deviation: 75e3, preEmphasis: 50e-6 },
	OIRT: { range: [65.8e6, 74e6], step: 30e3, deviation: 50e3, preEmphasis: 50e-6 },
	'early US': { range: [42e6, 50e6], step: undefined, deviation: 75e3, preEmphasis: undefined }
};

/** What the table of the FCC gives; lists are in the unit of their key outside. */
const FCC = {
	carriers: [88.1e6, 107.9e6],
	step: 200e3,
	deviation: 75e3,
	preEmphasis: 75e-6,
	audio: [50, 15e3]
} as const;

/** Published design figures of a ratio detector: secondary 25 to 75 pF, Q down to about a quarter, AM out above 100 Hz. */
const DESIGN = { least: 25e-12, most: 75e-12, q: 0.25, qMargin: 0.1, amAbove: 100 } as const;

function designFits(secondary: number, q: number, amAbove: number): boolean {
	const tuned = secondary >= DESIGN.least && secondary <= DESIGN.most;
	return tuned && Math.abs(q - DESIGN.q) <= DESIGN.qMargin && amAbove <= DESIGN.amAbove;
}

function planOf(name: keyof typeof BANDS) {
	const { range, step, deviation, preEmphasis } = BANDS[name];
	return { range, step, deviation, preEmphasis };
}

/**
 * Ratio detector and limiter: does the stabiliser hold against AM, is the secondary on tune, how wide must the IF be.
 *
 *     tau = C * R                               s; AM is kept out above 1 / (2 pi tau)
 *     BW = 2 * (deviation + f_audio)            Hz (Carson)
 *     off = 100 * |V_audio| / V_stabiliser      %
 *
 * R is the whole load across the stabilising capacitor, both halves in series. AM is never kept out completely.
 */
export const fmDetector = defineCalculation({
	id: 'fm-detector',
	title: 'FM detector and limiter',
	question: 'Does the FM detector keep buzz and AM out, and is it on tune?',
	group: 'Tuning and alignment',
	words: [
		'ratio detector',
		'discriminator',
		'stabiliser',
		'buzz',
		'VHF',
		'deviation',
		'Carson',
		'FM',
		'hiss',
		'AM rejection',
		'buzz on FM',
		'distortion on FM'
	],
	inputs: {
		capacitor: optional(number('C_uF', 'stabilising capacitor', 0.1e-6, 1e-3)),
		load: optional(number('R_ohm', 'load across it', 500, 1e6)),
		audioVolts: optional(
			number('V_audio_dc', 'DC at the audio take-off, to the centre of the load', -50, 50)
		),
		stabiliserVolts: optional(number('V_stabiliser', 'DC across the stabilising capacitor', -100, 100)),
		limiterVolts: optional(number('V_limiter_grid', 'DC at the limiter grid', -100, 5)),
		deviation: optional(number('deviation_kHz', 'deviation', 100, 500e3)),
		audio: optional(number('f_audio_kHz', 'highest audio frequency', 50, 100e3)),
		width: optional(number('BW_IF_kHz', 'bandwidth of the IF', 1e3, 2e6)),
		band: optional(choice('band', 'FM band', ['Europe', 'Americas', 'Japan', 'OIRT', 'early US'])),
		place: optional(number('range_MHz', 'a place on the dial of that band', 30e6, 120e6)),
		system: optional(choice('system', 'system', ['FCC broadcast'])),
		secondary: optional(number('C_secondary_pF', 'capacitance across the secondary', 1e-12, 1e-9)),
		quality: optional(
			number('Q_operating_over_unloaded', 'Q of the secondary with its diodes, of that without', 0.01, 1)
		),
		amAbove: optional(number('AM_kept_out_above_Hz', 'AM is to be kept out above', 1, 10e3))
	},
	ways: [
		{ title: 'the stabilising capacitor and its load', needs: ['capacitor', 'load'] },
		{ title: 'DC of the detector, tuned to maximum', needs: ['audioVolts', 'stabiliserVolts'] },
		{ title: 'DC at the limiter grid', needs: ['limiterVolts'] },
		{ title: 'deviation and audio', needs: ['deviation', 'audio'], also: ['width'] },
		{ title: 'an FM band', needs: ['band'], also: ['place'] },
		{ title: 'a published system', needs: ['system'] },
		{ title: 'a ratio detector against its design', needs: ['secondary', 'quality', 'amAbove'] }
	],
	outputs: {
		tau: { key: 'tau_s', label: 'Time constant of the stabiliser' },
		corner: { key: 'f_Hz', label: 'AM is kept out above' },
		off: { key: 'off_pct', label: 'Audio DC, share of the stabiliser volts' },
		drive: { key: 'limiter_V', label: 'Drive of the limiter' },
		needed: { key: 'BW_kHz', label: 'Bandwidth needed' },
		widthShare: { key: 'BW_IF_pct', label: 'Bandwidth of the IF, share of what is needed' },
		range: { key: 'band_MHz', label: 'Band, from and to' },
		onBand: { key: 'on_band', label: 'The place is within the band' },
		carriers: { key: 'carriers_MHz', label: 'Carriers, first and last' },
		step: { key: 'step_kHz', label: 'Step between stations' },
		deviation: { key: 'deviation_kHz', label: 'Deviation' },
		preEmphasis: { key: 'pre_emphasis_us', label: 'Pre-emphasis' },
		audio: { key: 'audio_Hz', label: 'Audio, from and to' },
		fits: { key: 'ok', label: 'Within the published design figures' }
	},
	formulaText: [
		'tau = C × R',
		'AM is kept out above 1 / (2π × tau)',
		'BW = 2 × (deviation + f_audio)',
		'off = 100 × |V_audio| / V_stabiliser'
	],
	refuse({ audioVolts, stabiliserVolts, band, place }) {
		if (stabiliserVolts === 0)
			return {
				key: 'V_stabiliser',
				message: 'V_stabiliser is nought: tune to a station first, then measure both again.'
			};
		if (audioVolts !== undefined && Math.abs(audioVolts) > Math.abs(stabiliserVolts ?? Infinity))
			return {
				key: 'V_audio_dc',
				message:
					'V_audio_dc is more than V_stabiliser. Measure V_audio_dc against the centre of the load, not against chassis.'
			};
		if (band === undefined || place === undefined) return undefined;
		const [from, to] = BANDS[band].range;
		if (place >= from && place <= to) return undefined;
		return {
			key: 'range_MHz',
			message: `range_MHz is not between ${from / 1e6} and ${to / 1e6} MHz, where those stations are. Check it, or choose others.`
		};
	},
	formula(given) {
		const { capacitor, load, audioVolts, stabiliserVolts, deviation, audio, width } = given;
		if (capacitor && load) {
			const tau = capacitor * load;
			return { tau, corner: 1 / (2 * Math.PI * tau) };
		}
		if (audioVolts !== undefined && stabiliserVolts)
			return { off: 100 * Math.abs(audioVolts / stabiliserVolts) };
		if (given.limiterVolts !== undefined) return { drive: -given.limiterVolts };
		if (deviation && audio) {
			const needed = 2 * (deviation + audio);
			return { needed, widthShare: width && (100 * width) / needed };
		}
		if (given.band) return { ...planOf(given.band), onBand: given.place === undefined ? undefined : true };
		if (given.system) return FCC;
		const { secondary, quality, amAbove } = given;
		return { fits: secondary && quality && amAbove ? designFits(secondary, quality, amAbove) : undefined };
	},
	summary: [
		'The stabiliser has {tau}: AM is kept out above {corner}.',
		'The audio DC is {off} of the stabiliser volts.',
		'The IF has to pass {needed}.',
		'Stations stand {step} apart, with a deviation of {deviation} and a pre-emphasis of {preEmphasis}.'
	],
	judge: [
		{
			by: 'tau',
			bands: [
				{
					below: 0.05,
					verdict: 'buzz',
					says: 'The stabiliser is too quick: AM and buzz come through.',
					source: stabiliserTime
				},
				{
					below: 0.1,
					verdict: 'watch',
					says: 'The stabiliser is quicker than in most sets.',
					source: stabiliserTime
				},
				{ upTo: 0.25, verdict: 'ok', says: 'The stabiliser is as usual.', source: stabiliserTime },
				{
					verdict: 'watch',
					says: 'The stabiliser is slow: the set takes its time while tuning.',
					source: stabiliserTime
				}
			]
		},
		{
			by: 'off',
			bands: [
				{ upTo: 10, verdict: 'ok', says: 'The secondary is on tune.', source: offBand },
				{
					verdict: 'secondary-off',
					says: 'The secondary is off tune, or the diodes are unequal.',
					source: offBand
				}
			]
		},
		{
			by: 'drive',
			bands: [
				{
					below: 1,
					verdict: 'not-limiting',
					says: 'The limiter hardly gets a signal: it does not limit.',
					source: limiterVolts
				},
				{ below: 5, verdict: 'watch', says: 'The limiter limits, but not firmly.', source: limiterVolts },
				{ verdict: 'ok', says: 'The limiter limits firmly.', source: limiterVolts }
			]
		},
		{
			by: 'widthShare',
			bands: [
				{
					below: 80,
					verdict: 'narrow',
					says: 'The IF passes only {widthShare} of what is needed: loud passages distort.',
					source: widthBand
				},
				{ verdict: 'ok', says: 'The IF is wide enough.', source: widthBand }
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: [] },
		{ verdict: 'watch', next: ['the same reading on a stronger station'] },
		{
			verdict: 'narrow',
			title: 'IF too narrow',
			next: ['FM IF alignment: cans peaked too sharply', 'missing damping resistors']
		},
		{
			verdict: 'secondary-off',
			title: 'Secondary off tune',
			next: ['the secondary of the ratio detector', 'the two diodes, against each other']
		},
		{
			verdict: 'not-limiting',
			title: 'Does not limit',
			next: ['the FM IF stages before it', 'the aerial and its feeder']
		},
		{
			verdict: 'buzz',
			title: 'AM and buzz come through',
			next: ['the stabilising electrolytic, for lost capacitance', 'its load resistors']
		}
	],
	cautions: [],
	pitfalls: [
		'The polarity of the electrolytic follows the circuit: positive to chassis in many sets.',
		'Reversed or leaky it kills the sensitivity.',
		'Unequal diodes act like a mistuned secondary.',
		'Its diode load is often 10 kΩ or less (Seeley and Avins).',
		'On a weak station 1 to 3 V stand across it, on a strong one 5 to 15 V (from memory).',
		'The 50 kHz deviation of the OIRT band is from memory.'
	],
	sources: [
		carson,
		ratioDetector,
		stabiliserTime,
		offBand,
		stationVolts,
		limiterVolts,
		widthBand,
		stereoWidth,
		fcc,
		oirt,
		bandPlans,
		bandMemory
	],
	checks: [
		{
			id: 'fm-detector/1',
			given: { C_uF: 5, R_ohm: 20e3 },
			gives: { tau_s: 0.1, f_Hz: 1.59 },
			verdict: 'ok',
			withinPct: 0.2,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'fm-detector/2',
			given: { deviation_kHz: 75, f_audio_kHz: 15 },
			gives: { BW_kHz: 180 },
			withinPct: 0,
			basis: 'published',
			source: carson
		},
		{
			id: 'fm-detector/3',
			given: { C_secondary_pF: [25, 75], Q_operating_over_unloaded: 0.25, AM_kept_out_above_Hz: 100 },
			gives: { ok: true },
			withinPct: 0,
			basis: 'published',
			source: ratioDetector
		},
		{
			id: 'fm-detector/4',
			given: { band: 'OIRT', range_MHz: [65.8, 74] },
			gives: { step_kHz: 30 },
			withinPct: 0,
			basis: 'published',
			source: oirt
		},
		{
			id: 'fm-detector/5',
			given: { deviation_kHz: 6, f_audio_kHz: 2 },
			gives: { BW_kHz: 16 },
			withinPct: 0,
			basis: 'published',
			source: published(`Stanley and Jeffords, Electronic Communications, ex. 7.10; ${FOSSEE}`)
		},
		{
			id: 'fm-detector/6',
			given: { deviation_kHz: 10, f_audio_kHz: 5 },
			gives: { BW_kHz: 30 },
			withinPct: 0,
			basis: 'published',
			source: published(`Beasley and Miller, Modern Electronic Communication, ex. 5.5; ${FOSSEE}`)
		},
		{
			id: 'fm-detector/7',
			given: { system: 'FCC broadcast' },
			gives: {
				carriers_MHz: [88.1, 107.9],
				step_kHz: 200,
				deviation_kHz: 75,
				pre_emphasis_us: 75,
				audio_Hz: [50, 15000]
			},
			withinPct: 0,
			basis: 'published',
			source: fcc
		},
		{
			id: 'fm-detector/stabiliser dried up',
			given: { C_uF: 0.5, R_ohm: 30e3 },
			gives: { tau_s: 0.015 },
			verdict: 'buzz',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'fm-detector/stabiliser of 2 µF across 40 kΩ',
			given: { C_uF: 2, R_ohm: 40e3 },
			gives: { tau_s: 0.08 },
			verdict: 'watch',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'fm-detector/audio DC at a fifth of the stabiliser',
			given: { V_audio_dc: -1.2, V_stabiliser: 6 },
			gives: { off_pct: 20 },
			verdict: 'secondary-off',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'fm-detector/limiter grid at half a volt',
			given: { V_limiter_grid: -0.5 },
			gives: { limiter_V: 0.5 },
			verdict: 'not-limiting',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'fm-detector/IF of 120 kHz',
			given: { deviation_kHz: 75, f_audio_kHz: 15, BW_IF_kHz: 120 },
			gives: { BW_IF_pct: 66.67 },
			verdict: 'narrow',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
