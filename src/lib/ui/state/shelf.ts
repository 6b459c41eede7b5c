import type { Library } from '$lib/flow/library.ts';
import type { JobEvent } from '$lib/job/events.ts';
import { hashesOf, type JobStore } from '$lib/job/store.ts';

/**
 * Flows as jobs have kept them, by hash. What lies under a hash never changes, so what was worked out from it for one job
 * serves the next that opened the same flow.
 */
const shelf = new Map<string, Library>();

/** As many as a session at the bench opens; the first to come is the first to go. Our own choice. */
const MOST = 24;

function shelve(hash: string, library: Library): void {
	const [first] = shelf.keys();
	if (shelf.size >= MOST && first !== undefined) shelf.delete(first);
	shelf.set(hash, library);
}

/** The flows that these entries open, by hash; one that the store has lost is left out. */
export async function flowsOf(
	store: JobStore,
	events: readonly JobEvent[]
): Promise<Record<string, Library>> {
	const found: Record<string, Library> = {};
	for (const hash of hashesOf(events)) {
		const known = shelf.get(hash);
		const library = known ?? (await store.flow(hash));
		if (library) found[hash] = library;
		if (library && !known) shelve(hash, library);
	}
	return found;
}
