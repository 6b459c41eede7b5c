import type { Axis } from '$lib/calculations/index.ts';
import { fromBase, printFigure, scaleOf, toBase } from '$lib/quantity/index.ts';
import { scaleLinear, scaleLog } from 'd3-scale';
import { widthOf } from './labels.ts';

/** A figure or name on an axis, and its place in pixels. */
export interface PlacedTick {
	at: number;
	label: string;
}

export interface PlacedAxis {
	/** `Leakage, mA`. */
	title: string;
	ticks: readonly PlacedTick[];
	/** The place in pixels of a value in base units. */
	place: (value: number) => number;
	log: boolean;
}

const DECADE = 10;

/** Logarithmic where the picture asks for it, or where a decade or more is spanned and nothing is zero or below. */
export function isLog({ scale, ticks }: Axis, low: number, high: number): boolean {
	if (scale !== undefined) return scale === 'log' && low > 0;
	return ticks === undefined && low > 0 && high / low >= DECADE;
}

export function titleOf({ label, unit }: Axis): string {
	const { symbol } = scaleOf(unit);
	return symbol ? `${label}, ${symbol}` : label;
}

/** Of the figures 1 to 9 in each decade those that there is room for. */
function logFigures(all: readonly number[], room: number): number[] {
	const first = (value: number): number => Number(value.toExponential().charAt(0));
	const kept = [[1, 2, 3, 4, 5, 6, 7, 8, 9], [1, 2, 5], [1, 3], [1]].map((firsts) =>
		all.filter((value) => firsts.includes(first(value)))
	);
	return kept.find((values) => values.length <= room) ?? kept.at(-1) ?? [];
}

/** The next 1, 2 or 5 of a decade, downwards or upwards. */
function roundFigure(value: number, towards: 'down' | 'up'): number {
	const decade = DECADE ** Math.floor(Math.log10(value));
	const firsts = [1, 2, 5, 10].map((first) => first * decade);
	const CRUMBS = 1e-9;
	if (towards === 'up') return firsts.find((figure) => figure >= value * (1 - CRUMBS)) ?? value;
	return firsts.findLast((figure) => figure <= value * (1 + CRUMBS)) ?? value;
}

/** Round figures from low to high, some `count` of them: for the rows of a table. */
export function figuresBetween(axis: Axis, low: number, high: number, count: number): number[] {
	const [from, to] = [fromBase(low, axis.unit), fromBase(high, axis.unit)];
	const log = isLog(axis, low, high);
	const all = log
		? logFigures(scaleLog().domain([from, to]).ticks(), count / 2)
		: scaleLinear().domain([from, to]).ticks(count);
	return all.map((value) => toBase(value, axis.unit));
}

/** Every second of the figures, or every third, until they stand clear of each other along a line. */
function clearOfEachOther(ticks: readonly PlacedTick[]): readonly PlacedTick[] {
	const clear = (some: readonly PlacedTick[]): boolean =>
		some.every(({ at, label }, i) => {
			const next = some[i + 1];
			return !next || Math.abs(next.at - at) >= (widthOf(label) + widthOf(next.label)) / 2 + 4;
		});
	const thinned = [1, 2, 3, 4].map((step) => ticks.filter((_, i) => i % step === 0));
	return thinned.find(clear) ?? thinned.at(-1) ?? ticks;
}

/** A tick every so many pixels, at most. */
const SPACING = { across: 72, upright: 44 };

/**
 * An axis that covers `values` (base units) and runs over `range` (pixels, from the low end to the high end). Upright
 * and logarithmic axes end at round figures.
 */
export function placeAxis(axis: Axis, values: readonly number[], range: [number, number]): PlacedAxis {
	const own = values.map((value) => fromBase(value, axis.unit));
	const [low, high] = [Math.min(...own), Math.max(...own)];
	const upright = range[0] > range[1];
	const room = Math.max(
		2,
		Math.floor(Math.abs(range[1] - range[0]) / (upright ? SPACING.upright : SPACING.across))
	);
	const log = isLog(axis, low, high);
	const pad = high === low ? Math.abs(low) / 10 || 1 : 0;
	const ends = [low - pad, high + pad] as const;
	const round = log
		? scaleLog([roundFigure(ends[0], 'down'), roundFigure(ends[1], 'up')], range)
		: axis.ticks || !upright
			? scaleLinear(ends, range)
			: scaleLinear(ends, range).nice(2 * room);
	const place = (value: number): number => round(fromBase(value, axis.unit));
	const figures = log ? logFigures(round.ticks(), room) : round.ticks(room);
	const names = axis.ticks?.map(({ at, label }) => ({ at: place(at), label }));
	const ticks = figures.map((value) => ({
		at: round(value),
		label: printFigure(toBase(value, axis.unit), axis.unit, 4)
	}));
	return {
		title: titleOf(axis),
		ticks: names ?? (upright ? ticks : clearOfEachOther(ticks)),
		place,
		log
	};
}
