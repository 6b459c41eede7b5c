import type { Table } from './likelihood.ts';

/**
 * A table of likelihoods as the search reads it: all suspects of one outcome lie together. Plain numbers, so that it
 * can be sent to a worker as it is.
 */
export interface PackedTable {
	suspects: number;
	outcomes: number;
	/** P(outcome | suspect) at `outcome * suspects + suspect`. */
	chances: Float64Array;
	/** Sum over outcomes of P log2 P for each suspect, 0 or less: what the check leaves open where the fault is known. */
	openBits: Float64Array;
}

/**
 * A table made ready for the search. A row that does not sum to 1 is scaled; a row of zeros says nothing and becomes
 * equal shares, so that a bad table can flatten a check but never break a trace.
 */
export function pack(table: Table): PackedTable {
	const suspects = table.length;
	const outcomes = table[0]?.length ?? 0;
	const chances = new Float64Array(suspects * outcomes);
	const openBits = new Float64Array(suspects);
	table.forEach((row, suspect) => {
		const total = row.reduce((sum, chance) => sum + chance, 0);
		for (let outcome = 0; outcome < outcomes; outcome++) {
			const chance = total > 0 ? (row[outcome] ?? 0) / total : 1 / outcomes;
			chances[outcome * suspects + suspect] = chance;
			if (chance > 0) openBits[suspect]! += chance * Math.log2(chance);
		}
	});
	return { suspects, outcomes, chances, openBits };
}

const known = new WeakMap<Table, PackedTable>();

/** The same, kept for as long as the table itself is: flows ask for their tables at every answer. */
export function packed(table: Table): PackedTable {
	const kept = known.get(table) ?? pack(table);
	known.set(table, kept);
	return kept;
}

/** Standings in an array of their own, scaled to sum 1; all zeros where nobody is left. */
export function packWeights(weights: readonly number[]): Float64Array {
	const list = Float64Array.from(weights);
	const total = totalOf(list);
	return total > 0 ? list.map((weight) => weight / total) : list;
}

export function totalOf(weights: Float64Array): number {
	let total = 0;
	for (let suspect = 0; suspect < weights.length; suspect++) total += weights[suspect]!;
	return total;
}

/** Weight of one outcome: the sum of weight times chance. */
export function outcomeWeight(weights: Float64Array, table: PackedTable, outcome: number): number {
	const start = outcome * table.suspects;
	let total = 0;
	for (let suspect = 0; suspect < table.suspects; suspect++)
		total += weights[suspect]! * table.chances[start + suspect]!;
	return total;
}

/** Writes the weights after an outcome into `after`, unscaled, and returns their sum: the weight of the outcome. */
export function weightsAfter(
	weights: Float64Array,
	table: PackedTable,
	outcome: number,
	after: Float64Array
): number {
	const start = outcome * table.suspects;
	let total = 0;
	for (let suspect = 0; suspect < table.suspects; suspect++) {
		const weight = weights[suspect]! * table.chances[start + suspect]!;
		after[suspect] = weight;
		total += weight;
	}
	return total;
}

/**
 * What a check is expected to tell, in bits, times the sum of the weights, which need not be 1.
 *
 *     gain = sum of w_i * sum over o of P(o | i) log2 P(o | i)  -  sum over o of w_o log2 (w_o / w)
 *
 * The same as `informationGain`, with one logarithm for each outcome instead of one for each entry.
 */
export function bitsOf(weights: Float64Array, total: number, table: PackedTable): number {
	const { suspects, outcomes, chances, openBits } = table;
	// Two sums in one pass: each waits for its own last addition only.
	let gain = 0;
	let first = 0;
	for (let suspect = 0; suspect < suspects; suspect++) {
		const weight = weights[suspect]!;
		gain += weight * openBits[suspect]!;
		first += weight * chances[suspect]!;
	}
	// Rows sum to 1, so the last outcome has what the others leave.
	let left = total;
	for (let outcome = 0; outcome < outcomes; outcome++) {
		const isLast = outcome === outcomes - 1;
		const weight = isLast ? left : outcome === 0 ? first : outcomeWeight(weights, table, outcome);
		left -= weight;
		if (weight > 0) gain -= weight * Math.log2(weight / total);
	}
	return Math.max(0, gain);
}
