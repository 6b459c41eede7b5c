import { LEAST_BITS } from './advise.ts';
import { at, normalise, placeOfLargest, sameLength, sum } from './numbers.ts';

/** A repair is proposed where the suspects that it cures have more than this together. */
const SAME_REPAIR = 0.95;

/** With more than this on "something not listed" the fault may lie outside the flow. */
const OUTSIDE = 0.5;

/**
 * Order in which to repair when no more is to be learnt: falling chance per minute (Kadane and Simon's rule, read in
 * abstracts only). Best order for exactly one fault, repairs that always cure, and costs that do not depend on order.
 *
 * @param chances standing of each repair
 * @param minutes minutes of each repair, its proof included; above 0
 * @returns places, best first; of equals the earlier place comes first
 */
export function repairOrder(chances: readonly number[], minutes: readonly number[]): number[] {
	sameLength(chances, minutes, 'Chances and minutes');
	const rate = (place: number) => at(chances, place) / at(minutes, place);
	return chances.map((_, place) => place).sort((one, other) => rate(other) - rate(one) || one - other);
}

/**
 * Expected minutes of repairing in a given order until the set works.
 *
 *     ECR = sum over k of minutes_k * (1 - sum of the chances before k)
 *
 * Source: Heckerman, Breese and Rommelse 1995, Breese and Heckerman 1996 (abstract and introduction read).
 *
 * @param chances sum to 1 over all repairs, or less where something may remain uncured
 */
export function expectedCostOfRepair(
	chances: readonly number[],
	minutes: readonly number[],
	order: readonly number[] = repairOrder(chances, minutes)
): number {
	let uncured = 1;
	let cost = 0;
	for (const place of order) {
		cost += at(minutes, place) * uncured;
		uncured -= at(chances, place);
	}
	return cost;
}

/** One repair with the sum of the suspects that it cures; `undefined` stands for "something not listed". */
export interface RepairStanding {
	repair: string | undefined;
	standing: number;
	/** Minutes of the repair; the longest, where its suspects differ. */
	minutes: number;
}

/**
 * Standings summed over the suspects that one and the same repair cures, in order of first appearance.
 *
 * @param repairs repair of each suspect; `undefined` for "something not listed"
 * @param minutes minutes of each suspect's repair; without them all count alike
 */
export function byRepair(
	standings: readonly number[],
	repairs: readonly (string | undefined)[],
	minutes: readonly number[] = standings.map(() => 1)
): RepairStanding[] {
	sameLength(standings, repairs, 'Standings and repairs');
	const sums = new Map<string | undefined, RepairStanding>();
	normalise(standings).forEach((share, suspect) => {
		const repair = repairs[suspect];
		const so = sums.get(repair) ?? { repair, standing: 0, minutes: 0 };
		const longest = Math.max(so.minutes, at(minutes, suspect));
		sums.set(repair, { repair, standing: so.standing + share, minutes: longest });
	});
	return [...sums.values()];
}

export interface RepairQuestion {
	standings: readonly number[];
	/** Repair of each suspect; `undefined` for "something not listed". */
	repairs: readonly (string | undefined)[];
	/** Minutes of each suspect's repair; without them all count alike. */
	minutes?: readonly number[] | undefined;
	/** The checks that may be done now, with what each is expected to tell. */
	checks: readonly { bits: number }[];
	/** Expected minutes to a working set, by repairing now and by the best check first (`expectedMinutes`). */
	expected?: { repairNow: number; checkFirst: number } | undefined;
}

export type RepairAdvice =
	| { stop: false }
	| {
			stop: true;
			because: 'one repair cures nearly all' | 'no check tells more' | 'repairing is quicker';
			repair: string;
	  }
	| { stop: true; because: 'fault may lie outside'; repair?: never };

/**
 * Whether to stop checking, and why. The repair named is the first in order of chance per minute; where one repair
 * cures suspects of more than 95 % together it is that one. More than 50 % on "something not listed" names none: while
 * a check still tells something it is made first, for two odd answers lift that share as well as a strange fault does.
 * Nobody left names none either.
 */
export function shouldRepair(question: RepairQuestion): RepairAdvice {
	if (sum(question.standings) === 0) return { stop: true, because: 'fault may lie outside' };
	const all = byRepair(question.standings, question.repairs, question.minutes);
	const named = all.flatMap(({ repair, ...rest }) => (repair === undefined ? [] : [{ repair, ...rest }]));
	const outside = all.find(({ repair }) => repair === undefined)?.standing ?? 0;
	const first = named[placeOfLargest(named.map(({ standing, minutes }) => standing / minutes))];
	const telling = question.checks.some(({ bits }) => bits >= LEAST_BITS);
	if (first === undefined) return { stop: true, because: 'fault may lie outside' };
	if (outside > OUTSIDE) return telling ? { stop: false } : { stop: true, because: 'fault may lie outside' };
	const sure = named.find(({ standing }) => standing > SAME_REPAIR);
	if (sure) return { stop: true, because: 'one repair cures nearly all', repair: sure.repair };
	if (!telling) return { stop: true, because: 'no check tells more', repair: first.repair };
	if (question.expected && question.expected.repairNow <= question.expected.checkFirst)
		return { stop: true, because: 'repairing is quicker', repair: first.repair };
	return { stop: false };
}
