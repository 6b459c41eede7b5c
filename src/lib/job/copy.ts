import { eventId, type JobEvent } from './events.ts';
import { inOrder } from './order.ts';

/**
 * A job as a new one of this bench: new ids throughout, the same order, the same times. Ids that stand in the data
 * go with them.
 */
export function copyOf(
	events: readonly JobEvent[],
	stamp: { job: string; bench: string; firstSeq: number }
): JobEvent[] {
	const { job, bench, firstSeq } = stamp;
	const ordered = inOrder(events).events;
	const ids = new Map(ordered.map(({ id }, index) => [id, eventId(bench, firstSeq + index)]));
	const renamed = (id: string) => ids.get(id) ?? id;
	return ordered.map((event, index) => ({
		...renameData(event, renamed),
		id: renamed(event.id),
		job,
		bench,
		seq: firstSeq + index,
		parents: event.parents.map(renamed)
	}));
}

function renameData(event: JobEvent, renamed: (id: string) => string): JobEvent {
	switch (event.kind) {
		case 'started':
			return { ...event, data: { ...event.data, copyOf: event.job } };
		case 'undone':
			return { ...event, data: { target: renamed(event.data.target) } };
		case 'resolved':
			return { ...event, data: { ...event.data, keep: renamed(event.data.keep) } };
		default:
			return event;
	}
}
