import type { Library } from '$lib/flow/library.ts';
import type { JobStore } from '$lib/job/store.ts';
import { openLibrary, openStore } from './world.ts';

/** A job as a page holds it. */
interface HeldJob {
	/** False where this browser has no such job. */
	readonly exists: boolean;
	open(): Promise<void>;
	close(): void;
}

export interface JobHere<Job> {
	job?: Job;
	/** Why nothing outlives the page, where that is so. */
	hint?: string;
	/** Why there is no job, in words for the restorer. */
	trouble?: string;
}

type Hold<Job> = (id: string, store: JobStore, library: Library) => Job;

/**
 * Opens the job that the fragment names: one page for all jobs, on any static host.
 *
 * @param hold how the page holds it; code of the page that is still on its way is waited for
 */
export async function openJobHere<Job extends HeldJob>(
	hold: Hold<Job> | Promise<Hold<Job>>
): Promise<JobHere<Job>> {
	try {
		const id = decodeURIComponent(location.hash.slice(1));
		const [held, { store, hint }, library] = await Promise.all([hold, openStore(), openLibrary()]);
		const job = held(id, store, library);
		await job.open();
		if (job.exists) return { job, ...(hint ? { hint } : {}) };
		job.close();
		return {
			trouble: 'There is no such job in this browser. It may have been deleted, or kept in another one.'
		};
	} catch (cause) {
		const why = cause instanceof Error ? cause.message : '';
		return { trouble: `The job could not be opened. ${why} Reload the page; nothing is lost.` };
	}
}
