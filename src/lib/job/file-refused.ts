/** A file is taken whole or not at all: where it fails, and why. */
export interface FileRefusal {
	ok: false;
	/** `line 14, event k3v9.12, data.outcome`. */
	place: string;
	hint: string;
}

/** Ends the reading of a file from deep within it. Whoever asked for the file gets a `FileRefusal`. */
export class Refused extends Error {
	constructor(
		readonly place: string,
		readonly hint: string
	) {
		super(`${place}: ${hint}`);
	}
}

export function refuse(place: string, hint: string): never {
	throw new Refused(place, hint);
}

/** The refusal that ended the work; an error of ours stays one. */
export function refusalOf(error: unknown): FileRefusal {
	if (error instanceof Refused) return { ok: false, place: error.place, hint: error.hint };
	throw error;
}

/** Where it is told to take a file again. */
export const AGAIN = 'Take the file again from where it was saved.';
