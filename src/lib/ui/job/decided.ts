import type { Library } from '$lib/flow/library.ts';
import { hindsights } from '$lib/job/hindsight.ts';
import { replay } from '$lib/job/replay.ts';
import type { JobStore } from '$lib/job/store.ts';
import { flowsOf } from '$lib/ui/state/shelf.ts';

/** A step that decided jobs, and in how many. */
export interface DecidedStep {
	title: string;
	jobs: number;
}

/** Which steps decided these jobs: each is played anew and looked back on, one after the other. */
export async function decidedSteps(
	store: JobStore,
	today: Library,
	flow: string,
	jobs: readonly string[],
	onlooked: (done: number) => void
): Promise<DecidedStep[]> {
	const counts = new Map<string, number>();
	for (const [done, job] of jobs.entries()) {
		onlooked(done);
		const events = await store.events(job);
		const snapshots = await flowsOf(store, events);
		// The page draws between two jobs.
		await new Promise((next) => setTimeout(next));
		const state = replay(events, { snapshots, today });
		const told = hindsights(state).filter((one) => one.flow === flow);
		const steps = new Set(told.flatMap(({ deciding }) => deciding.map(({ step }) => step)));
		for (const step of steps) {
			const title = state.flows[flow]?.run.resolved.steps[step]?.title ?? step;
			counts.set(title, (counts.get(title) ?? 0) + 1);
		}
	}
	return [...counts]
		.map(([title, number]) => ({ title, jobs: number }))
		.sort((a, b) => b.jobs - a.jobs || a.title.localeCompare(b.title));
}
