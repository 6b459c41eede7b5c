import { isProvoking } from '../provocation.ts';
import { allSteps, type Check } from './types.ts';

/** The sheet of such a step counts rounds in which the fault came or went, and those in which it did not. */
export const provokeTwoOutcomes: Check = {
	code: 'provoke-two-outcomes',
	description: 'A step that provokes the fault has its normal outcome and one other.',
	level: 'error',
	scope: 'library',
	check(library, origins) {
		return allSteps(library, origins).flatMap(({ id, step, at }) => {
			if (!isProvoking(step) || Object.keys(step.outcomes).length === 2) return [];
			return [
				{
					...at(['outcomes'], true),
					message: `"${id}" counts whether the fault answers, and has ${Object.keys(step.outcomes).length} outcomes.`,
					remedy: 'Keep two: the normal one (nothing came of it) and the other (the fault came or went).'
				}
			];
		});
	}
};
