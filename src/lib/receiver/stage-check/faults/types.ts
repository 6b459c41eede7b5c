import type { Unit } from '../../../quantity/index.ts';
import type { Hypothesis } from '../infer.ts';
import type { PartId, ReadingId } from '../types.ts';

/** How common a fault is against the others of its stage; the words and numbers of the suspects. */
export const COMMON = { 'very common': 30, common: 10, occasional: 3, rare: 1, 'not listed': 0.3 } as const;

/** What a cause may reckon its size from. */
export interface Seen<Figures> {
	/** Size of the fault as its hypothesis counts it. */
	size: number;
	/** The stage as its parts are marked, and as it most likely is. */
	sound: Figures;
	circuit: Figures;
	/** Volts with no meter on the point. */
	resting: (reading: ReadingId) => number;
	/** Volts at the far side of the coupling capacitor. */
	before: number;
}

/** One of the faults that have the same effect on DC volts. */
export interface CauseRow<Figures> {
	fault: string;
	part: string;
	common: keyof typeof COMMON;
	suspects: readonly string[];
	/** The part whose own value is wrong; one that was measured lately is not accused. */
	accuses?: PartId;
	value?: { unit: Unit; amount: (seen: Seen<Figures>) => number };
	/** `value` is printed already: `The anode load has risen to 470 kΩ.` */
	says: (value: string) => string;
}

export interface FaultRow<Figures> extends Omit<Hypothesis<Figures>, 'weight'> {
	causes: readonly CauseRow<Figures>[];
	/** What parts the causes from one another; empty for a single one. */
	partBy: string;
	/** Rows of one family look the same to all but a ripple reading: without one they count as one explanation. */
	family?: string;
}
