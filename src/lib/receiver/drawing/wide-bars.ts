import { layBars, type Bar } from './bars.ts';
import type { Fold } from './folds.ts';
import { isIn, stagesOf, type Frame } from './frame.ts';
import { looseStages, textOf, type Sheet } from './sheet.ts';
import type { Box } from './types.ts';

const LEAST = 46;
const SHELF_GAP = 16;

/** What lies below the stages of a row: lines that feed them and, in the last row, whatever stands nowhere else. */
export function barsOf(sheet: Sheet, frame: Frame, isLast: boolean): Bar[] {
	const columnsOf = (id: string, within: Fold) =>
		stagesOf(sheet.order)
			.filter((node) => isIn(within, node) && sheet.plan.lines[id]?.feeds.includes(node.id))
			.map(({ column }) => column);
	const all = { first: 0, last: sheet.order.columns - 1 };
	const lines = Object.keys(sheet.plan.lines);
	const here = lines
		.map((id) => ({ id, columns: columnsOf(id, frame) }))
		.filter(({ columns }) => columns.length > 0);
	const loose = [...lines.filter((id) => columnsOf(id, all).length === 0), ...looseStages(sheet)];
	return layBars(frame, isLast ? [...here, ...loose.map((id) => ({ id, columns: [] }))] : here);
}

/** Bars as boxes; each shelf is as high as its highest. */
export function barBoxes(sheet: Sheet, frame: Frame, bars: readonly Bar[], top: number): Map<string, Box> {
	const boxes = new Map<string, Box>();
	const shelves = Math.max(-1, ...bars.map(({ shelf }) => shelf));
	let y = top;
	for (let shelf = 0; shelf <= shelves; shelf++) {
		const drawn = bars
			.filter((bar) => bar.shelf === shelf)
			.map((bar) => ({ bar, box: barBox(sheet, frame, bar, y) }));
		const height = Math.max(LEAST, ...drawn.map(({ box }) => box.height));
		for (const { bar, box } of drawn) boxes.set(bar.id, { ...box, height });
		y += height + SHELF_GAP;
	}
	return boxes;
}

function barBox(sheet: Sheet, frame: Frame, { id, first, last }: Bar, y: number): Box {
	const [from, to] = [frame.columns.get(first), frame.columns.get(last)];
	const x = from?.start ?? 0;
	const width = to ? to.start + to.size - x : 0;
	return {
		...textOf(sheet, id, width),
		x,
		y,
		width
	};
}
