import { type Table, entropy } from '../../../src/lib/suspects/index.ts';
import { seeded } from '../../bench/random.ts';

/** A random distribution over so many places. */
export function distribution(next: () => number, places: number): number[] {
	const weights = Array.from({ length: places }, () => -Math.log(1 - next() * 0.999));
	const total = weights.reduce((one, other) => one + other);
	return weights.map((weight) => weight / total);
}

export function table(next: () => number, suspects: number, outcomes: number): Table {
	return Array.from({ length: suspects }, () => distribution(next, outcomes));
}

/** A random set of suspects with one check. */
export interface World {
	/** 2 to 13 suspects. */
	prior: number[];
	/** 2 to 5 outcomes. */
	check: Table;
	/** Entropy of the prior. */
	bits: number;
	/** For more random numbers of the same world. */
	next: () => number;
}

/** A test that holds a fact against fifty random worlds, the same in every run. */
export function inEveryWorld(fact: (world: World) => void): () => void {
	return () => {
		for (let seed = 1; seed <= 50; seed++) {
			const next = seeded(seed);
			const prior = distribution(next, 2 + Math.floor(next() * 12));
			const check = table(next, prior.length, 2 + Math.floor(next() * 4));
			fact({ prior, check, bits: entropy(prior), next });
		}
	};
}

/** Largest difference between two lists. */
export function apart(one: readonly number[], other: readonly number[]): number {
	return Math.max(...one.map((value, place) => Math.abs(value - (other[place] ?? Infinity))));
}
