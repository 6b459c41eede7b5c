/** Preferred values of IEC 60063, and what two parts make together. */

const E24 = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91];
const every = (step: number): number[] => E24.filter((_, i) => i % step === 0);
/** The close series follow the root rule, rounded to three figures; the wide ones do not. */
const rooted = (count: number): number[] =>
	Array.from({ length: count }, (_, i) => Math.round(100 * 10 ** (i / count)));

/** Figures of one decade: two for E6 to E24, three above. */
export const SERIES = {
	E6: every(4),
	E12: every(2),
	E24,
	E48: rooted(48),
	E96: rooted(96)
} as const;
export type SeriesName = keyof typeof SERIES;

const tidy = (value: number): number => Number(value.toPrecision(6));

/** Relative distance as the ear and the trade count it: the size of ln(ratio). */
export const distance = (one: number, other: number): number => Math.abs(Math.log(one / other));

/** The values of a series in the decade of `value` and, `decades` wide, below and above it. */
export function valuesAround(value: number, series: SeriesName, decades: number): number[] {
	const first = Math.floor(Math.log10(value)) - decades;
	const scaled = SERIES[series].map((figure) => figure / (SERIES[series][0] ?? 10));
	return Array.from({ length: 2 * decades + 1 }, (_, i) => first + i).flatMap((power) =>
		scaled.map((figure) => tidy(Number(`${figure}e${power}`)))
	);
}

/** The nearest preferred value, by the size of ln(ratio). */
export function nearestPreferred(value: number, series: SeriesName): number {
	const near = valuesAround(value, series, 1);
	return near.reduce((best, one) => (distance(one, value) < distance(best, value) ? one : best));
}

export const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
/** Resistors side by side, or capacitors one after the other. */
export const reciprocalSum = (values: readonly number[]): number => 1 / sum(values.map((value) => 1 / value));

export interface Combination {
	parts: readonly number[];
	joined: 'alone' | 'in series' | 'in parallel';
	value: number;
}

interface Pair extends Omit<Combination, 'parts'> {
	one: number;
	two: number;
}

/** The stock next below and next above `needed`, in a stock that rises. */
function neighbours(stock: readonly number[], needed: number): number[] {
	if (!(needed > 0)) return [];
	let [low, high] = [0, stock.length];
	while (low < high) {
		const middle = (low + high) >> 1;
		if ((stock[middle] ?? 0) < needed) low = middle + 1;
		else high = middle;
	}
	return stock.slice(Math.max(0, low - 1), low + 1);
}

/**
 * One part, or two in series or parallel, nearest to `wanted`, the nearest first. Two alike may be taken. `adds` is how the kind
 * of part adds up: resistors in series, capacitors in parallel. Beside each part only the two that suit it best are tried.
 */
export function combinations(
	wanted: number,
	parts: readonly number[],
	adds: 'in series' | 'in parallel',
	most: number
): Combination[] {
	const other: Combination['joined'] = adds === 'in series' ? 'in parallel' : 'in series';
	const stock = [...new Set(parts)].sort((a, b) => a - b);
	const pairs = stock.flatMap((one): Pair[] => [
		...neighbours(stock, wanted - one).map((two) => ({ one, two, joined: adds, value: one + two })),
		...neighbours(stock, 1 / (1 / wanted - 1 / one)).map((two) => ({
			one,
			two,
			joined: other,
			value: reciprocalSum([one, two])
		}))
	]);
	const found = new Map<string, Combination>();
	for (const value of stock) found.set(String(value), { parts: [value], joined: 'alone', value });
	for (const { one, two, joined, value } of pairs) {
		const both = [Math.min(one, two), Math.max(one, two)];
		found.set([...both, joined].join(), { parts: both, joined, value });
	}
	return [...found.values()]
		.sort((a, b) => distance(a.value, wanted) - distance(b.value, wanted) || a.parts.length - b.parts.length)
		.slice(0, most);
}
