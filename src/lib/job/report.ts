import type { Caution } from '../flow/schema.ts';
import { INSTRUMENTS } from '../flow/terms.ts';
import { printQuantity } from '../quantity/index.ts';
import { HISTORY } from './events.ts';
import { causeLines, changedLines, proofLines, resultLine } from './report-changes.ts';
import { foundLines } from './report-found.ts';
import { hindsightLines } from './report-hindsight.ts';
import { linesOf, type ReportLine, type ReportSection } from './report-lines.ts';
import { partLines } from './report-parts.ts';
import { notDoneLines } from './report-not-done.ts';
import { contextOf } from './run.ts';
import { allRuns, own, type JobState } from './state.ts';
import { readingsTable } from './report-readings.ts';
import { surveyLines } from './report-survey.ts';
import { safetyLines } from './report-safety.ts';
import { type TrailLine } from './trail.ts';
import { complaintWords, lowerFirst } from './words.ts';

export type { ReportSection } from './report-lines.ts';

export interface Report {
	title: string;
	/** The bench sheet; the owner's page is `report-owner.ts`. */
	sections: ReportSection[];
}

const CODES_FIRST =
	'Local electrical codes and licensed practice come first. This report says what was seen and done at the bench; it does not certify that the set is safe.';

function setLines({ intake, flows, earlier }: JobState): ReportLine[] {
	if (!intake) return [{ text: 'The set was never taken in: nothing is known of it.', open: true }];
	const plan = [...Object.values(flows), ...earlier][0]?.run.resolved.plan;
	const { mains, meter, instruments, history, playing } = intake;
	return [
		{ text: intake.title },
		...(plan && plan.title !== intake.title ? [{ text: plan.title }] : []),
		{
			text: playing ? 'It was running on full mains when it came in.' : 'It was not running when it came in.'
		},
		...history.map((word) => ({ text: `${HISTORY[word]}.` })),
		...(mains === undefined ? [] : [{ text: 'Mains on the day', reading: printQuantity(mains, 'V') }]),
		...(meter === undefined ? [] : [{ text: 'Meter on volts', reading: printQuantity(meter, 'ohm') }]),
		{
			text: `On the bench: ${instruments.map((name) => lowerFirst(INSTRUMENTS[name])).join(', ') || 'no instruments'}.`
		}
	];
}

function complaintLines(state: JobState): ReportLine[] {
	const plan = Object.values(state.flows)[0]?.run.resolved.plan;
	const heard = state.intake && complaintWords(state.intake, plan);
	const flows = Object.values(state.flows).map(({ run }) => ({
		text: `${run.resolved.flow.procedure ? 'Worked through' : 'Traced as'}: ${run.resolved.flow.title}`
	}));
	const later = linesOf(state, 'heard').map(({ what, answer, at }) => ({
		text: `${what}: ${answer ?? ''}.`,
		at
	}));
	return [...(heard ? [{ text: `${heard}.` }] : []), ...flows, ...later];
}

const plainLines = (lines: readonly TrailLine[]): ReportLine[] =>
	lines.map(({ what, answer, at }) => ({ text: what, at, ...(answer ? { meaning: answer } : {}) }));

/** Cautions of the steps taken, of the parts changed, and of the power states that the set was in. */
function cautionLines(state: JobState): ReportLine[] {
	const cautions = new Map<string, Caution>();
	for (const flow of allRuns(state)) {
		const { steps, suspects } = flow.run.resolved;
		const powers = new Set<string>(contextOf(flow.run).answers.map(({ power }) => power));
		const named = new Set(
			flow.done.flatMap(({ event }) => {
				if (event.kind === 'answered') return own(steps, event.data.step)?.cautions ?? [];
				if (event.kind !== 'suspected') return [];
				const { suspect } = event.data;
				return suspects.find(({ id }) => id === suspect)?.suspect.cautions ?? [];
			})
		);
		for (const [id, caution] of Object.entries(flow.library.cautions))
			if (named.has(id) || caution.covers.some((power) => powers.has(power))) cautions.set(id, caution);
	}
	return [...cautions.values()].map(({ title, text }) => ({ text: title, meaning: text }));
}

/** The job in plain words, ready to be laid out: nothing here is markup, nothing undone is told. */
export function reportOf(state: JobState): Report {
	const doubts = state.warnings.map(({ message }): ReportLine => ({ text: message, open: true }));
	const readings = readingsTable(state);
	const sections: ReportSection[] = [
		{ id: 'first', title: 'Before anything else', lines: [{ text: CODES_FIRST }] },
		{ id: 'set', title: 'The set', lines: setLines(state) },
		{ id: 'complaint', title: 'The complaint', lines: complaintLines(state) },
		...(readings ? [{ id: 'readings', title: 'Readings', lines: [], table: readings }] : []),
		{ id: 'survey', title: 'Voltage survey', lines: surveyLines(state) },
		{ id: 'found', title: 'What was found', lines: foundLines(state) },
		{ id: 'changed', title: 'What was changed', lines: [...changedLines(state), ...causeLines(state)] },
		{ id: 'parts', title: 'The parts', lines: partLines(state) },
		{ id: 'proof', title: 'Proof', lines: [...proofLines(state), resultLine(state)] },
		{ id: 'safety', title: 'Closing safety test', lines: safetyLines(state) },
		{ id: 'hindsight', title: 'Looking back', lines: hindsightLines(state) },
		{ id: 'not-done', title: 'What was not done', lines: notDoneLines(state) },
		{ id: 'sums', title: 'Sums', lines: plainLines(linesOf(state, 'calculated')) },
		{ id: 'notes', title: 'Notes', lines: plainLines(linesOf(state, 'noted')) },
		{ id: 'doubts', title: 'To look at again', lines: doubts },
		{ id: 'cautions', title: 'Cautions', lines: cautionLines(state) }
	];
	const title = state.intake?.title ?? 'A set not yet taken in';
	return { title, sections: sections.filter(({ lines, table }) => table || lines.length > 0) };
}
