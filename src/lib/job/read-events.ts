import './no-jit.ts';
import type { z } from 'zod';
import { DATA, Envelope, EVENT_KINDS } from './event-schema.ts';
import { eventId, type JobEvent } from './events.ts';
import { AGAIN, refuse } from './file-refused.ts';
import { inOrder } from './order.ts';

/** An entry with the line of the file that it stands in. */
export interface Placed {
	event: JobEvent;
	line: number;
}

export const placeOf = (line: number, id: unknown, number = 0): string =>
	`line ${line}, ${typeof id === 'string' ? `event ${id.slice(0, 100)}` : `event number ${number} of its job`}`;

export const firstIssue = (error: z.ZodError): { path: string; message: string } => {
	const [issue] = error.issues;
	return { path: issue?.path.join('.') ?? '', message: issue?.message ?? '' };
};

function refuseEntry(place: string, error: z.ZodError): never {
	const { path, message } = firstIssue(error);
	return refuse(path ? `${place}, ${path}` : place, `The entry cannot be read: ${message}. ${AGAIN}`);
}

/**
 * One entry, as it was written, key for key: an event never changes, not even on its way through a file.
 *
 * @param number place in its job, from one: named where the entry has no id
 */
export function readEvent(raw: unknown, line: number, number: number): JobEvent {
	const place = placeOf(line, (raw as { id?: unknown } | null)?.id, number);
	const envelope = Envelope.safeParse(raw);
	if (!envelope.success) return refuseEntry(place, envelope.error);
	const kind = EVENT_KINDS.find((known) => known === envelope.data.kind);
	if (!kind)
		return refuse(
			`${place}, kind`,
			`This program knows no entry of the kind "${envelope.data.kind.slice(0, 60)}". Reload the page to get the newest program, then try again.`
		);
	const data = DATA[kind].safeParse(envelope.data.data);
	if (!data.success) return refuseEntry(`${place}, data`, data.error);
	return raw as JobEvent;
}

/** What no single entry shows: one job, ids that fit, one beginning, and every parent there. */
export function checkLog(job: string, entries: readonly Placed[]): void {
	const ids = new Set<string>();
	for (const { event, line } of entries) {
		const at = placeOf(line, event.id);
		if (event.job !== job)
			refuse(at, `The entry belongs to another job than the one it stands under. ${AGAIN}`);
		if (event.id !== eventId(event.bench, event.seq))
			refuse(at, `Its id does not go with bench "${event.bench}" and number ${event.seq}.`);
		if (ids.has(event.id)) refuse(at, `Two entries have this id. ${AGAIN}`);
		if ((event.kind === 'started') !== (event.parents.length === 0))
			refuse(at, 'A job has one beginning, and every other entry follows one before it.');
		ids.add(event.id);
	}
	const events = entries.map(({ event }) => event);
	const starts = events.filter(({ kind }) => kind === 'started');
	if (starts.length !== 1)
		refuse(`job ${job}`, `A job begins once; this one has ${starts.length} beginnings.`);
	const [stray] = inOrder(events).stray;
	const lost = entries.find(({ event }) => event.id === stray?.id);
	if (lost)
		refuse(
			placeOf(lost.line, lost.event.id),
			`What came before this entry is missing from the file, or follows it. ${AGAIN}`
		);
}
