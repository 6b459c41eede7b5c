import type { AlignmentRow } from './alignment-rows.ts';

/**
 * The same adjustments where no generator is at hand: stations take its place. What a station cannot tell is said in the row:
 * it shows the best peak, never the right IF.
 */

const OWN_AERIAL = 'its own aerial';

/** AM cans on a weak station: they may be peaked, not moved to another frequency. */
export const ifByStation = (row: AlignmentRow): AlignmentRow => ({
	...row,
	generator: 'a weak station that fades little',
	frequency: 'as it stands: the IF itself cannot be checked',
	at: 'aerial terminal',
	coupling: 'a short aerial, so that the AVC does not act',
	adjust: `${row.adjust}; an eighth of a turn at most, else stop and wait for a generator`
});

/** Oscillator and aerial circuits on stations whose frequency is known. */
export const bandByStation = (row: AlignmentRow): AlignmentRow => ({
	...row,
	generator: 'a station whose frequency is known',
	frequency: /Hz/.test(row.frequency) ? `near ${row.frequency}` : row.frequency,
	at: 'aerial terminal',
	coupling: OWN_AERIAL
});

/** FM detector and IF on a station tuned in by the largest DC. */
export const fmIfByStation = (row: AlignmentRow): AlignmentRow => ({
	...row,
	generator: 'a steady station, tuned to the largest DC',
	frequency: 'as it stands: the IF itself cannot be checked',
	at: 'FM dipole terminals',
	coupling: OWN_AERIAL,
	// A sweep needs a generator; the zero of the DC is seen without one.
	adjust: `${row.adjust.replace('symmetry on a sweep, or for ', '')}; an eighth of a turn at most`
});

/** FM front end on stations, also where the generator stops below the band. */
export const fmFrontByStation = (row: AlignmentRow): AlignmentRow => ({
	...row,
	generator: 'a station whose frequency is known',
	frequency: `near ${row.frequency}`,
	coupling: 'the dipole'
});
