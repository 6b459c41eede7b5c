import type { Plan } from '../receiver/index.ts';
import type { Library } from './library.ts';
import { flowFits, heardOn } from './resolve.ts';
import type { Flow } from './schema.ts';
import { SIGNS, type PathOutcome, type Sign } from './terms.ts';

export interface Match {
	flow: Flow;
	/** Bands on which the set does what the flow says, and those on which it does something else. */
	agrees: string[];
	differs: string[];
	/** Signs of the flow that were noticed. */
	noticed: Sign[];
}

function compare(
	flow: Flow,
	plan: Plan,
	heard: Readonly<Record<string, PathOutcome>>,
	signs: readonly Sign[]
): Match {
	const said = heardOn(flow, plan);
	const known = Object.keys(said).filter((band) => heard[band] !== undefined);
	const same = (band: string) =>
		said[band] === heard[band] || flow['also-heard'][band]?.includes(heard[band] as PathOutcome) === true;
	return {
		flow,
		// A band that plays, where the flow allows it to play, speaks neither for the flow nor against it.
		agrees: known.filter((band) => same(band) && (heard[band] !== 'good' || said[band] === 'good')),
		differs: known.filter((band) => !same(band)),
		noticed: flow.signs.filter((sign) => signs.includes(sign))
	};
}

/** Signs by which a flow for this plan is entered, in the order of their list. */
export function signsOf(library: Library, plan: Plan): Sign[] {
	const used = new Set(
		Object.values(library.flows).flatMap((flow) => (flowFits(flow, plan) ? flow.signs : []))
	);
	return (Object.keys(SIGNS) as Sign[]).filter((sign) => used.has(sign));
}

/** Whether the flow waits for a sign that was not noticed. */
const waits = ({ flow, noticed }: Match) => Number(flow.signs.length > 0 && noticed.length === 0);

/**
 * The flows that a set of this plan can have, those first that no band contradicts. Of these, one whose sign was noticed
 * leads, for a blown fuse says more than a silent band; then those that say what is heard. One that differs everywhere
 * stays at the end, for the restorer to choose.
 */
export function matchFlows(
	library: Library,
	plan: Plan,
	heard: Readonly<Record<string, PathOutcome>>,
	signs: readonly Sign[] = []
): Match[] {
	return Object.values(library.flows)
		.filter((flow) => !flow.procedure && flowFits(flow, plan))
		.map((flow) => compare(flow, plan, heard, signs))
		.sort(
			(a, b) =>
				a.differs.length - b.differs.length ||
				b.noticed.length - a.noticed.length ||
				b.agrees.length - a.agrees.length ||
				waits(a) - waits(b) ||
				a.flow.id.localeCompare(b.flow.id)
		);
}

/** Work in a fixed order that a set of this plan can be given, in the order of titles. */
export const proceduresFor = (library: Library, plan: Plan): Flow[] =>
	Object.values(library.flows)
		.filter((flow) => flow.procedure && flowFits(flow, plan))
		.sort((a, b) => a.title.localeCompare(b.title));

/** Whether what is heard is what the flow says, on every band that was listened to, and something speaks for the flow. */
export const isFit = ({ agrees, differs, noticed }: Match): boolean =>
	differs.length === 0 && agrees.length + noticed.length > 0;
