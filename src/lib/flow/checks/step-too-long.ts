import { allSteps, type Check } from './types.ts';

/** About what a small phone shows of a step above its buttons: 15 lines of 40 letters. Our own choice. */
const SCREEN = 600;

export const stepTooLong: Check = {
	code: 'step-too-long',
	description: 'What a step asks fits on one screen of a phone.',
	level: 'advice',
	scope: 'library',
	check: (library, origins) =>
		allSteps(library, origins).flatMap(({ id, step, at }) => {
			const letters = step.text.trim().length;
			if (letters <= SCREEN) return [];
			return [
				{
					...at(['text']),
					message: `"${id}" asks for ${letters} letters of reading; a phone shows about ${SCREEN} at once.`,
					remedy: 'Leave out what the cautions say already, or make two steps of it.'
				}
			];
		})
};
