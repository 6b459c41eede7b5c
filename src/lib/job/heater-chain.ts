import { heaterChain as sum } from '../calculations/heater-chain.ts';
import { runOn } from '../calculations/run.ts';
import type { Plan } from '../receiver/index.ts';
import { findValve } from '../valves/index.ts';
import type { SetData } from './set-data.ts';

/** The heaters of a set added up, by the valves that are in it. */
export interface HeaterSum {
	series: boolean;
	/** What they come to, in sentences. */
	says: string[];
	/** The chain does not go with its mains and dropper, or with itself. */
	wrong: boolean;
	/** Types without data: they are not in the sum. */
	unknown: string[];
}

interface Heated {
	id: string;
	type: string;
	volts: number;
	amps: number;
}

/** One bulb with two duties is one heater. */
function heatersOf(plan: Plan, data: SetData | undefined): { known: Heated[]; unknown: string[] } {
	const told = new Map((data?.valves ?? []).map((valve) => [valve.id, valve.fitted ?? valve.listed]));
	const ids = [...new Set([...Object.keys(plan.valves), ...told.keys()])];
	const all = ids.map((id) => ({ id, type: told.get(id) ?? plan.valves[id]?.type ?? '' }));
	const known: Heated[] = [];
	const unknown: string[] = [];
	for (const { id, type } of all) {
		const found = findValve(type);
		if (!found.ok) unknown.push(type);
		else
			known.push({
				id,
				type: found.valve.type,
				volts: found.valve.heater.volts,
				amps: found.valve.heater.amps
			});
	}
	return { known, unknown };
}

const plain = (value: number) => String(Number(value.toPrecision(4)));
const UNLIKE = 0.05;

function seriesSum(known: readonly Heated[], mains: number | undefined, dropper: number | undefined) {
	const currents = [...new Set(known.map(({ amps }) => amps))];
	const usual = currents
		.map((amps) => ({ amps, count: known.filter((one) => one.amps === amps).length }))
		.sort((a, b) => b.count - a.count)[0]?.amps;
	if (usual === undefined) return { says: [], wrong: false };
	const odd = known.filter(({ amps }) => Math.abs(amps - usual) > UNLIKE * usual);
	const total = known.reduce((volts, one) => volts + one.volts, 0);
	const says = odd.map(
		({ type, amps }) =>
			`The ${type} takes ${plain(amps)} A, the chain carries ${plain(usual)} A: it does not belong in this chain.`
	);
	if (mains === undefined)
		return {
			says: [
				...says,
				`The heaters add up to ${plain(total)} V at ${plain(usual)} A. Enter the mains of today to reckon the dropper.`
			],
			wrong: odd.length > 0
		};
	const answer = runOn(sum, {
		V: known.map(({ volts }) => volts),
		I_A: usual,
		V_mains: mains,
		...(dropper === undefined ? {} : { R_dropper_ohm: dropper })
	});
	if (!answer.ok) return { says: [...says, ...answer.problems.map(({ message }) => message)], wrong: true };
	const right = answer.verdict === 'ok' || answer.verdict === 'low' || answer.verdict === 'high';
	return { says: [...says, answer.sentence], wrong: odd.length > 0 || !right };
}

function parallelSum(known: readonly Heated[], rectifier: string | undefined) {
	const lit = known.filter(({ id }) => id !== rectifier);
	const volts = lit[0]?.volts;
	const odd = lit.filter((one) => volts !== undefined && Math.abs(one.volts - volts) > UNLIKE * volts);
	const total = lit.reduce((amps, one) => amps + one.amps, 0);
	return {
		says: [
			...odd.map(
				({ type, volts: own }) => `The ${type} wants ${plain(own)} V, the others ${plain(volts ?? 0)} V.`
			),
			`The heaters draw ${plain(total)} A from the winding, without rectifier and dial lamps.`
		],
		wrong: odd.length > 0
	};
}

/** Add the heaters up: in series against mains and dropper, in parallel against each other. */
export function heaterSum(plan: Plan, data: SetData | undefined, mains: number | undefined): HeaterSum {
	const { known, unknown } = heatersOf(plan, data);
	const series = plan.traits.heaters === 'series';
	const dropper = data?.parts['heaters.dropper']?.value;
	const added = series ? seriesSum(known, mains, dropper) : parallelSum(known, plan.lines['ht']?.valve);
	return { series, unknown, ...added };
}
