import { at, normalise, sameLength, sum } from './numbers.ts';

/**
 * One answer, by Bayes' rule.
 *
 *     posterior_i = prior_i * likelihood_i / evidence,   evidence = sum of prior_i * likelihood_i
 *
 * Exact: 0 and 1 are taken as they are. An answer that no hypothesis allows has evidence 0 and moves nothing.
 *
 * @param prior weights of the hypotheses, zero or more; scaled to sum 1 first
 * @param likelihood P(answer | hypothesis), zero or more
 */
export function update(
	prior: readonly number[],
	likelihood: readonly number[]
): { posterior: number[]; evidence: number } {
	sameLength(prior, likelihood, 'Prior and likelihood');
	const before = normalise(prior);
	const joint = before.map((weight, hypothesis) => weight * at(likelihood, hypothesis));
	const evidence = sum(joint);
	return { posterior: evidence > 0 ? normalise(joint) : before, evidence };
}

/** ln(prior_i * product of the rows' entry i) for every hypothesis i; minus infinity where that is zero. */
function logWeights(prior: readonly number[], rows: readonly (readonly number[])[]): number[] {
	for (const row of rows) sameLength(prior, row, 'Prior and answer');
	return normalise(prior).map((weight, hypothesis) =>
		rows.reduce((total, row) => total + Math.log(at(row, hypothesis)), Math.log(weight))
	);
}

/** ln of the sum of exp: the largest is taken out first, so that hundreds of answers do not underflow. */
function logSumExp(logs: readonly number[]): number {
	const largest = logs.reduce((most, log) => Math.max(most, log), -Infinity);
	return largest === -Infinity
		? -Infinity
		: largest + Math.log(sum(logs.map((log) => Math.exp(log - largest))));
}

/**
 * Standings after any number of answers, whose order is irrelevant. Answers that no hypothesis allows together
 * move nothing.
 *
 * @param prior weights of the hypotheses, zero or more
 * @param rows one row for each answer: P(that answer | hypothesis)
 */
export function posterior(prior: readonly number[], rows: readonly (readonly number[])[]): number[] {
	const logs = logWeights(prior, rows);
	const total = logSumExp(logs);
	return total === -Infinity ? normalise(prior) : normalise(logs.map((log) => Math.exp(log - total)));
}

/** log2 P(all answers), in bits: 0 without answers, minus infinity where no hypothesis allows them together. */
export function logEvidence(prior: readonly number[], rows: readonly (readonly number[])[]): number {
	return rows.length === 0 ? 0 : logSumExp(logWeights(prior, rows)) / Math.LN2;
}
