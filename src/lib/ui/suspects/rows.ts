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

/** What can be entered of a part outside its proof. */
export interface LedgerDeeds {
	ontested: (part: string, result: 'good' | 'bad', found: string) => void;
	onchanged: (part: string) => void;
	/** Why a part cannot be changed now, and what to do first; nothing where it can. */
	wait?: string;
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
	/** Where the standing began, before any answer: the flow's word, the set's past, the parts ledger. */
	begins?: readonly string[] | undefined;
	/** The step that would move it most. */
	change?: string | undefined;
	/** How the part is proved before it is changed. */
	proof?: string | undefined;
	repair?: string | undefined;
	/** How it stands in the parts ledger: `tested good`, `changed`. */
	ledger?: string | undefined;
}
