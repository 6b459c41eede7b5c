import { defineCalculation, parallel, type Way } from './define.ts';
import { number, optional } from './inputs.ts';
import { commonPractice, FOSSEE, OHM_AND_JOULE, OWN_NUMBERS, published } from './sources.ts';

const loadingBands = commonPractice('loading error: 5 and 10 %');
const tenTimes = published(
	'US Army subcourse SS0602 p. 7: a voltmeter of ten times the circuit resistance will do'
);
const army = published('US Army subcourse SS0602 p. 18, armycommunications.tpub.com/SS0602/SS06020025.htm');
const neets = published(
	'US Navy NEETS Module 3 (NAVEDTRA 14175) p. 1-27, electriciantraining.tpub.com/14175'
);
const bird = published(`J. Bird, Electrical Circuit Theory and Technology, problem 10.5; ${FOSSEE}`);
const kalsi6 = published(`Kalsi, Electronic Instrumentation, ex. 4.6; ${FOSSEE}`);
const kalsi8 = published(`Kalsi, Electronic Instrumentation, ex. 4.8; ${FOSSEE}`);

type Field = 'supply' | 'top' | 'bottom' | 'reading' | 'truth' | 'source' | 'meter' | 'range' | 'sensitivity';

/** A needle may stand a little beyond full scale. */
const FULL_SCALE = 1.1;

/** The meter is known by its resistance, or by its range and ohms per volt. */
const throughMeter = (title: string, needs: readonly Field[]): Way<Field>[] => [
	{ title: `${title}, meter by its range`, needs: [...needs, 'range', 'sensitivity'] },
	{ title: `${title}, meter by its resistance`, needs: [...needs, 'meter'] }
];

interface Reading {
	supply?: number | undefined;
	top?: number | undefined;
	bottom?: number | undefined;
	reading?: number | undefined;
	truth?: number | undefined;
	source?: number | undefined;
	meter?: number | undefined;
	range?: number | undefined;
	sensitivity?: number | undefined;
}

/** Resistances of meter and point, and the volts with and without the meter, as far as they are known. */
function readingOf({ supply, top, bottom, reading, truth, source, meter, range, sensitivity }: Reading) {
	const through = meter ?? (range ?? NaN) * (sensitivity ?? NaN);
	const seen = top !== undefined && bottom !== undefined ? parallel(top, bottom) : source;
	const divided = supply !== undefined && top && bottom ? (supply * bottom) / (top + bottom) : undefined;
	const loss = seen === undefined ? undefined : through / (through + seen);
	const given = truth ?? divided;
	return {
		through,
		seen,
		loss,
		real: given ?? (reading !== undefined && loss ? reading / loss : undefined),
		shown: reading ?? (given !== undefined && loss ? given * loss : undefined)
	};
}

/**
 * What a voltmeter does to the point it measures: what the service man's meter showed, what is there without one, what mine
 * should show.
 *
 *     R_meter = ohm_per_volt * range                    ohm; the needle does not change it
 *     V_true  = V_read * (R_source + R_meter) / R_meter V
 *     V_mine  = V_true * R_mine / (R_mine + R_source)   V
 *
 * R_source is the resistance seen from the test point: of a divider R_top || R_bottom, of an anode R_a || r_a. At anodes it
 * is a first step only, since the valve's current moves with the loading.
 */
export const meterLoading = defineCalculation({
	id: 'meter-loading',
	title: 'What a meter does to the voltage',
	question: 'The chart was made with another meter: what should mine show, and what is really there?',
	group: 'Grids, leaks and meters',
	words: [
		'digital meter',
		'ohms per volt',
		'20k per volt',
		'1000 ohms per volt',
		'10 Mohm',
		'DMM',
		'AVO',
		'reads low',
		'reads different',
		'voltmeter',
		'service data'
	],
	inputs: {
		supply: optional(number('V_supply', 'volts across the whole divider', 0, 1000)),
		top: optional(number('R_top_ohm', 'upper resistor of the divider', 1, 100e6)),
		bottom: optional(number('R_bottom_ohm', 'lower resistor, across which the meter stands', 1, 100e6)),
		reading: optional({ ...number('V_read', 'volts that the meter showed', -1000, 1000), alsoKeys: ['V'] }),
		truth: optional(number('V_true', 'volts without a meter', -1000, 1000)),
		source: optional(number('R_source_ohm', 'resistance seen from the test point', 0, 100e6)),
		meter: optional(number('R_meter_ohm', 'resistance of the meter', 100, 1e12)),
		range: optional(number('range_V', 'full scale of the range used', 0.1, 5000)),
		sensitivity: optional(number('ohm_per_volt', 'ohms per volt of the meter', 50, 1e6)),
		mine: optional(number('R_mine_ohm', 'resistance of my meter', 1e6, 100e6))
	},
	ways: [
		...throughMeter('a divider', ['supply', 'top', 'bottom']),
		...throughMeter('a reading on a divider', ['reading', 'top', 'bottom']),
		...throughMeter('a reading', ['reading', 'source']),
		...throughMeter('the true volts', ['truth', 'source']),
		...throughMeter('the current of the meter', ['reading']),
		{ title: 'the resistance of a meter', needs: ['range', 'sensitivity'] }
	],
	outputs: {
		meter: { key: 'R_meter_ohm', label: 'Resistance of the meter' },
		source: { key: 'R_source_ohm', label: 'Resistance seen from the test point' },
		truth: { key: 'V_true', label: 'Volts without a meter' },
		reading: { key: 'V_read', label: 'Volts that the meter shows' },
		mine: { key: 'V_mine', label: 'Volts that my meter shows' },
		error: { key: 'error_pct', label: 'Loading error' },
		meterCurrent: { key: 'I_meter_A', label: 'Current through the meter' },
		totalCurrent: { key: 'I_total_A', label: 'Current from the supply with the meter on' }
	},
	formulaText: [
		'R_meter = ohm_per_volt × range',
		'V_true = V_read × (R_source + R_meter) / R_meter',
		'V_read = V_true × R_meter / (R_meter + R_source)',
		'V_mine = V_true × R_mine / (R_mine + R_source)',
		'divider: R_source = R_top × R_bottom / (R_top + R_bottom)'
	],
	refuse(given) {
		const { range, reading } = given;
		const { shown } = readingOf(given);
		if (range === undefined || shown === undefined || Math.abs(shown) <= FULL_SCALE * range) return undefined;
		return reading === undefined
			? {
					key: 'range_V',
					message: 'The meter would go off its scale on range_V. Take the next higher range.'
				}
			: {
					key: 'V_read',
					message: 'V_read is beyond full scale of range_V. Check which range was set when it was read.'
				};
	},
	formula(given) {
		const { supply, top, bottom, mine } = given;
		const { through, seen, loss, real, shown } = readingOf(given);
		const total = top && bottom ? top + parallel(bottom, through) : undefined;
		return {
			meter: through,
			source: seen,
			truth: real,
			reading: shown,
			mine: real !== undefined && mine && seen !== undefined ? (real * mine) / (mine + seen) : undefined,
			error: loss === undefined ? undefined : 100 * (loss - 1),
			meterCurrent: shown === undefined ? undefined : shown / through,
			totalCurrent: supply !== undefined && total ? supply / total : undefined
		};
	},
	summary: [
		'The meter is {meter} on that range.',
		'It shows {reading} where {truth} stand without it.',
		'My meter should show {mine}.',
		'{meterCurrent} flows through the meter.'
	],
	judge: [
		{
			by: 'error',
			bands: [
				{
					below: -10,
					verdict: 'correct',
					says: 'The meter itself changes the reading by {error}. Correct it before judging the circuit.',
					source: loadingBands
				},
				{
					upTo: -5,
					verdict: 'mention',
					says: 'The meter changes the reading by {error}: keep it in mind.',
					source: loadingBands
				},
				{
					verdict: 'ignore',
					says: 'The meter changes the reading by {error}: of no account.',
					source: loadingBands
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ignore', title: 'Of no account', next: [] },
		{ verdict: 'mention', title: 'Keep it in mind', next: ['the range printed on the chart'] },
		{
			verdict: 'correct',
			title: 'Correct the reading first',
			next: ['the range printed on the chart', 'the corrected figure in place of the one read']
		}
	],
	cautions: ['Connect the meter with the set off where you can; one hand while it is live.'],
	pitfalls: [
		'The range printed on the chart decides, not the reading.',
		'On AVC lines, grids and screens fed through 100 kohm, old charts are far below the true value.',
		'A 10 Mohm meter still halves the volts of a 10 Mohm grid leak.',
		'Electronic meters are often 1 Mohm only on AC.',
		'Not every chart meter was 1000 ohm/V: a common British AC/DC meter made before 1936 took 167, its successor 500 (vintage-radio.net post 803801).'
	],
	sources: [OHM_AND_JOULE, loadingBands, tenTimes],
	checks: [
		{
			id: 'meter-loading/1',
			given: { V_supply: 30, R_top_ohm: 400e3, R_bottom_ohm: 400e3, range_V: 20, ohm_per_volt: 20000 },
			gives: { R_meter_ohm: 400e3, V_true: 15, V_read: 10 },
			verdict: 'correct',
			withinPct: 0.1,
			basis: 'published',
			source: published('edudirectory.50webs.com/tutorials/elect99.htm')
		},
		{
			id: 'meter-loading/2',
			given: { V_supply: 120, R_top_ohm: 70e3, R_bottom_ohm: 50e3, range_V: 100, ohm_per_volt: 1000 },
			gives: { V_true: 50, V_read: 38.71, I_total_A: 0.001161 },
			verdict: 'correct',
			withinPct: 0.5,
			basis:
				'published (38.8 V, 1.16 mA, 81.2 V over the other part); supply and resistors inferred from the printed 103 333 ohm total',
			source: army
		},
		{
			id: 'meter-loading/3',
			given: { V_read: 85, range_V: 250, ohm_per_volt: 1000, R_source_ohm: 220e3, R_mine_ohm: 10e6 },
			gives: { V_true: 159.8, V_mine: 156.36 },
			verdict: 'correct',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'meter-loading/4',
			given: { V_read: 85, range_V: 300, ohm_per_volt: 20000, R_source_ohm: 220e3, R_mine_ohm: 10e6 },
			gives: { V_true: 88.12, V_mine: 86.22 },
			verdict: 'ignore',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'meter-loading/5',
			given: { V: [10, 100], R_meter_ohm: 100e3 },
			gives: { I_meter_A: [0.0001, 0.001] },
			withinPct: 0.1,
			basis: 'published',
			source: neets
		},
		{
			id: 'meter-loading/6',
			given: { V_supply: 100, R_top_ohm: 60e3, R_bottom_ohm: 40e3, range_V: 100, ohm_per_volt: 1600 },
			gives: { R_meter_ohm: 160e3, V_true: 40, V_read: 34.78 },
			verdict: 'correct',
			withinPct: 0.1,
			basis: 'published',
			source: bird
		},
		{
			id: 'meter-loading/7',
			given: { V_supply: 100, R_top_ohm: 10e3, R_bottom_ohm: 10e3, range_V: 50, ohm_per_volt: [1000, 20000] },
			gives: { V_true: 50, V_read: [45.45, 49.75] },
			verdict: 'mention',
			withinPct: 0.1,
			basis: 'published',
			source: kalsi6
		},
		{
			id: 'meter-loading/8',
			given: { V_supply: 50, R_top_ohm: 45e3, R_bottom_ohm: 5e3, range_V: [5, 10, 30], ohm_per_volt: 20000 },
			gives: { V_true: 5, V_read: [4.785, 4.89, 4.963], error_pct: [-4.31, -2.2, -0.74] },
			verdict: 'ignore',
			withinPct: 0.2,
			withinAbsolute: { error_pct: 0.1 },
			basis: 'published (4.78, 4.89, 4.96 V; 4.3, 2.2, 0.7 %)',
			source: kalsi8
		},
		{
			id: 'meter-loading/9',
			given: { range_V: 1000, ohm_per_volt: 167 },
			gives: { R_meter_ohm: 167000 },
			withinPct: 0.1,
			basis: 'published',
			source: published('vintage-radio.net post 803801 (universal AC/DC meter, before 1936)')
		}
	]
});
