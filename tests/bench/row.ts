import { seeded } from './random.ts';

/** One line of the bench's table. */
export interface Row {
	/** Number of the goal; empty for a figure without one. */
	id: string;
	what: string;
	figure: string;
	/** 95 % interval of the figure, or the figure against its goal. */
	interval: string;
	goal: string;
	/** Whether the goal is met; `undefined` where there is none. */
	met?: boolean | undefined;
	/** The figure is the same on every machine: a missed goal is a fault, not a slow day. */
	certain?: boolean;
}

const RESAMPLES = 400;

/** The middle 95 % of a figure over samples of its own items, drawn with a fixed seed. */
export function intervalOf<Item>(
	items: readonly Item[],
	figure: (items: readonly Item[]) => number
): [number, number] {
	const next = seeded(95);
	const figures = Array.from({ length: RESAMPLES }, () =>
		figure(items.map(() => items[Math.floor(next() * items.length)] as Item))
	).sort((one, other) => one - other);
	const at = (share: number) => figures[Math.floor(share * (RESAMPLES - 1))] ?? Number.NaN;
	return [at(0.025), at(0.975)];
}

export const mean = (list: readonly number[]) => list.reduce((sum, value) => sum + value, 0) / list.length;

/** The value that this share of the list does not exceed. */
export function quantile(list: readonly number[], share: number): number {
	const sorted = [...list].sort((one, other) => one - other);
	return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
}

/** Sum of one column against the sum of another. */
export const ratio = (pairs: readonly (readonly [number, number])[]) =>
	mean(pairs.map(([one]) => one)) / mean(pairs.map(([, other]) => other));

export interface Judged<Item> {
	id: string;
	what: string;
	items: readonly Item[];
	figure: (items: readonly Item[]) => number;
	print: (figure: number) => string;
	/** Met where the interval does not lie wholly on the wrong side. */
	goal?: { most: number } | { least: number };
	certain?: boolean;
}

export function judged<Item>({ id, what, items, figure, print, goal, certain }: Judged<Item>): Row {
	const [low, high] = intervalOf(items, figure);
	const own = {
		id,
		what,
		figure: print(figure(items)),
		interval: `${print(low)} .. ${print(high)}`,
		...(certain ? { certain } : {})
	};
	if (!goal) return { ...own, goal: '' };
	return 'most' in goal
		? { ...own, goal: `at most ${print(goal.most)}`, met: low <= goal.most }
		: { ...own, goal: `at least ${print(goal.least)}`, met: high >= goal.least };
}

export const percent = (share: number) => `${(100 * share).toFixed(1)} %`;
export const times = (factor: number) => factor.toFixed(3);
export const minutes = (value: number) => `${value.toFixed(1)} min`;
export const milliseconds = (value: number) => `${value.toFixed(1)} ms`;

const HEAD: Row = {
	id: '',
	what: 'what',
	figure: 'figure',
	interval: '95 % interval or ratio',
	goal: 'goal'
};
const verdict = ({ met }: Row) => (met === undefined ? '' : met ? 'met' : 'NOT MET');

export function printRows(rows: readonly Row[]): string {
	const all = [HEAD, ...rows];
	const width = (key: 'id' | 'what' | 'figure' | 'interval' | 'goal') =>
		Math.max(...all.map((row) => row[key].length));
	const [id, what, figure, interval, goal] = [
		width('id'),
		width('what'),
		width('figure'),
		width('interval'),
		width('goal')
	];
	return all
		.map((row) =>
			[
				row.id.padEnd(id),
				row.what.padEnd(what),
				row.figure.padStart(figure),
				row.interval.padEnd(interval),
				row.goal.padEnd(goal),
				verdict(row)
			]
				.join('  ')
				.trimEnd()
		)
		.join('\n');
}
