import { SECTIONS, stagesOn, type SectionId } from '../receiver/index.ts';
import { outcomeLikelihood, posterior, softOutcome, TRUST, withoutExplained } from '../suspects/index.ts';
import { entryLikelihood, stepTable, type StepTable } from './evidence.ts';
import { expectedAt, judgeReading, type ServiceVolts } from './reading.ts';
import type { PlacedSuspect, ResolvedFlow } from './resolve.ts';
import type { Step } from './schema.ts';
import type { Instrument } from './terms.ts';

/** "Something not listed here" starts at this share. Reasoning reference 4.1 (0.03 to 0.05). */
const NOT_LISTED_SHARE = 0.04;
export const NOT_LISTED = 'not-listed';

export interface TraceAnswer {
	step: string;
	outcome: string;
	/** Base units: volts, ohms, amperes. */
	reading?: number;
	/** Which of the step's ways was taken; the first that the bench allows, if not said. */
	way?: number;
}

/** A repair that did not cure, and whether the part that came out was bad. */
export interface Mended {
	suspect: string;
	was: 'bad' | 'good' | 'not-tested';
	/** How many answers stood when the repair was proved. */
	after: number;
}

/** What a trace knows: plain data, the same after any replay. */
export interface Evidence {
	answers: readonly TraceAnswer[];
	mended: readonly Mended[];
	/** What stands on the bench; left out: everything. */
	instruments?: readonly Instrument[];
	service?: ServiceVolts;
}

export interface Standing {
	id: string;
	/** The placed suspect; undefined for "something not listed". */
	placed: PlacedSuspect | undefined;
	section: SectionId | undefined;
	probability: number;
}

/** One answer brought to numbers. */
export interface WeighedAnswer {
	answer: TraceAnswer;
	step: Step;
	table: StepTable;
	/** P(this answer | hypothesis), in the order of the trace. */
	likelihood: number[];
}

export interface Trace {
	resolved: ResolvedFlow;
	/** Hypotheses: the flow's placed suspects, and last "not listed". */
	ids: string[];
	/** Weights by the flow's words alone, scaled to one. */
	words: number[];
	/** The same after the complaint itself. */
	entry: number[];
	answers: WeighedAnswer[];
	now: number[];
}

/** The way that the bench allows best; `undefined` where it allows none. */
export function bestWay(step: Step, instruments: readonly Instrument[] | undefined): number | undefined {
	const open = step.ways
		.map((way, index) => ({
			index,
			trust: TRUST[way.trust],
			free: !instruments || way.needs.every((n) => instruments.includes(n))
		}))
		.filter(({ free }) => free)
		.sort((a, b) => b.trust - a.trust || a.index - b.index);
	return open[0]?.index;
}

function weighAnswer(
	resolved: ResolvedFlow,
	answer: TraceAnswer,
	evidence: Evidence
): WeighedAnswer | undefined {
	const step = resolved.steps[answer.step];
	if (!step) return undefined;
	const way = step.ways[answer.way ?? bestWay(step, evidence.instruments) ?? 0];
	const table = stepTable(resolved, step, way?.trust ?? 'full');
	const index = table.outcomes.indexOf(answer.outcome);
	if (index < 0) return undefined;
	if (step.kind === 'measure' && answer.reading !== undefined) {
		const judged = judgeReading(step, answer.reading, expectedAt(resolved.plan, step.at, evidence.service));
		if (judged?.outcome === answer.outcome)
			return { answer, step, table, likelihood: softOutcome(table.table, judged.membership) };
	}
	return { answer, step, table, likelihood: outcomeLikelihood(table.table, index) };
}

/** The last answer of each step counts; earlier ones to the same step are corrections. */
const latest = (answers: readonly TraceAnswer[]): TraceAnswer[] => [
	...new Map(answers.map((answer) => [answer.step, answer])).values()
];

/**
 * What still counts after repairs that did not cure. Where the part that came out was really bad, a second fault is at
 * work: the bad answers that the part explains go, and their steps may be asked again.
 */
function stillCounting(
	weighed: readonly WeighedAnswer[],
	evidence: Evidence,
	ids: readonly string[]
): WeighedAnswer[] {
	const given = new Map(evidence.answers.map((answer, index) => [answer, index]));
	const dropped = evidence.mended
		.filter(({ was }) => was === 'bad')
		.flatMap(({ suspect, after }) => {
			const before = weighed.filter(({ answer }) => (given.get(answer) ?? 0) < after);
			return withoutExplained(before.map(judged), ids.indexOf(suspect)).dropped.map((index) => before[index]);
		});
	return weighed.filter((one) => !dropped.includes(one));
}

const judged = ({ answer, table }: WeighedAnswer) => ({
	bad: answer.outcome !== table.normal,
	badGiven: table.table.map((row) => 1 - (row[table.outcomes.indexOf(table.normal)] ?? 0))
});

const scale = (weights: readonly number[]) => {
	const sum = weights.reduce((a, b) => a + b, 0);
	return weights.map((w) => (sum > 0 ? w / sum : 0));
};

/** Bring a flow, a set and all that has been answered to standings. Pure: the order of answers is irrelevant. */
export function trace(resolved: ResolvedFlow, evidence: Evidence): Trace {
	const ids = [...resolved.suspects.map(({ id }) => id), NOT_LISTED];
	const named = scale(resolved.suspects.map(({ weight }) => weight)).map((w) => w * (1 - NOT_LISTED_SHARE));
	const words = [...named, NOT_LISTED_SHARE];
	const entry = posterior(words, [entryLikelihood(resolved)]);
	const mended = new Set(evidence.mended.map(({ suspect }) => suspect));
	const weighed = latest(evidence.answers).flatMap((answer) => weighAnswer(resolved, answer, evidence) ?? []);
	const answers = stillCounting(weighed, evidence, ids);
	const left = entry.map((weight, index) => (mended.has(ids[index] ?? '') ? 0 : weight));
	const now = posterior(
		left,
		answers.map(({ likelihood }) => likelihood)
	);
	return { resolved, ids, words, entry, answers, now };
}

/** All hypotheses, the likeliest first; equals by id, so that the same trail shows the same list. */
export function standings({ resolved, ids, now }: Trace): Standing[] {
	return ids
		.map((id, index) => {
			const placed = resolved.suspects[index];
			return { id, placed, section: placed?.section, probability: now[index] ?? 0 };
		})
		.sort((a, b) => b.probability - a.probability || a.id.localeCompare(b.id));
}

/** Share of each section, every section of the plan's suspects included. */
export function sectionStandings(trace: Trace, weights = trace.now): Partial<Record<SectionId, number>> {
	return sumBy(trace, weights, ({ section }) => section);
}

function sumBy<Key extends string>(
	trace: Trace,
	weights: readonly number[],
	keyOf: (placed: PlacedSuspect) => Key
) {
	const sums: Partial<Record<Key, number>> = {};
	trace.resolved.suspects.forEach((placed, index) => {
		const key = keyOf(placed);
		sums[key] = (sums[key] ?? 0) + (weights[index] ?? 0);
	});
	return sums;
}

/** Cleared: under 2 %, and because answers lowered it at least fivefold. */
const isCleared = (before: number, now: number) => now < 0.02 && now * 5 <= before;

export interface Cleared {
	sections: SectionId[];
	/** Stages and lines cleared in sections that are not cleared as a whole. */
	places: { id: string; title: string }[];
}

/**
 * What the answers so far have cleared. A band that plays is an answer, so a complaint with one counts; a complaint
 * alone (it distorts) makes other parts likelier, but clears nobody.
 */
export function cleared(trace: Trace): Cleared {
	const plays = Object.values(trace.resolved.heard).includes('good');
	const start = plays ? trace.words : trace.entry;
	const before = sectionStandings(trace, start);
	const now = sectionStandings(trace);
	const sections = (Object.keys(SECTIONS) as SectionId[]).filter(
		(id) => before[id] !== undefined && isCleared(before[id], now[id] ?? 0)
	);
	return { sections, places: clearedPlaces(trace, start, sections) };
}

/** Stages that only a band which plays goes through: nothing in them is even suspected. */
const playsThrough = ({ resolved: { plan, heard } }: Trace): string[] =>
	Object.keys(heard).flatMap((band) => (heard[band] === 'good' ? stagesOn(plan, band) : []));

/** Stages and lines cleared in sections that are not cleared as a whole. */
function clearedPlaces(
	trace: Trace,
	start: readonly number[],
	sections: readonly SectionId[]
): Cleared['places'] {
	const before = sumBy(trace, start, ({ place }) => place);
	const now = sumBy(trace, trace.now, ({ place }) => place);
	const unsuspected = playsThrough(trace);
	const { plan } = trace.resolved;
	return Object.entries({ ...plan.stages, ...plan.lines })
		.filter(([, { section }]) => !sections.includes(section))
		.filter(([id]) =>
			before[id] === undefined ? unsuspected.includes(id) : isCleared(before[id], now[id] ?? 0)
		)
		.map(([id, { title }]) => ({ id, title }));
}
