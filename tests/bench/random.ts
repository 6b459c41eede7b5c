/** Which draw of all sets and jobs this run takes. Widths of the search were chosen on draw 0. */
let draw = 0;
export function takeDraw(number: number): void {
	draw = number;
}

/** Numbers from 0 to 1 that are the same in every run of one draw (the mulberry32 recipe, from memory). */
export function seeded(seed: number): () => number {
	let state = (seed + Math.imul(draw, 0x9e3779b1)) | 0;
	return () => {
		state = (state + 0x6d2b79f5) | 0;
		let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
		mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
		return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
	};
}

export type Random = () => number;

/** From `least` up to, not including, `most`. */
export const between = (next: Random, least: number, most: number) => least + (most - least) * next();

export const oneOf = <Entry>(next: Random, list: readonly Entry[]): Entry => {
	const entry = list[Math.floor(next() * list.length)];
	if (entry === undefined) throw new RangeError('Nothing to choose from.');
	return entry;
};

/** Exponential, mean 1. */
export const exponential = (next: Random) => -Math.log(1 - next());

/** Normal, mean 0 and standard deviation 1 (Box and Muller, from memory). */
export const normal = (next: Random) => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());

export function scaled(weights: readonly number[]): number[] {
	const total = weights.reduce((sum, weight) => sum + weight, 0);
	return weights.map((weight) => weight / total);
}

/** A place drawn by weight. */
export function drawn(next: Random, weights: readonly number[]): number {
	let left = next() * weights.reduce((sum, weight) => sum + weight, 0);
	const place = weights.findIndex((weight) => (left -= weight) < 0);
	return place < 0 ? weights.length - 1 : place;
}

/** So many worlds, each from a seed of its own. */
export const worlds = <World>(count: number, seed: number, make: (next: Random) => World): World[] =>
	Array.from({ length: count }, (_, place) => make(seeded(seed * 10_000 + place)));
