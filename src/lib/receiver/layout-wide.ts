import { layBars, type Bar } from './bars.ts';
import type {
	Box,
	Caption,
	Corner,
	Drawing,
	DrawnLine,
	DrawnPoint,
	DrawnStage,
	DrawnWire
} from './drawing.ts';
import { textWidth } from './label.ts';
import { foldColumns, insideJoints, jointsWidth, type Fold } from './folds.ts';
import {
	across,
	asX,
	isIn,
	jointSize,
	laneSizes,
	lanesEnd,
	placeOfNode,
	pointAt,
	route,
	setLanes,
	slotsOf,
	stagesOf,
	type Frame,
	type Stretch
} from './frame.ts';
import {
	bandTitles,
	drawPoint,
	linePoints,
	looseStages,
	pointsBeside,
	textOf,
	titleOf,
	wiresOf,
	type Sheet
} from './sheet.ts';
import type { Entry, SignalNode } from './signal-order.ts';

/** Length of wires that come in or go on; limits of a box; gaps. */
const EDGE = 20;
const BOX = { least: 100, most: 140, low: 64 } as const;
const LANE_GAP = 22;
const BELOW = 26;
const ROW_GAP = 36;

/** Room at the left: for the names of bands that come in there, and their wires. */
function leftOf({ order, plan }: Sheet): number {
	const below = order.entries.filter((entry) =>
		order.nodes.some((node) => node.id === entry.to && joins(entry, node))
	);
	const names = order.lanes.filter((band) => !below.some(({ bands }) => bands.includes(band)));
	return EDGE + 8 + Math.max(0, ...names.map((band) => textWidth(bandTitles(plan, [band]))));
}

function boxWidth({ order }: Sheet, folds: readonly Fold[], room: number): number {
	const widths = folds.map((fold) => (room - jointsWidth(order, fold)) / (fold.last - fold.first + 1));
	return Math.floor(Math.min(BOX.most, ...widths));
}

/** Columns and joints of a row from left to right. */
function alongOf(sheet: Sheet, fold: Fold, box: number) {
	const { order } = sheet;
	const [columns, joints, slots] = [
		new Map<number, Stretch>(),
		new Map<number, Stretch>(),
		new Map<number, number>()
	];
	const left = leftOf(sheet);
	let next = left;
	const take = (size: number): Stretch => ({ start: (next += size) - size, size });
	for (const joint of insideJoints(fold)) {
		if (joint >= 0) columns.set(joint, take(box));
		const count = slotsOf(order, joint);
		const edge = joint < 0 || joint === fold.last;
		slots.set(joint, Math.max(1, count));
		joints.set(joint, take(edge && count === 0 ? 0 : jointSize(count)));
	}
	return { columns, joints, slots, begin: left - EDGE, end: next + EDGE };
}

function wideFrame(sheet: Sheet, fold: Fold, box: number, top: number): Frame {
	const { order } = sheet;
	const nodes = stagesOf(order).filter((node) => isIn(fold, node));
	const need = ({ id }: SignalNode) => Math.max(BOX.low, textOf(sheet, id, box).height);
	const sizes = laneSizes(nodes, order.lanes.length, need);
	return { ...fold, ...alongOf(sheet, fold, box), lanes: setLanes(sizes, top, LANE_GAP, nodes) };
}

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

interface Entrance {
	caption: Caption;
	wire: Corner[];
}

/** From below, where a band has no lane to come in by. */
function entranceBelow(frame: Frame, first: SignalNode, text: string): Entrance {
	const { along, across: over } = placeOfNode(frame, first);
	const x = (along[0] + along[1]) / 2;
	const y = lanesEnd(frame.lanes) + BELOW;
	const wire = [
		{ x, y },
		{ x, y: over[1] }
	];
	return { caption: { text, anchor: 'end', x: x + 10, y: y + 15 }, wire };
}

function entranceLeft(
	{ order }: Sheet,
	frame: Frame,
	{ bands }: Entry,
	first: SignalNode,
	text: string
): Entrance {
	const at = bands.map((band) => order.lanes.indexOf(band));
	const lane = across(frame.lanes, [Math.min(...at), Math.max(...at)]);
	const place = placeOfNode(frame, first);
	const x = place.along[0] - EDGE;
	const wire = route(
		{ along: [x, x], across: [(lane[0] + lane[1]) / 2, (lane[0] + lane[1]) / 2] },
		place
	).map(asX);
	return { caption: { text, anchor: 'end', x: x - 6, y: (wire[0]?.y ?? 0) + 5 }, wire };
}

/** Bands of which the signal comes into this row from outside the set. A band that joins others comes in from below. */
function entrances(sheet: Sheet, frame: Frame): Entrance[] {
	return sheet.order.entries.flatMap((entry) => {
		const first = sheet.order.nodes.find(({ id }) => id === entry.to);
		if (!first || !isIn(frame, first)) return [];
		const text = bandTitles(sheet.plan, entry.bands);
		return joins(entry, first)
			? entranceBelow(frame, first, text)
			: entranceLeft(sheet, frame, entry, first, text);
	});
}

const joins = ({ bands }: Entry, first: SignalNode) => first.bands.length > bands.length;

/** What lies below the stages of a row: lines that feed them and, in the last row, whatever stands nowhere else. */
function barsOf(sheet: Sheet, frame: Frame, isLast: boolean): Bar[] {
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

const LEAST = 46;
const SHELF_GAP = 16;

/** Bars as boxes; each shelf is as high as its highest. */
function barBoxes(sheet: Sheet, frame: Frame, bars: readonly Bar[], top: number): Map<string, Box> {
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

/** The bands of a wire that comes from another row, where it does not carry them all. */
function goneOn(wires: readonly DrawnWire[], { plan, order }: Sheet, frame: Frame): Caption[] {
	return wires.flatMap(({ corners: [first], bands }): Caption[] => {
		if (!first || first.x !== frame.begin || bands.length === order.lanes.length) return [];
		return [{ text: bandTitles(plan, bands), anchor: 'end', x: first.x - 6, y: first.y + 5 }];
	});
}

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
	const room = sheet.options.width - leftOf(sheet) - EDGE;
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
		width: Math.max(...rights, 0) + 8,
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
