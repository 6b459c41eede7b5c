import { insideJoints, jointsWidth, type Fold } from './folds.ts';
import {
	isIn,
	jointSize,
	laneSizes,
	setLanes,
	slotsOf,
	stagesOf,
	type Frame,
	type Stretch
} from './frame.ts';
import { textWidth } from './label.ts';
import { bandTitles, textOf, type Sheet } from './sheet.ts';
import type { Entry, SignalNode } from './signal-order.ts';

/** Length of wires that come in or go on. */
export const EDGE = 20;
/** Least and greatest width of a box, and its least height. */
export const BOX = { least: 100, most: 140, low: 64 } as const;
const LANE_GAP = 22;

/** Whether bands come in at a place where others pass already. */
export const joins = ({ bands }: Entry, first: SignalNode) => first.bands.length > bands.length;

/** Room at the left: for the names of bands that come in there, and their wires. */
export function leftOf({ order, plan }: Sheet): number {
	const below = order.entries.filter((entry) =>
		order.nodes.some((node) => node.id === entry.to && joins(entry, node))
	);
	const names = order.lanes.filter((band) => !below.some(({ bands }) => bands.includes(band)));
	return EDGE + 8 + Math.max(0, ...names.map((band) => textWidth(bandTitles(plan, [band]))));
}

export function boxWidth({ order }: Sheet, folds: readonly Fold[], room: number): number {
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

export function wideFrame(sheet: Sheet, fold: Fold, box: number, top: number): Frame {
	const { order } = sheet;
	const nodes = stagesOf(order).filter((node) => isIn(fold, node));
	const need = ({ id }: SignalNode) => Math.max(BOX.low, textOf(sheet, id, box).height);
	const sizes = laneSizes(nodes, order.lanes.length, need);
	return { ...fold, ...alongOf(sheet, fold, box), lanes: setLanes(sizes, top, LANE_GAP, nodes) };
}
