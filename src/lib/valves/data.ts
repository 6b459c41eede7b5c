import { miniature } from './miniature.ts';
import { novalAudioPower } from './noval-audio-power.ts';
import { novalIf } from './noval-if.ts';
import { novalTuner } from './noval-tuner.ts';
import type { Base, Valve } from './types.ts';

export const valves: readonly Valve[] = [...novalTuner, ...novalIf, ...novalAudioPower, ...miniature];

/** Names and pin counts of the bases, from memory. */
export const bases: Readonly<Record<Base, { name: string; pins: number }>> = {
	B9A: { name: 'noval (B9A)', pins: 9 },
	B7G: { name: 'miniature 7-pin (B7G)', pins: 7 }
};
