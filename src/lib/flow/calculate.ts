import { runCalculation, type Answer, type Refusal } from '../calculations/index.ts';
import { fillCalculation, type Filled, type Known } from './fill.ts';
import type { Step } from './schema.ts';

/** A step's sum: what filled it, what came out, and the outcome of the step that its verdict stands for. */
export interface StepSum {
	filled: Filled;
	answer: Answer | Refusal;
	outcome: string | undefined;
}

/**
 * Do the sum of a step with what is known and what was typed besides; typed values win. `undefined` where the
 * step has no sum.
 */
export function calculateAtStep(
	stepId: string,
	step: Step,
	known: Known,
	typed: Readonly<Record<string, unknown>> = {}
): StepSum | undefined {
	if (!step.calculation) return undefined;
	const filled = fillCalculation(stepId, step, known);
	const answer = runCalculation(step.calculation.id, { ...filled.given, ...typed });
	const verdict = answer.ok ? answer.verdict : undefined;
	return { filled, answer, outcome: verdict === undefined ? undefined : step.calculation.outcome?.[verdict] };
}
