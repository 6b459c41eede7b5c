import type { Power } from '../flow/machine-types.ts';
import type { JobEvent, EventData } from './events.ts';
import { inOrder } from './order.ts';
import { factAfter, type RowFact } from './row-facts.ts';
import { complaintWords } from './words.ts';

/**
 * The row of a job in the list. Disposable: it can always be made again from the events. What needs the flow itself
 * (the words of the last step, the suspects) is described when the job is played; the rest is kept up by each append,
 * so that the list, its search and the tally of causes need neither machine nor matrix.
 */
export interface JobRow {
	/** Form of the row; one of another form is made again from the events. */
	version: number;
	job: string;
	title: string;
	/** Receiver plan, by id. */
	plan: string;
	/** `AM is faint, FM plays well`. */
	complaint: string;
	/** Flows opened, by id, in their order. */
	flows: string[];
	/** What the job can be found by, and what it has taught. */
	facts: RowFact[];
	/** Minutes at the bench: from entry to entry, long pauses left out. */
	minutes: number;
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

/** One more whenever a row keeps something that an older one does not. */
export const ROW_VERSION = 3;

/** Between two entries no more than this counts as work, in minutes: who is away longer does something else. Our own choice. */
const LONGEST_ENTRY = 20;

/** Something was entered since the last copy in a file. Counted, as a clock may have been set back. */
export const changedSinceCopy = ({ exported, copied, updated, events }: JobRow): boolean =>
	exported === undefined || (copied === undefined ? updated > exported : events > copied);

/** What only a played job can say of itself. */
export type Description = Pick<JobRow, 'leading' | 'lastStep' | 'complaint' | 'power'>;

/** The log ended with the set under power: nobody has said since that it was switched off. */
export const powerUnknown = ({ power }: Pick<JobRow, 'power'>): boolean =>
	power === 'limiter' || power === 'live';

export const emptyRow = (job: string): JobRow => ({
	version: ROW_VERSION,
	job,
	title: 'A set not yet taken in',
	plan: '',
	complaint: '',
	flows: [],
	facts: [],
	minutes: 0,
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
		case 'flow-opened': {
			const { flow } = event.data;
			return row.flows.includes(flow) ? row : { ...row, flows: [...row.flows, flow] };
		}
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

function minutesTo(at: string, { updated }: JobRow): number {
	const gap = (Date.parse(at) - Date.parse(updated)) / 60_000;
	return gap > 0 && gap <= LONGEST_ENTRY ? gap : 0;
}

/** The row after one more event. */
export function rowAfter(row: JobRow, event: JobEvent): JobRow {
	const minutes = row.minutes + minutesTo(event.at, row);
	const updated = event.at > row.updated ? event.at : row.updated;
	const facts = factAfter(row.facts, event, minutes);
	return { ...changed(row, event), facts, minutes, events: row.events + 1, updated };
}

/** The row made anew from all events of a job. */
export const rowOf = (events: readonly JobEvent[]): JobRow =>
	inOrder(events).events.reduce(rowAfter, emptyRow(events[0]?.job ?? ''));

/** The rows of all jobs, from all their events. */
export function rowsOf(events: readonly JobEvent[]): JobRow[] {
	const logs = new Map<string, JobEvent[]>();
	for (const event of events) {
		const log = logs.get(event.job);
		if (log) log.push(event);
		else logs.set(event.job, [event]);
	}
	return [...logs.values()].map(rowOf);
}

/** A row as an older program has written it. */
export const isOldRow = ({ version }: Partial<Pick<JobRow, 'version'>>): boolean => version !== ROW_VERSION;

/** The row made anew, with what the played job had said of itself. */
export const rowAnew = (
	{ leading, lastStep, complaint, described }: JobRow,
	events: readonly JobEvent[]
): JobRow => ({
	...rowOf(events),
	leading,
	described,
	...(lastStep === undefined ? {} : { lastStep }),
	...(complaint ? { complaint } : {})
});

/** The row with what the played job says of itself. */
export const describedRow = (row: JobRow, description: Description): JobRow => ({
	...row,
	...description,
	described: row.events
});
