import type { StageFinding, StageQuestion } from './types.ts';

/** Puts the readings of one stage together: what flows, whether it adds up, and which single fault would explain it. */
export function checkStage(_question: StageQuestion): StageFinding {
	throw new Error('to come');
}
