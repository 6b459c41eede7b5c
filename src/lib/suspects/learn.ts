import { at, normalise, sameLength, sum } from './numbers.ts';

/** How many closed jobs the written priors are worth before this bench's own jobs outweigh them. Our own choice. */
const PRIOR_JOBS = 20;

/** A job whose cause was never proved counts half. */
const UNPROVED_SHARE = 0.5;

/** Closed jobs alike: the proved cause by its place, or only the standings with which they ended; one if not said. */
export type ClosedJob = { jobs?: number } & ({ cause: number } | { standings: readonly number[] });

/**
 * Priors as the restorer's own closed jobs move them, by Dirichlet counts.
 *
 *     count_i = jobs the priors are worth * prior_i
 *     proved job:   count of its cause + 1
 *     unproved job: count_i + standing_i / 2
 *     prior_i = count_i / sum of the counts
 *
 * Expect little before a hundred jobs. Source: the bookkeeping of Breese and Heckerman 1996 (abstract read); the weights
 * are our own.
 *
 * @param prior weights of the suspects by the flow's words; all zero counts as equal
 * @returns weights that sum to 1; no suspect with a prior falls to zero
 */
export function learntPriors(
	prior: readonly number[],
	jobs: readonly ClosedJob[],
	priorJobs = PRIOR_JOBS
): number[] {
	const counts = normalise(prior).map((share) => share * priorJobs);
	for (const job of jobs) {
		const { jobs: times = 1 } = job;
		if ('cause' in job) {
			counts[job.cause] = at(counts, job.cause) + times;
			continue;
		}
		sameLength(prior, job.standings, 'Prior and standings');
		if (sum(job.standings) === 0) continue;
		normalise(job.standings).forEach((share, place) => {
			counts[place] = at(counts, place) + UNPROVED_SHARE * share * times;
		});
	}
	return normalise(counts);
}
