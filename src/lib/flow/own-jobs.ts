import { learntPriors, type ClosedJob } from '../suspects/index.ts';
import type { ResolvedFlow } from './resolve.ts';

/** What the restorer's own closed jobs do to how common a suspect is, before the past of the set and every answer. */

/** Closed jobs with one complaint, by the suspect that was its cause. */
export interface OwnJobs {
	/** The part that came out was bad. */
	proved: Readonly<Record<string, number>>;
	/** It cured, and nobody tested the part that came out: such a job counts half. */
	untested: Readonly<Record<string, number>>;
}

const total = (counts: Readonly<Record<string, number>>): number =>
	Object.values(counts).reduce((sum, count) => sum + count, 0);

const countOf = (counts: Readonly<Record<string, number>>, id: string): number =>
	Object.hasOwn(counts, id) ? (counts[id] ?? 0) : 0;

export const hasJobs = ({ proved, untested }: OwnJobs): boolean => total(proved) + total(untested) > 0;

/**
 * Weights of a flow's suspects, in their order, as own jobs move them. A cause that stands at a place which this set has
 * not says nothing here.
 */
export function weightsByJobs({ suspects }: ResolvedFlow, { proved, untested }: OwnJobs): number[] {
	const closed = suspects.flatMap(({ id }, cause): ClosedJob[] => {
		const [bad, unproved] = [countOf(proved, id), countOf(untested, id)];
		const alone = suspects.map((_, index) => Number(index === cause));
		return [
			...(bad ? [{ cause, jobs: bad }] : []),
			...(unproved ? [{ standings: alone, jobs: unproved }] : [])
		];
	});
	return learntPriors(
		suspects.map(({ weight }) => weight),
		closed
	);
}

/** "In your jobs with this complaint it was the cause in 3 of 8." */
export function ownJobsSentence({ proved, untested }: OwnJobs, id: string): string {
	const all = total(proved) + total(untested);
	const [bad, unproved] = [countOf(proved, id), countOf(untested, id)];
	const half = unproved > 0 ? ` ${unproved} of these untested, which count half.` : '';
	const jobs = all === 1 ? 'your one job' : `your ${all} jobs`;
	return `In ${jobs} with this complaint it was the cause ${bad + unproved === 0 ? 'in none' : `in ${bad + unproved}`}.${half}`;
}
