import { outcomesOf } from '../evidence.ts';
import type { Library } from '../library.ts';
import type { ResolvedFlow } from '../resolve.ts';
import type { Flow, Step } from '../schema.ts';
import { atStart, gainAt, NOTHING, onPlans, rowsAt } from './rows.ts';
import type { Check, Complaint } from './types.ts';

interface Lead {
	step: string;
	outcome: string;
	next: string;
}

const leadsOf = (step: string, written: Step): Lead[] =>
	'outcomes' in written
		? Object.entries(written.outcomes).flatMap(([outcome, { next }]) =>
				next === undefined ? [] : [{ step, outcome, next }]
			)
		: [];

/** Bits that the step led to still tells after this answer alone; nothing where the plan has not both. */
function gainAfter(
	library: Library,
	resolved: ResolvedFlow,
	{ step, outcome, next }: Lead
): number | undefined {
	const { flow, steps } = resolved;
	const [here, there] = [step, next].map((id) =>
		steps[id] ? (flow.own.steps[id] ?? library.steps[id]) : undefined
	);
	if (!here || !there) return undefined;
	const column = outcomesOf(here).indexOf(outcome);
	const rows = rowsAt(resolved, here);
	const after = atStart(resolved).map((weight, i) => weight * (rows[i]?.[column] ?? 0));
	return gainAt(resolved, there, after);
}

/** Leads of a flow that tell nothing on any plan, and those that tell something on one. */
function judge(library: Library, flow: Flow): { lead: Lead; pointless: boolean }[] {
	const plans = onPlans(library, flow);
	const ids = [...flow.uses, ...Object.keys(flow.own.steps)];
	const leads = ids.flatMap((id) => {
		const step = flow.own.steps[id] ?? library.steps[id];
		return step ? leadsOf(id, step) : [];
	});
	return leads.flatMap((lead) => {
		const gains = plans.flatMap((resolved) => gainAfter(library, resolved, lead) ?? []);
		return gains.length ? [{ lead, pointless: gains.every((bits) => bits < NOTHING) }] : [];
	});
}

/** An answer that has settled already what the step it leads to would ask. */
export const pointlessNext: Check = {
	code: 'pointless-next',
	description: 'The step that an answer leads to still tells something after that answer.',
	level: 'advice',
	scope: 'flow',
	check(library, origins) {
		const found = new Map<string, { complaint: Complaint; useful: boolean }>();
		for (const flow of Object.values(library.flows))
			for (const { lead, pointless } of judge(library, flow)) {
				const { step, outcome, next } = lead;
				const own = Object.hasOwn(flow.own.steps, step);
				const key = `${own ? flow.id : ''} ${step} ${outcome}`;
				const path = ['outcomes', outcome, 'next'];
				const place = own
					? origins.at('flows', flow.id, ['own', 'steps', step, ...path])
					: origins.at('steps', step, path);
				const complaint = {
					...place,
					message: `After "${outcome}" the step "${next}" tells next to nothing more (under ${NOTHING} bit).`,
					remedy: 'Lead to a step that parts those who are still suspected, or leave  next  out.'
				};
				// A shared step leads on for many flows: it is enough that one of them has the use of it.
				found.set(key, { complaint, useful: !pointless || found.get(key)?.useful === true });
			}
		return [...found.values()].flatMap(({ complaint, useful }) => (useful ? [] : [complaint]));
	}
};
