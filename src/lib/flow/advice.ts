import {
	lookAheadFully,
	minutesOfRepairs,
	outcomeLikelihood,
	packed,
	POWER_SWITCHING,
	shouldRepair,
	temperedTable,
	update,
	type Foreseen,
	type LookAheadCheck,
	type LookAheadQuestion,
	type Ranking,
	type RepairAdvice,
	type Table
} from '../suspects/index.ts';
import { stepTable } from './evidence.ts';
import type { Step } from './schema.ts';
import { SET_UP_MINUTES, type Instrument, type StepPower } from './terms.ts';
import { repairKey, type ResolvedFlow } from './resolve.ts';
import { bestWay, standings, type Trace } from './trace.ts';

/** What the engine asks the trail: nothing of the machine, only its list. */
export interface Situation {
	power: StepPower;
	/** Steps answered, the latest last, each with its outcome. */
	answered: readonly { step: string; outcome: string }[];
	/** Steps put off; they come back when nothing else is left. */
	skipped: readonly string[];
	/** Steps that cannot be done on this bench or this set. */
	unavailable: readonly string[];
	/** Steps left alone by a repair, to be asked again. */
	reopened?: readonly string[];
	instruments?: readonly Instrument[];
}

export interface Suggestion {
	id: string;
	step: Step;
	way: number;
	bits: number;
	/** Minutes for the step, with the change of power state and the setting up of instruments. */
	minutes: number;
	bitsPerMinute: number;
	/** Minutes until the set is expected to work when this step comes next: itself, all that follows, the repair. */
	minutesExpected: number;
	/** By how many minutes the job is expected to take longer than with the best step that is offered; 0 for that one. */
	minutesBehind: number;
	/** Chance of each outcome, in the order of the step's outcomes. */
	probabilities: number[];
	/** Standings after each outcome. */
	readonly posteriors: number[][];
	/** Why it stands first: asked first by the flow's author, named by the last answer, or by what it saves. */
	by: 'opening' | 'next' | 'gain' | 'last';
}

/** A step that may be taken now, in the way that the bench allows best. */
export interface OfferedStep {
	id: string;
	step: Step;
	way: number;
}

interface OpenStep extends OfferedStep {
	table: Table;
}

/** Steps whose answers are wanted, whose own conditions are met and for which the bench has a way; nobody is suspected for it. */
export function offeredSteps(resolved: ResolvedFlow, situation: Situation): OfferedStep[] {
	const done = new Set([...situation.answered.map(({ step }) => step), ...situation.unavailable]);
	for (const id of situation.reopened ?? []) done.delete(id);
	const settled = new Set([...done, ...situation.answered.map(({ step }) => step)]);
	return Object.entries(resolved.steps).flatMap(([id, step]) => {
		const way = bestWay(step, situation.instruments);
		const ready = step.needs.every((need) => settled.has(need) || !resolved.steps[need]);
		// A procedure is the choice: what nobody is sent to for information has its place there.
		const offered = !step['by-choice'] || resolved.flow.procedure;
		return done.has(id) || way === undefined || !ready || !offered ? [] : [{ id, step, way }];
	});
}

/** What is offered, with what each answer would say of the suspects. */
function openSteps({ resolved }: Trace, situation: Situation): OpenStep[] {
	const groups = new Set(situation.answered.flatMap(({ step }) => resolved.steps[step]?.group ?? []));
	return offeredSteps(resolved, situation).map(({ id, step, way }) => {
		const { table } = stepTable(resolved, step, step.ways[way]?.trust ?? 'full');
		const shares = step.group !== undefined && groups.has(step.group) && !situation.reopened?.includes(id);
		return { id, step, way, table: shares ? temperedTable(table) : table };
	});
}

/** The author's own order: what the last answer names, then the opening questions. */
function fixedOrder(trace: Trace, { answered }: Situation): { id: string; by: 'next' | 'opening' }[] {
	const last = answered.at(-1);
	const step = last && trace.resolved.steps[last.step];
	const next = step && 'outcomes' in step ? step.outcomes[last.outcome]?.next : undefined;
	return [
		...(next ? [{ id: next, by: 'next' as const }] : []),
		...trace.resolved.flow.opening.map((id) => ({ id, by: 'opening' as const }))
	];
}

/** Minutes that a fault outside the list is reckoned to cost. Our own choice. */
const SEARCH_OUTSIDE = 90;

/** What the search is asked: plain numbers and names, so that a worker can be asked the same. */
export type AdviceQuestion = LookAheadQuestion<StepPower>;

/** What is left to do on the bench: who is suspected, how each is mended, what may be checked. */
export function questionOf(trace: Trace, situation: Situation): AdviceQuestion {
	const { resolved } = trace;
	const last = resolved.steps[situation.answered.at(-1)?.step ?? ''];
	const way = last && bestWay(last, situation.instruments);
	return {
		...repairQuestion(trace),
		checks: openSteps(trace, situation).map((open) => checkOf(open, situation)),
		now: { power: situation.power, instruments: last?.ways[way ?? 0]?.needs ?? [] },
		switching: POWER_SWITCHING,
		setUp: SET_UP_MINUTES
	};
}

const checkOf = ({ id, step, way, table }: OpenStep, { skipped }: Situation): LookAheadCheck<StepPower> => ({
	id,
	minutes: step.minutes,
	power: step.power,
	prepare: step.prepare,
	instruments: step.ways[way]?.needs ?? [],
	table: packed(table),
	late: step.last || skipped.includes(id)
});

/** Standings, and what mends each hypothesis in the order of the trace. */
function repairQuestion({ ids, resolved, now }: Trace) {
	const placed = ids.map((_, index) => resolved.suspects[index]);
	return {
		standings: now,
		repairs: placed.map((one) => one && repairKey(one)),
		minutes: placed.map((one) => one?.suspect.repair.minutes ?? SEARCH_OUTSIDE),
		bench: 'unplugged' as const
	};
}

/** Where a step stands whatever it saves: the author's order first, steps put off and steps marked `last` at the end. */
function placesOf(trace: Trace, situation: Situation): (id: string) => number {
	const fixed = fixedOrder(trace, situation).map(({ id }) => id);
	const { procedure } = trace.resolved.flow;
	return (id) => {
		if (situation.skipped.includes(id)) return 2000;
		if (!procedure && trace.resolved.steps[id]?.last) return 3000;
		return fixed.includes(id) ? fixed.indexOf(id) : 1000;
	};
}

/**
 * A ranking of the search as suggestions, best first: the author's fixed order comes before the search's, steps put
 * off come after all others, and steps marked `last` only when no other step has anything left to tell.
 */
export function suggestionsOf(trace: Trace, situation: Situation, ranking: Ranking): Suggestion[] {
	const open = new Map(openSteps(trace, situation).map((one) => [one.id, one]));
	const placeOf = placesOf(trace, situation);
	const by = new Map(fixedOrder(trace, situation).map(({ id, by }) => [id, by]));
	const best = Math.min(...ranking.checks.map(({ minutesExpected }) => minutesExpected ?? Infinity));
	return ranking.checks
		.map((check, rank) => ({ check, rank, place: placeOf(check.id) }))
		.sort((a, b) => a.place - b.place || a.rank - b.rank)
		.flatMap(({ check, place }) => {
			const source = open.get(check.id);
			const reason = place >= 3000 ? 'last' : place < 1000 ? (by.get(check.id) ?? 'opening') : 'gain';
			return source ? [suggestion(trace, source, check, reason, best)] : [];
		});
}

function suggestion(
	trace: Trace,
	{ id, step, way, table }: OpenStep,
	{ bits, minutes, bitsPerMinute, minutesExpected = Infinity, probabilities }: Foreseen,
	by: Suggestion['by'],
	best: number
): Suggestion {
	const minutesBehind = minutesExpected === Infinity ? 0 : minutesExpected - best;
	const told = { id, step, way, bits, minutes, bitsPerMinute, minutesExpected, minutesBehind };
	return {
		...told,
		probabilities,
		by,
		get posteriors() {
			return probabilities.map(
				(_, outcome) => update(trace.now, outcomeLikelihood(table, outcome)).posterior
			);
		}
	};
}

/** The steps of a procedure that are left, in the author's order: nothing is searched, and none is left out. */
function inOrder(trace: Trace, situation: Situation): Suggestion[] {
	const placeOf = placesOf(trace, situation);
	return openSteps(trace, situation)
		.sort((a, b) => placeOf(a.id) - placeOf(b.id))
		.map((open) => {
			const { minutes } = open.step;
			const unasked = { bits: 0, bitsPerMinute: 0, minutesExpected: undefined, steps: 0, probabilities: [] };
			return suggestion(trace, open, { id: open.id, minutes, ...unasked }, 'opening', minutes);
		});
}

/** What to do next, best first: the search carried to its end, or the order of a procedure. */
export function suggest(trace: Trace, situation: Situation): Suggestion[] {
	if (trace.resolved.flow.procedure) return inOrder(trace, situation);
	return suggestionsOf(trace, situation, lookAheadFully(questionOf(trace, situation)));
}

/** Whether to stop checking and change a part, and which; see the stop rule of `suspects`. */
export function repairAdvice(
	trace: Trace,
	suggestions: readonly Suggestion[],
	power: StepPower
): RepairAdvice {
	const { now } = trace;
	const { repairs, minutes, bench } = repairQuestion(trace);
	const expected = {
		repairNow: POWER_SWITCHING[power][bench] + minutesOfRepairs(now, repairs, minutes),
		checkFirst: Math.min(...suggestions.map(({ minutesExpected }) => minutesExpected))
	};
	return shouldRepair({ standings: now, repairs, minutes, checks: suggestions, expected });
}

/** The suspects that one repair mends, the likeliest first. */
export const suspectsOfRepair = (trace: Trace, repair: string) =>
	standings(trace).filter(({ placed }) => placed && repairKey(placed) === repair);
