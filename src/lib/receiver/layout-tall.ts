import { fitText, TEXT } from './label.ts';
import type { Box, Caption, Corner, Drawing, DrawingOptions, DrawnLine, DrawnPoint, DrawnStage } from './drawing.ts';
import {
	across,
	asY,
	jointSize,
	laneSizes,
	lanesEnd,
	placeOfNode,
	pointAt,
	route,
	setLanes,
	slotsOf,
	stagesOf,
	wireIn,
	type Frame,
	type Step,
	type Stretch
} from './frame.ts';
import { besides, titleOf, type Sheet } from './sheet.ts';
import type { Entry, SignalNode } from './signal-order.ts';

/** Gap between lanes, room for the captions above, pitch of the rails at the right, least height of a box. */
const GAP = 10;
const HEAD = 34;
const RAIL = 10;
const LEAST = 46;
const TOUCH = 44;
/** A lane that holds only test points of its own. */
const THIN = 0.4;

const railsOf = ({ plan }: Sheet) => Object.keys(plan.lines).length;

function tallLanes({ order, options, plan }: Sheet): Stretch[] {
	const rails = Object.keys(plan.lines).length;
	const room = options.width - 2 - (rails > 0 ? rails * RAIL + 6 : 0);
	const shares = laneSizes(order.nodes, order.lanes.length, ({ point, span }) =>
		!point ? 1 : span[0] === span[1] ? THIN : 0
	);
	const parts = shares.filter((share) => share > 0).length;
	const sum = shares.reduce((a, b) => a + b, 0) || 1;
	const unit = (room - Math.max(0, parts - 1) * GAP) / sum;
	return setLanes(
		shares.map((share) => share * unit),
		1,
		GAP,
		order.nodes
	);
}

const widthOf = (lanes: readonly Stretch[], { span }: SignalNode) => {
	const [from, to] = across(lanes, span);
	return to - from;
};

/** Whether a band comes in from the side: it has no lane to come down in. */
const fromSide = ({ order }: Sheet, lanes: readonly Stretch[], { to, bands }: Entry) =>
	bands.every((band) => (lanes[order.lanes.indexOf(band)]?.size ?? 0) === 0) &&
	order.nodes.some(({ id, bands: all }) => id === to && all.length > bands.length);

function tallFrame(sheet: Sheet): Frame {
	const { order, plan, options } = sheet;
	const lanes = tallLanes(sheet);
	const columns = new Map<number, Stretch>();
	const joints = new Map<number, Stretch>();
	const slots = new Map<number, number>();
	let next = HEAD;
	const setJoint = (joint: number) => {
		const count = slotsOf(order, joint);
		const side = order.entries.some((entry) => {
			const node = order.nodes.find(({ id }) => id === entry.to);
			return node && !node.point && node.column === joint + 1 && fromSide(sheet, lanes, entry);
		});
		slots.set(joint, count);
		const size = joint < 0 && count === 0 ? 0 : jointSize(side ? Math.max(1, count) : count);
		joints.set(joint, { start: next, size });
		next += size;
	};
	setJoint(-1);
	for (let column = 0; column < order.columns; column++) {
		const boxes = stagesOf(order).filter((node) => node.column === column);
		const heights = boxes.map(
			(node) => fitText(titleOf(plan, node.id), widthOf(lanes, node), options.notes ?? []).height
		);
		const size = Math.max(LEAST, ...heights);
		columns.set(column, { start: next, size });
		next += size;
		setJoint(column);
	}
	return { first: 0, last: order.columns - 1, columns, joints, slots, lanes, begin: 0, end: next };
}

function stageBoxes({ plan, order, options }: Sheet, frame: Frame): DrawnStage[] {
	return stagesOf(order).map((node): DrawnStage => {
		const { along, across: over } = placeOfNode(frame, node);
		const width = over[1] - over[0];
		const title = titleOf(plan, node.id);
		const text = fitText(title, width, options.notes ?? []);
		return { id: node.id, title, bands: node.bands, ...text, x: over[0], y: along[0], width, height: along[1] - along[0] };
	});
}

/** Marks on the lower edge of a stage, left of the wire as far as they find room there, then right of it. */
function tapPlaces({ x, y, width, height }: Box, count: number): Corner[] {
	const half = width / 2 - TOUCH / 2;
	const left = Math.min(count, Math.max(Math.ceil(count / 2), Math.floor(half / TOUCH)));
	const right = count - left;
	return Array.from({ length: count }, (_, index) => {
		const isLeft = index < left;
		const share = isLeft ? (index + 0.5) / left : (index - left + 0.5) / right;
		return { x: x + (isLeft ? share * half : width - half + share * half), y: y + height };
	});
}

function pathPoints({ plan, order }: Sheet, frame: Frame, stages: readonly DrawnStage[]): DrawnPoint[] {
	const entered = new Set(order.entries.map(({ to }) => to));
	return order.nodes
		.filter(({ point }) => point)
		.map((node) => {
			const at = asY(pointAt(frame, node));
			const stage = stages.find(({ y, height, bands }) => y + height < at.y && at.y - y - height < 28 && bands.some((b) => node.bands.includes(b)));
			const taps = stage ? tapPlaces(stage, besides(plan, order, stage.id).length) : [];
			const end = Math.min(across(frame.lanes, node.span)[1], ...taps.filter(({ x }) => x > at.x).map(({ x }) => x - 16));
			const roomBeside = entered.has(node.id) ? 0 : Math.max(0, Math.floor((end - at.x - 22) / TEXT.char));
			return { ...pointOf(plan, node.id), ...at, onPath: true, roomBeside };
		});
}

const pointOf = (plan: Sheet['plan'], id: string) => {
	const point = plan.points[id];
	return {
		id,
		title: point?.title ?? id,
		place: point?.stage ?? '',
		...(point?.electrode ? { electrode: point.electrode } : {})
	};
};
