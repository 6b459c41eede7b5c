import { SYMPTOM_NOW } from './events.ts';
import { changesOf } from './report-changes.ts';
import { NOT_TESTED, type ReportLine } from './report-lines.ts';
import { contextOf, stateOf } from './run.ts';
import { factsOf } from './shared-evidence.ts';
import { allRuns, type FlowRun, type JobState } from './state.ts';

/** Steps of a procedure that were neither answered nor said to be impossible, with their titles. */
function stepsLeft({ run }: FlowRun, answered: ReadonlySet<string>): ReportLine[] {
	const { flow, steps } = run.resolved;
	const { skipped, unavailable } = contextOf(run);
	const told = new Set([...answered, ...skipped, ...unavailable.map(({ step }) => step)]);
	return Object.entries(steps)
		.filter(([id]) => !told.has(id))
		.map(([, { title }]) => ({ text: `${flow.title}, ${title}: ${NOT_TESTED}`, open: true }));
}

function flowLine(flowRun: FlowRun, answered: ReadonlySet<string>): ReportLine[] {
	const { run } = flowRun;
	const { title, procedure } = run.resolved.flow;
	if (procedure) return stepsLeft(flowRun, answered);
	if (stateOf(run) === 'cured') return [];
	const words = stateOf(run) === 'unresolved' ? 'left unresolved' : 'the trace was not finished';
	return [{ text: `${title}: ${words}`, open: true }];
}

function leftOut(state: JobState): ReportLine[] {
	const answered = new Set(factsOf(state).map(({ answer }) => answer.step));
	return allRuns(state).flatMap(({ run }) => {
		const { steps } = run.resolved;
		const title = (step: string) => steps[step]?.title ?? step;
		const { skipped, unavailable } = contextOf(run);
		return [
			...unavailable
				.filter(({ step }) => !answered.has(step))
				.map(({ step, reason }): ReportLine => ({
					text: `${title(step)}: ${NOT_TESTED}`,
					meaning: reason,
					open: true
				})),
			...skipped
				.filter((step) => !answered.has(step))
				.map((step): ReportLine => ({
					text: `${title(step)}: ${NOT_TESTED}`,
					meaning: 'put off and not taken up again',
					open: true
				}))
		];
	});
}

/** Bands that were complained of and not heard again since the last change of a part. */
function unheardBands(state: JobState): ReportLine[] {
	const last = changesOf(state).at(-1);
	const resolved = Object.values(state.flows)[0]?.run.resolved;
	if (!last || !resolved || !state.intake) return [];
	const since = new Set(state.trail.slice(state.trail.indexOf(last.line) + 1).map(({ event }) => event));
	const heard = factsOf(state)
		.filter(({ event }) => since.has(event))
		.map(({ answer }) => resolved.steps[answer.step]);
	const listened = state.heard.filter(({ event }) => since.has(event));
	const proved = last.proof?.answer?.startsWith(SYMPTOM_NOW.cured) ?? false;
	const complained = new Set(
		Object.entries(state.intake.symptom)
			.filter(([, what]) => what !== 'good')
			.map(([band]) => band)
	);
	return Object.entries(resolved.plan.bands)
		.filter(([band]) => !listened.some(({ bands }) => bands[band] !== undefined))
		.filter(([band]) => !heard.some((step) => step?.kind === 'listen' && step.band === band))
		.filter(([band]) => !(proved && complained.has(band)))
		.map(([, { title }]) => ({ text: `${title} after the last change: ${NOT_TESTED}`, open: true }));
}

export function notDoneLines(state: JobState): ReportLine[] {
	const unproved = changesOf(state)
		.filter(({ proof }) => !proof)
		.map(({ line }): ReportLine => ({ text: `${line.what}: ${NOT_TESTED} afterwards`, open: true }));
	const answered = new Set(factsOf(state).map(({ answer }) => answer.step));
	return [
		...Object.values(state.flows).flatMap((flow) => flowLine(flow, answered)),
		...leftOut(state),
		...unproved,
		...unheardBands(state)
	];
}
