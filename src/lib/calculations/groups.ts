/** Where a restorer looks for a sum, in the order of the work on a set. */
export const GROUPS = [
	'Safety',
	'Mains, lamp and heaters',
	'Capacitors',
	'Supply and smoothing',
	'Current and heat',
	'Grids, leaks and meters',
	'Tuning and alignment',
	'Signal and audio',
	'Parts and values'
] as const;

export type Group = (typeof GROUPS)[number];
