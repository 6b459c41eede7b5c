import type { Library } from '$lib/flow/library.ts';
import type { EventData, EventKind, JobEvent } from '$lib/job/events.ts';
import { loadReckoning } from '$lib/job/set-reckoning.ts';
import { replay } from '$lib/job/replay.ts';
import type { JobState } from '$lib/job/state.ts';
import type { Entry, JobStore } from '$lib/job/store.ts';
import { flowsOf } from './shelf.ts';
import { markLeft, stillHere } from './visit.ts';

/**
 * One job on a page beside the trace: its log, what it plays to, and the way to add to it. No advice is worked out, and
 * opening it here says nothing of the power state.
 */
export class JobDesk {
	#events = $state.raw<JobEvent[]>([]);
	#snapshots = $state.raw<Record<string, Library>>({});
	/** Why the last entry could not be kept. */
	problem = $state<string>();
	#stop: (() => void) | undefined;
	#wasHere = false;

	constructor(
		readonly id: string,
		readonly store: JobStore,
		readonly library: Library
	) {}

	readonly state: JobState = $derived.by(() =>
		replay(this.#events, { snapshots: this.#snapshots, today: this.library })
	);

	get events(): readonly JobEvent[] {
		return this.#events;
	}

	/** False where this browser has no such job. */
	get exists(): boolean {
		return this.#events.length > 0;
	}

	/** Read the log and follow it. */
	async open(): Promise<void> {
		this.#wasHere = stillHere(this.id, Date.now());
		await loadReckoning();
		await this.#read();
		this.#stop = this.store.watch(this.id, () => void this.#read());
	}

	/** It was under way a moment ago, on this page or beside it. */
	get underWay(): boolean {
		return this.#wasHere;
	}

	/** The power state was told here: as the page is left, the set is known to be so. */
	stay(): void {
		this.#wasHere = true;
	}

	/** The page is left; a job that was under way a moment ago still is. */
	close(): void {
		if (this.#wasHere) markLeft(this.id, Date.now());
		this.#stop?.();
	}

	async #read(): Promise<void> {
		const events = await this.store.events(this.id);
		const snapshots = await flowsOf(this.store, events);
		// The log only grows: fewer were read before those that are shown.
		if (events.length <= this.#events.length) return;
		this.#snapshots = snapshots;
		this.#events = events;
	}

	/** The entries of one deed; true once they are on disk, all of them, else `problem` says why none is. */
	addAll = async (entries: readonly Entry[]): Promise<boolean> => {
		const kept = await this.store.appendAll(this.id, entries);
		this.problem = kept.ok ? undefined : kept.hint;
		await this.#read();
		return kept.ok;
	};

	add = <Kind extends EventKind>(kind: Kind, data: EventData[Kind]): Promise<boolean> =>
		this.addAll([[kind, data] as unknown as Entry]);
}
