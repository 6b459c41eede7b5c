import { normalOf, outcomesOf } from '../evidence.ts';
import type { Library } from '../library.ts';
import type { Flow, Step } from '../schema.ts';
import { healthyRow } from '../../suspects/index.ts';
import { differ, namedPlaces, onPlans, rowsAt } from './rows.ts';
import type { Check } from './types.ts';

/** Steps that are asked for the sake of others, or of safety. */
function serving(library: Library, flow: Flow): Set<string> {
	const steps = [...flow.uses.map((id) => library.steps[id]), ...Object.values(flow.own.steps)];
	return new Set([
		...steps.flatMap((step) => step?.needs ?? []),
		...(flow.before?.limiter ?? []),
		...(flow.before?.live ?? [])
	]);
}

/** Whether some suspect of the flow shows, at this step, what a sound set does not. */
function speaks(library: Library, flow: Flow, id: string, step: Step): boolean {
	const plans = onPlans(library, flow).filter(({ steps }) => steps[id]);
	const sound = healthyRow(outcomesOf(step), normalOf(step));
	return (
		plans.length === 0 ||
		plans.some((resolved) => rowsAt(resolved, step, namedPlaces(resolved)).some((row) => differ(row, sound)))
	);
}

/** A check outside the brackets moves none of them. Reasoning reference 2.6. */
export const irrelevantStep: Check = {
	code: 'irrelevant-step',
	description: 'Each step of a flow tells something of a suspect that the flow names.',
	level: 'advice',
	scope: 'flow',
	check: (library, origins) =>
		Object.values(library.flows).flatMap((flow) => {
			// A procedure traces nobody: its steps are asked for their own sake.
			if (flow.procedure) return [];
			const needed = serving(library, flow);
			return [...flow.uses, ...Object.keys(flow.own.steps)].flatMap((id, i) => {
				const step = flow.own.steps[id] ?? library.steps[id];
				if (!step || needed.has(id) || speaks(library, flow, id, step)) return [];
				const path = flow.own.steps[id] ? ['own', 'steps', id] : ['uses', i];
				return [
					{
						...origins.at('flows', flow.id, path, true),
						message: `"${id}" shows the same whichever suspect of this flow is the fault.`,
						remedy: 'Leave the step out, or name the suspects that it is for.'
					}
				];
			});
		})
};
