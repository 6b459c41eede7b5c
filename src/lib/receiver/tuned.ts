import type { Plan } from './plan.ts';

/** What the set was doing while a reading was taken; left out: no station came in. The words stand in stored jobs. */
export const TUNED = ['station', 'gram'] as const;
export type Tuned = (typeof TUNED)[number];

/** As told to people, behind a reading. */
export const TUNED_WORDS: Readonly<Record<Tuned, string>> = {
	station: 'with a station in',
	gram: 'with the switch at gram'
};

/** Stages that many sets leave without HT while the gram is switched in (common practice, no source). */
const RADIO = ['front-end', 'fm-tuner', 'oscillator', 'mixer', 'if'];

/** Whether the volts of a stage stand otherwise while the set is used so: AVC drives its grid, or the gram switch takes its HT. */
export function tuningMoves(plan: Plan, stage: string, tuned: Tuned): boolean {
	if (tuned === 'gram') return RADIO.includes(plan.stages[stage]?.section ?? '');
	return Object.values(plan.lines).some(({ section, feeds }) => section === 'avc' && feeds.includes(stage));
}

/** Electrodes that rise as AVC holds a valve back, and those that fall. */
const RISES = ['a', 'g2', 'g2g4'];
const FALLS = ['k'];

interface Place {
	stage: string;
	electrode?: string | undefined;
}

/**
 * Why a reading that is off that way is no fault by itself, in a sentence; nothing where the tuning does not explain it. A screen that
 * is low with a station in is no work of AVC.
 */
export function movedByTuning(
	plan: Plan,
	{ stage, electrode = '' }: Place,
	tuned: Tuned | undefined,
	off: 'high' | 'low'
): string | undefined {
	if (tuned === undefined || !tuningMoves(plan, stage, tuned)) return undefined;
	if (tuned === 'gram')
		return off === 'low'
			? 'No fault by itself: many sets take HT from the radio stages at gram. Read it again with a wave band switched in.'
			: undefined;
	const moved = off === 'high' ? RISES : FALLS;
	return moved.includes(electrode)
		? 'No fault by itself: with a station in, AVC holds this valve back. Anode and screen rise, the cathode falls. Read it again between stations.'
		: undefined;
}
