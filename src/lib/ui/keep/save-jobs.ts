import type { WrittenOut } from '$lib/job/copies.ts';
import type { JobStore } from '$lib/job/store.ts';
import { breather } from './breathe.ts';
import { fileName, saveFile } from './hand-over.ts';

/**
 * Jobs as one file.
 *
 * @param onjob called with the number of jobs that are written; false stops it
 */
export async function writtenOut(
	store: JobStore,
	jobs: readonly string[],
	onjob: (done: number) => boolean = () => true
): Promise<WrittenOut | undefined> {
	const [{ writeOut }, breathe] = [await import('$lib/job/copies.ts'), breather()];
	return writeOut(store, jobs, new Date().toISOString(), async (done) => {
		await breathe();
		return onjob(done);
	});
}

/** One job to a file that the browser saves. */
export async function saveJob(
	store: JobStore,
	{ job, title }: { job: string; title: string }
): Promise<void> {
	const written = await writtenOut(store, [job]);
	if (!written) return;
	saveFile(written.file, fileName(title));
	await store.markExported(written.copied, false);
}
