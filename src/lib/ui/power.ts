import type { Power } from '$lib/flow/machine-types.ts';

/** Each power state in words; shape and colour are in `PowerState.svelte`. */
export const POWER_WORDS: Readonly<Record<Power, string>> = {
	off: 'Off, not proved dead',
	unplugged: 'Unplugged',
	limiter: 'On the lamp limiter',
	live: 'Live on the mains'
};

/** Where hands can meet volts: on the mains, behind the lamp, and in a set that may still be charged. */
export const isDangerous = (power: Power): boolean => power !== 'unplugged';
