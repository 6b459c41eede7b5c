import { pack, type LookAheadCheck, type Table } from '../../src/lib/suspects/index.ts';
import type { StepPower } from '../../src/lib/flow/terms.ts';
import { between, exponential, normal, oneOf, scaled, type Random } from './random.ts';

/**
 * Synthetic sets: suspects, checks and minutes drawn by a recipe, so that methods can be ranked on thousands of jobs.
 * They are no measurements on real sets. Both recipes are our own.
 */

export interface WorldCheck {
	id: string;
	minutes: number;
	power: StepPower;
	/** What each suspect shows: good, bad. */
	table: Table;
}

export interface World {
	prior: number[];
	/** Minutes to mend each suspect, the test of the set included. */
	repairs: number[];
	checks: WorldCheck[];
}

export const checkOf = ({ id, minutes, power, table }: WorldCheck): LookAheadCheck<StepPower> => ({
	id,
	minutes,
	power,
	table: pack(table)
});

const POWERS: readonly StepPower[] = ['unplugged', 'unplugged', 'limiter', 'live'];

/** A check by the chance of a bad answer with each suspect. */
const check = (
	kind: string,
	place: number,
	minutes: number,
	power: StepPower,
	bad: readonly number[]
): WorldCheck => ({
	id: `${kind}-${String(place).padStart(2, '0')}`,
	minutes,
	power,
	table: bad.map((chance) => [1 - chance, chance])
});

/** A check of one part or two: it finds them mostly, and raises a false alarm now and then. */
function partCheck(next: Random, place: number, suspects: number): WorldCheck {
	const hits = new Set([Math.floor(next() * suspects)]);
	if (next() < 0.5) hits.add(Math.floor(next() * suspects));
	const found = oneOf(next, [0.97, 0.9, 0.75]);
	const alarm = oneOf(next, [0.02, 0.05, 0.1]);
	const bad = Array.from({ length: suspects }, (_, suspect) => (hits.has(suspect) ? found : alarm));
	return check('part', place, between(next, 1, 8), oneOf(next, POWERS), bad);
}

const many = <Entry>(count: number, make: (place: number) => Entry) =>
	Array.from({ length: count }, (_, place) => make(place));

/** Small enough for the exact optimum: 8 suspects, three checks on the signal path, five of parts. */
export function smallWorld(next: Random, dearer = 1): World {
	const suspects = 8;
	const path = (place: number) => {
		const cut = 1 + Math.floor(next() * (suspects - 1));
		return check(
			'path',
			place,
			between(next, 2, 6),
			'live',
			many(suspects, (suspect) => (suspect < cut ? 0.95 : 0.05))
		);
	};
	return {
		prior: scaled(many(suspects, () => exponential(next))),
		repairs: many(suspects, () => dearer * between(next, 8, 40)),
		checks: [...many(3, path), ...many(5, (place) => partCheck(next, place, suspects))]
	};
}

/** As large as a set: ten stages, checks at their borders, in the stages, and of parts. */
export function largeWorld(next: Random, suspects = 40, checks = 60): World {
	const stages = 10;
	const stageOf = (suspect: number) => Math.floor((suspect * stages) / suspects);
	const border = (place: number) =>
		check(
			'path',
			place,
			between(next, 2, 7),
			'live',
			many(suspects, (suspect) => (stageOf(suspect) <= place ? 0.95 : 0.05))
		);
	const stage = (place: number) => {
		const bad = many(suspects, (suspect) => {
			if (stageOf(suspect) !== place) return 0.05;
			return next() < 0.7 ? 0.9 : 0.3;
		});
		return check('stage', place, between(next, 2, 5), oneOf(next, ['live', 'limiter'] as const), bad);
	};
	const parts = checks - (stages - 1) - stages;
	return {
		prior: scaled(many(suspects, () => Math.exp(normal(next)))),
		repairs: many(suspects, () => between(next, 8, 40)),
		checks: [
			...many(stages - 1, border),
			...many(stages, stage),
			...many(parts, (place) => partCheck(next, place, suspects))
		]
	};
}

const odds = (chance: number) => Math.log(chance / (1 - chance));
const fromOdds = (log: number) => 1 / (1 + Math.exp(-log));

/** The same set as somebody believes it to be whose numbers are wrong: noise on the log-odds, and on the log of priors. */
export function believed(next: Random, world: World, sigma: number): World {
	const bent = (chance: number) =>
		Math.min(0.99, Math.max(0.01, fromOdds(odds(chance) + sigma * normal(next))));
	return {
		...world,
		prior: scaled(world.prior.map((weight) => weight * Math.exp(sigma * normal(next)))),
		checks: world.checks.map((one) => ({
			...one,
			table: one.table.map(([, bad = 0]) => {
				const chance = bent(bad);
				return [1 - chance, chance];
			})
		}))
	};
}

/** The same set in the words of the flows: chances to the nearest of eight, priors to half-decades. */
export function inWords(world: World, words: readonly number[]): World {
	const nearest = (chance: number) =>
		words.reduce((best, word) =>
			Math.abs(odds(word) - odds(chance)) < Math.abs(odds(best) - odds(chance)) ? word : best
		);
	return {
		...world,
		prior: scaled(world.prior.map((weight) => 10 ** (Math.round(Math.log10(weight) * 2) / 2))),
		checks: world.checks.map((one) => ({
			...one,
			table: one.table.map(([, bad = 0]) => [1 - nearest(bad), nearest(bad)])
		}))
	};
}

/** The same tables with room for a slip in every answer. */
export const withSlips = (world: World, eps: number): World => ({
	...world,
	checks: world.checks.map((one) => ({
		...one,
		table: one.table.map((row) => row.map((chance) => (1 - eps) * chance + eps / row.length))
	}))
});
