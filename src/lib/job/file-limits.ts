/** How much of a file is taken in. All are our own choice: far more than a life at the bench makes, far less than fills a device. */

/** Bytes of a file at most. */
export const LARGEST_FILE = 1_000_000_000;
/** Bytes of a file of version 1 at most: it holds one job, and is read in one piece. */
export const LARGEST_OLD_FILE = 20_000_000;
/** Letters of one line at most: a picture of the largest size has two million. */
export const LONGEST_LINE = 8_000_000;
/** Brackets within brackets at most. */
export const DEEPEST = 40;
export const MOST_JOBS = 20_000;
/** Entries of one job at most: a log is played as a whole, and this one in about a second. */
export const MOST_EVENTS = 10_000;
/** Different flows in one file at most. */
export const MOST_FLOWS = 1000;
/** Pictures in one file at most. */
export const MOST_FILE_PICTURES = 10_000;

/** Whether brackets nest deeper than any record does; read letter by letter, before a parser sees it. */
export function nestsTooDeep(text: string): boolean {
	let depth = 0;
	let quoted = false;
	for (let at = 0; at < text.length; at++) {
		const letter = text.charCodeAt(at);
		if (quoted) {
			if (letter === 0x5c) at++;
			else if (letter === 0x22) quoted = false;
		} else if (letter === 0x22) quoted = true;
		else if (letter === 0x7b || letter === 0x5b) {
			if (++depth > DEEPEST) return true;
		} else if (letter === 0x7d || letter === 0x5d) depth--;
	}
	return false;
}
