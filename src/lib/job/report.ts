import type { Caution } from '../flow/schema.ts';
import { normalOf, outcomesOf } from '../flow/evidence.ts';
import { nameOf } from '../flow/explain.ts';
import { expectedAt, printReading } from '../flow/reading.ts';
import { INSTRUMENTS } from '../flow/terms.ts';
import { printQuantity } from '../quantity/index.ts';
import { HISTORY, PART_WAS, RESULTS, SYMPTOM_NOW } from './events.ts';
import { contextOf, stateOf } from './run.ts';
import { factsOf, type Fact } from './shared-evidence.ts';
import { allRuns, own, type FlowRun, type JobState } from './state.ts';
import { heardWords, type TrailLine } from './trail.ts';

/** A line of the report. `open` marks what was not done or not proved: it is never shown as passed. */
export interface ReportLine {
	text: string;
	/** ISO date and time. */
	at?: string;
	reading?: string;
	/** What a sound set shows there. */
	expected?: string;
	meaning?: string;
	open?: true;
}

export interface ReportSection {
	id: 'first' | 'set' | 'complaint' | 'found' | 'changed' | 'proof' | 'not-done' | 'sums' | 'notes' | 'doubts' | 'cautions';
	title: string;
	lines: ReportLine[];
}

export interface Report {
	title: string;
	sections: ReportSection[];
}

const CODES_FIRST =
	'Local electrical codes and licensed practice come first. This report says what was seen and done at the bench; it does not certify that the set is safe.';

const NOT_TESTED = 'not tested';

function setLines({ intake, flows, earlier }: JobState): ReportLine[] {
	if (!intake) return [{ text: 'The set was never taken in: nothing is known of it.', open: true }];
	const plan = [...Object.values(flows), ...earlier][0]?.run.resolved.plan;
	const { mains, meter, instruments, history, playing } = intake;
	return [
		{ text: intake.title },
		...(plan ? [{ text: plan.title }] : []),
		{ text: playing ? 'It was running on full mains when it came in.' : 'It was not running when it came in.' },
		...history.map((word) => ({ text: `${HISTORY[word]}.` })),
		...(mains === undefined ? [] : [{ text: 'Mains on the day', reading: printQuantity(mains, 'V') }]),
		...(meter === undefined ? [] : [{ text: 'Meter on volts', reading: printQuantity(meter, 'ohm') }]),
		{ text: `On the bench: ${instruments.map((name) => INSTRUMENTS[name].toLowerCase()).join(', ') || 'no instruments'}.` }
	];
}

function complaintLines(state: JobState): ReportLine[] {
	const plan = Object.values(state.flows)[0]?.run.resolved.plan;
	const heard = state.intake && heardWords(state.intake.symptom, plan);
	const flows = Object.values(state.flows).map(({ run }) => ({ text: `Traced as: ${run.resolved.flow.title}` }));
	return [...(heard ? [{ text: `${heard}.` }] : []), ...flows];
}

function expectedWords(flow: FlowRun, { answer }: Fact, state: JobState): string | undefined {
	const { resolved } = flow.run;
	const step = resolved.steps[answer.step];
	if (!step) return undefined;
	const normal = normalOf(step);
	const label = 'outcomes' in step ? step.outcomes[normal]?.label : undefined;
	const volts = step.kind === 'measure' && step.measure === 'DC volts' ? expectedAt(resolved.plan, step.at, state.intake?.service) : undefined;
	if (!volts || step.kind !== 'measure') return label?.toLowerCase();
	return `about ${printReading(step, volts.value)} (${volts.basis === 'sheet' ? 'by its sheet' : 'typical of such sets'})`;
}

function foundLine(line: TrailLine, fact: Fact, state: JobState): ReportLine {
	const flow = allRuns(state).find((run) => run.flow === fact.flow && run.done.some(({ event }) => event.id === fact.event));
	const step = flow?.run.resolved.steps[fact.answer.step];
	const good = step && outcomesOf(step).includes(fact.answer.outcome) && fact.answer.outcome === normalOf(step);
	const expected = flow && !good ? expectedWords(flow, fact, state) : undefined;
	return {
		text: `${line.what}: ${line.answer ?? ''}`,
		at: line.at,
		...(line.reading ? { reading: line.reading } : {}),
		...(expected ? { expected } : {}),
		...(line.learnt ? { meaning: line.learnt } : {})
	};
}

/** Every answer that stands, in its order. */
function foundLines(state: JobState): ReportLine[] {
	const lines = new Map(state.trail.map((line) => [line.event, line]));
	return factsOf(state).flatMap((fact) => {
		const line = lines.get(fact.event);
		return line ? [foundLine(line, fact, state)] : [];
	});
}

/** Standing lines of one kind: neither undone nor refused. */
const linesOf = (state: JobState, ...kinds: TrailLine['kind'][]): TrailLine[] =>
	state.trail.filter((line) => kinds.includes(line.kind) && !line.undone && line.refused === undefined);

/** A change of a part with the proof that followed it, in its own flow. */
interface Change {
	line: TrailLine;
	proof: TrailLine | undefined;
	suspect: string | undefined;
}

function changesOf(state: JobState): Change[] {
	const changes = linesOf(state, 'part-changed');
	return changes.map((line) => {
		const after = state.trail.slice(state.trail.indexOf(line) + 1);
		const next = after.find((other) => other.kind === 'part-changed' && other.flow === line.flow && !other.undone);
		const until = next ? after.slice(0, after.indexOf(next)) : after;
		const proof = until.find(({ kind, flow, undone, refused }) => kind === 'proved' && flow === line.flow && !undone && refused === undefined);
		return { line, proof: line.flow === undefined ? undefined : proof, suspect: suspectBefore(state, line) };
	});
}

function suspectBefore(state: JobState, line: TrailLine): string | undefined {
	const before = state.trail.slice(0, state.trail.indexOf(line));
	const named = before.findLast(({ kind, flow, undone }) => kind === 'suspected' && flow === line.flow && !undone);
	return line.flow === undefined ? undefined : named?.what;
}

const changedLines = (state: JobState): ReportLine[] =>
	changesOf(state).map(({ line, proof, suspect }) => ({
		text: [line.what, line.answer].filter(Boolean).join('; '),
		at: line.at,
		meaning: [suspect, proof ? undefined : 'changed without proof'].filter(Boolean).join('; '),
		...(proof ? {} : { open: true as const })
	}));

/** What the log says of each proof, part by part. */
function proofLines(state: JobState): ReportLine[] {
	return allRuns(state).flatMap(({ run, done }) => {
		let suspect = '';
		return done.flatMap(({ event }): ReportLine[] => {
			if (event.kind === 'suspected') {
				const { suspect: id } = event.data;
				const placed = run.resolved.suspects.find((one) => one.id === id);
				suspect = placed ? nameOf(placed) : id;
			}
			if (event.kind !== 'proved') return [];
			const { symptom, partWas } = event.data;
			const open = symptom === 'cured' && partWas !== 'not-tested' ? {} : { open: true as const };
			return [{ text: `After ${suspect}: ${SYMPTOM_NOW[symptom]}`, meaning: PART_WAS[partWas], at: event.at, ...open }];
		});
	});
}

function flowLine({ run }: FlowRun): ReportLine[] {
	const { title } = run.resolved.flow;
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
				.map(({ step, reason }): ReportLine => ({ text: `${title(step)}: ${NOT_TESTED}`, meaning: reason, open: true })),
			...skipped
				.filter((step) => !answered.has(step))
				.map((step): ReportLine => ({ text: `${title(step)}: ${NOT_TESTED}`, meaning: 'put off and not taken up again', open: true }))
		];
	});
}

/** Bands that were complained of and not heard again since the last change of a part. */
function unheardBands(state: JobState): ReportLine[] {
	const last = changesOf(state).at(-1);
	const resolved = Object.values(state.flows)[0]?.run.resolved;
	if (!last || !resolved || !state.intake) return [];
	const since = new Set(state.trail.slice(state.trail.indexOf(last.line) + 1).map(({ event }) => event));
	const heard = factsOf(state).filter(({ event }) => since.has(event)).map(({ answer }) => resolved.steps[answer.step]);
	const proved = last.proof?.answer?.startsWith(SYMPTOM_NOW.cured) ?? false;
	const complained = new Set(Object.entries(state.intake.symptom).filter(([, what]) => what !== 'good').map(([band]) => band));
	return Object.entries(resolved.plan.bands)
		.filter(([band]) => !heard.some((step) => step?.kind === 'listen' && step.band === band))
		.filter(([band]) => !(proved && complained.has(band)))
		.map(([, { title }]) => ({ text: `${title} after the last change: ${NOT_TESTED}`, open: true }));
}

function notDoneLines(state: JobState): ReportLine[] {
	const unproved = changesOf(state)
		.filter(({ proof }) => !proof)
		.map(({ line }): ReportLine => ({ text: `${line.what}: ${NOT_TESTED} afterwards`, open: true }));
	const safety: ReportLine = { text: `Exposed metal and insulation of the finished set: ${NOT_TESTED} unless an entry above says so`, open: true };
	return [...Object.values(state.flows).flatMap(flowLine), ...leftOut(state), ...unproved, ...unheardBands(state), safety];
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

function resultLine({ closed }: JobState): ReportLine {
	if (!closed) return { text: 'The job is not closed.', open: true };
	const open = closed.result === 'mended' ? {} : { open: true as const };
	return { text: `Result: ${RESULTS[closed.result]}`, ...(closed.note ? { meaning: closed.note } : {}), ...open };
}

/** The job in plain words, ready to be laid out: nothing here is markup, nothing undone is told. */
export function reportOf(state: JobState): Report {
	const doubts = state.warnings.map(({ message }): ReportLine => ({ text: message, open: true }));
	const sections: ReportSection[] = [
		{ id: 'first', title: 'Before anything else', lines: [{ text: CODES_FIRST }] },
		{ id: 'set', title: 'The set', lines: setLines(state) },
		{ id: 'complaint', title: 'The complaint', lines: complaintLines(state) },
		{ id: 'found', title: 'What was found', lines: foundLines(state) },
		{ id: 'changed', title: 'What was changed', lines: changedLines(state) },
		{ id: 'proof', title: 'Proof', lines: [...proofLines(state), resultLine(state)] },
		{ id: 'not-done', title: 'What was not done', lines: notDoneLines(state) },
		{ id: 'sums', title: 'Sums', lines: plainLines(linesOf(state, 'calculated')) },
		{ id: 'notes', title: 'Notes', lines: plainLines(linesOf(state, 'noted')) },
		{ id: 'doubts', title: 'To look at again', lines: doubts },
		{ id: 'cautions', title: 'Cautions', lines: cautionLines(state) }
	];
	const title = state.intake?.title ?? 'A set not yet taken in';
	return { title, sections: sections.filter(({ lines }) => lines.length > 0) };
}
