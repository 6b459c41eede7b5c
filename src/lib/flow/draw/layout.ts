import { Graph, layout } from '@dagrejs/dagre';
import { TEXT, textWidth, wrap, wrapNote } from '../../receiver/drawing/label.ts';
import { outlineOf, type OutlineEntry } from './outline.ts';
import { percent } from './percent.ts';
import type { Way } from './way.ts';

/** Wide: the opening at the left, the likeliest answers along the top. Tall: one below the other, for a narrow screen. */
export type Shape = 'wide' | 'tall';

/** A way as a drawing. Lengths are CSS pixels. */
export interface WayDrawing {
	width: number;
	height: number;
	boxes: WayBox[];
	lines: WayLine[];
}

export interface WayBox {
	/** Of its entry in the outline. */
	number: number;
	kind: OutlineEntry['stop']['kind'];
	x: number;
	y: number;
	width: number;
	height: number;
	/** The answer that leads here, with its share; broken into lines. */
	answer: string[];
	title: string[];
	facts: string[];
}

/** From a box to one that follows it. */
export interface WayLine {
	from: number;
	to: number;
	/** Path data. */
	path: string;
	/** Thicker where more traces go. */
	width: number;
}

const BOX = 200;
/** Width of a tall drawing: a phone of 360 with its margins. */
const TALL = { width: 324, indent: 14, gap: 8 };
const GAP = { along: 44, across: 12 };
const EDGE = 12;
/** Width of a line that no trace, and that every trace takes. */
const LINE = { least: 1, most: 13 };
/** Titles longer than so many lines are shortened: the outline has them whole. */
const MOST_LINES = 4;

function shortened(lines: string[]): string[] {
	if (lines.length <= MOST_LINES) return lines;
	const kept = lines.slice(0, MOST_LINES);
	return [...kept.slice(0, -1), `${kept.at(-1) ?? ''} …`];
}

type Sized = Omit<WayBox, 'x' | 'y'>;

function boxOf({ number, stop, title, facts, share }: OutlineEntry, width = BOX): Sized {
	const room = width - 2 * TEXT.padX;
	const answer = stop.from ? wrapNote(`${share} ${stop.from.answer}`, room) : [];
	const heading = shortened(wrap(`${number}. ${title}`, room - textWidth(' …')));
	const below = wrapNote(facts, room);
	const lines = answer.length + heading.length + below.length;
	const height = lines * TEXT.line + 2 * TEXT.padY + (answer.length ? TEXT.padY : 0);
	return { number, kind: stop.kind, width, height, answer, title: heading, facts: below };
}

export function drawWay(way: Way, shape: Shape = 'wide'): WayDrawing {
	const entries = outlineOf(way);
	return shape === 'tall' ? drawTall(entries) : drawWide(entries);
}

/** In the order of the outline, each a little to the right of the stop that it follows. */
function drawTall(entries: readonly OutlineEntry[]): WayDrawing {
	let y = EDGE;
	const boxes = entries.map((entry): WayBox => {
		const x = EDGE + entry.stop.depth * TALL.indent;
		const box = { ...boxOf(entry, TALL.width - x - 2), x, y };
		y += box.height + TALL.gap;
		return box;
	});
	return { width: TALL.width, height: y, boxes, lines: linesOf(entries, boxes, rail) };
}

/** Down from the left of one box, then right to the other. */
const rail = (one: WayBox, other: WayBox): string =>
	`M${one.x + TALL.indent / 2} ${round(one.y + one.height)}V${round(other.y + other.height / 2)}H${other.x}`;

function drawWide(entries: readonly OutlineEntry[]): WayDrawing {
	const graph = new Graph();
	graph.setGraph({
		rankdir: 'LR',
		// The first child stands straight on from its parent.
		align: 'UL',
		ranksep: GAP.along,
		nodesep: GAP.across,
		marginx: EDGE,
		marginy: EDGE
	});
	graph.setDefaultEdgeLabel(() => ({}));
	const sized = entries.map((entry) => boxOf(entry));
	for (const box of sized) graph.setNode(String(box.number), { width: box.width, height: box.height });
	for (const { number, answers } of entries)
		for (const { to } of answers) graph.setEdge(String(number), String(to));
	layout(graph, { customOrder: asInOutline });
	const boxes = sized.map((box): WayBox => {
		const { x = 0, y = 0 } = graph.node(String(box.number)) as { x?: number; y?: number };
		return { ...box, x: x - box.width / 2, y: y - box.height / 2 };
	});
	const { width = 0, height = 0 } = graph.graph() as { width?: number; height?: number };
	return { width, height, boxes, lines: linesOf(entries, boxes, curve) };
}

/** What the layout knows of a node: our own, or one that it has put on a line to lead it through a column. */
interface Placed {
	rank?: number;
	order?: number;
	/** The line that it stands on. */
	edgeObj?: { w: string };
}

/** In each column all stand as in the outline, so that no line crosses another and the likeliest way runs along the top. */
function asInOutline(graph: Graph): void {
	const placed = graph.nodes().map((name) => {
		const node = graph.node(name) as Placed;
		return { node, number: Number(node.edgeObj?.w ?? name) };
	});
	const next = new Map<number | undefined, number>();
	for (const { node } of placed.sort((a, b) => a.number - b.number)) {
		node.order = next.get(node.rank) ?? 0;
		next.set(node.rank, node.order + 1);
	}
}

function linesOf(
	entries: readonly OutlineEntry[],
	boxes: readonly WayBox[],
	pathOf: (one: WayBox, other: WayBox) => string
): WayLine[] {
	const boxAt = new Map(boxes.map((box) => [box.number, box]));
	const chanceOf = new Map(entries.map(({ number, stop }) => [number, stop.chance]));
	return entries.flatMap(({ number, answers }) =>
		answers.flatMap(({ to }) => {
			const [one, other] = [boxAt.get(number), boxAt.get(to)];
			if (!one || !other) return [];
			const width = LINE.least + (LINE.most - LINE.least) * (chanceOf.get(to) ?? 0);
			return [{ from: number, to, path: pathOf(one, other), width }];
		})
	);
}

const round = (length: number) => Math.round(length * 10) / 10;

/** From the right side of one box to the left side of the other. */
function curve(one: WayBox, other: WayBox): string {
	const [x1, y1] = [one.x + one.width, one.y + one.height / 2];
	const [x2, y2] = [other.x, other.y + other.height / 2];
	const middle = round((x1 + x2) / 2);
	return `M${round(x1)} ${round(y1)}C${middle} ${round(y1)} ${middle} ${round(y2)} ${round(x2)} ${round(y2)}`;
}

/** A line of text in its box. */
export interface BoxLine {
	text: string;
	kind: 'answer' | 'title' | 'facts';
	x: number;
	y: number;
}

/** The text of a box line by line; the answer keeps a little distance from what it leads to. */
export function linesIn(box: WayBox): BoxLine[] {
	const gap = box.answer.length > 0 ? TEXT.padY : 0;
	const rows = (['answer', 'title', 'facts'] as const).flatMap((kind) =>
		box[kind].map((text) => ({ text, kind }))
	);
	return rows.map(({ text, kind }, row) => ({
		text,
		kind,
		x: box.x + TEXT.padX,
		y: box.y + TEXT.padY + TEXT.size - 1 + row * TEXT.line + (kind === 'answer' ? 0 : gap)
	}));
}

/** For whoever hears the drawing: what it is a picture of. */
export const drawingWords = (way: Way): string =>
	`The way of the advice through "${way.title}" on ${way.plan}: ${way.stops.length} stops. The list below says the same. ` +
	`The thickest line carries ${percent(Math.max(0, ...way.stops.slice(1).map(({ chance }) => chance)))} of the traces.`;
