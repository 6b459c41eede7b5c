import { across, asY, placeOfNode, pointAt, stagesOf, type Frame } from './frame.ts';
import {
	drawPoint,
	linePoints,
	looseStages,
	pointsBeside,
	textOf,
	titleOf,
	TOUCH,
	wiresOf,
	type Sheet
} from './sheet.ts';
import { entrances } from './tall-entrances.ts';
import { GAP, tallFrame, width } from './tall-frame.ts';
import { fullBoxes, linesOf } from './tall-lines.ts';
import type { Box, Corner, Drawing, DrawnPoint, DrawnStage } from './types.ts';

/** From the middle of a mark to the text beside it. */
const SIDE = 20;

function stageBoxes(sheet: Sheet, frame: Frame): DrawnStage[] {
	return stagesOf(sheet.order).map(({ id, bands, ...node }): DrawnStage => {
		const { along, across: over } = placeOfNode(frame, { id, bands, ...node });
		const title = titleOf(sheet.plan, id);
		const text = textOf(sheet, id, width(over));
		return { id, title, bands, ...text, x: over[0], y: along[0], width: width(over), height: width(along) };
	});
}

/** Marks on the lower edge of a stage: left of the wire while there is room, then right of it. */
function edgePlaces({ x, y, width: wide, height }: Box, count: number): Corner[] {
	const half = (wide - TOUCH) / 2;
	const left = Math.min(count, Math.max(Math.ceil(count / 2), Math.floor(half / TOUCH)));
	const right = count - left;
	return Array.from({ length: count }, (_, index) => {
		const offset =
			index < left ? ((index + 0.5) / left) * half : wide - half + ((index - left + 0.5) / right) * half;
		return { x: x + offset, y: y + height };
	});
}

const edgePoints = (sheet: Sheet, stages: readonly DrawnStage[]): DrawnPoint[] =>
	stages.flatMap((stage) => {
		const ids = pointsBeside(sheet, stage.id);
		return edgePlaces(stage, ids.length).map((at, index) =>
			drawPoint(sheet.plan, ids[index] ?? '', at, false)
		);
	});

function pathPoints(sheet: Sheet, frame: Frame, beside: readonly DrawnPoint[]): DrawnPoint[] {
	const entered = new Set(sheet.order.entries.map(({ to }) => to));
	return sheet.order.nodes
		.filter(({ point }) => point)
		.map((node) => {
			const at = asY(pointAt(frame, node));
			const near = beside
				.filter(({ x, y }) => x > at.x && Math.abs(y - at.y) < SIDE)
				.map(({ x }) => x - SIDE);
			const room = Math.min(across(frame.lanes, node.span)[1], ...near) - at.x - SIDE;
			return drawPoint(sheet.plan, node.id, at, true, entered.has(node.id) ? 0 : Math.max(0, room));
		});
}

/** From top to bottom, the lines in boxes below with a rail along the stages that each feeds. */
export function layoutTall(sheet: Sheet): Drawing {
	const frame = tallFrame(sheet);
	const onPath = stageBoxes(sheet, frame);
	const below = [...Object.keys(sheet.plan.lines), ...looseStages(sheet)];
	const boxes = fullBoxes(sheet, below, frame, frame.end + GAP + SIDE / 2);
	const lines = linesOf(sheet, onPath, boxes);
	const loose = looseStages(sheet).flatMap((id, index): DrawnStage[] => {
		const box = boxes[lines.length + index];
		return box ? [{ id, title: titleOf(sheet.plan, id), bands: [], ...box }] : [];
	});
	const stages = [...onPath, ...loose];
	const beside = edgePoints(sheet, stages);
	const { captions, wires } = entrances(sheet, frame);
	const last = boxes.at(-1);
	return {
		shape: 'tall',
		width: sheet.options.width,
		height: (last ? last.y + last.height : frame.end) + GAP,
		stages,
		lines,
		points: [...pathPoints(sheet, frame, beside), ...beside, ...linePoints(sheet, lines)],
		wires: [...wires, ...wiresOf(sheet, frame, asY)],
		captions
	};
}
