import type { Library } from '../library.ts';
import type { Flow, Step } from '../schema.ts';
import { onPlans } from './rows.ts';
import type { Check, Complaint } from './types.ts';

type Steps = Readonly<Record<string, Step>>;

/** Everything that must be answered before a step, at one remove or several. */
function needsOf(steps: Steps, id: string, seen = new Set<string>()): Set<string> {
	for (const need of steps[id]?.needs ?? [])
		if (steps[need] && !seen.has(need)) needsOf(steps, need, seen.add(need));
	return seen;
}

/** What an opening step waits for though it is not asked before it. */
function waitingFor(steps: Steps, opening: readonly string[], index: number): string[] {
	const asked = new Set(opening.slice(0, index));
	return (steps[opening[index] ?? '']?.needs ?? []).filter((need) => steps[need] && !asked.has(need));
}

function openingComplaints(library: Library, flow: Flow): { index: number; needs: string[] }[] {
	const plans = onPlans(library, flow);
	return flow.opening.flatMap((_, index) => {
		const needs = plans.map(({ steps }) => waitingFor(steps, flow.opening, index));
		const always = needs.length > 0 && needs.every(({ length }) => length > 0);
		return always ? [{ index, needs: needs[0] ?? [] }] : [];
	});
}

/** Steps that `next` leads to before they may be taken, by step and outcome. */
function nextComplaints(
	library: Library,
	flow: Flow
): { step: string; outcome: string; next: string; needs: string[] }[] {
	const { steps = {} } = onPlans(library, flow)[0] ?? {};
	return Object.entries(steps).flatMap(([id, step]) => {
		if (!('outcomes' in step)) return [];
		const answered = needsOf(steps, id).add(id);
		return Object.entries(step.outcomes).flatMap(([outcome, { next }]) => {
			const needs = next === undefined ? [] : (steps[next]?.needs ?? []);
			const open = needs.filter((need) => steps[need] && !answered.has(need));
			return next !== undefined && open.length ? [{ step: id, outcome, next, needs: open }] : [];
		});
	});
}

const list = (ids: readonly string[]) => ids.map((id) => `"${id}"`).join(', ');

/** A check that cannot be taken, or read, yet stands in vain where its author put it. Reasoning reference 2.6. */
export const prematureStep: Check = {
	code: 'premature-step',
	description: 'A step that is asked next has had everything that it needs.',
	level: 'advice',
	scope: 'flow',
	check(library, origins) {
		const nexts = new Map<string, Complaint>();
		const openings = Object.values(library.flows).flatMap((flow) => {
			for (const { step, outcome, next, needs } of nextComplaints(library, flow)) {
				const path = ['outcomes', outcome, 'next'];
				const own = flow.own.steps[step];
				nexts.set(`${own ? flow.id : ''} ${step} ${outcome}`, {
					...(own
						? origins.at('flows', flow.id, ['own', 'steps', step, ...path])
						: origins.at('steps', step, path)),
					message: `"${next}" cannot be asked here: it needs ${list(needs)} first.`,
					remedy: 'Lead to the step that comes first, or take the need away.'
				});
			}
			return openingComplaints(library, flow).map(({ index, needs }) => ({
				...origins.at('flows', flow.id, ['opening', index]),
				message: `"${flow.opening[index] ?? ''}" cannot be asked here: it needs ${list(needs)} first.`,
				remedy: 'Put the steps that it needs before it, or move it out of the opening.'
			}));
		});
		return [...openings, ...nexts.values()];
	}
};
