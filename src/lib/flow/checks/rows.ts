import type { Plan } from '../../receiver/index.ts';
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

type RowsOfStep = WeakMap<Suspect, Map<string, Row>>;
type RowsOfPlan = Record<'plain' | 'fading', WeakMap<Step, { rows: RowsOfStep; known: Map<string, Row> }>>;
const rowsOfPlans = new WeakMap<Plan, RowsOfPlan>();

function rowsOfStep({ plan, comesAndGoes }: ResolvedFlow, step: Step) {
	const ofPlan = rowsOfPlans.get(plan) ?? { plain: new WeakMap(), fading: new WeakMap() };
	rowsOfPlans.set(plan, ofPlan);
	const table = ofPlan[comesAndGoes ? 'fading' : 'plain'];
	const ofStep = table.get(step) ?? { rows: new WeakMap(), known: new Map<string, Row>() };
	table.set(step, ofStep);
	return ofStep;
}

function rowOf(
	resolved: ResolvedFlow,
	step: Step,
	placed: PlacedSuspect,
	{ rows, known }: ReturnType<typeof rowsOfStep>
): Row {
	const places = rows.get(placed.suspect) ?? new Map<string, Row>();
	const found = places.get(placed.place);
	if (found) return found;
	const row = suspectRow(resolved, step, placed);
	const one = known.get(row.join()) ?? row;
	known.set(row.join(), one);
	rows.set(placed.suspect, places.set(placed.place, one));
	return one;
}

/** The steps that a flow can take on a plan, as they were written, before the flow put them in order. */
export const writtenSteps = (library: Library, { flow, steps }: ResolvedFlow): [string, Step][] =>
	Object.keys(steps).flatMap((id) => {
		const step = flow.own.steps[id] ?? library.steps[id];
		return step ? [[id, step] as [string, Step]] : [];
	});

/** The rows of these suspects at one step; ask for it as it was written, so that other flows have the use of them. */
export function rowsAt(
	resolved: ResolvedFlow,
	step: Step,
	suspects: readonly PlacedSuspect[] = resolved.suspects
): Row[] {
	const ofStep = rowsOfStep(resolved, step);
	return suspects.map((placed) => rowOf(resolved, step, placed, ofStep));
}

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
