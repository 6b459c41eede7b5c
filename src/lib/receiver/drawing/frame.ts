import type { Corner } from './types.ts';
import type { SignalNode, SignalOrder, Span } from './signal-order.ts';

/**
 * One row of a drawing, in two directions that both shapes share: along the signal and across the lanes. A wide drawing
 * reads them as x and y, a tall one as y and x.
 */
export interface Frame {
	/** First and last column that stand in this row. */
	first: number;
	last: number;
	columns: ReadonlyMap<number, Stretch>;
	joints: ReadonlyMap<number, Stretch>;
	/** Slots of each joint. */
	slots: ReadonlyMap<number, number>;
	lanes: readonly Stretch[];
	/** Where wires to other rows leave and come in. */
	begin: number;
	end: number;
}

export interface Stretch {
	start: number;
	size: number;
}

/** Along and across. */
export type Step = readonly [along: number, across: number];

/** What a wire ends at; a point is a range without length. */
interface Place {
	along: readonly [number, number];
	across: readonly [number, number];
}

/** Room for one test point on a joint, and the gap where there is none. */
export const SLOT = 26;
export const TIGHT = 12;

const endOf = ({ start, size }: Stretch) => start + size;
const mid = ([from, to]: readonly [number, number]) => (from + to) / 2;
const NOTHING: Stretch = { start: 0, size: 0 };

export const stagesOf = (order: SignalOrder) => order.nodes.filter(({ point }) => !point);
export const isIn = ({ first, last }: Pick<Frame, 'first' | 'last'>, { column }: SignalNode) =>
	(column >= first && column <= last) || (first === 0 && column === -1);

export const slotsOf = (order: SignalOrder, joint: number): number =>
	Math.max(
		0,
		...order.nodes.filter(({ point, column }) => point && column === joint).map(({ slot }) => slot + 1)
	);

export const jointSize = (slots: number): number => (slots > 0 ? slots * SLOT : TIGHT);

/** Across the lanes from the first to the last of a span. */
export function across(lanes: readonly Stretch[], [first, last]: Span): readonly [number, number] {
	return [(lanes[first] ?? NOTHING).start, endOf(lanes[last] ?? NOTHING)];
}

/** Size of each lane: what its own stages need; where lanes only have shared stages, these share the need out. */
export function laneSizes(
	nodes: readonly SignalNode[],
	lanes: number,
	need: (node: SignalNode) => number
): number[] {
	const sizes = Array.from({ length: lanes }, () => 0);
	const narrowFirst = nodes.toSorted((a, b) => a.span[1] - a.span[0] - (b.span[1] - b.span[0]));
	for (const node of narrowFirst) {
		const [first, last] = node.span;
		const missing = need(node) - sizes.slice(first, last + 1).reduce((sum, size) => sum + size, 0);
		for (let lane = first; lane <= last && missing > 0; lane++)
			sizes[lane] = (sizes[lane] ?? 0) + missing / (last - first + 1);
	}
	return sizes;
}

/** Lanes one after the other, with a gap wherever a stage ends between two that hold something. */
export function setLanes(
	sizes: readonly number[],
	start: number,
	gap: number,
	nodes: readonly SignalNode[]
): Stretch[] {
	let next = start;
	return sizes.map((size, lane) => {
		const parted = nodes.some(({ span }) => span[0] === lane || span[1] === lane - 1);
		if (lane > 0 && size > 0 && parted && next > start) next += gap;
		const stretch = { start: next, size };
		next += size;
		return stretch;
	});
}

export const lanesEnd = (lanes: readonly Stretch[]): number => Math.max(0, ...lanes.map(endOf));

/** Where a test point stands. */
export function pointAt(frame: Frame, node: SignalNode): Step {
	const joint = frame.joints.get(node.column) ?? NOTHING;
	const slots = frame.slots.get(node.column) ?? 1;
	return [joint.start + ((node.slot + 0.5) * joint.size) / slots, mid(across(frame.lanes, node.span))];
}

export function placeOfNode(frame: Frame, node: SignalNode): Place {
	if (node.point) {
		const [along, over] = pointAt(frame, node);
		return { along: [along, along], across: [over, over] };
	}
	const column = frame.columns.get(node.column) ?? NOTHING;
	return { along: [column.start, endOf(column)], across: across(frame.lanes, node.span) };
}

/** Where a wire to or from another row touches the edge of this one. */
function edge(frame: Frame, node: SignalNode, along: number): Place {
	const over = across(frame.lanes, node.span);
	return { along: [along, along], across: node.point ? [mid(over), mid(over)] : over };
}

/** Across positions of both ends: in line wherever the larger of the two reaches over the middle of the smaller. */
function levels(a: Place, b: Place): readonly [number, number] {
	const [middleA, middleB] = [mid(a.across), mid(b.across)];
	const within = (level: number, [from, to]: Place['across']) => level >= from && level <= to;
	const smallerA = a.across[1] - a.across[0] <= b.across[1] - b.across[0];
	if (smallerA && within(middleA, b.across)) return [middleA, middleA];
	if (within(middleB, a.across)) return [middleB, middleB];
	return [middleA, middleB];
}

/** From the end of one place to the start of another, with one bend just before the other where they are not in line. */
export function route(a: Place, b: Place): Step[] {
	const [from, to] = levels(a, b);
	const [start, end] = [a.along[1], b.along[0]];
	if (Math.abs(from - to) < 0.5)
		return [
			[start, from],
			[end, from]
		];
	const bend = Math.max((start + end) / 2, end - SLOT / 2);
	return [
		[start, from],
		[bend, from],
		[bend, to],
		[end, to]
	];
}

/** Back to an earlier place, past the end of the lanes. */
function routeBack(frame: Frame, a: Place, b: Place): Step[] {
	const past = lanesEnd(frame.lanes) + SLOT / 3;
	const [from, to] = [mid(a.along), mid(b.along)];
	return [
		[from, a.across[1]],
		[from, past],
		[to, past],
		[to, b.across[1]]
	];
}

/** The part of a wire that runs in this row; nothing where none does. */
export function wireIn(frame: Frame, from: SignalNode, to: SignalNode, back: boolean): Step[] | undefined {
	const [starts, ends] = [isIn(frame, from), isIn(frame, to)];
	if (starts && ends) {
		const [a, b] = [placeOfNode(frame, from), placeOfNode(frame, to)];
		return back ? routeBack(frame, a, b) : route(a, b);
	}
	if (starts) return route(placeOfNode(frame, from), edge(frame, to, frame.end));
	if (ends) return route(edge(frame, from, frame.begin), placeOfNode(frame, to));
	const passes = !back && from.column < frame.first && to.column > frame.last;
	return passes ? route(edge(frame, from, frame.begin), edge(frame, to, frame.end)) : undefined;
}

export const asX = ([x, y]: Step): Corner => ({ x, y });
export const asY = ([y, x]: Step): Corner => ({ x, y });
