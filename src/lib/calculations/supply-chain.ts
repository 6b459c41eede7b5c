import { defineCalculation } from './define.ts';
import { arithmetic, commonPractice, fromMemory, OHM_AND_JOULE, OWN_NUMBERS } from './sources.ts';
import { chainContradiction, chainPictures, chainResults, inputs } from './supply-chain-results.ts';

const twice = commonPractice('a resistor is chosen for twice the heat it has to lose');
const serviceSpread = fromMemory('service sheets usually allow 20 % either way on their voltages');
const excessBands = commonPractice('current of a branch against what it should be: 20 and 50 %');
const doubt = commonPractice(
	'resistors within 10 % where no tolerance is given; a branch is blamed only beyond what they explain'
);
const hand = arithmetic('own numbers: current times resistance from node to node');

/**
 * A chain of dropping resistors with a current tapped after each: volts, currents and watts, and which branch draws more than
 * it should.
 *
 *     forward:   I_k = sum of the currents tapped from node k on;  V_k = V_(k-1) - I_k * R_k
 *     backward:  I_k = (V_(k-1) - V_k) / R_k;  tapped at k: I_k - I_(k+1)
 *     P_k = I_k^2 * R_k                                                     A, V, W
 *
 * Steady DC, resistors as given; capacitors count only by what they leak. A bleeder is solved as a ladder. A node that nobody
 * measured is taken to draw what it should.
 */
export const supplyChain = defineCalculation({
	id: 'supply-chain',
	title: 'Volts along the HT chain',
	question: 'Which volts belong at each point of the HT chain, and which branch draws more than it should?',
	group: 'Supply and smoothing',
	words: [
		'HT line',
		'decoupling',
		'dropper',
		'B+',
		'branch',
		'ladder',
		'burnt resistor',
		'HT low',
		'B+ low',
		'HT volts',
		'low volts',
		'what draws too much',
		'smoothing resistor',
		'bleeder'
	],
	inputs,
	outputs: {
		nodes: {
			key: 'nodes',
			label: 'Along the chain',
			columns: {
				node: 'At',
				V: 'Volts expected',
				V_measured: 'Volts measured',
				I_R_mA: 'Through its resistor',
				P_R_W: 'Heat in it',
				I_tap_mA: 'Tapped, expected',
				I_tap_seen_mA: 'Tapped, by the volts',
				load_pct: 'Heat, of the rating'
			}
		},
		total: { key: 'I_total_mA', label: 'Current from the supply' },
		end: { key: 'V_end', label: 'Volts at the end' },
		finding: { key: 'finding', label: 'The branch' },
		branch: { key: 'branch', label: 'Branch furthest off' },
		excess: { key: 'excess_mA', label: 'More than it should draw' },
		excessShare: { key: 'excess_pct', label: 'The same, of what it should draw' },
		load: { key: 'load_pct', label: 'Hottest resistor, of its rating' }
	},
	formulaText: [
		'forward: I_k = the currents tapped from node k on, added up;  V_k = V before it − I_k × R_k',
		'backward: I_k = (V before it − V_k) / R_k;  tapped at node k = I_k − the current of the next resistor',
		'P_k = I_k² × R_k'
	],
	refuse: chainContradiction,
	formula: chainResults,
	pictures: chainPictures,
	summary: ['The chain draws {total}, and {end} are left at its end.'],
	judge: [
		{
			by: 'finding',
			bands: [
				{
					is: 'as expected',
					verdict: 'ok',
					says: 'Every branch measured draws what it should, within 20 % or the tolerance of the resistors.',
					source: serviceSpread
				},
				{
					is: 'somewhat off',
					verdict: 'watch',
					says: 'The branch at {branch} is {excess} off what it should draw.',
					source: excessBands
				},
				{
					is: 'draws too little',
					verdict: 'draws-too-little',
					says: 'The branch at {branch} draws far too little: {excess} off.',
					source: excessBands
				},
				{
					verdict: 'draws-too-much',
					says: 'The branch at {branch} draws {excess} more than it should.',
					source: excessBands
				}
			]
		},
		{
			by: 'load',
			bands: [
				{
					upTo: 50,
					verdict: 'ok',
					says: 'The hottest resistor carries {load} of its rating.',
					source: twice
				},
				{
					upTo: 100,
					verdict: 'warm',
					says: 'The hottest resistor carries {load} of its rating: within it, but warm.',
					source: twice
				},
				{
					verdict: 'overloaded',
					says: 'A resistor carries {load} of its rating: it is overloaded.',
					source: arithmetic('more heat than the rating')
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: [] },
		{ verdict: 'warm', next: ['the marking against the measured value: a hot part drifts'] },
		{
			verdict: 'watch',
			next: ['the resistors before and after that node, measured cold', 'the same volts after ten minutes']
		},
		{
			verdict: 'draws-too-little',
			next: [
				'a valve of that branch that is dead or out',
				'an open anode or screen feed beyond the node',
				'an open cathode resistor'
			]
		},
		{ verdict: 'overloaded', next: ['what the branches beyond it draw', 'the rating of the part fitted'] },
		{
			verdict: 'draws-too-much',
			next: [
				'the electrolytic or decoupler at that node, for leakage',
				'the coupling capacitor of a valve fed from there',
				'the cathode resistor and the bias of that valve',
				'the resistors before and after that node, measured cold'
			]
		}
	],
	cautions: [
		'All these points are at HT. One hand, one point at a time, and the meter on its highest range first.',
		'Resistors are measured unplugged, with the reservoir discharged and proved dead.'
	],
	pitfalls: [
		'A scorched resistor has drifted: its marked value makes a wrong current. Measure it cold.',
		'One heavy branch pulls the volts down at every node behind it too: go by the currents, not by the volts.',
		'A small branch behind a large one drowns in the tolerance of the resistors: measure over its own feed.',
		'Through a high resistor the meter itself draws: correct such readings first.'
	],
	sources: [OHM_AND_JOULE, excessBands, serviceSpread, doubt, twice],
	checks: [
		{
			id: 'supply-chain/270 V, two sections, forward',
			given: {
				V_supply: 270,
				sections: [
					[1200, 30],
					[10000, 2]
				]
			},
			gives: {
				I_total_mA: 32,
				V_end: 211.6,
				nodes: [
					{ V: 231.6, I_R_mA: 32, P_R_W: 1.2288, I_tap_mA: 30 },
					{ V: 211.6, I_R_mA: 2, P_R_W: 0.04, I_tap_mA: 2 }
				]
			},
			withinPct: 0.1,
			basis: 'arithmetic',
			source: hand
		},
		{
			id: 'supply-chain/a bleeder at the end',
			given: {
				V_supply: 300,
				sections: [
					{ R_ohm: 1000, I_mA: 20 },
					{ R_ohm: 20000, R_tap_ohm: 50000 }
				]
			},
			gives: { I_total_mA: 23.944, V_end: 197.18, nodes: [{ V: 276.06 }, { V: 197.18, I_tap_mA: 3.9437 }] },
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'supply-chain/the branch at the first node leaks',
			given: {
				V_supply: 270,
				sections: [
					[1200, 30, null, null, 180, 4],
					[10000, 2, null, null, 160]
				]
			},
			gives: { branch: 'node 1', excess_mA: 43, excess_pct: 143.3, I_total_mA: 75, load_pct: 168.75 },
			verdict: 'draws-too-much',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: hand
		},
		{
			id: 'supply-chain/sheet and readings: the screen feed leaks',
			given: {
				V_supply: 270,
				R_tol_pct: 2,
				sections: [
					{ R_ohm: 1200, V_service: 210, V_seen: 207 },
					{ R_ohm: 47000, V_service: 116, V_seen: 19 }
				]
			},
			gives: { branch: 'node 2', excess_mA: 2, excess_pct: 100 },
			verdict: 'draws-too-much',
			withinPct: 0.5,
			basis: 'arithmetic',
			source: hand
		},
		{
			id: 'supply-chain/87 V in place of 60 V over 1.2 kohm',
			given: { V_supply: 270, sections: [{ R_ohm: 1200, V_service: 210, V_seen: 183 }] },
			gives: { excess_mA: 22.5, excess_pct: 45 },
			verdict: 'watch',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: hand
		},
		{
			id: 'supply-chain/volts as by the sheet',
			given: {
				V_supply: 270,
				sections: [
					[1200, 30, null, null, 230, 3],
					[10000, 2, null, null, 209, 1]
				]
			},
			gives: { I_total_mA: 33.33 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: hand
		},
		{
			id: 'supply-chain/the output valve is dead',
			given: {
				V_supply: 300,
				sections: [
					[1000, 40, null, null, 294],
					[10000, 4, null, null, 254]
				]
			},
			gives: { branch: 'node 1', excess_mA: -38 },
			verdict: 'draws-too-little',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: hand
		},
		{
			id: 'supply-chain/3 W in a resistor of 4 W',
			given: { V_supply: 270, sections: [{ R_ohm: 1200, I_mA: 50, P_rated_W: 4 }] },
			gives: { V_end: 210, load_pct: 75 },
			verdict: 'warm',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: hand
		},
		{
			id: 'supply-chain/3 W in a resistor of 2 W',
			given: { V_supply: 270, sections: [{ R_ohm: 1200, I_mA: 50, P_rated_W: 2 }] },
			gives: { load_pct: 150 },
			verdict: 'overloaded',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: hand
		},
		{
			id: 'supply-chain/a node that nobody measured draws what it should',
			given: {
				V_supply: 300,
				sections: [
					[1000, 40],
					[10000, 4, null, null, 210]
				]
			},
			gives: { branch: 'node 2', excess_mA: 0.545 },
			verdict: 'ok',
			withinPct: 0.2,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
