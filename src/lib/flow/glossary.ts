import type { Word } from './schema.ts';

/** A trade word and its American twin. */
export interface Twin {
	british: string;
	american: string;
}

/** Capitals mean what they say: "IF" is no "if". */
const isShort = (form: string): boolean => /^[A-Z/+-]{2,}$/.test(form);

const escaped = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\/-]/g, '\\$&');

const pattern = (form: string): RegExp =>
	new RegExp(`(?<![\\w-])${escaped(form)}(?![\\w-])`, isShort(form) ? '' : 'i');

/** Where a word stands in a text first; -1 where it does not. */
function placeIn(text: string, { british, forms }: Word): number {
	const places = [british, ...forms].map((form) => text.search(pattern(form))).filter((place) => place >= 0);
	return places.length > 0 ? Math.min(...places) : -1;
}

/** A word as it stands within a sentence. */
const within = (word: string): string =>
	/^[A-Z][a-z]/.test(word) ? word.charAt(0).toLowerCase() + word.slice(1) : word;

/** The words of a text that are others in American English, each once, in the order in which they stand. */
export function termsIn(glossary: Readonly<Record<string, Word>>, text: string): Twin[] {
	return Object.values(glossary)
		.flatMap((word) => {
			const place = word.american === undefined ? -1 : placeIn(text, word);
			return place < 0 ? [] : [{ place, british: within(word.british), american: word.american ?? '' }];
		})
		.sort((a, b) => a.place - b.place)
		.map(({ british, american }) => ({ british, american }));
}

/** The words of a text with what they mean, each once, in the order in which they stand. */
export function meaningsIn(
	glossary: Readonly<Record<string, Word>>,
	text: string
): { word: string; means: string }[] {
	return Object.values(glossary)
		.map((word) => ({ place: placeIn(text, word), word: word.british, means: word.means }))
		.filter(({ place }) => place >= 0)
		.sort((a, b) => a.place - b.place)
		.map(({ word, means }) => ({ word, means }));
}
