import { defineCalculation } from './define.ts';
import { arithmetic, commonPractice, FOSSEE, OWN_NUMBERS, published } from './sources.ts';
import { rippleContradiction } from './supply-ripple-contradictions.ts';
import { inputs } from './supply-ripple-inputs.ts';
import { ripplePictures } from './supply-ripple-picture.ts';
import { ripplesOf } from './supply-ripple-results.ts';

const filters = (example: string) =>
	published(
		`electronics textbook (title not seen), worked example ${example} on rectifier filters; ${FOSSEE}`
	);
const raju = (example: string) =>
	published(`Raju, electronics textbook (title not checked), ex. ${example}; ${FOSSEE}`);
const bell = published(`Bell, Electronic Devices and Circuits, ex. 16.1 and 16.2; ${FOSSEE}`);
const boylestad = (example: string) =>
	published(`Boylestad and Nashelsky, Electronic Devices and Circuit Theory, ex. ${example}; ${FOSSEE}`);
const tooley = published(`Tooley, Electronic Circuits, ex. 6.3; ${FOSSEE}`);
const diary = published('ee-diary.net, Nov 2022, capacitor-input filter');
const army = published('US Army TC 9-62 (June 2005) paras 4-56 to 4-60, armyengineer.tpub.com/TC-9-62');
const frequencies = published(
	'US Army TC 9-62 (June 2005) paras 4-56 to 4-60; US Navy NEETS Module 7 (NAVEDTRA 14179), electriciantraining.tpub.com/14179'
);
const neets6 = (place: string) =>
	published(`US Navy NEETS Module 6 (NAVEDTRA 14178, 1998), electriciantraining.tpub.com/14178 ${place}`);
const chokeInput = published('LC filter, ripple factor sqrt2/3 times XC/XL (expertsmind.com)');
const simulated = arithmetic('ngspice 39: silicon diodes behind the stated resistance, steady current');
const rippleBands = commonPractice('ripple measured against the formula: 1.1, 1.5 and 2 times');
const humRule = commonPractice(
	'hum at the ripple frequency comes from the smoothing; at the mains frequency, in a full-wave set, it does not'
);
const reservoirCurrent = arithmetic(
	'ngspice 39, 250-0-250 V, 32 uF, 52 mA: 1.7 times the current behind 150 ohm a side, 2.9 times behind 10 ohm'
);

/**
 * Ripple of a supply: frequency, reservoir, smoothing sections, regulation.
 *
 *     V_pp = I / (f_ripple * C)                       V peak to peak; RMS is that over 2 sqrt 3
 *     V_dc = V_peak - V_pp / 2                        V
 *     RC: 1 / sqrt(1 + (2 pi f R C)^2)                what a section lets through
 *     LC: 1 / ((2 pi f)^2 L C - 1)                    only where (2 pi f)^2 L C is above 3
 *     choke input: ripple factor = sqrt 2 / 3 * X_C / X_L, both at twice the mains
 *
 * The saw-tooth is the upper bound: some 7 % high half wave, twice that full wave, and half as much again behind a rectifier
 * valve. Several sections are reckoned as a ladder, each loading the one before.
 */
export const supplyRipple = defineCalculation({
	id: 'supply-ripple',
	title: 'Ripple and smoothing',
	question:
		'How much ripple should the reservoir have, what does the smoothing leave, and where does this hum come from?',
	group: 'Supply and smoothing',
	words: [
		'hum',
		'reservoir',
		'choke',
		'100 Hz',
		'50 Hz',
		'regulation',
		'electrolytic',
		'mains hum',
		'smoothing capacitor',
		'filter capacitor',
		'filter choke',
		'silicon diode',
		'rectifier',
		'HT low'
	],
	inputs,
	ways: [
		{
			title: 'winding and rectifier',
			needs: ['halfVolts', 'sideOhms', 'capacitance', 'current', 'mains'],
			also: ['rectifier', 'sections']
		},
		{ title: 'the capacitor for a ripple', needs: ['rectifier', 'mains', 'current', 'dc', 'ripple'] },
		{ title: 'the current behind a ripple', needs: ['rectifier', 'mains', 'capacitance', 'dc', 'ripple'] },
		{
			title: 'the capacitor for a ripple factor',
			needs: ['rectifier', 'mains', 'load', 'factor'],
			also: ['peak', 'current']
		},
		{ title: 'a load that is a resistance', needs: ['rectifier', 'mains', 'peak', 'load', 'capacitance'] },
		{
			title: 'a choke-input filter',
			needs: ['filter', 'inductance', 'capacitance', 'mains', 'rectifier'],
			also: ['load']
		},
		{
			title: 'the reservoir',
			needs: ['rectifier', 'mains', 'capacitance', 'current'],
			also: ['peak', 'sections', 'hum', 'load', 'measured', 'kind']
		},
		{
			title: 'an RC section',
			needs: ['section', 'resistance', 'capacitance', 'frequency'],
			also: ['load', 'current', 'dcIn', 'rippleIn', 'acIn']
		},
		{
			title: 'an LC section',
			needs: ['section', 'inductance', 'capacitance', 'frequency'],
			also: ['load', 'current', 'dcIn', 'rippleIn', 'acIn']
		},
		{
			title: 'the reservoir, by ripple frequency',
			needs: ['frequency', 'capacitance', 'current'],
			also: ['peak', 'sections', 'load', 'measured', 'kind']
		},
		{ title: 'reactances', needs: ['frequency', 'capacitance', 'inductance'] },
		{
			title: 'several sections',
			needs: ['sections', 'frequency'],
			also: ['load', 'ripple', 'dc', 'current']
		},
		{ title: 'regulation', needs: ['noLoad', 'fullLoad'] },
		{ title: 'where the hum comes from', needs: ['rectifier', 'mains', 'hum'] },
		{ title: 'the average of an unsmoothed wave', needs: ['peak'] },
		{ title: 'the ripple frequency', needs: ['mains'], also: ['rectifier'] }
	],
	outputs: {
		ripple: { key: 'V_pp', label: 'Ripple, peak to peak' },
		rippleRms: { key: 'V_ripple_reservoir_rms', label: 'Ripple of the reservoir, RMS' },
		measuredShare: { key: 'measured_pct', label: 'Ripple measured, of the formula' },
		dc: { key: 'V_dc', label: 'Direct volts', digits: 4 },
		factor: { key: 'ripple_factor', label: 'Ripple factor, RMS over DC' },
		current: { key: 'I_dc_A', label: 'Direct current' },
		loadCurrent: { key: 'I_A', label: 'Direct current' },
		load: { key: 'R_load_ohm', label: 'Load as a resistance' },
		capacitance: { key: 'C_uF', label: 'Capacitor wanted' },
		sawToothCapacitance: { key: 'C_sawtooth_uF', label: 'Capacitor by the plain saw-tooth' },
		conducting: { key: 't2_ms', label: 'The rectifier conducts for' },
		pulse: { key: 'I_rp_A', label: 'Charging pulse' },
		capacitorCurrent: { key: 'I_cap_rms_A', label: 'Ripple current of the capacitor, RMS' },
		ratio: { key: 'ratio', label: 'Left of the ripple' },
		decibels: { key: 'dB', label: 'Left of the ripple, in decibels' },
		leftRms: { key: 'V_ripple_rms', label: 'Ripple left, RMS' },
		leftPct: { key: 'ripple_pct', label: 'Ripple left, of the direct volts' },
		leftPp: { key: 'V_pp_left', label: 'Ripple left, peak to peak' },
		acOut: { key: 'V_out', label: 'AC volts left' },
		along: {
			key: 'along',
			label: 'Along the filter',
			columns: { after: 'After', ratio: 'Left of the ripple', V_pp: 'Peak to peak', V_dc: 'Direct volts' }
		},
		reactanceC: { key: 'X_C_ohm', label: 'Reactance of the capacitor' },
		reactanceL: { key: 'X_L_ohm', label: 'Reactance of the choke' },
		criticalChoke: { key: 'L_critical_H', label: 'Choke needed at least' },
		averageHalf: { key: 'V_avg_half', label: 'Average, half wave' },
		averageFull: { key: 'V_avg_full', label: 'Average, full wave' },
		regulation: { key: 'regulation_pct', label: 'Regulation' },
		halfFrequency: { key: 'f_half', label: 'Ripple frequency, half wave' },
		fullFrequency: { key: 'f_full', label: 'Ripple frequency, full wave' },
		points: { key: 'hum_points_to', label: 'The hum points to' }
	},
	formulaText: [
		'f_ripple = f_mains (half wave) or 2 × f_mains (full wave)',
		'V_pp = I / (f_ripple × C),  RMS = V_pp / (2√3),  V_dc = V_peak − V_pp / 2',
		'RC section: ratio = 1 / √(1 + (2π × f × R × C)²)',
		'LC section: ratio = 1 / ((2π × f)² × L × C − 1)',
		'choke input: ripple_factor = √2 / 3 × X_C / X_L at 2 × f_mains',
		'closer, for a stiff source: t2 = (90° − asin(V_min / V_max)) / (360° × f_mains),  C = I × t1 / V_pp',
		'regulation = 100 × (V_no_load − V_full_load) / V_full_load'
	],
	refuse: rippleContradiction,
	formula: ripplesOf,
	pictures: ripplePictures,
	summary: [
		'The reservoir should show {ripple} of ripple, at most.',
		'The direct volts are {dc}.',
		'The section leaves {ratio} of the ripple, {decibels}.',
		'{leftPp} of ripple is left.',
		'{leftRms} of ripple is left, {leftPct} of the direct volts.',
		'A capacitor of {capacitance} is wanted.',
		'The set draws {loadCurrent}.',
		'The capacitor carries {capacitorCurrent} RMS.',
		'The regulation is {regulation}.'
	],
	judge: [
		{
			by: 'measuredShare',
			bands: [
				{
					upTo: 110,
					verdict: 'ok',
					says: 'The ripple is {measuredShare} of the formula, which is an upper bound: in order.',
					source: rippleBands
				},
				{
					below: 150,
					verdict: 'watch',
					says: 'The ripple is {measuredShare} of the formula: somewhat high.',
					source: rippleBands
				},
				{
					upTo: 200,
					verdict: 'half-gone',
					says: 'The ripple is {measuredShare} of the formula: the capacitor has lost about half of its value.',
					source: rippleBands
				},
				{
					verdict: 'renew',
					says: 'The ripple is {measuredShare} of the formula: renew the capacitor.',
					source: rippleBands
				}
			]
		},
		{
			by: 'points',
			bands: [
				{
					is: 'the smoothing',
					verdict: 'smoothing',
					says: 'The hum is at the ripple frequency: look to the smoothing.',
					source: humRule
				},
				{
					is: 'smoothing, heaters or pick-up',
					verdict: 'smoothing',
					says: 'Half wave, ripple and mains are one frequency: smoothing first, then heaters and pick-up.',
					source: humRule
				},
				{
					is: 'not the smoothing',
					verdict: 'not-the-smoothing',
					says: 'The hum is at the mains frequency, the ripple is not: look elsewhere than to the smoothing.',
					source: humRule
				},
				{
					verdict: 'not-the-smoothing',
					says: 'The hum is at twice the mains, and a half-wave reservoir has little of that: look elsewhere.',
					source: humRule
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: [] },
		{
			verdict: 'watch',
			next: ['the direct current: more current, more ripple', 'the series resistance of the capacitor']
		},
		{
			verdict: 'smoothing',
			title: 'Look to the smoothing',
			next: [
				'the ripple at the reservoir',
				'the ripple after each section',
				'the series resistance of the electrolytics'
			]
		},
		{
			verdict: 'not-the-smoothing',
			title: 'Look elsewhere than to the smoothing',
			next: [
				'one dead half of the rectifier',
				'heater to cathode leakage in the first audio valve',
				'an open grid or a lost screen',
				'the heater wiring and its earth'
			]
		},
		{ verdict: 'half-gone', next: ['its capacitance, lifted', 'a new one of the same value'] },
		{ verdict: 'renew', next: ['the capacitor, and those in the same can'] }
	],
	cautions: [
		'The reservoir is at full HT. One hand, and a meter and leads that stand it.',
		'Discharge it and prove it dead before a capacitor is changed.'
	],
	pitfalls: [
		'Measure with a meter that blocks DC and stands the HT; many auto-ranging ones do not.',
		'The formula is an upper bound: behind a rectifier valve ripple is a third lower. Ripple far below it with normal current is no fault.',
		'The series resistance of an electrolytic adds ripple, and a good capacitance reading does not clear it.',
		'A bigger reservoir makes bigger peaks in the rectifier: stay within the maximum of its data.',
		'A new reservoir must carry the ripple current: reckon 1.7 times the direct current with a valve, 3 times with silicon.'
	],
	sources: [rippleBands, humRule, reservoirCurrent, frequencies, bell, chokeInput, simulated],
	checks: [
		{
			id: 'supply-ripple/1',
			given: {
				V_peak: 325.27,
				I_dc_A: 0.01,
				f_mains: 50,
				ripple_factor: 0.01,
				rectifier: 'full',
				R_load_ohm: 32527
			},
			gives: { C_uF: 8.875 },
			withinPct: 0.5,
			basis: 'published',
			source: filters('2.40')
		},
		{
			id: 'supply-ripple/2',
			given: { V_peak: 230, f_mains: 49.97, R_load_ohm: 400, C_uF: 500, rectifier: 'full' },
			gives: { ripple_factor: 0.01444, V_dc: 224.4, I_dc_A: 0.561 },
			withinPct: 0.3,
			basis: 'published',
			source: filters('2.44')
		},
		{
			id: 'supply-ripple/3',
			given: { I_dc_A: 0.00162, f_ripple: 60, C_uF: 10 },
			gives: { V_pp: 2.7 },
			withinPct: 0.5,
			basis: 'published values and formula, arithmetic result',
			source: diary
		},
		{
			id: 'supply-ripple/4',
			given: { C_uF: 10, f: 60, L_H: 10 },
			gives: { X_C_ohm: 265.3, X_L_ohm: 3770 },
			withinPct: 1,
			basis: 'published (265 ohm, 3.8 kohm)',
			source: army
		},
		{
			id: 'supply-ripple/5',
			given: { V_peak: 1 },
			gives: { V_avg_half: 0.318, V_avg_full: 0.637 },
			withinPct: 0.2,
			basis: 'published',
			source: neets6('p. 3-31')
		},
		{
			id: 'supply-ripple/6',
			given: { V_no_load: 30, V_full_load: 25 },
			gives: { regulation_pct: 20 },
			withinPct: 0.1,
			basis: 'published (answer choice)',
			source: neets6('question 3-46')
		},
		{
			id: 'supply-ripple/7',
			given: { section: 'RC', R_ohm: 1000, C_uF: 32, f: 100 },
			gives: { ratio: 0.04967, dB: -26.08 },
			withinPct: 0.2,
			basis: 'arithmetic, confirmed with ngspice 39',
			source: OWN_NUMBERS
		},
		{
			id: 'supply-ripple/8',
			given: { section: 'LC', L_H: 10, C_uF: 32, f: 100 },
			gives: { ratio: 0.007979 },
			withinPct: 0.2,
			basis: 'arithmetic, confirmed with ngspice 39',
			source: OWN_NUMBERS
		},
		{
			id: 'supply-ripple/9',
			given: { filter: 'choke input', L_H: 10, C_uF: 10, f_mains: 50, rectifier: 'full' },
			gives: { ripple_factor: 0.01194 },
			withinPct: 0.5,
			basis: 'published formula, arithmetic value',
			source: chokeInput
		},
		{
			id: 'supply-ripple/10',
			given: { f_mains: [50, 60] },
			gives: { f_half: [50, 60], f_full: [100, 120] },
			withinPct: 0,
			basis: 'published',
			source: frequencies
		},
		{
			id: 'supply-ripple/11',
			given: {
				section: 'RC',
				R_ohm: 500,
				C_uF: 10,
				f: 120,
				R_load_ohm: 5000,
				V_dc_in: 150,
				V_ripple_in_rms: 15
			},
			gives: { V_dc: 136.4, V_ripple_rms: 3.846, ripple_pct: 2.82 },
			withinPct: 2,
			basis: 'published (the book uses R well above X and prints 3.9 V, 2.8 %)',
			source: boylestad('15.7')
		},
		{
			id: 'supply-ripple/12',
			given: { section: 'LC', L_H: 10, C_uF: 1000, f: 50, V_in: 1 },
			gives: { X_C_ohm: 3.18, X_L_ohm: 3142, V_out: 0.001014 },
			withinPct: 0.5,
			basis: 'published (1.01 mV)',
			source: tooley
		},
		{
			id: 'supply-ripple/13',
			given: { rectifier: 'full', f_mains: 50, I_A: 0.2, C_uF: 10000 },
			gives: { V_pp: 0.2 },
			withinPct: 0.1,
			basis: 'published',
			source: raju('5.14')
		},
		{
			id: 'supply-ripple/14',
			given: { rectifier: 'half', f_mains: 60, I_A: 0.04, V_dc: 20, V_pp: 2 },
			gives: { t2_ms: 1.167, C_uF: 310, C_sawtooth_uF: 333.3, I_rp_A: 0.571 },
			withinPct: 0.5,
			basis: 'published (1.17 ms, 310 uF, 570 mA)',
			source: bell
		},
		{
			id: 'supply-ripple/15',
			given: { V_no_load: 60, V_full_load: 56 },
			gives: { regulation_pct: 7.14 },
			withinPct: 0.2,
			basis: 'published',
			source: boylestad('15.2')
		},
		{
			id: 'supply-ripple/16',
			given: { rectifier: 'full', f_mains: 50, C_uF: 600, V_pp: 1.2, V_dc: 9 },
			gives: { I_A: 0.072, R_load_ohm: 125, ripple_factor: 0.0385 },
			withinPct: 0.2,
			basis: 'published',
			source: raju('5.15')
		},
		{
			id: 'supply-ripple/17',
			given: { V_rms_per_half: 250, R_per_side_ohm: [150, 10], C_uF: 32, I_A: 0.052, f_mains: 50 },
			gives: { V_dc: [313.8, 344.1], V_pp: [11.6, 14.15], I_cap_rms_A: [0.0897, 0.1499] },
			withinPct: 2,
			basis: 'ngspice 39',
			source: simulated
		},
		{
			id: 'supply-ripple/12 V on 32 uF at 52 mA',
			given: { rectifier: 'full', f_mains: 50, I_dc_A: 0.052, C_uF: 32, V_pp_measured: 12 },
			gives: { V_pp: 16.25, measured_pct: 73.85 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'supply-ripple/21 V on 32 uF at 52 mA',
			given: { rectifier: 'full', f_mains: 50, I_dc_A: 0.052, C_uF: 32, V_pp_measured: 21 },
			gives: { measured_pct: 129.2 },
			verdict: 'watch',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'supply-ripple/30 V on 32 uF at 52 mA',
			given: { rectifier: 'full', f_mains: 50, I_dc_A: 0.052, C_uF: 32, V_pp_measured: 30 },
			gives: { measured_pct: 184.6 },
			verdict: 'half-gone',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'supply-ripple/60 V on 32 uF at 52 mA',
			given: { rectifier: 'full', f_mains: 50, I_dc_A: 0.052, C_uF: 32, V_pp_measured: 60 },
			gives: { measured_pct: 369.2 },
			verdict: 'renew',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'supply-ripple/100 Hz hum in a full-wave set',
			given: { rectifier: 'full', f_mains: 50, f_hum: 100 },
			gives: { hum_points_to: 'the smoothing' },
			verdict: 'smoothing',
			withinPct: 0,
			basis: 'common practice, no source',
			source: humRule
		},
		{
			id: 'supply-ripple/50 Hz hum in a full-wave set',
			given: { rectifier: 'full', f_mains: 50, f_hum: 50 },
			gives: { hum_points_to: 'not the smoothing' },
			verdict: 'not-the-smoothing',
			withinPct: 0,
			basis: 'common practice, no source',
			source: humRule
		},
		{
			id: 'supply-ripple/reservoir and two RC sections',
			given: {
				rectifier: 'full',
				f_mains: 50,
				I_dc_A: 0.05,
				C_uF: 32,
				V_peak: 300,
				sections: [
					{ R_ohm: 1000, C_uF: 32 },
					{ R_ohm: 2200, C_uF: 8 }
				]
			},
			gives: {
				V_pp: 15.625,
				along: [
					{ after: 'section 1', ratio: 0.04951, V_dc: 242.19 },
					{ after: 'section 2', ratio: 0.004459, V_dc: 132.19 }
				]
			},
			withinPct: 0.5,
			basis: 'arithmetic',
			source: arithmetic('two sections as a ladder: the second takes 0.3 % from the first')
		}
	]
});
