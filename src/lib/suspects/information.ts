import { type Table, outcomeLikelihood } from './likelihood.ts';
import { at, normalise, sameLength, sum } from './numbers.ts';

/** Entropy in bits: 0 where one suspect is certain, log2 n for n equal ones. Weights are scaled to sum 1 first. */
export function entropy(weights: readonly number[]): number {
	// A sum started at 0 avoids minus zero for a certain suspect.
	return normalise(weights).reduce((bits, p) => (p > 0 ? bits - p * Math.log2(p) : bits), 0);
}

/** How likely each outcome of a check is, given the standings. */
export function outcomeProbabilities(prior: readonly number[], table: Table): number[] {
	sameLength(prior, table, 'Prior and table');
	const shares = normalise(prior);
	return at(table, 0).map((_, outcome) =>
		sum(outcomeLikelihood(table, outcome).map((chance, suspect) => chance * at(shares, suspect)))
	);
}

/**
 * What a check is expected to tell, in bits, never negative.
 *
 *     gain = H(prior) - sum over outcomes of P(o) * H(posterior | o)
 *
 * Computed as the sum of P(i) * P(o | i) * log2(P(o | i) / P(o)), which is the same and loses no digits where the
 * gain is small. Rows of the table sum to 1.
 */
export function informationGain(prior: readonly number[], table: Table): number {
	const outcomes = outcomeProbabilities(prior, table);
	const shares = normalise(prior);
	const perSuspect = table.map((row, suspect) => {
		const bits = row.map((chance, o) => (chance > 0 ? chance * Math.log2(chance / at(outcomes, o)) : 0));
		// A suspect with no weight may show what nobody else shows: its bits are infinite and count for nothing.
		return at(shares, suspect) > 0 ? at(shares, suspect) * sum(bits) : 0;
	});
	return Math.max(0, sum(perSuspect));
}

/**
 * Mean number of yes/no checks that the best conceivable questions would need to name the suspect (Huffman's code).
 * No order of error-free two-way checks can do better.
 */
export function huffmanCost(weights: readonly number[]): number {
	const queue = normalise(weights).sort((one, other) => one - other);
	let cost = 0;
	while (queue.length > 1) {
		const joined = sum(queue.splice(0, 2));
		cost += joined;
		const place = queue.findIndex((weight) => weight >= joined);
		queue.splice(place < 0 ? queue.length : place, 0, joined);
	}
	return cost;
}
