import { learnt } from '../flow/explain.ts';
import { trace, type Trace } from '../flow/trace.ts';
import { evidenceIn, factsOf } from './shared-evidence.ts';
import type { FlowRun, JobState } from './state.ts';

/** The lesson of each event of one flow: what the complaint and then each answer that stands has cleared. */
function lessonsOf(state: JobState, id: string, flow: FlowRun): [string, string][] {
	const { resolved } = flow.run;
	let before: Trace = trace(resolved, evidenceIn(state, flow, -1));
	const opened = state.trail.find(
		(line) => line.kind === 'flow-opened' && line.flow === id && line.refused === undefined
	);
	const lessons: [string, string][] = opened ? [[opened.event, learnt(undefined, before)]] : [];
	for (const fact of factsOf(state)) {
		if (!Object.hasOwn(resolved.steps, fact.answer.step)) continue;
		const after = trace(resolved, evidenceIn(state, flow, fact.order));
		if (fact.flow === id) lessons.push([fact.event, learnt(before, after)]);
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
