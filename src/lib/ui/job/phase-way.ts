import { resolve } from '$app/paths';
import { PHASE_FLOWS } from '$lib/job/phases.ts';
import type { Phase } from '$lib/job/events.ts';
import type { Library } from '$lib/flow/library.ts';
import { flowFits } from '$lib/flow/resolve.ts';
import { stateOf } from '$lib/job/run.ts';
import { own, type JobState } from '$lib/job/state.ts';

/** Where a phase is worked on: a page, or a deed. */
export type PhaseWay = { href: string } | { go: () => void };

/** The page beside the trace on which a phase is worked on, where it has one. */
export function phasePage(phase: Phase, job: string): string | undefined {
	switch (phase) {
		case 'intake':
			return `${resolve('/set')}#${job}`;
		case 'capacitors':
		case 'parts':
			return `${resolve('/parts')}#${job}`;
		case 'voltages':
			return `${resolve('/survey')}#${job}`;
		case 'report':
			return `${resolve('/report')}#${job}`;
		default:
			return undefined;
	}
}

/** The work in a fixed order that a phase opens next: the one in hand, else the first that fits the set. */
export function phaseFlow(state: JobState, library: Library, phase: Phase): string | undefined {
	const plan = own(library.plans, state.intake?.plan);
	const fitting = (PHASE_FLOWS[phase] ?? []).filter((id) => {
		const flow = own(library.flows, id);
		return own(state.flows, id) !== undefined || (plan && flow && flowFits(flow, plan));
	});
	const left = fitting.find((id) => {
		const known = own(state.flows, id);
		return !known || !['cured', 'unresolved'].includes(stateOf(known.run));
	});
	return left ?? fitting[0];
}

/** The complaint that is traced, or was traced last. */
export const tracedFlow = (state: JobState): string | undefined =>
	Object.values(state.flows)
		.filter(({ run }) => !run.resolved.flow.procedure)
		.sort((a, b) => b.openedAt - a.openedAt)[0]?.flow;
