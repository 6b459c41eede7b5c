import type { Fold } from './folds.ts';

/** A bar below the stages: the columns that it spans, and the shelf that it lies on. */
export interface Bar {
	id: string;
	first: number;
	last: number;
	shelf: number;
}

/** Shorter bars hold no text. */
const LEAST_COLUMNS = 2;

const meet = (a: Omit<Bar, 'id' | 'shelf'>, b: Bar) => a.first <= b.last && b.first <= a.last;

/** From the first to the last of some columns, within a row, and long enough for its text. */
function spanOf({ first, last }: Fold, columns: readonly number[]) {
	const least = Math.min(LEAST_COLUMNS, last - first + 1);
	const from = Math.min(Math.min(...columns), last - least + 1);
	return { first: from, last: Math.max(Math.max(...columns), from + least - 1) };
}

const freeShelf = (bars: readonly Bar[], span: Omit<Bar, 'id' | 'shelf'>) => {
	let shelf = 0;
	while (bars.some((bar) => bar.shelf === shelf && meet(span, bar))) shelf++;
	return shelf;
};

/** Lay bars on the uppermost shelf where each finds room. One that names no column
 * goes to the right of the others if it can. */
export function layBars(fold: Fold, wanted: readonly { id: string; columns: readonly number[] }[]): Bar[] {
	const bars: Bar[] = [];
	for (const { id, columns } of wanted) {
		const starts = columns.length > 0 ? [columns] : eachColumn(fold).map((column) => [column]);
		const ways = starts
			.map((some) => spanOf(fold, some))
			.map((span) => ({ id, ...span, shelf: freeShelf(bars, span) }));
		bars.push(ways.reduce((a, b) => (b.shelf <= a.shelf ? b : a)));
	}
	return bars;
}

const eachColumn = ({ first, last }: Fold) =>
	Array.from({ length: last - first + 1 }, (_, index) => first + index);
