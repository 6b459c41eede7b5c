import type { Comparison, Fit, Hypothesis } from './comparison.ts';

/** How likely each size of a fault is after the readings: looked at coarsely, then closely about the best. */

type Sizes = NonNullable<Hypothesis<never>['sizes']>;

/** What the readings say of one hypothesis. */
export interface Weighed<Figures> {
	best: Fit<Figures>;
	/** Half of the chance lies below it, and one part in forty below `low` and above `high`. */
	size: number;
	low: number;
	high: number;
	/** Logarithm of how likely the readings are, over all sizes. */
	evidence: number;
}

const COARSE = 14;
const FINE = 9;
/** Rounds in which the first look closes in, and the points of each. */
const CLOSING = 3;
const CLOSER = 5;
/** Sizes that fit so much worse than the best at first look are not looked at closely. */
const HOPELESS = 15;
/** A fault whose best size looks so bad at first is hardly looked at. */
const FAR = 80;
/** Sizes that look best at first, looked at closely in any case. */
const LEADERS = 3;
/** A fault that fits so much worse than another is not looked at further. */
const OUT_OF_THE_RUNNING = 40;
/** Sizes next to the best are close enough together where they fit so little worse. */
const NEAR = 1;
/** Rounds about the best, each closer together. */
const MOST_ROUNDS = 3;
/** Parts of the chance outside the range that is given, and the middle. */
const OUTSIDE = 0.025;
const MIDDLE = 0.5;

const spaced = (from: number, to: number, count: number): number[] =>
	Array.from({ length: count }, (_, i) => from * (to / from) ** (i / (count - 1)));

const leastOf = <One extends { cost: number }>(fits: readonly One[]): One =>
	fits.reduce((best, one) => (one.cost < best.cost ? one : best));

interface Look {
	size: number;
	look: number;
}

/** First look at a grid of sizes, then closing in where one reading alone tells the size; the best first. */
function looksOf(
	rough: (size: number) => number,
	{ from, to, also }: Sizes,
	rounds: number
): { grid: Look[]; all: Look[] } {
	const at = (size: number): Look => ({ size, look: rough(size) });
	const grid = spaced(from, to, COARSE).map(at);
	const all = [...grid, ...(also === undefined ? [] : [at(also)])];
	let pitch = (to / from) ** (1 / (COARSE - 1));
	for (let round = 0; round < rounds; round++) {
		const { size } = all.reduce((least, one) => (one.look < least.look ? one : least));
		all.push(...spaced(Math.max(from, size / pitch), Math.min(to, size * pitch), CLOSER).map(at));
		pitch = pitch ** (2 / (CLOSER - 1));
	}
	return { grid, all: all.sort((one, other) => one.look - other.look) };
}

/** `bar`: the least cost of any fault so far. */
export function weigh<Figures extends object>(
	comparison: Comparison<Figures>,
	hypothesis: Hypothesis<Figures>,
	bar: number
): Weighed<Figures> {
	const { sizes } = hypothesis;
	if (!sizes) {
		const only = comparison.fit(hypothesis, 1);
		return { best: only, size: 1, low: 1, high: 1, evidence: -only.cost / 2 };
	}
	const rough = (size: number) => comparison.rough(hypothesis, size);
	const { grid, all } = looksOf(rough, sizes, comparison.sharp ? CLOSING : 0);
	const closely = ({ size }: { size: number }) => comparison.fit(hypothesis, size);
	const leaders = all.slice(0, all[0]!.look > FAR ? 1 : LEADERS);
	const led = leaders.map(closely);
	if (leastOf(led).cost >= bar + OUT_OF_THE_RUNNING) return overSizes(led, sizes);
	const limit = all[0]!.look + HOPELESS;
	const rest = grid.filter((one) => one.look < limit && !leaders.includes(one));
	const fits = [...led, ...rest.map(closely)];
	return overSizes([...fits, ...around(comparison, hypothesis, sizes, leastOf(fits))], sizes);
}

/** Sizes on either side of the best so far, closer together until the best is no needle any more. */
function around<Figures extends object>(
	comparison: Comparison<Figures>,
	hypothesis: Hypothesis<Figures>,
	sizes: Sizes,
	start: Fit<Figures>
): Fit<Figures>[] {
	const fits: Fit<Figures>[] = [];
	let top = start;
	let pitch = (sizes.to / sizes.from) ** (1 / (COARSE - 1));
	for (let round = 0; round < MOST_ROUNDS; round++) {
		const from = Math.max(sizes.from, top.size / pitch);
		const to = Math.min(sizes.to, top.size * pitch);
		const found = spaced(from, to, FINE).map((size) => comparison.fit(hypothesis, size, top.deviations));
		fits.push(...found);
		top = leastOf([top, ...found]);
		const next = found.filter(
			({ size }) => size !== top.size && Math.abs(Math.log(size / top.size)) < 0.3 * Math.log(pitch)
		);
		if (next.some(({ cost }) => cost < top.cost + NEAR)) break;
		pitch = pitch ** (2.5 / (FINE - 1));
	}
	return fits;
}

function overSizes<Figures>(fits: readonly Fit<Figures>[], { from, to }: Sizes): Weighed<Figures> {
	const best = leastOf(fits);
	const sorted = [...fits].sort((one, other) => one.size - other.size);
	const heights = sorted.map(({ cost }) => Math.exp((best.cost - cost) / 2));
	const at = sorted.map(({ size }) => Math.log(size));
	// Area up to each size, over the logarithm of the size.
	const areas = at.map(() => 0);
	for (let i = 1; i < at.length; i++)
		areas[i] = areas[i - 1]! + ((heights[i]! + heights[i - 1]!) / 2) * (at[i]! - at[i - 1]!);
	const all = Math.max(areas.at(-1) ?? 0, 1e-6);
	const below = (share: number) => Math.exp(placeOf(share * (areas.at(-1) ?? 0), areas, at, heights));
	return {
		best,
		size: below(MIDDLE),
		low: below(OUTSIDE),
		high: below(1 - OUTSIDE),
		evidence: Math.log(all / Math.log(to / from)) - best.cost / 2
	};
}

/** Where an area is reached, between two points that a straight line joins. */
function placeOf(
	wanted: number,
	areas: readonly number[],
	at: readonly number[],
	heights: readonly number[]
): number {
	const next = Math.max(
		1,
		areas.findIndex((area) => area >= wanted)
	);
	const width = (at[next] ?? at[0]!) - at[next - 1]!;
	const [left, right] = [heights[next - 1]!, heights[next] ?? heights[0]!];
	const missing = wanted - areas[next - 1]!;
	if (width <= 0 || missing <= 0) return at[next - 1]!;
	// Half of (right - left) / width, times the square of the way, and left times the way, make up what is missing.
	const bend = (right - left) / width;
	const way = (2 * missing) / (left + Math.sqrt(Math.max(0, left * left + 2 * bend * missing)));
	return at[next - 1]! + Math.min(way, width);
}
