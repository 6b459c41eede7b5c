import type { Power } from './machine-types.ts';

/** Each power state in words, for the badge, the trail and the report. */
export const POWER_WORDS: Readonly<Record<Power, string>> = {
	off: 'Off, not proved dead',
	unplugged: 'Unplugged',
	limiter: 'On the lamp limiter',
	live: 'Live on the mains'
};
