import { nameOf } from '../flow/explain.ts';
import type { LedgerEntry } from '../flow/ledger.ts';
import type { PlacedSuspect } from '../flow/resolve.ts';
import type { EventOf, JobEvent } from './events.ts';
import { partIn, partsFrom, type PartLine } from './parts.ts';
import { allRuns, type JobState, type Warning } from './state.ts';
import { firstListenAfter, LOUD } from './unproved.ts';

/** The parts ledger: what was tested or changed on the way, outside the proof of a flow. */

/** One entry of the ledger, oldest first in the state. */
export interface LedgerLine extends Omit<LedgerEntry, 'after'> {
	event: string;
	order: number;
}

interface Kept {
	state: JobState;
	refused?: string;
	warning?: Omit<Warning, 'event'>;
}

const placedIn = (state: JobState, part: string): PlacedSuspect | undefined =>
	allRuns(state)
		.flatMap(({ run }) => run.resolved.suspects)
		.find(({ id }) => id === part);

const withLine = (state: JobState, line: LedgerLine): JobState => ({
	...state,
	ledger: [...state.ledger, line]
});

/** The suspects of a listed part as one entry; none where no trace can know it. */
const entryOf = (suspects: readonly string[]): Pick<LedgerEntry, 'suspect' | 'also'> | undefined => {
	const [suspect, ...also] = suspects;
	return suspect === undefined ? undefined : { suspect, ...(also.length ? { also } : {}) };
};

/** A part good in one test and bad in the next, with no change between: one of the two tests was wrong. */
function contradiction(state: JobState, suspect: string, name: string, result: 'good' | 'bad') {
	const before = state.ledger.findLast((line) => line.suspect === suspect);
	if (!before || before.state === 'changed' || before.state === result) return undefined;
	return {
		kind: 'ledger-contradicts' as const,
		message: `"${name}" was tested ${before.state} and then ${result}. The later test counts. Test it once more, and undo the test that was wrong.`
	};
}

const NOT_LISTED_PART = (part: string) =>
	`The parts list of this job has no part "${part}". List it first, then enter what was done to it.`;

/** Of a part of the list; a flow that is opened later knows of it too. */
function testListed(state: JobState, event: EventOf<'part-tested'>, order: number): Kept {
	const { part: id, result } = event.data;
	const part = partIn(state.parts, event.data.listed);
	if (!part) return { state, refused: NOT_LISTED_PART(event.data.listed ?? id) };
	const noted = notedOn(state, event as JobEvent, order);
	const entry = entryOf(part.suspects);
	if (!entry) return { state: noted };
	const warning = contradiction(state, entry.suspect, part.name, result);
	const kept = withLine(noted, { event: event.id, order, ...entry, state: result });
	return { state: kept, ...(warning ? { warning } : {}) };
}

/** A part was tested on the way. */
export function testPart(state: JobState, event: EventOf<'part-tested'>, order: number): Kept {
	const { part, result, listed } = event.data;
	if (listed !== undefined) return testListed(state, event, order);
	const placed = placedIn(state, part);
	if (!placed)
		return {
			state,
			refused: `No flow of this job knows the part "${part}". Open the flow that has it, then enter the test.`
		};
	const warning = contradiction(state, part, nameOf(placed), result);
	const kept = withLine(notedOn(state, event as JobEvent, order), {
		event: event.id,
		order,
		suspect: part,
		state: result
	});
	return { state: kept, ...(warning ? { warning } : {}) };
}

/** A part was changed on the way, without a proof; one that no flow knows by name says nothing of its suspects. */
export function changeOnTheWay(state: JobState, event: EventOf<'part-changed'>, order: number): JobState {
	const { id, data } = event;
	const part = partIn(state.parts, data.listed);
	if (part) {
		const noted = notedOn(state, event as JobEvent, order);
		const entry = entryOf(part.suspects);
		return entry ? withLine(noted, { event: id, order, ...entry, state: 'changed' }) : noted;
	}
	const noted = notedOn(state, event as JobEvent, order);
	return data.flow === undefined && placedIn(state, data.part)
		? withLine(noted, { event: id, order, suspect: data.part, state: 'changed' })
		: noted;
}

/** Parts of the list that a suspect is about. */
const partsAbout = (state: JobState, suspect: string): string[] =>
	partsFrom(state.parts)
		.filter(({ suspects }) => suspects.includes(suspect))
		.map(({ id }) => id);

/** An entry about a part of the list is kept with the part; one about a suspect with the part that the suspect is about. */
export function notedOn(state: JobState, { id: event, at, kind, data }: JobEvent, order: number): JobState {
	if (kind !== 'part-listed' && kind !== 'part-checked' && kind !== 'part-tested' && kind !== 'part-changed')
		return state;
	const listed = 'listed' in data ? data.listed : undefined;
	const named = kind === 'part-listed' || kind === 'part-checked' ? data.part : listed;
	const parts = named === undefined ? partsAbout(state, data.part) : [named];
	const proved = state.notes.some((note) => note.part === data.part);
	const lines = parts.map(
		(part) => ({ event, order, at, part, kind, data, ...(proved ? { proved } : {}) }) as PartLine
	);
	return lines.length > 0 ? { ...state, parts: [...state.parts, ...lines] } : state;
}

/** What was done to a part of the list short of a test. */
export function checkPart(state: JobState, event: EventOf<'part-checked'>, order: number): Kept {
	return partsFrom(state.parts).some(({ id }) => id === event.data.part)
		? { state: notedOn(state, event as JobEvent, order) }
		: { state, refused: NOT_LISTED_PART(event.data.part) };
}

/** Parts changed in the proof of a flow, by the suspect that was in hand. */
const changedInFlows = (state: JobState): LedgerLine[] =>
	allRuns(state).flatMap(({ done }) =>
		done.flatMap(({ event, order }): LedgerLine[] =>
			event.kind === 'part-changed'
				? [{ event: event.id, order, suspect: event.data.part, state: 'changed' }]
				: []
		)
	);

/**
 * Changes after which the set did worse when it was heard first, with the place of that listen in the order of the job:
 * until it is found, the change is what the trace looks at first.
 */
export function blamedUpTo(state: JobState, upTo: number): { line: LedgerLine; heardAt: number }[] {
	return [...state.ledger.filter((line) => line.state === 'changed'), ...changedInFlows(state)].flatMap(
		(line) => {
			const listen = firstListenAfter(state, line.order);
			const loud = listen?.listened !== undefined && LOUD.includes(listen.listened) && listen.order <= upTo;
			return loud && line.order <= upTo ? [{ line, heardAt: listen.order }] : [];
		}
	);
}

/**
 * Each part once, as it stood last at that place in the order of the job.
 *
 * @param without changes that are blamed: they count in another way
 */
export const ledgerUpTo = (
	{ ledger }: JobState,
	upTo: number,
	without: readonly string[] = []
): LedgerEntry[] => {
	const last = new Map(
		ledger
			.filter(({ order, event }) => order <= upTo && !without.includes(event))
			.flatMap((line) => [line.suspect, ...(line.also ?? [])].map((suspect) => [suspect, line] as const))
	);
	return [...new Set(last.values())].flatMap((line): LedgerEntry[] => {
		const entry = entryOf([...last].filter(([, holder]) => holder === line).map(([suspect]) => suspect));
		return entry ? [{ ...entry, state: line.state }] : [];
	});
};

/** How a part stands in the ledger, in words; `undefined` where it is not in it. */
export function ledgerWord({ ledger }: JobState, part: string): string | undefined {
	const last = ledger.findLast(({ suspect, also }) => suspect === part || also?.includes(part));
	return last && (last.state === 'changed' ? 'changed' : `tested ${last.state}`);
}
