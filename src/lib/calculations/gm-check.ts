import { defineCalculation } from './define.ts';
import { number, optional } from './inputs.ts';
import { arithmetic, commonPractice, FOSSEE, OWN_NUMBERS, published } from './sources.ts';

const bands = commonPractice('slope against the data: 80 and 60 %');
const newValves = published(
	'a dealer’s article on what "tests as new" means (leedsradio.com): makers passed a new valve from about two thirds of the listed slope'
);
const spread = published(
	'data sheets of new valves, plus or minus 20 to 30 % (radiomuseum.org, discussion of 2015)'
);
const threeHalves = published(
	'the three-halves-power law of an ideal valve, by which the slope goes with the cube root of the current: an electronics course, ch. 6.2 (fliphtml5.com/osspz/sqrh p. 172)'
);
const squareRoot = published(
	'r-type.org add002: slope goes about with the square root of the cathode current'
);
const kimberly = published('E. E. Kimberly, Electrical Engineering, vias.org ee_29_20');
const cathey = (problem: string) =>
	published(`Cathey, Electronic Devices and Circuits, problem ${problem}; ${FOSSEE}`);
const cathey720 = published(
	'Cathey, Electronic Devices and Circuits, problem 7.20, p. 219, and holooly.com ex. 7.6/7.7: 14.7 to 8.1 mA over -2 to -6 V'
);

const quotient = (one: number | undefined, other: number | undefined): number | undefined =>
	one === undefined || other === undefined ? undefined : one / other;
const product = (one: number | undefined, other: number | undefined): number | undefined =>
	one === undefined || other === undefined ? undefined : one * other;

/**
 * Slope, anode resistance and gain of a valve from two readings, against its data.
 *
 *     g_m = dI / dV_g                                A/V, at constant anode and screen volts
 *     g_m = dV_R / (R_a * dV_g) * (1 + R_a / r_a)    read as volts over the anode resistor
 *     g_m = s / (1 - s * R_k), s = dI / dV           with a cathode resistor that works against the change
 *     r_a = dV_a / dI at constant grid,  mu = g_m * r_a
 *
 * The data hold at their own current. At another one the slope lies between the square root and the cube root of the ratio of
 * the currents; the verdict goes by the less favourable of the two.
 */
export const gmCheck = defineCalculation({
	id: 'gm-check',
	title: 'Slope of a valve in its socket',
	question: 'Has this valve any life left?',
	group: 'Current and heat',
	words: [
		'mutual conductance',
		'transconductance',
		'emission',
		'tube tester',
		'mu',
		'amplification factor',
		'worn valve',
		'weak valve',
		'tired valve',
		'valve tester',
		'gm',
		'slope'
	],
	inputs: {
		gridStep: optional(number('dV_grid', 'change of the grid volts', 0.01, 50)),
		currentStep: optional(number('dI_A', 'change of the anode current it makes', 1e-7, 0.5)),
		anodeStep: optional(number('dV_anode', 'change of the anode volts', 0.1, 500)),
		stepForAnode: optional(number('dI_a_for_r_A', 'change of current by the anode volts', 1e-7, 0.5)),
		stepForGrid: optional(number('dI_a_for_gm_A', 'change of current by the grid volts', 1e-7, 0.5)),
		resistorStep: optional(number('dV_R', 'change of the volts over the anode resistor', 0.01, 500)),
		anodeResistor: optional(number('R_a_ohm', 'anode resistor', 10, 10e6)),
		anodeResistance: optional(number('r_a_ohm', 'anode resistance of the valve, by its data', 100, 20e6)),
		load: optional(number('R_load_ohm', 'load of the stage', 100, 10e6)),
		cathode: optional(number('R_k_ohm', 'cathode resistor without its bypass', 0, 100e3)),
		anodeVolts: optional(number('V_anode', 'anode volts to cathode', 1, 1000)),
		gridVolts: optional(number('V_grid', 'grid volts to cathode', -100, 0)),
		current: optional(number('I_A', 'anode current during the test', 1e-6, 0.5)),
		mu: optional(number('mu', 'amplification factor, by the data', 1, 500)),
		dataSlope: optional(number('gm_data_mA_V', 'slope by the data', 0.05e-3, 50e-3)),
		dataCurrent: optional(number('I_data_A', 'anode current at which the data hold', 1e-6, 0.5))
	},
	ways: [
		{
			title: 'two pairs of readings',
			needs: ['anodeStep', 'stepForAnode', 'stepForGrid', 'gridStep'],
			also: ['current', 'load', 'cathode', 'dataSlope', 'dataCurrent']
		},
		{
			title: 'volts over the anode resistor',
			needs: ['resistorStep', 'anodeResistor', 'gridStep'],
			also: ['current', 'anodeResistance', 'dataSlope', 'dataCurrent']
		},
		{
			title: 'grid and anode volts at equal current',
			needs: ['anodeStep', 'gridStep'],
			also: ['currentStep', 'current', 'load', 'cathode', 'dataSlope', 'dataCurrent']
		},
		{
			title: 'a step of the grid volts',
			needs: ['gridStep', 'currentStep'],
			also: ['current', 'cathode', 'dataSlope', 'dataCurrent']
		},
		{ title: 'a step of the anode volts', needs: ['anodeStep', 'currentStep'] },
		{ title: 'the perveance', needs: ['anodeVolts', 'gridVolts', 'current'], also: ['mu'] }
	],
	outputs: {
		slope: { key: 'gm_mA_V', label: 'Slope' },
		anodeResistance: { key: 'r_a_ohm', label: 'Anode resistance' },
		mu: { key: 'mu', label: 'Amplification factor' },
		gain: { key: 'gain', label: 'Gain of the stage' },
		perveance: { key: 'perveance_uA_V1_5', label: 'Perveance' },
		expectedLow: { key: 'gm_expected_min_mA_V', label: 'Slope a good valve has at this current, from' },
		expectedHigh: { key: 'gm_expected_max_mA_V', label: 'Slope a good valve has at this current, to' },
		share: { key: 'gm_pct', label: 'Slope, of the data at this current' },
		bestShare: { key: 'gm_best_pct', label: 'The same by the kinder rule' }
	},
	formulaText: [
		'g_m = dI / dV_grid,  with R_k: g_m = s / (1 − s × R_k), s = dI / dV_grid',
		'g_m = dV_R / (R_a × dV_grid) × (1 + R_a / r_a)',
		'r_a = dV_anode / dI at constant grid',
		'mu = g_m × r_a = dV_anode / dV_grid at constant current',
		'gain = mu × R_load / (R_load + r_a)',
		'perveance = I / V_anode to the power of 1.5, at V_grid = 0'
	],
	refuse(given) {
		const { gridVolts, mu, anodeVolts, gridStep, currentStep, cathode, dataCurrent, current } = given;
		const { stepForGrid, stepForAnode } = given;
		const total = gridVolts === undefined || !gridVolts ? 1 : (mu ?? NaN) * gridVolts + (anodeVolts ?? 0);
		if (Number.isNaN(total))
			return { key: 'mu', message: 'mu is missing: away from V_grid = 0 the perveance needs it.' };
		if (total <= 0)
			return {
				key: 'V_grid',
				message: 'V_grid cuts the valve off there. Take the readings at a smaller bias.'
			};
		const step = currentStep ?? stepForGrid;
		if (step !== undefined && gridStep !== undefined && (step / gridStep) * (cathode ?? 0) >= 1)
			return {
				key: 'dI_A',
				message: 'dI_A is more than R_k_ohm allows. Check both, and the bypass capacitor.'
			};
		if (current !== undefined && Math.max(step ?? 0, stepForAnode ?? 0) > 2 * current)
			return {
				key: 'I_A',
				message:
					'I_A is less than half of the change that was read. Give the current at which the test was made.'
			};
		if (dataCurrent !== undefined && current === undefined)
			return {
				key: 'I_A',
				message: 'I_data_A is of use with I_A, the current during the test. Give that too.'
			};
		return undefined;
	},
	formula(given) {
		const { gridStep, anodeStep, anodeResistor, resistorStep, current, dataSlope, dataCurrent } = given;
		const raw = quotient(
			given.stepForGrid ?? (anodeStep && !gridStep ? undefined : given.currentStep),
			gridStep
		);
		const plain = raw === undefined ? undefined : raw / (1 - raw * (given.cathode ?? 0));
		const overResistor = quotient(quotient(resistorStep, anodeResistor), gridStep);
		const corrected =
			overResistor !== undefined && given.anodeResistance && anodeResistor
				? overResistor * (1 + anodeResistor / given.anodeResistance)
				: overResistor;
		const slope = plain ?? corrected;
		const anodeResistance = quotient(anodeStep, given.stepForAnode ?? given.currentStep);
		const equalCurrent = given.stepForAnode === undefined ? quotient(anodeStep, gridStep) : undefined;
		const mu = equalCurrent ?? product(slope, anodeResistance);
		const drive = (given.anodeVolts ?? NaN) + (given.mu ?? 0) * (given.gridVolts ?? 0);
		const ratio = current !== undefined && dataCurrent ? current / dataCurrent : 1;
		const expected = dataSlope && [dataSlope * Math.sqrt(ratio), dataSlope * Math.cbrt(ratio)];
		const least = expected && Math.min(...expected);
		const most = expected && Math.max(...expected);
		return {
			slope,
			anodeResistance,
			mu,
			gain:
				given.load !== undefined && mu !== undefined && anodeResistance !== undefined
					? (mu * given.load) / (given.load + anodeResistance)
					: undefined,
			perveance: given.gridVolts === undefined || current === undefined ? undefined : current / drive ** 1.5,
			expectedLow: least,
			expectedHigh: most,
			share: slope !== undefined && most ? (100 * slope) / most : undefined,
			bestShare: slope !== undefined && least ? (100 * slope) / least : undefined
		};
	},
	summary: [
		'The slope is {slope}.',
		'The anode resistance is {anodeResistance}.',
		'The amplification factor is {mu}.',
		'The stage amplifies {gain} times.',
		'The perveance is {perveance}.',
		'At this current a good valve has {expectedLow} to {expectedHigh}.'
	],
	judge: [
		{
			by: 'share',
			bands: [
				{
					below: 60,
					verdict: 'weak',
					says: 'The valve has {share} of its slope: it is weak.',
					source: bands
				},
				{
					upTo: 80,
					verdict: 'usable',
					says: 'The valve has {share} of its slope: usable. New ones vary by a quarter.',
					source: bands
				},
				{ verdict: 'good', says: 'The valve has {share} of its slope: good.', source: bands }
			]
		}
	],
	verdicts: [
		{ verdict: 'good', next: ['gas: the grid volts with a high grid resistor, set hot'] },
		{ verdict: 'usable', next: ['the heater volts at the socket', 'the same test after ten minutes'] },
		{
			verdict: 'weak',
			next: [
				'the heater volts at the socket',
				'anode and screen volts during the test',
				'a valve known good in its place'
			]
		}
	],
	cautions: [
		'Clip the cell on with the set off. One hand while it is live.',
		'A cell at the grid of a live-chassis set is live too.'
	],
	pitfalls: [
		'Heater volts first: a valve that runs cold looks worn.',
		'Slope at another current is another slope. Give both currents and see both ends.',
		'An output valve or an oscillator may pass here and still be gassy.',
		'Keep anode and screen volts constant: a large anode resistor hides the slope of a triode.'
	],
	sources: [bands, newValves, spread, threeHalves, squareRoot],
	checks: [
		{
			id: 'gm-check/1',
			given: { dV_anode: 40, dV_grid: 2 },
			gives: { mu: 20 },
			withinPct: 0,
			basis: 'published',
			source: kimberly
		},
		{
			id: 'gm-check/2',
			given: { dV_grid: 4, dI_A: 0.0066 },
			gives: { gm_mA_V: 1.65 },
			withinPct: 0.2,
			basis: 'published',
			source: cathey720
		},
		{
			id: 'gm-check/3',
			given: { dV_anode: 66, dI_A: 0.0066 },
			gives: { r_a_ohm: 10000 },
			withinPct: 0.2,
			basis: 'published',
			source: cathey720
		},
		{
			id: 'gm-check/3, with the grid step of the same valve',
			given: { dV_anode: 66, dI_A: 0.0066, dV_grid: 4 },
			gives: { r_a_ohm: 10000, gm_mA_V: 1.65, mu: 16.5 },
			withinPct: 0.2,
			basis: 'published (10 kohm); mu arithmetic',
			source: cathey720
		},
		{
			id: 'gm-check/4',
			given: {
				dV_anode: 34,
				dI_a_for_r_A: 0.007,
				dI_a_for_gm_A: 0.009,
				dV_grid: 2,
				R_load_ohm: 11600
			},
			gives: { r_a_ohm: 4857, gm_mA_V: 4.5, mu: 21.86, gain: 15.4 },
			withinPct: 0.3,
			basis: 'published',
			source: cathey('7.22, p. 220')
		},
		{
			id: 'gm-check/5',
			given: { V_anode: 100, V_grid: 0, I_A: 0.015 },
			gives: { perveance_uA_V1_5: 15 },
			withinPct: 0.1,
			basis: 'published',
			source: cathey('4.24 and 7.18')
		},
		{
			id: 'gm-check/9 mA/V of 10',
			given: { dV_grid: 1.5, dI_A: 0.0135, gm_data_mA_V: 10 },
			gives: { gm_mA_V: 9, gm_pct: 90 },
			verdict: 'good',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'gm-check/half the data current',
			given: { dV_grid: 1, dI_A: 0.006, gm_data_mA_V: 10, I_A: 0.024, I_data_A: 0.048 },
			gives: { gm_expected_min_mA_V: 7.071, gm_expected_max_mA_V: 7.937, gm_pct: 75.6, gm_best_pct: 84.85 },
			verdict: 'usable',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: arithmetic('square root and cube root of the ratio of the currents')
		},
		{
			id: 'gm-check/over 1 kohm in the anode of a triode',
			given: { dV_R: 2, R_a_ohm: 1000, dV_grid: 1.5, r_a_ohm: 10e3, gm_data_mA_V: 3 },
			gives: { gm_mA_V: 1.4667, gm_pct: 48.89 },
			verdict: 'weak',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'gm-check/cathode resistor without bypass',
			given: { dV_grid: 2, dI_A: 0.002, R_k_ohm: 500, gm_data_mA_V: 2 },
			gives: { gm_mA_V: 2, gm_pct: 100 },
			verdict: 'good',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
