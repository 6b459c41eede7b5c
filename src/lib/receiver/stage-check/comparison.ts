import { solveLinear } from './network.ts';

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
	sizes?: { from: number; to: number; /** Worth a look in any case: what was measured. */ also?: number };
	/** The circuit with the fault in it. */
	set: (sound: Figures, size: number) => Figures;
	/** Figures that the fault sets itself: their own spread counts no more. */
	pins: readonly (keyof Figures)[];
	/** Part of its shift that the valve laws may have wrong, where that is more than usual: near the cut-off. */
	lawError?: number;
}

/** Something that was read, and its standard error by the meter alone. */
export interface Observed {
	value: number;
	error: number;
	/** It follows from parts alone: no valve law that could be wrong stands between. */
	exact?: true;
}

/** What is known of a stage, ready to be compared with what its readings show. */
export interface Evidence<Figures> {
	sound: Figures;
	spreads: readonly Spread<Figures>[];
	readings: readonly Observed[];
	/** What the readings of a circuit would be, in the same order. */
	foretell: (figures: Figures) => number[];
	/** The same of a circuit that differs little from the one foretold last. */
	nudged: (figures: Figures) => number[];
}

/** Part of the shift by a fault that the valve laws may have wrong. Our own choice. */
const LAW_ERROR = 0.08;

export interface Fit<Figures> {
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

export class Comparison<Figures extends object> {
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
		return this.#evidence.readings.map(({ error, exact }, i) =>
			exact ? error : Math.hypot(error, lawError * (foretold[i]! - this.#soundReadings[i]!))
		);
	}

	/** One reading alone may tell a size sharply. */
	get sharp(): boolean {
		return this.#evidence.readings.some(({ exact }) => exact);
	}

	/** First look at a size: no spread is reckoned with, the errors are widened instead. */
	rough(hypothesis: Hypothesis<Figures>, size: number): number {
		const { sound, readings, foretell } = this.#evidence;
		const foretold = foretell(hypothesis.set(sound, size));
		return readings.reduce((sum, { value, error, exact }, i) => {
			const wide = exact ? 4 * error : error + 0.12 * Math.abs(foretold[i]!) + 0.02 * Math.abs(value);
			return sum + ((value - foretold[i]!) / wide) ** 2;
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
			({ value }, j) => value - foretold[j]! + slopes.reduce((sum, slope, k) => sum + slope[j]! * from[k]!, 0)
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
