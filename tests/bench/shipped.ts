import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import {
	repairAdvice,
	suggest,
	suspectsOfRepair,
	type Situation,
	type Suggestion
} from '../../src/lib/flow/advice.ts';
import { apart } from '../../src/lib/flow/checks/separation.ts';
import { normalOf, stepTable } from '../../src/lib/flow/evidence.ts';
import type { Library } from '../../src/lib/flow/library.ts';
import { flowFits, resolveFlow, type ResolvedFlow } from '../../src/lib/flow/resolve.ts';
import { trace, type Mended, type Trace, type TraceAnswer } from '../../src/lib/flow/trace.ts';
import { entropy, informationGain, POWER_SWITCHING } from '../../src/lib/suspects/index.ts';
import { drawn, seeded } from './random.ts';
import { judged, mean, percent, ratio, type Row } from './row.ts';

/** The shipped flows: how well each can ask, and whether the advice saves minutes against the order written by hand. */

interface Orders {
	/** Where every trace begins. */
	first: string[];
	/** Names in the orders that stand for other steps. */
	names: Record<string, string[]>;
	orders: Record<string, string[]>;
}

const ORDERS = parse(readFileSync(join(import.meta.dirname, 'orders.yaml'), 'utf8')) as Orders;

/** Steps of a flow in the order written by hand; `undefined` where none is. */
function handOrder({ flow, steps }: ResolvedFlow): string[] | undefined {
	const order = ORDERS.orders[flow.id];
	const known = Object.keys(steps);
	const called = (name: string) => known.filter((id) => id === name || id.startsWith(`${name}-`));
	return (
		order && [...ORDERS.first, ...order].flatMap((name) => (ORDERS.names[name] ?? [name]).flatMap(called))
	);
}

/** Which step comes next; `undefined` leaves only the repair. */
type Choose = (suggestions: readonly Suggestion[]) => Suggestion | undefined;

const asAdvised: Choose = (suggestions) => suggestions[0];

const asWritten =
	(order: readonly string[]): Choose =>
	(suggestions) =>
		order.flatMap((id) => suggestions.find((one) => one.id === id) ?? [])[0];

interface Answers {
	answers: TraceAnswer[];
	mended: Mended[];
	situation: Situation;
}

/** A repair that never comes would be a fault of the bench. */
const MOST_ACTIONS = 400;

/** The set of one job: its fault, and by chances of its own what each step shows, whenever it is asked. */
interface OneSet {
	fault: number;
	chances: Record<string, number>;
}

/** Minutes until the fault is mended; both ways share the set, gates, costs and the stop rule. */
function minutesOfJob(resolved: ResolvedFlow, set: OneSet, choose: Choose): number {
	const job: Answers = {
		answers: [],
		mended: [],
		situation: { power: 'unplugged', answered: [], skipped: [], unavailable: [] }
	};
	let minutes = 0;
	for (let action = 0; action < MOST_ACTIONS; action++) {
		const now = trace(resolved, job);
		const suggestions = suggest(now, job.situation);
		const stop = repairAdvice(now, suggestions, job.situation.power);
		const chosen = stop.stop ? undefined : choose(suggestions);
		if (chosen) {
			minutes += chosen.minutes;
			answer(job, resolved, chosen, set);
			continue;
		}
		const named = stop.stop && stop.repair !== undefined ? suspectsOfRepair(now, stop.repair) : [];
		const cured = mendBest(
			job,
			resolved,
			now,
			named.map(({ id }) => id)
		);
		minutes += cured.minutes;
		if (cured.suspects.includes(resolved.suspects[set.fault]?.id ?? '')) return minutes;
	}
	throw new Error(`A job of "${resolved.flow.id}" never ends.`);
}

function answer(
	job: Answers,
	resolved: ResolvedFlow,
	{ id, step, way }: Suggestion,
	{ fault, chances }: OneSet
) {
	const { table, outcomes } = stepTable(resolved, step, step.ways[way]?.trust ?? 'full');
	const outcome = outcomes[drawn(() => chances[id] ?? 0, table[fault] ?? [])] ?? normalOf(step);
	job.answers.push({ step: id, outcome, way });
	const answered = [...job.situation.answered, { step: id, outcome }];
	job.situation = { ...job.situation, power: step.power, answered };
}

/** The repair that is named, or the one with the most chance per minute among all that are left. */
function mendBest(job: Answers, resolved: ResolvedFlow, now: Trace, named: readonly string[]) {
	const repairOf = ({ suspect, id }: ResolvedFlow['suspects'][number]) => suspect.repair.same ?? id;
	const rate = (place: number) =>
		(now.now[place] ?? 0) / (resolved.suspects[place]?.suspect.repair.minutes ?? 1);
	const best = resolved.suspects.reduce((top, _, place) => (rate(place) > rate(top) ? place : top), 0);
	const first = resolved.suspects.find(({ id }) => id === named[0]) ?? resolved.suspects[best]!;
	const suspects = resolved.suspects.filter((one) => repairOf(one) === repairOf(first));
	const minutes =
		POWER_SWITCHING[job.situation.power].unplugged +
		Math.max(...suspects.map(({ suspect }) => suspect.repair.minutes));
	const after = job.answers.length;
	job.mended.push(...suspects.map(({ id }): Mended => ({ suspect: id, was: 'good', after })));
	job.situation = { ...job.situation, power: 'unplugged' };
	return { minutes, suspects: suspects.map(({ id }) => id) };
}

/** Minutes as advised and as written, job by job. */
function compare(resolved: ResolvedFlow, order: readonly string[], jobs: number): [number, number][] {
	const { entry } = trace(resolved, { answers: [], mended: [] });
	const named = entry.slice(0, resolved.suspects.length);
	return Array.from({ length: jobs }, (_, job) => {
		// One fault from each equal share of the chances: a few jobs stand for all of them.
		const share = (job + seeded(5e6 + job)()) / jobs;
		const fault = drawn(() => share, named);
		const next = seeded(55e5 + job);
		const chances = Object.fromEntries(Object.keys(resolved.steps).map((id) => [id, next()]));
		const play = (choose: Choose) => minutesOfJob(resolved, { fault, chances }, choose);
		return [play(asAdvised), play(asWritten(order))];
	});
}

const saved = (pairs: readonly (readonly [number, number])[]) => 1 - ratio(pairs);

function orderRows(flows: readonly ResolvedFlow[], jobs: number): Row[] {
	const played = flows.flatMap((resolved) => {
		const order = handOrder(resolved);
		return order ? [{ id: resolved.flow.id, pairs: compare(resolved, order, jobs) }] : [];
	});
	const rows = played.map(({ id, pairs }) =>
		judged({
			id: 'G5',
			what: `${id}: minutes saved against the order written by hand, ${pairs.length} jobs`,
			items: pairs,
			figure: saved,
			print: percent,
			goal: { least: 0 }
		})
	);
	const all = judged({
		id: 'G5',
		what: `mean of ${played.length} flows`,
		items: played.map(({ pairs }) => saved(pairs)),
		figure: mean,
		print: percent,
		goal: { least: 0.14 }
	});
	const without = flows.filter((resolved) => !handOrder(resolved)).map(({ flow }) => flow.id);
	const none = { figure: String(without.length), interval: without.join(', '), goal: '' };
	return [...rows, all, { id: 'G5', what: 'flows without an order written by hand', ...none }];
}

/** Suspects that no step of the flow tells apart, themselves and through others: sets of two or more. */
function groupsOf(resolved: ResolvedFlow): number[][] {
	const separated = apart(resolved);
	const groups: number[][] = [];
	for (const index of resolved.suspects.keys()) {
		const near = groups.filter((group) => group.some((other) => !separated(index, other)));
		const rest = groups.filter((group) => !near.includes(group));
		groups.splice(0, groups.length, ...rest, [...near.flat(), index]);
	}
	return groups.filter(({ length }) => length > 1);
}

/** Suspects that show themselves at no step: they read as a sound set does everywhere. */
function unseen(resolved: ResolvedFlow): number {
	const seen = new Set<number>();
	for (const step of Object.values(resolved.steps)) {
		const { table, outcomes, normal } = stepTable(resolved, step);
		const place = outcomes.indexOf(normal);
		const soundest = Math.max(...table.map((row) => row[place] ?? 0));
		table.forEach((row, suspect) => (row[place] ?? 0) < soundest - 0.02 && seen.add(suspect));
	}
	return resolved.suspects.filter((_, suspect) => !seen.has(suspect)).length;
}

/** How much there is to find out, what the best first question tells of it, how many no question parts or shows. */
function qualityRow(resolved: ResolvedFlow): Row {
	const { now } = trace(resolved, { answers: [], mended: [] });
	const bits = entropy(now);
	const tables = Object.values(resolved.steps).map((step) => stepTable(resolved, step));
	const best = Math.max(...tables.map(({ table }) => informationGain(now, table)));
	const offHalf = tables.map(({ table, outcomes, normal }) => {
		const place = outcomes.indexOf(normal);
		return Math.abs(
			0.5 - table.reduce((sum, row, suspect) => sum + (row[place] ?? 0) * (now[suspect] ?? 0), 0)
		);
	});
	const groups = groupsOf(resolved);
	const facts = [
		`best step ${best.toFixed(2)} bit`,
		`${Math.min(...offHalf).toFixed(2)} off an even split`,
		`${groups.flat().length} of ${now.length - 1} unparted`,
		`${unseen(resolved)} unseen`
	];
	return {
		id: 'G13',
		what: `${resolved.flow.id}: entropy at the start`,
		figure: `${bits.toFixed(2)} bit`,
		interval: facts.join('; '),
		goal: ''
	};
}

/** Each flow that traces, on the first plan that it fits. */
export const shippedFlows = (library: Library): ResolvedFlow[] =>
	Object.values(library.flows).flatMap((flow) => {
		const plan = Object.values(library.plans).find((one) => !flow.procedure && flowFits(flow, one));
		return plan ? [resolveFlow(library, flow, plan)] : [];
	});

/** Jobs of each flow, as many as fit in the time of the bench: their intervals are wide. */
const JOBS = 6;
/** In a run of their own: jobs of each flow of the library, and of each that is asked for by name. */
const MORE_JOBS = 12;
const MOST_JOBS = 48;

export function shippedRows(library: Library, short: boolean): Row[] {
	const flows = shippedFlows(library);
	if (short) return [...orderRows(flows.slice(0, 1), 3), ...flows.slice(0, 3).map(qualityRow)];
	return [...orderRows(flows, JOBS), ...flows.map(qualityRow)];
}

/** Only the minutes against the orders written by hand, on more jobs; of the flows named, on many. */
export function orderRowsAlone(library: Library, ids: readonly string[]): Row[] {
	const flows = shippedFlows(library).filter(({ flow }) => ids.length === 0 || ids.includes(flow.id));
	return orderRows(flows, ids.length === 0 ? MORE_JOBS : MOST_JOBS);
}
