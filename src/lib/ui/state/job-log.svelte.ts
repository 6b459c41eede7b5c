import { questionOf } from '$lib/flow/advice.ts';
import type { Library } from '$lib/flow/library.ts';
import type { whereIs } from '$lib/flow/where.ts';
import type { EventData, EventKind, JobEvent } from '$lib/job/events.ts';
import { asKnown } from '$lib/job/growing.ts';
import { latestAt } from '$lib/job/order.ts';
import { replay, reopened } from '$lib/job/replay.ts';
import { loadReckoning } from '$lib/job/set-reckoning.ts';
import { situationIn, traceIn } from '$lib/job/shared-evidence.ts';
import { differencesFrom } from '$lib/job/differences.ts';
import { openRun, type JobState, type Warning } from '$lib/job/state.ts';
import { hashesOf, type Entry, type JobStore } from '$lib/job/store.ts';
import { describe } from '$lib/job/summary.ts';
import type { Ranking } from '$lib/suspects/index.ts';
import { Adviser } from './adviser.ts';
import { flowsOf } from './shelf.ts';
import { startWorker } from './start-worker.ts';
import { markLeft, stillHere } from './visit.ts';

/** One for the whole app: its worker is started with the first job. */
let adviser: Adviser | undefined;

/** The log of a job on its page: its events, what they play to, the search for the next step, and the way to add to it. */
export class JobLog {
	readonly id: string;
	readonly library: Library;
	readonly store: JobStore;
	#events = $state.raw<JobEvent[]>([]);
	#snapshots = $state.raw<Record<string, Library>>({});
	/** Where today's flows differ from those that the job was begun with: told once, as it is opened. */
	differences = $state.raw<Warning[]>([]);
	/** When the last entry was made before the job was opened now: ISO date and time. */
	leftAt = '';
	/** Why the last entry could not be kept. */
	problem = $state<string>();
	ready = $state(false);
	#stop: (() => void) | undefined;
	protected whereIs: typeof whereIs | undefined;
	#underWay: Promise<boolean> | undefined;
	#played: { events: JobEvent[]; snapshots: Record<string, Library>; state: JobState } | undefined;
	/** The search for the next step, by the state that it was made for. */
	readonly #rankings = new WeakMap<JobState, Ranking>();
	/** How many searches came after their state was shown. */
	#late = $state(0);

	/** @param trial the job is played to try a flow: no other page knows of it */
	constructor(
		id: string,
		store: JobStore,
		library: Library,
		readonly trial = false
	) {
		this.id = id;
		this.store = store;
		this.library = library;
	}

	/** Read the log and follow it; a set under power when it was left counts as off, not proved dead. */
	async open(): Promise<void> {
		adviser ??= new Adviser(startWorker);
		// The valve data are needed before the log is played.
		const [events, { whereIs }] = await Promise.all([
			this.#fetch(),
			import('$lib/flow/where.ts'),
			loadReckoning()
		]);
		this.whereIs = whereIs;
		this.leftAt = latestAt(events);
		const state = this.#play(events, this.#snapshots);
		this.differences = differencesFrom(this.library, state);
		const asLeft = stillHere(this.id, Date.now());
		const off = events.length > 0 && !asLeft ? reopened(state) : undefined;
		// Either way the search is made once, for what is shown.
		if (off) await this.add('power', off);
		else await this.#read();
		this.#stop = this.store.watch(this.id, (events) => void this.#follow(events));
		this.ready = true;
	}

	/** The page of the job is left; until it is long ago, the set is known to be as it was. */
	close(): void {
		if (this.ready) markLeft(this.id, Date.now());
		this.#stop?.();
	}

	/** What another tab has added; a deed of our own is shown whole, and was read by then. */
	async #follow(onDisk: readonly JobEvent[]): Promise<void> {
		await this.settled();
		if (onDisk.length > this.#events.length) await this.#read();
	}

	/** Show what was added, and keep the row of the list up with it. */
	async #show(): Promise<void> {
		await this.#read();
		if (this.exists) void this.store.describe(this.id, describe(this.state));
	}

	/** The log as it is on disk, with the flows that it opens. */
	async #fetch(): Promise<JobEvent[]> {
		// What stays the same object is not played again.
		const events = asKnown(this.#events, await this.store.events(this.id));
		// The same snapshots as before, unless a flow was opened: what was worked out from them is kept with them.
		if (hashesOf(events).some((hash) => !Object.hasOwn(this.#snapshots, hash)))
			this.#snapshots = await flowsOf(this.store, events);
		return events;
	}

	async #read(): Promise<void> {
		const events = await this.#fetch();
		// The log only grows: as many entries are the same ones, and fewer were read before those that are shown.
		if (events.length <= this.#events.length) return;
		await this.#advise(events);
		if (events.length > this.#events.length) this.#events = events;
	}

	/** What these events play to; worked out once, for the search and for the page. */
	#play(events: JobEvent[], snapshots: Record<string, Library>): JobState {
		const known = this.#played;
		if (known?.events === events && known.snapshots === snapshots) return known.state;
		const state = replay(events, { snapshots });
		this.#played = { events, snapshots, state };
		return state;
	}

	/** Search for the next step before anything is shown, so that it does not change under a finger. */
	async #advise(events: JobEvent[]): Promise<void> {
		const state = this.#play(events, this.#snapshots);
		const flow = openRun(state)?.flow;
		const trace = flow === undefined ? undefined : traceIn(state, flow);
		if (trace?.resolved.flow.procedure) return;
		const situation = flow === undefined ? undefined : situationIn(state, flow);
		if (!trace || !situation) return;
		adviser ??= new Adviser(startWorker);
		const { now, later } = await adviser.ask(questionOf(trace, situation));
		this.#rankings.set(state, now);
		void later?.then((whole) => {
			this.#rankings.set(state, whole);
			this.#late++;
		});
	}

	get exists(): boolean {
		return this.#events.length > 0;
	}

	readonly state: JobState = $derived.by(() => this.#play(this.#events, this.#snapshots));

	/** The search for the next step from here; a longer one takes its place when it is through. */
	protected get ranking(): Ranking | undefined {
		// Read, so that a search which came late is shown.
		return this.#late >= 0 ? this.#rankings.get(this.state) : undefined;
	}

	/** The deed under way has come to its end. */
	protected async settled(): Promise<void> {
		while (this.#underWay) await this.#underWay;
	}

	/** Add one event; it counts once it is on disk. */
	add = <Kind extends EventKind>(kind: Kind, data: EventData[Kind]): Promise<boolean> =>
		this.keep([[kind, data] as Entry]);

	/** A row of entries, as a person would make them. */
	addAll = (entries: readonly Entry[]): Promise<boolean> => this.keep(entries);

	/** The entries of one deed, shown when they are on disk. */
	protected async keep(entries: readonly Entry[]): Promise<boolean> {
		const kept = await this.store.appendAll(this.id, entries);
		this.problem = kept.ok ? undefined : kept.hint;
		await this.#show();
		return kept.ok;
	}

	/** Move the flow. While one deed is under way there is no other: a second tap is no second answer. */
	protected async deed(...entries: Entry[]): Promise<boolean> {
		if (this.#underWay) return false;
		const kept = this.keep(entries);
		this.#underWay = kept;
		try {
			return await kept;
		} finally {
			this.#underWay = undefined;
		}
	}
}
