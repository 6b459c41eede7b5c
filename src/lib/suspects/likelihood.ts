import { at, normalise, sameLength, sum } from './numbers.ts';
import { LIKELIHOODS, type LikelihoodWord } from './words.ts';

/** P(outcome | suspect) for one suspect, in the order of the check's outcomes; sums to 1. */
export type Row = readonly number[];

/** One row for each suspect: `table[suspect][outcome]`. */
export type Table = readonly Row[];

/** How sure a way of doing a check is; our own choice, on no source. */
export const TRUST = { full: 1, fair: 0.7, rough: 0.4 } as const;

/** Several words for one suspect never take the whole: something is left for the outcomes that nobody stated. */
const MOST_STATED = 0.98;

/** Share of a further answer that repeats the error of the first; our own choice. */
const GROUP_EXPONENT = 0.5;

/** What a sound set shows: `p` on the normal outcome, the rest in equal parts on the others. */
export function healthyRow(outcomes: readonly string[], normal: string, p = 0.95): number[] {
	const place = outcomes.indexOf(normal);
	if (place < 0) throw new RangeError(`"${normal}" is not among the outcomes ${outcomes.join(', ')}.`);
	if (outcomes.length === 1) return [1];
	return outcomes.map((_, other) => (other === place ? p : (1 - p) / (outcomes.length - 1)));
}

/**
 * The row of a suspect from words.
 *
 * One stated outcome gets the number of its word. Several keep the ratio of their words and get their sum together,
 * at most 0.98. What remains is shared among the outcomes not stated, in proportion to the healthy row. Where every
 * outcome is stated, the words are scaled to sum 1.
 */
export function wordRow(
	outcomes: readonly string[],
	stated: Readonly<Record<string, LikelihoodWord>>,
	healthy: Row
): number[] {
	sameLength(outcomes, healthy, 'Outcomes and healthy row');
	const foreign = Object.keys(stated).find((outcome) => !outcomes.includes(outcome));
	if (foreign !== undefined)
		throw new RangeError(`"${foreign}" is not among the outcomes ${outcomes.join(', ')}.`);
	const words = outcomes.map((outcome) => statedNumber(stated, outcome));
	if (!words.includes(undefined)) return normalise(words.map(Number));
	const total = sum(words.map((word) => word ?? 0));
	const share = Math.min(total, MOST_STATED);
	const left = leftOver(healthy, words);
	return words.map((word, place) =>
		word === undefined ? at(left, place) * (1 - share) : (word / total) * share
	);
}

/** How the rest is shared: as in the healthy row; equally, where that has nothing on the outcomes not stated. */
function leftOver(healthy: Row, words: readonly (number | undefined)[]): number[] {
	const open = words.map((word) => (word === undefined ? 1 : 0));
	const weights = open.map((isOpen, place) => isOpen * at(healthy, place));
	return normalise(sum(weights) > 0 ? weights : open);
}

/** Number of the word stated for an outcome. Own keys only: an outcome may bear a name that every object inherits. */
function statedNumber(stated: Readonly<Record<string, LikelihoodWord>>, outcome: string): number | undefined {
	const word = Object.hasOwn(stated, outcome) ? stated[outcome] : undefined;
	return word === undefined ? undefined : LIKELIHOODS[word];
}

/**
 * Keeps every entry off 0 and 1, then scales to sum 1 again: no single answer may settle a trace. With three outcomes
 * or more the scaling can take an entry slightly under 0.01.
 */
export function clampRow(row: Row): number[] {
	return normalise(row.map((chance) => Math.min(0.99, Math.max(0.01, chance))));
}

/**
 * Leaves room for a slip of pen or probe: the share `eps` of all answers falls on any outcome alike.
 *
 * @param eps 0 to 1; by default 3 % for each outcome, our own choice
 */
export function slipMix(row: Row, eps = Math.min(1, 0.03 * row.length)): number[] {
	return row.map((chance) => (1 - eps) * chance + eps / row.length);
}

/** Flattens the row of a check that is done in a less trusted way; trust 1 changes nothing, 0 leaves nothing. */
export function trustMix(row: Row, trust: number): number[] {
	return slipMix(row, 1 - trust);
}

/**
 * Likelihood per suspect of a reading near the edge of a band, which belongs to both bands in part.
 *
 *     L_i = sum over outcomes o of membership_o * P(o | suspect i)
 *
 * @param membership share of each outcome, summing to 1; a single 1 is the plain answer
 */
export function softOutcome(table: Table, membership: readonly number[]): number[] {
	return table.map((row) => {
		sameLength(row, membership, 'Row and membership');
		return sum(row.map((chance, outcome) => chance * at(membership, outcome)));
	});
}

/** Likelihood per suspect of one plain outcome: a column of the table. */
export function outcomeLikelihood(table: Table, outcome: number): number[] {
	return table.map((row) => at(row, outcome));
}

/**
 * The row of "something not listed": half the mean of the named suspects, half uniform over the k outcomes. It stays
 * flat under ordinary answers and rises when all named suspects are surprised.
 *
 *     P(o | not listed) = sum of prior_i * P(o | i) / 2 + 1 / (2 k)
 *
 * @param prior weights of the named suspects, in the order of the table
 */
export function residualRow(prior: readonly number[], table: Table): number[] {
	sameLength(prior, table, 'Prior and table');
	const shares = normalise(prior);
	const outcomes = at(table, 0).length;
	return Array.from({ length: outcomes }, (_, outcome) => {
		const mean = sum(table.map((row, suspect) => at(shares, suspect) * at(row, outcome)));
		return mean / 2 + 1 / (2 * outcomes);
	});
}

/**
 * The row of an answer that the user gives without being sure of it: with chance `sure` the answer is what the check
 * showed, otherwise it is a guess at the check's usual results, whichever part is at fault.
 *
 *     P(answer o | suspect) = sure * P(o | suspect) + (1 - sure) * base_o
 *
 * The guess does not depend on the suspect, so an answer with no confidence at all moves nothing.
 *
 * @param base how often each outcome is to be expected, summing to 1, the same for all suspects
 * @param sure 0 to 1
 */
export function sureMix(row: Row, base: Row, sure: number): number[] {
	sameLength(row, base, 'Row and base rates');
	return row.map((chance, outcome) => sure * chance + (1 - sure) * at(base, outcome));
}

/**
 * Exponent for each of `count` answers that share a cause of error (one meter, one tap): together they count as one
 * full answer and a half for each further one. The total is spread evenly, so that their order stays irrelevant.
 */
export function groupExponent(count: number): number {
	return (1 + GROUP_EXPONENT * (count - 1)) / count;
}

/** A likelihood that counts less: every entry to the power of `exponent` (0 to 1). */
export function temper(likelihood: readonly number[], exponent: number): number[] {
	return likelihood.map((chance) => chance ** exponent);
}

/**
 * What a check is expected to tell when an answer that shares its cause of error was given already: half of what it
 * would tell by itself, as `groupExponent` will count it.
 */
export const temperedTable = (table: Table): number[][] =>
	table.map((row) => normalise(temper(row, GROUP_EXPONENT)));
