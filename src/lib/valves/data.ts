import { battery } from './records/battery.ts';
import { miniatureParallel } from './records/miniature-parallel.ts';
import { miniature } from './records/miniature.ts';
import { novalAudioPower } from './records/noval-audio-power.ts';
import { novalIf } from './records/noval-if.ts';
import { novalMixers } from './records/noval-mixers.ts';
import { novalPower } from './records/noval-power.ts';
import { novalSignal } from './records/noval-signal.ts';
import { novalTuner } from './records/noval-tuner.ts';
import { octalPower } from './records/octal-power.ts';
import { octalSignal } from './records/octal-signal.ts';
import { olderBases } from './records/older-bases.ts';
import { rimlock } from './records/rimlock.ts';
import type { Valve } from './types.ts';

export const valves: readonly Valve[] = [
	...novalTuner,
	...novalMixers,
	...novalIf,
	...novalSignal,
	...novalAudioPower,
	...novalPower,
	...miniature,
	...miniatureParallel,
	...battery,
	...rimlock,
	...octalSignal,
	...octalPower,
	...olderBases
];

export { bases } from './bases.ts';
