import { defineCalculation } from './define.ts';
import { choice, number, optional } from './inputs.ts';
import { arithmetic, commonPractice, OHM_AND_JOULE, OWN_NUMBERS, published } from './sources.ts';

const iec = published(
	"IEC 60065 text as quoted in two makers' service manuals (easymanua.ls, user-manuals.com): 0.7 mA peak, 2.0 mA DC, 35 V peak, 60 V DC"
);
const codeOfPractice = published(
	'IEE Code of Practice 3rd ed., Table 15.3 (quoted at pattesters.co.uk); pswservices.co.uk for the megohms'
);
const olderNetwork = published(
	'safety check of two television service manuals, easymanua.ls and manualarchiveguide.com: 1.5 kohm, 0.15 uF, 0.75 V RMS, half a milliamp'
);
const half = commonPractice('half of a limit is the line between in order and to be watched');
const limit = arithmetic('more than the limit');

/** Most that may flow, A RMS, and least insulation, ohm, by protection class. */
const CLASSES = {
	'I hand-held': { current: 0.75e-3, insulation: 1e6 },
	'I other': { current: 3.5e-3, insulation: 1e6 },
	II: { current: 0.25e-3, insulation: 2e6 }
} as const;
const PEAK_LIMIT = 0.7e-3;
const DC_LIMIT = 2e-3;
/** Older network of 1.5 kohm and 0.15 uF: 0.75 V RMS. */
const OLDER = { resistance: 1500, current: 0.5e-3 } as const;
const OPEN = { peak: 35, dc: 60 } as const;
/** The resistor of the IEC network across which volts are read, ohm. */
const NETWORK_OHMS = 500;

const over = (value: number | undefined, by: number): number | undefined =>
	value === undefined ? undefined : value / by;
const largest = (...values: (number | undefined)[]): number | undefined => {
	const known = values.filter((value) => value !== undefined);
	return known.length > 0 ? Math.max(...known) : undefined;
};

/**
 * Touch current and insulation of a mended set against published limits.
 *
 *     I = U / 500               A, from the volts across the 500 ohm of the IEC network (1.5 kohm || 0.22 uF, then 500 ohm)
 *     I = 2 * pi * f * C * V    A RMS through an aerial isolator or a filter capacitor
 *     I = V / R                 A through insulation
 *
 * Quoted for information. Local codes and licensed practice decide.
 */
export const insulationTouchCurrent = defineCalculation({
	id: 'insulation-touch-current',
	title: 'Insulation and touch current',
	question: 'Is the set safe to touch after repair?',
	group: 'Safety',
	words: [
		'earth leakage',
		'PAT',
		'Y capacitor',
		'aerial isolator',
		'shock',
		'electric shock',
		'tingle',
		'tingles',
		'safe to touch',
		'megger',
		'insulation tester',
		'live chassis',
		'earth'
	],
	inputs: {
		networkPeak: optional(number('U2_peak_V', 'peak AC volts across the 500 ohm of the network', 0, 400)),
		networkDc: optional(number('U1_dc_V', 'DC volts across the 500 ohm of the network', 0, 400)),
		networkOhms: optional(number('R_B_ohm', 'resistor of the network, if not 500 ohm', 100, 10e3)),
		olderVolts: optional(number('V_older_rms', 'RMS volts across 1.5 kohm with 0.15 uF', 0, 300)),
		openPeak: optional(number('open_circuit_peak_ac_V', 'peak AC volts to earth, meter alone', 0, 600)),
		openDc: optional(number('open_circuit_dc_V', 'DC volts to earth, meter alone', 0, 600)),
		capacitance: optional(number('C_nF', 'capacitor from the mains to metal', 0.01e-9, 1e-6)),
		volts: optional(number('V', 'mains volts', 50, 300)),
		frequency: optional(number('f', 'mains frequency', 40, 70)),
		klass: optional(choice('klass', 'protection class', Object.keys(CLASSES) as (keyof typeof CLASSES)[])),
		current: optional(number('I_rms_mA', 'touch current measured', 0, 0.1)),
		insulation: optional(number('R_insulation_Mohm', 'insulation measured at 500 V DC', 0, 1e12))
	},
	ways: [
		{ title: 'volts on the network, peak AC', needs: ['networkPeak'], also: ['networkDc', 'networkOhms'] },
		{ title: 'volts on the network, DC', needs: ['networkDc'], also: ['networkOhms'] },
		{ title: 'volts on the older network', needs: ['olderVolts'] },
		{ title: 'open-circuit volts', needs: ['openPeak', 'openDc'] },
		{ title: 'a capacitor', needs: ['capacitance', 'volts', 'frequency'], also: ['klass'] },
		{ title: 'the protection class', needs: ['klass'], also: ['current', 'insulation'] }
	],
	outputs: {
		peak: { key: 'I_peak_mA', label: 'Touch current, peak' },
		rms: { key: 'I_rms_mA', label: 'Touch current, RMS' },
		dc: { key: 'I_dc_mA', label: 'Touch current, DC' },
		limit: { key: 'limit_mA', label: 'Limit of the class' },
		insulationLimit: { key: 'insulation_Mohm', label: 'Insulation wanted' },
		hazardous: { key: 'hazardous', label: 'Hazardous by the volts alone' },
		above: { key: 'above_these', label: 'Above 35 V peak or 60 V DC' },
		openShare: { key: 'open_pct', label: 'Open-circuit volts, share of the limit' },
		share: { key: 'share_pct', label: 'Touch current, share of the limit' },
		insulationShare: { key: 'insulation_share_pct', label: 'Insulation wanted, share of that measured' }
	},
	formulaText: [
		'I_peak = U2_peak / R_B,  I_dc = U1_dc / R_B,  R_B = 500 Ω',
		'I_rms = 2π × f × C × V,  I_peak = √2 × I_rms',
		'older network: I_rms = V_older / 1.5 kΩ'
	],
	formula(given) {
		const network = given.networkOhms ?? NETWORK_OHMS;
		const { capacitance, volts, frequency } = given;
		const through =
			capacitance !== undefined && volts !== undefined && frequency !== undefined
				? 2 * Math.PI * frequency * capacitance * volts
				: undefined;
		const older = over(given.olderVolts, OLDER.resistance);
		const rms = given.current ?? through ?? older;
		const networkPeak = over(given.networkPeak, network);
		const dc = over(given.networkDc, network);
		const row = given.klass && CLASSES[given.klass];
		const openShare = largest(over(given.openPeak, OPEN.peak), over(given.openDc, OPEN.dc));
		const share = largest(
			over(networkPeak, PEAK_LIMIT),
			over(dc, DC_LIMIT),
			over(older, OLDER.current),
			row && over(rms, row.current)
		);
		return {
			peak: networkPeak ?? (rms === undefined ? undefined : Math.SQRT2 * rms),
			rms,
			dc,
			limit: row?.current,
			insulationLimit: row?.insulation,
			hazardous: openShare === undefined ? undefined : openShare > 1,
			above: openShare === undefined ? undefined : 'measure the touch current',
			openShare: openShare && 100 * openShare,
			share: share === undefined ? undefined : 100 * share,
			insulationShare:
				row && given.insulation !== undefined
					? (100 * row.insulation) / Math.max(given.insulation, 1)
					: undefined
		};
	},
	summary: [
		'{peak} peak flows through whoever touches it.',
		'{dc} of DC flows through whoever touches it.',
		'The class allows {limit} and wants {insulationLimit} of insulation.'
	],
	judge: [
		{
			by: 'share',
			bands: [
				{ upTo: 50, verdict: 'ok', says: 'The touch current is {share} of the limit.', source: half },
				{
					upTo: 100,
					verdict: 'watch',
					says: 'The touch current is {share} of the limit: within it, with little to spare.',
					source: half
				},
				{
					verdict: 'unsafe',
					says: 'The touch current is {share} of the limit. Do not hand the set over.',
					source: limit
				}
			]
		},
		{
			by: 'openShare',
			bands: [
				{
					upTo: 100,
					verdict: 'ok',
					says: 'Touchable parts stand no higher than 35 V peak and 60 V DC to earth: not hazardous by the volts alone.',
					source: iec
				},
				{
					verdict: 'measure-current',
					says: 'Touchable parts stand above 35 V peak or 60 V DC to earth. Measure the touch current.',
					source: iec
				}
			]
		},
		{
			by: 'insulationShare',
			bands: [
				{ upTo: 50, verdict: 'ok', says: 'The insulation is twice what is wanted, or more.', source: half },
				{
					upTo: 100,
					verdict: 'watch',
					says: 'The insulation is enough, with little to spare.',
					source: half
				},
				{
					verdict: 'unsafe',
					says: 'The insulation is below {insulationLimit}. Do not hand the set over.',
					source: codeOfPractice
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: ['the same with the plug reversed, and with the switch on and off'] },
		{
			verdict: 'watch',
			next: ['the same with the plug reversed', 'suppressors and aerial isolators, one by one']
		},
		{
			verdict: 'measure-current',
			next: ['the current through the network of 1.5 kohm with 0.22 uF and 500 ohm, both ways of the plug']
		},
		{
			verdict: 'unsafe',
			next: [
				'capacitors from the mains to chassis: class Y only',
				'the mains lead, its entry and its cord grip',
				'the mains transformer, primary to core',
				'aerial and earth isolators of a live chassis'
			]
		}
	],
	cautions: [
		'Local codes and licensed practice decide. These limits are quoted for information.',
		'The test is made on the mains itself, with an RCD and one hand, or is left to a licensed person: an isolating transformer hides the fault.',
		'Both ways of the plug, switch on and off, AC and DC.'
	],
	pitfalls: [
		'A set with a live chassis is safe only by its cabinet: knobs, grub screws and back must be complete.',
		'No 500 V test across old paper capacitors or suppressors that stay: lift them, or test at 250 V.',
		'Older shops ask 2 and 7 Mohm of insulation.',
		'The limits differ by country and by date; above 100 kHz far more is allowed.'
	],
	sources: [iec, codeOfPractice, olderNetwork, half, OHM_AND_JOULE],
	checks: [
		{
			id: 'insulation-touch-current/1',
			given: { U2_peak_V: 0.35, R_B_ohm: 500 },
			gives: { I_peak_mA: 0.7 },
			verdict: 'watch',
			withinPct: 0.1,
			basis: 'published',
			source: iec
		},
		{
			id: 'insulation-touch-current/2',
			given: { U1_dc_V: 1, R_B_ohm: 500 },
			gives: { I_dc_mA: 2 },
			verdict: 'watch',
			withinPct: 0.1,
			basis: 'published',
			source: iec
		},
		{
			id: 'insulation-touch-current/3',
			given: { klass: ['I hand-held', 'I other', 'II'] },
			gives: { limit_mA: [0.75, 3.5, 0.25], insulation_Mohm: [1, 1, 2] },
			withinPct: 0,
			basis: 'published',
			source: codeOfPractice
		},
		{
			id: 'insulation-touch-current/4',
			given: { C_nF: [1, 4.7], V: 240, f: 50 },
			gives: { I_rms_mA: [0.0754, 0.3544], I_peak_mA: [0.1066, 0.5012] },
			withinPct: 0.2,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'insulation-touch-current/5',
			given: { open_circuit_peak_ac_V: 35, open_circuit_dc_V: 60 },
			gives: { hazardous: false, above_these: 'measure the touch current' },
			verdict: 'ok',
			withinPct: 0,
			basis: 'published: the open-circuit volts are looked at first',
			source: iec
		},
		{
			id: 'insulation-touch-current/aerial stands at half the mains',
			given: { open_circuit_peak_ac_V: 162, open_circuit_dc_V: 0 },
			gives: { hazardous: true },
			verdict: 'measure-current',
			withinPct: 0,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'insulation-touch-current/0.75 V on the older network',
			given: { V_older_rms: 0.75 },
			gives: { I_rms_mA: 0.5, share_pct: 100 },
			verdict: 'watch',
			withinPct: 0.1,
			basis: 'published (0.75 V RMS and half a milliamp)',
			source: olderNetwork
		},
		{
			id: 'insulation-touch-current/10 nF to the chassis of a class II set',
			given: { C_nF: 10, V: 240, f: 50, klass: 'II' },
			gives: { I_rms_mA: 0.754, share_pct: 301.6 },
			verdict: 'unsafe',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'insulation-touch-current/class I set with 20 Mohm and half a milliamp',
			given: { klass: 'I other', I_rms_mA: 0.5, R_insulation_Mohm: 20 },
			gives: { share_pct: 14.29, insulation_share_pct: 5 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'insulation-touch-current/class II set of 1 Mohm',
			given: { klass: 'II', R_insulation_Mohm: 1 },
			gives: { insulation_share_pct: 200 },
			verdict: 'unsafe',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
