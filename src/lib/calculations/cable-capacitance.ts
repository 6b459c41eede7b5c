import { defineCalculation } from './define.ts';
import { choice, number, optional } from './inputs.ts';
import { arithmetic, commonPractice, fromMemory, OWN_NUMBERS, published } from './sources.ts';

const coaxial = published(
	'two formulas that agree: 24 er/log10(D/d) pF/m, and 7.36 er/log10(D/d) pF/ft at idea2ic.com'
);
const fieldConstant = arithmetic('2 pi times the electric constant: 55.63 pF/m');
const plastics = published(
	'table of materials at thelen.us: polythene 2.27 to 2.5, PTFE 2.1, PVC 2.8 to 3.4, paper 3.0, paraffin wax 2.1 to 2.5'
);
const cables = published(
	'table of a wire maker, standard-wire.com (formula for capacitance of wires): solid polythene 2.26, PTFE 2.1, PVC 5, rubber 4 to 5 by kind'
);
const oldRubber = fromMemory('old rubber 3 to 4');
const retrimBand = commonPractice('a tenth of the capacitance of a tuned circuit asks for trimming');
const trebleBands = commonPractice('treble of an AM set ends near 4.5 kHz; limits at 4.5 and 9 kHz');
const screenedPart = commonPractice(
	'a coupling capacitor with an outer screen shows some 20 to 40 pF between a lead and its screen'
);

/** 2 pi times the electric constant, F/m. */
const FIELD = 55.63e-12;
/** Ohms of 138 / sqrt(er) * log10(D/d). */
const WAVE = 138;
const PER_FOOT = 0.3048;

/** Relative permittivity in the middle of what is read or remembered. */
const INSULATION = {
	polythene: 2.26,
	PTFE: 2.1,
	PVC: 3.1,
	'soft PVC': 5,
	paper: 3,
	'paraffin wax': 2.3,
	'old rubber': 4
} as const;
type Insulation = keyof typeof INSULATION;
const KINDS = Object.keys(INSULATION) as [Insulation, ...Insulation[]];

function perMetreOf(given: {
	perMetre: number | undefined;
	perFoot: number | undefined;
	er: number | undefined;
	insulation: Insulation | undefined;
	outer: number | undefined;
	inner: number | undefined;
}): number | undefined {
	const er = given.er ?? (given.insulation && INSULATION[given.insulation]);
	if (er && given.outer && given.inner) return (FIELD * er) / Math.log(given.outer / given.inner);
	return given.perMetre ?? given.perFoot;
}

function loaded(capacitance: number | undefined, tuned: number | undefined, source: number | undefined) {
	if (!capacitance) return {};
	return {
		share: tuned && (100 * capacitance) / tuned,
		corner: source && 1 / (2 * Math.PI * source * capacitance)
	};
}

/**
 * What a screened lead adds to a grid or to a tuned circuit.
 *
 *     C / l = 55.63 pF/m * er / ln(D / d)          D inside the screen, d of the wire
 *     Z0 = 138 / sqrt(er) * log10(D / d)           ohm
 *     f = 1 / (2 pi R C)                           Hz, with a source of R
 *
 * For a close screen. Loose old braid stays below it.
 */
export const cableCapacitance = defineCalculation({
	id: 'cable-capacitance',
	title: 'Capacitance of a screened lead',
	question: 'How much does this screened lead add, and what does it cost?',
	group: 'Parts and values',
	words: [
		'coax',
		'braid',
		'screen',
		'gramophone lead',
		'aerial lead',
		'treble',
		'pickup',
		'antenna lead',
		'pickup lead',
		'screened cable'
	],
	inputs: {
		length: optional({ ...number('length_m', 'length', 1e-3, 1000), alsoKeys: ['length_cm', 'length_ft'] }),
		perMetre: optional(number('pF_per_m', 'capacitance for each metre', 1e-12, 2e-9)),
		perFoot: optional(number('C_pF_per_ft', 'capacitance for each foot', 1e-12, 2e-9)),
		to: optional(choice('to', 'to be told', ['per metre', 'per foot'])),
		er: optional(number('er', 'relative permittivity of the insulation', 1, 10)),
		insulation: optional(choice('insulation', 'insulation', KINDS)),
		outer: optional(number('D_mm', 'inside of the screen', 0.1e-3, 0.1)),
		inner: optional(number('d_mm', 'wire', 0.01e-3, 0.05)),
		tuned: optional(number('C_tuned_pF', 'capacitance of the tuned circuit it hangs on', 1e-12, 1e-8)),
		source: optional(number('R_source_ohm', 'resistance of what feeds it', 1, 10e6)),
		part: optional(choice('part', 'part', ['coupling capacitor with an outer screen'])),
		read: optional(number('C_read_pF', 'read between a lead and the screen', 0, 1e-6))
	},
	ways: [
		{
			title: 'capacitance for each metre',
			needs: ['perMetre', 'length'],
			also: ['tuned', 'source']
		},
		{ title: 'capacitance for each foot', needs: ['perFoot'], also: ['to', 'length', 'tuned', 'source'] },
		{
			title: 'the diameters and a known permittivity',
			needs: ['er', 'outer', 'inner'],
			also: ['length', 'tuned', 'source']
		},
		{
			title: 'the diameters and the insulation',
			needs: ['insulation', 'outer', 'inner'],
			also: ['length', 'tuned', 'source']
		},
		{ title: 'a capacitor with an outer screen', needs: ['part'], also: ['read'] }
	],
	outputs: {
		capacitance: { key: 'C_pF', label: 'The lead adds', digits: 4 },
		perMetre: { key: 'C_pF_per_m', label: 'For each metre', digits: 4 },
		perFoot: { key: 'C_for_each_foot_pF', label: 'For each foot', digits: 4 },
		impedance: { key: 'Z0_ohm', label: 'Wave impedance' },
		share: { key: 'added_pct', label: 'Of the tuned circuit' },
		corner: { key: 'f_Hz', label: 'Treble 3 dB down at' },
		usual: { key: 'C_usual_pF', label: 'Usual between a lead and the screen, from and to' },
		ofUsual: { key: 'C_of_usual_pct', label: 'Reading, share of the most that is usual' }
	},
	formulaText: [
		'C / l = 55.63 pF/m × er / ln(D / d)',
		'Z0 = 138 / √er × log10(D / d)',
		'f = 1 / (2π × R × C)'
	],
	refuse({ outer, inner, perFoot, length, to }) {
		if (outer !== undefined && inner !== undefined && outer <= inner)
			return {
				key: 'd_mm',
				message: 'd_mm is not smaller than D_mm. Give the wire as d_mm, the screen as D_mm.'
			};
		if (perFoot === undefined || length !== undefined || to !== undefined) return undefined;
		return { key: 'length_m', message: 'length_m is missing. Give it, or choose what you want told.' };
	},
	formula(given) {
		const { length, outer, inner, part, read } = given;
		if (part) {
			const [from, to] = [20e-12, 40e-12];
			return { usual: [from, to], ofUsual: read === undefined ? undefined : (100 * read) / to };
		}
		const perMetre = perMetreOf(given);
		if (!perMetre) return {};
		const capacitance = length && perMetre * length;
		const er = given.er ?? (given.insulation && INSULATION[given.insulation]);
		return {
			capacitance,
			perMetre,
			perFoot: perMetre * PER_FOOT,
			impedance: er && outer && inner ? (WAVE / Math.sqrt(er)) * Math.log10(outer / inner) : undefined,
			...loaded(capacitance, given.tuned, given.source)
		};
	},
	summary: [
		'The lead adds {capacitance}.',
		'Each metre has {perMetre}, each foot {perFoot}.',
		'Its wave impedance is {impedance}.',
		'Treble is 3 dB down at {corner}.'
	],
	judge: [
		{
			by: 'share',
			bands: [
				{
					below: 10,
					verdict: 'ok',
					says: 'It adds {share} to the tuned circuit: within the reach of the trimmer.',
					source: retrimBand
				},
				{
					verdict: 'retrim',
					says: 'It adds {share} to the tuned circuit: the dial shifts. Trim again.',
					source: retrimBand
				}
			]
		},
		{
			by: 'corner',
			bands: [
				{
					below: 4.5e3,
					verdict: 'dull',
					says: 'It takes treble that the set still has.',
					source: trebleBands
				},
				{
					below: 9e3,
					verdict: 'watch',
					says: 'It takes the upper treble: no loss on AM, heard on records and FM.',
					source: trebleBands
				},
				{ verdict: 'ok', says: 'It takes nothing that is heard.', source: trebleBands }
			]
		},
		{
			by: 'ofUsual',
			bands: [
				{
					below: 50,
					verdict: 'watch',
					says: 'That is less than such a capacitor usually shows: the screen may be off.',
					source: screenedPart
				},
				{
					upTo: 100,
					verdict: 'ok',
					says: 'That is what such a capacitor usually shows.',
					source: screenedPart
				},
				{
					verdict: 'too-much',
					says: 'That is more than such a capacitor usually shows.',
					source: screenedPart
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: [] },
		{ verdict: 'watch', next: ['the lead by itself, lifted at both ends'] },
		{
			verdict: 'retrim',
			title: 'Trim again',
			next: ['the trimmer of that circuit, at the high end', 'a shorter lead']
		},
		{ verdict: 'dull', title: 'Takes treble', next: ['a shorter lead, or one of less capacitance'] },
		{
			verdict: 'too-much',
			title: 'Too much capacitance',
			next: ['insulation between lead and screen, unplugged', 'leads of the meter, taken off the reading']
		}
	],
	cautions: [],
	pitfalls: [
		'The length counts once, not there and back.',
		'A loosely braided old lead stays below the formula.',
		'A lead for a car aerial (30 to 60 pF/m) is of low capacitance on purpose.',
		'An audio grid fed from 500 kΩ loses 3 dB at 3.2 kHz by 100 pF more.'
	],
	sources: [coaxial, fieldConstant, plastics, cables, oldRubber, retrimBand, trebleBands, screenedPart],
	checks: [
		{
			id: 'cable-capacitance/1',
			given: { pF_per_m: 65, length_m: 150 },
			gives: { C_pF: 9750 },
			withinPct: 0,
			basis: 'published',
			source: published('electronicssimpleprojects.blogspot.com May 2015')
		},
		{
			id: 'cable-capacitance/2',
			given: { er: 2.26, D_mm: 2.95, d_mm: 0.9, length_m: 1 },
			gives: { C_pF: 105.9 },
			withinPct: 0.7,
			basis: 'published: two formulas agree',
			source: coaxial
		},
		{
			id: 'cable-capacitance/3',
			given: { C_pF_per_ft: 7.36, to: 'per metre' },
			gives: { C_pF_per_m: 24.15 },
			withinPct: 0.1,
			basis: 'published constants',
			source: published('idea2ic.com against 2*pi*e0')
		},
		{
			id: 'cable-capacitance/audio grid fed from 500 kΩ',
			given: { pF_per_m: 100, length_m: 1, R_source_ohm: 500e3 },
			gives: { C_pF: 100, f_Hz: 3183 },
			verdict: 'dull',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'cable-capacitance/gramophone lead on 220 kΩ',
			given: { pF_per_m: 100, length_m: 1, R_source_ohm: 220e3 },
			gives: { f_Hz: 7234 },
			verdict: 'watch',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'cable-capacitance/aerial lead of half a metre',
			given: { insulation: 'polythene', D_mm: 2.95, d_mm: 0.9, length_m: 0.5, C_tuned_pF: 150 },
			gives: { C_pF: 52.95, Z0_ohm: 47.34, added_pct: 35.3 },
			verdict: 'retrim',
			withinPct: 0.2,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'cable-capacitance/5 cm to the aerial coil',
			given: { pF_per_m: 60, length_m: 0.05, C_tuned_pF: 150 },
			gives: { C_pF: 3, added_pct: 2 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'cable-capacitance/screened coupling capacitor',
			given: { part: 'coupling capacitor with an outer screen', C_read_pF: 30 },
			gives: { C_usual_pF: [20, 40], C_of_usual_pct: 75 },
			verdict: 'ok',
			withinPct: 0,
			basis: 'common practice, no source',
			source: screenedPart
		},
		{
			id: 'cable-capacitance/screened coupling capacitor, 400 pF',
			given: { part: 'coupling capacitor with an outer screen', C_read_pF: 400 },
			gives: { C_of_usual_pct: 1000 },
			verdict: 'too-much',
			withinPct: 0,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
