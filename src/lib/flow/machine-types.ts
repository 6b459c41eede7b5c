import type { HtThen } from './reading.ts';
import type { Provoked, StepPower } from './terms.ts';
import type { Mended } from './trace.ts';

/** Power as the machine knows it: a set that is switched off is not yet proved dead. */
export type Power = 'off' | StepPower;

/** Below this the reservoir counts as discharged. Fault reference, section C (common practice). */
export const DEAD_BELOW_VOLTS = 10;

export interface Answer {
	step: string;
	outcome: string;
	/** As typed, and in base units. */
	typed?: string;
	reading?: number;
	way?: number;
	/** False where the person was not sure of it. */
	sure?: boolean;
	/** The sheet of a step that provokes the fault. */
	provoked?: Provoked;
	/** HT as it was measured then. */
	ht?: HtThen;
	power: Power;
}

/** Everything that an undo takes back. The power state is not among it: it is never undone. */
export interface Findings {
	answers: Answer[];
	unavailable: { step: string; reason: string }[];
	skipped: string[];
	mended: Mended[];
	/** The part under repair or on proof. */
	suspect: string | undefined;
	/** The step that waits behind a gate. */
	wanted: string | undefined;
	/** The wanted step's connection has been made with the set dead. */
	prepared: boolean;
}

export interface MachineContext extends Findings {
	power: Power;
	/** The set has come through the limiter since it came in, or since the last change of a part. */
	limiterPassed: boolean;
	/** Finding and state before each event that can be undone. */
	past: { state: string; findings: Findings }[];
}

export interface MachineInput {
	/** The set was running on full mains when it came in, and no part has been changed since. */
	playing: boolean;
	power?: Power;
}

export type MachineEvent =
	| { type: 'TAKE'; step: string }
	| ({ type: 'ANSWER' } & Omit<Answer, 'step' | 'power'>)
	| { type: 'CANNOT_TELL'; reason: string }
	| { type: 'SKIP' }
	| { type: 'LEAVE' }
	| { type: 'POWER'; to: Power; volts?: [reservoir: number, smoothed: number] }
	| { type: 'PREPARED' }
	| { type: 'SUSPECT'; suspect: string }
	| { type: 'REPAIR' }
	| { type: 'CHANGED' }
	| { type: 'PROVE'; symptom: 'cured' | 'unchanged' | 'changed'; partWas: Mended['was'] }
	| { type: 'GIVE_UP' }
	| { type: 'GO_ON' }
	| { type: 'UNDO' };
