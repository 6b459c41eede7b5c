import { doubtsOf, type Doubt } from '../flow/doubt.ts';
import { labelOf } from '../flow/evidence.ts';
import { answerText, nameOf } from '../flow/explain.ts';
import { strongestFor } from '../suspects/index.ts';
import { lastProof } from './after-repair.ts';
import { stepPower } from './run.ts';
import { factsOf, proofsIn, traceIn, type Fact } from './shared-evidence.ts';
import { openRun, own, type FlowRun, type JobState } from './state.ts';

/**
 * What in a job does not go together, in words for the page: answers that fit badly, one step answered in two ways, a
 * part that proved good against the answers, two benches that found different things.
 */

export interface JobDoubt {
	kind: Doubt['kind'] | 'answered-twice' | 'part-was-good' | 'two-benches';
	sentence: string;
	/** The step to take again first. */
	repeat?: Doubt['repeat'];
	/** Answers of which one is to stand: the event of each, in words. */
	keep?: { step: string; answers: { event: string; text: string }[] };
}

const titleOf = (flow: FlowRun, step: string) => flow.run.resolved.steps[step]?.title ?? step;

function labelIn(flow: FlowRun, { answer }: Fact): string {
	const step = flow.run.resolved.steps[answer.step];
	const label = step ? labelOf(step, answer.outcome) : answer.outcome;
	return answer.typed === undefined ? `"${label}"` : `"${label}" (${answer.typed})`;
}

/** Steps answered twice in different ways with no change of a part between: the later answer counts. */
function answeredTwice(state: JobState, flow: FlowRun): JobDoubt[] {
	const facts = factsOf(state).filter(({ answer }) => Object.hasOwn(flow.run.resolved.steps, answer.step));
	const proofs = proofsIn(state);
	return facts.flatMap((later, index): JobDoubt[] => {
		const earlier = facts.slice(0, index).findLast(({ answer }) => answer.step === later.answer.step);
		const isLast = !facts.slice(index + 1).some(({ answer }) => answer.step === later.answer.step);
		if (!earlier || !isLast || earlier.answer.outcome === later.answer.outcome) return [];
		if (proofs.some(({ order }) => order > earlier.order && order < later.order)) return [];
		return [
			{
				kind: 'answered-twice',
				sentence: `"${titleOf(flow, later.answer.step)}" was answered twice: first ${labelIn(flow, earlier)}, then ${labelIn(flow, later)}. The later answer counts. If the set shows now the one and now the other, the fault comes and goes.`
			}
		];
	});
}

/** A part came out good and the symptom stays: the answer that spoke for it most is to be taken again. */
function partWasGood(state: JobState, flow: FlowRun): JobDoubt[] {
	const proof = lastProof(state);
	if (proof?.was !== 'good' || proof.symptom === 'cured') return [];
	// By the answers that led to the change; those given since do not take the blame.
	const trace = traceIn(state, flow.flow, proof.order - 1);
	const index = trace?.ids.indexOf(proof.suspect) ?? -1;
	if (!trace || index < 0) return [];
	const rows = trace.answers.map(({ likelihood }) => likelihood);
	const told = trace.answers[strongestFor(trace.entry, rows, index)];
	const since = factsOf(state).some(
		({ order, answer }) => order > proof.order && answer.step === told?.answer.step
	);
	if (!told || since) return [];
	const { step, answer } = told;
	return [
		{
			kind: 'part-was-good',
			sentence: `"${nameOf(trace.resolved.suspects[index])}" proved good, and the symptom stays. This answer had spoken for it most: ${answerText(told)}. Take it again.`,
			repeat: { step: answer.step, title: step.title, minutes: step.minutes }
		}
	];
}

function twoBenches(state: JobState, flow: FlowRun): JobDoubt[] {
	const facts = new Map(factsOf(state).map((fact) => [fact.event, fact]));
	return state.contradictions
		.filter(({ step }) => own(flow.run.resolved.steps, step) !== undefined)
		.map(({ step, answers }) => ({
			kind: 'two-benches',
			sentence: `"${titleOf(flow, step)}" was answered on two benches apart from each other, and not alike. The later answer counts until you say which stands.`,
			keep: {
				step,
				answers: answers.flatMap((event) => {
					const fact = facts.get(event);
					return fact ? [{ event, text: labelIn(flow, fact) }] : [];
				})
			}
		}));
}

/** All doubts about the open flow, those first that a person has to settle. */
export function jobDoubts(state: JobState): JobDoubt[] {
	const flow = openRun(state);
	const trace = flow && traceIn(state, flow.flow);
	if (!flow || !trace) return [];
	const own = [...twoBenches(state, flow), ...partWasGood(state, flow), ...answeredTwice(state, flow)];
	const named = new Set(own.flatMap(({ repeat }) => (repeat ? [repeat.step] : [])));
	const fits = doubtsOf(trace, stepPower(state.power.now)).filter(
		({ repeat }) => !repeat || !named.has(repeat.step)
	);
	return [...own, ...fits];
}
