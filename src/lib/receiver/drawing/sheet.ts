import type { Box, Corner, DrawingOptions, DrawnLine, DrawnPoint, DrawnWire } from './types.ts';
import { wireIn, type Frame, type Step } from './frame.ts';
import { fitText, type Free } from './label.ts';
import type { Plan } from '../plan.ts';
import type { SignalNode, SignalOrder } from './signal-order.ts';

/** What both shapes are drawn from. */
export interface Sheet {
	plan: Plan;
	order: SignalOrder;
	options: DrawingOptions;
}

export const titleOf = (plan: Plan, id: string): string =>
	plan.stages[id]?.title ?? plan.lines[id]?.title ?? id;

export const bandTitles = (plan: Plan, bands: readonly string[]): string =>
	bands.map((band) => plan.bands[band]?.title ?? band).join(', ');

/** Test points of a stage or line that no signal path runs through. */
export function pointsBeside({ plan, order }: Sheet, place: string): string[] {
	const onPath = new Set(order.nodes.map(({ id }) => id));
	return Object.keys(plan.points).filter((id) => plan.points[id]?.stage === place && !onPath.has(id));
}

/** Stages that no band passes through, as a tuning indicator. */
export function looseStages({ plan, order }: Sheet): string[] {
	const onPath = new Set(order.nodes.map(({ id }) => id));
	return Object.keys(plan.stages).filter((id) => !onPath.has(id));
}

export function drawPoint(plan: Plan, id: string, at: Corner, onPath: boolean, roomBeside = 0): DrawnPoint {
	const { title = id, stage = '', electrode } = plan.points[id] ?? {};
	return { id, title, place: stage, ...(electrode ? { electrode } : {}), ...at, onPath, roomBeside };
}

/** Side of the square in which a finger meets a mark. */
export const TOUCH = 44;

/** Half a mark. */
const FOOT = 10;

/** Room for the test points of a line, at the right end of its first bar; of a stage, on its lower edge. */
function roomForPoints(sheet: Sheet, id: string): Free {
	const count = pointsBeside(sheet, id).length;
	return sheet.plan.lines[id] ? { right: count * TOUCH } : { foot: count > 0 ? FOOT : 0 };
}

/** The text of a stage or line in a box of this width. */
export const textOf = (sheet: Sheet, id: string, width: number) =>
	fitText(titleOf(sheet.plan, id), width, sheet.options.notes ?? [], roomForPoints(sheet, id));

const rightEnd = ({ x, y, width, height }: Box, fromRight: number): Corner => ({
	x: x + width - (fromRight + 0.5) * TOUCH,
	y: y + height / 2
});

export const linePoints = (sheet: Sheet, lines: readonly DrawnLine[]): DrawnPoint[] =>
	lines.flatMap(({ id, bars: [bar] }) =>
		pointsBeside(sheet, id).flatMap((point, index, all) =>
			bar ? [drawPoint(sheet.plan, point, rightEnd(bar, all.length - 1 - index), false)] : []
		)
	);

/** The wires of one row. */
export function wiresOf({ order }: Sheet, frame: Frame, turn: (step: Step) => Corner): DrawnWire[] {
	const nodes = new Map<string, SignalNode>(order.nodes.map((node) => [node.id, node]));
	return order.wires.flatMap(({ from, to, bands, back }): DrawnWire[] => {
		const [a, b] = [nodes.get(from), nodes.get(to)];
		const steps = a && b && wireIn(frame, a, b, back);
		if (!steps) return [];
		return [{ corners: steps.map(turn), bands, goesOn: steps.at(-1)?.[0] === frame.end, back }];
	});
}
