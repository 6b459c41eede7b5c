import type { Plan } from '../receiver/index.ts';
import type { Library } from './library.ts';
import { flowFits, heardOn } from './resolve.ts';
import type { Flow } from './schema.ts';
import type { PathOutcome } from './terms.ts';

export interface Match {
	flow: Flow;
	/** Bands on which the set does what the flow says, and those on which it does something else. */
	agrees: string[];
	differs: string[];
}

function compare(flow: Flow, plan: Plan, heard: Readonly<Record<string, PathOutcome>>): Match {
	const said = heardOn(flow, plan);
	const known = Object.keys(said).filter((band) => heard[band] !== undefined);
	return {
		flow,
		agrees: known.filter((band) => said[band] === heard[band]),
		differs: known.filter((band) => said[band] !== heard[band])
	};
}

/**
 * The flows that a set of this plan can have, those first that say what is heard on its bands. A flow that agrees
 * on a bad band is a fit; one that differs everywhere stays at the end, for the restorer to choose.
 */
export function matchFlows(
	library: Library,
	plan: Plan,
	heard: Readonly<Record<string, PathOutcome>>
): Match[] {
	return Object.values(library.flows)
		.filter((flow) => flowFits(flow, plan))
		.map((flow) => compare(flow, plan, heard))
		.sort(
			(a, b) =>
				a.differs.length - b.differs.length ||
				b.agrees.length - a.agrees.length ||
				a.flow.id.localeCompare(b.flow.id)
		);
}

/** Whether what is heard is what the flow says, on every band that was listened to and on one at least. */
export const isFit = ({ agrees, differs }: Match): boolean => differs.length === 0 && agrees.length > 0;
