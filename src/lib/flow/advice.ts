import {
	advise,
	expectedMinutes,
	POWER_SWITCHING,
	shouldRepair,
	type Advice,
	type RepairAdvice
} from '../suspects/index.ts';
import { stepTable } from './evidence.ts';
import type { Step } from './schema.ts';
import type { Instrument, StepPower } from './terms.ts';
import { repairKey } from './resolve.ts';
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
	minutes: number;
	bitsPerMinute: number;
	/** Chance of each outcome, in the order of the step's outcomes. */
	probabilities: number[];
	posteriors: number[][];
	/** Why it stands first: asked first by the flow's author, named by the last answer, or by what it tells. */
	by: 'opening' | 'next' | 'gain' | 'last';
}

/** Steps whose answers are wanted, whose own conditions are met and for which the bench has a way. */
function openSteps(trace: Trace, situation: Situation): { id: string; step: Step; way: number }[] {
	const done = new Set([...situation.answered.map(({ step }) => step), ...situation.unavailable]);
	for (const id of situation.reopened ?? []) done.delete(id);
	const settled = new Set([...done, ...situation.answered.map(({ step }) => step)]);
	return Object.entries(trace.resolved.steps).flatMap(([id, step]) => {
		const way = bestWay(step, situation.instruments);
		const ready = step.needs.every((need) => settled.has(need) || !trace.resolved.steps[need]);
		return done.has(id) || way === undefined || !ready ? [] : [{ id, step, way }];
	});
}

const suggestion = (
	trace: Trace,
	open: { step: Step; way: number },
	advice: Advice,
	by: Suggestion['by']
): Suggestion => ({
	id: advice.id,
	step: open.step,
	way: open.way,
	bits: advice.bits,
	minutes: advice.minutes,
	bitsPerMinute: advice.bitsPerMinute,
	probabilities: advice.probabilities,
	posteriors: advice.posteriors,
	by
});

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

/**
 * What to measure next, best first. The author's fixed order comes first, then bits per minute with the
 * changes of power state counted; steps put off come after all others, and steps marked `last` only when no
 * other step has anything left to tell.
 */
export function suggest(trace: Trace, situation: Situation): Suggestion[] {
	const open = openSteps(trace, situation);
	const checks = open.map(({ id, step, way }) => ({
		id,
		minutes: step.minutes,
		power: step.power,
		...(step.prepare ? { prepare: step.prepare } : {}),
		table: stepTable(trace.resolved, step, step.ways[way]?.trust ?? 'full').table
	}));
	const ranked = advise({ prior: trace.now, checks, now: situation.power, switching: POWER_SWITCHING });
	const fixed = fixedOrder(trace, situation);
	const by = new Map(fixed.map(({ id, by }) => [id, by]));
	const place = ({ id }: Advice) => {
		const order = fixed.findIndex((f) => f.id === id);
		if (situation.skipped.includes(id)) return 2000;
		if (open.find((o) => o.id === id)?.step.last) return 3000;
		return order >= 0 ? order : 1000;
	};
	return ranked
		.map((advice, rank) => ({ advice, rank, place: place(advice) }))
		.sort((a, b) => a.place - b.place || a.rank - b.rank)
		.flatMap(({ advice, place }) => {
			const source = open.find(({ id }) => id === advice.id);
			const reason = place >= 3000 ? 'last' : place < 1000 ? (by.get(advice.id) ?? 'opening') : 'gain';
			return source ? [suggestion(trace, source, advice, reason)] : [];
		});
}

/** Minutes that a fault outside the list is reckoned to cost. Our own choice. */
const SEARCH_OUTSIDE = 90;

/** The repair of each hypothesis, in the order of the trace; `undefined` for "not listed". */
const repairsOf = ({ ids, resolved }: Trace) =>
	ids.map((_, index) => {
		const placed = resolved.suspects[index];
		return placed && repairKey(placed);
	});

/** Whether to stop checking and change a part, and which; see the stop rule of `suspects`. */
export function repairAdvice(
	trace: Trace,
	suggestions: readonly Suggestion[],
	power: StepPower
): RepairAdvice {
	const { resolved, now } = trace;
	const repairs = repairsOf(trace);
	const minutes = trace.ids.map(
		(_, index) => resolved.suspects[index]?.suspect.repair.minutes ?? SEARCH_OUTSIDE
	);
	const toBench = {
		unplugged: 0,
		limiter: POWER_SWITCHING.limiter.unplugged,
		live: POWER_SWITCHING.live.unplugged
	};
	const checks = suggestions.map((s) => ({ ...s, power: s.step.power }));
	const expected = expectedMinutes({ standings: now, repairs, minutes, toBench, now: power, checks });
	return shouldRepair({ standings: now, repairs, minutes, checks, expected });
}

/** The suspects that one repair mends, the likeliest first. */
export const suspectsOfRepair = (trace: Trace, repair: string) =>
	standings(trace).filter(({ placed }) => placed && repairKey(placed) === repair);
