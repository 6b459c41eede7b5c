import { solveLinear } from './network.ts';

/**
 * Which of several things is the matter, by the rule of Bayes: each is a circuit with one figure (the size of the fault) open and
 * all parts scattered by their tolerance. How well the readings sit with it is summed over all sizes, so that a fault which
 * would explain anything is not preferred to one which explains just this.
 */

/** One figure of a circuit that is not known exactly: by ratio, or by so many units where it may be nought. */
export interface Spread<Figures> {
	key: keyof Figures;
	sigma: number;
	additive?: true;
}

export interface Hypothesis<Figures> {
	id: string;
	/** How common, against the others. */
	weight: number;
	/** The sizes that the fault may have, both above zero; left out where it has none. */
	sizes?: { from: number; to: number };
	/** The circuit with the fault in it. */
	set: (sound: Figures, size: number) => Figures;
	/** Figures that the fault sets itself: their own spread counts no more. */
	pins: readonly (keyof Figures)[];
	/** Part of its shift that the valve laws may have wrong, where that is more than usual: near the cut-off. */
	lawError?: number;
}

/** What is known of a stage, ready to be compared with what its readings show. */
export interface Evidence<Figures> {
	sound: Figures;
	spreads: readonly Spread<Figures>[];
	readings: readonly number[];
	/** What the readings of a circuit would be, in the same order. */
	foretell: (figures: Figures) => number[];
	/** The same of a circuit that differs little from the one foretold last. */
	nudged: (figures: Figures) => number[];
	/** Standard errors of the readings by the meter alone. */
	errors: readonly number[];
}

/** The hypothesis that nothing is wrong. */
export const SOUND_STAGE = 'sound';

export interface Judged<Figures> {
	id: string;
	/** Chance after the readings, against all hypotheses together. */
	score: number;
	/** The likeliest size, and the range that the readings leave. */
	size: number;
	low: number;
	high: number;
	/** Sum of squared deviations at that size, in standard errors. */
	misfit: number;
	/** The circuit as it most likely is. */
	circuit: Figures;
}

const COARSE = 14;
const FINE = 9;
/** Part of the shift by a fault that the valve laws may have wrong. Our own choice. */
const LAW_ERROR = 0.08;
/** Within so much of the best, in misfit, a size is still possible: two standard errors. */
const POSSIBLE = 4;
/** Sizes that fit so much worse than the best at first look are not looked at closely. */
const HOPELESS = 15;
/** Sizes that look best at first, looked at closely in any case. */
const LEADERS = 3;
/** A fault that fits so much worse than another is not looked at further. */
const OUT_OF_THE_RUNNING = 40;

interface Fit<Figures> {
	size: number;
	cost: number;
	misfit: number;
	/** Of each spread figure, in standard errors. */
	deviations: Deviations;
	circuit: Figures;
}

type Deviations = readonly number[];

/** Standard errors over which a slope is taken. */
const STEP = 0.4;
const ROUNDS = 3;
/** Steps in standard errors that end the search, and that ask for new slopes. */
const CALM = 0.2;
const RESTLESS = 1;

class Comparison<Figures extends object> {
	readonly #evidence: Evidence<Figures>;
	readonly #soundReadings: readonly number[];

	constructor(evidence: Evidence<Figures>) {
		this.#evidence = evidence;
		this.#soundReadings = evidence.foretell(evidence.sound);
	}

	/** The figures with each spread one moved by so many standard errors. */
	#moved(figures: Figures, spreads: readonly Spread<Figures>[], by: Deviations): Figures {
		const next = { ...figures };
		spreads.forEach(({ key, sigma, additive }, i) => {
			const value = figures[key] as number;
			const moved = additive ? value + sigma * by[i]! : value * Math.exp(sigma * by[i]!);
			(next as Record<keyof Figures, unknown>)[key] = moved;
		});
		return next;
	}

	/** Standard errors of meter and law together. */
	#errors(foretold: readonly number[], lawError = LAW_ERROR): number[] {
		const { errors } = this.#evidence;
		return foretold.map((volts, i) => Math.hypot(errors[i]!, lawError * (volts - this.#soundReadings[i]!)));
	}

	/** First look at a size: no spread is reckoned with, the errors are widened instead. */
	rough(hypothesis: Hypothesis<Figures>, size: number): number {
		const { sound, readings, foretell, errors } = this.#evidence;
		const foretold = foretell(hypothesis.set(sound, size));
		return foretold.reduce((sum, volts, i) => {
			const wide = errors[i]! + 0.12 * Math.abs(volts) + 0.02 * Math.abs(readings[i]!);
			return sum + ((readings[i]! - volts) / wide) ** 2;
		}, 0);
	}

	/** How well a size fits, with every spread figure at its likeliest. `near` starts from those of a size close by. */
	fit(hypothesis: Hypothesis<Figures>, size: number, near?: Deviations): Fit<Figures> {
		const spreads = this.#evidence.spreads.filter(({ key }) => !hypothesis.pins.includes(key));
		const at = (by: Deviations) => hypothesis.set(this.#moved(this.#evidence.sound, spreads, by), size);
		let from: Deviations = near ?? spreads.map(() => 0);
		let foretold = this.#evidence.foretell(at(from));
		let slopes = this.#slopes(at, from, foretold);
		for (let round = 0; ; round++) {
			const { cost, misfit, next, moved } = this.#towards(slopes, foretold, from, hypothesis.lawError);
			if (moved < CALM || round === ROUNDS)
				return { size, cost, misfit, deviations: next, circuit: at(next) };
			from = next;
			foretold = this.#evidence.foretell(at(from));
			if (moved > RESTLESS) slopes = this.#slopes(at, from, foretold);
		}
	}

	/** How the readings move with each spread figure, for one standard error. */
	#slopes(at: (by: Deviations) => Figures, from: Deviations, foretold: readonly number[]): number[][] {
		return from.map((_, k) => {
			const moved = this.#evidence.nudged(at(from.map((by, i) => (i === k ? by + STEP : by))));
			return moved.map((volts, j) => (volts - foretold[j]!) / STEP);
		});
	}

	/** One step of Gauss and Newton towards the likeliest figures. */
	#towards(
		slopes: readonly (readonly number[])[],
		foretold: readonly number[],
		from: Deviations,
		lawError: number | undefined
	) {
		const errors = this.#errors(foretold, lawError);
		// The deviation that the readings would show if all figures stood at their nominal value again.
		const off = this.#evidence.readings.map(
			(reading, j) => reading - foretold[j]! + slopes.reduce((sum, slope, k) => sum + slope[j]! * from[k]!, 0)
		);
		const { solved, logDeterminant } = withCovariance(slopes, errors, off);
		const misfit = off.reduce((sum, one, j) => sum + one * solved[j]!, 0);
		const wanted = slopes.map((slope) => slope.reduce((sum, one, j) => sum + one * solved[j]!, 0));
		const next = wanted.map((one, k) => Math.max(-4, Math.min(4, from[k]! + limited(one - from[k]!))));
		const moved = next.reduce((most, one, k) => Math.max(most, Math.abs(one - from[k]!)), 0);
		return { misfit, cost: misfit + logDeterminant, next, moved };
	}
}

const limited = (step: number): number => Math.max(-2, Math.min(2, step));

/** Solves (slopes slopes' + errors²) x = off. */
function withCovariance(
	slopes: readonly (readonly number[])[],
	errors: readonly number[],
	off: readonly number[]
) {
	const size = off.length;
	const covariance = new Float64Array(size * size);
	for (let i = 0; i < size; i++)
		for (let j = 0; j < size; j++) {
			let sum = i === j ? errors[i]! ** 2 : 0;
			for (const slope of slopes) sum += slope[i]! * slope[j]!;
			covariance[i * size + j] = sum;
		}
	return {
		solved: solveLinear(covariance, Float64Array.from(off)),
		logDeterminant: logDeterminant(covariance, size)
	};
}

/** By the triangle of Cholesky. */
function logDeterminant(matrix: Float64Array, size: number): number {
	const lower = new Float64Array(size * size);
	let sum = 0;
	for (let i = 0; i < size; i++)
		for (let j = 0; j <= i; j++) {
			let left = matrix[i * size + j]!;
			for (let k = 0; k < j; k++) left -= lower[i * size + k]! * lower[j * size + k]!;
			if (i === j) {
				const root = Math.sqrt(Math.max(left, 1e-30));
				lower[i * size + i] = root;
				sum += 2 * Math.log(root);
			} else lower[i * size + j] = left / lower[j * size + j]!;
		}
	return sum;
}

const spaced = (from: number, to: number, count: number): number[] =>
	Array.from({ length: count }, (_, i) => from * (to / from) ** (i / (count - 1)));

interface Weighed<Figures> {
	best: Fit<Figures>;
	low: number;
	high: number;
	/** Logarithm of how likely the readings are, over all sizes. */
	evidence: number;
}

const leastOf = <One extends { cost: number }>(fits: readonly One[]): One =>
	fits.reduce((best, one) => (one.cost < best.cost ? one : best));

/** `bar`: the least cost of any fault so far. */
function judgeOne<Figures extends object>(
	comparison: Comparison<Figures>,
	hypothesis: Hypothesis<Figures>,
	bar: number
): Weighed<Figures> {
	const { sizes } = hypothesis;
	if (!sizes) {
		const only = comparison.fit(hypothesis, 1);
		return { best: only, low: 1, high: 1, evidence: -only.cost / 2 };
	}
	const looks = spaced(sizes.from, sizes.to, COARSE)
		.map((size) => ({ size, look: comparison.rough(hypothesis, size) }))
		.sort((one, other) => one.look - other.look);
	const closely = ({ size }: { size: number }) => comparison.fit(hypothesis, size);
	const leaders = looks.slice(0, LEADERS).map(closely);
	const worthwhile = leastOf(leaders).cost < bar + OUT_OF_THE_RUNNING;
	const limit = looks[0]!.look + HOPELESS;
	const rest = looks.slice(LEADERS).filter(({ look }) => worthwhile && look < limit);
	const fits = [...leaders, ...rest.map(closely)];
	return overSizes(
		[...fits, ...(worthwhile ? around(comparison, hypothesis, sizes, leastOf(fits)) : [])],
		sizes
	);
}

type Sizes = NonNullable<Hypothesis<never>['sizes']>;

/** Sizes on either side of the best so far, closer together. */
function around<Figures extends object>(
	comparison: Comparison<Figures>,
	hypothesis: Hypothesis<Figures>,
	sizes: Sizes,
	top: Fit<Figures>
): Fit<Figures>[] {
	const pitch = (sizes.to / sizes.from) ** (1 / (COARSE - 1));
	const from = Math.max(sizes.from, top.size / pitch);
	const to = Math.min(sizes.to, top.size * pitch);
	return spaced(from, to, FINE).map((size) => comparison.fit(hypothesis, size, top.deviations));
}

function overSizes<Figures>(fits: readonly Fit<Figures>[], sizes: Sizes): Weighed<Figures> {
	const best = leastOf(fits);
	const possible = fits.filter(({ cost }) => cost < best.cost + POSSIBLE).map(({ size }) => size);
	return {
		best,
		low: Math.min(...possible),
		high: Math.max(...possible),
		evidence: Math.log(areaUnder(fits, best.cost, sizes)) - best.cost / 2
	};
}

/** Mean of exp(-cost / 2) over the logarithm of the size, against that of the best. */
function areaUnder(
	fits: readonly { size: number; cost: number }[],
	least: number,
	{ from, to }: Sizes
): number {
	const sorted = [...fits].sort((one, other) => one.size - other.size);
	const height = ({ cost }: { cost: number }) => Math.exp((least - cost) / 2);
	const area = sorted.slice(1).reduce((sum, one, i) => {
		const before = sorted[i]!;
		return sum + ((height(one) + height(before)) / 2) * Math.log(one.size / before.size);
	}, 0);
	return Math.max(area, 1e-6) / Math.log(to / from);
}

/** All hypotheses, the likeliest first. */
export function judgeAll<Figures extends object>(
	evidence: Evidence<Figures>,
	hypotheses: readonly Hypothesis<Figures>[]
): Judged<Figures>[] {
	const comparison = new Comparison(evidence);
	let bar = Infinity;
	const judged = hypotheses.map((hypothesis) => {
		const weighed = judgeOne(comparison, hypothesis, bar);
		bar = Math.min(bar, weighed.best.cost);
		return { hypothesis, ...weighed };
	});
	const most = Math.max(...judged.map(({ hypothesis, evidence: log }) => log + Math.log(hypothesis.weight)));
	const weights = judged.map(({ hypothesis, evidence: log }) =>
		Math.exp(log + Math.log(hypothesis.weight) - most)
	);
	const total = weights.reduce((sum, one) => sum + one, 0);
	return judged
		.map(({ hypothesis, best, low, high }, i) => ({
			id: hypothesis.id,
			score: weights[i]! / total,
			size: best.size,
			low,
			high,
			misfit: best.misfit,
			circuit: best.circuit
		}))
		.sort((one, other) => other.score - one.score);
}
