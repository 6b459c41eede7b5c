import { defineCalculation } from './define.ts';
import { choice, column, number, numbers, optional, rows } from './inputs.ts';
import { arithmetic, commonPractice, FOSSEE, fromMemory, OWN_NUMBERS, published } from './sources.ts';

const window = published(
	'valvewizard.co.uk/fuses.html: time-delay, 1.5 to 2 times the normal primary current'
);
const windings = published(
	'tubeamparchive.com p=307016 (73.4 VA): volts times amps of each winding, twice the current'
);
const times = published(
	"fuse maker's data at dtsheet.com 1378052; another maker's sheet of 1998 prints 1 s and 0.1 s as lower limits at 2.75 and 10 times"
);
const bird = published(`J. Bird, Electrical Circuit Theory and Technology, problem 2.20; ${FOSSEE}`);
const threeTimes = commonPractice(
	'a fuse of more than three times the current does not save the transformer'
);
const htRule = published(
	'HT fuse of about 1.5 times the direct current: theultimatetone.com thread 220 (1.25 × 1.25 times), unofficialwarmoth.com thread 9691 (half as much again)'
);
const htTwice = fromMemory('up to 2 times the direct current for an HT fuse');
const row = published(
	"standard ratings from 50 mA to 2 A: a fuse maker's table of radial-lead fuses, scribd.com 579109020"
);
const smallest = fromMemory('32 and 40 mA as the two ratings below');

/** Standard ratings, A. */
const STANDARD = [
	0.032, 0.04, 0.05, 0.063, 0.08, 0.1, 0.125, 0.16, 0.2, 0.25, 0.315, 0.4, 0.5, 0.63, 0.8, 1, 1.25, 1.6, 2
] as const;

const SHEET_5 = 'T ceramic, IEC 60127-2 sheet 5';
/** Seconds within which a time-lag fuse opens, by rating; null where the sheet sets no limit. */
const OPENS = [
	{ at: 1.5, small: [3600, null], large: [3600, null] },
	{ at: 2.1, small: [null, 1800], large: [null, 1800] },
	{ at: 2.75, small: [0.25, 80], large: [0.75, 80] },
	{ at: 4, small: [0.05, 5], large: [0.095, 5] },
	{ at: 10, small: [0.005, 0.15], large: [0.01, 0.15] }
] as const;

const nearestTo = (wanted: number, from: readonly number[]): number | undefined =>
	[...from].sort((a, b) => Math.abs(a - wanted) - Math.abs(b - wanted))[0];

function opensTable(rating: number | undefined, multiples: readonly number[] | undefined) {
	if (rating === undefined || multiples === undefined) return undefined;
	return multiples.flatMap((multiple) => {
		const found = OPENS.find(({ at }) => at === multiple);
		const [from, to] = (rating < 1 ? found?.small : found?.large) ?? [null, null];
		return found ? [{ times: multiple, from_s: from, to_s: to }] : [];
	});
}

/**
 * Which fuse for a set without one, or with a wrong one.
 *
 *     I = VA / V_mains, VA = sum of V * I of the windings     A; or the watts of the back plate
 *     window = 1.5 to 2 times I, time-lag
 *
 * A fuse saves against a short. It does not save a transformer from a slow overload: a thermal link does.
 */
export const fuse = defineCalculation({
	id: 'fuse',
	title: 'Fuse for a set',
	question: 'Which fuse for a set that has none, or a wrong one?',
	group: 'Safety',
	words: [
		'time lag',
		'slow blow',
		'T fuse',
		'rating',
		'HT fuse',
		'fuse blew',
		'fuse blows',
		'blown fuse',
		'what size fuse',
		'amps',
		'anti-surge'
	],
	inputs: {
		power: optional({ ...number('W_set', 'watts of the set', 1, 5000), alsoKeys: ['W'] }),
		windings: optional(
			rows('windings', 'windings of the mains transformer', {
				volts: column('V', 'volts', 0.5, 2000),
				current: column('I_A', 'amps', 0.0001, 20)
			})
		),
		bias: optional(number('bias_VA', 'volt-amps of small windings', 0, 50)),
		mains: optional(number('V_mains', 'volts at the wall', 90, 260)),
		anode: optional(number('I_dc_A', 'direct current of the HT', 0.001, 1)),
		fitted: optional(number('fitted_A', 'rating of the fuse that is in it', 0.01, 20)),
		atHand: optional(numbers('row_A', 'ratings at hand, in place of the standard row', 0.01, 30)),
		type: optional(choice('type', 'kind of fuse', [SHEET_5])),
		rating: optional(number('rating_A', 'rating of the fuse', 0.032, 3.15)),
		multiples: optional(numbers('times_rating', 'multiples of its rating: 1.5, 2.1, 2.75, 4, 10', 1, 20))
	},
	ways: [
		{ title: 'the windings', needs: ['windings'], also: ['bias', 'mains', 'fitted', 'atHand'] },
		{ title: 'the watts of the set', needs: ['power', 'mains'], also: ['fitted', 'atHand'] },
		{ title: 'the direct current', needs: ['anode'], also: ['fitted', 'atHand'] },
		{ title: 'when a fuse opens', needs: ['type', 'rating', 'multiples'] }
	],
	outputs: {
		apparent: { key: 'VA', label: 'Volt-amps of the windings' },
		current: { key: 'I_A', label: 'Normal current' },
		window: { key: 'window_mA', label: '1.5 to 2 times the current' },
		inWindow: { key: 'standard_in_window_mA', label: 'Standard ratings in between' },
		nearest: { key: 'nearest_to_twice_mA', label: 'Standard rating nearest to twice' },
		next: { key: 'next_A', label: 'Next rating at hand' },
		kind: { key: 'type', label: 'Kind' },
		opens: {
			key: 'opens_s',
			label: 'Opens',
			columns: { times: 'Times its rating', from_s: 'Not before, s', to_s: 'At the latest, s' }
		},
		ratio: { key: 'times_current', label: 'Fuse fitted, times the current' }
	},
	formulaText: [
		'VA = sum of V × I of the windings',
		'I = VA / V_mains, or W_set / V_mains',
		'window = 1.5 × I to 2 × I',
		'HT fuse: 1.5 × I_dc to 2 × I_dc'
	],
	refuse({ multiples, atHand, power, anode, mains, fitted }) {
		const strange = multiples?.find((multiple) => !OPENS.some(({ at }) => at === multiple));
		if (strange !== undefined)
			return { key: 'times_rating', message: `times_rating knows 1.5, 2.1, 2.75, 4 and 10, not ${strange}.` };
		const current = anode ?? (power !== undefined && mains !== undefined ? power / mains : undefined);
		if (atHand !== undefined && current !== undefined && Math.max(...atHand) < current)
			return { key: 'row_A', message: 'row_A has no fuse that carries the current. Add larger ratings.' };
		if (fitted === undefined || mains !== undefined || anode !== undefined) return undefined;
		return {
			key: 'V_mains',
			message: 'V_mains is missing: the fuse fitted is judged by the current. Give it.'
		};
	},
	formula({ power, windings: table, bias, mains, anode, fitted, atHand, type, rating, multiples }) {
		const apparent = table?.reduce((sum, { volts, current }) => sum + volts * current, bias ?? 0);
		const load = power ?? apparent;
		const current = anode ?? (load !== undefined && mains !== undefined ? load / mains : undefined);
		if (current === undefined) return { apparent, kind: type, opens: opensTable(rating, multiples) };
		return {
			apparent,
			current,
			window: [1.5 * current, 2 * current],
			inWindow: STANDARD.filter((value) => value >= 1.5 * current && value <= 2 * current),
			nearest: nearestTo(2 * current, STANDARD),
			next: atHand && [...atHand].sort((a, b) => a - b).find((value) => value >= current),
			kind: 'T',
			ratio: fitted && fitted / current
		};
	},
	summary: [
		'The windings take {apparent}.',
		'The set draws {current}; the rating nearest to twice that is {nearest}, time-lag (T).',
		'The next rating at hand is {next}.'
	],
	judge: [
		{
			by: 'ratio',
			bands: [
				{
					below: 1.5,
					verdict: 'tight',
					says: 'The fuse is {ratio} times the current: it will open at some switch-on.',
					source: window
				},
				{
					upTo: 2,
					verdict: 'ok',
					says: 'The fuse is {ratio} times the current, as it should be.',
					source: window
				},
				{
					upTo: 3,
					verdict: 'large',
					says: 'The fuse is {ratio} times the current: larger than need be, unless a cold chain asks for it.',
					source: threeTimes
				},
				{
					verdict: 'does-not-protect',
					says: 'The fuse is {ratio} times the current: it does not protect the transformer.',
					source: threeTimes
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: ['that it is time-lag, and of high breaking capacity at the mains entry'] },
		{ verdict: 'tight', next: ['the next standard rating'] },
		{ verdict: 'large', next: ['the rating nearest to twice the current'] },
		{ verdict: 'does-not-protect', next: ['a fuse from the window', 'a thermal link on the transformer'] }
	],
	cautions: [
		'Local codes and licensed practice decide what is fitted in a mains lead.',
		'The fuse belongs in the line, never in the neutral or the earth alone. Where the plug can be turned, switch both poles.'
	],
	pitfalls: [
		'A time-lag fuse carries 1.5 times its rating for an hour, and twice its rating for many minutes: it is no thermal link.',
		'The fuse in a British plug protects the flex, not the set.',
		'A cold AC/DC chain draws twice its current at switch-on.',
		'North American ratings go by another rule (UL 248-14): the same number is not the same fuse.',
		'Small-body T fuses differ: one maker’s opens at 2.1 times within 2 minutes.'
	],
	sources: [window, windings, times, threeTimes, htRule, htTwice, row, smallest],
	checks: [
		{
			id: 'fuse/1',
			given: {
				windings: [
					[300, 0.15],
					[6.3, 3],
					[5, 1.9]
				],
				bias_VA: 0.05
			},
			gives: { VA: 73.45 },
			withinPct: 0.2,
			basis: 'published (73.4 VA)',
			source: windings
		},
		{
			id: 'fuse/2',
			given: { W_set: 45, V_mains: 230 },
			gives: {
				I_A: 0.1957,
				window_mA: [293, 391],
				standard_in_window_mA: [315],
				nearest_to_twice_mA: 400,
				type: 'T'
			},
			withinPct: 1,
			basis: 'published rule, arithmetic values',
			source: window
		},
		{
			id: 'fuse/3',
			given: { type: SHEET_5, rating_A: [0.5, 0.8], times_rating: [1.5, 2.1, 2.75, 4, 10] },
			gives: {
				opens_s: [
					{ times: 1.5, from_s: 3600, to_s: null },
					{ times: 2.1, from_s: null, to_s: 1800 },
					{ times: 2.75, from_s: 0.25, to_s: 80 },
					{ times: 4, from_s: 0.05, to_s: 5 },
					{ times: 10, from_s: 0.005, to_s: 0.15 }
				]
			},
			withinPct: 0,
			basis: 'published',
			source: times
		},
		{
			id: 'fuse/4',
			given: { W: [1000, 3000], V_mains: 240, row_A: [5, 10, 13] },
			gives: { I_A: [4.167, 12.5], next_A: [5, 13] },
			withinPct: 0.1,
			basis: 'published',
			source: bird
		},
		{
			id: 'fuse/3.15 A in a set of 45 W',
			given: { W_set: 45, V_mains: 230, fitted_A: 3.15 },
			gives: { times_current: 16.1 },
			verdict: 'does-not-protect',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'fuse/500 mA in a set of 45 W',
			given: { W_set: 45, V_mains: 230, fitted_A: 0.5 },
			gives: { times_current: 2.556 },
			verdict: 'large',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'fuse/315 mA in a set of 45 W',
			given: { W_set: 45, V_mains: 230, fitted_A: 0.315 },
			gives: { times_current: 1.61 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'fuse/200 mA in a set of 45 W',
			given: { W_set: 45, V_mains: 230, fitted_A: 0.2 },
			gives: { times_current: 1.022 },
			verdict: 'tight',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'fuse/HT of 80 mA',
			given: { I_dc_A: 0.08 },
			gives: { window_mA: [120, 160], standard_in_window_mA: [125, 160], nearest_to_twice_mA: 160 },
			withinPct: 0.1,
			basis: 'arithmetic (rule from memory)',
			source: arithmetic('rule from memory')
		}
	]
});
