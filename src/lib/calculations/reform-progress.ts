import { defineCalculation, type Given, type Inputs } from './define.ts';
import { choice, column, number, optional, rows } from './inputs.ts';
import { leakageLimit, LEAKAGE_RULES } from './leakage-limit.ts';
import { numbersBetween, type Picture } from './picture.ts';
import { currentAt, fitLeakage, type LeakageFit, type LeakageReading, timeAt } from './reform-fit.ts';
import { arithmetic, commonPractice, OWN_NUMBERS, published } from './sources.ts';

const log = published(
	'retronics.no, 28 Feb 2023, leakage log of a 20 uF 450 V capacitor held at 350 V: 4.5, 1.0 and 0.12 mA'
);
const jan = published(
	'JAN-C-62 / EIA leakage rule as quoted at mail-archive.com/amradio@mailman.qth.net/msg21215.html'
);
const warmCase = published(
	'Test equipment for valve radio repair, vintage-radio.net post 217662: a case that is noticeably warm at the end is doubtful'
);
const slopes = commonPractice('slopes of -0.2 and -0.1, an hour, and 24 hours as the end: our own choice');
const rise = commonPractice('a rise of more than 5 % at constant volts: our own choice');
const night = commonPractice(
	'a 2 uF electrolytic that still leaks 2 mA at a lowered voltage after a night on the supply does not come back'
);

const HOUR = 3600;
const LONGEST = 24 * HOUR;
const NIGHT = 8 * HOUR;

const inputs = {
	capacitance: optional(number('C_uF', 'capacitance marked on it', 1e-6, 4700e-6)),
	rated: optional(number('V_rated', 'volts marked on it', 3, 500)),
	rule: optional(choice('rule', 'rule for the limit (JAN-C-62 where none is chosen)', LEAKAGE_RULES)),
	limit: optional(number('limit_mA', 'leakage allowed, if known', 1e-6, 0.1)),
	applied: number('V_applied', 'volts on it, held constant', 1, 500),
	working: optional(number('V_working', 'volts that it meets in the set', 1, 500)),
	series: rows('series_min_mA', 'readings at constant volts', {
		time: column('t_min', 'time since the volts were put on', 3, 30 * 24 * HOUR),
		current: column('I_mA', 'leakage', 1e-9, 0.1),
		volts: optional(column('V_cap', 'volts on the capacitor', 0, 500))
	}),
	warmth: optional(choice('case', 'the case feels', ['cool', 'warm']))
} satisfies Inputs;

type ReformGiven = Given<typeof inputs>;

/** While it charges the current is charge: only readings with nearly the full volts on the capacitor count. */
function usable({ series, applied }: ReformGiven): LeakageReading[] {
	return series
		.filter(({ volts }) => volts === undefined || volts >= 0.95 * applied)
		.map(({ time, current }) => ({ time, current }));
}

function limitOf({ limit, capacitance, rated, rule = 'JAN-C-62' }: ReformGiven): number | undefined {
	if (limit !== undefined) return limit;
	return capacitance !== undefined && rated !== undefined
		? leakageLimit(rule, capacitance, rated)
		: undefined;
}

interface State {
	given: ReformGiven;
	readings: readonly LeakageReading[];
	limit: number;
	fit: LeakageFit | undefined;
	reached: number | undefined;
}

/** What an over-limit leakage that still falls amounts to. */
function fallingWord({ readings, fit, reached }: State): string {
	const time = readings.at(-1)?.time ?? 0;
	if (!fit) return time >= NIGHT ? 'no better after a night' : 'too early to tell';
	if (fit.slope >= -0.1) return time >= HOUR ? 'stalled' : 'too early to tell';
	if (reached === undefined || reached > LONGEST)
		return time >= HOUR ? 'more than a day' : 'too early to tell';
	return fit.slope < -0.2 ? 'falling' : 'falling slowly';
}

function stateWord(state: State): string {
	const { given, readings, limit } = state;
	const [before, last] = readings.slice(-2);
	const now = (last ?? before)?.current ?? NaN;
	if (given.warmth === 'warm') return 'warm';
	if (before && last && last.current > 1.05 * before.current) return 'rising';
	if (now > limit) return fallingWord(state);
	const working = given.working ?? given.rated ?? given.applied;
	return given.applied >= 0.9 * working ? 'within the limit' : 'within the limit at lowered volts';
}

function picture(readings: readonly LeakageReading[], limit: number, fit: LeakageFit | undefined): Picture {
	const first = readings[0]?.time ?? 60;
	const last = readings.at(-1)?.time ?? 60;
	const fitted = readings.at(-3)?.time ?? first;
	// What lies ahead is drawn only while there is something to wait for.
	const now = readings.at(-1)?.current ?? 0;
	const end = fit && fit.slope < 0 && now > limit ? Math.min(LONGEST, timeAt(fit, limit) ?? LONGEST) : last;
	const along = (from: number, to: number) =>
		fit ? numbersBetween(from, to, 40, 'log').map((time) => [time, currentAt(fit, time)] as const) : [];
	return {
		title: 'Leakage against time',
		x: { label: 'Time at constant volts', unit: 'min', scale: 'log' },
		y: { label: 'Leakage', unit: 'mA', scale: 'log' },
		curves: [
			{
				label: 'readings',
				style: 'dots',
				points: readings.map(({ time, current }) => [time, current] as const)
			},
			...(fit ? [{ label: 'fit', style: 'solid', points: along(fitted, last) } as const] : []),
			...(fit && end > last
				? [{ label: 'if it goes on so', style: 'dashed', points: along(last, end) } as const]
				: [])
		],
		marks: [{ label: 'limit', y: limit }]
	};
}

/**
 * Whether an electrolytic comes back on the reforming supply, from times and currents at constant volts.
 *
 *     ln I = a + s * ln t                  fitted to the last three readings
 *     t(I) = exp((ln I - a) / s)           the time at which the limit is reached
 *
 * s is about -1 while it forms well; near 0 the leakage stands still. Readings during charging do not count.
 */
export const reformProgress = defineCalculation({
	id: 'reform-progress',
	title: 'Reforming: does it come back?',
	question: 'Is this electrolytic coming back on the reforming supply, or is it to be changed?',
	group: 'Capacitors',
	words: [
		'reform',
		'stall',
		'leakage',
		'wake',
		'go on',
		'stop',
		'how long reform',
		'how long to form',
		'reforming',
		'forming',
		'electrolytic'
	],
	inputs,
	ways: [
		{ title: 'a limit that is known', needs: ['limit', 'applied', 'series'], also: ['capacitance', 'rated'] },
		{ title: 'its marking', needs: ['capacitance', 'rated', 'applied', 'series'] }
	],
	outputs: {
		state: { key: 'state', label: 'The leakage is' },
		last: { key: 'I_last_mA', label: 'Leakage now' },
		limit: { key: 'limit_mA', label: 'Leakage allowed' },
		share: { key: 'share_pct', label: 'Leakage, share of the limit' },
		slope: { key: 'slope_last3', label: 'Slope of the last readings' },
		reached: { key: 't_limit_min', label: 'Limit reached at, if it goes on so' },
		counted: { key: 'readings_used', label: 'Readings that count' }
	},
	formulaText: [
		'ln I = a + s × ln t through the last three readings',
		't(I) = exp((ln I − a) / s)',
		'limit: k × C + 0.3 mA, or the rule chosen'
	],
	refuse(given) {
		const times = given.series.map(({ time }) => time);
		if (times.some((time, i) => i > 0 && time <= (times[i - 1] ?? 0)))
			return {
				key: 'series_min_mA',
				message: 'series_min_mA: each time must be later than the one before it. Sort them.'
			};
		if (given.series.some(({ volts }) => volts !== undefined && volts > 1.05 * given.applied))
			return {
				key: 'series_min_mA',
				message: 'series_min_mA: V_cap is above V_applied. Measure both again.'
			};
		if (given.rated !== undefined && given.applied > 1.05 * given.rated)
			return { key: 'V_applied', message: 'V_applied is above V_rated. Turn the supply down.' };
		if (given.rated !== undefined && (given.working ?? 0) > 1.05 * given.rated)
			return {
				key: 'V_working',
				message: 'V_working is above V_rated: the part does not belong there at all.'
			};
		if (usable(given).length > 0) return undefined;
		const message =
			'series_min_mA has no reading with 95 % of V_applied on the capacitor: it is still charging. Wait, then read again.';
		return { key: 'series_min_mA', message };
	},
	formula(given) {
		const readings = usable(given);
		const limit = limitOf(given);
		const last = readings.at(-1)?.current;
		if (limit === undefined || last === undefined) return {};
		const fit = fitLeakage(readings);
		const projected = fit && last > limit ? timeAt(fit, limit) : undefined;
		return {
			state: stateWord({ given, readings, limit, fit, reached: projected }),
			last,
			limit,
			share: (100 * last) / limit,
			slope: fit?.slope,
			// Beyond a month the figure says no more than "never".
			reached: projected !== undefined && projected < 30 * LONGEST ? projected : undefined,
			counted: readings.length
		};
	},
	pictures(given, { limit }) {
		return typeof limit === 'number' ? [picture(usable(given), limit, fitLeakage(usable(given)))] : [];
	},
	summary: [
		'It leaks {last} and may leak {limit}.',
		'The slope of the last readings is {slope}.',
		'At that rate the limit is reached after {reached} on the supply.'
	],
	judge: [
		{
			by: 'state',
			bands: [
				{
					is: 'within the limit',
					verdict: 'passes',
					says: 'It may stay: the leakage is within the limit, at the volts that it meets.',
					source: jan
				},
				{
					is: 'within the limit at lowered volts',
					verdict: 'go on',
					says: 'Within the limit, but at lowered volts. Raise them to those of the set, and go on.',
					source: slopes
				},
				{
					is: 'falling',
					verdict: 'go on',
					says: 'Go on: the leakage is above the limit and falls well.',
					source: slopes
				},
				{
					is: 'too early to tell',
					verdict: 'go on',
					says: 'Go on: above the limit, but too early to tell. Read again after an hour on the supply.',
					source: slopes
				},
				{
					is: 'falling slowly',
					verdict: 'slow',
					says: 'Go on, for 24 hours at most: the leakage falls slowly.',
					source: slopes
				},
				{
					is: 'rising',
					verdict: 'stalled: replace',
					says: 'Stop at once and change it: the leakage rises at constant volts.',
					source: rise
				},
				{
					is: 'warm',
					verdict: 'stalled: replace',
					says: 'Stop at once and change it: the case is warm.',
					source: warmCase
				},
				{
					is: 'no better after a night',
					verdict: 'stalled: replace',
					says: 'Change it: after a night on the supply it still leaks {share} of the limit.',
					source: night
				},
				{
					is: 'more than a day',
					verdict: 'stalled: replace',
					says: 'Change it: at this rate the limit is more than 24 hours away.',
					source: slopes
				},
				{
					verdict: 'stalled: replace',
					says: 'Change it: the leakage has stopped falling at {share} of the limit.',
					source: slopes
				}
			]
		}
	],
	verdicts: [
		{
			verdict: 'passes',
			title: 'It may stay',
			next: ['its capacitance and its series resistance', 'its leakage again after a day at rest']
		},
		{
			verdict: 'go on',
			next: ['the next reading, at twice the time of this one', 'whether the case stays cool']
		},
		{
			verdict: 'slow',
			title: 'Go on, a day at most',
			next: ['a reading each hour', 'whether the case stays cool']
		},
		{
			verdict: 'stalled: replace',
			title: 'Stop, and change it',
			next: ['a new part of equal capacitance and of volts with a margin', 'its neighbours in the same can']
		}
	],
	cautions: [
		'The capacitor is at full volts: do not touch, and discharge it through a resistor and prove it dead before it is lifted off.',
		'Do not leave it alone. If the leakage rises or the case gets warm, switch off at once.'
	],
	pitfalls: [
		'Readings while it charges count as leakage only by mistake: give the volts on the capacitor, or wait.',
		'A test at half volts passes bad parts.',
		'Low leakage with the capacitance gone is a fail too.',
		'Turn the volts up in steps, and begin the times anew after the last step.'
	],
	sources: [jan, log, warmCase, slopes, rise, night],
	checks: [
		{
			id: 'reform-progress/1',
			given: {
				C_uF: 20,
				V_rated: 450,
				V_applied: 350,
				V_working: 350,
				series_min_mA: [
					[0.333, 4.5],
					[15, 1.0],
					[60, 0.12]
				]
			},
			gives: { limit_mA: 1.1, slope_last3: -0.633 },
			verdict: 'passes',
			withinPct: 0.1,
			withinAbsolute: { slope_last3: 0.02 },
			basis: 'published series, fit by us',
			source: log
		},
		{
			id: 'reform-progress/2',
			given: {
				limit_mA: 1.1,
				V_applied: 350,
				V_working: 350,
				series_min_mA: [
					[10, 3.1],
					[30, 2.6],
					[60, 2.45],
					[90, 2.4],
					[120, 2.38]
				]
			},
			gives: { slope_last3: -0.0424 },
			verdict: 'stalled: replace',
			withinPct: 0.1,
			withinAbsolute: { slope_last3: 0.002 },
			basis: 'arithmetic',
			source: arithmetic('invented series of the stalling kind')
		},
		{
			id: 'reform-progress/2 uF that leaks 2 mA after a night, read once',
			given: { C_uF: 2, V_rated: 350, V_applied: 200, V_working: 300, series_min_mA: [[600, 2]] },
			gives: { limit_mA: 0.35, share_pct: 571.4 },
			verdict: 'stalled: replace',
			withinPct: 0.1,
			basis: 'common practice, no source',
			source: night
		},
		{
			id: 'reform-progress/2 uF that leaks 2 mA after a night, read three times',
			given: {
				C_uF: 2,
				V_rated: 350,
				V_applied: 200,
				V_working: 300,
				series_min_mA: [
					[10, 2.4],
					[60, 2.1],
					[600, 2]
				]
			},
			gives: { state: 'stalled' },
			verdict: 'stalled: replace',
			withinPct: 0.1,
			basis: 'common practice, no source',
			source: night
		},
		{
			id: 'reform-progress/halves with each doubling of the time',
			given: {
				limit_mA: 1,
				V_applied: 350,
				V_working: 350,
				series_min_mA: [
					[10, 8],
					[20, 4],
					[40, 2]
				]
			},
			gives: { slope_last3: -1, t_limit_min: 80 },
			verdict: 'go on',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'reform-progress/falls as the sixth root of the time',
			given: {
				limit_mA: 1,
				V_applied: 350,
				V_working: 350,
				series_min_mA: [
					[60, 1.4427],
					[120, 1.2853],
					[240, 1.1451]
				]
			},
			gives: { slope_last3: -0.1667, t_limit_min: 540.6 },
			verdict: 'slow',
			withinPct: 0.5,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'reform-progress/rises',
			given: {
				limit_mA: 1,
				V_applied: 350,
				series_min_mA: [
					[10, 2],
					[30, 1.5],
					[60, 1.7]
				]
			},
			gives: { state: 'rising' },
			verdict: 'stalled: replace',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'reform-progress/good, but at half the volts of the set',
			given: { C_uF: 16, V_rated: 450, V_applied: 150, V_working: 320, series_min_mA: [[60, 0.2]] },
			gives: { state: 'within the limit at lowered volts' },
			verdict: 'go on',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'reform-progress/readings while it charges do not count',
			given: {
				limit_mA: 1,
				V_applied: 350,
				series_min_mA: [
					[1, 3, 120],
					[5, 2.4, 300],
					[20, 0.8, 349]
				]
			},
			gives: { readings_used: 1, I_last_mA: 0.8 },
			verdict: 'passes',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
