import { allTexts } from './texts.ts';
import type { Check } from './types.ts';

/** A sentence that is read once, with the hands busy, ends before this many words. The house rule; no source. */
const MOST_WORDS = 25;

const sentences = (text: string): string[] => text.split(/(?<=[.!?])\s+(?=["A-Z0-9])/);
const words = (sentence: string): string[] => sentence.split(/\s+/).filter((word) => /\w/.test(word));

export const sentenceTooLong: Check = {
	code: 'sentence-too-long',
	description: 'No sentence has more than 25 words.',
	level: 'advice',
	scope: 'library',
	check: (library, origins) =>
		allTexts(library, origins).flatMap(({ text, at }) => {
			const longest = sentences(text).reduce((a, b) => (words(b).length > words(a).length ? b : a));
			const count = words(longest).length;
			if (count <= MOST_WORDS) return [];
			return [
				{
					...at,
					message: `The sentence that begins "${words(longest).slice(0, 5).join(' ')}" has ${count} words.`,
					remedy: `Make two of it: a sentence of up to ${MOST_WORDS} words is read at the bench in one look.`
				}
			];
		})
};
