import { defineCalculation } from './define.ts';
import { choice, number, optional } from './inputs.ts';
import { arithmetic, commonPractice, OHM_AND_JOULE, OWN_NUMBERS, published } from './sources.ts';

const tutorial = published('thin-film resistor tutorial of a maker, digikey.cn (35 %, 59.16 V)');
const filmCorners = arithmetic('straight derating with the film corners of the tutorial on digikey.cn');
const glossary = published('resistor-factory.com glossary, derating curve of a 200 C wirewound');
const kinds = [
	published('film: thin-film resistor tutorial of a maker, digikey.cn (70 and 155 C)'),
	published(
		'carbon composition: catalogue curve 1/4 to 1 W, compared with MIL-R-11F (studylib.net 18037366), 70 and 130 C'
	),
	published(
		'military metal film and wirewound: MIL-R-39017 table at interfacebus.com; wirewound 200 to 350 C by make (resistor-factory.com)'
	)
];
const twice = commonPractice('a resistor is chosen for twice the heat it has to lose');

/** Temperature up to which the full rating holds, and that at which nothing is left, in degrees C. */
const CORNERS = {
	film: { full: 70, zero: 155 },
	'carbon composition': { full: 70, zero: 130 },
	'military metal film': { full: 70, zero: 150 },
	wirewound: { full: 70, zero: 275 }
} as const;

/**
 * What is left of a resistor's rating where it sits, beside a hot valve or over a rectifier.
 *
 *     P = P_rated                                        W, up to T_full
 *     P = P_rated * (T_zero - T) / (T_zero - T_full)     W, above it
 *
 * T is the air round the part with the set warm, in its cabinet. Steady heat only.
 */
export const resistorDerating = defineCalculation({
	id: 'resistor-derating',
	title: 'Rating of a hot resistor',
	question: 'Is that resistor still within its rating where it sits?',
	group: 'Current and heat',
	words: ['derating', 'temperature', 'hot spot', 'wattage', 'rating', 'watts'],
	inputs: {
		rating: number('P_rated_W', 'rating of the part', 0.05, 200),
		temperature: number('T_C', 'air round the part, set warm and in its cabinet', -20, 350),
		kind: optional(choice('kind', 'kind of resistor', Object.keys(CORNERS) as (keyof typeof CORNERS)[])),
		full: optional(number('T_full_C', 'full rating up to, by its maker', 20, 200)),
		zero: optional(number('T_zero_C', 'nothing left at, by its maker', 60, 400)),
		heat: optional(number('P_W', 'heat that it has to lose', 0, 200)),
		resistance: optional(number('R_ohm', 'resistor', 0.1, 22e6))
	},
	ways: [
		{ title: "the maker's corners", needs: ['rating', 'temperature', 'full', 'zero'] },
		{ title: 'the kind of part', needs: ['rating', 'temperature', 'kind'] }
	],
	outputs: {
		allowed: { key: 'P_allowed_W', label: 'Heat allowed there' },
		share: { key: 'allowed_pct', label: 'Left of the rating' },
		load: { key: 'load_pct', label: 'Heat, share of what is allowed' },
		voltsLimit: { key: 'V_max', label: 'Volts across it at that heat' },
		currentLimit: { key: 'I_max_A', label: 'Current at that heat' }
	},
	formulaText: [
		'P_allowed = P_rated up to T_full',
		'P_allowed = P_rated × (T_zero − T) / (T_zero − T_full) above it',
		'V_max = √(P_allowed × R)',
		'load = 100 × P / P_allowed'
	],
	refuse({ temperature, kind, full, zero }) {
		const corners = kind ? CORNERS[kind] : { full: full ?? 0, zero: zero ?? 0 };
		if (corners.zero <= corners.full)
			return { key: 'T_zero_C', message: 'T_zero_C is not above T_full_C. Take both from the data again.' };
		if (temperature < corners.zero) return undefined;
		const message = `T_C is beyond ${corners.zero} C, where such a part may lose no heat at all. Find it a cooler place, or a part that stands more.`;
		return { key: 'T_C', message };
	},
	formula({ rating, temperature, kind, full, zero, heat, resistance }) {
		const corners = kind ? CORNERS[kind] : { full: full ?? NaN, zero: zero ?? NaN };
		const left = Math.min(1, (corners.zero - temperature) / (corners.zero - corners.full));
		const allowed = rating * left;
		return {
			allowed,
			share: 100 * left,
			load: heat === undefined ? undefined : (100 * heat) / allowed,
			voltsLimit: resistance && Math.sqrt(allowed * resistance),
			currentLimit: resistance && Math.sqrt(allowed / resistance)
		};
	},
	summary: [
		'At that temperature {allowed} are allowed, {share} of the rating.',
		'That is {voltsLimit} across it, or {currentLimit} through it.'
	],
	judge: [
		{
			by: 'load',
			bands: [
				{ upTo: 50, verdict: 'ok', says: 'It carries {load} of what is allowed there.', source: twice },
				{
					upTo: 100,
					verdict: 'warm',
					says: 'It carries {load} of what is allowed there: within it, without a margin.',
					source: twice
				},
				{
					verdict: 'overloaded',
					says: 'It carries {load} of what is allowed there: it is overloaded.',
					source: arithmetic('more heat than is allowed')
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: [] },
		{ verdict: 'warm', next: ['a bigger part, or a cooler place, when it is renewed'] },
		{
			verdict: 'overloaded',
			next: ['the current through it, against the service sheet', 'the measured value: a hot part drifts']
		}
	],
	cautions: ['A resistor that has just worked burns fingers. Unplug, discharge and let it cool.'],
	pitfalls: [
		"The maker's own corners come before the table: wirewounds differ from 200 to 350 °C by make.",
		'Parts bundled together, or sleeved, heat each other.',
		'Beside an output valve or above a rectifier the air is far hotter than the room: measure it.'
	],
	sources: [OHM_AND_JOULE, ...kinds, twice],
	checks: [
		{
			id: 'resistor-derating/1',
			given: { P_rated_W: 2, T_C: 100, T_full_C: 70, T_zero_C: 155 },
			gives: { P_allowed_W: 1.294 },
			withinPct: 0.2,
			basis: 'arithmetic',
			source: filmCorners
		},
		{
			id: 'resistor-derating/2',
			given: { P_rated_W: 0.5, T_C: 90, T_full_C: 70, T_zero_C: 155 },
			gives: { P_allowed_W: 0.3824 },
			withinPct: 0.2,
			basis: 'arithmetic',
			source: filmCorners
		},
		{
			id: 'resistor-derating/3',
			given: { P_rated_W: 1, R_ohm: 10e3, T_C: 125, T_full_C: 70, T_zero_C: 155 },
			gives: { P_allowed_W: 0.3529, V_max: 59.4 },
			withinPct: 1,
			basis: 'published (35 %, 59.16 V)',
			source: tutorial
		},
		{
			id: 'resistor-derating/4',
			given: { P_rated_W: 100, T_C: [100, 150], T_full_C: 70, T_zero_C: 200 },
			gives: { P_allowed_W: [76.92, 38.46] },
			withinPct: 1.5,
			basis: 'published (the page rounds to 77 and 38)',
			source: glossary
		},
		{
			id: 'resistor-derating/cold part at half its rating',
			given: { P_rated_W: 2, T_C: 40, kind: 'carbon composition', P_W: 1 },
			gives: { P_allowed_W: 2, load_pct: 50 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'resistor-derating/the same part at 100 C',
			given: { P_rated_W: 2, T_C: 100, kind: 'carbon composition', P_W: 0.9 },
			gives: { P_allowed_W: 1, load_pct: 90 },
			verdict: 'warm',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'resistor-derating/half a watt over the rectifier',
			given: { P_rated_W: 0.5, T_C: 115, kind: 'carbon composition', P_W: 0.25 },
			gives: { P_allowed_W: 0.125, load_pct: 200 },
			verdict: 'overloaded',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
