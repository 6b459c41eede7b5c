import type { Source } from './define.ts';

/** A rule that the trade uses and for which no handbook was found. */
export const commonPractice = (what: string): Source => ({ kind: 'common practice, no source', what });

/** Known to the writer, not read on a page: to be confirmed. */
export const fromMemory = (what: string): Source => ({ kind: 'from memory', what });

/** Follows from the stated formula. */
export const arithmetic = (what: string): Source => ({ kind: 'arithmetic', what });

/** Read in the place named. */
export const published = (what: string): Source => ({ kind: 'published', what });

/** Ohm's and Joule's laws, on which most sums here stand. */
export const OHM_AND_JOULE = published(
	"Ohm's and Joule's laws, V = I × R and P = V² / R: tutor4physics.com/formulaohmslaw.htm"
);

/** Companions to textbooks, where several worked examples were read. */
export const FOSSEE = 'numbers as transcribed in the FOSSEE textbook companions';

/** Our own numbers through the stated formula: good against slips, no proof from outside. */
export const OWN_NUMBERS = arithmetic('own numbers through the stated formula');
