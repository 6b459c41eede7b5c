/**
 * How often a fault shows a sign, in words: P(outcome | suspect), between 0 and 1.
 *
 * Basis, in percent. "Kloft & Heck" is the 2024 data set of 209 people reading German words of quantity (R package
 * intervalpsych; data read, medians of interval middles computed by us); "Kent" is his 1964 scale, read on secondary
 * pages; "Renooij & Witteman" is their 1999 scale, anchor values from memory.
 *
 * - always: read as 99 by Kloft & Heck; kept off 1, since no single answer may settle a trace
 * - almost always: 91 by Kloft & Heck, 93 by Kent ("almost certain")
 * - usually: 75 for "often" by Kloft & Heck, 75 for "probable" by Kent, 75 for "expected" by Renooij & Witteman
 * - half the time: 50 for "fifty-fifty" in all three
 * - sometimes: 35.5 by Kloft & Heck, whose "occasionally" is 27; 30 by Kent ("probably not")
 * - rarely: 12 by Kloft & Heck
 * - almost never: 7 by Kloft & Heck and by Kent ("almost certainly not")
 * - never: 0 by Kloft & Heck; kept off 0 for the same reason as "always"
 */
export const LIKELIHOODS = {
	always: 0.98,
	'almost always': 0.91,
	usually: 0.75,
	'half the time': 0.5,
	sometimes: 0.3,
	rarely: 0.12,
	'almost never': 0.07,
	never: 0.02
} as const;

export type LikelihoodWord = keyof typeof LIKELIHOODS;

/**
 * How common a suspect is among sets with the symptom: relative weights, half a decade apart.
 *
 * Our own scale. That the order of size is enough rests on Pradhan and Henrion 1996 and on Onisko and Druzdzel 2013
 * (abstracts read): coarse numbers cost little so long as none of them is zero.
 */
export const WEIGHTS = { 'very common': 30, common: 10, occasional: 3, rare: 1, 'not listed': 0.3 } as const;

export type WeightWord = keyof typeof WEIGHTS;

export type StandingWord = 'almost certainly' | 'probably' | 'in question' | 'unlikely' | 'nearly cleared';

/** The word shown for a standing between 0 and 1. The limits are our own choice. */
export function standingWord(standing: number): StandingWord {
	if (standing >= 0.85) return 'almost certainly';
	if (standing >= 0.6) return 'probably';
	if (standing >= 0.2) return 'in question';
	if (standing >= 0.05) return 'unlikely';
	return 'nearly cleared';
}

/**
 * The number shown for a standing between 0 and 1, to the nearest 5 %: finer steps would claim more than the words
 * that went in. The ends stay open, as nothing is ever ruled out or proved by reasoning alone.
 */
export function standingNumber(standing: number): string {
	if (standing < 0.05) return 'under 1 in 20';
	const percent = Math.round(standing * 20) * 5;
	return percent > 95 ? 'over 95 %' : `${percent} %`;
}
