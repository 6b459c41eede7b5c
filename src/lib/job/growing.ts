/**
 * Folds of a list that grows at its end, such as a log after every entry: the entries that a fold has in common with the
 * last one of the same owner are not worked out again. Entries are the same ones where they are the same objects.
 *
 * @returns a fold; `name` tells apart what is folded differently, and `start` gives the state before the first entry
 */
export function growingFold<Owner extends object, Entry, State>(): (
	owner: Owner,
	name: string,
	entries: readonly Entry[],
	start: () => State,
	step: (state: State, entry: Entry, place: number) => State
) => State {
	const last = new WeakMap<Owner, { name: string; entries: readonly Entry[]; states: State[] }>();
	return (owner, name, entries, start, step) => {
		const known = last.get(owner);
		const before = known?.name === name ? known : { entries: [], states: [start()] };
		const parting = before.entries.findIndex((entry, place) => entry !== entries[place]);
		const common = parting < 0 ? before.entries.length : parting;
		const states = before.states.slice(0, common + 1);
		for (const [place, entry] of entries.entries())
			if (place >= common) states.push(step(states[place] as State, entry, place));
		last.set(owner, { name, entries: [...entries], states });
		return states.at(-1) as State;
	};
}

/** A log read anew, with the same objects as before for entries that were known: an entry never changes. */
export function asKnown<Entry extends { id: string }>(
	known: readonly Entry[],
	read: readonly Entry[]
): Entry[] {
	const before = new Map(known.map((entry) => [entry.id, entry]));
	return read.map((entry) => before.get(entry.id) ?? entry);
}
