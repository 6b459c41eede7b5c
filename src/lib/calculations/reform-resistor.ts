import { defineCalculation } from './define.ts';
import { choice, number, optional } from './inputs.ts';
import { arithmetic, commonPractice, OHM_AND_JOULE, OWN_NUMBERS, published } from './sources.ts';

const oldHands = published(
	'90 kohm at 450 V, 5 mA into a short: mail-archive.com/amradio@mailman.qth.net/msg21215.html'
);
const radioAmateur = published('470 kohm, 2 W at 450 V: a page on reforming at qsl.net');
const careful = published(
	"a capacitor maker's note on shelf stock of October 1993: 10 kohm to 75 V, 100 kohm above, 1 mA of charge, 4 hours at rated volts"
);
const modern = published(
	'EIA-815 (1999) as shown at globalstandardslibrary.com: 100 ohm to 100 V, 1000 ohm above, one hour'
);
const twice = commonPractice('a resistor is chosen for twice the heat it has to lose');

/** Most that a dead short may draw, A. */
const SHORT_MOST = 5e-3;

/** Resistor in ohm and hours at rated volts by a rule, for a supply of so many volts. */
const RULES = {
	careful: (volts: number) => ({ resistance: volts <= 75 ? 10e3 : 100e3, hours: 4 }),
	'5 mA': (volts: number) => ({ resistance: volts / SHORT_MOST, hours: undefined }),
	'modern stored part': (volts: number) => ({ resistance: volts <= 100 ? 100 : 1000, hours: 1 })
} as const;

/**
 * The resistor through which an electrolytic is woken, and what the volts across it tell.
 *
 *     I_short = V / R        A, into a dead short
 *     P_short = V^2 / R      W, what the resistor must stand for ever
 *     I_leak  = V_R / R      A
 *     V_cap   = V - V_R      V
 */
export const reformResistor = defineCalculation({
	id: 'reform-resistor',
	title: 'Resistor for reforming',
	question: 'Through which resistor do I wake this electrolytic, and what leaks now?',
	group: 'Capacitors',
	words: ['reform', 'wake', 'electrolytic', 'reforming resistor', 'forming', 'series resistor'],
	inputs: {
		volts: number('V', 'volts of the reforming supply', 3, 600),
		resistance: optional(number('R_ohm', 'resistor in series', 100, 2.2e6)),
		rule: optional(choice('rule', 'rule to go by', Object.keys(RULES) as (keyof typeof RULES)[])),
		across: optional(number('V_across_R', 'volts measured across the resistor', 0, 600)),
		rating: optional(number('P_rated_W', 'rating of the resistor', 0.1, 50))
	},
	ways: [
		{ title: 'a resistor at hand', needs: ['volts', 'resistance'], also: ['across'] },
		{ title: 'a rule', needs: ['volts', 'rule'] }
	],
	outputs: {
		resistance: { key: 'R_ohm', label: 'Resistor' },
		shortCurrent: { key: 'I_short_A', label: 'Current into a dead short' },
		shortHeat: { key: 'P_short_W', label: 'Heat in the resistor then' },
		leakage: { key: 'I_leak_A', label: 'Current through the capacitor now' },
		capacitor: { key: 'V_cap', label: 'Volts on the capacitor now' },
		hours: { key: 'min_hours_at_rated', label: 'Hours at rated volts, at least' },
		shortShare: { key: 'short_pct', label: 'Current into a short, share of 5 mA' },
		load: { key: 'load_pct', label: 'Heat into a short, share of the rating' }
	},
	formulaText: ['I_short = V / R', 'P_short = V² / R', 'I_leak = V_R / R', 'V_cap = V − V_R'],
	refuse({ volts, across = 0 }) {
		if (across <= volts) return undefined;
		return { key: 'V_across_R', message: 'V_across_R is above V. Measure both again, set to DC.' };
	},
	formula({ volts, resistance: fitted, rule, across, rating }) {
		const ruled = rule && RULES[rule](volts);
		const resistance = fitted ?? ruled?.resistance ?? NaN;
		const shortCurrent = volts / resistance;
		const shortHeat = volts * shortCurrent;
		return {
			resistance,
			shortCurrent,
			shortHeat,
			leakage: across === undefined ? undefined : across / resistance,
			capacitor: across === undefined ? undefined : volts - across,
			hours: ruled?.hours,
			// A rule has its own reason for its current.
			shortShare: fitted === undefined ? undefined : (100 * shortCurrent) / SHORT_MOST,
			load: rating && (100 * shortHeat) / rating
		};
	},
	summary: [
		'Through {resistance} a dead short draws {shortCurrent}, and the resistor loses {shortHeat}.',
		'The capacitor stands at {capacitor}, and {leakage} flows into it: charge at first, leakage later.',
		'Keep it at its rated volts for {hours} hours or more.'
	],
	judge: [
		{
			by: 'shortShare',
			bands: [
				{
					upTo: 100,
					verdict: 'ok',
					says: 'A dead short would draw no more than 5 mA.',
					source: oldHands
				},
				{
					verdict: 'too-strong',
					says: 'A dead short would draw {shortCurrent}. Choose a larger resistor: 5 mA is enough to wake a capacitor.',
					source: oldHands
				}
			]
		},
		{
			by: 'load',
			bands: [
				{
					upTo: 50,
					verdict: 'ok',
					says: 'The resistor stands a dead short for ever, at {load} of its rating.',
					source: twice
				},
				{
					upTo: 100,
					verdict: 'warm',
					says: 'The resistor stands a dead short at {load} of its rating, but gets hot.',
					source: twice
				},
				{
					verdict: 'resistor-burns',
					says: 'With a dead short the resistor carries {load} of its rating and burns. Take a bigger one.',
					source: arithmetic('more heat than the rating')
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: ['how the leakage falls in time, at rated volts'] },
		{ verdict: 'warm', next: ['the next larger body'] },
		{ verdict: 'too-strong', next: ['a resistor of V / 5 mA or more'] },
		{ verdict: 'resistor-burns', next: ['a resistor of twice the watts'] }
	],
	cautions: [
		'The supply and the capacitor kill. One hand, insulated clips, and discharge through a resistor before touching.',
		'Stay with it. If the case gets warm, stop.'
	],
	pitfalls: [
		'While the capacitor charges, the current is charge and not leakage: wait until the volts stand.',
		'Above 1.5 V the wrong way round it is destroyed.',
		'Do not reform in the set by a lamp limiter with a solid-state rectifier: that is full volts at once.',
		'The same standard for modern parts discharges through about 1 ohm for each volt and rests the part 12 to 48 hours.'
	],
	sources: [OHM_AND_JOULE, oldHands, radioAmateur, careful, modern, twice],
	checks: [
		{
			id: 'reform-resistor/1',
			given: { V: 450, R_ohm: 90e3 },
			gives: { I_short_A: 0.005, P_short_W: 2.25 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'published (5 mA), arithmetic (power)',
			source: oldHands
		},
		{
			id: 'reform-resistor/2',
			given: { V: 450, R_ohm: 470e3 },
			gives: { I_short_A: 0.000957, P_short_W: 0.431 },
			verdict: 'ok',
			withinPct: 0.3,
			basis: 'published values (450 V, 470 kohm, 2 W part), arithmetic result',
			source: radioAmateur
		},
		{
			id: 'reform-resistor/3',
			given: { V: 450, R_ohm: 90e3, V_across_R: 45 },
			gives: { I_leak_A: 0.0005, V_cap: 405 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'reform-resistor/4',
			given: { V: 450, rule: 'careful' },
			gives: { R_ohm: 100e3, I_short_A: 0.0045, P_short_W: 2.025, min_hours_at_rated: 4 },
			withinPct: 0.1,
			basis: 'published rule (10 kohm to 75 V, 100 kohm above, 4 h), arithmetic current and power',
			source: careful
		},
		{
			id: 'reform-resistor/10 kohm at 350 V',
			given: { V: 350, R_ohm: 10e3 },
			gives: { I_short_A: 0.035, P_short_W: 12.25 },
			verdict: 'too-strong',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'reform-resistor/90 kohm of 3 W',
			given: { V: 450, R_ohm: 90e3, P_rated_W: 3 },
			gives: { load_pct: 75 },
			verdict: 'warm',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'reform-resistor/90 kohm of half a watt',
			given: { V: 450, R_ohm: 90e3, P_rated_W: 0.5 },
			gives: { load_pct: 450 },
			verdict: 'resistor-burns',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'reform-resistor/a modern part of 63 V',
			given: { V: 63, rule: 'modern stored part' },
			gives: { R_ohm: 100, min_hours_at_rated: 1 },
			withinPct: 0.1,
			basis: 'published',
			source: modern
		}
	]
});
