import { LISTENED } from './events.ts';
import { partIn, type Part } from './parts.ts';
import { linesOf } from './report-lines.ts';
import type { Heard, JobState } from './state.ts';
import type { TrailLine } from './trail.ts';

/** One change, one proof: changes of parts, and whether the set was heard after each. */

/** After such a listen the change is the first suspect. */
export const LOUD: readonly (keyof typeof LISTENED)[] = ['worse', 'dead'];

/** What was heard first after a place in the order of the job. */
export const firstListenAfter = ({ heard }: JobState, order: number): Heard | undefined =>
	heard.find((one) => one.order > order);

export interface Change {
	line: TrailLine;
	/** The part of the list, where it was one. */
	part: Part | undefined;
	/** What was heard first after it, in words; nothing where the set was not heard since. */
	listen: string | undefined;
}

function listenAfter(state: JobState, line: TrailLine): string | undefined {
	const rest = state.trail.slice(state.trail.indexOf(line) + 1);
	const tried = rest.find(
		({ kind, undone, refused }) => (kind === 'heard' || kind === 'proved') && !undone && refused === undefined
	);
	if (!tried) return undefined;
	const heard = state.heard.find(({ event }) => event === tried.event);
	return heard?.listened ? LISTENED[heard.listened] : (tried.answer ?? tried.what);
}

/** Every change that stands, oldest first. */
export const changesIn = (state: JobState): Change[] =>
	linesOf(state, 'part-changed').map((line) => {
		const changed = state.parts.find(({ event }) => event === line.event);
		return { line, part: partIn(state.parts, changed?.part), listen: listenAfter(state, line) };
	});

/** Changes after which nobody has heard the set yet. */
export const unprovedChanges = (state: JobState): Change[] =>
	changesIn(state).filter(({ listen }) => listen === undefined);

/** `2 unproved changes`, for whoever has to see it; empty where there is none. */
export function unprovedWords(state: JobState): string {
	const { length } = unprovedChanges(state);
	return length === 0 ? '' : `${length} unproved ${length === 1 ? 'change' : 'changes'}`;
}
