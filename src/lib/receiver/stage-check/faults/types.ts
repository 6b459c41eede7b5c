import type { Unit } from '../../../quantity/index.ts';
import type { Hypothesis } from '../comparison.ts';
import type { PartId, ReadingId } from '../types.ts';

/** How common a fault is against the others of its stage; the words and numbers of the suspects. */
export const COMMON = { 'very common': 30, common: 10, occasional: 3, rare: 1, 'not listed': 0.3 } as const;

/** In what the size of a fault is told, and how much one of its own size is; the ohms of a leak that is reckoned in ohms: 1. */
export interface Told {
	unit: Unit;
	scale?: number;
}

/** Something that would tell the size better: a reading of the stage, or a part measured cold. */
export type Proof = { reading: ReadingId } | { part: PartId };

/** One of the faults that have the same effect on DC volts. */
export interface CauseRow {
	fault: string;
	part: string;
	common: keyof typeof COMMON;
	suspects: readonly string[];
	/** The part whose own value is wrong; one that was measured lately is not accused. */
	accuses?: PartId;
	value?: Told;
	/** `value` is printed already: `The anode load has risen to 470 kΩ.` */
	says: (value: string) => string;
}

export interface FaultRow<Figures> extends Omit<Hypothesis<Figures>, 'weight'> {
	causes: readonly CauseRow[];
	/** What parts the causes from one another; empty for a single one. */
	partBy: string;
	/** Rows of one family look the same in DC volts: they count as one explanation until one of `parted` was read or measured. */
	family?: string;
	parted?: readonly Proof[];
	/** What sharpens its size, the first that was not done yet first. */
	proofs?: readonly Proof[];
}
