/** The entry at a place that must exist; a missing one is our own bug. */
export function at<Entry>(list: readonly Entry[], place: number): Entry {
	const entry = list[place];
	if (entry === undefined) throw new RangeError(`No entry ${place} in a list of ${list.length}.`);
	return entry;
}

/** Sum of a list; 0 for an empty one. */
export function sum(list: readonly number[]): number {
	return list.reduce((total, value) => total + value, 0);
}

/**
 * Weights scaled so that they sum to 1. Weights that are all zero say nothing and become equal shares.
 *
 * @throws RangeError where a weight is negative or no finite number: that is our own bug.
 */
export function normalise(weights: readonly number[]): number[] {
	weights.forEach((weight, place) => {
		if (!(weight >= 0 && weight < Infinity))
			throw new RangeError(`Weight ${place} is ${weight}, not zero or more.`);
	});
	const total = sum(weights);
	return weights.map((weight) => (total > 0 ? weight / total : 1 / weights.length));
}

/** Fails where two lists that belong together differ in length: that is our own bug. */
export function sameLength(one: readonly unknown[], other: readonly unknown[], what: string): void {
	if (one.length !== other.length)
		throw new RangeError(`${what}: ${one.length} entries against ${other.length}.`);
}

/** Place of the largest value, the first of equals; -1 in an empty list. */
export function placeOfLargest(list: readonly number[]): number {
	return list.reduce((best, value, place) => (best < 0 || value > at(list, best) ? place : best), -1);
}
