import type { Step } from '../flow/schema.ts';
import type { JobState } from './state.ts';

/**
 * Readings that need time. A clock runs from the moment the set came under power, or from where the person started one for
 * the step; both stand in the log, so the clock goes on over a reload. It is shown and never blocks.
 */

const isOn = ({ power }: JobState): boolean => power.now === 'limiter' || power.now === 'live';

/** The state after a passage of power at this time: under power since then, still, or no longer. */
export function withPowerClock(before: JobState, after: JobState, at: string): JobState {
	const { underPowerSince: _, ...rest } = after;
	if (!isOn(after)) return { ...rest, underPowerSince: undefined };
	return { ...rest, underPowerSince: isOn(before) ? before.underPowerSince : at };
}

/** Since when the step's time runs (ISO date and time); `undefined` while no clock runs for it. */
export function clockStart(state: JobState, id: string, step: Step): string | undefined {
	const starts = [state.clocks[id], step.power === 'unplugged' ? undefined : state.underPowerSince];
	// A clock started before the set came under power has been overtaken by it.
	return starts
		.filter((at) => at !== undefined)
		.sort()
		.at(-1);
}
