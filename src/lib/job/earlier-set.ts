import type { Intake, JobEvent } from './events.ts';
import { inOrder } from './order.ts';

/** What a new job takes over from an earlier one on the same kind of set: the set, never the trail. */

export interface EarlierSet {
	job: string;
	/** The earlier intake as it stood last. */
	intake: Intake;
	/** How many volts of its service sheet come along. */
	volts: number;
}

/** Nothing where the set was never taken in. */
export function earlierSet(events: readonly JobEvent[]): EarlierSet | undefined {
	const last = inOrder(events).events.findLast((event) => event.kind === 'intake');
	if (last?.kind !== 'intake') return undefined;
	const { job, data } = last;
	return { job, intake: data, volts: Object.keys(data.service ?? {}).length };
}

/** Of the intake what belongs to the kind of set: its service volts. Its bench, complaint and past are asked anew. */
export const takenOver = ({ intake: { service } }: EarlierSet): Pick<Intake, 'service'> =>
	service ? { service } : {};
