import { allTexts } from './texts.ts';
import type { Check } from './types.ts';

const MARK = /\bTODO\b:?\s*(.*)/s;

/** What a skeleton or a draft leaves to its author. It must not reach a bench. */
export const todo: Check = {
	code: 'todo',
	description: 'Nothing is left to write.',
	level: 'error',
	scope: 'library',
	check: (library, origins) =>
		allTexts(library, origins).flatMap(({ text, at }) => {
			const found = MARK.exec(text);
			return found
				? [
						{
							...at,
							message: `Left to write: ${found[1]?.trim() || 'this text'}`,
							remedy: 'Write it, then take the word TODO out.'
						}
					]
				: [];
		})
};
