import { defineCalculation, type Problem } from './define.ts';
import { number, optional } from './inputs.ts';
import { arithmetic, commonPractice, fromMemory, OHM_AND_JOULE, OWN_NUMBERS, published } from './sources.ts';

const twice = commonPractice('a resistor is chosen for twice the heat it has to lose');
const serviceSpread = fromMemory('service sheets usually allow 20 % either way on their voltages');
const excessBands = commonPractice('current against the service sheet: 20 and 50 %');
const neets = published(
	'US Navy NEETS Module 6 (NAVEDTRA 14178, 1998), electriciantraining.tpub.com/14178 p. 1-21 (5 mA through 10 kohm drops 50 V)'
);

const difference = (one: number | undefined, other: number | undefined): number | undefined =>
	one === undefined || other === undefined ? undefined : one - other;

interface AnodeGiven {
	resistance: number;
	flowing?: number | undefined;
	supply?: number | undefined;
	cathodeVolts?: number | undefined;
}

/** An anode cannot stand below chassis, nor below its own cathode. */
function anodeProblem({ resistance, flowing, supply, cathodeVolts = 0 }: AnodeGiven): Problem | undefined {
	const anode = difference(supply, flowing === undefined ? undefined : flowing * resistance);
	if (anode === undefined || anode >= cathodeVolts) return undefined;
	return anode < 0
		? {
				key: 'I_A',
				message: 'I_A through R_ohm drops more than V_supply. Check the three, with their units.'
			}
		: { key: 'V_k', message: 'V_k is above the anode. Check V_k, I_A and R_ohm, with their units.' };
}

/**
 * Current through a resistor and the heat in it, from the volts across it; what its rating allows; how far the current is
 * from the service sheet.
 *
 *     I = V / R          A, from V and ohm
 *     P = V^2 / R        W
 *     I_max = sqrt(P_rated / R),  V_max = sqrt(P_rated * R)
 *     V_a = V_supply - I * R            V, of an anode fed through it
 *
 * Steady DC only: ripple next to the reservoir adds heat, and the pulse at switch-on is not in it.
 */
export const resistorDrop = defineCalculation({
	id: 'resistor-drop',
	title: 'Current and heat in a resistor',
	question: 'Is this resistor overloaded, and does more current flow than the service sheet says?',
	group: 'Current and heat',
	words: [
		'burnt resistor',
		'overloaded',
		'hot resistor',
		'runs hot',
		'overheated',
		'smoking',
		'watts',
		'wattage',
		'anode resistor',
		'voltage drop',
		'milliamps'
	],
	inputs: {
		resistance: number('R_ohm', 'resistor, measured cold and unplugged', 1, 22e6),
		volts: optional(number('V', 'volts across it', 0, 1000)),
		rating: optional(number('P_rated_W', 'rating of the part', 0.05, 50)),
		serviceVolts: optional(number('V_service', 'volts across it by the service sheet', 0.1, 1000)),
		before: optional(number('V_before', 'volts before it, to chassis', 0, 1000)),
		after: optional(number('V_after', 'volts after it, to chassis', 0, 1000)),
		serviceBefore: optional(number('V_service_before', 'volts before it by the service sheet', 0, 1000)),
		serviceAfter: optional(number('V_service_after', 'volts after it by the service sheet', 0, 1000)),
		flowing: optional(number('I_A', 'current through it', 0, 5)),
		supply: optional(number('V_supply', 'volts that feed it, as an anode resistor', 1, 1000)),
		cathodeVolts: optional(number('V_k', 'volts on the cathode of that valve', 0, 100))
	},
	ways: [
		{
			title: 'volts across the part',
			needs: ['resistance', 'volts'],
			also: ['rating']
		},
		{
			title: 'volts at its two ends',
			needs: ['resistance', 'before', 'after'],
			also: ['rating', 'serviceBefore', 'serviceAfter']
		},
		{
			title: 'the current through an anode resistor',
			needs: ['resistance', 'flowing', 'supply'],
			also: ['rating', 'cathodeVolts']
		},
		{ title: 'what the rating allows', needs: ['resistance', 'rating'] }
	],
	outputs: {
		current: { key: 'I_A', label: 'Current' },
		heat: { key: 'P_W', label: 'Heat' },
		load: { key: 'load_pct', label: 'Share of the rating' },
		currentLimit: { key: 'I_max_A', label: 'Current at the rating' },
		voltsLimit: { key: 'V_max', label: 'Volts at the rating' },
		spare: { key: 'I_spare_A', label: 'Current still to spare' },
		serviceCurrent: { key: 'I_service_A', label: 'Current by the service sheet' },
		excess: { key: 'excess_pct', label: 'More than the service sheet' },
		across: { key: 'V_across', label: 'Volts across it' },
		anodeVolts: { key: 'V_a', label: 'Anode volts, to chassis' },
		anodeToCathode: { key: 'V_ak', label: 'Anode volts, to cathode' }
	},
	formulaText: [
		'I = V / R',
		'P = V² / R',
		'I_max = √(P_rated / R)',
		'V_max = √(P_rated × R)',
		'load = 100 × P / P_rated',
		'excess = 100 × (I / I_service − 1), I_service = V_service / R',
		'V = V_before − V_after; the same for the service sheet',
		'V_a = V_supply − I × R,  V_ak = V_a − V_k'
	],
	refuse(given) {
		const { before, after, serviceBefore, serviceAfter, serviceVolts } = given;
		if ((serviceBefore === undefined) !== (serviceAfter === undefined)) {
			const key = serviceBefore === undefined ? 'V_service_before' : 'V_service_after';
			return { key, message: `${key} is missing. Give V_service_before and V_service_after together.` };
		}
		if (serviceVolts !== undefined && serviceBefore !== undefined)
			return {
				key: 'V_service',
				message: 'V_service is given twice. Leave it out, or V_service_before and V_service_after.'
			};
		if (before !== undefined && after !== undefined && after > before)
			return {
				key: 'V_after',
				message:
					'V_after is above V_before. Current flows from the higher to the lower: read both again, or give them the other way round.'
			};
		if (serviceBefore !== undefined && serviceAfter !== undefined && serviceAfter >= serviceBefore)
			return {
				key: 'V_service_after',
				message: 'V_service_after is not below V_service_before. Read both off the sheet again.'
			};
		return anodeProblem(given);
	},
	formula(given) {
		const { resistance, rating, flowing, supply, cathodeVolts } = given;
		const drop = flowing === undefined ? undefined : flowing * resistance;
		const ends = difference(given.before, given.after);
		const volts = given.volts ?? ends ?? drop;
		const current = volts === undefined ? undefined : volts / resistance;
		const heat = volts === undefined ? undefined : volts ** 2 / resistance;
		const currentLimit = rating && Math.sqrt(rating / resistance);
		const serviceVolts = given.serviceVolts ?? difference(given.serviceBefore, given.serviceAfter);
		const serviceCurrent = serviceVolts && serviceVolts / resistance;
		const anodeVolts = difference(supply, drop);
		return {
			current,
			heat,
			load: heat !== undefined && rating ? (100 * heat) / rating : undefined,
			currentLimit,
			voltsLimit: rating && Math.sqrt(rating * resistance),
			spare: current !== undefined && currentLimit ? currentLimit - current : undefined,
			serviceCurrent,
			excess: current !== undefined && serviceCurrent ? 100 * (current / serviceCurrent - 1) : undefined,
			across: ends ?? drop,
			anodeVolts,
			anodeToCathode: cathodeVolts === undefined ? undefined : difference(anodeVolts, cathodeVolts)
		};
	},
	summary: [
		'{current} flows and {heat} turns to heat.',
		'The part reaches its rating at {currentLimit}, with {voltsLimit} across it.',
		'The service sheet means {serviceCurrent}.',
		'The anode stands at {anodeVolts}.',
		'To its cathode that is {anodeToCathode}.'
	],
	judge: [
		{
			by: 'load',
			bands: [
				{ upTo: 50, verdict: 'ok', says: 'The part carries {load} of its rating.', source: twice },
				{
					upTo: 100,
					verdict: 'warm',
					says: 'The part carries {load} of its rating: within it, but warm. Fit a bigger one when it is renewed.',
					source: twice
				},
				{
					verdict: 'overloaded',
					says: 'The part carries {load} of its rating: it is overloaded.',
					source: arithmetic('more heat than the rating')
				}
			]
		},
		{
			by: 'excess',
			bands: [
				{
					below: -50,
					verdict: 'draws-too-little',
					says: 'Less than half of the service current flows: the load is open or its valve is off.',
					source: excessBands
				},
				{
					below: -20,
					verdict: 'watch',
					says: 'The current is {excess} against the service sheet: somewhat low.',
					source: serviceSpread
				},
				{
					upTo: 20,
					verdict: 'ok',
					says: 'The current is {excess} against the service sheet: within its spread.',
					source: serviceSpread
				},
				{
					upTo: 50,
					verdict: 'watch',
					says: 'The current is {excess} above the service sheet: somewhat high.',
					source: excessBands
				},
				{
					verdict: 'draws-too-much',
					says: 'The current is {excess} above the service sheet: something beyond the resistor draws too much.',
					source: excessBands
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: [] },
		{ verdict: 'warm', next: ['the marking against the measured value: a hot part drifts'] },
		{ verdict: 'watch', next: ['the measured value of the resistor', 'mains volts today against the tap'] },
		{
			verdict: 'draws-too-little',
			next: ['a dead or unplugged valve', 'an open screen feed', 'an open cathode resistor']
		},
		{
			verdict: 'overloaded',
			next: [
				'the measured value of the resistor',
				'what the circuit beyond it draws',
				'the rating of the part fitted'
			]
		},
		{
			verdict: 'draws-too-much',
			next: [
				'the coupling capacitor to the output grid, for leakage',
				'electrolytics and decouplers beyond it, for leakage',
				'the cathode resistor of the output valve, for drift',
				'the output valve, for gas',
				'the output transformer to its core, and a tone capacitor to chassis'
			]
		}
	],
	cautions: ['Measure the resistor unplugged, with the reservoir discharged and proved dead.'],
	pitfalls: [
		'A scorched resistor has usually drifted: compare it with its marking first.',
		'Two parts in parallel share the current.',
		'Bodies of old quarter and half watt parts differ in size from those made today: go by the data.',
		'Shorted turns in an output transformer lose signal, not direct current.'
	],
	sources: [OHM_AND_JOULE, twice, serviceSpread, excessBands],
	checks: [
		{
			id: 'resistor-drop/1',
			given: { R_ohm: 10000, V: 50 },
			gives: { I_A: 0.005, P_W: 0.25 },
			withinPct: 0.1,
			basis: 'published (current), arithmetic (power)',
			source: neets
		},
		{
			id: 'resistor-drop/2',
			given: { R_ohm: 1200, V: 60, P_rated_W: 4 },
			gives: { I_A: 0.05, P_W: 3, I_max_A: 0.05774, load_pct: 75 },
			verdict: 'warm',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'resistor-drop/3',
			given: { R_ohm: 1200, V: 87, V_service: 60, P_rated_W: 4 },
			gives: { I_A: 0.0725, P_W: 6.3075, I_service_A: 0.05, excess_pct: 45, load_pct: 157.7 },
			verdict: 'overloaded',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'resistor-drop/270 V before it and 183 V after, by the sheet 270 and 210 V',
			given: {
				R_ohm: 1200,
				V_before: 270,
				V_after: 183,
				V_service_before: 270,
				V_service_after: 210,
				P_rated_W: 4
			},
			gives: { V_across: 87, I_A: 0.0725, I_service_A: 0.05, excess_pct: 45 },
			verdict: 'overloaded',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'resistor-drop/1.2 mA through an anode resistor of 100 kohm from 250 V',
			given: { R_ohm: 100e3, I_A: 0.0012, V_supply: 250, V_k: 2, P_rated_W: 0.5 },
			gives: { V_across: 120, V_a: 130, V_ak: 128, P_W: 0.144 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'resistor-drop/half the rating is cool',
			given: { R_ohm: 1000, V: 40, P_rated_W: 4, V_service: 42 },
			gives: { P_W: 1.6, load_pct: 40, excess_pct: -4.7619 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'resistor-drop/30 % more than the sheet',
			given: { R_ohm: 1000, V: 52, V_service: 40 },
			gives: { I_A: 0.052, excess_pct: 30 },
			verdict: 'watch',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'resistor-drop/30 % less than the sheet',
			given: { R_ohm: 1000, V: 28, V_service: 40 },
			gives: { I_A: 0.028, excess_pct: -30 },
			verdict: 'watch',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'resistor-drop/twice the sheet',
			given: { R_ohm: 1000, V: 80, V_service: 40, P_rated_W: 20 },
			gives: { I_A: 0.08, excess_pct: 100, load_pct: 32 },
			verdict: 'draws-too-much',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'resistor-drop/a quarter of the sheet',
			given: { R_ohm: 1000, V: 10, V_service: 40 },
			gives: { I_A: 0.01, excess_pct: -75 },
			verdict: 'draws-too-little',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'resistor-drop/by the rating alone',
			given: { R_ohm: 1500, P_rated_W: 4 },
			gives: { I_max_A: 0.05164, V_max: 77.46 },
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
