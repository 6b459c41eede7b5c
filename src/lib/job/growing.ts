/** So many of the latest states are kept, each of which may be as large as its list: all of them would fill the memory. */
const KEPT = 50;

interface Folded<Entry, State> {
	name: string;
	entries: readonly Entry[];
	/** The state after so many entries is the first of those that are kept. */
	from: number;
	states: readonly State[];
}

function inCommon<Entry>(before: readonly Entry[], now: readonly Entry[]): number {
	const parting = before.findIndex((entry, place) => entry !== now[place]);
	return parting < 0 ? before.length : parting;
}

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
	const last = new WeakMap<Owner, Folded<Entry, State>>();
	return (owner, name, entries, start, step) => {
		const known = last.get(owner);
		const common = known?.name === name ? inCommon(known.entries, entries) : 0;
		const goesOn = known?.name === name && common >= known.from;
		let from = goesOn ? known.from : 0;
		const states = goesOn ? known.states.slice(0, common - from + 1) : [start()];
		for (const [place, entry] of entries.entries()) {
			if (place < from + states.length - 1) continue;
			states.push(step(states.at(-1) as State, entry, place));
			if (states.length > KEPT) {
				states.shift();
				from += 1;
			}
		}
		last.set(owner, { name, entries: [...entries], from, states });
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
