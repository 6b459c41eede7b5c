import { defineCalculation } from './define.ts';
import { choice, number, optional } from './inputs.ts';
import { commonPractice, FOSSEE, fromMemory, OWN_NUMBERS, published } from './sources.ts';

const thomson = published(
	`resonance of coil and capacitor: Mehta and Mehta, Principles of Electronics, ex. 15.1; Q as reactance over resistance, bandwidth between the half-power points: US Navy NEETS, electriciantraining.tpub.com/14181 p. 1-47; width f / Q: iwab.nu question 054; ${FOSSEE}`
);
const qOfBooks = published(
	`Q of loaded circuits in worked examples: broadcast aerial circuits 40, 50, 100 and 110 (Blake ex. 6.5, Roddy and Coolen ex. 7.6.1, Kennedy ex. 7.1, Beasley and Miller ex. 3.1), IF windings 30 to 40 (Blake ex. 6.9); ${FOSSEE}`
);
const qFromMemory = fromMemory(
	'Q of unloaded coils: IF 60 to 150, medium-wave aerial 60 to 120, frame or ferrite 100 to 250'
);
const qBands = commonPractice('Q against the low end of its usual range: 50 and 100 %');
const companion = (example: string) =>
	published(
		`Communication textbook worked example ${example}, numbers as transcribed in FOSSEE Scilab Textbook Companion, book 1409 (book title not seen)`
	);
const bird = (problem: string) =>
	published(`J. Bird, Electrical Circuit Theory and Technology, problem ${problem}; ${FOSSEE}`);

/** Low ends of the usual Q of each kind. */
const LEAST_Q = {
	'aerial circuit, loaded': 40,
	'IF winding, loaded': 30,
	'IF coil alone': 60,
	'medium-wave aerial coil alone': 60,
	'frame or ferrite aerial': 100
} as const;
type Kind = keyof typeof LEAST_Q;
const KINDS = Object.keys(LEAST_Q) as [Kind, ...Kind[]];

/** Below this a resonance is spoken of in hertz, from this capacitance on in nanofarads. */
const HERTZ_BELOW = 10e3;
const NANOFARADS_FROM = 1e-9;

const radians = (frequency: number): number => 2 * Math.PI * frequency;
const partner = (frequency: number, part: number): number => 1 / (radians(frequency) ** 2 * part);
const resonanceOf = (coil: number, capacitance: number): number =>
	1 / (2 * Math.PI * Math.sqrt(coil * capacitance));

const frequencies = (frequency: number) =>
	frequency < HERTZ_BELOW ? { lowResonance: frequency } : { resonance: frequency };
const capacitances = (capacitance: number) =>
	capacitance < NANOFARADS_FROM ? { capacitance } : { largeCapacitance: capacitance };

interface Loss {
	series: number | undefined;
	across: number | undefined;
	q: number | undefined;
}

/** Q, bandwidth and impedance of a circuit from its loss, told in one of three ways. */
function withLoss(frequency: number, coil: number, { series, across, q }: Loss) {
	const reactance = radians(frequency) * coil;
	const quality = q ?? (series ? reactance / series : across && across / reactance);
	if (quality === undefined) return {};
	const damping = reactance / quality / coil;
	const peak = radians(frequency) ** 2 - damping ** 2;
	return {
		quality,
		width: frequency / quality,
		impedance: quality * reactance,
		lossyPeak: series && peak > 0 ? Math.sqrt(peak) / (2 * Math.PI) : undefined
	};
}

/** Width at `frequency` when that at another is known: with constant Q, and with losses that rise along the band. */
function widthOverBand(frequency: number, reference: number, width: number) {
	const quality = reference / width;
	return { quality, width: frequency / quality, widthByRoot: width * Math.sqrt(frequency / reference) };
}

/** Strays of a coil from two resonances with `one` and `other` added to it. */
function straysOf(one: number, f1: number, other: number, f2: number) {
	const strays = (one - other) / ((f2 / f1) ** 2 - 1) - other;
	return { strays, coil: partner(f1, one + strays) };
}

function dialMove(now: number, want: number, total: number | undefined, coil: number | undefined) {
	const change = (now / want) ** 2 - 1;
	return {
		change: 100 * change,
		addCapacitance: total && total * change,
		addCoil: coil && coil * change
	};
}

/**
 * Coil, capacitor, resonance, Q and bandwidth; strays of a coil; what moves a station along the dial.
 *
 *     f = 1 / (2 pi sqrt(L * C))                        Hz, from H and F
 *     Q = 2 pi f L / R = R_p / (2 pi f L),  BW = f / Q
 *     Z = Q * 2 pi f L                                  ohm, across a parallel circuit
 *     dC = C_total * ((f_now / f_want)^2 - 1)           the same for the coil
 *     C_stray = (C1 - C2) / ((f2 / f1)^2 - 1) - C2
 *
 * Strays and the coil's own capacitance belong to C_total. With series loss R a parallel circuit peaks a little lower.
 */
export const lcResonance = defineCalculation({
	id: 'lc-resonance',
	title: 'Coil, capacitor and resonance',
	question: 'What does this coil tune to, how sharply, and how much moves a station along the dial?',
	group: 'Tuning and alignment',
	words: [
		'inductance',
		'tuned circuit',
		'bandwidth',
		'trimmer',
		'core',
		'tank',
		'dial',
		'shorted turn',
		'coil resonance',
		'coil turns',
		'winding',
		'tunes to'
	],
	inputs: {
		coil: optional({ ...number('L_uH', 'coil', 1e-9, 100), alsoKeys: ['L_mH', 'L_H'] }),
		capacitor: optional({
			...number('C_pF', 'capacitance, strays included', 1e-14, 1e-2),
			alsoKeys: ['C_nF', 'C_uF']
		}),
		frequency: optional({ ...number('f_kHz', 'resonance', 10, 1e9), alsoKeys: ['f_MHz', 'f_Hz'] }),
		series: optional(number('R_ohm', 'loss in series with the coil', 1e-3, 100e3)),
		across: optional(number('R_p_ohm', 'loss across the circuit', 10, 100e6)),
		q: optional(number('Q', 'Q', 0.5, 10e3)),
		off: optional(number('off_pct', 'off tune by', 0, 50)),
		kind: optional(choice('circuit', 'kind of coil or circuit', KINDS)),
		low: optional({ ...number('f_min_kHz', 'low end of the band', 10e3, 1e9), alsoKeys: ['f_min_MHz'] }),
		high: optional({ ...number('f_max_kHz', 'high end of the band', 10e3, 1e9), alsoKeys: ['f_max_MHz'] }),
		now: optional({
			...number('f_now_kHz', 'where the station stands now', 10e3, 1e9),
			alsoKeys: ['f_now_MHz']
		}),
		want: optional({ ...number('f_want_kHz', 'where it belongs', 10e3, 1e9), alsoKeys: ['f_want_MHz'] }),
		total: optional(number('C_total_pF', 'all capacitance of the circuit there', 1e-13, 1e-6)),
		coilNow: optional(number('L_now_uH', 'coil as it is', 1e-9, 1)),
		added: optional(number('C1_pF', 'first capacitor added', 0, 1e-6)),
		addedAt: optional(number('f1_kHz', 'resonance with the first one', 1e3, 1e9)),
		added2: optional(number('C2_pF', 'second capacitor added, 0 for none', 0, 1e-6)),
		addedAt2: optional(number('f2_kHz', 'resonance with the second one', 1e3, 1e9)),
		coilQ: optional(number('Q_L', 'Q of the coil', 1, 10e3)),
		capacitorQ: optional(number('Q_C', 'Q of the capacitor', 1, 100e3)),
		reference: optional(number('f_ref_kHz', 'frequency at which the bandwidth is known', 10e3, 1e9)),
		referenceWidth: optional(number('BW_ref_kHz', 'bandwidth there', 1, 100e6))
	},
	ways: [
		{
			title: 'coil and capacitor',
			needs: ['coil', 'capacitor'],
			also: ['series', 'across', 'q', 'off', 'kind']
		},
		{
			title: 'coil and frequency',
			needs: ['coil', 'frequency'],
			also: ['series', 'across', 'q', 'off', 'reference', 'referenceWidth', 'kind']
		},
		{
			title: 'capacitor and frequency',
			needs: ['capacitor', 'frequency'],
			also: ['series', 'across', 'q', 'off', 'kind']
		},
		{ title: 'frequency and Q', needs: ['frequency', 'q'], also: ['off', 'kind'] },
		{
			title: 'a bandwidth at another frequency',
			needs: ['frequency', 'reference', 'referenceWidth']
		},
		{ title: 'the ends of a band', needs: ['low', 'high'] },
		{ title: 'a station at the wrong place', needs: ['now', 'want'], also: ['total', 'coilNow'] },
		{
			title: 'two capacitors added to a coil',
			needs: ['added', 'addedAt', 'added2', 'addedAt2']
		},
		{ title: 'Q of coil and capacitor', needs: ['coilQ', 'capacitorQ'], also: ['kind'] }
	],
	outputs: {
		resonance: { key: 'f_kHz', alsoKeys: ['f_MHz'], label: 'Resonance', digits: 4 },
		lowResonance: { key: 'f_Hz', label: 'Resonance', digits: 4 },
		lossyPeak: { key: 'f_peak_kHz', label: 'Peak of the parallel circuit with that loss', digits: 4 },
		coil: { key: 'L_uH', alsoKeys: ['L_mH'], label: 'Coil', digits: 4 },
		capacitance: { key: 'C_pF', label: 'Capacitance', digits: 4 },
		largeCapacitance: { key: 'C_nF', label: 'Capacitance', digits: 4 },
		quality: { key: 'Q', label: 'Q' },
		width: { key: 'BW_kHz', label: 'Bandwidth, 3 dB down' },
		widthByRoot: { key: 'BW_sqrt_kHz', label: 'Bandwidth where coil losses rise along the band' },
		impedance: { key: 'Z_ohm', label: 'Impedance across the circuit' },
		response: { key: 'response', label: 'Response off tune, of the peak' },
		qShare: { key: 'Q_of_usual_pct', label: 'Q, share of the least that is usual' },
		ratio: { key: 'f_ratio', label: 'Frequency ratio', digits: 4 },
		capacitanceRatio: { key: 'C_ratio', label: 'Capacitance ratio', digits: 4 },
		change: { key: 'change_pct', label: 'Change of capacitance or coil' },
		addCapacitance: { key: 'dC_pF', label: 'Capacitance to add, less than nought to take out' },
		addCoil: { key: 'dL_uH', label: 'Inductance to add, less than nought to take out' },
		strays: { key: 'C_stray_pF', label: 'Strays and the coil’s own capacitance' }
	},
	formulaText: [
		'f = 1 / (2π × √(L × C))',
		'Q = 2π × f × L / R = R_p / (2π × f × L)',
		'BW = f / Q,  Z = Q × 2π × f × L',
		'with series loss the parallel circuit peaks at √(1 / (L × C) − (R / L)²) / 2π',
		'response off tune = 1 / √(1 + (2 × Q × δ)²)',
		'dC = C_total × ((f_now / f_want)² − 1); the same for the coil',
		'C_stray = (C1 − C2) / ((f2 / f1)² − 1) − C2',
		'Q of both = Q_L × Q_C / (Q_L + Q_C)'
	],
	refuse(given) {
		const losses = [given.series, given.across, given.q].filter((one) => one !== undefined);
		if (losses.length > 1)
			return { key: 'Q', message: 'The loss is given twice. Give one of R_ohm, R_p_ohm and Q.' };
		if ((given.reference === undefined) !== (given.referenceWidth === undefined)) {
			const key = given.reference === undefined ? 'f_ref_kHz' : 'BW_ref_kHz';
			return { key, message: `${key} is missing. Give f_ref_kHz and BW_ref_kHz together.` };
		}
		if (given.reference !== undefined && losses.length > 0)
			return {
				key: 'BW_ref_kHz',
				message: 'BW_ref_kHz tells the loss already. Leave out R_ohm, R_p_ohm, Q.'
			};
		if (given.low !== undefined && given.high !== undefined && given.low >= given.high)
			return {
				key: 'f_max_kHz',
				message: 'f_max_kHz is not above f_min_kHz. Give the low end as f_min_kHz.'
			};
		const { coil, capacitor, frequency, series } = given;
		const loaded = capacitor ?? (coil && frequency && partner(frequency, coil));
		const inductance = coil ?? (capacitor && frequency && partner(frequency, capacitor));
		if (series && inductance && loaded && series >= Math.sqrt(inductance / loaded))
			return {
				key: 'R_ohm',
				message:
					'R_ohm is larger than the reactance of the coil: nothing resonates. Check R_ohm and its unit.'
			};
		return refuseStrays(given);
	},
	formula(given) {
		const { coil, capacitor, frequency, off, kind } = given;
		const loss = { series: given.series, across: given.across, q: given.q };
		const finished = <R extends { quality?: number | undefined }>(results: R) => ({
			...results,
			response: off && results.quality && 1 / Math.hypot(1, (2 * results.quality * off) / 100),
			qShare: kind && results.quality && (100 * results.quality) / LEAST_Q[kind]
		});
		if (coil !== undefined && capacitor !== undefined) {
			const tuned = resonanceOf(coil, capacitor);
			return finished({ ...frequencies(tuned), ...withLoss(tuned, coil, loss) });
		}
		const wide =
			frequency !== undefined && given.reference !== undefined && given.referenceWidth !== undefined
				? widthOverBand(frequency, given.reference, given.referenceWidth)
				: undefined;
		if (coil !== undefined && frequency !== undefined)
			return finished({
				...capacitances(partner(frequency, coil)),
				...(wide ?? withLoss(frequency, coil, loss))
			});
		if (capacitor !== undefined && frequency !== undefined) {
			const wound = partner(frequency, capacitor);
			return finished({ coil: wound, ...withLoss(frequency, wound, loss) });
		}
		if (wide) return finished(wide);
		if (frequency !== undefined && given.q !== undefined)
			return finished({ quality: given.q, width: frequency / given.q });
		if (given.low !== undefined && given.high !== undefined) {
			const ratio = given.high / given.low;
			return { ratio, capacitanceRatio: ratio ** 2 };
		}
		if (given.now !== undefined && given.want !== undefined)
			return dialMove(given.now, given.want, given.total, given.coilNow);
		const { added, addedAt, added2, addedAt2, coilQ, capacitorQ } = given;
		if (added !== undefined && addedAt && added2 !== undefined && addedAt2)
			return straysOf(added, addedAt, added2, addedAt2);
		if (!coilQ || !capacitorQ) return {};
		return finished({ quality: (coilQ * capacitorQ) / (coilQ + capacitorQ) });
	},
	summary: [
		'It tunes to {resonance}.',
		'It tunes to {lowResonance}.',
		'The coil is {coil}.',
		'That takes {capacitance} in all, strays included.',
		'That takes {largeCapacitance} in all, strays included.',
		'Q is {quality}.',
		'It is {width} wide at 3 dB down.',
		'The gang has to change {capacitanceRatio} times for a frequency ratio of {ratio}.',
		'Change the capacitance or the coil by {change}: at the high end with the trimmer, at the low end with core or padder.',
		'That is {addCapacitance}.',
		'That is {addCoil}.',
		'Strays are {strays}.'
	],
	judge: [
		{
			by: 'qShare',
			bands: [
				{
					below: 50,
					verdict: 'low-q',
					says: 'The circuit has {qShare} of the least Q that is usual: something takes it.',
					source: qBands
				},
				{
					below: 100,
					verdict: 'watch',
					says: 'The circuit has {qShare} of the least Q that is usual: somewhat low.',
					source: qBands
				},
				{ verdict: 'ok', says: 'The Q is as such a circuit usually has, or better.', source: qBands }
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: [] },
		{
			verdict: 'watch',
			next: ['damp in coil and former', 'what loads the circuit: a leaky valve or capacitor']
		},
		{
			verdict: 'low-q',
			title: 'Too little Q',
			next: [
				'a shorted turn: it takes the Q first',
				'a broken strand of the litz wire',
				'the capacitor across the coil, for leakage'
			]
		}
	],
	cautions: ['Measure coils unplugged, with the reservoir proved dead and one end of the coil lifted.'],
	pitfalls: [
		'A screening can lowers the inductance by 5 to 15 % (from memory): measure in the can.',
		'A shorted turn shows first as lost Q.',
		'Strays belong to the whole capacitance.',
		'Band not reached at the high end: strays too large (another valve, long leads, trimmer stuck in).',
		'Band not reached at the low end: coil too small (core out, shorted turn), gang or padder low.',
		'A trimmer acts at the high end, where the whole capacitance is small: df/f is half of dC/C.',
		'Over a band the width lies between constant Q (grows as f) and rising losses (grows as the root of f).'
	],
	sources: [thomson, qOfBooks, qFromMemory, qBands],
	checks: [
		{
			id: 'lc-resonance/1',
			given: { f_kHz: 2000, C_pF: 50, R_ohm: 60 },
			gives: { L_uH: 126.65, Q: 26.53 },
			withinPct: 0.1,
			basis: 'published',
			source: companion('8.10, p. 8-50')
		},
		{
			id: 'lc-resonance/2',
			given: { L_uH: 1250, C_pF: 250, R_ohm: 10 },
			gives: { f_kHz: 284.7, f_peak_kHz: 284.7, Z_ohm: 500e3, Q: 223.6 },
			withinPct: 0.1,
			basis: 'published',
			source: published(
				`Mehta and Mehta, Principles of Electronics, ex. 15.1, p. 394 (attribution confirmed); ${FOSSEE}`
			)
		},
		{
			id: 'lc-resonance/3',
			given: { f_MHz: 99.7, L_uH: 2 },
			gives: { C_pF: 1.274 },
			withinPct: 0.2,
			basis: 'published',
			source: published('toughstem.com problem 1135')
		},
		{
			id: 'lc-resonance/4',
			given: { f_kHz: 21000, Q: 70 },
			gives: { BW_kHz: 300 },
			withinPct: 0.1,
			basis: 'published',
			source: published('iwab.nu question 054')
		},
		{
			id: 'lc-resonance/5',
			given: { f_min_kHz: 525, f_max_kHz: 1650 },
			gives: { f_ratio: 3.143, C_ratio: 9.878 },
			withinPct: 0.5,
			basis: 'published (the book rounds to 3.14 and 9.86)',
			source: companion('8.15, p. 8-54')
		},
		{
			id: 'lc-resonance/6',
			given: { f_want_kHz: 1450, f_now_kHz: 1500, C_total_pF: 60 },
			gives: { dC_pF: 4.21 },
			withinPct: 0.2,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'lc-resonance/7',
			given: { C1_pF: 1000, f1_kHz: 92.5, C2_pF: 500, f2_kHz: 127.8 },
			gives: { C_stray_pF: 50.1, L_uH: 2819 },
			withinPct: 1,
			withinAbsolute: { C_stray_pF: 2.5 },
			basis: 'published inputs, recomputed (strays are the difference of near values: 5 %)',
			source: bird('28.3')
		},
		{
			id: 'lc-resonance/8',
			given: { f_kHz: 1000, L_uH: 239 },
			gives: { C_pF: 106 },
			withinPct: 0.2,
			basis: 'published',
			source: published(`Grob, Basic Electronics, ex. 25-3 and 25-4; ${FOSSEE}`)
		},
		{
			id: 'lc-resonance/9',
			given: { L_uH: 10, f_kHz: [550, 1550], f_ref_kHz: 1100, BW_ref_kHz: 10 },
			gives: { C_nF: [8.374, 1.0543], Q: 110, BW_kHz: [5, 14.09] },
			withinPct: 0.2,
			basis: 'published (constant Q)',
			source: published(`Beasley and Miller, Modern Electronic Communication, ex. 3.1; ${FOSSEE}`)
		},
		{
			id: 'lc-resonance/9, losses that rise',
			given: { f_kHz: 1700, f_ref_kHz: 540, BW_ref_kHz: 10 },
			gives: { BW_sqrt_kHz: 17.7 },
			withinPct: 0.5,
			basis: 'published (width grows as the root of the frequency)',
			source: published(`Blake, Electronic Communication Systems, ex. 6.1; ${FOSSEE}`)
		},
		{
			id: 'lc-resonance/10',
			given: { R_ohm: 15, L_mH: 8, C_uF: 0.3, off_pct: 3 },
			gives: { f_Hz: 3249, Q: 10.89, response: 0.837 },
			withinPct: 0.5,
			basis: 'published (response by 1/sqrt(1 + (2*Q*delta)^2))',
			source: bird('28.11')
		},
		{
			id: 'lc-resonance/11',
			given: { Q_L: 60, Q_C: 300 },
			gives: { Q: 50 },
			withinPct: 0.1,
			basis: 'published',
			source: bird('29.6')
		},
		{
			id: 'lc-resonance/core of a low-end station',
			given: { f_now_kHz: 560, f_want_kHz: 550, L_now_uH: 180 },
			gives: { change_pct: 3.669, dL_uH: 6.605 },
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'lc-resonance/a sound aerial circuit',
			given: { L_uH: 180, f_kHz: 1000, R_ohm: 20, circuit: 'aerial circuit, loaded' },
			gives: { Q: 56.55, Q_of_usual_pct: 141.4 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'lc-resonance/an IF coil somewhat damp',
			given: { L_uH: 1100, f_kHz: 455, R_p_ohm: 150e3, circuit: 'IF coil alone' },
			gives: { Q: 47.7, Q_of_usual_pct: 79.5 },
			verdict: 'watch',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'lc-resonance/a shorted turn in an IF coil',
			given: { L_uH: 1000, f_kHz: 455, R_ohm: 190, circuit: 'IF coil alone' },
			gives: { Q: 15.05, Q_of_usual_pct: 25.08 },
			verdict: 'low-q',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});

interface Added {
	added: number | undefined;
	addedAt: number | undefined;
	added2: number | undefined;
	addedAt2: number | undefined;
}

/** More capacitance has to lower the resonance, and the strays have to be more than nothing. */
function refuseStrays({ added, addedAt, added2, addedAt2 }: Added) {
	if (added === undefined || !addedAt || added2 === undefined || !addedAt2) return undefined;
	if ((added - added2) * (addedAt2 - addedAt) <= 0)
		return {
			key: 'f2_kHz',
			message:
				'The larger capacitor has to give the lower resonance. Check f1_kHz and f2_kHz against C1_pF and C2_pF.'
		};
	if (straysOf(added, addedAt, added2, addedAt2).strays >= 0) return undefined;
	return {
		key: 'f2_kHz',
		message: 'These readings leave strays below nothing. Measure f1_kHz and f2_kHz again, near resonance.'
	};
}
