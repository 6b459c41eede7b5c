import type { Provoked } from '../flow/terms.ts';
import { factsOf } from './shared-evidence.ts';
import { own, type JobState } from './state.ts';

/** The sheet of a step as it was counted last, empty once it is recorded as the answer. */
export function sheetOf(state: JobState, step: string): Provoked {
	const sheet = own(state.sheets, step);
	const recorded = factsOf(state).findLast(({ answer }) => answer.step === step);
	return sheet && sheet.order > (recorded?.order ?? -1) ? sheet.provoked : {};
}
