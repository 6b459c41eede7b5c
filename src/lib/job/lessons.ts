import { learnt } from '../flow/explain.ts';
import type { ResolvedFlow } from '../flow/resolve.ts';
import { trace, type Evidence } from '../flow/trace.ts';
import { onceFor } from './once.ts';
import { evidenceIn, factsOf } from './shared-evidence.ts';
import type { FlowRun, JobState } from './state.ts';

/** A lesson costs two traces. Hand `replay` the same snapshots each time, so that none is worked out twice. */
const told = onceFor<ResolvedFlow, string>();

/** What the evidence has taught since `before`; without one, what the complaint alone teaches. */
function lesson({ run: { resolved } }: FlowRun, before: Evidence | undefined, after: Evidence): string {
	return told(resolved, JSON.stringify([before, after]), () =>
		learnt(before && trace(resolved, before), trace(resolved, after))
	);
}

/** The lesson of each event of one flow: what the complaint and then each answer that stands has cleared. */
function lessonsOf(state: JobState, id: string, flow: FlowRun): [string, string][] {
	const { steps } = flow.run.resolved;
	let before = evidenceIn(state, flow, -1);
	const opened = state.trail.filter((line) => line.kind === 'flow-opened' && line.flow === id);
	const first = opened.find(({ refused }) => refused === undefined);
	const lessons: [string, string][] = first ? [[first.event, lesson(flow, undefined, before)]] : [];
	for (const fact of factsOf(state)) {
		if (!Object.hasOwn(steps, fact.answer.step)) continue;
		const after = evidenceIn(state, flow, fact.order);
		if (fact.flow === id) lessons.push([fact.event, lesson(flow, before, after)]);
		before = after;
	}
	return lessons;
}

/** Put to each line what it has taught; what was undone teaches nothing. */
export function withLessons(state: JobState): JobState {
	const lessons = new Map(Object.entries(state.flows).flatMap(([id, flow]) => lessonsOf(state, id, flow)));
	const trail = state.trail.map((line) => {
		const lesson = line.undone ? undefined : lessons.get(line.event);
		return lesson === undefined ? line : { ...line, learnt: lesson };
	});
	return { ...state, trail };
}
