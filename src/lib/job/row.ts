import type { Power } from '../flow/machine-types.ts';
import type { JobEvent, EventData } from './events.ts';
import { inOrder } from './order.ts';
import { complaintWords } from './words.ts';

/**
 * The row of a job in the list. Disposable: it can always be made again from the events. What needs the flow itself
 * (the words of the last step, the suspects) is described when the job is played; the rest is kept up by each append,
 * so that the list needs neither machine nor matrix.
 */
export interface JobRow {
	job: string;
	title: string;
	/** Receiver plan, by id. */
	plan: string;
	/** `AM is faint, FM plays well`. */
	complaint: string;
	/** Title of the step answered or taken last. */
	lastStep?: string;
	/** Suspects that lead, the likeliest first, each with the word for its standing. */
	leading: { name: string; word: string }[];
	/** Events that the row had seen when these two were described. */
	described: number;
	power: Power;
	/** ISO date and time of the latest entry. */
	updated: string;
	events: number;
	/** The closing of the job and its event; it holds until it is undone. */
	closed?: { event: string; result: EventData['closed']['result'] };
	/** ISO date and time of the last copy in a file. */
	exported?: string;
	/** How many entries that copy holds. */
	copied?: number;
}

/** Something was entered since the last copy in a file. Counted, as a clock may have been set back. */
export const changedSinceCopy = ({ exported, copied, updated, events }: JobRow): boolean =>
	exported === undefined || (copied === undefined ? updated > exported : events > copied);

/** What only a played job can say of itself. */
export type Description = Pick<JobRow, 'leading' | 'lastStep' | 'complaint' | 'power'>;

/** The log ended with the set under power: nobody has said since that it was switched off. */
export const powerUnknown = ({ power }: Pick<JobRow, 'power'>): boolean =>
	power === 'limiter' || power === 'live';

export const emptyRow = (job: string): JobRow => ({
	job,
	title: 'A set not yet taken in',
	plan: '',
	complaint: '',
	leading: [],
	described: 0,
	power: 'off',
	updated: '',
	events: 0
});

function changed(row: JobRow, event: JobEvent): JobRow {
	const { closed, ...open } = row;
	switch (event.kind) {
		case 'intake':
			return {
				...row,
				title: event.data.title,
				plan: event.data.plan,
				complaint: complaintWords(event.data, undefined)
			};
		case 'power':
			return { ...row, power: event.data.to };
		case 'closed':
			return { ...row, closed: { event: event.id, result: event.data.result } };
		case 'undone':
			return event.data.target === closed?.event ? open : row;
		default:
			return row;
	}
}

/** The row after one more event. */
export function rowAfter(row: JobRow, event: JobEvent): JobRow {
	const updated = event.at > row.updated ? event.at : row.updated;
	return { ...changed(row, event), events: row.events + 1, updated };
}

/** The row made anew from all events of a job. */
export const rowOf = (events: readonly JobEvent[]): JobRow =>
	inOrder(events).events.reduce(rowAfter, emptyRow(events[0]?.job ?? ''));

/** The rows of all jobs, from all their events. */
export function rowsOf(events: readonly JobEvent[]): JobRow[] {
	const logs = new Map<string, JobEvent[]>();
	for (const event of events) logs.set(event.job, [...(logs.get(event.job) ?? []), event]);
	return [...logs.values()].map(rowOf);
}

/** The row with what the played job says of itself. */
export const describedRow = (row: JobRow, description: Description): JobRow => ({
	...row,
	...description,
	described: row.events
});
