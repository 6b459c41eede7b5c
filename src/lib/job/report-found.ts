import { normalOf, outcomesOf } from '../flow/evidence.ts';
import { expectedAt, printReading, type Basis } from '../flow/reading.ts';
import { linesOf, type ReportLine } from './report-lines.ts';
import { factsOf, type Fact } from './shared-evidence.ts';
import { allRuns, type FlowRun, type JobState } from './state.ts';
import { type TrailLine } from './trail.ts';
import { lowerFirst } from './words.ts';

const SOUND: Readonly<Record<Basis, string>> = {
	sheet: 'by its sheet',
	typical: 'typical of such sets',
	'valve-data': 'from valve data, wide limits'
};

function expectedWords(flow: FlowRun, { answer }: Fact, state: JobState): string | undefined {
	const { resolved } = flow.run;
	const step = resolved.steps[answer.step];
	if (!step) return undefined;
	const normal = normalOf(step);
	const label = 'outcomes' in step ? step.outcomes[normal]?.label : undefined;
	const volts =
		step.kind === 'measure' && step.measure === 'DC volts'
			? expectedAt(resolved.plan, step.at, state.service, answer.ht)
			: undefined;
	if (!volts || step.kind !== 'measure') return label && lowerFirst(label);
	return `about ${printReading(step, volts.value)} (${SOUND[volts.basis]})`;
}

/** A line of what was found, with the event and the word that it came from. */
export type FoundLine = ReportLine & { event?: string; answer?: string };

function foundLine(line: TrailLine, fact: Fact, state: JobState, always: boolean): FoundLine {
	const flow = allRuns(state).find(
		(run) => run.flow === fact.flow && run.done.some(({ event }) => event.id === fact.event)
	);
	const step = flow?.run.resolved.steps[fact.answer.step];
	const good =
		step && outcomesOf(step).includes(fact.answer.outcome) && fact.answer.outcome === normalOf(step);
	const expected = flow && (always || !good) ? expectedWords(flow, fact, state) : undefined;
	return {
		event: line.event,
		text: `${line.what}${line.what.endsWith('?') ? '' : ':'} ${line.answer ?? ''}`,
		at: line.at,
		...(line.answer ? { answer: line.answer } : {}),
		...(line.reading ? { reading: line.reading } : {}),
		...(expected ? { expected } : {}),
		...(line.learnt ? { meaning: line.learnt } : {})
	};
}

/** Parts tested outside the proof of a flow. */
const testedLines = (state: JobState): ReportLine[] =>
	linesOf(state, 'part-tested').map(({ what, answer, at }) => ({ text: `${what}: ${answer ?? ''}`, at }));

/**
 * Every answer that stands, in its order, then the parts that were tested.
 *
 * @param always say what a sound set shows beside every answer, beside those too that are as in a sound set
 */
export function foundLines(state: JobState, always = false): FoundLine[] {
	const lines = new Map(state.trail.map((line) => [line.event, line]));
	const found = factsOf(state).flatMap((fact) => {
		const line = lines.get(fact.event);
		return line ? [foundLine(line, fact, state, always)] : [];
	});
	return [...found, ...testedLines(state)];
}
