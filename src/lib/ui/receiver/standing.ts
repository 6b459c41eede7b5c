import { standingNumber, standingWord } from '$lib/suspects/index.ts';

/** What is said of a stage, line or section. */
export interface Standing {
	/** Share of suspicion, 0 to 1; nothing where it was not weighed. */
	share?: number;
	cleared: boolean;
}

export const NO_STANDING = 'not weighed yet';

/** In full, to be read aloud: `in question, 25 %`. */
export function standingText({ share, cleared }: Standing): string {
	if (cleared) return 'cleared';
	return share === undefined ? NO_STANDING : `${standingWord(share)}, ${standingNumber(share)}`;
}

/**
 * In a box of the drawing. Below 1 in 20 the number stands alone: in a set with many stages nearly all begin there, and
 * "nearly cleared" beside a stage that nobody has tested yet would say too much.
 */
export function standingLabel({ share, cleared }: Standing): string {
	if (cleared) return '✓\u00a0cleared';
	if (share === undefined) return '';
	return share < 0.05 ? standingNumber(share) : `${standingWord(share)} ${held(standingNumber(share))}`;
}

/** A number is never parted from its unit. */
const held = (number: string) => number.replaceAll(' ', '\u00a0');

/** Every label that a box must have room for. */
export const LABELS: readonly string[] = [
	standingLabel({ cleared: true }),
	...[0, 0.1, 0.5, 0.8, 0.9, 1].map((share) => standingLabel({ share, cleared: false }))
];
