import { defineCalculation } from './define.ts';
import { number, optional } from './inputs.ts';
import { commonPractice, FOSSEE, OHM_AND_JOULE, OWN_NUMBERS, published } from './sources.ts';

const loadingBands = commonPractice('loading error: 5 and 10 %');
const tenTimes = published(
	'US Army subcourse SS0602 p. 7: a voltmeter of ten times the circuit resistance will do'
);
const helfrick = published(
	`Helfrick and Cooper, Modern Electronic Instrumentation and Measurement Techniques, ex. 1-7, p. 6 (a misprint in the printed result, noted there); ${FOSSEE}`
);

/**
 * Resistance from volts and amps, when the milliammeter also carries the current of the voltmeter.
 *
 *     R_apparent = V / I                     ohm
 *     R_true     = 1 / (I / V - 1 / R_meter) ohm
 *
 * Holds for the voltmeter across the part alone, inside the milliammeter.
 */
export const apparentResistance = defineCalculation({
	id: 'apparent-resistance',
	title: 'Resistance from volts and current',
	question: 'How large is this resistance really, when the voltmeter takes part of the current?',
	group: 'Grids, leaks and meters',
	words: ['ohms', 'voltmeter', 'milliammeter', 'high resistance', 'ohmmeter'],
	inputs: {
		volts: number('V', 'volts across the part', 0.001, 1000),
		current: number('I_A', 'current through part and voltmeter', 1e-9, 10),
		meter: optional(number('R_meter_ohm', 'resistance of the voltmeter', 100, 1e12)),
		range: optional(number('range_V', 'full scale of the range used', 0.1, 5000)),
		sensitivity: optional(number('ohm_per_volt', 'ohms per volt of the meter', 50, 1e6))
	},
	ways: [
		{ title: 'meter by its range', needs: ['volts', 'current', 'range', 'sensitivity'] },
		{ title: 'meter by its resistance', needs: ['volts', 'current', 'meter'] }
	],
	outputs: {
		truth: { key: 'R_true_ohm', label: 'Resistance of the part' },
		apparent: { key: 'R_apparent_ohm', label: 'Volts over amps, uncorrected' },
		error: { key: 'error_pct', label: 'Error without the correction' },
		meter: { key: 'R_meter_ohm', label: 'Resistance of the voltmeter' },
		meterCurrent: { key: 'I_meter_A', label: 'Current through the voltmeter' }
	},
	formulaText: [
		'R_meter = ohm_per_volt × range',
		'R_apparent = V / I',
		'R_true = 1 / (I / V − 1 / R_meter)',
		'error = 100 × (1 − R_apparent / R_true)'
	],
	refuse({ volts, current, meter, range, sensitivity }) {
		const through = meter ?? (range ?? NaN) * (sensitivity ?? NaN);
		// A needle may stand a little beyond full scale.
		if (range !== undefined && volts > 1.1 * range)
			return { key: 'V', message: 'V is beyond full scale of range_V. Check which range was set.' };
		if (volts / through < current) return undefined;
		const message =
			'I_A is no more than the voltmeter alone takes. Check V, I_A and the range, and that the milliammeter carries both.';
		return { key: 'I_A', message };
	},
	formula({ volts, current, meter, range, sensitivity }) {
		const through = meter ?? (range ?? NaN) * (sensitivity ?? NaN);
		const meterCurrent = volts / through;
		const apparent = volts / current;
		const truth = volts / (current - meterCurrent);
		return { truth, apparent, error: 100 * (1 - apparent / truth), meter: through, meterCurrent };
	},
	summary: [
		'The part is {truth}; volts over amps alone would say {apparent}.',
		'{meterCurrent} went through the voltmeter.'
	],
	judge: [
		{
			by: 'error',
			bands: [
				{
					below: 5,
					verdict: 'ignore',
					says: 'The voltmeter falsifies the result by {error}: of no account.',
					source: loadingBands
				},
				{
					upTo: 10,
					verdict: 'mention',
					says: 'The voltmeter falsifies the result by {error}: keep it in mind.',
					source: loadingBands
				},
				{
					verdict: 'correct',
					says: 'The voltmeter falsifies the result by {error}. Use the corrected figure.',
					source: loadingBands
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ignore', next: [] },
		{ verdict: 'mention', next: ['the corrected figure, where a tolerance of 10 % is to be judged'] },
		{ verdict: 'correct', next: ['the corrected figure in place of volts over amps', 'a meter of more ohms'] }
	],
	cautions: ['Connect both meters with the set off and the reservoir proved dead.'],
	pitfalls: [
		'With the voltmeter outside the milliammeter its current is not in the reading: no correction then.',
		'Near the end of its reach the result hangs on a small difference of two currents: a slip of 1 % there counts many times.'
	],
	sources: [OHM_AND_JOULE, loadingBands, tenTimes],
	checks: [
		{
			id: 'apparent-resistance/1',
			given: { V: 100, I_A: 0.005, range_V: 150, ohm_per_volt: 1000 },
			gives: { R_apparent_ohm: 20000, R_true_ohm: 23076.92, error_pct: 13.33 },
			verdict: 'correct',
			withinPct: 0.1,
			basis: 'published',
			source: helfrick
		},
		{
			id: 'apparent-resistance/2',
			given: { V: 100, I_A: 0.001, R_meter_ohm: 10e6 },
			gives: { R_apparent_ohm: 100e3, R_true_ohm: 101010, error_pct: 0.99 },
			verdict: 'ignore',
			withinPct: 0.5,
			// The reference rounds down; exact is 1.00 %.
			withinAbsolute: { error_pct: 0.011 },
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'apparent-resistance/8 % in the meter',
			given: { V: 80, I_A: 0.001, R_meter_ohm: 1e6 },
			gives: { R_apparent_ohm: 80e3, R_true_ohm: 86956.52, error_pct: 8 },
			verdict: 'mention',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
