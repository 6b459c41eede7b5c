import { inTheWay, settlersOf } from '$lib/flow/settle.ts';
import { NOT_LISTED } from '$lib/flow/trace.ts';
import type { OpenJob } from '$lib/ui/state/open-job.svelte.ts';

/** Suspects and steps that are told where nothing more can be asked. Our own choice. */
const SUSPECTS = 6;
const STEPS = 3;

/** The suspects that are left, the likeliest first, each with its proof and the steps that would settle it. */
export function leftOver(job: OpenJob) {
	const { trace } = job;
	if (!trace) return [];
	const answered = new Set(trace.answers.map(({ answer }) => answer.step));
	return job.suspects.slice(0, SUSPECTS).map(({ id, name, word, number, proof }) => ({
		id,
		name,
		word,
		number,
		settles: proof ?? '',
		steps: settlersOf(trace, id, { ...job.within, answered })
			.slice(0, STEPS)
			.map((settler) => ({ id: settler.step, title: settler.title, inTheWay: inTheWay(settler) })),
		changeable: id !== NOT_LISTED
	}));
}
