import type { JobEvent } from './events.ts';

/** By bench, then by number: `b.9` before `b.10`. */
export const byId = (a: JobEvent, b: JobEvent): number =>
	a.bench === b.bench ? a.seq - b.seq : a.bench < b.bench ? -1 : 1;

export interface Ordered {
	events: JobEvent[];
	/** Events that name a parent which is not there, or stand in a ring. They are kept, in the order of their ids. */
	stray: JobEvent[];
}

/** Where an event goes among those that wait, so that the list stays in the order of ids. */
function insert(waiting: JobEvent[], event: JobEvent): void {
	const place = waiting.findIndex((other) => byId(event, other) < 0);
	waiting.splice(place < 0 ? waiting.length : place, 0, event);
}

function childrenOf(events: readonly JobEvent[]): Map<string, JobEvent[]> {
	const children = new Map<string, JobEvent[]>();
	for (const event of events)
		for (const parent of event.parents) {
			const others = children.get(parent);
			if (others) others.push(event);
			else children.set(parent, [event]);
		}
	return children;
}

/**
 * Events in the order in which they are played: parents first, then by id; the clock has no say. The same set of
 * events gives the same order on every bench.
 */
export function inOrder(given: readonly JobEvent[]): Ordered {
	const known = new Map(given.map((event) => [event.id, event]));
	const all = [...known.values()];
	const children = childrenOf(all);
	const open = new Map(all.map((event) => [event.id, event.parents.filter((id) => known.has(id)).length]));
	const waiting = all.filter(({ id }) => open.get(id) === 0).sort(byId);
	const events: JobEvent[] = [];
	for (let next = waiting.shift(); next; next = waiting.shift()) {
		events.push(next);
		for (const child of children.get(next.id) ?? []) {
			const left = (open.get(child.id) ?? 0) - 1;
			open.set(child.id, left);
			if (left === 0) insert(waiting, child);
		}
	}
	const ring = all.filter(({ id }) => (open.get(id) ?? 0) > 0).sort(byId);
	const orphans = events.filter(({ parents }) => parents.some((id) => !known.has(id)));
	return { events: [...events, ...ring], stray: [...orphans, ...ring] };
}

/** The events that nothing follows yet: the parents of the next one. */
export function headsOf(events: readonly JobEvent[]): string[] {
	const followed = new Set(events.flatMap(({ parents }) => parents));
	return [...events]
		.filter(({ id }) => !followed.has(id))
		.sort(byId)
		.map(({ id }) => id);
}

/** The latest date that any event bears; a log taken in from another bench need not end with its newest entry. */
export const latestAt = (events: readonly JobEvent[]): string =>
	events.reduce((latest, { at }) => (at > latest ? at : latest), '');

/** Whether each event simply follows the one before: no two benches, nothing apart. */
export const isOneLine = (ordered: readonly JobEvent[]): boolean =>
	ordered.every(({ parents }, index) =>
		index === 0 ? parents.length === 0 : parents.length === 1 && parents[0] === ordered[index - 1]?.id
	);

/** For each event, all that came before it by descent. */
export function ancestorsOf(ordered: readonly JobEvent[]): Map<string, Set<string>> {
	const ancestors = new Map<string, Set<string>>();
	for (const { id, parents } of ordered) {
		const before = new Set(parents);
		for (const parent of parents) for (const older of ancestors.get(parent) ?? []) before.add(older);
		ancestors.set(id, before);
	}
	return ancestors;
}
