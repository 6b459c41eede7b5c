import type { Library } from '../flow/library.ts';
import type { EventData, EventKind, EventOf, JobEvent } from './events.ts';
import { eventId } from './events.ts';
import { headsOf } from './order.ts';
import { MOST_PICTURES, type KeptPicture } from './picture.ts';
import type { Description, JobRow } from './row.ts';
import type { Snapshot } from './snapshot.ts';

/** Where jobs are kept. The log only grows: there is no call that changes an event, or removes less than a job. */
export interface JobStore {
	/** False where nothing outlives the page: say so on it. */
	readonly keeps: boolean;
	/** Random name of this bench, made on its first use. */
	bench(): Promise<string>;
	/** Open a job, which may be on a set like that of an earlier one: its id is in the event. */
	start(like?: string): Promise<Kept<EventOf<'started'>>>;
	/** Resolves when the event is on disk, not before. A flow has to be kept before it is opened. */
	append<Kind extends EventKind>(job: string, kind: Kind, data: EventData[Kind]): Promise<Appended<Kind>>;
	/** The entries of one deed, in their order: all of them on disk, or none. */
	appendAll(job: string, entries: readonly Entry[]): Promise<Kept<JobEvent[]>>;
	/** In the order of their numbers on this bench; `replay` finds the order of the job. */
	events(job: string): Promise<JobEvent[]>;
	/** The list, the latest first. */
	jobs(): Promise<JobRow[]>;
	/** Call back now, and whenever the job grows, from another tab too. Returns the way to stop. */
	watch(job: string, callback: (events: JobEvent[]) => void): () => void;
	watchJobs(callback: (rows: JobRow[]) => void): () => void;
	keepFlow(snapshot: Snapshot): Promise<Kept<void>>;
	flow(hash: string): Promise<Library | undefined>;
	/** A picture has to be kept before an event names it. One that no event has named after a day is dropped. */
	keepPicture(job: string, picture: KeptPicture): Promise<Kept<void>>;
	picture(hash: string): Promise<KeptPicture | undefined>;
	/** Put to the row what a played job says of itself. */
	describe(job: string, description: Description): Promise<Kept<void>>;
	/**
	 * A copy in a file was made now.
	 *
	 * @param copied by job: how many of its entries the file holds
	 * @param whole every job is in the file
	 */
	markExported(copied: ReadonlyMap<string, number>, whole: boolean): Promise<Kept<void>>;
	/** When every job was copied to one file: ISO date and time. */
	wholeCopy(): Promise<string | undefined>;
	/**
	 * Add jobs from a file that was read and checked, all or none. One that is here already becomes a copy with a new id.
	 */
	importJobs(files: readonly JobFile[]): Promise<Kept<Imported[]>>;
	/** Remove jobs whole, with the snapshots and pictures that no other job names. */
	purge(...jobs: string[]): Promise<Kept<void>>;
	close(): void;
}

/** An entry before the store gives it its number, date and parents. */
export type Entry = { [Kind in EventKind]: readonly [kind: Kind, data: EventData[Kind]] }[EventKind];

/** What a store needs of the world. */
export interface StoreWorld {
	/** Milliseconds, as `Date.now` gives them. */
	now: () => number;
	/** A new random name, letters and digits, for a bench or a job. */
	newId: () => string;
}

/**
 * Done, or why not. `full`: no room. `refused`: the browser keeps nothing here. `newer`: the data belong to a newer
 * version of the program. `gone`: the job was deleted. `many`: the job has all the pictures that one can have.
 */
export type Kept<Value> = { ok: true; value: Value } | StoreRefusal;
export interface StoreRefusal {
	ok: false;
	reason: 'full' | 'refused' | 'newer' | 'gone' | 'many';
	hint: string;
}

/** An event that could not be written is handed back: what was entered is not lost. */
export type Appended<Kind extends EventKind> =
	{ ok: true; value: EventOf<Kind> } | (StoreRefusal & { unsaved: { kind: Kind; data: EventData[Kind] } });

export interface Imported {
	job: string;
	/** The job was here already, so this is a copy of it. */
	copied: boolean;
}

/** One job of a file, with the flows that it replays from and the pictures that no job before it has named. */
export interface JobFile {
	/** ISO date and time of the copy. */
	exported: string;
	events: JobEvent[];
	flows: Record<string, Library>;
	pictures: KeptPicture[];
}

export const HINTS: Readonly<Record<StoreRefusal['reason'], string>> = {
	full: 'There is no room left for this page on the device, so the entry was not kept. Everything before it is safe. Save the jobs to files, free some space, and enter it again.',
	refused:
		'This browser keeps nothing for this page (a private window, or storage is switched off). Jobs last until the page is closed: save each to a file, or open the page in an ordinary window.',
	newer:
		'The jobs here were written by a newer version of this program. Reload the page to get that version; nothing is lost.',
	gone: 'This job has been deleted, perhaps in another tab, so the entry was not kept. Go back to the list of jobs; a copy in a file brings the job back.',
	many: `This job has ${MOST_PICTURES} pictures, and takes no more. Take the next ones with the device's own camera, and note here what they show.`
};

export const refusal = (reason: StoreRefusal['reason']): StoreRefusal => ({
	ok: false,
	reason,
	hint: HINTS[reason]
});

/** Only the first entry opens a job: any other one comes to a job that was deleted meanwhile. */
export const isGone = (log: readonly JobEvent[], kind: EventKind): boolean =>
	log.length === 0 && kind !== 'started';

/** The next event of a job: its parents are the heads that nothing follows yet. */
export function nextEvent<Kind extends EventKind>(
	log: readonly JobEvent[],
	stamp: { job: string; bench: string; seq: number; now: number },
	kind: Kind,
	data: EventData[Kind]
): EventOf<Kind> {
	const { job, bench, seq, now } = stamp;
	if ((kind === 'started') !== (log.length === 0))
		throw new Error(`A job begins with "started", and only once (${job}, ${kind}).`);
	const id = eventId(bench, seq);
	return { id, job, bench, seq, parents: headsOf(log), kind, data, at: new Date(now).toISOString() };
}

/** Hashes of the flows that these events open. */
export const hashesOf = (events: readonly JobEvent[]): string[] => [
	...new Set(events.flatMap((event) => (event.kind === 'flow-opened' ? [event.data.hash] : [])))
];

/** Hashes of the pictures that these events name, those taken back too: undo can be undone by a copy. */
export const picturesIn = (events: readonly JobEvent[]): string[] => [
	...new Set(events.flatMap((event) => (event.kind === 'pictured' ? [event.data.picture] : [])))
];

/** One more picture, of those that the job has named already or not, would be too many. */
export const isCrowded = (log: readonly JobEvent[], hash: string): boolean => {
	const named = picturesIn(log);
	return named.length >= MOST_PICTURES && !named.includes(hash);
};

/** How long a picture may be kept before an event names it, in milliseconds: longer than any page takes to do it. */
export const LOOSE_FOR = 24 * 3600 * 1000;

export const latestFirst = (rows: readonly JobRow[]): JobRow[] =>
	[...rows].sort((a, b) =>
		a.updated === b.updated ? (a.job < b.job ? -1 : 1) : a.updated < b.updated ? 1 : -1
	);
