import {
	across,
	jointSize,
	laneSizes,
	setLanes,
	SLOT,
	slotsOf,
	stagesOf,
	type Frame,
	type Stretch
} from './frame.ts';
import { textOf, type Sheet } from './sheet.ts';
import type { Entry, SignalNode, SignalOrder } from './signal-order.ts';

/** Gap between lanes and between boxes; least height of a box; pitch of the rails at the right. */
export const GAP = 10;
export const LEAST = 44;
export const RAIL = 8;
/** Room for captions above the first stage. */
const HEAD = 34;
/** Share of a lane that holds only test points of its own. */
const THIN = 0.4;

/** Length of a range. */
export const width = ([from, to]: readonly [number, number]) => to - from;

/** Room right of the lanes for wires that lead back. */
export const backRoom = ({ wires }: SignalOrder): number => (wires.some(({ back }) => back) ? SLOT / 2 : 0);

function tallLanes({ order, options, plan }: Sheet): Stretch[] {
	const rails = Object.keys(plan.lines).length;
	const room = options.width - 2 - backRoom(order) - (rails > 0 ? rails * RAIL + 4 : 0);
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
export function fromSide(
	{ order }: Sheet,
	lanes: readonly Stretch[],
	{ bands }: Entry,
	first: SignalNode
): boolean {
	const narrow = bands.every((band) => (lanes[order.lanes.indexOf(band)]?.size ?? 0) === 0);
	return narrow && first.bands.length > bands.length;
}

export const entriesOf = ({ order }: Sheet) =>
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

export function tallFrame(sheet: Sheet): Frame {
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
