import { defineCalculation } from './define.ts';
import { shiftOf } from './dial-shift.ts';
import { choice, column, number, optional, rows } from './inputs.ts';
import { commonPractice, FOSSEE, OWN_NUMBERS, published } from './sources.ts';

const superhet = published(
	`oscillator and signal differ by the IF, the image by twice the IF: worked examples of Beasley and Miller, ex. 3.2, Blake, ex. 6.5, and a US Army receiver manual p. 79; ${FOSSEE}`
);
const imageBands = commonPractice('image rejection: 20 and 30 dB');
const shiftBand = commonPractice(
	'shifted by the same amount in kilohertz: the IF; in proportion: coil or trimmer of the oscillator; at one end: padder or trimmer'
);
const whistleBand = commonPractice('a beat is heard below 8 kHz');
const companion = (example: string) =>
	published(
		`Communication textbook worked example ${example}, numbers as transcribed in FOSSEE Scilab Textbook Companion, book 1409 (book title not seen)`
	);
const stanley = published(`Stanley and Jeffords, Electronic Communications, ex. 5.12; ${FOSSEE}`);

const AUDIBLE = 8e3;
const WIDTH = 200e3;
const HARMONICS = [2, 3, 4] as const;
const SPACING = { '1 and 3 (9 kHz)': 9e3, '2 (10 kHz)': 10e3 } as const;

type Side = 'above' | 'below';
const signOf = (side: Side | undefined): 1 | -1 => (side === 'below' ? -1 : 1);

/** Image of a signal and what so many equal tuned circuits do against it. */
function imageOf(signal: number, step: number, q: number | undefined, circuits: number) {
	const image = signal + 2 * step;
	const detuning = image / signal - signal / image;
	const rejection = q && Math.hypot(1, q * detuning) ** circuits;
	return {
		image,
		detuning: Math.abs(detuning),
		rejection,
		rejectionDb: rejection && 20 * Math.log10(rejection)
	};
}

/** The harmonic of the IF next to the signal, or the one asked for, and the beat between them. */
function whistleOf(signal: number, intermediate: number, harmonic: number | undefined) {
	const beatWith = (n: number): number => Math.abs(signal - n * intermediate);
	const n = harmonic ?? [...HARMONICS].sort((a, b) => beatWith(a) - beatWith(b))[0] ?? 2;
	return { harmonic: n, whistleAt: n * intermediate, beat: beatWith(n) };
}

function oscillatorSpan(low: number, high: number, step: number) {
	const [oscLow, oscHigh] = [low + step, high + step];
	const ratio = oscHigh / oscLow;
	const signalRatio = high / low;
	return {
		oscLow,
		oscHigh,
		ratio,
		capacitance: ratio ** 2,
		signalRatio,
		signalCapacitance: signalRatio ** 2
	};
}

function raster(first: number, last: number, spacing: number) {
	const channels = Math.round((last - first) / spacing) + 1;
	return {
		channels,
		multiplesOf9: spacing === 9e3 ? first % spacing === 0 && last % spacing === 0 : undefined
	};
}

/**
 * Oscillator, image and IF-harmonic whistles of a superhet, the oscillator's span, and the channels of the medium waves.
 *
 *     f_osc = f_signal +- IF,  f_image = f_signal +- 2 * IF        Hz, same sign
 *     A = sqrt(1 + (Q * rho)^2),  rho = f_image / f_signal - f_signal / f_image
 *     whistle: |f_signal - n * IF|, n = 2, 3, 4
 *     C ratio of a tuned circuit = (f_high / f_low)^2
 *
 * Q is that of one tuned circuit ahead of the mixer, loaded; further circuits multiply.
 */
export const dialFrequencies = defineCalculation({
	id: 'dial-frequencies',
	title: 'Oscillator, image and whistles',
	question: 'A station stands at the wrong place, or whistles: which oscillator, image or harmonic is it?',
	group: 'Tuning and alignment',
	words: [
		'whistle',
		'whistles',
		'image',
		'birdie',
		'station in the wrong place',
		'dial wrong',
		'harmonic',
		'squeal',
		'repeat spot',
		'oscillator',
		'interference'
	],
	inputs: {
		signal: optional({ ...number('f_signal_kHz', 'signal', 100e3, 150e6), alsoKeys: ['f_signal_MHz'] }),
		intermediate: optional({ ...number('IF_kHz', 'IF of the set', 30e3, 30e6), alsoKeys: ['IF_MHz'] }),
		side: optional(choice('side', 'side of the signal on which the oscillator runs', ['above', 'below'])),
		q: optional(number('Q', 'Q of the loaded aerial circuit', 1, 1000)),
		harmonic: optional(number('harmonics', 'harmonic of the IF', 2, 4)),
		low: optional({ ...number('f_min_kHz', 'low end of the dial', 100e3, 150e6), alsoKeys: ['f_min_MHz'] }),
		high: optional({ ...number('f_max_kHz', 'high end of the dial', 100e3, 150e6), alsoKeys: ['f_max_MHz'] }),
		region: optional(choice('region', 'ITU region', ['1 and 3 (9 kHz)', '2 (10 kHz)'])),
		first: optional(number('first_kHz', 'first channel', 500e3, 1800e3)),
		last: optional(number('last_kHz', 'last channel', 500e3, 1800e3)),
		circuits: optional(number('circuits', 'tuned circuits ahead of the mixer', 1, 4)),
		stations: optional(
			rows(
				'stations_kHz',
				'stations that are known',
				{
					heard: column('f_dial_kHz', 'stands on the dial at', 100e3, 150e6),
					truth: column('f_true_kHz', 'its frequency', 100e3, 150e6)
				},
				{ most: 20 }
			)
		)
	},
	ways: [
		{ title: 'a signal', needs: ['signal', 'intermediate'] },
		{ title: 'the ends of the dial', needs: ['low', 'high', 'intermediate'] },
		{ title: 'the channels of the medium waves', needs: ['region', 'first', 'last'] },
		{ title: 'stations at the wrong place', needs: ['stations', 'intermediate'] }
	],
	outputs: {
		oscillator: { key: 'f_osc_kHz', alsoKeys: ['f_osc_MHz'], label: 'Oscillator', digits: 5 },
		image: { key: 'f_image_kHz', alsoKeys: ['f_image_MHz'], label: 'Image', digits: 5 },
		detuning: { key: 'rho', label: 'Detuning of the image' },
		rejection: { key: 'rejection', label: 'Image rejection, times' },
		rejectionDb: { key: 'rejection_dB', label: 'Image rejection' },
		harmonic: { key: 'harmonic', label: 'Nearest harmonic of the IF' },
		whistleAt: { key: 'f_whistle_at_kHz', alsoKeys: ['f_whistle_at_MHz'], label: 'Whistle at' },
		beat: { key: 'beat_kHz', label: 'Beat' },
		signalQ: { key: 'Q_for_200_kHz', label: 'Q for 200 kHz at the signal' },
		intermediateQ: { key: 'Q_for_200_kHz_at_IF', label: 'Q for 200 kHz at the IF' },
		oscLow: { key: 'osc_min_kHz', alsoKeys: ['osc_min_MHz'], label: 'Oscillator, low end', digits: 5 },
		oscHigh: { key: 'osc_max_kHz', alsoKeys: ['osc_max_MHz'], label: 'Oscillator, high end', digits: 5 },
		ratio: { key: 'f_ratio_osc', label: 'Frequency ratio of the oscillator' },
		capacitance: { key: 'C_ratio_osc', alias: 'C_ratio', label: 'Capacitance ratio of the oscillator' },
		signalRatio: { key: 'f_ratio_signal', label: 'Frequency ratio of the signal circuits' },
		signalCapacitance: { key: 'C_ratio_signal', label: 'Capacitance ratio of the signal circuits' },
		channels: { key: 'channels', label: 'Channels', digits: 6 },
		shift: { key: 'shift', label: 'Shifted' },
		shiftBy: { key: 'shift_kHz', label: 'Shift on the dial, on average' },
		oscillatorOff: { key: 'osc_off_pct', label: 'Oscillator off by, on average' },
		multiplesOf9: { key: 'all_multiples_of_9', label: 'All multiples of 9 kHz' }
	},
	formulaText: [
		'f_osc = f_signal ± IF',
		'f_image = f_signal ± 2 × IF',
		'ρ = f_image / f_signal − f_signal / f_image',
		'rejection = √(1 + (Q × ρ)²)',
		'beat = |f_signal − n × IF|, n = 2, 3, 4',
		'capacitance ratio = (f_high / f_low)²',
		'oscillator off = (f_true + IF) / (f_dial + IF) − 1'
	],
	refuse(given) {
		const { signal, intermediate = 0, side, harmonic = 2, low, high, region, first, last } = given;
		const { circuits = 1, stations } = given;
		if (!Number.isInteger(circuits))
			return {
				key: 'circuits',
				message: 'circuits is not a whole number. Count them.'
			};
		if (!Number.isInteger(harmonic))
			return { key: 'harmonics', message: 'harmonics is not a whole number. Give 2, 3 or 4.' };
		const lowest = Math.min(
			signal ?? Infinity,
			low ?? Infinity,
			...(stations ?? []).flatMap(({ heard, truth }) => [heard, truth])
		);
		const under = side === 'below' ? lowest : Infinity;
		if (under <= 2 * intermediate)
			return {
				key: 'side',
				message: 'With the oscillator below, this sum needs a signal above twice the IF. Use side "above".'
			};
		if (low !== undefined && high !== undefined && low >= high)
			return {
				key: 'f_max_kHz',
				message: 'f_max_kHz is not above f_min_kHz. Give the low end of the dial as f_min_kHz.'
			};
		if (first !== undefined && last !== undefined && first > last)
			return {
				key: 'last_kHz',
				message: 'last_kHz is below first_kHz. Give the lower channel as first_kHz.'
			};
		if (stations && shiftOf(stations, signOf(side) * intermediate).word === undefined)
			return {
				key: 'stations_kHz',
				message:
					'stations_kHz do not tell yet what shifts them: give two or more, from both ends of the dial.'
			};
		const steps = region && first !== undefined && last !== undefined ? (last - first) / SPACING[region] : 0;
		if (Math.abs(steps - Math.round(steps)) > 1e-6)
			return {
				key: 'last_kHz',
				message: 'last_kHz is no whole number of steps above first_kHz. Give two channels of that raster.'
			};
		return undefined;
	},
	formula(given) {
		const { signal, intermediate, side, q, harmonic, low, high, region, first, last, circuits = 1 } = given;
		const step = signOf(side) * (intermediate ?? NaN);
		if (signal !== undefined && intermediate !== undefined) {
			const wide = intermediate >= 1e6;
			return {
				oscillator: signal + step,
				...imageOf(signal, step, q, circuits),
				...whistleOf(signal, intermediate, harmonic),
				signalQ: wide ? signal / WIDTH : undefined,
				intermediateQ: wide ? intermediate / WIDTH : undefined
			};
		}
		if (given.stations) {
			const { word, amount, oscillatorPct } = shiftOf(given.stations, step);
			return { shift: word, shiftBy: amount, oscillatorOff: oscillatorPct };
		}
		if (low !== undefined && high !== undefined) return oscillatorSpan(low, high, step);
		if (!region || first === undefined || last === undefined) return {};
		return raster(first, last, SPACING[region]);
	},
	summary: [
		'The oscillator runs at {oscillator}, and the image is at {image}.',
		'The aerial circuit weakens the image {rejection} times ({rejectionDb}).',
		'The oscillator covers {oscLow} to {oscHigh}, which asks a capacitance ratio of {capacitance}; the signal circuits ask {signalCapacitance}.',
		'That is {channels} channels.',
		'On average the dial is off by {shiftBy}, the oscillator by {oscillatorOff}.'
	],
	judge: [
		{
			by: 'rejectionDb',
			bands: [
				{
					below: 20,
					verdict: 'image',
					says: 'The image is heard at once: only {rejectionDb} down.',
					source: imageBands
				},
				{
					below: 30,
					verdict: 'weak-image',
					says: 'A strong station breaks in at the image.',
					source: imageBands
				},
				{
					verdict: 'ok',
					says: 'The image is kept out as in an ordinary set without RF stage, or better.',
					source: imageBands
				}
			]
		},
		{
			by: 'shift',
			bands: [
				{
					is: 'at its place',
					verdict: 'ok',
					says: 'The stations stand where they belong.',
					source: shiftBand
				},
				{
					is: 'image',
					verdict: 'image',
					says: 'A station stands twice the IF from its place: that is its image.',
					source: shiftBand
				},
				{
					is: 'the same amount',
					verdict: 'if-is-off',
					says: 'All stations are shifted by the same amount, {shiftBy}: the IF is off by so much, or the pointer sits askew.',
					source: shiftBand
				},
				{
					is: 'in proportion',
					verdict: 'oscillator-is-off',
					says: 'The oscillator is off by {oscillatorOff} all along the dial: its coil, or all its capacitance.',
					source: shiftBand
				},
				{
					is: 'at the low end',
					verdict: 'one-end-is-off',
					says: 'The low end is off most: padder or oscillator core.',
					source: shiftBand
				},
				{
					verdict: 'one-end-is-off',
					says: 'The high end is off most: the oscillator trimmer, or strays.',
					source: shiftBand
				}
			]
		},
		{
			by: 'beat',
			bands: [
				{
					below: AUDIBLE,
					verdict: 'whistle',
					says: 'The signal is {beat} from harmonic {harmonic} of the IF: it whistles there.',
					source: whistleBand
				},
				{ verdict: 'ok', says: 'No harmonic of the IF is near enough to be heard.', source: whistleBand }
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: [] },
		{
			verdict: 'whistle',
			next: [
				'weak: normal at that place',
				'strong: screening and decoupling of the detector and the last IF stage'
			]
		},
		{ verdict: 'weak-image', title: 'A weak image', next: ['aerial circuit alignment'] },
		{
			verdict: 'one-end-is-off',
			title: 'One end of the dial is off',
			next: [
				'low end: the padder, measured out of circuit, then the core',
				'high end: the trimmer, and a lead or a screen that was moved'
			]
		},
		{
			verdict: 'if-is-off',
			title: 'The IF or the pointer is off',
			next: [
				'the pointer on its end marks',
				'the IF, with a generator or a counter, against the service sheet'
			]
		},
		{
			verdict: 'oscillator-is-off',
			next: [
				'the core of the oscillator coil against its mark',
				'the capacitors across the oscillator section'
			]
		},
		{
			verdict: 'image',
			title: 'An image is heard',
			next: ['aerial circuit alignment and its coil', 'on short waves this is the set as it was built']
		}
	],
	cautions: [],
	pitfalls: [
		'A station found twice the IF below its true frequency, with the oscillator above, is an image.',
		'Everything shifted by the same number of kilohertz: the IF is wrong. Shifted in proportion: oscillator coil or trimmer.',
		'On short waves two peaks appear: take the one of higher oscillator frequency unless the sheet says otherwise.',
		'The second harmonic whistles most.',
		'European dials printed before 1978 follow older plans and may be off by a few kilohertz.'
	],
	sources: [superhet, imageBands, whistleBand, shiftBand],
	checks: [
		{
			id: 'dial-frequencies/1',
			given: { f_signal_kHz: 1000, IF_kHz: 455, side: 'above', Q: 100 },
			gives: { f_osc_kHz: 1455, f_image_kHz: 1910, rho: 1.386, rejection: 138.6, rejection_dB: 42.8 },
			verdict: 'ok',
			withinPct: 0.2,
			basis: 'published',
			source: published('mindstudy.in (textbook problem: Q 100, 1 MHz); testbook.com for 1455 and 1910')
		},
		{
			id: 'dial-frequencies/2',
			given: { f_signal_kHz: 555, IF_kHz: 455, Q: 40 },
			gives: { f_osc_kHz: 1010, f_image_kHz: 1465, rejection: 90.4 },
			verdict: 'ok',
			withinPct: 0.3,
			basis: 'published frequencies; ratio from the example formula',
			source: companion('8.17, p. 8-57')
		},
		{
			id: 'dial-frequencies/3',
			given: { f_min_kHz: 530, f_max_kHz: 1650, IF_kHz: 455, side: 'above' },
			gives: { osc_min_kHz: 985, osc_max_kHz: 2105, C_ratio_osc: 4.567 },
			withinPct: 0.1,
			basis: 'published',
			source: companion('8.6, p. 8-19')
		},
		{
			id: 'dial-frequencies/4',
			given: { region: '2 (10 kHz)', first_kHz: 540, last_kHz: 1700 },
			gives: { channels: 117 },
			withinPct: 0,
			basis: 'published',
			source: published('spectrumwiki.com display 107')
		},
		{
			id: 'dial-frequencies/5',
			given: { region: '1 and 3 (9 kHz)', first_kHz: 531, last_kHz: 1602 },
			gives: { channels: 120, all_multiples_of_9: true },
			withinPct: 0,
			basis: 'published limits and spacing (egg.5ch.net, triviasbox.com: ITU 1978), count by arithmetic',
			source: published('egg.5ch.net, triviasbox.com: ITU 1978')
		},
		{
			id: 'dial-frequencies/6',
			given: { IF_kHz: 455, harmonics: [2, 3], f_signal_kHz: [909, 1368] },
			gives: { f_whistle_at_kHz: [910, 1365], beat_kHz: [1, 3] },
			verdict: 'whistle',
			withinPct: 0,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'dial-frequencies/7',
			given: { IF_kHz: 470, harmonics: [2, 3], f_signal_kHz: [936, 1413] },
			gives: { harmonic: [2, 3], f_whistle_at_kHz: [940, 1410], beat_kHz: [4, 3] },
			verdict: 'whistle',
			withinPct: 0,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'dial-frequencies/8',
			given: { f_signal_MHz: 98, IF_MHz: 10.7, side: ['above', 'below'] },
			gives: { f_osc_MHz: [108.7, 87.3], f_image_MHz: [119.4, 76.6] },
			verdict: 'ok',
			withinPct: 0,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'dial-frequencies/9',
			given: { f_signal_kHz: 590, IF_kHz: 455, side: 'above', Q: 40 },
			gives: { f_osc_kHz: 1045, f_image_kHz: 1500, rho: 2.149, rejection_dB: 38.7 },
			verdict: 'ok',
			withinPct: 0.2,
			basis: 'published',
			source: published(`Blake, Electronic Communication Systems, ex. 6.5, p. 238; ${FOSSEE}`)
		},
		{
			id: 'dial-frequencies/10',
			given: { f_signal_MHz: [2.7, 5, 9.5, 18], IF_kHz: 455, side: 'above' },
			gives: { f_image_MHz: [3.61, 5.91, 10.41, 18.91] },
			verdict: 'ok',
			withinPct: 0,
			basis: 'published',
			source: published(
				'US Army receiver technical manual p. 79 (mark AGO 3134), manualshelf.com; the ratio printed there beside 60 dB is wrong'
			)
		},
		{
			id: 'dial-frequencies/11, oscillator above',
			given: { f_signal_MHz: [88, 108], IF_MHz: 10.7, side: 'above' },
			gives: {
				f_osc_MHz: [98.7, 118.7],
				f_image_MHz: [109.4, 129.4],
				Q_for_200_kHz: [440, 540],
				Q_for_200_kHz_at_IF: 53.5
			},
			verdict: 'ok',
			withinPct: 0,
			basis: 'published',
			source: stanley
		},
		{
			id: 'dial-frequencies/11, oscillator below',
			given: { f_signal_MHz: [88, 108], IF_MHz: 10.7, side: 'below' },
			gives: { f_osc_MHz: [77.3, 97.3], f_image_MHz: [66.6, 86.6] },
			verdict: 'ok',
			withinPct: 0,
			basis: 'published',
			source: stanley
		},
		{
			id: 'dial-frequencies/12',
			given: { f_min_kHz: 550, f_max_kHz: 1600, IF_kHz: 455, side: 'above' },
			gives: {
				osc_min_kHz: 1005,
				osc_max_kHz: 2055,
				f_ratio_osc: 2.045,
				C_ratio_osc: 4.181,
				f_ratio_signal: 2.909,
				C_ratio_signal: 8.463
			},
			withinPct: 0.1,
			basis: 'published',
			source: published(`Roddy and Coolen, Electronic Communications, ex. 7.3.1 and 7.4.1; ${FOSSEE}`)
		},
		{
			id: 'dial-frequencies/13',
			given: { f_signal_kHz: 620, IF_kHz: 455, side: 'above' },
			gives: { f_osc_kHz: 1075, f_image_kHz: 1530 },
			verdict: 'ok',
			withinPct: 0,
			basis: 'published',
			source: published(`Beasley and Miller, Modern Electronic Communication, ex. 3.2; ${FOSSEE}`)
		},
		{
			id: 'dial-frequencies/two circuits ahead of the mixer',
			given: { f_signal_kHz: 590, IF_kHz: 455, Q: 40, circuits: 2 },
			gives: { rejection_dB: 77.4 },
			verdict: 'ok',
			withinPct: 0.2,
			basis: 'arithmetic (twice the decibels of one)',
			source: OWN_NUMBERS
		},
		{
			id: 'dial-frequencies/1510 kHz heard at 600',
			given: { IF_kHz: 455, stations_kHz: [[600, 1510]] },
			gives: { shift: 'image', shift_kHz: -910 },
			verdict: 'image',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'dial-frequencies/all stations 20 kHz too high on the dial',
			given: {
				IF_kHz: 455,
				stations_kHz: [
					[620, 600],
					[1020, 1000],
					[1420, 1400]
				]
			},
			gives: { shift: 'the same amount', shift_kHz: 20 },
			verdict: 'if-is-off',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'dial-frequencies/an oscillator 4 % too high',
			given: {
				IF_kHz: 455,
				stations_kHz: [
					[600, 642.2],
					[1000, 1058.2],
					[1400, 1474.2]
				]
			},
			gives: { shift: 'in proportion', osc_off_pct: 4 },
			verdict: 'oscillator-is-off',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'dial-frequencies/low end off, high end right',
			given: {
				IF_kHz: 470,
				stations_kHz: [
					[550, 600],
					[1400, 1404]
				]
			},
			gives: { shift: 'at the low end' },
			verdict: 'one-end-is-off',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'dial-frequencies/every station at its place',
			given: {
				IF_kHz: 470,
				stations_kHz: [
					[602, 600],
					[1400, 1404]
				]
			},
			gives: { shift: 'at its place' },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'dial-frequencies/image on short waves',
			given: { f_signal_MHz: 18, IF_kHz: 470, Q: 80 },
			gives: { f_image_MHz: 18.94, rejection: 8.209, rejection_dB: 18.286 },
			verdict: 'image',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'dial-frequencies/image on the 49 m band',
			given: { f_signal_MHz: 6, IF_kHz: 470, Q: 50 },
			gives: { f_image_MHz: 6.94, rejection: 14.64, rejection_dB: 23.31 },
			verdict: 'weak-image',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
