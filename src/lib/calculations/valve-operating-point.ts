import { defineCalculation } from './define.ts';
import { arithmetic, commonPractice, fromMemory, OHM_AND_JOULE, OWN_NUMBERS, published } from './sources.ts';
import { inputs, operatingContradiction } from './valve-operating-contradictions.ts';

const loadBands = commonPractice('dissipation against the limit: 85, 100 and 120 %');
const sheetBands = commonPractice('cathode current against the service sheet: 60, 80, 120 and 140 %');
const overTheLimit = arithmetic('more than the limit of the valve data');
const screenShare = fromMemory(
	'screen share of the cathode current without signal, where no sheet was read: output pentodes 8 to 12 %, RF pentodes 20 to 30 %'
);
const screenOfSheets = published(
	"screen share by the makers' data sheets: output pentode EL84 5.5 of 53.5 mA, 10 %; RF pentodes EF89 3 of 12 mA, 25 %, EBF80 1.75 of 6.75 mA, 26 %, EBF89 2.7 of 11.7 mA, 23 % (Philips); EF41 1.7 of 7.7 mA, 22 % (Philips data at tubeofile.com)"
);
const el84 = published('EL84 data sheet, Philips, pages 1 to 6: 250 V, 48 mA, 5.5 mA, -7.3 V, 135 ohm');

/** Middle of the usual range, for a screen current that was not measured. */
const SHARES = { triode: 0, 'output pentode': 0.1, 'RF pentode': 0.25 } as const;

const share = (part: number | undefined, whole: number | undefined): number | undefined =>
	part === undefined || whole === undefined ? undefined : (100 * part) / whole;
const product = (one: number | undefined, other: number | undefined): number | undefined =>
	one === undefined || other === undefined ? undefined : one * other;
const minus = (one: number | undefined, other: number | undefined): number | undefined =>
	one === undefined || other === undefined ? undefined : one - other;

/**
 * Cathode current of a valve from the volts on its cathode resistor, and what anode and screen have to lose.
 *
 *     I_k = V_k / R_k                      A
 *     I_a = I_k - I_g2                     A (triode: I_a = I_k)
 *     P_a = (V_a - V_k) * I_a              W
 *     P_g2 = (V_g2 - V_k) * I_g2           W
 *     R_k = V_k / (I_a + I_g2)             ohm, the resistor wanted
 *
 * Holds for a resistor that carries one valve only, without a bleeder; back bias carries the current of the whole set.
 */
export const valveOperatingPoint = defineCalculation({
	id: 'valve-operating-point',
	title: 'Working point of a valve',
	question: 'How much current does the valve draw, and are anode and screen within their limits?',
	group: 'Current and heat',
	words: [
		'bias',
		'cathode resistor',
		'cathode volts',
		'red plate',
		'glowing anode',
		'dissipation',
		'milliamps',
		'output valve hot',
		'valve hot',
		'screen volts',
		'too much current'
	],
	inputs,
	ways: [
		{ title: 'the cathode resistor', needs: ['cathodeVolts', 'cathodeResistor'], also: ['anodeCurrent'] },
		{ title: 'the resistor wanted', needs: ['cathodeVolts', 'anodeCurrent'] },
		{ title: 'a measured anode current', needs: ['anodeCurrent'] }
	],
	outputs: {
		cathodeCurrent: { key: 'I_k_A', label: 'Cathode current' },
		anodeCurrent: { key: 'I_a_A', label: 'Anode current' },
		screenCurrent: { key: 'I_g2_A', label: 'Screen current' },
		resistor: { key: 'R_k_ohm', label: 'Cathode resistor wanted' },
		anodeHeat: { key: 'P_a_W', label: 'Anode dissipation' },
		screenHeat: { key: 'P_g2_W', label: 'Screen dissipation' },
		anodeLoad: { key: 'anode_load_pct', label: 'Anode, share of its limit' },
		screenLoad: { key: 'screen_load_pct', label: 'Screen, share of its limit' },
		cathodeLoad: { key: 'cathode_load_pct', label: 'Cathode current, share of its limit' },
		ofService: { key: 'I_k_service_pct', label: 'Cathode current, share of the service sheet' },
		gridLeakShare: { key: 'R_g1_pct', label: 'Grid leak, share of the largest allowed' }
	},
	formulaText: [
		'I_k = V_k / R_k',
		'I_a = I_k − I_g2 (triode: I_a = I_k)',
		'P_a = V_ak × I_a,  V_ak = V_a − V_k',
		'P_g2 = V_g2k × I_g2,  V_g2k = V_g2 − V_k',
		'R_k = V_k / (I_a + I_g2)',
		'load = 100 × P / P_max'
	],
	refuse: operatingContradiction,
	formula(given) {
		const { cathodeVolts, cathodeResistor } = given;
		const measured =
			cathodeVolts !== undefined && cathodeResistor ? cathodeVolts / cathodeResistor : undefined;
		const part = given.valve && SHARES[given.valve];
		// Of an anode current the screen takes share / (1 - share), of a cathode current the share itself.
		const guessed =
			part === undefined
				? undefined
				: (product(measured, part) ?? product(given.anodeCurrent, part / (1 - part)));
		const screenCurrent = given.screenCurrent ?? guessed;
		const anodeCurrent = given.anodeCurrent ?? minus(measured, screenCurrent);
		const cathodeCurrent =
			measured ?? (anodeCurrent === undefined ? undefined : anodeCurrent + (screenCurrent ?? 0));
		const anodeHeat = product(given.anodeVolts ?? minus(given.anodeToChassis, cathodeVolts), anodeCurrent);
		const screenHeat = product(
			given.screenVolts ?? minus(given.screenToChassis, cathodeVolts),
			screenCurrent
		);
		return {
			cathodeCurrent,
			anodeCurrent,
			screenCurrent,
			resistor:
				measured === undefined && cathodeVolts && cathodeCurrent ? cathodeVolts / cathodeCurrent : undefined,
			anodeHeat,
			screenHeat,
			anodeLoad: share(anodeHeat, given.anodeLimit),
			screenLoad: share(screenHeat, given.screenLimit),
			cathodeLoad: share(cathodeCurrent, given.cathodeLimit),
			ofService: share(cathodeCurrent, given.serviceCurrent),
			gridLeakShare: share(given.gridLeak, given.gridLeakLimit)
		};
	},
	summary: [
		'The cathode passes {cathodeCurrent}.',
		'A resistor of {resistor} sets that point.',
		'{anodeCurrent} of it reaches the anode, which has to lose {anodeHeat}.',
		'The screen has to lose {screenHeat}.'
	],
	judge: [
		{
			by: 'anodeLoad',
			bands: [
				{ upTo: 85, verdict: 'ok', says: 'The anode is at {anodeLoad} of its limit.', source: loadBands },
				{
					upTo: 100,
					verdict: 'high',
					says: 'The anode is at {anodeLoad} of its limit: high, but many sets are designed so.',
					source: loadBands
				},
				{
					upTo: 120,
					verdict: 'over',
					says: 'The anode is at {anodeLoad}, over its limit.',
					source: overTheLimit
				},
				{
					verdict: 'switch-off',
					says: 'The anode is at {anodeLoad}, far over its limit. Switch off.',
					source: loadBands
				}
			]
		},
		{
			by: 'screenLoad',
			bands: [
				{ upTo: 85, verdict: 'ok', says: 'The screen is at {screenLoad} of its limit.', source: loadBands },
				{
					upTo: 100,
					verdict: 'high',
					says: 'The screen is at {screenLoad} of its limit: high.',
					source: loadBands
				},
				{
					upTo: 120,
					verdict: 'over',
					says: 'The screen is at {screenLoad}, over its limit.',
					source: overTheLimit
				},
				{
					verdict: 'switch-off',
					says: 'The screen is at {screenLoad}, far over its limit. Switch off.',
					source: loadBands
				}
			]
		},
		{
			by: 'cathodeLoad',
			bands: [
				{ upTo: 100, verdict: 'ok', says: 'The cathode current is within its limit.', source: overTheLimit },
				{ verdict: 'over', says: 'The cathode current is over its limit.', source: overTheLimit }
			]
		},
		{
			by: 'ofService',
			bands: [
				{
					below: 60,
					verdict: 'low-current',
					says: 'Only {ofService} of the service current flows: a tired valve or low screen volts.',
					source: sheetBands
				},
				{
					below: 80,
					verdict: 'watch',
					says: 'The cathode current is {ofService} of the service sheet: somewhat low.',
					source: sheetBands
				},
				{
					upTo: 120,
					verdict: 'ok',
					says: 'The cathode current is {ofService} of the service sheet: normal.',
					source: sheetBands
				},
				{
					upTo: 140,
					verdict: 'watch',
					says: 'The cathode current is {ofService} of the service sheet: somewhat high.',
					source: sheetBands
				},
				{
					verdict: 'high-current',
					says: 'The cathode current is {ofService} of the service sheet: far too much.',
					source: sheetBands
				}
			]
		},
		{
			by: 'gridLeakShare',
			bands: [
				{ upTo: 100, verdict: 'ok', says: 'The grid leak is within the valve data.', source: overTheLimit },
				{
					verdict: 'grid-leak-too-large',
					says: 'The grid leak is {gridLeakShare} of the largest that the valve data allow: a trace of gas may run the valve away.',
					source: overTheLimit
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: [] },
		{ verdict: 'high', next: ['mains volts today against the tap'] },
		{
			verdict: 'watch',
			next: ['the cathode resistor, measured cold', 'the HT volts against the service sheet']
		},
		{
			verdict: 'low-current',
			next: ['the screen volts and their feed resistor', 'the valve, against a good one']
		},
		{
			verdict: 'high-current',
			next: [
				'the grid volts: a leaky coupling capacitor or a gassy valve',
				'the cathode resistor, for drift or a wrong part',
				'the cathode bypass capacitor, for a short'
			]
		},
		{
			verdict: 'grid-leak-too-large',
			next: [
				'the grid leak, measured out of circuit, against the service sheet',
				'the grid volts after half an hour'
			]
		},
		{
			verdict: 'over',
			title: 'Over the limit',
			next: ['the grid volts', 'the cathode resistor', 'the anode and screen volts']
		},
		{
			verdict: 'switch-off',
			danger: true,
			next: ['the grid volts, on the lamp limiter', 'the coupling capacitor, unplugged']
		}
	],
	cautions: [
		'Anode and screen carry HT. One hand, insulated probe, and chassis may be at the mains in a set without transformer.'
	],
	pitfalls: [
		'Measure the cathode resistor cold: an overheated one drifts, and the volts then look right at the wrong current.',
		'Ask whether anode volts are to chassis or to cathode.',
		'With a shorted cathode bypass the cathode reads 0 V while the current is high.',
		'Without a screen current or the kind of valve, the anode current of a pentode is not worked out.',
		'Back bias carries the current of the whole set.'
	],
	sources: [OHM_AND_JOULE, loadBands, sheetBands, screenOfSheets, screenShare, el84],
	checks: [
		{
			id: 'valve-operating-point/1',
			given: { V_k: 2, R_k_ohm: 363 },
			gives: { I_k_A: 0.00551 },
			withinPct: 0.5,
			basis: 'published',
			source: published('augustica.com forum t=44 (2.0 V across 363 ohm; nearest standard value 360 ohm)')
		},
		{
			id: 'valve-operating-point/2',
			given: { V_k: 12.5, I_a_A: 0.045, I_g2_A: 0.0045, V_ak: 250, V_g2k: 250, P_a_max_W: 12, P_g2_max_W: 2 },
			gives: { R_k_ohm: 252.5, I_k_A: 0.0495, P_a_W: 11.25, P_g2_W: 1.125, anode_load_pct: 93.75 },
			verdict: 'high',
			withinPct: 0.5,
			basis:
				'published (250 V, 49.5 mA: blissaudio.blogspot.com quoting the 6V6 sheet); split 45/4.5 mA, 12.5 V and limits from memory',
			source: published('6V6GT data sheet, as quoted at blissaudio.blogspot.com')
		},
		{
			id: 'valve-operating-point/3',
			given: { V_k: 7.3, R_k_ohm: 135, I_g2_A: 0.0055, V_ak: 250 },
			gives: { I_k_A: 0.05407, I_a_A: 0.04857, P_a_W: 12.14 },
			withinPct: 0.5,
			basis: 'published (53.5 mA at the cathode, 48 mA at the anode; the rounded 135 ohm gives 1 % more)',
			source: el84
		},
		{
			id: 'valve-operating-point/4a',
			given: { V_k: 22.5, R_k_ohm: 390 },
			gives: { I_k_A: 0.0577 },
			withinPct: 0.5,
			basis: 'published (58 mA)',
			source: published('tubes.nekhbet.com/math.shtml')
		},
		{
			id: 'valve-operating-point/4b',
			given: { I_a_A: 0.05, V_ak: 450, P_a_max_W: 25 },
			gives: { P_a_W: 22.5, anode_load_pct: 90 },
			verdict: 'high',
			withinPct: 0.5,
			basis: 'published (22.5 W, 90 %)',
			source: published(
				'tubes.nekhbet.com/math.shtml; the page takes cathode current for anode current and 450 V as standing on the anode, an upper bound'
			)
		},
		{
			id: 'valve-operating-point/triode at half its limit',
			given: {
				V_k: 4,
				R_k_ohm: 800,
				valve: 'triode',
				V_a: 204,
				P_a_max_W: 2,
				I_k_service_A: 0.005,
				I_k_max_A: 0.015
			},
			gives: { I_a_A: 0.005, P_a_W: 1, anode_load_pct: 50, I_k_service_pct: 100, cathode_load_pct: 33.33 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'valve-operating-point/leak pushes the output valve over',
			given: {
				V_k: 9,
				R_k_ohm: 150,
				valve: 'output pentode',
				V_a: 249,
				V_g2: 249,
				P_a_max_W: 12,
				P_g2_max_W: 2
			},
			gives: {
				I_k_A: 0.06,
				I_g2_A: 0.006,
				I_a_A: 0.054,
				P_a_W: 12.96,
				P_g2_W: 1.44,
				anode_load_pct: 108,
				screen_load_pct: 72
			},
			verdict: 'over',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'valve-operating-point/anode at one and a half times its limit',
			given: { I_a_A: 0.072, V_ak: 250, P_a_max_W: 12 },
			gives: { P_a_W: 18, anode_load_pct: 150 },
			verdict: 'switch-off',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'valve-operating-point/70 % of the sheet',
			given: { V_k: 5.25, R_k_ohm: 150, I_k_service_A: 0.05 },
			gives: { I_k_A: 0.035, I_k_service_pct: 70 },
			verdict: 'watch',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'valve-operating-point/grid leak of 2.2 Mohm where 1 Mohm is allowed',
			given: { V_k: 7.5, R_k_ohm: 150, I_k_service_A: 0.05, R_g1_ohm: 2.2e6, R_g1_max_ohm: 1e6 },
			gives: { R_g1_pct: 220, I_k_service_pct: 100 },
			verdict: 'grid-leak-too-large',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'valve-operating-point/half of the sheet',
			given: { V_k: 3.75, R_k_ohm: 150, I_k_service_A: 0.05 },
			gives: { I_k_A: 0.025, I_k_service_pct: 50 },
			verdict: 'low-current',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'valve-operating-point/one and a half times the sheet',
			given: { V_k: 11.25, R_k_ohm: 150, I_k_service_A: 0.05 },
			gives: { I_k_A: 0.075, I_k_service_pct: 150 },
			verdict: 'high-current',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
