/** A rectangle in pixels. */
export interface Box {
	left: number;
	top: number;
	width: number;
	height: number;
}

/** Where a word may stand: the place it belongs to, in pixels. */
export interface Wish {
	text: string;
	/** Places along the thing that it names, the best first. */
	near: readonly (readonly [x: number, y: number])[];
}

export interface PlacedLabel extends Box {
	text: string;
}

/** Of the small face; wide enough for capitals. */
const LETTER = 7.4;
export const LINE = 18;
const GAP = 6;

export const widthOf = (text: string): number => text.length * LETTER;

const overlap = (a: Box, b: Box): boolean =>
	a.left < b.left + b.width &&
	b.left < a.left + a.width &&
	a.top < b.top + b.height &&
	b.top < a.top + a.height;

const inside = ([x, y]: readonly [number, number], { left, top, width, height }: Box): boolean =>
	x > left && x < left + width && y > top && y < top + height;

const covers = (outer: Box, box: Box): boolean =>
	box.left >= outer.left &&
	box.top >= outer.top &&
	box.left + box.width <= outer.left + outer.width &&
	box.top + box.height <= outer.top + outer.height;

/** Above, below and beside a place; over it and under it moved as far as the plot asks. */
function boxesAt([x, y]: readonly [number, number], text: string, plot: Box): Box[] {
	const width = widthOf(text);
	const box = (left: number, top: number): Box => ({ left, top, width, height: LINE });
	const middle = Math.max(plot.left, Math.min(x - width / 2, plot.left + plot.width - width));
	const heights = [y - GAP - LINE, y + GAP, y - LINE / 2];
	return [
		...heights.map((top) => box(x + GAP, top)),
		...heights.map((top) => box(x - GAP - width, top)),
		box(middle, y - 2 * GAP - LINE),
		box(middle, y + 2 * GAP)
	];
}

/** What a place costs: outside the plot most, on another word much, on a line a little for each point of it. */
function costOf(box: Box, plot: Box, taken: readonly Box[], ink: readonly (readonly [number, number])[]) {
	const outside = covers(plot, box) ? 0 : 10_000;
	const onWords = taken.filter((other) => overlap(box, other)).length * 1_000;
	return outside + onWords + ink.filter((point) => inside(point, box)).length * 10;
}

/** Puts each word where it covers least: one after the other, the first have the choice. */
export function placeLabels(
	wishes: readonly Wish[],
	plot: Box,
	ink: readonly (readonly [number, number])[]
): PlacedLabel[] {
	const placed: PlacedLabel[] = [];
	for (const { text, near } of wishes) {
		const boxes = near.flatMap((place) => boxesAt(place, text, plot));
		const costs = boxes.map((box, order) => costOf(box, plot, placed, ink) + order / 100);
		const best = boxes[costs.indexOf(Math.min(...costs))];
		if (best) placed.push({ ...best, text });
	}
	return placed;
}
