import { defineCalculation } from './define.ts';
import { number, optional } from './inputs.ts';
import { arithmetic, OHM_AND_JOULE, OWN_NUMBERS, published } from './sources.ts';

const darby = published(
	'The Radio Constructor, April 1962, on heater volts (r-type.org add130): 7 % recommended British practice, beyond 10 % ratings are reduced'
);
const bandRow = arithmetic('own numbers; the bands are those of The Radio Constructor, April 1962');
const scales = arithmetic('every winding follows the primary in proportion, at its rated load');

/**
 * What an old tap does on today's mains, and what puts it right.
 *
 *     V_heater = V_nominal * V_mains / V_primary         V, at rated load; the HT likewise
 *     R        = (V_mains - V_primary) / I               ohm in the primary, I about W_set / V_primary
 *     V_buck   = V_mains - V_primary                     V, in opposing phase, of V_buck * I volt-amps
 *
 * Heater volts measured at the socket come before those reckoned from the tap.
 */
export const mainsOvervoltage = defineCalculation({
	id: 'mains-overvoltage',
	title: 'Old tap on today’s mains',
	question:
		'The tap says 220 V and the wall gives more: is that too much for the heaters, and what cures it?',
	group: 'Mains, lamp and heaters',
	words: [
		'bucking',
		'autotransformer',
		'tap',
		'voltage selector',
		'240 V',
		'mains too high',
		'mains voltage',
		'line voltage',
		'overvoltage',
		'heater volts too high'
	],
	inputs: {
		nominal: optional(number('V_heater_nominal', 'heater volts by the valve data', 1, 117)),
		measured: optional(number('V_heater', 'heater volts measured at the socket', 0.5, 200)),
		primary: optional(number('V_primary', 'volts of the tap in use', 90, 260)),
		mains: optional(number('V_mains', 'volts at the wall', 80, 270)),
		power: optional(number('W_set', 'watts of the set, from its back plate', 5, 500))
	},
	ways: [
		{ title: 'heater volts measured', needs: ['nominal', 'measured'], also: ['primary', 'mains'] },
		{ title: 'the tap', needs: ['primary', 'mains'], also: ['nominal'] }
	],
	outputs: {
		heater: { key: 'V_heater', label: 'Heater volts' },
		over: { key: 'over_pct', label: 'Above nominal' },
		heaterPower: { key: 'heater_power_pct', label: 'Heater watts, of normal' },
		current: { key: 'I_A', label: 'Mains current of the set' },
		resistor: { key: 'R_ohm', label: 'Resistor in the primary' },
		resistorHeat: { key: 'P_R_W', label: 'Heat in that resistor' },
		buckVolts: { key: 'buck_V', label: 'Bucking winding' },
		buckRating: { key: 'buck_VA', label: 'Rating of the bucking winding' }
	},
	formulaText: [
		'V_heater = V_heater_nominal × V_mains / V_primary',
		'over = 100 × (V_heater / V_heater_nominal − 1)',
		'I = W_set / V_primary',
		'R = (V_mains − V_primary) / I,  P_R = (V_mains − V_primary) × I',
		'V_buck = V_mains − V_primary,  VA = V_buck × I'
	],
	refuse({ nominal, measured }) {
		if (nominal === undefined || measured === undefined || measured <= 2 * nominal) return undefined;
		return {
			key: 'V_heater',
			message:
				'V_heater is more than twice V_heater_nominal: no tap does that. Check on which pins it was read, with the meter on AC, and the type of the valve.'
		};
	},
	formula({ nominal, measured, primary, mains, power }) {
		const tapRatio = primary !== undefined && mains !== undefined ? mains / primary : undefined;
		const ratio = measured !== undefined && nominal !== undefined ? measured / nominal : tapRatio;
		const current = power !== undefined && primary !== undefined ? power / primary : undefined;
		const surplus = primary !== undefined && mains !== undefined && mains > primary ? mains - primary : 0;
		const cure = current !== undefined && surplus > 0;
		return {
			heater: measured ?? (nominal !== undefined && ratio !== undefined ? nominal * ratio : undefined),
			over: ratio === undefined ? undefined : 100 * (ratio - 1),
			heaterPower: ratio === undefined ? undefined : 100 * ratio ** 2,
			current,
			resistor: cure ? surplus / current : undefined,
			resistorHeat: cure ? surplus * current : undefined,
			buckVolts: surplus > 0 ? surplus : undefined,
			buckRating: cure ? surplus * current : undefined
		};
	},
	summary: [
		'The heaters get {heater}.',
		'Were they plain resistors, they would take {heaterPower} of their watts; the HT rises much alike.',
		'A resistor of {resistor} in the primary loses {resistorHeat}.',
		'A bucking winding of {buckVolts} needs {buckRating}.'
	],
	judge: [
		{
			by: 'over',
			bands: [
				{
					below: -10,
					verdict: 'too-low',
					says: 'Heaters and HT stand at {over} of nominal: too low. Emission falls, and oscillators stop first.',
					source: darby
				},
				{
					below: -7,
					verdict: 'low',
					says: 'Heaters and HT stand at {over} of nominal: on the low side.',
					source: darby
				},
				{ upTo: 7, verdict: 'ok', says: 'Heaters and HT are within 7 % of nominal.', source: darby },
				{
					upTo: 10,
					verdict: 'high',
					says: 'Heaters and HT stand {over} above nominal: more than the 7 % of good practice.',
					source: darby
				},
				{
					verdict: 'too-high',
					says: 'Heaters and HT stand {over} above nominal: beyond what valves are rated for. Put it right.',
					source: darby
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: [] },
		{ verdict: 'low', next: ['the next lower tap', 'mains volts at another hour'] },
		{ verdict: 'high', next: ['the next higher tap', 'heater volts at the socket, set warm'] },
		{ verdict: 'too-low', next: ['the tap in use', 'the joints of the heater winding', 'mains volts today'] },
		{
			verdict: 'too-high',
			next: [
				'the next higher tap',
				'a bucking transformer, or a resistor in the primary',
				'heater volts at the socket afterwards: they decide'
			]
		}
	],
	cautions: [
		'Work on mains wiring is for somebody competent. Local codes and licensed practice decide what may be fitted.',
		'A resistor in the primary runs hot: away from wood, wax and plastic, and behind a fuse.'
	],
	pitfalls: [
		'Judge by the heater volts, measured warm, not by the volts at the primary.',
		'A transformer wound without margin buzzes and gets hot on 240 V: that is a reason of its own to buck.',
		'A rectifier valve and an output valve load the supply: with one out, all volts rise.',
		'High heater volts evaporate the coating and bring reverse grid current.'
	],
	sources: [darby, scales, OHM_AND_JOULE],
	checks: [
		{
			id: 'mains-overvoltage/1',
			given: { V_heater_nominal: 6.3, V_primary: 220, V_mains: 240 },
			gives: { V_heater: 6.873, over_pct: 9.09 },
			verdict: 'high',
			withinPct: 0.1,
			basis: 'arithmetic; band published',
			source: bandRow
		},
		{
			id: 'mains-overvoltage/2',
			given: { V_heater_nominal: 6.3, V_primary: 220, V_mains: 230 },
			gives: { V_heater: 6.586, over_pct: 4.55 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic; band published',
			source: bandRow
		},
		{
			id: 'mains-overvoltage/3',
			given: { W_set: 45, V_primary: 220, V_mains: 240 },
			gives: { I_A: 0.2045, R_ohm: 97.8, P_R_W: 4.09, buck_V: 20, buck_VA: 4.09 },
			verdict: 'high',
			withinPct: 0.3,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'mains-overvoltage/200 V tap on 240 V',
			given: { V_heater_nominal: 6.3, V_primary: 200, V_mains: 240 },
			gives: { V_heater: 7.56, over_pct: 20, heater_power_pct: 144 },
			verdict: 'too-high',
			withinPct: 0.1,
			basis: 'arithmetic; band published',
			source: bandRow
		},
		{
			id: 'mains-overvoltage/5.8 V at a 6.3 V heater',
			given: { V_heater_nominal: 6.3, V_heater: 5.8 },
			gives: { over_pct: -7.937 },
			verdict: 'low',
			withinPct: 0.1,
			basis: 'arithmetic; band published',
			source: bandRow
		},
		{
			id: 'mains-overvoltage/5 V at a 6.3 V heater',
			given: { V_heater_nominal: 6.3, V_heater: 5 },
			gives: { over_pct: -20.63 },
			verdict: 'too-low',
			withinPct: 0.1,
			basis: 'arithmetic; band published',
			source: bandRow
		}
	]
});
