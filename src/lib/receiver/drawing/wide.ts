import { foldColumns, type Fold } from './folds.ts';
import { asX, isIn, lanesEnd, placeOfNode, pointAt, stagesOf, type Frame } from './frame.ts';
import {
	drawPoint,
	linePoints,
	looseStages,
	pointsBeside,
	textOf,
	titleOf,
	wiresOf,
	type Sheet
} from './sheet.ts';
import type { Box, Caption, Drawing, DrawnLine, DrawnPoint, DrawnStage, DrawnWire } from './types.ts';
import { barBoxes, barsOf } from './wide-bars.ts';
import { entrances, goneOn } from './wide-entrances.ts';
import { BOX, boxWidth, EDGE, leftOf, wideFrame } from './wide-frame.ts';

/** Room between stages and bars, between rows, and at the right edge. */
const BELOW = 26;
const ROW_GAP = 36;
const MARGIN = 8;

function stageBoxes(sheet: Sheet, frame: Frame): DrawnStage[] {
	return stagesOf(sheet.order)
		.filter((node) => isIn(frame, node))
		.map((node): DrawnStage => {
			const { along, across: over } = placeOfNode(frame, node);
			const [width, height] = [along[1] - along[0], over[1] - over[0]];
			const title = titleOf(sheet.plan, node.id);
			const text = textOf(sheet, node.id, width);
			return { id: node.id, title, bands: node.bands, ...text, x: along[0], y: over[0], width, height };
		});
}

/** Marks along the lower edge of a stage. */
const edgePoints = (sheet: Sheet, stages: readonly DrawnStage[]): DrawnPoint[] =>
	stages.flatMap(({ id, x, y, width, height }) =>
		pointsBeside(sheet, id).map((point, index, all) => {
			const at = { x: x + ((index + 0.5) / all.length) * width, y: y + height };
			return drawPoint(sheet.plan, point, at, false);
		})
	);

const pathPoints = ({ plan, order }: Sheet, frame: Frame): DrawnPoint[] =>
	order.nodes
		.filter((node) => node.point && isIn(frame, node))
		.map((node) => drawPoint(plan, node.id, asX(pointAt(frame, node)), true));

interface Row {
	stages: DrawnStage[];
	bars: Map<string, Box>;
	wires: DrawnWire[];
	points: DrawnPoint[];
	captions: Caption[];
	bottom: number;
}

function row(sheet: Sheet, fold: Fold, box: number, top: number): Row {
	const frame = wideFrame(sheet, fold, box, top);
	const stages = stageBoxes(sheet, frame);
	const comeIn = entrances(sheet, frame);
	const isLast = fold.last === sheet.order.columns - 1;
	const lowest = Math.max(lanesEnd(frame.lanes), ...comeIn.map(({ caption }) => caption.y));
	const bars = barBoxes(sheet, frame, barsOf(sheet, frame, isLast), lowest + BELOW);
	const wires = wiresOf(sheet, frame, asX);
	const below = [...bars.values()].map(({ y, height }) => y + height);
	return {
		stages,
		bars,
		wires: [
			...comeIn.map(({ wire }) => ({ corners: wire, bands: [], goesOn: false, back: false })),
			...wires
		],
		points: [...pathPoints(sheet, frame), ...edgePoints(sheet, stages)],
		captions: [...comeIn.map(({ caption }) => caption), ...goneOn(wires, sheet, frame)],
		bottom: Math.max(lowest, ...below)
	};
}

function linesOf({ plan }: Sheet, rows: readonly Row[]): DrawnLine[] {
	return Object.entries(plan.lines).map(([id, { title, kind, feeds }]) => {
		const found = rows.flatMap(({ bars, stages }) => {
			const bar = bars.get(id);
			return bar ? [{ bar, fed: stages.filter((stage) => feeds.includes(stage.id)) }] : [];
		});
		const taps = found.flatMap(({ bar, fed }) => fed.map(({ x, width }) => ({ x: x + width / 2, y: bar.y })));
		return { id, title, kind, feeds, bars: found.map(({ bar }) => bar), rail: [], taps };
	});
}

const looseBoxes = (sheet: Sheet, rows: readonly Row[]): DrawnStage[] =>
	looseStages(sheet).flatMap((id) => {
		const box = rows.at(-1)?.bars.get(id);
		return box ? [{ id, title: titleOf(sheet.plan, id), bands: [], ...box }] : [];
	});

function rowsOf(sheet: Sheet): Row[] {
	const room = sheet.options.width - leftOf(sheet) - EDGE - MARGIN;
	const folds = foldColumns(sheet.order, room, BOX.least);
	const box = boxWidth(sheet, folds, room);
	let top = 2;
	return folds.map((fold) => {
		const drawn = row(sheet, fold, box, top);
		top = drawn.bottom + ROW_GAP;
		return drawn;
	});
}

/** From left to right in as many rows as the width asks for, the lines as bars below the stages that each feeds. */
export function layoutWide(sheet: Sheet): Drawing {
	const rows = rowsOf(sheet);
	const lines = linesOf(sheet, rows);
	const loose = looseBoxes(sheet, rows);
	const rights = rows.flatMap(({ stages, wires }) => [
		...stages.map(({ x, width }) => x + width),
		...wires.flatMap(({ corners }) => corners.map(({ x }) => x))
	]);
	return {
		shape: 'wide',
		width: Math.max(...rights, 0) + MARGIN,
		height: (rows.at(-1)?.bottom ?? 0) + BELOW,
		stages: [...rows.flatMap(({ stages }) => stages), ...loose],
		lines,
		points: [
			...rows.flatMap(({ points }) => points),
			...edgePoints(sheet, loose),
			...linePoints(sheet, lines)
		],
		wires: rows.flatMap(({ wires }) => wires),
		captions: rows.flatMap(({ captions }) => captions)
	};
}
