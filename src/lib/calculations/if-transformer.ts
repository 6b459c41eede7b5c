import { printFigure } from '../quantity/index.ts';
import {
	type CoupledCircuits,
	criticalCoupling,
	peaksOf,
	responseAt,
	transfer,
	widthAt
} from './coupled-circuits.ts';
import { defineCalculation } from './define.ts';
import { choice, number, optional } from './inputs.ts';
import { numbersBetween, type Picture } from './picture.ts';
import { arithmetic, commonPractice, FOSSEE, fromMemory, OWN_NUMBERS, published } from './sources.ts';

const coupledLaw = arithmetic(
	'two coupled tuned circuits; rows compared with a circuit simulator (ngspice 39), which agreed'
);
const blake = published(`Blake, Electronic Communication Systems, ex. 6.9, p. 258; ${FOSSEE}`);
const narrowSets = published(
	'American table sets with under-coupled cans pass hardly 4 kHz (radiomuseum.org forum, 2016); a communications receiver has 4 kHz at -6 dB in its widest position (w1vd.com)'
);
const widthBands = fromMemory('IF of AM sets up to 9 kHz wide, of FM sets 150 to 250 kHz');
const lossBands = commonPractice('loss off tune: 1 dB is let be, more than 10 dB has a reason of its own');
const simulated = arithmetic('C 110 pF, L 1112.3 uH, 318 kohm across each; ngspice 39');

const SIDES = ['primary', 'secondary', 'both', 'both, opposite ways'] as const;
type Side = (typeof SIDES)[number];

/** Least and most that the IF of a set usually passes at -6 dB, Hz: AM, and FM where the IF is a few MHz. */
const AM_WIDTH = { from: 4e3, to: 9e3 } as const;
const FM_WIDTH = { from: 150e3, to: 250e3 } as const;
const FM_FROM = 2e6;
/** The neighbouring channel of the 9 kHz raster. */
const NEIGHBOUR = 9e3;
const SCAN = 241;

interface Told {
	middle: number | undefined;
	q: number | undefined;
	q1: number | undefined;
	q2: number | undefined;
	coupling: number | undefined;
	kq: number | undefined;
	detuned: Side | undefined;
	by: number | undefined;
	cans: number | undefined;
}

/** The circuits as they are now, off tune where that was told; undefined where the coupling is not known. */
function circuitsOf({ middle, q, q1 = q, q2 = q, coupling, kq, detuned, by = 0, cans = 1 }: Told) {
	if (!middle || !q1 || !q2) return undefined;
	const k = coupling ?? (kq && kq / Math.sqrt(q1 * q2));
	if (!k) return undefined;
	const off1 = detuned === 'secondary' || !detuned ? 0 : by;
	const off2 = detuned === 'primary' || !detuned ? 0 : detuned === 'both, opposite ways' ? -by : by;
	const circuits: CoupledCircuits = { middle, q1, q2, coupling: k, off1, off2, cans };
	return circuits;
}

const onTune = (circuits: CoupledCircuits): CoupledCircuits => ({ ...circuits, off1: 0, off2: 0 });

/** Wide enough to show the skirts and a circuit that is off tune. */
function spanOf(circuits: CoupledCircuits): number {
	return 1.5 * widthAt(circuits, 6) + Math.max(Math.abs(circuits.off1), Math.abs(circuits.off2));
}

function curveOf(circuits: CoupledCircuits, span: number): [number, number][] {
	return numbersBetween(-span, span, SCAN).map((offset) => [offset, responseAt(circuits, offset)]);
}

/** Where the response of circuits off tune peaks, and how unequal its sides are at the width they had on tune. */
function shapeOf(circuits: CoupledCircuits) {
	const top = curveOf(circuits, spanOf(circuits)).reduce((a, b) => (b[1] > a[1] ? b : a));
	const edge = widthAt(onTune(circuits), 6) / 2;
	return {
		loss: responseAt(circuits, 0),
		peakOff: top[0],
		lopsided: Math.abs(responseAt(circuits, edge) - responseAt(circuits, -edge))
	};
}

function widthWord(width: number, middle: number): string {
	const { from, to } = middle < FM_FROM ? AM_WIDTH : FM_WIDTH;
	if (width < from) return 'little';
	return width <= to ? 'usual' : 'much';
}

/** Z of the tuned circuits, the geometric mean of both, ohm. */
function impedanceOf({ middle, q1, q2 }: CoupledCircuits, coil?: number, capacitor?: number) {
	const radians = 2 * Math.PI * middle;
	const reactance = coil ? radians * coil : capacitor && 1 / (radians * capacitor);
	return reactance && Math.sqrt(q1 * q2) * reactance;
}

/**
 * Response, width and gain of an IF transformer, and what a circuit off tune costs.
 *
 *     k_crit = 1 / sqrt(Q1 Q2),  y = k / k_crit,  x = 2 Q df / f0
 *     A = (1 + y^2) / |(1 + j x1)(1 + j x2) + y^2|         against the middle, both on tune
 *     gain = g_m Z y / (1 + y^2),  Z = Q 2 pi f0 L          critical: g_m Z / 2
 *
 * Q is loaded, by valve and diode. Equal cans one after the other add their decibels. Inductive coupling lifts the lower
 * skirt a little (f0 / f), which is left out here.
 */
export const ifTransformer = defineCalculation({
	id: 'if-transformer',
	title: 'IF transformer',
	question: 'How wide is this IF, what gain has it, and what does it cost to be off tune?',
	group: 'Tuning and alignment',
	words: [
		'IF can',
		'selectivity',
		'coupling',
		'over-coupled',
		'response',
		'skirt',
		'mistuned',
		'screws',
		'peak',
		'stations spread'
	],
	inputs: {
		middle: optional({ ...number('f0_kHz', 'IF', 30e3, 30e6), alsoKeys: ['f0_MHz'] }),
		q: optional(number('Q', 'Q of each circuit, loaded', 2, 500)),
		q1: optional(number('Q1', 'Q of the primary, loaded', 2, 500)),
		q2: optional(number('Q2', 'Q of the secondary, loaded', 2, 500)),
		coupling: optional(number('k', 'coupling factor', 1e-5, 0.5)),
		kq: optional(number('kQ', 'coupling, times the critical one', 0.05, 10)),
		detuned: optional(choice('detuned', 'off tune', SIDES)),
		by: optional(number('by_kHz', 'off tune by', -1e6, 1e6)),
		offset: optional(number('off_kHz', 'response wanted so far from the middle', 0, 5e6)),
		cans: optional(number('cans', 'cans of the whole IF, all alike', 1, 4)),
		slope: optional(number('gm_mA_V', 'slope of the valve before it', 0.05e-3, 30e-3)),
		coil: optional(number('L_uH', 'coil of each circuit', 0.1e-6, 0.1)),
		capacitor: optional(number('C_pF', 'capacitor of each circuit', 1e-12, 10e-9))
	},
	ways: [
		{
			title: 'equal circuits, k known',
			needs: ['middle', 'q', 'coupling'],
			also: ['detuned', 'by', 'offset', 'cans', 'slope', 'coil', 'capacitor']
		},
		{
			title: 'equal circuits, coupling against the critical one',
			needs: ['middle', 'q', 'kq'],
			also: ['detuned', 'by', 'offset', 'cans', 'slope', 'coil', 'capacitor']
		},
		{
			title: 'unequal circuits, k known',
			needs: ['middle', 'q1', 'q2', 'coupling'],
			also: ['detuned', 'by', 'offset', 'cans', 'slope', 'coil', 'capacitor']
		},
		{
			title: 'unequal circuits, coupling against the critical one',
			needs: ['middle', 'q1', 'q2', 'kq'],
			also: ['detuned', 'by', 'offset', 'cans', 'slope', 'coil', 'capacitor']
		},
		{ title: 'which coupling is critical', needs: ['q1', 'q2'], also: ['middle'] }
	],
	outputs: {
		width: { key: 'BW_kHz', label: 'Bandwidth, 3 dB down' },
		width6: { key: 'BW_6dB_kHz', label: 'Bandwidth, 6 dB down' },
		passes: { key: 'passes', label: 'The whole IF passes' },
		peaks: { key: 'peaks_off_kHz', label: 'Two peaks, each off the middle by' },
		hump: { key: 'hump_dB', label: 'The peaks rise by' },
		transfer: { key: 'gain_over_Z', label: 'Gain for each unit of slope and Z' },
		impedance: { key: 'Z_ohm', label: 'Impedance of the circuits' },
		gain: { key: 'gain', label: 'Gain of the stage' },
		tight: { key: 'kQ', label: 'Coupling, times the critical one' },
		critical: { key: 'k_critical', label: 'Critical coupling factor' },
		best: { key: 'k_opt', label: 'Coupling for a flat top, 1.5 times critical' },
		shortcut: { key: 'BW_shortcut_kHz', label: 'Textbook width k × f0, not a 3 dB width' },
		neighbour: { key: 'dB_at_9kHz_off', label: 'Neighbouring channel, 9 kHz off' },
		there: { key: 'dB_off', label: 'Response at the place asked for' },
		loss: { key: 'loss_dB', label: 'Middle, against both on tune' },
		peakOff: { key: 'peak_off_kHz', label: 'The peak stands off the middle by' },
		lopsided: { key: 'symmetry_dB', label: 'Unequal at the edges by' }
	},
	formulaText: [
		'k_crit = 1 / √(Q1 × Q2),  y = k / k_crit,  x = 2 × Q × df / f0',
		'response = (1 + y²) / |(1 + j·x1) × (1 + j·x2) + y²|',
		'critical: BW = √2 × f0 / Q;  over-critical: peaks at x = ±√(y² − 1), hump (1 + y²) / (2y)',
		'gain = g_m × Z × y / (1 + y²),  Z = Q × 2π × f0 × L'
	],
	refuse({ detuned, by, middle, coil, capacitor, slope, cans }) {
		if ((detuned === undefined) !== (by === undefined))
			return detuned === undefined
				? { key: 'detuned', message: 'by_kHz alone does not say which circuit is off tune. Choose it.' }
				: { key: 'by_kHz', message: 'by_kHz is missing: how far the circuit is off tune. Give it.' };
		if (by !== undefined && middle !== undefined && Math.abs(by) > 0.1 * middle)
			return {
				key: 'by_kHz',
				message: 'by_kHz is more than a tenth of f0_kHz: this sum holds near the middle only. Check the unit.'
			};
		if (cans !== undefined && !Number.isInteger(cans))
			return { key: 'cans', message: 'cans is not a whole number. Count those of the IF.' };
		if (coil !== undefined && capacitor !== undefined)
			return { key: 'C_pF', message: 'L_uH and C_pF are both given. Leave one out: the IF tells the other.' };
		if (slope === undefined || coil !== undefined || capacitor !== undefined) return undefined;
		return { key: 'L_uH', message: 'L_uH is missing: the gain of gm_mA_V needs it. Give L_uH or C_pF.' };
	},
	formula(given) {
		const { middle, q, q1 = q, q2 = q, slope, cans, detuned, offset } = given;
		if (!q1 || !q2) return {};
		const critical = criticalCoupling(q1, q2);
		const best = 1.5 * critical;
		const circuits = circuitsOf(given);
		if (!circuits) return { critical, best, shortcut: middle && best * middle };
		const peaks = peaksOf(circuits);
		const impedance = impedanceOf(circuits, given.coil, given.capacitor);
		const width6 = widthAt(circuits, 6);
		return {
			tight: circuits.coupling / critical,
			critical,
			width: widthAt(circuits, 3.0103),
			width6,
			passes: cans && widthWord(width6, circuits.middle),
			peaks: peaks?.offset,
			hump: peaks?.rise,
			transfer: transfer(circuits),
			impedance,
			gain: slope && impedance && slope * impedance * transfer(circuits),
			neighbour: circuits.middle < FM_FROM ? responseAt(onTune(circuits), NEIGHBOUR) : undefined,
			there: offset === undefined ? undefined : responseAt(circuits, offset),
			...(detuned && shapeOf(circuits))
		};
	},
	summary: [
		'It is {width} wide at 3 dB down, {width6} at 6 dB down.',
		'It has two peaks, each {peaks} off the middle, which rise by {hump}.',
		'The neighbouring channel, 9 kHz off, comes through at {neighbour}.',
		'The stage has a gain of {gain}.',
		'Off tune, the middle stands at {loss}, the peak {peakOff} off the middle, and the edges differ by {lopsided}.',
		'The critical coupling factor is {critical}.'
	],
	judge: [
		{
			by: 'loss',
			bands: [
				{
					below: -10,
					verdict: 'far-off',
					says: 'The circuits are far off: the middle stands at {loss}. That much has a reason besides the cores.',
					source: lossBands
				},
				{
					below: -1,
					verdict: 'off-tune',
					says: 'The middle stands at {loss}: that is heard.',
					source: lossBands
				},
				{ verdict: 'ok', says: 'The loss is not heard.', source: lossBands }
			]
		},
		{
			by: 'passes',
			bands: [
				{
					is: 'little',
					verdict: 'narrow',
					says: 'The whole IF is {width6} wide at 6 dB down: narrow, with little treble.',
					source: narrowSets
				},
				{ is: 'usual', verdict: 'ok', says: 'The whole IF is as wide as in most sets.', source: widthBands },
				{
					verdict: 'wide',
					says: 'The whole IF is {width6} wide at 6 dB down: wider than in most sets.',
					source: widthBands
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: [] },
		{ verdict: 'narrow', title: 'Narrow', next: ['the coupling of the cans, and their damping resistors'] },
		{
			verdict: 'wide',
			title: 'Wide',
			next: ['the Q of the coils: damp, shorted turns, a leaky diode or valve']
		},
		{ verdict: 'off-tune', title: 'Off tune', next: ['the IF alignment, from the last can forward'] },
		{
			verdict: 'far-off',
			title: 'Far off tune',
			next: [
				'the capacitors in the cans: drifted or silver-migrated mica, damp',
				'the IF that the set was built for',
				'a core screwed through to the far peak'
			]
		}
	],
	pictures(given) {
		const circuits = circuitsOf(given);
		if (!circuits) return [];
		const { middle } = circuits;
		const tuned = onTune(circuits);
		const span = spanOf(circuits);
		const half = widthAt(tuned, 6) / 2;
		const curve = (of: CoupledCircuits) =>
			curveOf(of, span)
				.filter((_, i) => i % 2 === 0)
				.map(([offset, level]) => [middle + offset, level] as const);
		const before = { label: 'before: off tune', style: 'dashed', points: curve(circuits) } as const;
		const after = {
			label: given.detuned ? 'after: both on tune' : 'both on tune',
			style: 'solid',
			points: curve(tuned)
		} as const;
		// How unequal the sides are: the levels at the two edges of the width that the cans should have.
		const edges = [-half, half].map((offset) => {
			const level = responseAt(circuits, offset);
			return { label: `${printFigure(level, 'dB', 3)} dB`, x: middle + offset, y: level };
		});
		const picture: Picture = {
			title: 'Response of the IF',
			x: { label: 'Frequency', unit: middle < FM_FROM ? 'kHz' : 'MHz', scale: 'linear' },
			y: { label: 'Response', unit: 'dB', scale: 'linear' },
			curves: given.detuned ? [after, before] : [after],
			marks: [{ label: '6 dB down', y: -6 }, ...(given.detuned ? edges : [])],
			bands: [{ axis: 'x', from: middle - half, to: middle + half, label: 'width at −6 dB' }]
		};
		return [picture];
	},
	cautions: [],
	pitfalls: [
		'Over-coupled circuits are damped (47 to 100 kΩ across the other winding) while one is peaked, or aligned with a wobbulator: never by ear.',
		'Silver-mica capacitors in IF cans go intermittent and look like mistuning.',
		'Of two cores in one can, one may have been screwed through to the far peak.',
		'k × f0 of the textbooks is roughly the width over which the response stays above its value in the middle, not the 3 dB width.',
		'Five kilohertz off in one winding costs a few dB, in every winding tens of dB.'
	],
	sources: [coupledLaw, blake, narrowSets, widthBands, lossBands],
	checks: [
		{
			id: 'if-transformer/1',
			given: { f0_kHz: 455, Q: 100, k: 0.01 },
			gives: { kQ: 1, BW_kHz: 6.43, gain_over_Z: 0.5, dB_at_9kHz_off: -17.94 },
			withinPct: 0.6,
			withinAbsolute: { dB_at_9kHz_off: 0.1 },
			basis: 'formula; ngspice 39 gives 6.4 kHz, 0.500, -17.92/-17.96 dB',
			source: simulated
		},
		{
			id: 'if-transformer/2',
			given: { f0_kHz: 455, Q: 60, k: 0.016666666666666666 },
			gives: { BW_kHz: 10.72, dB_at_9kHz_off: -9.51 },
			withinPct: 1.5,
			withinAbsolute: { dB_at_9kHz_off: 0.1 },
			basis: 'formula; ngspice 39 gives 10.6 kHz, -9.46/-9.56 dB',
			source: simulated
		},
		{
			id: 'if-transformer/3',
			given: { f0_kHz: 455, Q: 100, k: 0.015 },
			gives: { kQ: 1.5, peaks_off_kHz: 2.54, hump_dB: 0.696, gain_over_Z: 0.4615 },
			withinPct: 1,
			withinAbsolute: { hump_dB: 0.03 },
			basis: 'formula; ngspice 39 gives peaks near 452.5 kHz, 0.695 dB, 0.4615',
			source: simulated
		},
		{
			id: 'if-transformer/4',
			given: { f0_kHz: 455, Q: 100, kQ: 1, detuned: 'secondary', by_kHz: 5 },
			gives: { loss_dB: -3.44 },
			verdict: 'off-tune',
			withinPct: 0,
			withinAbsolute: { loss_dB: 0.15 },
			basis: 'formula; ngspice 39 gives -3.36 dB',
			source: simulated
		},
		{
			id: 'if-transformer/5',
			given: { f0_kHz: 455, Q: 100, kQ: 1, detuned: 'both', by_kHz: 5 },
			gives: { loss_dB: -8.35 },
			verdict: 'off-tune',
			withinPct: 0,
			withinAbsolute: { loss_dB: 0.25 },
			basis: 'formula; ngspice 39 gives -8.17 dB',
			source: simulated
		},
		{
			id: 'if-transformer/6',
			given: { Q1: 100, Q2: 80 },
			gives: { k_critical: 0.01118 },
			withinPct: 0.1,
			basis: 'formula 1/sqrt(Q1*Q2)',
			source: OWN_NUMBERS
		},
		{
			id: 'if-transformer/7',
			given: { f0_kHz: 455, Q1: 40, Q2: 30 },
			gives: { k_critical: 0.02887, k_opt: 0.0433, BW_shortcut_kHz: 19.7 },
			withinPct: 0.5,
			basis: 'published (0.029, 0.043, 19.7 kHz)',
			source: blake
		},
		{
			id: 'if-transformer/two cans, both windings 6 kHz off',
			given: { f0_kHz: 455, Q: 100, kQ: 1, detuned: 'both', by_kHz: 6, cans: 2 },
			gives: { loss_dB: -22.34, peak_off_kHz: 6 },
			verdict: 'far-off',
			withinPct: 2,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'if-transformer/two critical cans of Q 100',
			given: { f0_kHz: 455, Q: 100, kQ: 1, cans: 2, gm_mA_V: 2, L_uH: 1112.3 },
			gives: { BW_6dB_kHz: 6.43, Z_ohm: 318e3, gain: 318 },
			verdict: 'ok',
			withinPct: 0.2,
			basis: 'arithmetic (two cans at 3 dB each)',
			source: OWN_NUMBERS
		},
		{
			id: 'if-transformer/under-coupled cans of a small set',
			given: { f0_kHz: 455, Q: 120, kQ: 0.5, cans: 2 },
			gives: { BW_6dB_kHz: 3.184 },
			verdict: 'narrow',
			withinPct: 1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'if-transformer/damped windings',
			given: { f0_kHz: 455, Q: 40, kQ: 1, cans: 1 },
			gives: { BW_kHz: 16.09 },
			verdict: 'wide',
			withinPct: 0.2,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
