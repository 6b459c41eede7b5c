import type { Axis, Curve, Mark, Picture, Point } from '$lib/calculations/index.ts';
import { fromBase, printFigure, printQuantity, scaleOf, toBase } from '$lib/quantity/index.ts';
import { figuresBetween, isLog, titleOf } from './axis.ts';

export interface ChartTable {
	heads: readonly string[];
	/** The first cell names the row, with a point that is marked there below it. */
	rows: readonly (readonly (string | { text: string; note: string })[])[];
	/** Lines across the picture and stretches of it, in a sentence each. */
	notes: readonly string[];
}

/** More rows than these nobody reads beside a picture. */
const MOST = 12;
const DIGITS = 3;
/** Two places nearer to each other than this share would be the same row. */
const SAME = 1e-9;

/** Between their points these curves have nothing. */
const SINGLE: readonly Curve['style'][] = ['dots', 'hollow bars', 'full bars'];

/** The value of a curve at x, between two of its points on a straight line; undefined beyond its ends, and between dots. */
function valueAt(points: readonly Point[], x: number, dots: boolean): number | undefined {
	const near = Math.abs(x) * SAME;
	const at = points.find(([own]) => Math.abs(own - x) <= near);
	if (at || dots) return at?.[1];
	const after = points.findIndex(([own]) => own > x);
	const [left, right] = [points[after - 1], points[after]];
	if (!left || !right) return undefined;
	return left[1] + ((right[1] - left[1]) * (x - left[0])) / (right[0] - left[0]);
}

const sorted = (values: readonly number[]): number[] => [...new Set(values)].sort((a, b) => a - b);

/** Of a smooth curve the ends and round figures between them; of a few points each. */
function placesOf({ points }: Curve, x: Axis): number[] {
	const own = points.map(([across]) => across);
	if (own.length <= MOST) return own;
	const [low, high] = [Math.min(...own), Math.max(...own)];
	return [low, ...figuresBetween(x, low, high, MOST - 2), high];
}

function places({ curves, marks = [], x }: Picture): number[] {
	const marked = marks.flatMap((mark) => (mark.x === undefined ? [] : [mark.x]));
	const all = sorted([...curves.flatMap((curve) => placesOf(curve, x)), ...marked]);
	const span = (all.at(-1) ?? 0) - (all[0] ?? 0);
	return all.filter((value, i) => i === 0 || value - (all[i - 1] ?? 0) > span * SAME);
}

const nameAt = ({ ticks = [], unit }: Axis, value: number): string =>
	ticks.find(({ at }) => at === value)?.label ?? printFigure(value, unit, 4);

const printedOn = ({ unit }: Axis, value: number): string =>
	printQuantity(value, scaleOf(unit).unit, { as: unit, digits: DIGITS });

function notesOf({ x, y, marks = [], bands = [] }: Picture): string[] {
	const lines = marks.flatMap((mark) => {
		if (mark.x !== undefined && mark.y !== undefined) return [];
		return mark.x === undefined
			? [`${mark.label}: ${y.label} ${printedOn(y, mark.y ?? 0)}`]
			: [`${mark.label}: ${x.label} ${printedOn(x, mark.x)}`];
	});
	const stretches = bands.map(({ axis, from, to, label }) => {
		const along = axis === 'x' ? x : y;
		return `${label}: ${along.label} ${printedOn(along, from)} to ${printedOn(along, to)}`;
	});
	return [...lines, ...stretches];
}

/** Rounds to what can be seen on an axis of that span: a crossing of zero is told as 0, not as crumbs. */
function seenOn(axis: Axis, values: readonly number[]): (value: number) => number {
	const [low, high] = [Math.min(...values), Math.max(...values)];
	if (isLog(axis, low, high) || high === low) return (value) => value;
	const step = toBase(10 ** (Math.floor(Math.log10(fromBase(high - low, axis.unit))) - DIGITS), axis.unit);
	return (value) => Math.round(value / step) * step;
}

/** What is marked at a row; a name that only tells the place or the value again is left out. */
function noteOf({ label, y: at = 0 }: Mark, row: string, y: Axis): string {
	const value = printedOn(y, at);
	return label === row || label === value ? value : `${label} (${value})`;
}

/** The picture in figures: a row for each place, a column for each curve. */
export function tableOf(picture: Picture): ChartTable {
	const { x, y, curves, marks = [] } = picture;
	const points = marks.filter((mark) => mark.x !== undefined && mark.y !== undefined);
	const rounded = seenOn(
		y,
		curves.flatMap((curve) => curve.points.map(([, value]) => value))
	);
	const rows = places(picture).map((at) => {
		const cells = curves.map(({ points: own, style }) => valueAt(own, at, SINGLE.includes(style)));
		const name = nameAt(x, at);
		const said = points.filter((mark) => mark.x === at).map((mark) => noteOf(mark, name, y));
		const figures = cells.map((value) =>
			value === undefined ? '–' : printFigure(rounded(value), y.unit, DIGITS)
		);
		return [said.length > 0 ? { text: name, note: said.join(', ') } : name, ...figures];
	});
	const heads = curves.map(({ label }) => titleOf({ ...y, label }));
	return {
		heads: [titleOf(x), ...heads],
		rows,
		notes: notesOf(picture)
	};
}
