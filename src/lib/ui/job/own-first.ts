import { bench } from '$lib/ui/state/bench.svelte.ts';
import type { OpenJob } from '$lib/ui/state/open-job.svelte.ts';

/** Whether the list waits for the restorer's own suspicion in this flow. */
export const hidesList = (job: OpenJob): boolean =>
	bench.value.ownFirst &&
	job.flow !== undefined &&
	!job.procedure &&
	!job.state.guesses.some(({ flow }) => flow === job.flow?.flow);

/** The suspects by name, so that their order tells nothing. */
export const byName = (job: OpenJob): { id: string; name: string }[] =>
	job.suspects
		.filter(({ proof }) => proof !== undefined)
		.map(({ id, name }) => ({ id, name }))
		.sort((a, b) => a.name.localeCompare(b.name));
