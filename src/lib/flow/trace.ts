import { SECTIONS, stagesOn, type SectionId } from '../receiver/index.ts';
import {
	groupExponent,
	outcomeLikelihood,
	posterior,
	softOutcome,
	sureMix,
	temper,
	TRUST
} from '../suspects/index.ts';
import { entryLikelihood, stepTable, type StepTable } from './evidence.ts';
import { firstByPast, weightsByPast } from './history.ts';
import { blameRow, ledgerRow, type LedgerEntry } from './ledger.ts';
import { stillCounting, throughRepairs } from './mended.ts';
import { weightsByJobs, type OwnJobs } from './own-jobs.ts';
import { tallyLikelihood } from './provocation.ts';
import { expectedAt, judgeReading, type HtThen, type JudgedReading, type ServiceVolts } from './reading.ts';
import type { PlacedSuspect, ResolvedFlow } from './resolve.ts';
import type { Step } from './schema.ts';
import type { HistoryWord, Instrument, Provoked } from './terms.ts';

/** "Something not listed here" starts at this share. Reasoning reference 4.1 (0.03 to 0.05). */
const NOT_LISTED_SHARE = 0.04;
export const NOT_LISTED = 'not-listed';

/** How far an answer is trusted that the person gave without being sure of it. Our own choice. */
const NOT_SURE = 0.5;

export interface TraceAnswer {
	step: string;
	outcome: string;
	/** Base units: volts, ohms, amperes. */
	reading?: number;
	/** Which of the step's ways was taken; the first that the bench allows, if not said. */
	way?: number;
	/** False where the person was not sure of it. */
	sure?: boolean;
	/** The sheet of a step that provokes the fault. */
	provoked?: Provoked;
	/** HT as it was measured then. */
	ht?: HtThen;
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
	/** What the intake says of the set's past. */
	history?: readonly HistoryWord[];
	/** Parts tested or changed on the way, each once, as it stands last. */
	ledger?: readonly LedgerEntry[];
	/** Causes of the restorer's own closed jobs with this complaint. */
	ownJobs?: OwnJobs;
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
	/** Weights by the flow's words and the past of the set, scaled to one. */
	words: number[];
	/** The same after the complaint itself. */
	entry: number[];
	answers: WeighedAnswer[];
	/** What the parts ledger says, in the order of the trace. */
	ledger: WeighedEntry[];
	/** What the intake says of the set's past. */
	history: readonly HistoryWord[];
	/** Causes of the restorer's own closed jobs that moved the words, where they were let in. */
	ownJobs?: OwnJobs;
	now: number[];
}

/** A tested or changed part brought to numbers. */
export interface WeighedEntry {
	entry: LedgerEntry;
	likelihood: number[];
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

/** A reading against volts that valve data alone give is trusted one word less. Our own choice. */
const LESS = { full: 'fair', fair: 'rough', rough: 'rough' } as const;

function judgedAs(
	resolved: ResolvedFlow,
	answer: TraceAnswer,
	step: Step,
	service: ServiceVolts | undefined
) {
	if (step.kind !== 'measure' || answer.reading === undefined) return undefined;
	const expected = expectedAt(resolved.plan, step.at, service, answer.ht);
	const judged = judgeReading(step, answer.reading, expected);
	return judged?.outcome === answer.outcome ? judged : undefined;
}

/** The table of a step as this answer may use it: flattened where the person was not sure. */
function tableFor(
	resolved: ResolvedFlow,
	answer: TraceAnswer,
	step: Step,
	words: readonly number[],
	way: number,
	judged: JudgedReading | undefined
) {
	const trust = step.ways[way]?.trust ?? 'full';
	const plain = stepTable(resolved, step, judged?.basis === 'valve-data' ? LESS[trust] : trust);
	if (answer.sure !== false) return plain;
	const base = plain.outcomes.map((_, outcome) =>
		plain.table.reduce((sum, row, index) => sum + (words[index] ?? 0) * (row[outcome] ?? 0), 0)
	);
	return { ...plain, table: plain.table.map((row) => sureMix(row, base, NOT_SURE)) };
}

function weighAnswer(
	resolved: ResolvedFlow,
	answer: TraceAnswer,
	evidence: Evidence,
	words: readonly number[]
): WeighedAnswer | undefined {
	const step = resolved.steps[answer.step];
	if (!step) return undefined;
	const way = answer.way ?? bestWay(step, evidence.instruments) ?? 0;
	const judged = judgedAs(resolved, answer, step, evidence.service);
	const table = tableFor(resolved, answer, step, words, way, judged);
	const index = table.outcomes.indexOf(answer.outcome);
	if (index < 0) return undefined;
	const weighed = (likelihood: number[]) => ({ answer, step, table, likelihood });
	if (answer.provoked) {
		const tallied = tallyLikelihood(table, answer.provoked);
		if (tallied) return weighed(tallied);
	}
	if (judged) return weighed(softOutcome(table.table, judged.membership));
	return weighed(outcomeLikelihood(table.table, index));
}

/** Answers that share a cause of error (one meter, one tap) count together as one and a half, two, ... */
function grouped(answers: readonly WeighedAnswer[]): WeighedAnswer[] {
	const count = (group: string) => answers.filter(({ step }) => step.group === group).length;
	return answers.map((one) => {
		const { group } = one.step;
		if (group === undefined || count(group) < 2) return one;
		return { ...one, likelihood: temper(one.likelihood, groupExponent(count(group))) };
	});
}

/** The last answer of each step counts; earlier ones to the same step are corrections. */
const latest = (answers: readonly TraceAnswer[]): TraceAnswer[] => [
	...new Map(answers.map((answer) => [answer.step, answer])).values()
];

const scale = (weights: readonly number[]) => {
	const sum = weights.reduce((a, b) => a + b, 0);
	return weights.map((w) => (sum > 0 ? w / sum : 0));
};

/** @param knownAt the standings by the first so many answers of the job */
function weighLedger(
	resolved: ResolvedFlow,
	ledger: readonly LedgerEntry[],
	knownAt: (answers: number, rows: readonly WeighedEntry[]) => number[]
): WeighedEntry[] {
	const weighed = (entry: LedgerEntry, likelihood: number[] | undefined) =>
		likelihood ? [{ entry, likelihood }] : [];
	const plain = ledger
		.filter(({ state }) => state !== 'blamed')
		.flatMap((entry) => weighed(entry, ledgerRow(resolved, entry)));
	// The last change that made it worse is looked at before the one before it.
	return ledger
		.filter(({ state }) => state === 'blamed')
		.reduce(
			(rows, entry) => [
				...rows,
				...weighed(entry, blameRow(resolved, entry, knownAt(entry.after ?? 0, rows)))
			],
			plain
		);
}

/** Bring a flow, a set and all that has been answered to standings. Pure: the order of answers is irrelevant. */
export function trace(resolved: ResolvedFlow, evidence: Evidence): Trace {
	const ids = [...resolved.suspects.map(({ id }) => id), NOT_LISTED];
	const history = evidence.history ?? [];
	const { ownJobs } = evidence;
	const byWords = ownJobs && weightsByJobs(resolved, ownJobs);
	const named = scale(weightsByPast(resolved, history, byWords)).map((w) => w * (1 - NOT_LISTED_SHARE));
	const words = [...named, NOT_LISTED_SHARE];
	const entry = firstByPast(resolved, history, posterior(words, [entryLikelihood(resolved)]));
	const mended = new Set(evidence.mended.map(({ suspect }) => suspect));
	const weighed = latest(evidence.answers).flatMap(
		(answer) => weighAnswer(resolved, answer, evidence, words) ?? []
	);
	const answers = grouped(stillCounting(weighed, evidence, ids));
	const left = entry.map((weight, index) => (mended.has(ids[index] ?? '') ? 0 : weight));
	const ledger = weighLedger(resolved, evidence.ledger ?? [], (count, rows) => {
		const given = evidence.answers.slice(0, count);
		const before = answers.filter(({ answer }) => given.includes(answer));
		return posterior(
			left,
			[...before, ...rows].map(({ likelihood }) => likelihood)
		);
	});
	const repaired = throughRepairs(resolved, left, answers, evidence, NOT_LISTED_SHARE);
	const now = posterior(
		repaired,
		ledger.map(({ likelihood }) => likelihood)
	);
	return { resolved, ids, words, entry, answers, ledger, history, now, ...(ownJobs ? { ownJobs } : {}) };
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
