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
import {
	across,
	asY,
	jointSize,
	laneSizes,
	placeOfNode,
	pointAt,
	route,
	setLanes,
	slotsOf,
	stagesOf,
	type Frame,
	type Stretch
} from './frame.ts';
import { textWidth } from './label.ts';
import {
	bandTitles,
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
import type { Entry, SignalNode } from './signal-order.ts';

/** Room for captions above the first stage; gap between lanes and between boxes; pitch of the rails at the right. */
const HEAD = 34;
const GAP = 10;
const RAIL = 8;
const LEAST = 44;
/** Share of a lane that holds only test points of its own. */
const THIN = 0.4;

const width = ([from, to]: readonly [number, number]) => to - from;

function tallLanes({ order, options, plan }: Sheet): Stretch[] {
	const rails = Object.keys(plan.lines).length;
	const room = options.width - 2 - (rails > 0 ? rails * RAIL + 4 : 0);
	const shares = laneSizes(order.nodes, order.lanes.length, ({ point, span }) => {
		if (point) return span[0] === span[1] ? THIN : 0;
		return 1;
	});
	const gaps = shares.filter((share) => share > 0).length - 1;
	const unit = (room - Math.max(0, gaps) * GAP) / (shares.reduce((sum, share) => sum + share, 0) || 1);
	const sizes = shares.map((share) => share * unit);
	return setLanes(sizes, 1, GAP, order.nodes);
}

/** Whether bands come in from the side, as they have no lane to come down in. */
function fromSide({ order }: Sheet, lanes: readonly Stretch[], { bands }: Entry, first: SignalNode): boolean {
	const narrow = bands.every((band) => (lanes[order.lanes.indexOf(band)]?.size ?? 0) === 0);
	return narrow && first.bands.length > bands.length;
}

const entriesOf = ({ order }: Sheet) =>
	order.entries.flatMap((entry) => {
		const first = order.nodes.find(({ id }) => id === entry.to);
		return first ? [{ entry, first }] : [];
	});

/** A joint without a test point still needs room where a caption comes in from the side. */
function slotsWanted(sheet: Sheet, lanes: readonly Stretch[], joint: number): number {
	const caption = entriesOf(sheet).some(
		({ entry, first }) => !first.point && first.column === joint + 1 && fromSide(sheet, lanes, entry, first)
	);
	return Math.max(slotsOf(sheet.order, joint), caption ? 1 : 0);
}

const heightIn = (sheet: Sheet, lanes: readonly Stretch[], { id, span }: SignalNode) =>
	textOf(sheet, id, width(across(lanes, span))).height;

function tallFrame(sheet: Sheet): Frame {
	const { order } = sheet;
	const lanes = tallLanes(sheet);
	const [columns, joints, slots] = [
		new Map<number, Stretch>(),
		new Map<number, Stretch>(),
		new Map<number, number>()
	];
	let next = HEAD;
	const take = (size: number): Stretch => ({ start: (next += size) - size, size });
	for (let column = -1; column < order.columns; column++) {
		const boxes = stagesOf(order).filter((node) => node.column === column);
		if (column >= 0)
			columns.set(column, take(Math.max(LEAST, ...boxes.map((node) => heightIn(sheet, lanes, node)))));
		const wanted = slotsWanted(sheet, lanes, column);
		const outside = column < 0 || column === order.columns - 1;
		slots.set(column, Math.max(1, wanted));
		joints.set(column, take(outside && wanted === 0 ? 0 : jointSize(wanted)));
	}
	return { first: 0, last: order.columns - 1, columns, joints, slots, lanes, begin: 0, end: next };
}

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

/** From the middle of a mark to the text beside it. */
const SIDE = 20;

interface Entrances {
	captions: Caption[];
	wires: DrawnWire[];
}

/** A caption at the right end of the joint, with its wire to the point or down into the stage. */
function sideEntrance(frame: Frame, first: SignalNode, text: string): [Caption, Corner[]] {
	const right = across(frame.lanes, first.span)[1];
	const place = placeOfNode(frame, first);
	const y = first.point ? place.along[0] : place.along[0] - 14;
	const left = right - textWidth(text) - 8;
	const from = { x: left, y };
	const wire = first.point
		? [from, { x: place.across[0], y }]
		: [from, { x: left - 10, y }, { x: left - 10, y: place.along[0] }];
	return [{ text, anchor: 'end', x: right, y: y + 5 }, wire];
}

/** A caption above the lane. */
function topEntrance(
	sheet: Sheet,
	frame: Frame,
	entry: Entry,
	first: SignalNode,
	text: string
): [Caption, Corner[]] {
	const at = entry.bands.map((band) => sheet.order.lanes.indexOf(band));
	const lane = across(frame.lanes, [Math.min(...at), Math.max(...at)]);
	const place = placeOfNode(frame, first);
	const y = place.along[0] - 14;
	const middle = (lane[0] + lane[1]) / 2;
	const wire = route({ along: [y, y], across: [middle, middle] }, place).map(asY);
	return [{ text, anchor: 'middle', x: middle, y: y - 5 }, wire];
}

function entrances(sheet: Sheet, frame: Frame): Entrances {
	const drawn = entriesOf(sheet).map(({ entry, first }) => {
		const text = bandTitles(sheet.plan, entry.bands);
		const [caption, corners] = fromSide(sheet, frame.lanes, entry, first)
			? sideEntrance(frame, first, text)
			: topEntrance(sheet, frame, entry, first, text);
		return { caption, wire: { corners, bands: entry.bands, goesOn: false, back: false } };
	});
	return { captions: drawn.map(({ caption }) => caption), wires: drawn.map(({ wire }) => wire) };
}

/** Boxes of full width, one under the other. */
function fullBoxes(sheet: Sheet, ids: readonly string[], frame: Frame, top: number): Box[] {
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

function linesOf(sheet: Sheet, stages: readonly DrawnStage[], boxes: readonly Box[]): DrawnLine[] {
	return Object.entries(sheet.plan.lines).flatMap(([id, { title, kind, feeds }], index): DrawnLine[] => {
		const box = boxes[index];
		if (!box) return [];
		const x = box.x + box.width + 8 + index * RAIL;
		const taps = stages
			.filter((stage) => feeds.includes(stage.id))
			.map((stage) => ({ x, y: stage.y + stage.height / 2 }))
			.sort((a, b) => a.y - b.y);
		return [{ id, title, kind, feeds, bars: [box], rail: railOf(box, index, taps), taps }];
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
