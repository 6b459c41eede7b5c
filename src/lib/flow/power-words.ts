import type { Power } from './machine-types.ts';

/** Each power state in words that suit mains and battery sets alike, for the badge, the trail and the report. */
export const POWER_WORDS: Readonly<Record<Power, string>> = {
	off: 'Off, not proved dead',
	unplugged: 'Unplugged',
	limiter: 'On the limiter',
	live: 'Live, on full supply'
};
