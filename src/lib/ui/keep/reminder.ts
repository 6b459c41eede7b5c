import { changedSinceCopy, type JobRow } from '$lib/job/row.ts';

const DAY = 24 * 3600 * 1000;
/** Days that a job may go on without a copy before it is told. Our own choice. */
export const REMIND_AFTER = 14;
/** Days without a word once the line was put away. */
const QUIET = 30;
const KEY = 'valvetrail-reminded';

/**
 * How many jobs have entries that no file holds, where the oldest of these has waited for long; else none. A job that was
 * never copied waits from its latest entry on, as nobody knows when its first change came.
 */
export function waiting(rows: readonly JobRow[], now: number): number {
	const changed = rows.filter(changedSinceCopy);
	const since = (row: JobRow) => Date.parse(row.exported ?? row.updated);
	const late = changed.some((row) => now - since(row) > REMIND_AFTER * DAY);
	return late ? changed.length : 0;
}

/** The line was put away, not long ago. */
export function isQuiet(now: number): boolean {
	try {
		return now - Number(localStorage.getItem(KEY) ?? 0) < QUIET * DAY;
	} catch {
		return false;
	}
}

export function putAway(now: number): void {
	try {
		localStorage.setItem(KEY, String(now));
	} catch {
		// Storage refused: it is put away until the page is loaded again.
	}
}
