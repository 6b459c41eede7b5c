/** What of the browser's store a draft needs. It may be full; where it is refused, asking for it already fails. */
export type Shelf = () => Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

const nameOf = (job: string): string => `valvetrail-set-${job}`;

/** Keeps what is typed on the page of a set and not yet kept with the job: a reload or a look at another page loses nothing. */
export function keepDraft(shelf: Shelf, job: string, draft: string | undefined): void {
	try {
		if (draft === undefined) shelf().removeItem(nameOf(job));
		else shelf().setItem(nameOf(job), draft);
	} catch {
		// Without a store the fields hold it as long as the page is open.
	}
}

/** What was typed before and not kept; nothing where there is none, or where it cannot be read. */
export function keptDraft(shelf: Shelf, job: string): unknown {
	try {
		return JSON.parse(shelf().getItem(nameOf(job)) ?? 'null') ?? undefined;
	} catch {
		return undefined;
	}
}
