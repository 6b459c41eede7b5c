import type { StepPower } from '../terms.ts';

/** Power states of steps as they fit into a small box. */
export const STEP_POWER_WORDS: Readonly<Record<StepPower, string>> = {
	unplugged: 'Unplugged',
	limiter: 'Limiter',
	live: 'Live'
};
