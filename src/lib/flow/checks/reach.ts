import type { Plan } from '../../receiver/index.ts';
import type { Library } from '../library.ts';
import { flowFits, stepsFor } from '../resolve.ts';
import type { Flow, Step } from '../schema.ts';
import type { Check } from './types.ts';

const plansOf = (library: Library, flow: Flow): Plan[] =>
	Object.values(library.plans).filter((plan) => flowFits(flow, plan));

/** Steps whose `needs` can all be met, beginning with those that need nothing. */
function reachable(steps: Record<string, Step>): Set<string> {
	const reached = new Set<string>();
	for (let grown = true; grown;) {
		grown = false;
		for (const [id, step] of Object.entries(steps))
			if (!reached.has(id) && step.needs.every((need) => reached.has(need) || !steps[need])) {
				reached.add(id);
				grown = true;
			}
	}
	return reached;
}

export const unreachableStep: Check = {
	code: 'unreachable-step',
	description: 'Every step of a flow can be taken in at least one plan that the flow fits.',
	level: 'error',
	scope: 'flow',
	check(library, origins) {
		return Object.values(library.flows).flatMap((flow) => {
			const plans = plansOf(library, flow);
			// Where no plan fits, that alone is the fault.
			if (!plans.length) return [];
			const reached = new Set(plans.flatMap((plan) => [...reachable(stepsFor(library, flow, plan))]));
			const shared = flow.uses.flatMap((id, i) => (reached.has(id) ? [] : [{ id, path: ['uses', i] }]));
			const own = Object.keys(flow.own.steps).flatMap((id) =>
				reached.has(id) ? [] : [{ id, path: ['own', 'steps', id] }]
			);
			return [...shared, ...own].map(({ id, path }) => ({
				...origins.at('flows', flow.id, path, true),
				message: `No set that fits this flow can ever take the step "${id}".`,
				remedy:
					'Check its test point, its traits (only, never) and whether the steps it needs wait for each other.'
			}));
		});
	}
};

export const noPlanFits: Check = {
	code: 'no-plan-fits',
	description: 'There is a receiver plan for each flow.',
	level: 'error',
	scope: 'flow',
	check: (library, origins) =>
		Object.values(library.flows)
			.filter((flow) => plansOf(library, flow).length === 0)
			.map((flow) => ({
				...origins.at('flows', flow.id, ['bands'], true),
				message: 'No receiver plan has the bands and traits that this flow asks for.',
				remedy: 'Widen its bands or traits, or add a plan in flows/shared/plans/.'
			}))
};
