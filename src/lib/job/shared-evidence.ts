import type { Situation } from '../flow/advice.ts';
import type { Answer } from '../flow/machine-types.ts';
import { hasJobs } from '../flow/own-jobs.ts';
import { expectedAt, judgeReading } from '../flow/reading.ts';
import type { ResolvedFlow } from '../flow/resolve.ts';
import type { Step } from '../flow/schema.ts';
import { trace, type Evidence, type Mended, type Trace } from '../flow/trace.ts';
import { movedByTuning } from '../receiver/index.ts';
import type { EventData } from './events.ts';
import { blamedUpTo, ledgerUpTo } from './ledger.ts';
import { onceFor } from './once.ts';
import { contextOf, situationOf, stateOf } from './run.ts';
import { allRuns, own, type FlowRun, type Heard, type JobState } from './state.ts';

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

/** A survey reading at the place of this step is its answer, as far as a plain reading on full mains can be one. */
const isPlainReading = (step: Step): step is Extract<Step, { kind: 'measure' }> =>
	step.kind === 'measure' &&
	step.measure === 'DC volts' &&
	step.power === 'live' &&
	step.prepare === undefined &&
	step.after === undefined &&
	step.needs.length === 0;

/** What the survey's readings answer in this flow; one that lies in no band of the step answers nothing. */
function surveyFacts({ readings, service }: JobState, { steps, plan }: ResolvedFlow): Fact[] {
	const plain = Object.entries(steps).flatMap(([id, step]) => (isPlainReading(step) ? [{ id, step }] : []));
	return readings.flatMap(({ event, order, point, reading, out, tuned }) =>
		plain.flatMap(({ id, step }): Fact[] => {
			if (step.at !== point || out || reading.power !== 'live') return [];
			const { value, typed, ht } = reading;
			const expected = expectedAt(plan, point, service, ht);
			const judged = judgeReading(step, value, expected);
			const place = plan.points[point];
			const off = expected && value < expected.value ? 'low' : 'high';
			if (!judged || (place && movedByTuning(plan, place, tuned, off))) return [];
			const answer = { step: id, outcome: judged.outcome, typed, reading: value, power: reading.power };
			return [{ event, order, flow: '', answer: ht ? { ...answer, ht } : answer }];
		})
	);
}

/** Of several answers to one step the latest, in the place of the latest. */
const latest = (facts: readonly Fact[]): Fact[] =>
	facts.filter(
		({ answer }, index) => !facts.slice(index + 1).some((later) => later.answer.step === answer.step)
	);

/** A proof, the part that it was about and the flow that it was made in. */
export interface Proof extends Omit<Mended, 'after'> {
	flow: string;
	order: number;
	symptom: EventData['proved']['symptom'];
	/** The run stands cured by this very part. */
	curedBy: FlowRun | undefined;
}

function proofsOfRun(flow: FlowRun): Proof[] {
	let suspect: string | undefined;
	const proofs = flow.done.flatMap(({ event, order }): Proof[] => {
		if (event.kind === 'suspected') suspect = event.data.suspect;
		if (event.kind !== 'proved' || suspect === undefined) return [];
		const { symptom, partWas: was } = event.data;
		return [{ suspect, was, flow: flow.flow, symptom, order, curedBy: undefined }];
	});
	const last = proofs.at(-1);
	if (last && stateOf(flow.run) === 'cured') last.curedBy = flow;
	return proofs;
}

/** Every proof that stands, oldest first. */
export const proofsIn = (state: JobState): Proof[] =>
	allRuns(state)
		.flatMap(proofsOfRun)
		.sort((a, b) => a.order - b.order);

/** A band that does otherwise by now: what was heard there before says nothing of the set as it is. */
function overtaken(resolved: ResolvedFlow, { order, answer }: Fact, heard: readonly Heard[]): boolean {
	const step = resolved.steps[answer.step];
	if (step?.kind !== 'listen') return false;
	const now = heard.findLast(({ bands }) => bands[step.band] !== undefined);
	return now !== undefined && now.order > order && now.bands[step.band] !== answer.outcome;
}

/**
 * What is known to a flow of the set, up to a place in the order of the job. A part that cured another symptom, or one
 * that came back, is no suspect any more; while `self` stands cured, its own part still is. A cure explains the bad
 * answers that its part shows, whatever that part proved to be.
 *
 * @param self the run that stands for this flow in the job, if it was opened
 */
export function evidenceFor(
	state: JobState,
	resolved: ResolvedFlow,
	{ self, upTo = Infinity }: { self?: FlowRun; upTo?: number } = {}
): Evidence {
	const heard = state.heard.filter(({ order }) => order <= upTo);
	const facts = latest(
		[...factsOf(state), ...surveyFacts(state, resolved)]
			.sort((a, b) => a.order - b.order)
			.filter(
				(fact) =>
					fact.order <= upTo &&
					Object.hasOwn(resolved.steps, fact.answer.step) &&
					!overtaken(resolved, fact, heard)
			)
	);
	const mended = proofsIn(state)
		.filter(({ order, curedBy }) => order <= upTo && (!self || curedBy !== self))
		.map(({ suspect, was, symptom, order }) => ({
			suspect,
			was: symptom === 'cured' ? ('bad' as const) : was,
			after: facts.filter((fact) => fact.order < order).length
		}));
	const { instruments, history } = state.intake ?? {};
	const { service } = state;
	const jobs = state.experience.findLast(({ flow, order }) => flow === resolved.flow.id && order <= upTo);
	const blamed = blamedUpTo(state, upTo);
	const ledger = [
		...ledgerUpTo(
			state,
			upTo,
			blamed.map(({ line }) => line.event)
		),
		...blamed.map(({ line: { suspect, also }, heardAt }) => ({
			suspect,
			...(also ? { also } : {}),
			state: 'blamed' as const,
			after: facts.filter(({ order }) => order < heardAt).length
		}))
	];
	return {
		answers: facts.map(({ answer }) => answer),
		mended,
		...(history?.length ? { history } : {}),
		...(ledger.length ? { ledger } : {}),
		...(jobs && hasJobs(jobs) ? { ownJobs: { proved: jobs.proved, untested: jobs.untested } } : {}),
		...(instruments ? { instruments } : {}),
		service
	};
}

export const evidenceIn = (state: JobState, flow: FlowRun, upTo = Infinity): Evidence =>
	evidenceFor(state, flow.run.resolved, { self: flow, upTo });

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
