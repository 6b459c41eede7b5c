import type { Intake, JobEvent } from './events.ts';
import { inOrder } from './order.ts';
import type { SetData } from './set-data.ts';

/** What a new job takes over from an earlier one on the same kind of set: the set, never the trail. */

export interface EarlierSet {
	job: string;
	/** The earlier intake as it stood last. */
	intake: Intake;
	/** Its valves by the drawing, sheet and part values; what stood in its holders stays with it. */
	data?: SetData;
	/** How many volts of its service sheet come along. */
	volts: number;
}

/** The data of one set as far as another of the same kind shares them. */
const ofItsKind = (data: SetData): SetData => ({
	...data,
	valves: data.valves.map(({ fitted: _fitted, kept: _kept, ...valve }) => valve),
	differs: []
});

/** Nothing where the set was never taken in. */
export function earlierSet(events: readonly JobEvent[]): EarlierSet | undefined {
	const ordered = inOrder(events).events;
	const last = ordered.findLast((event) => event.kind === 'intake');
	if (!last) return undefined;
	const { job, data: intake } = last;
	const described = ordered.findLast((event) => event.kind === 'set-described');
	const data = described && ofItsKind(described.data);
	const volts = new Set([...Object.keys(intake.service ?? {}), ...Object.keys(data?.volts ?? {})]);
	return { job, intake, volts: volts.size, ...(data ? { data } : {}) };
}

/** Of the intake what belongs to the kind of set: its service volts. Its bench, complaint and past are asked anew. */
export const takenOver = ({ intake: { service } }: EarlierSet): Pick<Intake, 'service'> =>
	service ? { service } : {};
