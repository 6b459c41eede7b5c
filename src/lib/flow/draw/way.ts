import type { Ranking, RepairAdvice } from '../../suspects/index.ts';
import {
	questionOf,
	repairAdvice,
	suggest,
	suggestionsOf,
	type AdviceQuestion,
	type Suggestion
} from '../advice.ts';
import { labelOf, normalOf, outcomesOf } from '../evidence.ts';
import { nameOf } from '../explain.ts';
import { repairKey, type ResolvedFlow } from '../resolve.ts';
import type { StepPower } from '../terms.ts';
import { standings, trace, type Trace } from '../trace.ts';

/** A branch that fewer traces take is not followed. The share is of all traces that begin. */
export const LEAST_CHANCE = 0.03;
/** So many stops are asked for advice at most, the likeliest first. Our own choice: some fifteen seconds on a slow machine. */
const MOST_STOPS = 80;
/** Names that stand at an end; the rest are counted. */
const NAMES = 3;

/** The way that the advice really takes through a flow, for one kind of set. */
export interface Way {
	title: string;
	plan: string;
	/** Parents before children; of one parent's children the likeliest first. */
	stops: WayStop[];
}

interface Stop {
	/** Place in the list. */
	id: number;
	/** Share of all traces that come by here, 0 to 1. */
	chance: number;
	/** Minutes of work up to here, changes of power state and of instruments included. */
	minutes: number;
	/** Answers given up to here. */
	depth: number;
	/** The stop before, and the answer given there. */
	from?: { stop: number; answer: string };
}

/** A step that is asked, with the answers that were not followed. */
export interface StepStop extends Stop {
	kind: 'step';
	step: string;
	title: string;
	power: StepPower;
	/** Minutes of this step from where the work stands. */
	takes: number;
	/** Minutes until the set is expected to work, from here. */
	expected: number;
	/** Answers too rare to follow, and the share of all traces that give one of them. */
	left: { answers: string[]; chance: number };
}

/** The trace ends with a part to change. */
export interface RepairStop extends Stop {
	kind: 'repair';
	/** Suspects that this repair mends, the likeliest first, the rare ones left out. */
	names: string[];
	more: number;
	/** How likely it is, 0 to 1, that the repair cures. */
	standing: number;
	because: Exclude<RepairAdvice, { stop: false } | { because: 'fault may lie outside' }>['because'];
}

/** The fault may lie outside the list; a procedure is through; or the picture was left off here. */
export interface OpenStop extends Stop {
	kind: 'outside' | 'done' | 'left off';
}

export type WayStop = StepStop | RepairStop | OpenStop;

/** Finds the best next step; nothing leaves the rest of the picture off. */
export type Search = (question: AdviceQuestion) => Ranking | undefined | Promise<Ranking | undefined>;

/** Where a trace stands that has come this far. */
interface Path {
	answered: { step: string; outcome: string }[];
	power: StepPower;
	chance: number;
	minutes: number;
	from?: { stop: number; answer: string };
}

/**
 * Follow the advice from a flow's opening, once for every answer that is likely enough, until it stops by the repair
 * rule. What each trace has answered is weighed as in a job; every instrument counts as being on the bench.
 */
export async function followWay(resolved: ResolvedFlow, search: Search): Promise<Way> {
	const stops: WayStop[] = [];
	const open: Path[] = [{ answered: [], power: 'unplugged', chance: 1, minutes: 0 }];
	for (let path = takeLikeliest(open); path; path = takeLikeliest(open)) {
		const asked = stops.filter(({ kind }) => kind !== 'left off').length;
		const { stop, onward } = await stopAt(resolved, path, asked < MOST_STOPS ? search : () => undefined);
		const id = stops.push({ ...stop, id: stops.length } as WayStop) - 1;
		open.push(...onward.map(({ answer, ...next }) => ({ ...next, from: { stop: id, answer } })));
	}
	return { title: resolved.flow.title, plan: resolved.plan.title, stops };
}

/** The likeliest path first, so that a picture which is left off lacks the rare ones only. */
function takeLikeliest(open: Path[]): Path | undefined {
	const best = open.reduce(
		(best, { chance }, place) => (chance > (open[best]?.chance ?? 0) ? place : best),
		0
	);
	return open.splice(best, 1)[0];
}

type Onward = Omit<Path, 'from'> & { answer: string };

async function stopAt(resolved: ResolvedFlow, path: Path, search: Search) {
	const here = trace(resolved, { answers: path.answered, mended: [] });
	const situation = { power: path.power, answered: path.answered, skipped: [], unavailable: [] };
	const place = {
		chance: path.chance,
		minutes: path.minutes,
		depth: path.answered.length,
		...(path.from ? { from: path.from } : {})
	};
	if (resolved.flow.procedure) return inProcedure(suggest(here, situation)[0], path, place);
	const ranking = await search(questionOf(here, situation));
	if (!ranking) return { stop: { ...place, kind: 'left off' as const }, onward: [] };
	const suggestions = suggestionsOf(here, situation, ranking);
	const advice = repairAdvice(here, suggestions, path.power);
	const [next] = suggestions;
	if (advice.stop || !next) return { stop: { ...place, ...endOf(here, advice) }, onward: [] };
	const { onward, left } = answersTo(next, path);
	return { stop: { ...place, ...stepOf(next), left }, onward };
}

function stepOf({ id: step, step: { title, power }, minutes: takes, minutesExpected: expected }: Suggestion) {
	return { kind: 'step' as const, step, title, power, takes, expected };
}

/** The steps of a procedure follow one another whatever is answered. */
function inProcedure<Place extends object>(next: Suggestion | undefined, path: Path, place: Place) {
	if (!next) return { stop: { ...place, kind: 'done' as const }, onward: [] };
	const answered = [...path.answered, { step: next.id, outcome: normalOf(next.step) }];
	const { power } = next.step;
	const minutes = path.minutes + next.minutes;
	const onward: Onward[] = [{ answer: 'Any answer', answered, power, chance: path.chance, minutes }];
	return { stop: { ...place, ...stepOf(next), left: { answers: [], chance: 0 } }, onward };
}

/** What each answer leads to, the likeliest first, and what is too rare to follow. */
function answersTo({ id, step, minutes, probabilities }: Suggestion, path: Path) {
	const onward: Onward[] = outcomesOf(step).map((outcome, place) => ({
		answer: labelOf(step, outcome),
		answered: [...path.answered, { step: id, outcome }],
		power: step.power,
		chance: path.chance * (probabilities[place] ?? 0),
		minutes: path.minutes + minutes
	}));
	const rare = onward.filter(({ chance }) => chance < LEAST_CHANCE);
	const left = {
		answers: rare.map(({ answer }) => answer),
		chance: rare.reduce((sum, { chance }) => sum + chance, 0)
	};
	const likely = onward.filter(({ chance }) => chance >= LEAST_CHANCE);
	return { onward: likely.sort((a, b) => b.chance - a.chance), left };
}

function endOf(here: Trace, advice: RepairAdvice) {
	if (!advice.stop || advice.repair === undefined) return { kind: 'outside' as const };
	const mended = standings(here).filter(({ placed }) => placed && repairKey(placed) === advice.repair);
	const standing = mended.reduce((sum, { probability }) => sum + probability, 0);
	const worth = mended.filter(({ probability }) => probability >= standing / 10).slice(0, NAMES);
	const names = worth.map(({ placed }) => nameOf(placed));
	const { because } = advice;
	return { kind: 'repair' as const, names, more: mended.length - names.length, standing, because };
}

/** The stops that follow one, the likeliest first. */
export const after = ({ stops }: Way, id: number): WayStop[] => stops.filter(({ from }) => from?.stop === id);

const OPEN_TITLES: Readonly<Record<OpenStop['kind'], string>> = {
	outside: 'The fault may lie outside the list',
	done: 'All steps are done',
	'left off': 'Not followed further'
};

/** What a stop is called. */
export function stopTitle(stop: WayStop): string {
	if (stop.kind === 'step') return stop.title;
	if (stop.kind !== 'repair') return OPEN_TITLES[stop.kind];
	return [...stop.names, ...(stop.more > 0 ? [`${stop.more} more, less likely`] : [])].join('; ');
}
