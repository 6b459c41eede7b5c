/** Where the arrow keys lead from one control of a drawing to the next. */

export interface Target {
	key: string;
	x: number;
	y: number;
}

const DIRECTIONS: Readonly<Record<string, readonly [x: number, y: number]>> = {
	ArrowLeft: [-1, 0],
	ArrowRight: [1, 0],
	ArrowUp: [0, -1],
	ArrowDown: [0, 1]
};

/** Sideways distance counts more than distance ahead. */
const SIDEWAYS = 2.5;

function ahead(from: Target, to: Target, [dx, dy]: readonly [number, number]): number {
	const [x, y] = [to.x - from.x, to.y - from.y];
	const forward = x * dx + y * dy;
	const sideways = Math.abs(x * dy) + Math.abs(y * dx);
	return forward > 1 && forward >= sideways / SIDEWAYS ? forward + SIDEWAYS * sideways : Infinity;
}

/** The control that a key leads to; nothing for any other key and at the edge. */
export function steer(targets: readonly Target[], from: string, key: string): string | undefined {
	if (key === 'Home') return targets[0]?.key;
	if (key === 'End') return targets.at(-1)?.key;
	const [direction, start] = [DIRECTIONS[key], targets.find((target) => target.key === from)];
	if (!direction || !start) return undefined;
	const ways = targets.map((target) => ({ key: target.key, cost: ahead(start, target, direction) }));
	const best = ways.reduce<(typeof ways)[number] | undefined>(
		(a, b) => (a && a.cost <= b.cost ? a : b),
		undefined
	);
	return best && best.cost < Infinity ? best.key : undefined;
}
