import type { ScaleName } from '../quantity/index.ts';

/** A place on an axis, in base units, with what stands there. */
export interface Tick {
	at: number;
	label: string;
}

export interface Axis {
	label: string;
	/** The unit that the axis is marked in; points stay in base units. */
	unit: ScaleName;
	/** Left out: logarithmic where a decade or more is spanned and all is above zero. */
	scale?: 'linear' | 'log';
	/** Names in the place of figures: the stages of a filter. */
	ticks?: readonly Tick[];
}

/** x and y in base units. */
export type Point = readonly [x: number, y: number];

/** Bars are for things apart from each other, such as the resistors of a chain: one for each name on the axis. */
export interface Curve {
	label: string;
	style: 'solid' | 'dashed' | 'dotted' | 'dots' | 'hollow bars' | 'full bars';
	points: readonly Point[];
	/** In the picture its neighbour bears the name for both; the table names each. */
	unnamed?: true;
}

/** A point where both are given, else a line across. */
export interface Mark {
	label: string;
	x?: number;
	y?: number;
}

/** A stretch of an axis that means something. */
export interface Stretch {
	axis: 'x' | 'y';
	from: number;
	to: number;
	label: string;
}

/** A picture as plain data; the page draws it and makes a table of the same points. */
export interface Picture {
	title: string;
	x: Axis;
	y: Axis;
	curves: readonly Curve[];
	marks?: readonly Mark[];
	bands?: readonly Stretch[];
}

/** `count` values from `from` to `to`, both included, in equal steps or in equal ratios (then both above zero). */
export function numbersBetween(
	from: number,
	to: number,
	count: number,
	scale: 'linear' | 'log' = 'linear'
): number[] {
	return Array.from({ length: count }, (_, i) => {
		const share = i / (count - 1);
		return scale === 'log' ? from * (to / from) ** share : from + share * (to - from);
	});
}
