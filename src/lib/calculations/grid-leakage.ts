import { defineCalculation, parallel } from './define.ts';
import { number, optional } from './inputs.ts';
import { arithmetic, commonPractice, OHM_AND_JOULE, OWN_NUMBERS, published } from './sources.ts';

const gridBands = commonPractice('volts on a grid that should sit at 0 V: 0.1, 0.5 and 2 V');
const leakRaises = arithmetic('a leak from a positive point can only raise the grid');
const forum = published('music-electronics-forum.com thread 43312 (15 mV, 1 Mohm, about 15 nA)');

/**
 * Volts that a leaky capacitor from an anode (or HT) puts on a grid, the leak behind measured grid volts, and the leak that
 * can be borne.
 *
 *     V_grid = V_feed * R_grid / (R_leak + R_grid)     V
 *     R_leak = R_grid * (V_feed - V_grid) / V_grid     ohm
 *     I_max  = V_allowed / R_grid                      A
 *     R_min  = (V_feed - V_allowed) / I_max            ohm, insulation at the working voltage
 *
 * R_grid is every DC path from the grid to its return side by side, the meter included while it is connected. Holds for a grid
 * that draws no current of its own.
 */
export const gridLeakage = defineCalculation({
	id: 'grid-leakage',
	title: 'Leakage on to a grid',
	question: 'How far does a leaky coupling capacitor lift the grid, and how much leakage can be borne?',
	group: 'Grids, leaks and meters',
	words: [
		'leaky capacitor',
		'leaky coupling capacitor',
		'coupling capacitor leaks',
		'positive grid volts',
		'grid voltage',
		'paper capacitor',
		'insulation'
	],
	inputs: {
		feed: optional(number('V_feed', 'DC volts at the far plate of the capacitor', 20, 500)),
		leak: optional(number('R_leak_ohm', 'insulation of the capacitor', 0.1e6, 1e12)),
		leakCurrent: optional(number('I_leak_A', 'leakage current of the capacitor', 0, 1e-3)),
		measured: optional(number('V_grid', 'volts measured on the grid', -100, 100)),
		allowed: optional(number('V_allowed', 'grid volts that can be borne', 0.001, 10)),
		gridLeak: number('R_grid_ohm', 'resistance from grid to its return', 10e3, 10e6),
		meter: optional(number('R_meter_ohm', 'meter from grid to chassis', 10e3, 1e9)),
		slope: optional(number('gm_mA_V', 'slope of the valve', 0.1e-3, 50e-3)),
		cathode: optional(number('R_k_ohm', 'cathode resistor', 0, 10e3))
	},
	ways: [
		{ title: 'the insulation', needs: ['feed', 'leak', 'gridLeak'], also: ['allowed'] },
		{ title: 'the leakage current', needs: ['leakCurrent', 'gridLeak'], also: ['feed', 'allowed'] },
		{ title: 'measured grid volts', needs: ['measured', 'gridLeak'], also: ['feed', 'allowed'] },
		{ title: 'the volts that can be borne', needs: ['feed', 'allowed', 'gridLeak'] }
	],
	outputs: {
		volts: { key: 'V_grid', label: 'Grid volts' },
		resting: { key: 'V_grid_no_meter', label: 'Grid volts with the meter off' },
		leakCurrent: { key: 'I_leak_A', label: 'Leakage current' },
		leak: { key: 'R_leak_ohm', label: 'Insulation' },
		currentLimit: { key: 'I_leak_max_A', label: 'Leakage that can be borne' },
		leakLimit: { key: 'R_leak_min_ohm', label: 'Insulation still needed at the working voltage' },
		shift: { key: 'dI_a_A', label: 'Rise of the anode current' }
	},
	formulaText: [
		'V_grid = V_feed × R_grid / (R_leak + R_grid)',
		'I_leak = (V_feed − V_grid) / R_leak',
		'R_leak = R_grid × (V_feed − V_grid) / V_grid',
		'I_max = V_allowed / R_grid,  R_min = (V_feed − V_allowed) / I_max',
		'rise of I_a = g_m × V_grid / (1 + g_m × R_k)'
	],
	refuse({ feed, measured, leakCurrent, gridLeak, meter }) {
		if (feed !== undefined && leakCurrent !== undefined && leakCurrent * parallel(gridLeak, meter) >= feed)
			return {
				key: 'I_leak_A',
				message:
					'I_leak_A through R_grid_ohm would lift the grid above V_feed. Measure the leakage again at V_feed, and mind its unit.'
			};
		if (feed === undefined || measured === undefined || measured < feed) return undefined;
		return {
			key: 'V_grid',
			message: 'V_grid is not below V_feed. A leak cannot do that: measure both points again.'
		};
	},
	formula({ feed, leak, leakCurrent, measured, allowed, gridLeak, meter, slope, cathode = 0 }) {
		const load = parallel(gridLeak, meter);
		const across = (path: number): number | undefined => {
			if (feed !== undefined && leak !== undefined) return (feed * path) / (leak + path);
			// Leakage current hardly changes with a meter on the grid: nearly all of the feed stands across the capacitor.
			if (leakCurrent !== undefined) return leakCurrent * path;
			return measured === undefined ? undefined : (measured * path) / load;
		};
		const volts = across(load);
		const resting = across(gridLeak);
		const current = leakCurrent ?? (volts === undefined || volts < 0 ? undefined : volts / load);
		const currentLimit = allowed && allowed / gridLeak;
		return {
			volts,
			resting: meter === undefined ? undefined : resting,
			leakCurrent: current,
			leak: leak ?? (feed && current && volts !== undefined ? (feed - volts) / current : undefined),
			currentLimit,
			leakLimit: feed && allowed && currentLimit ? (feed - allowed) / currentLimit : undefined,
			shift: slope && resting !== undefined ? (slope * resting) / (1 + slope * cathode) : undefined
		};
	},
	summary: [
		'The grid stands at {volts}.',
		'With the meter off it would be {resting}.',
		'{leakCurrent} leaks through {leak}.',
		'The anode current moves by {shift}.',
		'Up to {currentLimit} can be borne.',
		'The capacitor must still insulate with {leakLimit} at its working voltage.'
	],
	judge: [
		{
			by: ['resting', 'volts'],
			bands: [
				{
					upTo: -0.1,
					verdict: 'negative',
					says: 'The grid is negative: nothing feeds it from a positive point, but something drives it.',
					source: leakRaises
				},
				{ below: 0.1, verdict: 'ok', says: 'The grid sits at zero as it should.', source: gridBands },
				{
					upTo: 0.5,
					verdict: 'watch',
					says: 'The grid is raised a little. In an output stage the capacitor is renewed anyway.',
					source: gridBands
				},
				{ upTo: 2, verdict: 'bad', says: 'The grid is positive: something feeds it.', source: gridBands },
				{
					verdict: 'switch-off',
					says: 'The grid is far too positive. Switch off: the valve is being overrun.',
					source: gridBands
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: [] },
		{
			verdict: 'negative',
			next: ['AVC, grid current of an oscillator, a strong signal', 'back bias, if the set has it']
		},
		{
			verdict: 'watch',
			next: ['the same reading after 10 minutes: a leak warms up', 'the capacitor at its working voltage']
		},
		{
			verdict: 'bad',
			next: [
				'lift the grid end of the capacitor: if the volts go, it was the capacitor',
				'the valve, for gas or grid emission'
			]
		},
		{
			verdict: 'switch-off',
			danger: true,
			next: ['the coupling capacitor, unplugged', 'the cathode resistor and its bypass capacitor, for damage']
		}
	],
	cautions: [
		'Never pull a valve from a live series chain.',
		'Discharge the reservoir and prove it dead before lifting a capacitor.'
	],
	pitfalls: [
		'Positive grid volts have two common causes: the capacitor, or gas and grid emission in the valve itself.',
		'A leaky capacitor may look perfect on a 9 V ohmmeter: test it at its working voltage.',
		'A 10 Mohm meter over a 1 Mohm grid leak already reads 9 % low.',
		'AVC lines sit negative by design; there, leakage shows as AVC volts that are missing.',
		'For voltage amplifiers 1 % of the bias is a sensible aim (common practice, no source).'
	],
	sources: [OHM_AND_JOULE, gridBands, leakRaises],
	checks: [
		{
			id: 'grid-leakage/1',
			given: { I_leak_A: 1.5e-8, R_grid_ohm: 1e6 },
			gives: { V_grid: 0.015 },
			verdict: 'ok',
			withinPct: 1,
			basis: 'published',
			source: forum
		},
		{
			id: 'grid-leakage/2',
			given: { V_feed: 100, R_leak_ohm: 100e6, R_grid_ohm: 470e3 },
			gives: { V_grid: 0.4678, I_leak_A: 9.953e-7 },
			verdict: 'watch',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'grid-leakage/3',
			given: { V_feed: 85, R_leak_ohm: 20e6, R_grid_ohm: 1e6 },
			gives: { V_grid: 4.048 },
			verdict: 'switch-off',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'grid-leakage/4',
			given: { V_feed: 400, V_grid: 0.002, R_grid_ohm: 1e6 },
			gives: { R_leak_ohm: 2e11, I_leak_A: 2e-9 },
			verdict: 'ok',
			withinPct: 0.5,
			basis: 'arithmetic',
			source: arithmetic(
				'trap: a forum answer (tubeamparchive.com t=37788) gives 499 Mohm and 0.8 uA for this case, 400 times out'
			)
		},
		{
			id: 'grid-leakage/5',
			given: { V_feed: 100, R_grid_ohm: 470e3, V_allowed: 0.2 },
			gives: { I_leak_max_A: 4.2553e-7, R_leak_min_ohm: 234.53e6 },
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'grid-leakage/1.2 V at an output grid',
			given: { V_grid: 1.2, V_feed: 90, R_grid_ohm: 470e3, gm_mA_V: 10, R_k_ohm: 150 },
			gives: { I_leak_A: 2.5532e-6, R_leak_ohm: 34.78e6, dI_a_A: 0.0048 },
			verdict: 'bad',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'grid-leakage/10 Mohm over 1 Mohm reads 9 % low',
			given: { V_grid: 1, R_grid_ohm: 1e6, R_meter_ohm: 10e6 },
			gives: { V_grid: 1, V_grid_no_meter: 1.1 },
			verdict: 'bad',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'grid-leakage/oscillator grid',
			given: { V_grid: -9.4, R_grid_ohm: 47e3 },
			gives: { V_grid: -9.4 },
			verdict: 'negative',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
