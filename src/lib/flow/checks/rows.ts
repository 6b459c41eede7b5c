import type { Plan } from '../../receiver/index.ts';
import { informationGain } from '../../suspects/index.ts';
import { suspectRow } from '../evidence.ts';
import type { Library } from '../library.ts';
import { flowFits, resolveFlow, type PlacedSuspect, type ResolvedFlow } from '../resolve.ts';
import type { Flow, Step, Suspect } from '../schema.ts';
import { trace } from '../trace.ts';

/**
 * Flows joined with plans, and their rows, as the checks ask for them. A row depends on plan, step and suspect only, so
 * that hundreds of flows share the rows of the shared steps.
 */

/** Rows that differ by less than this at every outcome tell two suspects apart in no real trace. */
export const SAME = 0.05;

/** So few bits are nothing on the bench. Reasoning reference 4.6 (b). */
export const NOTHING = 0.02;

/** P(outcome | suspect), the same list for the same row of a step. */
export type Row = readonly number[];

const joined = new WeakMap<Flow, { library: Library; resolved: ResolvedFlow[] }>();

/** A flow on every plan that it fits. */
export function onPlans(library: Library, flow: Flow): ResolvedFlow[] {
	const known = joined.get(flow);
	if (known?.library === library) return known.resolved;
	const plans = Object.values(library.plans).filter((plan) => flowFits(flow, plan));
	const resolved = plans.map((plan) => resolveFlow(library, flow, plan));
	joined.set(flow, { library, resolved });
	return resolved;
}

/** What the flows of one plan share: each suspect at each place has a seat, and each step one row for each seat. */
interface Shared {
	seats: Map<Suspect, Map<string, number>>;
	count: number;
	rows: Record<'plain' | 'fading', Map<Step, { bySeat: Row[]; known: Map<string, Row> }>>;
}
const sharedOf = new WeakMap<Plan, Shared>();

function sharedBy(plan: Plan): Shared {
	const known = sharedOf.get(plan) ?? {
		seats: new Map(),
		count: 0,
		rows: { plain: new Map(), fading: new Map() }
	};
	sharedOf.set(plan, known);
	return known;
}

function seatOf(shared: Shared, { suspect, place }: PlacedSuspect): number {
	const places = shared.seats.get(suspect) ?? new Map<string, number>();
	shared.seats.set(suspect, places);
	const seat = places.get(place) ?? shared.count++;
	places.set(place, seat);
	return seat;
}

const seatsKnown = new WeakMap<ResolvedFlow, number[]>();

function seatsOf(resolved: ResolvedFlow): readonly number[] {
	const shared = sharedBy(resolved.plan);
	const seats = seatsKnown.get(resolved) ?? resolved.suspects.map((placed) => seatOf(shared, placed));
	seatsKnown.set(resolved, seats);
	return seats;
}

function rowsOfStep({ plan, comesAndGoes }: ResolvedFlow, step: Step) {
	const table = sharedBy(plan).rows[comesAndGoes ? 'fading' : 'plain'];
	const ofStep = table.get(step) ?? { bySeat: [], known: new Map<string, Row>() };
	table.set(step, ofStep);
	return ofStep;
}

/** Equal rows of a step are one list. */
function newRow(known: Map<string, Row>, row: Row): Row {
	const sign = row.join();
	const one = known.get(sign) ?? row;
	known.set(sign, one);
	return one;
}

/** The steps that a flow can take on a plan, as they were written, before the flow put them in order. */
export const writtenSteps = (library: Library, { flow, steps }: ResolvedFlow): [string, Step][] =>
	Object.keys(steps).flatMap((id) => {
		const step = flow.own.steps[id] ?? library.steps[id];
		return step ? [[id, step] as [string, Step]] : [];
	});

/**
 * The rows of suspects at one step; ask for it as it was written, so that other flows have the use of them.
 *
 * @param which places in the flow's list of suspects; all of them where this is left out
 */
export function rowsAt(resolved: ResolvedFlow, step: Step, which?: readonly number[]): Row[] {
	const { bySeat, known } = rowsOfStep(resolved, step);
	const seats = seatsOf(resolved);
	const rowOf = (index: number): Row => {
		const seat = seats[index]!;
		return (bySeat[seat] ??= newRow(known, suspectRow(resolved, step, resolved.suspects[index]!)));
	};
	return which ? which.map(rowOf) : seats.map((_, index) => rowOf(index));
}

/**
 * What a step tells of suspects with these weights, in bits. Suspects with one row are one to it, which makes some ten
 * rows of hundreds.
 */
export function gainAt(resolved: ResolvedFlow, step: Step, weights: readonly number[]): number {
	const shares = new Map<Row, number>();
	rowsAt(resolved, step).forEach((row, index) =>
		shares.set(row, (shares.get(row) ?? 0) + (weights[index] ?? 0))
	);
	return informationGain([...shares.values()], [...shares.keys()]);
}

/** Places, in the flow's list of suspects, of those that the flow names itself. */
export const namedPlaces = ({ suspects }: ResolvedFlow): number[] =>
	suspects.flatMap(({ named }, index) => (named ? [index] : []));

/** Whether two rows differ enough to tell their suspects apart. */
export const differ = (a: Row, b: Row): boolean =>
	a !== b && a.some((p, o) => Math.abs(p - (b[o] ?? 0)) > SAME);

const starts = new WeakMap<ResolvedFlow, number[]>();

/** Standings of the suspects before any answer, the complaint counted. */
export function atStart(resolved: ResolvedFlow): readonly number[] {
	const known = starts.get(resolved) ?? trace(resolved, { answers: [], mended: [] }).entry.slice(0, -1);
	starts.set(resolved, known);
	return known;
}
