import { LEAST_BITS, rateOf, type Check } from './advise.ts';
import { checkMinutes, type Changeover, type Standpoint } from './cost.ts';
import { bitsOf, packWeights, weightsAfter } from './packed.ts';
import { repairCost, type Repairs } from './repair-minutes.ts';

/** What foresight is about: the bench, and what may be done on it. */
export interface ForesightQuestion<State extends string> extends Changeover<State> {
	standings: readonly number[];
	checks: readonly Check<State>[];
	now: Standpoint<State>;
	/** State in which parts are changed. */
	bench: State;
	/** Places of the checks that may follow another one. */
	following: readonly number[];
	repairs: Repairs;
}

/** After an outcome with less chance than this nothing further is foreseen but repairing. Our own choice. */
export const RARE = 0.01;

/** With fewer checks left than this beyond the last step, none may part the suspects that are left. Our own choice. */
const MANY_LEFT = 6;

/** How far to look. */
export interface Reach {
	/** How many checks are tried at each further step, the ones with the most bits per minute; none: repairing follows. */
	widths: readonly number[];
	/**
	 * What lies beyond the last step, as minutes for each bit that is still open then; the quicker of that and repairing
	 * counts. Left out, only repairing does, and the minutes are never too few.
	 */
	minutesPerBit?: number;
}

const REPAIRING: Reach = { widths: [] };

/** Entropy in bits, times the sum of the weights. */
function openBits(weights: Float64Array, total: number): number {
	let bits = 0;
	for (let suspect = 0; suspect < weights.length; suspect++) {
		const weight = weights[suspect]!;
		if (weight > 0) bits -= weight * Math.log2(weight / total);
	}
	return bits;
}

/**
 * Expected minutes from a given moment of a job on. Weights here are unscaled: a branch carries the chance that it
 * comes to pass in its weights, and minutes come back multiplied by it.
 */
export class Foresight<State extends string> {
	readonly #question: ForesightQuestion<State>;
	readonly #start: Float64Array;
	readonly #costOfRepairs: (weights: Float64Array) => number;
	/** Minutes of its own repair for each suspect: the least that any way of finding out leaves to be done. */
	readonly #ownMinutes: Float64Array;
	/** Minutes of each check from where each other one leaves the set; worked out when first asked for. */
	readonly #minutesBetween = new Map<number, Float64Array>();
	/** Weights after an outcome, one list for each step ahead. */
	readonly #after: Float64Array[] = [];
	readonly #made: boolean[];

	constructor(question: ForesightQuestion<State>) {
		this.#question = question;
		this.#start = packWeights(question.standings);
		this.#costOfRepairs = repairCost(question.repairs);
		const { repairOf, minutes } = question.repairs;
		this.#ownMinutes = Float64Array.from(repairOf, (repair) => minutes[repair] ?? 0);
		this.#made = question.checks.map(() => false);
	}

	/** Minutes of repairing now. */
	repairNow(): number {
		const total = this.#start.some((weight) => weight > 0) ? 1 : 0;
		return this.#repairFrom(this.#start, total, this.#question.now.power);
	}

	/** Minutes after a check, its own not counted: its outcomes, then the best of repairing and further checks. */
	after(check: number, reach: Reach): number {
		return this.#afterCheck(this.#start, 1, check, reach, 0);
	}

	#repairFrom(weights: Float64Array, total: number, power: State): number {
		const { switching, bench } = this.#question;
		return total * switching[power][bench] + this.#costOfRepairs(weights);
	}

	#afterCheck(from: Float64Array, whole: number, check: number, reach: Reach, step: number): number {
		const { table } = this.#question.checks[check]!;
		const after = (this.#after[step] ??= new Float64Array(from.length));
		this.#made[check] = true;
		let minutes = 0;
		for (let outcome = 0; outcome < table.outcomes; outcome++) {
			const total = weightsAfter(from, table, outcome, after);
			const further = total < RARE * whole ? REPAIRING : reach;
			if (total > 0) minutes += this.#best(after, total, check, further, step + 1);
		}
		this.#made[check] = false;
		return minutes;
	}

	/** Minutes of repairing, or of one check more where that is quicker. */
	#best(weights: Float64Array, total: number, last: number, reach: Reach, step: number): number {
		const { switching, bench, checks, following } = this.#question;
		const { power } = checks[last]!;
		let best = this.#repairFrom(weights, total, power);
		const known = this.#minutesIfKnown(weights);
		const width = reach.widths[step - 1];
		if (width === undefined) {
			if (reach.minutesPerBit === undefined || following.length - step < MANY_LEFT) return best;
			const finding = openBits(weights, total) * reach.minutesPerBit;
			return Math.min(best, total * switching[power][bench] + known + finding);
		}
		const minutesTo = this.#minutesFrom(last);
		for (const check of this.#worthwhile(weights, total, minutesTo, (best - known) / total, width)) {
			const own = total * minutesTo[check]!;
			if (own + known >= best) continue;
			best = Math.min(best, own + this.#afterCheck(weights, total, check, reach, step));
		}
		return best;
	}

	/** The least that could be left to do: every suspect's own repair, had the fault been told by nothing at all. */
	#minutesIfKnown(weights: Float64Array): number {
		let minutes = 0;
		for (let suspect = 0; suspect < weights.length; suspect++)
			minutes += weights[suspect]! * this.#ownMinutes[suspect]!;
		return minutes;
	}

	#minutesFrom(last: number): Float64Array {
		const { checks } = this.#question;
		const known =
			this.#minutesBetween.get(last) ??
			Float64Array.from(checks, (check) => checkMinutes(check, checks[last]!, this.#question));
		this.#minutesBetween.set(last, known);
		return known;
	}

	/** The checks with the most bits per minute that are not made yet and could save their own minutes. */
	#worthwhile(
		weights: Float64Array,
		total: number,
		minutesTo: Float64Array,
		mostMinutes: number,
		width: number
	): number[] {
		const { checks, following } = this.#question;
		const rated: { check: number; rate: number }[] = [];
		for (const check of following) {
			if (this.#made[check] || minutesTo[check]! >= mostMinutes) continue;
			const bits = bitsOf(weights, total, checks[check]!.table) / total;
			if (bits >= LEAST_BITS) rated.push({ check, rate: rateOf(bits, minutesTo[check]!) });
		}
		if (rated.length > width) rated.sort((one, other) => other.rate - one.rate || one.check - other.check);
		return rated.slice(0, width).map(({ check }) => check);
	}
}
