import { normalOf } from '../flow/evidence.ts';
import type { Step } from '../flow/schema.ts';
import { linesOf, NOT_TESTED, type ReportLine } from './report-lines.ts';
import { factsOf, type Fact } from './shared-evidence.ts';
import { allRuns, type JobState } from './state.ts';

/** Steps of the safety test in the flows of this job, by id; none where no such flow was opened. */
function safetySteps(state: JobState): Map<string, Step> {
	const steps = allRuns(state).flatMap(({ run }) => Object.entries(run.resolved.steps));
	return new Map(steps.filter(([, { safety }]) => safety));
}

/** Entries after which a set has to be tested anew. */
const changedAfter = (state: JobState, event: string): boolean => {
	const at = state.trail.findIndex((line) => line.event === event);
	return linesOf(state, 'part-changed').some((line) => state.trail.indexOf(line) > at);
};

function safetyLine(title: string, step: Step, fact: Fact | undefined, state: JobState): ReportLine {
	if (!fact) return { text: `${title}: ${NOT_TESTED}`, open: true };
	const { outcome } = fact.answer;
	const told = 'outcomes' in step ? (step.outcomes[outcome]?.label ?? outcome) : outcome;
	const at = state.trail.find(({ event }) => event === fact.event)?.at;
	const when = at === undefined ? {} : { at };
	if (outcome !== normalOf(step)) return { text: `${title}: not passed`, meaning: told, ...when, open: true };
	if (fact.answer.sure === false)
		return { text: `${title}: ${NOT_TESTED}`, meaning: `${told}, but not for sure`, ...when, open: true };
	if (changedAfter(state, fact.event))
		return {
			text: `${title}: ${NOT_TESTED} since a part was changed`,
			meaning: `before that: ${told}`,
			...when,
			open: true
		};
	return { text: `${title}: passed`, meaning: told, ...when };
}

/** Each part of the closing safety test as passed, not passed or not tested; nothing passes by being left out. */
export function safetyLines(state: JobState): ReportLine[] {
	const steps = safetySteps(state);
	if (steps.size === 0)
		return [{ text: `Exposed metal and insulation of the finished set: ${NOT_TESTED}`, open: true }];
	const facts = factsOf(state);
	return [...steps].map(([id, step]) =>
		safetyLine(
			step.title,
			step,
			facts.findLast(({ answer }) => answer.step === id),
			state
		)
	);
}
