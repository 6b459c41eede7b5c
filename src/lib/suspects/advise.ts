import { checkMinutes, type Changeover, type CheckTime, type Standpoint } from './cost.ts';
import { bitsOf, outcomeWeight, packWeights, totalOf, type PackedTable } from './packed.ts';

/** A check that tells less, in bits, is not worth offering; our own choice. */
export const LEAST_BITS = 0.02;

/** A check counts as taking at least this many minutes, so that one marked 0 does not beat everything. */
const LEAST_MINUTES = 0.25;

/** A check that may be done now. Whether its safety gate is open is for the caller to see to. */
export interface Check<State extends string> extends CheckTime<State> {
	id: string;
	/** P(outcome | suspect), one row for each suspect in the order of the standings. */
	table: PackedTable;
}

/** What a check promises. */
export interface Advice {
	id: string;
	/** Expected gain in bits. */
	bits: number;
	/** Minutes from where the work stands, changes of power state and of instruments included. */
	minutes: number;
	bitsPerMinute: number;
	/** Chance of each outcome. */
	probabilities: number[];
}

export interface AdviceQuestion<State extends string> extends Changeover<State> {
	/** Weights of the suspects. All zero: nobody is left, and nothing is worth a check. */
	standings: readonly number[];
	checks: readonly Check<State>[];
	now: Standpoint<State>;
}

/**
 * The checks worth doing, best first by bits per minute; those under 0.02 bit are left out. Equals stand in the order
 * of their ids, so that the same state always gets the same advice.
 */
export function advise<State extends string>(question: AdviceQuestion<State>): Advice[] {
	const weights = packWeights(question.standings);
	const total = totalOf(weights);
	return question.checks
		.map((check) => ({ check, bits: total > 0 ? bitsOf(weights, total, check.table) : 0 }))
		.filter(({ bits }) => bits >= LEAST_BITS)
		.map(({ check, bits }) => promise(weights, check, bits, checkMinutes(check, question.now, question)))
		.sort(byRate);
}

function promise(
	weights: Float64Array,
	{ id, table }: { id: string; table: PackedTable },
	bits: number,
	minutes: number
): Advice {
	const probabilities = Array.from({ length: table.outcomes }, (_, outcome) =>
		outcomeWeight(weights, table, outcome)
	);
	return { id, bits, minutes, bitsPerMinute: rateOf(bits, minutes), probabilities };
}

export const rateOf = (bits: number, minutes: number): number => bits / Math.max(minutes, LEAST_MINUTES);

/** Best rate first. Rates are compared to nine places: the last digits depend on the order of summing. */
export function byRate(one: Advice, other: Advice): number {
	const difference = Math.round(other.bitsPerMinute * 1e9) - Math.round(one.bitsPerMinute * 1e9);
	if (difference !== 0) return difference;
	return one.id < other.id ? -1 : Number(one.id > other.id);
}
