import type { EventOf, JobEvent } from './events.ts';
import { ancestorsOf, isOneLine } from './order.ts';
import { factsOf } from './shared-evidence.ts';
import type { Contradiction, JobState } from './state.ts';

/**
 * Answers that two benches gave to the same step apart from each other, and which differ. Both stay in the log;
 * until the person decides, the later one in the order of the job counts.
 */

type Answered = EventOf<'answered'>;
type Pair = [Answered, Answered];

function apart(answers: readonly Answered[], ancestors: Map<string, Set<string>>): Pair[] {
	const descends = (a: Answered, b: Answered) =>
		ancestors.get(a.id)?.has(b.id) || ancestors.get(b.id)?.has(a.id);
	return answers.flatMap((a, index) =>
		answers
			.slice(index + 1)
			.filter((b) => a.data.step === b.data.step && a.data.outcome !== b.data.outcome && !descends(a, b))
			.map((b): Pair => [a, b])
	);
}

/** Decisions that were not taken back. */
function decisionsIn(ordered: readonly JobEvent[], state: JobState): EventOf<'resolved'>[] {
	const struck = new Set(state.trail.filter(({ undone }) => undone).map(({ event }) => event));
	return ordered.filter(
		(event): event is EventOf<'resolved'> => event.kind === 'resolved' && !struck.has(event.id)
	);
}

function group(pairs: readonly Pair[]): Contradiction[] {
	const steps = [...new Set(pairs.map(([a]) => a.data.step))];
	return steps.map((step) => ({
		step,
		answers: [...new Set(pairs.filter(([a]) => a.data.step === step).flatMap(([a, b]) => [a.id, b.id]))]
	}));
}

/** Find the contradictions of a job, and set aside the answers that a decision has overruled. */
export function contradictionsIn(ordered: readonly JobEvent[], state: JobState): JobState {
	if (isOneLine(ordered)) return state;
	const counting = new Set(factsOf(state).map(({ event }) => event));
	const answers = ordered.filter(
		(event): event is Answered => event.kind === 'answered' && counting.has(event.id)
	);
	const pairs = apart(answers, ancestorsOf(ordered));
	const kept = new Map(decisionsIn(ordered, state).map(({ data }) => [data.keep, data.step]));
	const settled = pairs.filter(([a, b]) => kept.has(a.id) || kept.has(b.id));
	const overruled = settled.map(([a, b]) => (kept.has(a.id) ? b.id : a.id));
	return {
		...state,
		overruled: [...new Set(overruled)],
		contradictions: group(pairs.filter((pair) => !settled.includes(pair)))
	};
}
