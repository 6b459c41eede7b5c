/** Draws from each of its nodes the current that it writes into `drawn`, A, for the volts of those nodes. */
export type Law = (volts: Float64Array, drawn: Float64Array) => void;

interface Device {
	nodes: readonly number[];
	law: Law;
	volts: Float64Array;
	drawn: Float64Array;
	moved: Float64Array;
}

/** Insulation of a tag strip: no node floats without any path, S. */
const INSULATION = 1e-12;
const ROUNDS = 80;
/** V; far below what any reading tells, and the last step leaves less. */
const CLOSE = 1e-4;
/** V; steps shorter than this need no watching. */
const NEAR = 0.3;
const HALVINGS = 6;
/** The least resistance that is told from a piece of wire, ohm. */
const WIRE = 0.2;
/** Longest step of a node in one round, V. */
const STRIDE = 60;
const NUDGE = 1e-4;

/** A small DC network of resistors, steady sources and valves, solved for the volts of its nodes by Newton's method. */
export class Network {
	readonly #size: number;
	readonly #linear: Float64Array;
	readonly #sources: Float64Array;
	readonly #devices: Device[] = [];
	readonly #slope: Float64Array;
	readonly #current: Float64Array;

	constructor(size: number) {
		this.#size = size;
		this.#linear = new Float64Array(size * size);
		this.#sources = new Float64Array(size);
		this.#slope = new Float64Array(size * size);
		this.#current = new Float64Array(size);
		for (let i = 0; i < size; i++) this.#add(i, i, INSULATION);
	}

	#add(row: number, column: number, amount: number): void {
		const at = row * this.#size + column;
		this.#linear[at] = this.#linear[at]! + amount;
	}

	/** A resistor between two nodes. */
	between(one: number, other: number, ohms: number): void {
		const conductance = 1 / Math.max(ohms, WIRE);
		this.#add(one, one, conductance);
		this.#add(other, other, conductance);
		this.#add(one, other, -conductance);
		this.#add(other, one, -conductance);
	}

	/** A resistor from a node to a point that stands at fixed volts, chassis where not said. */
	toFixed(node: number, ohms: number, volts = 0): void {
		const conductance = 1 / Math.max(ohms, WIRE);
		this.#add(node, node, conductance);
		this.inject(node, volts * conductance);
	}

	/** A steady current into a node, A. */
	inject(node: number, amps: number): void {
		this.#sources[node] = this.#sources[node]! + amps;
	}

	device(nodes: readonly number[], law: Law): void {
		const room = () => new Float64Array(nodes.length);
		this.#devices.push({ nodes, law, volts: room(), drawn: room(), moved: room() });
	}

	/** Currents that leave each node, nought at the solution, and how they rise with each volt. */
	#load(volts: Float64Array): void {
		const size = this.#size;
		this.#slope.set(this.#linear);
		for (let i = 0; i < size; i++) {
			let sum = -this.#sources[i]!;
			for (let j = 0; j < size; j++) sum += this.#linear[i * size + j]! * volts[j]!;
			this.#current[i] = sum;
		}
		for (const device of this.#devices) this.#loadDevice(device, volts);
	}

	#loadDevice({ nodes, law, volts: own, drawn, moved }: Device, volts: Float64Array): void {
		const count = nodes.length;
		for (let i = 0; i < count; i++) own[i] = volts[nodes[i]!]!;
		law(own, drawn);
		for (let i = 0; i < count; i++) this.#current[nodes[i]!]! += drawn[i]!;
		for (let j = 0; j < count; j++) {
			own[j]! += NUDGE;
			law(own, moved);
			own[j] = volts[nodes[j]!]!;
			for (let i = 0; i < count; i++)
				this.#slope[nodes[i]! * this.#size + nodes[j]!]! += (moved[i]! - drawn[i]!) / NUDGE;
		}
	}

	/** Volts of the nodes; starts from `start`, which is not changed. */
	solve(start: ArrayLike<number>): Float64Array {
		let volts: Float64Array = Float64Array.from(start);
		this.#load(volts);
		for (let round = 0; round < ROUNDS; round++) {
			const slope = this.#slope.slice();
			const step = solveLinear(slope, this.#current);
			const longest = largest(step);
			if (longest < CLOSE) break;
			volts = this.#stepped(volts, slope, step, longest);
		}
		return volts;
	}

	/** One step of Newton from volts that solve a network which differs little: near enough for a slope. */
	nudge(from: Float64Array): Float64Array {
		this.#load(from);
		const step = solveLinear(this.#slope, this.#current);
		return from.map((one, i) => one - step[i]!);
	}

	/**
	 * One step, halved as long as the next one would be longer still. Judged in volts: microamperes at a grid count as much as
	 * milliamperes at a cathode.
	 */
	#stepped(from: Float64Array, slope: Float64Array, step: Float64Array, longest: number): Float64Array {
		let share = Math.min(1, STRIDE / longest);
		for (let tries = 0; ; tries++) {
			const next = from.map((one, i) => one - share * step[i]!);
			this.#load(next);
			if (longest < NEAR || tries === HALVINGS) return next;
			const left = largest(solveLinear(slope, this.#current));
			if (left <= longest) return next;
			share /= 2;
		}
	}

	/** Resistance seen into each node at volts that `solve` gave, ohm. */
	resistances(volts: Float64Array): Float64Array {
		this.#load(volts);
		const unit = new Float64Array(this.#size);
		return unit.map((_, node) => {
			unit.fill(0);
			unit[node] = 1;
			return solveLinear(this.#slope, unit)[node]!;
		});
	}
}

function largest(list: Float64Array): number {
	let most = 0;
	for (const one of list) most = Math.max(most, Math.abs(one));
	return most;
}

/** Solves a small linear system (rows one after the other) by elimination with row exchange. */
export function solveLinear(matrix: Float64Array, right: Float64Array): Float64Array {
	const size = right.length;
	const rows = matrix.slice();
	const answer = right.slice();
	for (let column = 0; column < size; column++) {
		pivot(rows, answer, column);
		for (let row = column + 1; row < size; row++) {
			const factor = rows[row * size + column]! / rows[column * size + column]!;
			if (factor === 0) continue;
			for (let k = column; k < size; k++)
				rows[row * size + k] = rows[row * size + k]! - factor * rows[column * size + k]!;
			answer[row] = answer[row]! - factor * answer[column]!;
		}
	}
	for (let row = size - 1; row >= 0; row--) {
		let sum = answer[row]!;
		for (let k = row + 1; k < size; k++) sum -= rows[row * size + k]! * answer[k]!;
		answer[row] = sum / rows[row * size + row]!;
	}
	return answer;
}

/** Brings the largest entry of a column up to the diagonal. */
function pivot(rows: Float64Array, answer: Float64Array, column: number): void {
	const size = answer.length;
	let best = column;
	for (let row = column + 1; row < size; row++)
		if (Math.abs(rows[row * size + column]!) > Math.abs(rows[best * size + column]!)) best = row;
	if (best === column) return;
	for (let k = 0; k < size; k++) {
		const held = rows[column * size + k]!;
		rows[column * size + k] = rows[best * size + k]!;
		rows[best * size + k] = held;
	}
	const held = answer[column]!;
	answer[column] = answer[best]!;
	answer[best] = held;
}
