import type { SectionId } from '$lib/receiver/sections.ts';

/** One answer that moved a suspect. */
export interface ReasonRow {
	sentence: string;
	speaks: 'for' | 'against';
	/** How much it moved: `strongly`, `clearly`, `a little`. */
	weight: string;
	/** Where the meaning of the answer comes from, ready to be read. */
	source: string[];
}

export interface SuspectRow {
	id: string;
	/** The part and how it fails. */
	name: string;
	section?: SectionId | undefined;
	/** 0 to 1. */
	probability: number;
	/** As `standingWord` and `standingNumber` put it. */
	word: string;
	number: string;
	reasons: readonly ReasonRow[];
	/** How the part is proved before it is changed. */
	proof?: string | undefined;
	repair?: string | undefined;
}
