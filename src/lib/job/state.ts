import type { Library } from '../flow/library.ts';
import type { Power } from '../flow/machine-types.ts';
import type { EventData, Intake, JobEvent } from './events.ts';
import { contextOf, stateOf, type Run } from './run.ts';
import type { TrailLine } from './trail.ts';

/** An event that the machine took, with its place in the order of the job. */
export interface Done {
	event: JobEvent;
	order: number;
}

/** A flow that the job has opened. */
export interface FlowRun {
	flow: string;
	hash: string;
	/** What it is played from: the job's own snapshot. */
	library: Library;
	run: Run;
	/** What undo can take back, the latest last: one entry for each of the machine's past. */
	done: Done[];
}

/** One power state for the whole set. */
export interface SetPower {
	now: Power;
	/** It has come through the limiter since it came in, or since the last change of a part. */
	limiterPassed: boolean;
	partChanged: boolean;
}

export interface Note extends Pick<EventData['noted'], 'text' | 'step' | 'part'> {
	event: string;
	at: string;
}

export type WarningKind =
	| 'refused'
	| 'reads-otherwise'
	| 'reads-otherwise-today'
	| 'flow-changed'
	| 'flow-gone'
	| 'snapshot-missing'
	| 'parent-missing';

/** Something in the log that does not go as it was written: shown, never dropped. */
export interface Warning {
	event: string;
	kind: WarningKind;
	message: string;
}

/** Answers to one step that were made apart and differ; the person decides. */
export interface Contradiction {
	step: string;
	/** Ids of the `answered` events. */
	answers: string[];
}

export interface JobState {
	job: string;
	intake: Intake | undefined;
	/** By flow id, as opened last. */
	flows: Record<string, FlowRun>;
	/** Runs whose flow was opened anew, from another snapshot; their answers still count. */
	earlier: FlowRun[];
	open: string | undefined;
	power: SetPower;
	trail: TrailLine[];
	notes: Note[];
	warnings: Warning[];
	contradictions: Contradiction[];
	/** Answers that a `resolved` event has set aside. */
	overruled: string[];
	closed: EventData['closed'] | undefined;
}

export const emptyState = (job: string): JobState => ({
	job,
	intake: undefined,
	flows: {},
	earlier: [],
	open: undefined,
	power: { now: 'off', limiterPassed: false, partChanged: false },
	trail: [],
	notes: [],
	warnings: [],
	contradictions: [],
	overruled: [],
	closed: undefined
});

/** Own entries only: ids come from files, and every object inherits a `constructor`. */
export const own = <Value>(
	table: Readonly<Record<string, Value>>,
	id: string | undefined
): Value | undefined => (id !== undefined && Object.hasOwn(table, id) ? table[id] : undefined);

export const allRuns = (state: JobState): FlowRun[] => [...state.earlier, ...Object.values(state.flows)];

export const openRun = (state: JobState): FlowRun | undefined => own(state.flows, state.open);

/** What undo would take back now in the open flow; the page appends `undone` with this target. */
export const undoTarget = (state: JobState): string | undefined => openRun(state)?.done.at(-1)?.event.id;

/**
 * The state as plain data, without the machines and without what was undone: two states are the same when these are.
 */
export function plainState(state: JobState) {
	const { flows, earlier, trail, ...rest } = state;
	const plain = ({ flow, hash, run, done }: FlowRun) => ({
		flow,
		hash,
		at: stateOf(run),
		context: contextOf(run),
		done: done.map(({ event }) => event.id)
	});
	return {
		...rest,
		flows: Object.values(flows).map(plain),
		earlier: earlier.map(plain),
		trail: trail.filter(({ undone }) => !undone)
	};
}
