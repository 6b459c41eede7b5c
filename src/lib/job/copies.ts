import type { JobEvent } from './events.ts';
import { refusalOf, type FileRefusal } from './file-refused.ts';
import { FileWriter } from './file.ts';
import type { Digest } from './hash.ts';
import { jobsIn } from './read-file.ts';
import { rowOf } from './row.ts';
import { byId } from './order.ts';
import type { KeptPicture } from './picture.ts';
import { picturesIn, type Imported, type JobFile, type JobStore } from './store.ts';

/**
 * Called between two pieces of work: tells how far it is and gives the page its turn.
 *
 * @returns false to stop
 */
export type OnPiece = (done: number, all: number) => Promise<boolean>;

/** Jobs that are read from the store at one time. */
const BATCH = 25;
/** Bytes of pictures that are written to the store at one time, or a little more. */
const PICTURES_AT_ONCE = 8_000_000;

export interface WrittenOut {
	file: Blob;
	/** By job: how many entries went into the file. */
	copied: Map<string, number>;
}

/**
 * Jobs as one file. It is made of pieces that the browser holds, not of one long text.
 *
 * @param exported ISO date and time of the copy
 * @returns nothing where it was stopped
 */
export async function writeOut(
	store: JobStore,
	jobs: readonly string[],
	exported: string,
	onpiece: OnPiece
): Promise<WrittenOut | undefined> {
	const writer = new FileWriter(store);
	const pieces: BlobPart[] = [writer.head(exported)];
	const copied = new Map<string, number>();
	for (let at = 0; at < jobs.length; at += BATCH) {
		if (!(await onpiece(at, jobs.length))) return undefined;
		const logs = await Promise.all(jobs.slice(at, at + BATCH).map((job) => store.events(job)));
		const texts: string[] = [];
		// A job that was deleted meanwhile is not in the file.
		for (const events of logs.filter(({ length }) => length > 0)) {
			texts.push(await writer.job(events));
			copied.set(events[0]?.job ?? '', events.length);
		}
		pieces.push(new Blob(texts));
	}
	pieces.push(writer.end());
	return { file: new Blob(pieces, { type: 'application/json' }), copied };
}

/** What a file holds of one job, and whether the job is here: as in the file, or otherwise. */
export interface FoundJob {
	job: string;
	title: string;
	events: number;
	here: 'new' | 'same' | 'other';
}
export interface Found {
	/** ISO date and time of the copy. */
	exported: string;
	jobs: FoundJob[];
	pictures: number;
}

const STOPPED: FileRefusal = { ok: false, place: '', hint: 'Stopped. Nothing was taken in.' };

const sameLog = (one: readonly JobEvent[], other: readonly JobEvent[]): boolean =>
	one.length === other.length &&
	JSON.stringify([...one].sort(byId)) === JSON.stringify([...other].sort(byId));

async function foundJob(store: JobStore, { events }: JobFile): Promise<FoundJob> {
	const job = events[0]?.job ?? '';
	const here = await store.events(job);
	return {
		job,
		title: rowOf(events).title,
		events: events.length,
		here: here.length === 0 ? 'new' : sameLog(events, here) ? 'same' : 'other'
	};
}

/** Go through a whole file, and check all that is in it. Nothing is stored. */
export async function lookInto(
	store: JobStore,
	file: Blob,
	digest: Digest,
	onpiece: OnPiece
): Promise<{ ok: true; found: Found } | FileRefusal> {
	const found: Found = { exported: '', jobs: [], pictures: 0 };
	try {
		for await (const { job, read } of jobsIn(file, { digest })) {
			found.exported = job.exported;
			found.pictures += job.pictures.length;
			found.jobs.push(await foundJob(store, job));
			if (!(await onpiece(read, file.size))) return STOPPED;
		}
		return { ok: true, found };
	} catch (error) {
		return refusalOf(error);
	}
}

export type TakenIn = { ok: true; jobs: Imported[] } | { ok: false; hint: string };

/**
 * Take in the jobs of a file that `lookInto` has found good. Where it cannot be done to the end, or is stopped, what was
 * written is removed again.
 *
 * @param skip jobs that are left out, by id
 * @param onback called as `onpiece` is while jobs are removed again; it cannot be stopped
 */
export async function takeIn(
	store: JobStore,
	file: Blob,
	skip: readonly string[],
	onpiece: OnPiece,
	onback: OnPiece = onpiece
): Promise<TakenIn> {
	const taken: Imported[] = [];
	let batch: JobFile[] = [];
	const write = async (): Promise<string | undefined> => {
		const kept = await store.importJobs(batch);
		if (!kept.ok) return kept.hint;
		taken.push(...kept.value);
		batch = [];
		return undefined;
	};
	const giveUp = async (hint: string): Promise<TakenIn> => {
		for (let at = 0; at < taken.length; at += BATCH) {
			await onback(at, taken.length);
			await store.purge(...taken.slice(at, at + BATCH).map(({ job }) => job));
		}
		return { ok: false, hint };
	};
	try {
		const lost = new LostPictures(store);
		for await (const { job, read } of jobsIn(file)) {
			if (skip.includes(job.events[0]?.job ?? '')) await lost.note(job);
			else batch.push(lost.given(job));
			if (!isEnough(batch)) continue;
			const trouble = await write();
			if (trouble !== undefined) return await giveUp(trouble);
			if (!(await onpiece(read, file.size))) return await giveUp(STOPPED.hint);
		}
		const trouble = await write();
		return trouble === undefined ? { ok: true, jobs: taken } : await giveUp(trouble);
	} catch {
		// The file was changed or taken away while it was read.
		return giveUp('The file could not be read to its end. Choose it again.');
	}
}

const isEnough = (batch: readonly JobFile[]): boolean => {
	const bytes = batch.flatMap(({ pictures }) => pictures.map((picture) => picture.bytes.byteLength));
	return batch.length >= BATCH || bytes.reduce((sum, size) => sum + size, 0) >= PICTURES_AT_ONCE;
};

/** Pictures of jobs that are left out and that are not here: a later job of the file may name them. */
class LostPictures {
	readonly #lost = new Map<string, KeptPicture>();

	constructor(readonly store: JobStore) {}

	async note({ pictures }: JobFile): Promise<void> {
		for (const picture of pictures)
			if (!(await this.store.picture(picture.hash))) this.#lost.set(picture.hash, picture);
	}

	given(job: JobFile): JobFile {
		const more = picturesIn(job.events).flatMap((hash) => this.#lost.get(hash) ?? []);
		return more.length > 0 ? { ...job, pictures: [...job.pictures, ...more] } : job;
	}
}
