import { type Calculation, type Problem, putKeys } from '$lib/calculations/index.ts';
import { capital } from '../capital.ts';

export type Tone = 'fine' | 'doubt' | 'danger';

/** The first verdict of a calculation is its best. */
export function toneOf({ verdicts = [] }: Calculation, verdict: string): Tone {
	if (verdicts.find((one) => one.verdict === verdict)?.danger) return 'danger';
	return verdicts[0]?.verdict === verdict ? 'fine' : 'doubt';
}

/** The message of a problem with labels, as they stand on the page, in the place of keys. */
export const problemWords = (calculation: Calculation, { message }: Problem): string =>
	putKeys(calculation, message, (_, label, at) => `“${at === 0 ? capital(label) : label}”`);
