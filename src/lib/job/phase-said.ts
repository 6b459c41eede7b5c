import type { EventOf } from './events.ts';
import type { JobState } from './state.ts';

/** A phase is set by hand. A set is made safe by the meter and by nothing else. */
export function sayPhase(
	state: JobState,
	{ id: event, at, data }: EventOf<'phase'>,
	order: number
): { state: JobState; refused?: string } {
	if (data.phase === 'make-safe')
		return { state, refused: 'Only two readings prove a set dead. Prove it at the power badge of the job.' };
	return { state: { ...state, phases: [...state.phases, { event, order, at, ...data }] } };
}
