import type { Given, Inputs, Problem } from './define.ts';
import { choice, number, optional } from './inputs.ts';

/** What may be known of a valve at its working point. */
export const inputs = {
	cathodeVolts: optional(number('V_k', 'volts on the cathode resistor', 0, 60)),
	cathodeResistor: optional(number('R_k_ohm', 'cathode resistor, measured cold', 10, 10e3)),
	anodeCurrent: optional(number('I_a_A', 'anode current', 0, 0.5)),
	screenCurrent: optional(number('I_g2_A', 'screen current', 0, 0.1)),
	valve: optional(choice('valve', 'kind of valve', ['triode', 'output pentode', 'RF pentode'])),
	anodeToChassis: optional(number('V_a', 'anode volts to chassis', 0, 1000)),
	anodeVolts: optional(number('V_ak', 'anode volts to cathode', 0, 1000)),
	screenToChassis: optional(number('V_g2', 'screen volts to chassis', 0, 1000)),
	screenVolts: optional(number('V_g2k', 'screen volts to cathode', 0, 1000)),
	supply: optional(number('V_supply', 'HT that feeds anode and screen, to chassis', 5, 1000)),
	anodeLimit: optional(number('P_a_max_W', 'anode dissipation limit', 0.1, 100)),
	screenLimit: optional(number('P_g2_max_W', 'screen dissipation limit', 0.05, 20)),
	cathodeLimit: optional(number('I_k_max_A', 'cathode current limit', 1e-3, 1)),
	serviceCurrent: optional(number('I_k_service_A', 'cathode current by the service sheet', 0.1e-3, 0.5)),
	gridLeak: optional(number('R_g1_ohm', 'grid leak, all paths from grid to its return', 1e3, 50e6)),
	gridLeakLimit: optional(number('R_g1_max_ohm', 'largest grid leak by the valve data', 10e3, 50e6))
} satisfies Inputs;

type ValveGiven = Given<typeof inputs>;

/** Two readings one after the other may differ by so much without contradicting each other. Our own choice. */
const READINGS = 1.05;
/** And currents found on two ways, through a resistor of 10 %. */
const CURRENTS = 1.1;

function givenTwice({ anodeVolts, anodeToChassis, screenVolts, screenToChassis }: ValveGiven) {
	if (anodeVolts !== undefined && anodeToChassis !== undefined)
		return { key: 'V_a', message: 'V_a and V_ak are both given. Leave one out: to chassis or to cathode.' };
	if (screenVolts === undefined || screenToChassis === undefined) return undefined;
	return { key: 'V_g2', message: 'V_g2 and V_g2k are both given. Leave one out: to chassis or to cathode.' };
}

function aboveSupply(given: ValveGiven): Problem | undefined {
	const { supply, cathodeVolts = 0, anodeToChassis, anodeVolts, screenToChassis, screenVolts } = given;
	if (supply === undefined) return undefined;
	const points = [
		{ key: 'V_a', volts: anodeToChassis },
		{ key: 'V_ak', volts: anodeVolts === undefined ? undefined : anodeVolts + cathodeVolts },
		{ key: 'V_g2', volts: screenToChassis },
		{ key: 'V_g2k', volts: screenVolts === undefined ? undefined : screenVolts + cathodeVolts },
		{ key: 'V_k', volts: given.cathodeVolts }
	];
	const high = points.find(({ volts }) => volts !== undefined && volts > READINGS * supply);
	return (
		high && {
			key: high.key,
			message: `${high.key} is above V_supply. Nothing there stands above the HT that feeds it: measure both again, to chassis.`
		}
	);
}

function offTheCathode(given: ValveGiven): Problem | undefined {
	const { cathodeVolts: vk, anodeToChassis: va, screenToChassis: vg2 } = given;
	if (vk === undefined && (va !== undefined || vg2 !== undefined))
		return {
			key: 'V_k',
			message: 'V_k is missing: volts to chassis need it. Give V_k, or V_ak and V_g2k.'
		};
	if (vk === undefined || Math.min(va ?? vk, vg2 ?? vk) >= vk) return undefined;
	return {
		key: 'V_a',
		message: 'Anode or screen is below the cathode. Measure V_a, V_g2 and V_k again, to chassis.'
	};
}

function tooMuchCurrent(given: ValveGiven): Problem | undefined {
	const { cathodeVolts, cathodeResistor, anodeCurrent = 0, screenCurrent = 0 } = given;
	if (cathodeVolts === undefined || cathodeResistor === undefined) return undefined;
	const total = cathodeVolts / cathodeResistor;
	if (screenCurrent > total)
		return {
			key: 'I_g2_A',
			message: 'I_g2_A is more than the whole cathode current. Measure it and R_k_ohm again.'
		};
	if (anodeCurrent + screenCurrent <= CURRENTS * total) return undefined;
	return {
		key: 'I_a_A',
		message:
			'I_a_A is more than V_k drives through R_k_ohm. Measure R_k_ohm cold, and the currents again; where other valves share the resistor, leave V_k and R_k_ohm out.'
	};
}

function screenOfTriode({ valve, screenCurrent, screenVolts, screenToChassis, screenLimit }: ValveGiven) {
	if (valve !== 'triode') return undefined;
	const [key] = Object.entries({
		I_g2_A: screenCurrent,
		V_g2k: screenVolts,
		V_g2: screenToChassis,
		P_g2_max_W: screenLimit
	}).flatMap(([name, value]) => (value === undefined ? [] : [name]));
	return key && { key, message: `A triode has no screen. Leave ${key} out, or choose another kind.` };
}

function halfALimit({ gridLeak, gridLeakLimit }: ValveGiven): Problem | undefined {
	if ((gridLeak === undefined) === (gridLeakLimit === undefined)) return undefined;
	const key = gridLeak === undefined ? 'R_g1_ohm' : 'R_g1_max_ohm';
	return { key, message: `${key} is missing. Give R_g1_ohm and R_g1_max_ohm together, or neither.` };
}

/** Figures that cannot all be true, with the cure. */
export function operatingContradiction(given: ValveGiven): Problem | undefined {
	const checks = [givenTwice, offTheCathode, aboveSupply, screenOfTriode, tooMuchCurrent, halfALimit];
	for (const check of checks) {
		const problem = check(given);
		if (problem) return problem;
	}
	return undefined;
}
