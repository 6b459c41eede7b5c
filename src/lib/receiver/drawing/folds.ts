import { jointSize, slotsOf } from './frame.ts';
import type { SignalOrder } from './signal-order.ts';

/** Columns that stand in one row of a wide drawing. */
export interface Fold {
	first: number;
	last: number;
}

/** Test points of a joint stand at the end of its row. */
export const insideJoints = ({ first, last }: Fold): number[] => [
	...(first === 0 ? [-1] : []),
	...Array.from({ length: last - first + 1 }, (_, index) => first + index)
];

/** Room that the joints of a row take up. */
export function jointsWidth(order: SignalOrder, fold: Fold): number {
	return insideJoints(fold).reduce((sum, joint) => {
		const slots = slotsOf(order, joint);
		const edge = joint < 0 || joint === fold.last;
		return sum + (edge && slots === 0 ? 0 : jointSize(slots));
	}, 0);
}

/** Wires that would be cut by a new row after this column. */
function cutWires({ nodes, wires }: SignalOrder, column: number): number {
	const later = new Map(nodes.map((node) => [node.id, node.column > column]));
	return wires.filter(({ from, to }) => later.get(from) !== later.get(to)).length;
}

const ROW = 1000;
const CUT = 10;
const UNEVEN = 0.1;

/** As few rows as the width allows, cut where the fewest wires cross, of like length where that is all the same. */
export function foldColumns(order: SignalOrder, room: number, leastBox: number): Fold[] {
	const fits = (fold: Fold) => {
		const count = fold.last - fold.first + 1;
		return count === 1 || count * leastBox + jointsWidth(order, fold) <= room;
	};
	const cost = ({ first, last }: Fold) =>
		ROW + (last < order.columns - 1 ? CUT * cutWires(order, last) : 0) + UNEVEN * (last - first + 1) ** 2;
	let best: { cost: number; folds: Fold[] }[] = [{ cost: 0, folds: [] }];
	for (let last = 0; last < order.columns; last++) {
		const ways = best.flatMap((before, first) => {
			const fold = { first, last };
			return fits(fold) ? [{ cost: before.cost + cost(fold), folds: [...before.folds, fold] }] : [];
		});
		best = [...best, ways.reduce((a, b) => (b.cost < a.cost ? b : a))];
	}
	return best.at(-1)?.folds ?? [];
}
