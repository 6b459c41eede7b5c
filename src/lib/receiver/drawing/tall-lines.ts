import { across, type Frame } from './frame.ts';
import { textOf, type Sheet } from './sheet.ts';
import { backRoom, GAP, LEAST, RAIL } from './tall-frame.ts';
import type { Box, Corner, DrawnLine, DrawnStage } from './types.ts';

/** Boxes of full width, one under the other. */
export function fullBoxes(sheet: Sheet, ids: readonly string[], frame: Frame, top: number): Box[] {
	const [from, to] = across(frame.lanes, [0, frame.lanes.length - 1]);
	let y = top;
	return ids.map((id) => {
		const text = textOf(sheet, id, to - from);
		const height = Math.max(LEAST, text.height);
		const box = { ...text, x: from, y, width: to - from, height };
		y += height + GAP;
		return box;
	});
}

/** The rail of a line: from its first stage down past the others and into its box; inner rails belong to upper boxes. */
function railOf(box: Box, index: number, taps: readonly Corner[]): Corner[] {
	const top = taps[0];
	if (!top) return [];
	const right = box.x + box.width;
	const y = box.y + box.height / 2;
	return [
		{ x: top.x, y: top.y },
		{ x: top.x, y },
		{ x: right, y }
	];
}

export function linesOf(sheet: Sheet, stages: readonly DrawnStage[], boxes: readonly Box[]): DrawnLine[] {
	return Object.entries(sheet.plan.lines).flatMap(([id, { title, kind, feeds }], index): DrawnLine[] => {
		const box = boxes[index];
		if (!box) return [];
		const x = box.x + box.width + 8 + backRoom(sheet.order) + index * RAIL;
		const taps = stages
			.filter((stage) => feeds.includes(stage.id))
			.map((stage) => ({ x, y: stage.y + stage.height / 2 }))
			.sort((a, b) => a.y - b.y);
		return [{ id, title, kind, feeds, bars: [box], rail: railOf(box, index, taps), taps }];
	});
}
