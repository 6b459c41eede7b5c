import { at } from './numbers.ts';
import { packWeights } from './packed.ts';
import { byRepair, repairOrder } from './repair.ts';

/** Minutes added to every repair against changing parts on a guess: originality and parts matter. Our own choice. */
export const WRONG_PART_MINUTES = 10;

/** A repair with less than this of the whole weight is not put in its exact place: it moves no figure that is shown. */
const TAIL = 1e-7;

/** What the rest of a job costs without another check, for standings that change by the thousand. */
export interface Repairs {
	/** Place of its repair for each suspect. */
	repairOf: Int32Array;
	/** Minutes of each repair, the wrong-part penalty included; the longest, where its suspects differ. */
	minutes: Float64Array;
}

/**
 * Repairs stand in the order of their chance per minute by the standings now, so that after one answer more they are
 * nearly sorted already.
 *
 * @param repairs repair of each suspect; `undefined` for "something not listed"
 * @param minutes minutes of each suspect's repair, its proof included
 */
export function packRepairs(
	standings: readonly number[],
	repairs: readonly (string | undefined)[],
	minutes: readonly number[],
	penalty = WRONG_PART_MINUTES
): Repairs {
	const classes = byRepair(
		standings,
		repairs,
		minutes.map((repair) => repair + penalty)
	);
	const order = repairOrder(
		classes.map(({ standing }) => standing),
		classes.map((one) => one.minutes)
	);
	const placeOf = new Map(order.map((found, place) => [at(classes, found).repair, place]));
	return {
		repairOf: Int32Array.from(repairs, (repair) => placeOf.get(repair) ?? 0),
		minutes: Float64Array.from(order, (found) => at(classes, found).minutes)
	};
}

/** Room to work in, one for each search. */
interface Desk {
	sums: Float64Array;
	rates: Float64Array;
	order: Int32Array;
}

/**
 * A function that gives the expected minutes of repairing in the order of chance per minute, times the sum of the
 * weights (which need not be 1). The same figure as `expectedCostOfRepair`, without a list made on the way.
 */
export function repairCost({ repairOf, minutes }: Repairs): (weights: Float64Array) => number {
	const count = minutes.length;
	const desk: Desk = {
		sums: new Float64Array(count),
		rates: new Float64Array(count),
		order: new Int32Array(count)
	};
	return (weights) => {
		desk.sums.fill(0);
		let total = 0;
		for (let suspect = 0; suspect < weights.length; suspect++) {
			desk.sums[repairOf[suspect]!]! += weights[suspect]!;
			total += weights[suspect]!;
		}
		return costInOrder(desk, minutes, total);
	};
}

function costInOrder(desk: Desk, minutes: Float64Array, total: number): number {
	const { sums, order } = desk;
	const sorted = sortByRate(desk, minutes, total * TAIL);
	let uncured = total;
	let cost = 0;
	for (let rank = 0; rank < sorted; rank++) {
		const repair = order[rank]!;
		cost += minutes[repair]! * uncured;
		uncured -= sums[repair]!;
	}
	return cost;
}

/** Puts the repairs that weigh anything in order of chance per minute; returns how many there are. */
function sortByRate({ sums, rates, order }: Desk, minutes: Float64Array, least: number): number {
	let count = 0;
	for (let repair = 0; repair < sums.length; repair++) {
		if (sums[repair]! <= least) continue;
		const rate = sums[repair]! / minutes[repair]!;
		let place = count++;
		for (; place > 0 && rates[place - 1]! < rate; place--) {
			rates[place] = rates[place - 1]!;
			order[place] = order[place - 1]!;
		}
		rates[place] = rate;
		order[place] = repair;
	}
	return count;
}

/** Expected minutes of repairing without another check, the wrong-part penalty included; see `expectedCostOfRepair`. */
export function minutesOfRepairs(
	standings: readonly number[],
	repairs: readonly (string | undefined)[],
	minutes: readonly number[],
	penalty = WRONG_PART_MINUTES
): number {
	return repairCost(packRepairs(standings, repairs, minutes, penalty))(packWeights(standings));
}
