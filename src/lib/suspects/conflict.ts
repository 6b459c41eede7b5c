import { at, placeOfLargest, sum } from './numbers.ts';
import { logEvidence } from './update.ts';

/** Answers fit badly together above this many bits, or where one was less likely than this; our own choice. */
const CONFLICT_BITS = 2;
const UNLIKELY = 0.05;

/**
 * Jensen's measure of conflict (from memory), in bits.
 *
 *     conflict = log2(product of P(e_j) / P(e_1 ... e_m))
 *
 * Above 0 the answers fit worse together than each alone; infinite where no suspect allows them together.
 *
 * @param prior weights of the suspects before the answers
 * @param rows one row for each answer: P(that answer | suspect)
 */
export function conflictBits(prior: readonly number[], rows: readonly (readonly number[])[]): number {
	const together = logEvidence(prior, rows);
	if (together === -Infinity) return Infinity;
	return sum(rows.map((row) => logEvidence(prior, [row]))) - together;
}

/**
 * How likely each answer was in the light of all the others, 0 to 1. Where the others are themselves impossible
 * together, nothing is to be foretold and the answer counts as 1.
 */
export function likelihoodGivenOthers(
	prior: readonly number[],
	rows: readonly (readonly number[])[]
): number[] {
	const together = logEvidence(prior, rows);
	return rows.map((_, answer) => {
		const others = logEvidence(
			prior,
			rows.filter((_, other) => other !== answer)
		);
		return others === -Infinity ? 1 : 2 ** (together - others);
	});
}

export interface Conflict {
	/** Jensen's measure; see `conflictBits`. */
	bits: number;
	/** Whether to tell the user: more than 2 bits, or an answer of which the others gave less than 1 chance in 20. */
	warn: boolean;
	/** The answer to repeat: the one whose removal raises P(all answers) most, the first of equals; -1 without answers. */
	repeat: number;
	/** How likely each answer was in the light of the others. */
	likelihoods: number[];
}

/** Whether the answers contradict each other, and which one fits least. */
export function findConflict(prior: readonly number[], rows: readonly (readonly number[])[]): Conflict {
	const bits = conflictBits(prior, rows);
	const likelihoods = likelihoodGivenOthers(prior, rows);
	// Taking an answer away multiplies P(all answers) by 1 / P(that answer | the others).
	const repeat = placeOfLargest(likelihoods.map((chance) => -chance));
	const warn = bits > CONFLICT_BITS || (repeat >= 0 && at(likelihoods, repeat) < UNLIKELY);
	return { bits, warn, repeat, likelihoods };
}
