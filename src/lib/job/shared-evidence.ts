import type { Situation } from '../flow/advice.ts';
import type { Answer } from '../flow/machine-types.ts';
import { trace, type Evidence, type Mended, type Trace } from '../flow/trace.ts';
import { onceFor } from './once.ts';
import { contextOf, situationOf, stateOf } from './run.ts';
import { allRuns, own, type FlowRun, type JobState } from './state.ts';

/**
 * All flows of a job look at one set: an answer counts in every flow that has its step, and a part that was changed
 * in one is changed in all.
 */

/** One answer that counts, with its event and its place in the order of the job. */
export interface Fact {
	event: string;
	order: number;
	flow: string;
	answer: Answer;
}

function factsOfRun({ flow, run, done }: FlowRun): Fact[] {
	const answered = done.filter(({ event }) => event.kind === 'answered');
	return contextOf(run).answers.flatMap((answer, index) => {
		const source = answered[index];
		return source ? [{ event: source.event.id, order: source.order, flow, answer }] : [];
	});
}

/** Every answer that stands, oldest first: undone, refused and overruled ones are not among them. */
export const factsOf = (state: JobState): Fact[] =>
	allRuns(state)
		.flatMap(factsOfRun)
		.filter(({ event }) => !state.overruled.includes(event))
		.sort((a, b) => a.order - b.order);

/** Of several answers to one step the latest, in the place of the latest. */
const latest = (facts: readonly Fact[]): Fact[] =>
	facts.filter(
		({ answer }, index) => !facts.slice(index + 1).some((later) => later.answer.step === answer.step)
	);

/** A proof, and the part that it was about. */
interface Proof extends Omit<Mended, 'after'> {
	order: number;
	/** The run stands cured by this very part. */
	curedBy: FlowRun | undefined;
}

function proofsOfRun(flow: FlowRun): Proof[] {
	let suspect: string | undefined;
	const proofs = flow.done.flatMap(({ event, order }): Proof[] => {
		if (event.kind === 'suspected') suspect = event.data.suspect;
		if (event.kind !== 'proved' || suspect === undefined) return [];
		return [{ suspect, was: event.data.partWas, order, curedBy: undefined }];
	});
	const last = proofs.at(-1);
	if (last && stateOf(flow.run) === 'cured') last.curedBy = flow;
	return proofs;
}

/**
 * What is known to this flow of the set, up to a place in the order of the job. A part that cured another symptom,
 * or one that came back, is no suspect any more; while this flow stands cured, its own part still is.
 */
export function evidenceIn(state: JobState, flow: FlowRun, upTo = Infinity): Evidence {
	const { steps } = flow.run.resolved;
	const facts = latest(
		factsOf(state).filter(({ order, answer }) => order <= upTo && Object.hasOwn(steps, answer.step))
	);
	const mended = allRuns(state)
		.flatMap(proofsOfRun)
		.filter(({ order, curedBy }) => order <= upTo && curedBy !== flow)
		.sort((a, b) => a.order - b.order)
		.map(({ suspect, was, order }) => ({
			suspect,
			was,
			after: facts.filter((fact) => fact.order < order).length
		}));
	const { instruments, service } = state.intake ?? {};
	return {
		answers: facts.map(({ answer }) => answer),
		mended,
		...(instruments ? { instruments } : {}),
		...(service ? { service } : {})
	};
}

const traceOf = onceFor<JobState, Trace>();

/** Standings of one flow by all that the job knows. */
export function traceIn(state: JobState, flowId: string, upTo = Infinity): Trace | undefined {
	const flow = own(state.flows, flowId);
	return (
		flow && traceOf(state, `${flowId} ${upTo}`, () => trace(flow.run.resolved, evidenceIn(state, flow, upTo)))
	);
}

/** What the advice asks of the job: steps answered, put off or out of reach, in this flow or another. */
export function situationIn(state: JobState, flowId: string): Situation | undefined {
	const flow = own(state.flows, flowId);
	const now = traceIn(state, flowId);
	if (!flow || !now) return undefined;
	const { answers } = evidenceIn(state, flow);
	const answered = new Set(answers.map(({ step }) => step));
	const counted = new Set(now.answers.map(({ answer }) => answer.step));
	const unavailable = allRuns(state).flatMap(({ run }) => contextOf(run).unavailable.map(({ step }) => step));
	return {
		...situationOf(
			flow.run,
			state.intake?.instruments,
			[...answered].filter((step) => !counted.has(step))
		),
		answered: answers.map(({ step, outcome }) => ({ step, outcome })),
		unavailable: [...new Set(unavailable)].filter((step) => !answered.has(step))
	};
}
