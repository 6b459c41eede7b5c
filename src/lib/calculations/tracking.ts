import { printFigure } from '../quantity/index.ts';
import { defineCalculation } from './define.ts';
import { choice, number, numbers, optional } from './inputs.ts';
import { numbersBetween, type Picture } from './picture.ts';
import { commonPractice, fromMemory, OWN_NUMBERS, published } from './sources.ts';
import {
	gangAt,
	type OscillatorCircuit,
	type Points,
	type SignalCircuit,
	signalAt,
	solveThreePoints,
	solveTwoPoints,
	trackingError
} from './tracking-circuit.ts';

const terman = fromMemory(
	'the scheme of Terman, Radio Engineers’ Handbook 1943, also in the Radiotron Designer’s Handbook ch. 25; derived again, and checked against coil and capacitors'
);
const goodWork = commonPractice('5 kHz between the points is good work');
const beyond = commonPractice('beyond 10 kHz the dial is wrong for everybody; a working threshold');
const halfWidth = published(
	'at half the bandwidth off tune a circuit passes 0.707: US Navy NEETS, electriciantraining.tpub.com/14181 p. 1-47'
);

const GOOD = 5e3;
const FAR = 10e3;
const METHODS = ['three-point', 'three-point, trimmer across the coil', 'two-point'] as const;
type Method = (typeof METHODS)[number];

/** A solved set: both circuits, the IF, and the points between which it is judged. */
interface Solved {
	signal: SignalCircuit;
	oscillator: OscillatorCircuit;
	intermediate: number;
	points: readonly number[];
}

interface Wanted {
	method: Method | undefined;
	signalCoil: number | undefined;
	signalTrimmer: number | undefined;
	intermediate: number | undefined;
	points: readonly number[] | undefined;
	low: number | undefined;
	high: number | undefined;
	most: number | undefined;
}

const isThree = (points: readonly number[]): points is Points => points.length === 3;

function solve(given: Wanted): Solved | undefined {
	const { method, signalCoil, signalTrimmer, intermediate, points, low, high, most } = given;
	if (!intermediate) return undefined;
	if (low && high && most) {
		const { padder, coil } = solveTwoPoints(low, high, intermediate, most);
		const signal = { coil: 1 / (4 * Math.PI ** 2 * low ** 2 * most), trimmer: 0 };
		const oscillator = { coil, padder, trimmer: 0, trimmerAcross: 'gang' } as const;
		return { signal, oscillator, intermediate, points: [low, high] };
	}
	if (!signalCoil || signalTrimmer === undefined || !points || !isThree(points)) return undefined;
	const signal = { coil: signalCoil, trimmer: signalTrimmer };
	const across = method === 'three-point, trimmer across the coil' ? 'coil' : 'gang';
	const oscillator = solveThreePoints(signal, intermediate, points, across);
	return oscillator && { signal, oscillator, intermediate, points };
}

const errorOf = ({ signal, oscillator, intermediate }: Solved, frequency: number): number =>
	trackingError(signal, oscillator, intermediate, frequency);

/** From a little below the first point to a little above the last, where a dial usually ends. */
function dialOf({ points }: Solved): { from: number; to: number } {
	const [first = 0, last = 0] = [points[0], points.at(-1)];
	return points.length === 2 ? { from: first, to: last } : { from: 0.86 * first, to: 1.16 * last };
}

/** Round places along the dial: every 10 kHz on medium waves, every 100 kHz on short waves. */
function roundPlaces(solved: Solved): number[] {
	const { from, to } = dialOf(solved);
	const step = Math.max(1e3, 10 ** Math.floor(Math.log10(solved.points[0] ?? 1e6)) / 10);
	const count = Math.floor(to / step) - Math.ceil(from / step) + 1;
	return Array.from({ length: count }, (_, i) => (Math.ceil(from / step) + i) * step);
}

function errorsAt(solved: Solved, places: readonly number[]): Record<string, number> {
	return Object.fromEntries(places.map((place) => [String(place / 1e3), errorOf(solved, place)]));
}

/** The largest error between the outer points, and where it stands. */
function worstOf(solved: Solved) {
	const [first = 0, last = 0] = [solved.points[0], solved.points.at(-1)];
	const tried = numbersBetween(first, last, 201).map((place) => ({
		place,
		error: Math.abs(errorOf(solved, place))
	}));
	return tried.reduce((a, b) => (b.error > a.error ? b : a));
}

/** The largest error as a share of half the bandwidth of the aerial circuit, per cent. */
function worstShare(solved: Solved, q: number): number {
	const [first = 0, last = 0] = [solved.points[0], solved.points.at(-1)];
	const shares = numbersBetween(first, last, 201).map((place) => {
		return (100 * Math.abs(errorOf(solved, place))) / (place / (2 * q));
	});
	return Math.max(...shares);
}

const withPadder = (solved: Solved, padder: number): Solved => ({
	...solved,
	oscillator: { ...solved.oscillator, padder }
});

function curveOf(solved: Solved, label: string, style: 'solid' | 'dashed'): Picture['curves'][number] {
	const { from, to } = dialOf(solved);
	return {
		label,
		style,
		points: numbersBetween(from, to, 81).map((place) => [place, errorOf(solved, place)] as const)
	};
}

function reachOf(signal: SignalCircuit, least: number | undefined, most: number | undefined) {
	return {
		reachLow: most === undefined ? undefined : signalAt(signal, most),
		reachHigh: least === undefined ? undefined : signalAt(signal, least)
	};
}

/**
 * Oscillator coil, padder and trimmer of a superhet from three points of exact tracking, and the error between them.
 *
 *     f_osc^2 = m2 (f^2 + n2) / (f^2 + l2),  right at f1, f2, f3
 *     C_padder = K (1 / n2 - 1 / l2),  T_osc = T + K / l2,  L_osc = L l2^2 / (m2 (l2 - n2)),  K = 1 / (4 pi^2 L)
 *     e(f) = f_osc - f - IF                     Hz
 *
 * Oscillator above the signal. Gangs with shaped vanes have no padder, and short waves are set at two points.
 */
export const tracking = defineCalculation({
	id: 'tracking',
	title: 'Tracking of the oscillator',
	question: 'Which oscillator coil, padder and trimmer make the dial right, and how far does it stray?',
	group: 'Tuning and alignment',
	words: [
		'padder',
		'padding',
		'trimmer',
		'gang',
		'superhet',
		'low end',
		'dial',
		'oscillator coil',
		'dial does not track',
		'dial out at one end',
		'low end deaf',
		'calibration'
	],
	inputs: {
		method: optional(choice('method', 'points that are to be right', METHODS)),
		signalCoil: optional(number('L_signal_uH', 'coil of the signal circuit', 0.1e-6, 10e-3)),
		signalTrimmer: optional(number('T_signal_pF', 'its trimmer and all strays', 0, 500e-12)),
		intermediate: number('IF_kHz', 'IF of the set', 30e3, 12e6),
		points: optional(
			numbers('f_kHz', 'three points, the lowest first (medium waves 600, 1000, 1400)', 100e3, 30e6, {
				least: 3,
				most: 3
			})
		),
		low: optional(number('f_min_kHz', 'low end of the dial', 100e3, 30e6)),
		high: optional(number('f_max_kHz', 'high end of the dial', 100e3, 30e6)),
		most: optional(number('C_max_pF', 'all capacitance of the signal circuit at the low end', 20e-12, 2e-9)),
		q: optional(number('Q', 'Q of the aerial circuit, loaded', 5, 500)),
		padderNow: optional(number('C_padder_now_pF', 'padder as measured', 5e-12, 10e-9)),
		gangLeast: optional(number('C_gang_min_pF', 'gang open', 1e-12, 200e-12)),
		gangMost: optional(number('C_gang_max_pF', 'gang closed', 20e-12, 2e-9)),
		places: optional(numbers('f_err_kHz', 'places at which the error is wanted', 100e3, 30e6))
	},
	ways: [
		{
			title: 'three points',
			needs: ['signalCoil', 'signalTrimmer', 'intermediate', 'points'],
			also: ['q', 'padderNow', 'gangLeast', 'gangMost', 'places']
		},
		{
			title: 'the two ends of the dial',
			needs: ['low', 'high', 'intermediate', 'most'],
			also: ['q', 'padderNow', 'places']
		}
	],
	outputs: {
		coil: { key: 'L_osc_uH', label: 'Oscillator coil', digits: 4 },
		padder: { key: 'C_padder_pF', label: 'Padder', digits: 4 },
		trimmer: { key: 'T_osc_pF', label: 'Oscillator trimmer and strays' },
		worst: { key: 'worst_kHz', label: 'Largest error between the points' },
		worstAt: { key: 'worst_at_kHz', label: 'That error stands at', digits: 4 },
		worstShare: { key: 'worst_of_half_width_pct', label: 'Largest error, share of half the bandwidth' },
		lowNow: { key: 'low_now_kHz', label: 'With the padder as measured, off at the lowest point by' },
		signalRatio: { key: 'C_ratio_signal', label: 'Capacitance ratio of the signal circuit', digits: 4 },
		oscillatorRatio: { key: 'C_ratio_osc', label: 'Capacitance ratio of the oscillator', digits: 4 },
		least: { key: 'C_min_pF', label: 'Capacitance of the signal circuit at the high end', digits: 4 },
		reachLow: { key: 'reach_min_kHz', label: 'The signal circuit reaches down to', digits: 4 },
		reachHigh: { key: 'reach_max_kHz', label: 'The signal circuit reaches up to', digits: 4 },
		errors: { key: 'err_kHz', label: 'Error along the dial, by kHz of the dial' }
	},
	formulaText: [
		'a = f1 + f2 + f3,  b = f1 × f2 + f1 × f3 + f2 × f3,  c = f1 × f2 × f3,  d = a + 2 × IF',
		'l² = (b × d − c) / (2 × IF),  m² = l² + IF² + a × d − b,  n² = (c × d + IF² × l²) / m²',
		'f_osc² = m² × (f² + n²) / (f² + l²),  error = f_osc − f − IF',
		'K = 1 / (4π² × L_signal)',
		'C_padder = K × (1 / n² − 1 / l²),  T_osc = T_signal + K / l²',
		'L_osc = L_signal × l⁴ / (m² × (l² − n²))'
	],
	refuse(given) {
		const { method, points, low, high, signalCoil, signalTrimmer } = given;
		if (points && method === 'two-point')
			return {
				key: 'method',
				message: 'The method is two-point, but three points are given. Choose three-point.'
			};
		if (low !== undefined && method !== undefined && method !== 'two-point')
			return { key: 'method', message: 'The method needs three points. Give f_kHz, or choose two-point.' };
		if (low !== undefined && high !== undefined && low >= high)
			return {
				key: 'f_max_kHz',
				message: 'f_max_kHz is not above f_min_kHz. Give the low end as f_min_kHz.'
			};
		if (!points || !isThree(points) || !signalCoil || signalTrimmer === undefined) return undefined;
		if (points[0] >= points[1] || points[1] >= points[2])
			return {
				key: 'f_kHz',
				message: 'f_kHz has to rise: the low point first, then the middle, then the high one.'
			};
		if (gangAt({ coil: signalCoil, trimmer: signalTrimmer }, points[2]) <= 0)
			return {
				key: 'T_signal_pF',
				message:
					'With L_signal_uH and T_signal_pF the signal circuit never reaches the high point. Check both, with their units.'
			};
		const { gangLeast, gangMost, places } = given;
		if (gangLeast !== undefined && gangMost !== undefined && gangLeast >= gangMost)
			return {
				key: 'C_gang_max_pF',
				message: 'C_gang_max_pF is not above C_gang_min_pF. Give the gang closed as C_gang_max_pF.'
			};
		const signal = { coil: signalCoil, trimmer: signalTrimmer };
		const off = places?.find((place) => gangAt(signal, place) <= 0);
		if (off !== undefined)
			return {
				key: 'f_err_kHz',
				message: `f_err_kHz: the signal circuit never reaches ${Math.round(off / 1e3)} kHz, as T_signal_pF alone is too much. Leave that place out.`
			};
		if (solve(given)) return undefined;
		return {
			key: 'IF_kHz',
			message:
				'No real padder and trimmer are right at these points: one of them would be below nothing. Check IF_kHz, L_signal_uH and f_kHz.'
		};
	},
	formula(given) {
		const solved = solve(given);
		if (!solved) return {};
		const { coil, padder, trimmer } = solved.oscillator;
		const { place, error } = worstOf(solved);
		const { low, high, most, intermediate, q, padderNow } = given;
		const two = low && high && most ? solveTwoPoints(low, high, intermediate, most) : undefined;
		return {
			coil,
			padder,
			trimmer: two ? undefined : trimmer,
			worst: error,
			worstAt: place,
			worstShare: q && worstShare(solved, q),
			lowNow: padderNow && errorOf(withPadder(solved, padderNow), solved.points[0] ?? 0),
			signalRatio: two?.signalRatio,
			oscillatorRatio: two?.oscillatorRatio,
			least: two?.least,
			...reachOf(solved.signal, given.gangLeast, given.gangMost),
			errors: errorsAt(solved, given.places ?? roundPlaces(solved))
		};
	},
	summary: [
		'The oscillator takes a coil of {coil} with a padder of {padder}.',
		'Its trimmer and strays are {trimmer} in all.',
		'Between the points the largest error is {worst}, at {worstAt}.',
		'With the padder as measured the lowest point is off by {lowNow}.'
	],
	judge: [
		{
			by: 'worst',
			bands: [
				{ upTo: GOOD, verdict: 'ok', says: 'The dial stays within 5 kHz: good work.', source: goodWork },
				{
					upTo: FAR,
					verdict: 'usable',
					says: 'The dial strays by up to {worst} between the points.',
					source: beyond
				},
				{
					verdict: 'poor',
					says: 'The dial strays by {worst}: these parts do not track.',
					source: beyond
				}
			]
		},
		{
			by: 'worstShare',
			bands: [
				{
					upTo: 100,
					verdict: 'ok',
					says: 'The aerial circuit loses less than 3 dB by it.',
					source: halfWidth
				},
				{
					verdict: 'poor',
					says: 'The aerial circuit loses more than 3 dB by it: weak there.',
					source: halfWidth
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: [] },
		{ verdict: 'usable', next: ['other points, nearer together', 'the padder, measured out of circuit'] },
		{
			verdict: 'poor',
			title: 'Does not track',
			next: ['padder and oscillator coil against the service sheet', 'the IF that the set was built for']
		}
	],
	pictures(given, { padder }) {
		const solved = solve(given);
		if (!solved || padder === undefined) return [];
		const { padderNow, q } = given;
		const { from, to } = dialOf(solved);
		const measured = padderNow
			? [curveOf(withPadder(solved, padderNow), 'with the padder as measured', 'dashed')]
			: [];
		const edges = ([1, -1] as const).map((side) => ({
			label: side > 0 ? 'half the aerial bandwidth' : 'the same below',
			style: 'dotted' as const,
			...(side < 0 && { unnamed: true as const }),
			points: [from, to].map((place) => [place, (side * place) / (2 * (q ?? 1))] as const)
		}));
		return [
			{
				title: 'Tracking error over the dial',
				x: { label: 'Dial', unit: 'kHz', scale: 'linear' },
				y: { label: 'Error of the oscillator', unit: 'kHz', scale: 'linear' },
				curves: [curveOf(solved, 'error', 'solid'), ...measured, ...(q ? edges : [])],
				marks: solved.points.map((place) => ({ label: printFigure(place, 'kHz', 6), x: place, y: 0 })),
				bands: [{ axis: 'y', from: -GOOD, to: GOOD, label: 'good work' }]
			}
		];
	},
	cautions: [],
	pitfalls: [
		'Never bend the vanes to cure a padder that has drifted.',
		'A drifted mica padder: low end off and dead, high end right. Replace it, then align.',
		'Gangs with shaped vanes have no padder.',
		'On short waves use two points: core at the low end, trimmer at the high end.',
		'Beyond the outer points the error runs away fast.',
		'Where no real parts come out, the IF or the coil is wrong.'
	],
	sources: [terman, goodWork, beyond, halfWidth],
	checks: [
		{
			id: 'tracking/1',
			given: { method: 'two-point', f_min_kHz: 400, f_max_kHz: 1650, IF_kHz: 455, C_max_pF: 300 },
			gives: { C_ratio_signal: 17.02, C_min_pF: 17.63, C_ratio_osc: 6.061, C_padder_pF: 138.6 },
			verdict: 'poor',
			withinPct: 0.4,
			basis: 'published (6.06, 17.63, 138.79); its last step, the error at 1 MHz, is wrong there',
			source: published(
				'Communication textbook worked example 8.5, p. 8-16, numbers as transcribed in FOSSEE Scilab Textbook Companion, book 1409 (book title not seen)'
			)
		},
		{
			id: 'tracking/2',
			given: {
				method: 'three-point',
				L_signal_uH: 180,
				T_signal_pF: 35,
				IF_kHz: 455,
				f_kHz: [600, 1000, 1400]
			},
			gives: {
				L_osc_uH: 102.14,
				C_padder_pF: 497.8,
				T_osc_pF: 47.48,
				err_kHz: { 540: 4.58, 800: -3.78, 1200: 2.91, 1600: -11.66 }
			},
			verdict: 'ok',
			withinPct: 0.2,
			withinAbsolute: { err_kHz: 0.02 },
			basis: 'arithmetic, two independent ways (closed form and direct LC)',
			source: OWN_NUMBERS
		},
		{
			id: 'tracking/3',
			given: {
				method: 'three-point',
				L_signal_uH: 200,
				T_signal_pF: 40,
				IF_kHz: 470,
				f_kHz: [600, 950, 1500]
			},
			gives: {
				L_osc_uH: 111.81,
				C_padder_pF: 435.1,
				T_osc_pF: 51.13,
				err_kHz: { 520: 6.57, 750: -3.67, 1300: 5.59, 1620: -7.87 }
			},
			verdict: 'usable',
			withinPct: 0.2,
			withinAbsolute: { err_kHz: 0.02 },
			basis: 'arithmetic, two independent ways',
			source: OWN_NUMBERS
		},
		{
			id: 'tracking/trimmer across the coil',
			given: {
				method: 'three-point, trimmer across the coil',
				L_signal_uH: 180,
				T_signal_pF: 35,
				IF_kHz: 455,
				f_kHz: [600, 1000, 1400],
				f_err_kHz: [600, 1000, 1400]
			},
			gives: { err_kHz: { 600: 0, 1000: 0, 1400: 0 } },
			verdict: 'ok',
			withinPct: 0,
			withinAbsolute: { err_kHz: 0.001 },
			basis: 'arithmetic (nought at its own points)',
			source: OWN_NUMBERS
		},
		{
			id: 'tracking/a sharp aerial circuit',
			given: { L_signal_uH: 200, T_signal_pF: 40, IF_kHz: 470, f_kHz: [600, 950, 1500], Q: 150 },
			gives: { C_padder_pF: 435.1 },
			verdict: 'poor',
			withinPct: 0.2,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
