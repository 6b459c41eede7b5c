/** Collects how far two ways of reckoning lie apart, for a test and for a line that is printed. */
export class Agreement {
	readonly #what: string;
	readonly #apart: number[] = [];

	constructor(what: string) {
		this.#what = what;
	}

	/** The difference as a share of the value of the simulator. `least` is the value below which it is a share of that. */
	add(ours: number, theirs: number, least = 0): number {
		const apart = Math.abs(ours - theirs) / Math.max(Math.abs(theirs), least);
		this.#apart.push(apart);
		return apart;
	}

	/** How many figures were compared. */
	get figures(): number {
		return this.#apart.length;
	}

	get largest(): number {
		return Math.max(...this.#apart);
	}

	/** `grid leakage: 40 figures, largest difference 0.0002 %, half of them within 0.00001 %`. */
	print(): void {
		const sorted = [...this.#apart].sort((a, b) => a - b);
		const pct = (share: number): string => `${Number((100 * share).toPrecision(2))} %`;
		const median = sorted[Math.floor(sorted.length / 2)] ?? NaN;
		console.log(
			`SPICE agrees on ${this.#what}: ${sorted.length} figures, largest difference ${pct(this.largest)}, half of them within ${pct(median)}`
		);
	}
}
