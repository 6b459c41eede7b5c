import { defineCalculation } from './define.ts';
import { inputs, lampContradiction, lampPictures, lampResults } from './lamp-limiter-results.ts';
import { arithmetic, commonPractice, OHM_AND_JOULE, OWN_NUMBERS, published } from './sources.ts';

const law = published(
	'Fink and Beaty, Standard Handbook for Electrical Engineers, 11th ed., p. 22-8, by way of "Lamp rerating": exponents 0.55 for current, 3.4 to 3.5 for light'
);
const korean = published('New Physics: Sae Mulli 73 (2023) p. 127, Table 2 (2.5 V 0.3 A lamp, measured)');
const shortCircuit = published('blog.earthshod.co.uk/?page_id=120 ("about 180 mA")');
const coldLamp = published('overunityresearch.com topic 1493 (100 W 120 V lamp: 144 ohm hot, 9.5 ohm cold)');
const thesis = published(
	'thesis "The Fifteen Watt Tungsten Lamp" (bitlit.ru): 5 candle-power at 11.1 W, 15 at 17.5 W'
);
const dimBulb = published(
	'The "dim bulb tester" (technical note, after Electron, February 2022): bright with a short, hardly lit with a sound set, which then gets nearly full mains'
);
const byEye = commonPractice('how the lamp behaves in the first minutes');
const loadBands = commonPractice(
	'watts at full mains against the plate: 0.6, 1.3 and 2 times; a short below 15 % of the mains'
);
const ownSink = commonPractice('volts that sink by a quarter of the mains after their peak: our own choice');

/**
 * A filament lamp in series with the set: what it should do, and what the volts, the current or the glow say.
 *
 *     I_lamp = I_rated * (V_lamp / V_rated)^0.55      A
 *     forward:  V_lamp + I * R_set = V_mains, R_set = V_mains^2 / W_set
 *     backward: V_lamp = V_mains - V_set, R_set = V_set / I, W at full mains = V_mains^2 / R_set
 *
 * The law holds within 3 % from 0.6 to 1.2 of the lamp's volts, within 8 % at 0.4, not below 0.2. A set is no plain resistance:
 * take the backward figures as 25 % either way.
 */
export const lampLimiter = defineCalculation({
	id: 'lamp-limiter',
	title: 'Lamp limiter',
	question: 'What should the lamp in series do, and what does it say about the set?',
	group: 'Mains, lamp and heaters',
	words: [
		'bulb',
		'dim bulb tester',
		'current limiter',
		'first power',
		'variac',
		'series lamp',
		'lamp stays bright',
		'lamp glows',
		'limiter',
		'safe first switch-on',
		'short'
	],
	inputs,
	ways: [
		{
			title: 'volts measured at the set',
			needs: ['lamp', 'mains', 'setVolts'],
			also: ['setPower', 'ratedVolts', 'glow']
		},
		{
			title: 'volts measured on the lamp',
			needs: ['lamp', 'mains', 'lampRead'],
			also: ['setPower', 'ratedVolts', 'glow']
		},
		{
			title: 'current measured',
			needs: ['lamp', 'mains', 'currentRead'],
			also: ['setPower', 'ratedVolts', 'glow']
		},
		{
			title: 'volts over the first minutes',
			needs: ['lamp', 'mains', 'series'],
			also: ['setPower', 'ratedVolts', 'glow']
		},
		{ title: 'the watts of the set', needs: ['lamp', 'mains', 'setPower'], also: ['ratedVolts', 'glow'] },
		{
			title: 'the set as a resistance',
			needs: ['lamp', 'mains', 'resistance'],
			also: ['ratedVolts', 'glow']
		},
		{ title: 'how the lamp behaves', needs: ['glow'], also: ['lamp', 'mains', 'ratedVolts'] },
		{ title: 'the law of the lamp', needs: ['lampRead', 'ratedVolts', 'ratedCurrent'] },
		{
			title: 'light against watts',
			needs: ['lowPower', 'lowLight', 'highPower', 'highLight'],
			also: ['lamp']
		},
		{ title: 'the lamp alone', needs: ['lamp', 'ratedVolts'] }
	],
	outputs: {
		setVolts: { key: 'V_set', label: 'Volts at the set' },
		lampVolts: { key: 'V_lamp', label: 'Volts on the lamp' },
		current: { key: 'I_A', label: 'Current' },
		currentFrom: { key: 'I_from_A', label: 'Current, from' },
		currentTo: { key: 'I_to_A', label: 'Current, to' },
		power: { key: 'P_set_W', label: 'Watts into the set' },
		powerNow: { key: 'P_set_now_W', label: 'Watts into the set now' },
		resistance: { key: 'R_set_ohm', label: 'The set as a resistance' },
		atFull: { key: 'W_set_at_full_mains', label: 'Watts at full mains, 25 % either way' },
		ofPlate: { key: 'of_plate_pct', label: 'Watts at full mains, of the plate' },
		looks: { key: 'lamp_looks', label: 'The lamp looks' },
		light: { key: 'light_pct', label: 'Light, of full' },
		hot: { key: 'R_hot_ohm', label: 'Lamp, hot' },
		cold: { key: 'R_cold_ohm', label: 'Lamp, cold, at worst' },
		coldMost: { key: 'R_cold_to_ohm', label: 'Lamp, cold, up to' },
		inrush: { key: 'I_inrush_A', label: 'Inrush, at worst' },
		exponent: { key: 'light_exponent_of_watts', label: 'Exponent of light over watts' },
		lawExponent: { key: 'light_exponent_by_law', label: 'The same by the law' },
		finding: { key: 'finding', label: 'By the volts' },
		course: { key: 'course', label: 'In the first minutes the volts' },
		glow: { key: 'glow', label: 'By eye' }
	},
	formulaText: [
		'I = I_rated × (V_lamp / V_rated) to the power of 0.55,  I_rated = W_lamp / V_rated',
		'what should happen: V_lamp + I × R_set = V_mains,  R_set = V_mains² / W_set',
		'what it says: V_lamp = V_mains − V_set,  R_set = V_set / I,  W at full mains = V_mains² / R_set',
		'light = (V_lamp / V_rated) to the power of 3.4',
		'R_cold = R_hot / 15 to R_hot / 10'
	],
	refuse: lampContradiction,
	formula: lampResults,
	pictures: lampPictures,
	summary: [
		'The set gets {setVolts}, the lamp {lampVolts}, and {current} flows.',
		'The lamp looks {looks}, with {light} of its light.',
		'The set takes {power}.',
		'The set takes {powerNow} now; at full mains it would take some {atFull}.',
		'So near to dark the lamp tells no current: anything from {currentFrom} to {currentTo}.',
		'Hot the lamp is {hot}, cold {cold} to {coldMost}.'
	],
	judge: [
		{
			by: 'finding',
			bands: [
				{
					is: 'normal load',
					verdict: 'normal',
					says: 'The set draws {ofPlate} of the watts on its plate: normal.',
					source: loadBands
				},
				{
					is: 'lamp hardly lit',
					verdict: 'lamp-too-large',
					says: 'The lamp is all but dark: nothing draws heavily. For a figure take a lamp of fewer watts.',
					source: dimBulb
				},
				{
					is: 'light load',
					verdict: 'light-load',
					says: 'The set draws only {ofPlate} of the watts on its plate.',
					source: loadBands
				},
				{
					is: 'heavy load',
					verdict: 'watch',
					says: 'The set draws {ofPlate} of the watts on its plate: more than it should, within the doubt of the method.',
					source: loadBands
				},
				{
					is: 'open',
					verdict: 'open',
					says: 'Nearly the whole mains stands at the set and the lamp is dark: nothing flows.',
					source: loadBands
				},
				{
					is: 'overload',
					verdict: 'too-much',
					says: 'The set draws {ofPlate} of the watts on its plate: far too much. Switch off.',
					source: loadBands
				},
				{
					verdict: 'short',
					says: 'Nearly the whole mains stands on the lamp: the set is a short. Switch off.',
					source: dimBulb
				}
			]
		},
		{
			by: 'course',
			bands: [
				{ is: 'settles', verdict: 'normal', says: 'The volts settle.', source: ownSink },
				{
					verdict: 'warms-into-a-fault',
					says: 'The volts sink as the valves warm up: they warm into a fault on the HT. Switch off.',
					source: ownSink
				}
			]
		},
		{
			by: 'glow',
			bands: [
				{
					is: 'flash, then dim',
					verdict: 'normal',
					says: 'A flash, then dim: as a sound set does it.',
					source: byEye
				},
				{
					is: 'steady dull red',
					verdict: 'normal',
					says: 'A steady dull red: about right, or the lamp is small for the set.',
					source: byEye
				},
				{
					is: 'stays dark',
					verdict: 'open',
					says: 'The lamp stays dark: nothing flows, or the lamp is far too large.',
					source: byEye
				},
				{
					is: 'slowly brightens after half a minute',
					verdict: 'warms-into-a-fault',
					says: 'It brightens as the valves warm up: they warm into a fault on the HT. Switch off.',
					source: byEye
				},
				{ verdict: 'short', says: 'Bright and staying bright: a short. Switch off.', source: dimBulb }
			]
		}
	],
	verdicts: [
		{
			verdict: 'normal',
			next: ['the HT at the reservoir on the limiter', 'then the next larger lamp, or full mains']
		},
		{
			verdict: 'lamp-too-large',
			title: 'No overload; the lamp is too large to tell more',
			next: ['a lamp of about the watts of the set']
		},
		{
			verdict: 'light-load',
			next: [
				'whether all heaters glow',
				'the HT at the reservoir: the rectifier may be idle',
				'the same after the valves are warm'
			]
		},
		{
			verdict: 'watch',
			next: ['the same after two minutes', 'the HT at the reservoir', 'mains volts today against the tap']
		},
		{
			verdict: 'open',
			title: 'Nothing flows',
			next: [
				'whether the lamp is far too large for the set',
				'fuse, switch and mains lead',
				'the primary of the mains transformer',
				'in an AC/DC set the heater chain and its dropper'
			]
		},
		{
			verdict: 'warms-into-a-fault',
			danger: true,
			next: [
				'the electrolytics, for leakage',
				'the coupling capacitor to the output grid',
				'the HT line to chassis, unplugged and discharged'
			]
		},
		{
			verdict: 'too-much',
			danger: true,
			next: [
				'rectifier and reservoir',
				'the HT line to chassis, unplugged and discharged',
				'the mains transformer with the rectifier out of it'
			]
		},
		{
			verdict: 'short',
			danger: true,
			next: [
				'the mains transformer alone: all valves out, only where heaters are in parallel',
				'a suppressor across the mains',
				'rectifier and reservoir'
			]
		}
	],
	cautions: [
		'The lamp limits the current only. The chassis may still be live, and the mains still kills.',
		'Everything is connected and disconnected with the plug out.'
	],
	pitfalls: [
		'LED and compact fluorescent lamps do not work here: a filament lamp, or a halogen one.',
		'Lamp volts and set volts together come out a few per cent above the mains: the load is partly reactive.',
		'On two thirds of its volts a set does not draw two thirds of its current: the backward figure is an estimate.',
		'An AC/DC set draws a surge while its heaters are cold: wait a minute before judging.',
		'A lamp of fewer volts than the mains burns out when the set is a short.'
	],
	sources: [law, dimBulb, loadBands, byEye, ownSink, OHM_AND_JOULE],
	checks: [
		{
			id: 'lamp-limiter/1',
			given: { V_lamp: 2.948, V_rated: 2.464, I_rated_A: 0.298 },
			gives: { I_A: 0.3289 },
			withinPct: 0.2,
			basis: 'published (.325 A measured, within 3 %)',
			source: korean
		},
		{
			id: 'lamp-limiter/2',
			given: { V_lamp: 2.012, V_rated: 2.464, I_rated_A: 0.298 },
			gives: { I_A: 0.2666 },
			withinPct: 0.2,
			basis: 'published (.270 A measured, within 3 %)',
			source: korean
		},
		{
			id: 'lamp-limiter/3',
			given: { W_lamp: 40, V_mains: 230, R_set_ohm: 0 },
			gives: { I_A: 0.174 },
			withinPct: 0.5,
			basis: 'published ("about 180 mA", within 5 %)',
			source: shortCircuit
		},
		{
			id: 'lamp-limiter/4',
			given: { W_lamp: 100, V_rated: 120 },
			gives: { R_hot_ohm: 144, R_cold_ohm: 9.6 },
			withinPct: 1,
			withinAbsolute: { R_cold_ohm: 1.44 },
			basis: 'published (144 ohm hot, about 9.5 ohm cold)',
			source: coldLamp
		},
		{
			id: 'lamp-limiter/5',
			given: { W_lamp: 60, V_mains: 230, W_set_normal: 40 },
			gives: { V_lamp: 62.1, V_set: 167.9, I_A: 0.127, P_set_W: 21.3 },
			withinPct: 0.5,
			basis: 'arithmetic, confirmed with ngspice 39 (168.0 V, 127.1 mA); the set as a fixed resistance',
			source: OWN_NUMBERS
		},
		{
			id: 'lamp-limiter/6',
			given: { W_lamp: 100, V_mains: 230, W_set_normal: 40 },
			gives: { V_lamp: 32.85, V_set: 197.2, I_A: 0.1491 },
			withinPct: 0.5,
			basis: 'arithmetic; the set as a fixed resistance',
			source: OWN_NUMBERS
		},
		{
			id: 'lamp-limiter/7',
			given: { W_lamp: 60, V_mains: 230, V_set: 150 },
			gives: { I_A: 0.1459, P_set_now_W: 21.9, R_set_ohm: 1028, W_set_at_full_mains: 51.5 },
			withinPct: 0.5,
			basis: 'arithmetic, backward',
			source: OWN_NUMBERS
		},
		{
			id: 'lamp-limiter/8',
			given: { W_lamp: 60, V_mains: 230, V_set: 20 },
			gives: { I_A: 0.2481, R_set_ohm: 80.6 },
			verdict: 'short',
			withinPct: 0.5,
			basis: 'arithmetic, backward',
			source: OWN_NUMBERS
		},
		{
			id: 'lamp-limiter/9',
			given: { W_lamp: 15, W_low: 11.1, light_low_cp: 5, W_high: 17.5, light_high_cp: 15 },
			gives: { light_exponent_of_watts: 2.41, light_exponent_by_law: 2.19 },
			withinPct: 0.5,
			basis: 'published readings, recomputed; the law lies 10 % lower',
			source: thesis
		},
		{
			id: 'lamp-limiter/150 V at a set of 45 W',
			given: { W_lamp: 60, V_mains: 230, V_set: 150, W_set_normal: 45 },
			gives: { of_plate_pct: 114.4 },
			verdict: 'normal',
			withinPct: 0.5,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'lamp-limiter/150 V at a set of 30 W',
			given: { W_lamp: 60, V_mains: 230, V_set: 150, W_set_normal: 30 },
			gives: { of_plate_pct: 171.6 },
			verdict: 'watch',
			withinPct: 0.5,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'lamp-limiter/80 V at a set of 45 W',
			given: { W_lamp: 60, V_mains: 230, V_set: 80, W_set_normal: 45 },
			gives: { W_set_at_full_mains: 136.4 },
			verdict: 'too-much',
			withinPct: 0.5,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'lamp-limiter/180 V at a set of 100 W',
			given: { W_lamp: 60, V_mains: 230, V_set: 180, W_set_normal: 100 },
			gives: { of_plate_pct: 33.1 },
			verdict: 'light-load',
			withinPct: 0.5,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'lamp-limiter/229 V at the set',
			given: { W_lamp: 60, V_mains: 230, V_set: 229 },
			gives: { V_lamp: 1, finding: 'open' },
			verdict: 'open',
			withinPct: 0.5,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'lamp-limiter/200 W lamp, 215 V at the set',
			given: { W_lamp: 200, V_mains: 230, V_set: 215, W_set_normal: 45 },
			gives: { V_lamp: 15, I_to_A: 0.8507 },
			verdict: 'lamp-too-large',
			withinPct: 0.5,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'lamp-limiter/170 mA through a 60 W lamp',
			given: { W_lamp: 60, V_mains: 230, I_A: 0.17, W_set_normal: 45 },
			gives: { V_set: 124.5, W_set_at_full_mains: 72.2 },
			verdict: 'watch',
			withinPct: 0.5,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'lamp-limiter/volts that sink after a minute',
			given: {
				W_lamp: 60,
				V_mains: 230,
				series_min_V: [
					[0.1, 120],
					[0.5, 170],
					[1, 150],
					[2, 95]
				]
			},
			gives: { V_set: 95, course: 'sinks' },
			verdict: 'warms-into-a-fault',
			withinPct: 0.5,
			basis: 'arithmetic',
			source: arithmetic('invented series of the sinking kind')
		},
		{
			id: 'lamp-limiter/volts that settle',
			given: {
				W_lamp: 60,
				V_mains: 230,
				W_set_normal: 45,
				series_min_V: [
					[0.1, 120],
					[0.5, 170],
					[1, 162],
					[2, 158]
				]
			},
			gives: { V_set: 158, course: 'settles' },
			verdict: 'normal',
			withinPct: 0.5,
			basis: 'arithmetic',
			source: arithmetic('invented series of the settling kind')
		},
		{
			id: 'lamp-limiter/flash, then dim',
			given: { glow: 'flash, then dim' },
			gives: {},
			verdict: 'normal',
			withinPct: 0,
			basis: 'common practice, no source',
			source: byEye
		},
		{
			id: 'lamp-limiter/bright and stays bright',
			given: { glow: 'bright and stays bright' },
			gives: {},
			verdict: 'short',
			withinPct: 0,
			basis: 'published',
			source: dimBulb
		},
		{
			id: 'lamp-limiter/brightens as valves warm up',
			given: { glow: 'slowly brightens after half a minute' },
			gives: {},
			verdict: 'warms-into-a-fault',
			withinPct: 0,
			basis: 'common practice, no source',
			source: byEye
		}
	]
});
