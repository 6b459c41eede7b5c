import { PATH_VERBS, SIGNS } from '../flow/terms.ts';
import type { Plan } from '../receiver/index.ts';
import type { Intake } from './events.ts';

/** Words that the list of jobs needs as well, so nothing here reads the matrix. */

/** For the middle of a sentence; abbreviations (AM, IF, HT) keep their capitals. */
export const lowerFirst = (text: string): string =>
	/^([A-Z][a-z]|A )/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;

/** For the beginning of a line. */
export const upperFirst = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** What each band does: `AM is faint, FM plays well`. */
const heardWords = (symptom: Intake['symptom'], plan: Plan | undefined): string =>
	Object.entries(symptom)
		.map(([band, heard]) => `${plan?.bands[band]?.title ?? band.toUpperCase()} ${PATH_VERBS[heard]}`)
		.join(', ');

/** The complaint as it was taken in: what each band does, then what was noticed beside the sound. */
export function complaintWords(
	{ symptom, signs = [] }: Pick<Intake, 'symptom' | 'signs'>,
	plan: Plan | undefined
): string {
	const noticed = signs.map((sign) => lowerFirst(SIGNS[sign].label));
	const words = [heardWords(symptom, plan), ...noticed].filter(Boolean).join(', ');
	return upperFirst(words);
}
