import { type Calculation, keysOf, type Problem } from '$lib/calculations/index.ts';

/** With a capital letter at the front, save where the first word is the name of a site. */
export const capital = (words: string): string =>
	/^\S+\.[a-z]/.test(words) ? words : words.charAt(0).toUpperCase() + words.slice(1);

/** Verdicts whose name alone would be too short, or misread: "correct" is a thing to do, not praise. */
const WORDS: Readonly<Record<string, string>> = {
	ok: 'In order',
	watch: 'Keep an eye on it',
	over: 'Over the limit',
	ignore: 'Of no account',
	mention: 'Keep it in mind',
	correct: 'Correct the reading first',
	'weak-image': 'A weak image',
	image: 'An image is heard'
};

/** A verdict as it is read out: `Draws too much`. */
export const verdictWords = (verdict: string): string =>
	WORDS[verdict] ?? capital(verdict.replaceAll('-', ' '));

export type Tone = 'fine' | 'doubt' | 'danger';

/** The first verdict of a calculation is its best; "switch off" is about danger. */
export function toneOf({ verdicts = [] }: Calculation, verdict: string): Tone {
	if (verdict === 'switch-off') return 'danger';
	return verdicts[0]?.verdict === verdict ? 'fine' : 'doubt';
}

/** A key as a word of its own, not the same letters as a unit: the V in "V is missing", not in "5 V" or "(V)". */
const keyPattern = (keys: readonly string[]): RegExp =>
	new RegExp(`(?<![\\w("]|[\\d,.] )(${keys.join('|')})(?![\\w"])`, 'g');

/** The message of a problem with labels, as they stand on the page, in the place of keys. */
export function problemWords({ inputs }: Calculation, { message }: Problem): string {
	const labels = new Map(
		Object.values(inputs).flatMap((input) => keysOf(input).map((key) => [key, input.label] as const))
	);
	const longestFirst = [...labels.keys()].sort((a, b) => b.length - a.length);
	return message.replace(keyPattern(longestFirst), (key, _, at: number) => {
		const label = labels.get(key) ?? key;
		return `“${at === 0 ? capital(label) : label}”`;
	});
}
