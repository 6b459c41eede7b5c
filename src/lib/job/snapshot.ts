import { emptyLibrary, historyOf, type Library } from '../flow/library.ts';
import { resolveFlow } from '../flow/resolve.ts';
import type { Caution, Flow } from '../flow/schema.ts';
import { fits, type Plan } from '../receiver/index.ts';
import { bytesMatch, hashOfBytes, type Digest } from './hash.ts';

/** What is kept of one flow on one plan, so that a job replays the same whatever the library becomes. */
export interface Snapshot {
	/** `sha256:` and 64 hex digits, or `fnv:` and 16 where the page has no SHA-256. */
	hash: string;
	library: Library;
}

const listOf = (source: string | readonly string[]): readonly string[] =>
	typeof source === 'string' ? [source] : source;

const pick = <Value>(table: Record<string, Value>, wanted: Iterable<string>): Record<string, Value> =>
	Object.fromEntries(
		[...new Set(wanted)].sort().flatMap((id) => (Object.hasOwn(table, id) ? [[id, table[id] as Value]] : []))
	);

/** Cautions that a step or a suspect names, and those that cover a passage of power in such a set. */
function cautionsFor(library: Library, plan: Plan, named: Set<string>): Record<string, Caution> {
	const ids = Object.entries(library.cautions)
		.filter(([id, { covers, only }]) => named.has(id) || (covers.length > 0 && fits(plan.traits, only)))
		.map(([id]) => id);
	return pick(library.cautions, ids);
}

/**
 * The least library from which the flow resolves on this plan as it does from the whole one: the flow, the plan,
 * their suspects, steps and cautions, and the sources that these name.
 */
export function snapshotOf(library: Library, flow: Flow, plan: Plan): Library {
	const resolved = resolveFlow(library, flow, plan);
	const own = { ...flow.own.suspects };
	const families = resolved.suspects.map(({ family }) => family).filter((id) => !Object.hasOwn(own, id));
	const suspects = pick(library.suspects, families);
	const steps = pick(
		library.steps,
		Object.keys(resolved.steps).filter((id) => !Object.hasOwn(flow.own.steps, id))
	);
	const entities = [...Object.values(suspects), ...Object.values(own), ...Object.values(resolved.steps)];
	const cautions = cautionsFor(library, plan, new Set(entities.flatMap((entity) => entity.cautions)));
	const named = [flow, plan, ...entities, ...Object.values(cautions)].flatMap(({ source }) => listOf(source));
	const volts = Object.values(plan.points).flatMap((point) =>
		point.volts ? listOf(point.volts.source) : []
	);
	const values = Object.values(plan.values).flatMap(({ source }) => listOf(source));
	return plainCopy({
		...emptyLibrary(),
		suspects,
		steps,
		cautions,
		sources: pick(library.sources, [...named, ...volts, ...values]),
		plans: { [plan.id]: plan },
		flows: { [flow.id]: flow },
		history: historyOf(library)
	});
}

/** As it comes back from a file: no undefined, nothing shared. */
const plainCopy = (library: Library): Library => JSON.parse(JSON.stringify(library)) as Library;

/**
 * One text for one content. Tables are put in the order of their ids; within an entry the author's order stays,
 * since outcomes stand on their buttons in that order.
 */
export function canonicalText(library: Library): string {
	const kinds = Object.keys(emptyLibrary()) as (keyof Library)[];
	const table = (kind: keyof Library) =>
		pick((library[kind] ?? {}) as Record<string, unknown>, Object.keys(library[kind] ?? {}));
	// Jobs from before the library knew of a set's past have kept none: their hash must not change.
	const told = kinds.filter((kind) => kind !== 'history' || Object.keys(historyOf(library)).length > 0);
	return JSON.stringify(Object.fromEntries(told.map((kind) => [kind, table(kind)])));
}

export const hashOf = (library: Library, digest: Digest): Promise<string> =>
	hashOfBytes(new TextEncoder().encode(canonicalText(library)), digest);

/** What a job must keep before it opens this flow. */
export async function takeSnapshot(
	library: Library,
	flow: Flow,
	plan: Plan,
	digest: Digest
): Promise<Snapshot> {
	const least = snapshotOf(library, flow, plan);
	return { hash: await hashOf(least, digest), library: least };
}

/** Whether a library is what its hash says; `undefined` where this page cannot tell, because it has no SHA-256. */
export const matchesHash = ({ hash, library }: Snapshot, digest: Digest): Promise<boolean | undefined> =>
	bytesMatch(hash, new TextEncoder().encode(canonicalText(library)), digest);
