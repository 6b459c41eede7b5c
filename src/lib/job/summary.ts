import { nameOf } from '../flow/explain.ts';
import { standings } from '../flow/trace.ts';
import { standingWord } from '../suspects/index.ts';
import type { JobEvent } from './events.ts';
import { describedRow, rowOf, type Description, type JobRow } from './row.ts';
import { traceIn } from './shared-evidence.ts';
import { openRun, type JobState } from './state.ts';
import { contextOf, stateOf } from './run.ts';
import { stepOfState } from '../flow/compile.ts';
import { complaintWords } from './words.ts';

/** How many suspects the list names. */
const LEADING = 3;

/** The step in hand, or the one that was answered last. */
function lastStepOf(state: JobState): string | undefined {
	const flow = openRun(state);
	if (!flow) return undefined;
	const { answers, wanted } = contextOf(flow.run);
	const id = stepOfState(stateOf(flow.run)) ?? wanted ?? answers.at(-1)?.step;
	return id === undefined ? undefined : flow.run.resolved.steps[id]?.title;
}

/** Suspects that are at least in question, the likeliest first, each with its word. */
function leadingOf(state: JobState): JobRow['leading'] {
	const now = state.open === undefined ? undefined : traceIn(state, state.open);
	if (!now) return [];
	return standings(now)
		.map(({ placed, probability }) => ({ name: nameOf(placed), word: standingWord(probability) }))
		.filter(({ word }) => word !== 'unlikely' && word !== 'nearly cleared')
		.slice(0, LEADING);
}

/** What the list says of a job besides what each append keeps up. */
export function describe(state: JobState): Description {
	const lastStep = lastStepOf(state);
	const plan = openRun(state)?.run.resolved.plan;
	return {
		complaint: state.intake ? complaintWords(state.intake, plan) : '',
		power: state.power.now,
		leading: leadingOf(state),
		...(lastStep === undefined ? {} : { lastStep })
	};
}

/** The whole row, from the events and the state that they play to. */
export const summaryOf = (events: readonly JobEvent[], state: JobState): JobRow =>
	describedRow(rowOf(events), describe(state));
