import type { Power } from '$lib/flow/machine-types.ts';

/** Where hands can meet volts: on the mains, behind the lamp, and in a set that may still be charged. */
export const isDangerous = (power: Power): boolean => power !== 'unplugged';
