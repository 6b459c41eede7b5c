import type { Power } from '../flow/machine-types.ts';
import type { HtThen } from '../flow/reading.ts';
import type { Duty, PartLook } from '../flow/part-terms.ts';
import type { HistoryWord, Instrument, PathOutcome, Provoked, Sign } from '../flow/terms.ts';
import type { Unit } from '../quantity/index.ts';
import type { Tuned } from '../receiver/index.ts';
import type { SetData } from './set-data.ts';

/**
 * What a job is made of. An event is written once and never changed; everything shown is played from them.
 * Kinds and the names in their data stand in stored logs: never renamed, never given another meaning.
 */

export { HISTORY, type HistoryWord } from '../flow/terms.ts';

export interface Intake {
	title: string;
	/** Receiver plan, by id. */
	plan: string;
	/** Band of the plan -> what is heard there. */
	symptom: Record<string, PathOutcome>;
	/** What was noticed beside the sound. */
	signs?: Sign[];
	history: HistoryWord[];
	/** Mains as measured today, volts. */
	mains?: number;
	/** Input resistance of the meter on volts, ohms. */
	meter?: number;
	instruments: Instrument[];
	/** It was running on full mains when it came in. */
	playing: boolean;
	/** Volts of the service sheet, by test point. */
	service?: Record<string, number>;
}

/** A value as it was typed, and in base units. */
export interface Reading {
	typed: string;
	value: number;
	unit: Unit;
	point: string;
	power: Power;
	instrument?: Instrument;
	/** HT as it was measured then: what hangs on it is expected in proportion. */
	ht?: HtThen;
}

export const SYMPTOM_NOW = {
	cured: 'cured',
	unchanged: 'unchanged',
	changed: 'changed, but not cured'
} as const;

export const PART_WAS = {
	bad: 'the part that came out was bad',
	good: 'the part that came out was good',
	'not-tested': 'the part that came out was not tested'
} as const;

/** What the search for the cause behind a changed part has brought. */
export const CAUSE = {
	found: 'the cause behind it was found',
	none: 'no cause behind it was found',
	'not-checked': 'the cause behind it could not be checked'
} as const;

export const TESTED = { good: 'good', bad: 'bad' } as const;

/** What was done to a part of the list, short of a test or a change. */
export const CHECKED = {
	untouched: 'untouched',
	continuity: 'continuity checked',
	value: 'value checked',
	left: 'left on purpose'
} as const;

/** A quick listen after changes: how the set does, told in one tap. */
export const LISTENED = {
	'as-before': 'as before',
	better: 'better',
	worse: 'worse',
	dead: 'dead now'
} as const;

export const RESULTS = {
	mended: 'mended',
	'not-mended': 'not mended',
	'set-aside': 'set aside'
} as const;

/** Parts of a job, in the order of the trade. Ids stand in stored jobs: never renamed. */
export const PHASES = {
	intake: 'Take the set in',
	'make-safe': 'Make it safe',
	'cold-checks': 'Cold checks',
	capacitors: 'Capacitors',
	'first-power': 'First power on the limiter',
	voltages: 'Voltages',
	trace: 'Trace the fault',
	parts: 'Parts changed and proved',
	alignment: 'Alignment',
	closing: 'Soak and safety test',
	report: 'Report'
} as const;
export type Phase = keyof typeof PHASES;

/** What can be said of a phase by hand. */
export const PHASE_WORDS = { 'to-do': 'to do', done: 'done', 'not-needed': 'not needed' } as const;

/** What a picture shows. */
export const PICTURE_OF = {
	set: 'the set',
	diagram: 'the circuit diagram',
	chassis: 'the chassis',
	part: 'a part',
	step: 'a step',
	point: 'a test point',
	change: 'a change'
} as const;

/** What a picture belongs to; `part`, `step` and `point` are ids, `when` is before or after a change. */
export interface PictureSubject {
	kind: keyof typeof PICTURE_OF;
	part?: string;
	step?: string;
	point?: string;
	when?: 'before' | 'after';
}

export type Json = string | number | boolean | null | Json[] | { [key: string]: Json };

/** What each kind of event says. `flow` and `step` are ids; `target` and `keep` are ids of events. */
export interface EventData {
	/** `like`: the earlier job whose set this one is like; its data were copied into the intake, its trail was not. */
	started: { copyOf?: string; like?: string };
	/** The latest one holds, for the whole job: readings are judged again by its service volts. */
	intake: Intake;
	/** The set at hand: its valves, sheet and parts. The latest one holds, for the whole job. */
	'set-described': SetData;
	/** A reading of the survey, on full mains; `out` where the valve was out of its holder. */
	read: { point: string; reading: Reading; out?: true; tuned?: Tuned };
	/** `hash` names the snapshot that the flow is replayed from. */
	'flow-opened': { flow: string; plan: string; hash: string };
	took: { flow: string; step: string };
	/** Away from a step, a gate, a suspect or a repair, without an answer. */
	left: { flow: string };
	/** The wanted step's connection has been made with the set dead. */
	prepared: { flow: string };
	/** One power state for the set; `volts` at the reservoir and after the smoothing prove it dead. */
	power: { to: Power; volts?: [number, number] };
	answered: {
		flow: string;
		step: string;
		outcome: string;
		sure: boolean;
		way?: number;
		reading?: Reading;
		/** The sheet of a step that provokes the fault. */
		provoked?: Provoked;
	};
	/** The sheet as it stands, before it is recorded as the answer. */
	tallied: { flow: string; step: string; provoked: Provoked };
	/** From now the step's own time runs. */
	'clock-started': { flow: string; step: string };
	'cannot-tell': { flow: string; step: string; reason: string };
	skipped: { flow: string; step: string };
	suspected: { flow: string; suspect: string };
	repairing: { flow: string };
	/** In a flow it is the suspect's repair; without one, a part changed on the way. */
	'part-changed': {
		flow?: string;
		part: string;
		fitted?: string;
		/** The part of the list that was changed. */
		listed?: string;
		/** Of the new part: base units, its rating as typed. */
		value?: number;
		rating?: string;
		reason?: string;
	};
	/** A part tested on the way, by the suspect that the test was about; `found` is what was measured. */
	'part-tested': { part: string; result: keyof typeof TESTED; found?: string; listed?: string };
	/** A part of the set under an id of its own; the latest entry holds. `off` takes it off the list. */
	'part-listed': {
		part: string;
		/** As drawn on the diagram: `C12`. */
		name: string;
		kind: PartLook;
		/** Stage or line of the plan. */
		place?: string;
		duty?: Duty;
		/** As marked on it, and in base units. */
		typed?: string;
		value?: number;
		/** Volts or watts, as marked on it. */
		rating?: string;
		/** The suspects of the traces that are about it. */
		suspects?: string[];
		off?: true;
	};
	'part-checked': {
		part: string;
		state: keyof typeof CHECKED;
		/** What was read, as typed and in base units. */
		typed?: string;
		value?: number;
		/** Why it was left. */
		reason?: string;
	};
	/** A mark on a picture of the diagram or the chassis; `x` and `y` are shares of its width and height. The latest holds. */
	marked: {
		/** Hash of the picture. */
		sheet: string;
		mark: string;
		x: number;
		y: number;
		/** A part of the list, or a test point of the plan. */
		part?: string;
		point?: string;
		label?: string;
	};
	unmarked: { mark: string };
	proved: { flow: string; symptom: keyof typeof SYMPTOM_NOW; partWas: keyof typeof PART_WAS };
	/** Before power goes back on: why the part in hand has failed, where such a part fails because of another. */
	'cause-sought': { flow: string; part: string; result: keyof typeof CAUSE; found?: string };
	/** What each band does now: after a repair, or where the complaint proved to be another one. */
	heard: { bands: Record<string, PathOutcome>; signs?: Sign[]; listened?: keyof typeof LISTENED };
	/** The restorer's own suspicion, before the list was shown: one of its suspects, his own words, or both. */
	guessed: { flow: string; suspect?: string; text?: string };
	/** A sum: its inputs and results by row name, and its sentence as it was shown. */
	calculated: {
		calculation: string;
		title: string;
		given: Record<string, Json>;
		/** What went in, in words and with units, as it stood when the sum was kept. */
		inputs?: string;
		outputs: Record<string, Json>;
		sentence: string;
		verdict?: string;
		step?: string;
	};
	noted: { text: string; step?: string; part?: string };
	/**
	 * `picture` is the hash under which it is kept; `width` and `height` in pixels, `bytes` as kept. The same picture of
	 * the same subject again gives it another caption.
	 */
	pictured: {
		picture: string;
		of: PictureSubject;
		caption?: string;
		width: number;
		height: number;
		bytes: number;
	};
	undone: { target: string };
	/** Of answers that contradict each other, the one that stands. */
	resolved: { step: string; keep: string };
	'gave-up': { flow: string };
	'went-on': { flow: string };
	closed: { result: keyof typeof RESULTS; note?: string };
	/** What the restorer says of a part of the work; the latest one holds, before what the log shows. */
	phase: { phase: Phase; state: keyof typeof PHASE_WORDS; reason?: string };
	/**
	 * Causes of the restorer's own closed jobs with this complaint, by suspect, as they stood then: jobs in which the part
	 * that came out was bad, and those in which nobody tested it. Empty tables switch them off again.
	 */
	experience: { flow: string; proved: Record<string, number>; untested: Record<string, number> };
}

export type EventKind = keyof EventData;

export interface EventOf<Kind extends EventKind> {
	/** Bench and sequence number: `k3v9.17`. */
	id: string;
	job: string;
	bench: string;
	/** From 1, counted per bench over all its jobs. */
	seq: number;
	/** The events that nothing followed yet when this one was written. */
	parents: string[];
	kind: Kind;
	data: EventData[Kind];
	/** ISO date and time of the bench's clock; shown, never used for order. */
	at: string;
}

export type JobEvent = { [Kind in EventKind]: EventOf<Kind> }[EventKind];

export const eventId = (bench: string, seq: number): string => `${bench}.${seq}`;
