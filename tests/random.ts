/** Repeatable random choices for tests: the same seed gives the same circuits on every machine. */
export class Dice {
	#state: number;

	/** `seed` is a whole number above zero. */
	constructor(seed: number) {
		this.#state = seed;
	}

	/** Between 0 and 1 (Lehmer's generator, modulus 2^31 - 1). */
	share(): number {
		this.#state = (this.#state * 48271) % 2147483647;
		return this.#state / 2147483647;
	}

	/** Between two values, in equal steps. */
	between(from: number, to: number): number {
		return from + this.share() * (to - from);
	}

	/** Between two values above zero, in equal ratios: as often 1k to 10k as 10k to 100k. */
	ratio(from: number, to: number): number {
		return from * (to / from) ** this.share();
	}

	/** A whole number, both ends included. */
	whole(from: number, to: number): number {
		return from + Math.floor(this.share() * (to - from + 1));
	}

	/** One of several. */
	one<Choice>(choices: readonly Choice[]): Choice {
		return choices[this.whole(0, choices.length - 1)] as Choice;
	}
}
