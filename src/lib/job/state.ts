import type { Library } from '../flow/library.ts';
import type { ServiceVolts } from '../flow/reading.ts';
import type { Power } from '../flow/machine-types.ts';
import type { Provoked } from '../flow/terms.ts';
import type { EventData, Intake, JobEvent } from './events.ts';
import type { LedgerLine } from './ledger.ts';
import type { MarkLine } from './marks.ts';
import type { PartLine } from './parts.ts';
import { contextOf, stateOf, type Run } from './run.ts';
import type { SetData } from './set-data.ts';
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
	/** Where it was opened last, in the order of the job. */
	openedAt: number;
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

/** A picture that stands, with the event that brought it. */
export interface Picture extends Readonly<EventData['pictured']> {
	event: string;
	at: string;
}

/** What each band did, at a place in the order of the job. */
export type Heard = EventData['heard'] & { event: string; order: number };

/** The search for the cause behind a changed part. */
export type CauseSought = EventData['cause-sought'] & { event: string; order: number };

/** The set as it was described, at a place in the order of the job. */
export interface Described {
	event: string;
	order: number;
	data: SetData;
}

/** A reading of the survey that stands. */
export type SurveyReading = EventData['read'] & {
	event: string;
	order: number;
	at: string;
};

/** A suspicion written down before the list was shown. */
export type Guess = EventData['guessed'] & { event: string; order: number };

/** What was said of a phase by hand. */
export type PhaseSaid = EventData['phase'] & { event: string; order: number; at: string };

/** Causes of the restorer's own jobs that count in a flow. */
export type Experience = EventData['experience'] & { event: string; order: number };

export type WarningKind =
	| 'refused'
	| 'reads-otherwise'
	| 'reads-otherwise-today'
	| 'flow-changed'
	| 'flow-gone'
	| 'snapshot-missing'
	| 'parent-missing'
	| 'ledger-contradicts';

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
	/** Pictures that were not taken back, oldest first. */
	pictures: Picture[];
	/** Bands heard again since the intake, oldest first. */
	heard: Heard[];
	causes: CauseSought[];
	guesses: Guess[];
	/** What was said of phases by hand, oldest first. */
	phases: PhaseSaid[];
	/** Causes of own jobs that were let in, oldest first. */
	experience: Experience[];
	/** The set's data, oldest first: the last one holds. */
	described: Described[];
	/** Readings of the survey, oldest first. */
	readings: SurveyReading[];
	/** Volts by which readings are judged. */
	service: ServiceVolts;
	/** Parts tested or changed outside the proof of a flow, oldest first. */
	ledger: LedgerLine[];
	/** What was listed of the set's parts and done to them, oldest first. */
	parts: PartLine[];
	/** Marks on pictures of the diagram and the chassis, oldest first. */
	marks: MarkLine[];
	/** By step: its sheet before it is recorded, with its place in the order of the job. */
	sheets: Record<string, { provoked: Provoked; order: number }>;
	/** By step: when its own clock was started. ISO date and time. */
	clocks: Record<string, string>;
	/** Since when the set is under power without a break. ISO date and time. */
	underPowerSince: string | undefined;
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
	pictures: [],
	heard: [],
	causes: [],
	guesses: [],
	phases: [],
	experience: [],
	described: [],
	readings: [],
	service: {},
	ledger: [],
	parts: [],
	marks: [],
	sheets: {},
	clocks: {},
	underPowerSince: undefined,
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

/** What undo would take back now: the open flow's last move, or what was written down after it. */
export function undoTarget(state: JobState): string | undefined {
	const moves = openRun(state)?.done.map(({ event, order }) => ({ event: event.id, order })) ?? [];
	const { ledger, heard, causes, guesses, phases, readings } = state;
	const written = [...ledger, ...heard, ...causes, ...guesses, ...phases, ...readings];
	return [...moves, ...written].reduce<{ event: string; order: number } | undefined>(
		(last, one) => (last && last.order > one.order ? last : one),
		undefined
	)?.event;
}

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
