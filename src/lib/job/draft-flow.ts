import { labelOf } from '../flow/evidence.ts';
import { flowText, TODO, type SketchedFlow } from '../flow/flow-text.ts';
import type { Library } from '../flow/library.ts';
import { partingSteps } from '../flow/parting.ts';
import { printReading } from '../flow/reading.ts';
import { asLoaded } from '../flow/skeleton.ts';
import { standings, trace } from '../flow/trace.ts';
import { factsOf, proofsIn, type Fact, type Proof } from './shared-evidence.ts';
import { allRuns, own, type FlowRun, type JobState } from './state.ts';

/** So many suspects beside the cause: those that the complaint made likeliest before any answer. Our own choice. */
const BESIDE = 7;

export type DraftFlow = { ok: true; id: string; text: string } | { ok: false; hint: string };

/** The part whose change cured the set, if the job says so; else the part that came out bad last. */
const causeOf = (state: JobState): Proof | undefined => {
	const proofs = proofsIn(state);
	return proofs.findLast(({ curedBy }) => curedBy) ?? proofs.findLast(({ was }) => was === 'bad');
};

/** A suspect as a flow names it: by itself in this library, else nothing. */
function keyIn(library: Library, id: string): string | undefined {
	const [family = id] = id.split('@');
	return Object.hasOwn(library.suspects, family) ? id : undefined;
}

/** An answer in words, with its reading. */
function remarkOf(state: JobState, { flow, answer }: Fact): string {
	const step = allRuns(state).find((run) => run.flow === flow)?.run.resolved.steps[answer.step];
	if (!step) return answer.outcome;
	const measured = answer.reading !== undefined && step.kind === 'measure';
	return [labelOf(step, answer.outcome), measured ? printReading(step, answer.reading ?? 0) : '']
		.filter(Boolean)
		.join(': ');
}

/** Steps in the order in which they were answered, each once, with the answer that stood last. */
function stepsOf(state: JobState): { id: string; remark: string }[] {
	const facts = factsOf(state);
	const last = new Map(facts.map((fact) => [fact.answer.step, fact]));
	return [...last].map(([id, fact]) => ({ id, remark: remarkOf(state, fact) }));
}

/** What else the complaint made likely, so that the draft has something to tell the cause from. */
function besideOf(library: Library, { run }: FlowRun, cause: string): string[] {
	const [family] = cause.split('@');
	return standings(trace(run.resolved, { answers: [], mended: [] }))
		.filter(({ placed, id }) => placed?.named && placed.family !== family && keyIn(library, id) !== undefined)
		.slice(0, BESIDE)
		.map(({ id }) => id);
}

function sketch(library: Library, state: JobState, flow: FlowRun, cause: string): SketchedFlow {
	const { intake } = state;
	const answered = stepsOf(state);
	const shared = answered.filter(({ id }) => Object.hasOwn(library.steps, id));
	const alone = answered.filter(({ id }) => !Object.hasOwn(library.steps, id));
	const id = `draft-${cause.replaceAll('@', '-')}`;
	const base = {
		id,
		title: `${TODO} the complaint, as people tell it`,
		head: [
			`Made from a job on the flow "${flow.flow}". The cause was ${cause}.`,
			...alone.map(
				({ id: step, remark }) =>
					`"${step}" (${remark}) is a step of that flow alone: to use it, move it to flows/shared/steps/.`
			)
		],
		about: `${TODO} say in two or three sentences what the set does, what that clears, and what is looked at first.`,
		symptom: intake?.symptom ?? {},
		signs: intake?.signs ?? [],
		bands: [],
		suspects: [
			{
				key: cause,
				common: 'common',
				note: `${TODO} the cause in this job. How common is it in others? Then take this note out.`
			},
			...besideOf(library, flow, cause).map((key) => ({
				key,
				common: 'occasional',
				note: `${TODO} suspected at first in this job. Keep it or strike it, then take this note out.`
			}))
		]
	};
	const { uses, left } = partingSteps(
		library,
		asLoaded(
			base,
			shared.map(({ id: step }) => step)
		)
	);
	const remarks = new Map(shared.map(({ id: step, remark }) => [step, remark]));
	return {
		...base,
		opening: shared.map(({ id: step }) => step),
		uses: uses.map((step) => ({
			id: step,
			...(remarks.has(step) ? { remark: remarks.get(step) ?? '' } : {})
		})),
		unparted: left
	};
}

/**
 * The file of a flow to begin with, from a job whose cause was found: its complaint, its steps in the order taken, each with
 * its answer or reading as a remark, its cause, and a mark at all that is left to write.
 */
export function draftFlow(library: Library, state: JobState): DraftFlow {
	const cause = causeOf(state);
	const flow = cause && (cause.curedBy ?? own(state.flows, cause.flow));
	if (!cause || !flow)
		return { ok: false, hint: 'This job has no cause yet: a draft is made once a repair has cured the set.' };
	const key = keyIn(library, cause.suspect);
	if (key === undefined)
		return {
			ok: false,
			hint: `The cause, "${cause.suspect}", is not a suspect that flows share; add it to flows/shared/suspects/ first.`
		};
	const made = sketch(library, state, flow, key);
	if (!Object.keys(made.symptom).length && !made.signs.length)
		return {
			ok: false,
			hint: 'The intake says neither what is heard nor what is noticed, so nothing would lead to the flow.'
		};
	return { ok: true, id: made.id, text: flowText(made) };
}
