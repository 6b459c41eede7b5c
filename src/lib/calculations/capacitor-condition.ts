import { defineCalculation } from './define.ts';
import { choice, number, optional } from './inputs.ts';
import { leakageLimit } from './leakage-limit.ts';
import { commonPractice, fromMemory, OWN_NUMBERS, published } from './sources.ts';

const readsHigh = published(
	'log of a 20 uF capacitor that read above 30 uF while it leaked, and truer after reforming (retronics.no, 28 Feb 2023)'
);
const jan = published(
	'JAN-C-62 / EIA leakage rule as quoted at mail-archive.com/amradio@mailman.qth.net/msg21215.html'
);
const capacitanceBands = commonPractice('capacitance read against the marking: 50, 80, 150 and 200 %');
const wide = fromMemory('old electrolytics were marked -20 % to +50 % or more');
const ratioDetector = commonPractice(
	'a ratio-detector electrolytic of 3 uF that reads 3.1 to 3.2 uF without leakage stays'
);
const fifty = commonPractice('an electrolytic of 50 uF that reads 120 uF is changed');

/**
 * Whether an electrolytic stays, from its marking, what the meter reads and what leaks.
 *
 *     share of the marking = 100 * read / marked            %
 *     share of the limit   = 100 * I / (k * C + 0.3 mA)     %, by the rule for parts of valve age
 *
 * A capacitance meter takes leakage for capacitance: far too much capacitance is a leak.
 */
export const capacitorCondition = defineCalculation({
	id: 'capacitor-condition',
	title: 'Electrolytic: stays or is changed',
	question: 'Marked so much, reads so much: does this electrolytic stay?',
	group: 'Capacitors',
	words: [
		'ratio detector',
		'capacitance meter',
		'smoothing',
		'reservoir',
		'ESR',
		'old electrolytic',
		'electrolytic reads too much',
		'capacitance high',
		'dried out',
		'swollen'
	],
	inputs: {
		marked: number('C_marked_uF', 'capacitance marked on it', 0.1e-6, 5000e-6),
		read: number('C_read_uF', 'capacitance the meter reads', 0, 20000e-6),
		leaks: optional(choice('leaks', 'leakage, where only seen', ['none seen', 'leaks'])),
		leakage: optional(number('I_mA', 'leakage measured at its rated volts', 0, 0.1)),
		rated: optional(number('V_rated', 'volts marked on it', 3, 500))
	},
	outputs: {
		share: { key: 'C_share_pct', label: 'Capacitance, of the marking' },
		limit: { key: 'I_max_mA', label: 'Leakage allowed' },
		leakShare: { key: 'leakage_share_pct', label: 'Leakage, share of the limit' },
		seen: { key: 'leakage_seen', label: 'Leakage' }
	},
	formulaText: ['share = 100 × C_read / C_marked', 'I_max = k × C_marked + 0.3 mA (JAN-C-62)'],
	refuse({ leaks, leakage, rated }) {
		if (leakage !== undefined && rated === undefined)
			return {
				key: 'V_rated',
				message: 'V_rated is missing: the leakage is judged by it. Read it off the part.'
			};
		if (leakage === undefined || leaks === undefined) return undefined;
		return { key: 'leaks', message: 'I_mA is measured: leave leaks out.' };
	},
	formula({ marked, read, leaks, leakage, rated }) {
		const limit = rated === undefined ? undefined : leakageLimit('JAN-C-62', marked, rated);
		return {
			share: (100 * read) / marked,
			limit,
			leakShare: leakage !== undefined && limit ? (100 * leakage) / limit : undefined,
			seen: leaks ?? (leakage === undefined ? 'not tested' : undefined)
		};
	},
	summary: ['At its rated volts it may leak {limit}.'],
	judge: [
		{
			by: 'share',
			bands: [
				{
					below: 50,
					verdict: 'change',
					says: 'It has {share} of its capacitance: dried out. Change it.',
					source: capacitanceBands
				},
				{
					below: 80,
					verdict: 'watch',
					says: 'It has {share} of its capacitance: enough perhaps for a by-pass, little for smoothing.',
					source: capacitanceBands
				},
				{
					upTo: 150,
					verdict: 'stays',
					says: 'It has {share} of its capacitance: as such parts were marked.',
					source: wide
				},
				{
					upTo: 200,
					verdict: 'watch',
					says: 'It reads {share} of its marking. Leakage makes a capacitance meter read high: reform it, then measure again.',
					source: readsHigh
				},
				{
					verdict: 'change',
					says: 'It reads {share} of its marking: that is leakage, not capacitance. Change it.',
					source: fifty
				}
			]
		},
		{
			by: 'leakShare',
			bands: [
				{
					upTo: 100,
					verdict: 'stays',
					says: 'It leaks {leakShare} of what its rule allows.',
					source: jan
				},
				{
					verdict: 'reform-first',
					says: 'It leaks {leakShare} of what its rule allows: reform it first. If the leakage stalls, change it.',
					source: jan
				}
			]
		},
		{
			by: 'seen',
			bands: [
				{ is: 'none seen', verdict: 'stays', says: 'No leakage was seen.', source: ratioDetector },
				{
					is: 'leaks',
					verdict: 'reform-first',
					says: 'It leaks: reform it first, and measure how much.',
					source: jan
				},
				{
					verdict: 'watch',
					says: 'Its leakage was not tested: a capacitance meter does not see it.',
					source: readsHigh
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'stays', next: ['its series resistance, in the place where it smooths'] },
		{ verdict: 'watch', next: ['its leakage at its rated volts', 'the capacitance again afterwards'] },
		{ verdict: 'reform-first', next: ['how the leakage falls on the reforming supply'] },
		{ verdict: 'change', next: ['its neighbours in the same can'] }
	],
	cautions: [
		'Discharge it through a resistor and prove it dead, before the meter goes on and after each test.'
	],
	pitfalls: [
		'Lift one lead: parts beside it count as capacitance.',
		'A good reading does not clear its series resistance, nor its leakage at volts.',
		'The capacitor of a ratio detector decides on AM noise: a few per cent over is welcome, leakage is not.'
	],
	sources: [capacitanceBands, wide, readsHigh, jan, ratioDetector, fifty],
	checks: [
		{
			id: 'capacitor-condition/3 uF of a ratio detector reads 3.1 to 3.2',
			given: { C_marked_uF: 3, C_read_uF: [3.1, 3.2], leaks: 'none seen' },
			gives: { C_share_pct: [103.3, 106.7] },
			verdict: 'stays',
			withinPct: 0.1,
			basis: 'common practice, no source',
			source: ratioDetector
		},
		{
			id: 'capacitor-condition/50 uF reads 120',
			given: { C_marked_uF: 50, C_read_uF: 120 },
			gives: { C_share_pct: 240 },
			verdict: 'change',
			withinPct: 0.1,
			basis: 'common practice, no source',
			source: fifty
		},
		{
			id: 'capacitor-condition/20 uF reads above 30 while it leaks',
			given: { C_marked_uF: 20, C_read_uF: 31, V_rated: 450, I_mA: 4.5 },
			gives: { C_share_pct: 155, I_max_mA: 1.1, leakage_share_pct: 409.1 },
			verdict: 'reform-first',
			withinPct: 0.1,
			basis: 'published (20 uF 450 V, above 30 uF, 4.5 mA; later healthy)',
			source: readsHigh
		},
		{
			id: 'capacitor-condition/32 uF reads 33, leakage not tested',
			given: { C_marked_uF: 32, C_read_uF: 33 },
			gives: { C_share_pct: 103.1 },
			verdict: 'watch',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'capacitor-condition/25 uF reads 6',
			given: { C_marked_uF: 25, C_read_uF: 6, leaks: 'none seen' },
			gives: { C_share_pct: 24 },
			verdict: 'change',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
