import type { Advice } from './advise.ts';
import { sum } from './numbers.ts';
import { byRepair, expectedCostOfRepair } from './repair.ts';

/** Minutes added to every repair against changing parts on a guess: originality and parts matter. Our own choice. */
export const WRONG_PART_MINUTES = 10;

export interface LookAheadQuestion<State extends string> {
	standings: readonly number[];
	/** Repair of each suspect; `undefined` for "something not listed". */
	repairs: readonly (string | undefined)[];
	/** Minutes of each suspect's repair, its proof included; for "something not listed" what a search outside costs. */
	minutes: readonly number[];
	/** Minutes from a state to the one in which parts are changed. */
	toBench: Readonly<Record<State, number>>;
	now: State;
	/** Checks as advised, each with the state in which it leaves the set. */
	checks: readonly (Advice & { power: State })[];
}

/** What each way is expected to take until the set works, in minutes. */
export interface ExpectedMinutes {
	repairNow: number;
	/** Infinite where there is no check. */
	checkFirst: number;
	/** The check with which that is reached. */
	check: string | undefined;
}

/**
 * One step of look-ahead: repairing now against each check followed by repairing.
 *
 *     now:   minutes to the bench + expected cost of repair
 *     check: its minutes + sum over its outcomes of P(o) * (the same with the standings after o)
 *
 * Of equal checks the first in the list is named.
 */
export function expectedMinutes<State extends string>(question: LookAheadQuestion<State>): ExpectedMinutes {
	const repairFrom = (standings: readonly number[], state: State) =>
		question.toBench[state] + costOfRepairs(standings, question.repairs, question.minutes);
	const ways = question.checks.map(({ id, minutes, power, probabilities, posteriors }) => ({
		id,
		minutes: minutes + sum(posteriors.map((after, o) => (probabilities[o] ?? 0) * repairFrom(after, power)))
	}));
	const best = ways.reduce((least, way) => (way.minutes < least.minutes ? way : least), {
		id: '',
		minutes: Infinity
	});
	return {
		repairNow: repairFrom(question.standings, question.now),
		checkFirst: best.minutes,
		check: best.minutes < Infinity ? best.id : undefined
	};
}

function costOfRepairs(
	standings: readonly number[],
	repairs: readonly (string | undefined)[],
	minutes: readonly number[]
): number {
	const classes = byRepair(
		standings,
		repairs,
		minutes.map((repair) => repair + WRONG_PART_MINUTES)
	);
	return expectedCostOfRepair(
		classes.map(({ standing }) => standing),
		classes.map((repair) => repair.minutes)
	);
}
