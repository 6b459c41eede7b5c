/**
 * Whether a job was left a moment ago on this very page, as for a sum and back: then the set is as it was left. The mark
 * lives as long as the page does. A reload, a crash, another tab or a long absence leaves none, and the set then counts
 * as switched off and not proved dead.
 */

/** After so long away nobody knows any more what happened to the set. Our own choice. */
export const STILL_HERE_MINUTES = 15;

const left = new Map<string, number>();

/** The page of this job was left for another one of the app. */
export const markLeft = (job: string, now: number): void => void left.set(job, now);

/** Whether the job is taken up where it was put down; the mark is used up by asking. */
export function stillHere(job: string, now: number): boolean {
	const at = left.get(job);
	left.delete(job);
	return at !== undefined && now >= at && now - at <= STILL_HERE_MINUTES * 60_000;
}
