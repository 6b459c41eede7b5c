import { type CheckTime, type Switching, checkMinutes } from './cost.ts';
import { informationGain, outcomeProbabilities } from './information.ts';
import { type Table, outcomeLikelihood } from './likelihood.ts';
import { update } from './update.ts';

/** A check that tells less, in bits, is not worth offering; our own choice. */
export const LEAST_BITS = 0.02;

/** A check counts as taking at least this many minutes, so that one marked 0 does not beat everything. */
const LEAST_MINUTES = 0.25;

/** A check that may be done now. Whether its safety gate is open is for the caller to see to. */
export interface Check<State extends string> extends CheckTime<State> {
	id: string;
	/** P(outcome | suspect), one row for each suspect in the order of the prior. */
	table: Table;
}

/** What a check promises. */
export interface Advice {
	id: string;
	/** Expected gain in bits. */
	bits: number;
	/** Minutes from the present state, switching included. */
	minutes: number;
	bitsPerMinute: number;
	/** Chance of each outcome. */
	probabilities: number[];
	/** Standings after each outcome. */
	posteriors: number[][];
}

export interface AdviceQuestion<State extends string> {
	prior: readonly number[];
	checks: readonly Check<State>[];
	/** The state the set is in. */
	now: State;
	switching: Switching<State>;
}

/**
 * The checks worth doing, best first by bits per minute; those under 0.02 bit are left out. Equals stand in the order
 * of their ids, so that the same state always gets the same advice.
 */
export function advise<State extends string>(question: AdviceQuestion<State>): Advice[] {
	const { prior, checks, now, switching } = question;
	return checks
		.map((check) => ({ check, bits: informationGain(prior, check.table) }))
		.filter(({ bits }) => bits >= LEAST_BITS)
		.map(({ check, bits }) => promise(prior, check, bits, checkMinutes(check, now, switching)))
		.sort(byRate);
}

function promise(
	prior: readonly number[],
	{ id, table }: { id: string; table: Table },
	bits: number,
	minutes: number
): Advice {
	const probabilities = outcomeProbabilities(prior, table);
	const posteriors = probabilities.map(
		(_, outcome) => update(prior, outcomeLikelihood(table, outcome)).posterior
	);
	return {
		id,
		bits,
		minutes,
		bitsPerMinute: bits / Math.max(minutes, LEAST_MINUTES),
		probabilities,
		posteriors
	};
}

/** Best rate first. Rates are compared to nine places: the last digits depend on the order of summing. */
function byRate(one: Advice, other: Advice): number {
	const difference = Math.round(other.bitsPerMinute * 1e9) - Math.round(one.bitsPerMinute * 1e9);
	if (difference !== 0) return difference;
	return one.id < other.id ? -1 : Number(one.id > other.id);
}
