import { defineCalculation } from './define.ts';
import { choice, number, optional } from './inputs.ts';
import { leakageLimit, LEAKAGE_RULES } from './leakage-limit.ts';
import { arithmetic, OWN_NUMBERS, published } from './sources.ts';

const jan = published(
	'JAN-C-62 / EIA leakage rule as quoted at mail-archive.com/amradio@mailman.qth.net/msg21215.html'
);
const analyser = published(
	'table of a capacitor-analyser manual, reproduced at carnets-tsf.com/en/old-capacitors/leakage-current.html'
);
const worked = published('rule 0.01 × C × V with a floor of 3 uA, worked figure at mirandahinkleylmt.com');
const distributor = published('distributor of 1968, after 10 minutes: electrojumble.org.uk/reforming.htm');
const maker = published('capacitor maker, FAQ on leakage current against time (770 uA after 2 minutes)');
const military = published(
	'MIL-C-62F 4.5.3 (capacitors.emilspec.com): rated volts within 60 s through a resistor, read at the end of 5 minutes'
);
const secondWitness = published(
	'the 500 V line again: boatanchors list, puck.nether.net, May 1999; 80 uF 450 V, 3.5 mA: mailman.qth.net/pipermail/boatanchors/2006-February/011900.html'
);
const twiceAfterStorage = published(
	"a capacitor maker's data, clause 4.17 of IEC 60384-4: after storage twice the limit, once rated volts were on for 30 minutes"
);

/**
 * Leakage that an electrolytic may have at its rated volts, by a named rule.
 *
 *     JAN-C-62          I = k * C + 0.3   mA, C in uF; k = 0.01 to 100 V, 0.02 to 250 V, 0.025 to 350 V, 0.04 to 500 V
 *     1968 distributor  I = 0.08 * C * V + 100   uA below 100 V, 0.05 * C * V + 250 above
 *     0.01CV            I = 0.01 * C * V         uA, at least 3
 *
 * The first is the rule for parts of valve age; its printed table stops at 10 mA.
 */
export const electrolyticLeakageLimit = defineCalculation({
	id: 'electrolytic-leakage-limit',
	title: 'Leakage limit of an electrolytic',
	question: 'How much may this old electrolytic leak?',
	group: 'Capacitors',
	words: [
		'smoothing',
		'reservoir',
		'reforming',
		'JAN-C-62',
		'leaking electrolytic',
		'leaks',
		'milliamps',
		'leakage current',
		'can'
	],
	inputs: {
		capacitance: number('C_uF', 'capacitance marked on it', 1e-6, 4700e-6),
		rated: number('V_rated', 'volts marked on it', 3, 500),
		rule: optional(choice('rule', 'rule to go by (JAN-C-62 where none is chosen)', LEAKAGE_RULES)),
		leakage: optional(number('I_mA', 'leakage measured at its rated volts', 0, 0.1))
	},
	outputs: {
		limit: { key: 'I_max_mA', label: 'Leakage allowed' },
		limitSmall: { key: 'I_max_uA', label: 'Leakage allowed' },
		rule: { key: 'rule_used', label: 'By the rule' },
		minutes: { key: 'read_after_min', label: 'Read after' },
		share: { key: 'share_pct', label: 'Leakage, share of the limit' }
	},
	formulaText: [
		'JAN-C-62: I_max = k × C + 0.3 mA, C in µF; k = 0.01 up to 100 V, 0.02 up to 250 V, 0.025 up to 350 V, 0.04 up to 500 V',
		'1968 distributor: I_max = 0.08 × C × V + 100 µA below 100 V, 0.05 × C × V + 250 µA above',
		'0.01CV: I_max = 0.01 × C × V, at least 3 µA'
	],
	formula({ capacitance, rated, rule = 'JAN-C-62', leakage }) {
		const limit = leakageLimit(rule, capacitance, rated);
		// Each rule speaks in its own unit.
		const inMilliamps = rule === 'JAN-C-62';
		return {
			limit: inMilliamps ? limit : undefined,
			limitSmall: inMilliamps ? undefined : limit,
			rule,
			minutes: rule === '1968 distributor' ? 600 : 300,
			share: leakage === undefined ? undefined : (100 * leakage) / limit
		};
	},
	summary: [
		'By the rule {rule} it may leak {limit} at its rated volts.',
		'By the rule {rule} it may leak {limitSmall} at its rated volts.',
		'Read the current when those volts have stood for {minutes}.'
	],
	judge: [
		{
			by: 'share',
			bands: [
				{
					upTo: 100,
					verdict: 'ok',
					says: 'It leaks {share} of what the rule allows: it may stay, if its capacitance is right.',
					source: jan
				},
				{
					upTo: 200,
					verdict: 'watch',
					says: 'It leaks {share} of what the rule allows. Up to twice the limit is borne for the first half hour after long storage only.',
					source: twiceAfterStorage
				},
				{
					verdict: 'over',
					says: 'It leaks {share} of what the rule allows: too much. It is reformed or changed.',
					source: arithmetic('more than twice the limit')
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: ['its capacitance and its series resistance'] },
		{ verdict: 'watch', next: ['the same reading after 30 minutes at rated volts'] },
		{ verdict: 'over', next: ['how the leakage falls on the reforming supply', 'whether the case gets warm'] }
	],
	cautions: [
		'A charged capacitor bites for hours. Discharge it through a resistor and prove it dead.',
		'Mind the polarity: more than 1.5 V the wrong way destroys it.'
	],
	pitfalls: [
		'The limit holds at the rated volts. A test at half of them passes bad parts.',
		'Low leakage with the capacitance gone is a fail too.',
		'Four entries of a printed table contradict its own formula (4 and 125 µF at 350 V, 10 µF at 250 V, 250 µF at 100 V): the formula holds.',
		'A new part is asked for far less: 0.01 × C × V.'
	],
	sources: [jan, analyser, military, secondWitness, distributor, worked, twiceAfterStorage],
	checks: [
		{
			id: 'electrolytic-leakage-limit/1',
			given: { C_uF: 20, V_rated: 450, rule: 'JAN-C-62' },
			gives: { I_max_mA: 1.1 },
			withinPct: 0,
			withinAbsolute: { I_max_mA: 0.006 },
			basis: 'published',
			source: jan
		},
		{
			id: 'electrolytic-leakage-limit/2',
			given: { C_uF: 20, V_rated: 250, rule: 'JAN-C-62' },
			gives: { I_max_mA: 0.7 },
			withinPct: 0,
			withinAbsolute: { I_max_mA: 0.006 },
			basis: 'published',
			source: jan
		},
		{
			id: 'electrolytic-leakage-limit/3',
			given: { C_uF: 10, V_rated: 100, rule: 'JAN-C-62' },
			gives: { I_max_mA: 0.4 },
			withinPct: 0,
			withinAbsolute: { I_max_mA: 0.006 },
			basis: 'published',
			source: analyser
		},
		{
			id: 'electrolytic-leakage-limit/4',
			given: { C_uF: 16, V_rated: 350, rule: 'JAN-C-62' },
			gives: { I_max_mA: 0.7 },
			withinPct: 0,
			withinAbsolute: { I_max_mA: 0.006 },
			basis: 'published',
			source: analyser
		},
		{
			id: 'electrolytic-leakage-limit/5',
			given: { C_uF: 16, V_rated: 450, rule: 'JAN-C-62' },
			gives: { I_max_mA: 0.94 },
			withinPct: 0,
			withinAbsolute: { I_max_mA: 0.006 },
			basis: 'published',
			source: analyser
		},
		{
			id: 'electrolytic-leakage-limit/6',
			given: { C_uF: 80, V_rated: 450, rule: 'JAN-C-62' },
			gives: { I_max_mA: 3.5 },
			withinPct: 0,
			withinAbsolute: { I_max_mA: 0.006 },
			basis: 'published',
			source: analyser
		},
		{
			id: 'electrolytic-leakage-limit/7',
			given: { C_uF: 47, V_rated: 40, rule: '0.01CV' },
			gives: { I_max_uA: 18.8 },
			withinPct: 0.1,
			basis: 'published',
			source: worked
		},
		{
			id: 'electrolytic-leakage-limit/8',
			given: { C_uF: 32, V_rated: 350, rule: '1968 distributor' },
			gives: { I_max_uA: 810 },
			withinPct: 0.1,
			basis: 'published formula, arithmetic value',
			source: distributor
		},
		{
			id: 'electrolytic-leakage-limit/9',
			given: { C_uF: 2200, V_rated: 35, rule: '0.01CV' },
			gives: { I_max_uA: 770 },
			withinPct: 0.1,
			basis: 'published (770 uA, 2 minutes)',
			source: maker
		},
		{
			id: 'electrolytic-leakage-limit/32 uF that leaks 0.8 mA',
			given: { C_uF: 32, V_rated: 350, I_mA: 0.8 },
			gives: { I_max_mA: 1.1, share_pct: 72.73 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'electrolytic-leakage-limit/32 uF that leaks 1.9 mA',
			given: { C_uF: 32, V_rated: 350, I_mA: 1.9 },
			gives: { share_pct: 172.7 },
			verdict: 'watch',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'electrolytic-leakage-limit/32 uF that leaks 6 mA',
			given: { C_uF: 32, V_rated: 350, I_mA: 6 },
			gives: { share_pct: 545.5 },
			verdict: 'over',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
