import { Comparison, type Evidence, type Hypothesis } from './comparison.ts';
import { weigh } from './sizes.ts';

/**
 * Which of several things is the matter, by the rule of Bayes: each is a circuit with one figure (the size of the fault) open and
 * all parts scattered by their tolerance. How well the readings sit with it is summed over all sizes, so that a fault which
 * would explain anything is not preferred to one which explains just this.
 */

/** The hypothesis that nothing is wrong. */
export const SOUND_STAGE = 'sound';

export interface Judged<Figures> {
	id: string;
	/** Chance after the readings, against all hypotheses together. */
	score: number;
	/** The size in the middle of what is possible, and the range in which it lies by 19 to 1. */
	size: number;
	low: number;
	high: number;
	/** Sum of squared deviations at that size, in standard errors. */
	misfit: number;
	/** The circuit as it most likely is. */
	circuit: Figures;
}

/** All hypotheses, the likeliest first. */
export function judgeAll<Figures extends object>(
	evidence: Evidence<Figures>,
	hypotheses: readonly Hypothesis<Figures>[]
): Judged<Figures>[] {
	const comparison = new Comparison(evidence);
	let bar = Infinity;
	const judged = hypotheses.map((hypothesis) => {
		const weighed = weigh(comparison, hypothesis, bar);
		bar = Math.min(bar, weighed.best.cost);
		return { hypothesis, ...weighed };
	});
	const most = Math.max(...judged.map(({ hypothesis, evidence: log }) => log + Math.log(hypothesis.weight)));
	const weights = judged.map(({ hypothesis, evidence: log }) =>
		Math.exp(log + Math.log(hypothesis.weight) - most)
	);
	const total = weights.reduce((sum, one) => sum + one, 0);
	return judged
		.map(({ hypothesis, best, size, low, high }, i) => ({
			id: hypothesis.id,
			score: weights[i]! / total,
			size,
			low,
			high,
			misfit: best.misfit,
			circuit: best.circuit
		}))
		.sort((one, other) => other.score - one.score);
}
