import type { Plan } from '../plan.ts';

/** First and last lane that something stands in. */
export type Span = readonly [first: number, last: number];

/** A stage in its column, or a test point in the joint that follows a column. */
export interface SignalNode {
	id: string;
	point: boolean;
	bands: string[];
	span: Span;
	/** Columns count from 0. Joint 0 follows column 0; joint -1 comes before it. */
	column: number;
	/** Place in the joint; 0 for stages. */
	slot: number;
}

export interface SignalWire {
	from: string;
	to: string;
	bands: string[];
	/** Would lead back to an earlier stage, as where one valve serves twice. */
	back: boolean;
}

/** Where the signal of some bands comes in. */
export interface Entry {
	to: string;
	bands: string[];
}

export interface SignalOrder {
	/** Bands, so ordered that shared stages stand together. */
	lanes: string[];
	/** In signal order. */
	nodes: SignalNode[];
	wires: SignalWire[];
	entries: Entry[];
	columns: number;
}

type Paths = [band: string, path: string[]][];

const pathsOf = (plan: Plan): Paths =>
	Object.keys(plan.bands).map((band) => [
		band,
		(plan.paths[band] ?? []).filter((id) => plan.stages[id] ?? plan.points[id])
	]);

function bandsByNode(paths: Paths): Map<string, string[]> {
	const bands = new Map<string, string[]>();
	for (const [band, path] of paths)
		for (const id of new Set(path)) bands.set(id, [...(bands.get(id) ?? []), band]);
	return bands;
}

const permutations = <T>(items: readonly T[]): T[][] =>
	items.length < 2
		? [[...items]]
		: items.flatMap((item, at) =>
				permutations(items.filter((_, index) => index !== at)).map((rest) => [item, ...rest])
			);

const spanOf = (lanes: readonly string[], bands: readonly string[]): Span => {
	const at = bands.map((band) => lanes.indexOf(band));
	return [Math.min(...at), Math.max(...at)];
};

/** Lanes that lie between the bands of a node without belonging to it. */
const strangers = (lanes: readonly string[], bands: readonly string[]) => {
	const [first, last] = spanOf(lanes, bands);
	return last - first + 1 - bands.length;
};

/** The order of the plan, unless another parts fewer shared stages. Above six bands the search is not worth it. */
function laneOrder(bands: string[], sets: string[][]): string[] {
	if (bands.length > 6) return bands;
	const cost = (lanes: string[]) => sets.reduce((sum, set) => sum + strangers(lanes, set), 0);
	return permutations(bands).reduce((best, lanes) => (cost(lanes) < cost(best) ? lanes : best), bands);
}

function leads(wires: readonly SignalWire[], from: string, to: string): boolean {
	return from === to || wires.some((wire) => !wire.back && wire.from === from && leads(wires, wire.to, to));
}

function wiresOf(paths: Paths): SignalWire[] {
	const wires: SignalWire[] = [];
	for (const [band, path] of paths)
		path.slice(1).forEach((to, index) => {
			const from = path[index] ?? to;
			const known = wires.find((wire) => wire.from === from && wire.to === to);
			if (known) known.bands.push(band);
			else if (from !== to) wires.push({ from, to, bands: [band], back: leads(wires, to, from) });
		});
	return wires;
}

function entriesOf(paths: Paths): Entry[] {
	const entries = new Map<string, string[]>();
	for (const [band, [first]] of paths) if (first) entries.set(first, [...(entries.get(first) ?? []), band]);
	return [...entries].map(([to, bands]) => ({ to, bands }));
}

/** Everything after what leads to it; what is named first comes first. */
function inOrder(ids: string[], wires: readonly SignalWire[]): string[] {
	const done = new Set<string>();
	while (done.size < ids.length) {
		const ready = ids.find(
			(id) => !done.has(id) && wires.every((w) => w.back || w.to !== id || done.has(w.from))
		);
		if (ready === undefined) throw new Error('A wire against the order was not marked as such.');
		done.add(ready);
	}
	return [...done];
}

export const overlap = (a: Span, b: Span): boolean => a[0] <= b[1] && b[0] <= a[1];

/** Stages one column after the last thing before them, points in the joint there; no two in one place. */
function setColumns(nodes: readonly SignalNode[], before: (node: SignalNode) => SignalNode[]): void {
	nodes.forEach((node, index) => {
		const last = Math.max(-1, ...before(node).map(({ column }) => column));
		node.column = node.point ? last : last + 1;
		if (node.point) return;
		const taken = nodes.slice(0, index).filter((other) => !other.point && overlap(other.span, node.span));
		while (taken.some(({ column }) => column === node.column)) node.column++;
	});
}

/** A point moves up to the stage that follows it: there it is measured. */
function setJoints(nodes: readonly SignalNode[], after: (node: SignalNode) => SignalNode[]): void {
	for (const node of nodes.toReversed()) {
		const next = after(node).map(({ point, column }) => (point ? column : column - 1));
		if (node.point && next.length > 0) node.column = Math.min(...next);
	}
	nodes.forEach((node, index) => {
		const same = nodes
			.slice(0, index)
			.filter(
				(other) => node.point && other.point && other.column === node.column && overlap(other.span, node.span)
			);
		node.slot = Math.max(-1, ...same.map(({ slot }) => slot)) + 1;
	});
}

/** Stages and test points of a plan in columns and lanes, with the wires between them. */
export function signalOrder(plan: Plan): SignalOrder {
	const paths = pathsOf(plan);
	const bands = bandsByNode(paths);
	const lanes = laneOrder(
		paths.map(([band]) => band),
		[...bands.values()]
	);
	const wires = wiresOf(paths);
	const nodes = inOrder([...bands.keys()], wires).map((id): SignalNode => {
		const own = bands.get(id) ?? [];
		return { id, point: !plan.stages[id], bands: own, span: spanOf(lanes, own), column: -1, slot: 0 };
	});
	const linked = (end: 'from' | 'to', other: 'from' | 'to') => (node: SignalNode) =>
		nodes.filter(({ id }) => wires.some((wire) => !wire.back && wire[end] === node.id && wire[other] === id));
	setColumns(nodes, linked('to', 'from'));
	setJoints(nodes, linked('from', 'to'));
	const columns = Math.max(-1, ...nodes.map(({ point, column }) => (point ? -1 : column))) + 1;
	return { lanes, nodes, wires, entries: entriesOf(paths), columns };
}
