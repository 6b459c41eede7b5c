/**
 * The oscillator circuit of a superhet that follows the signal circuit on the same gang. Base units; the oscillator runs
 * above the signal by the IF.
 */

/** The circuit that the gang tunes to the signal: its coil, H, and trimmer with all strays, F. */
export interface SignalCircuit {
	coil: number;
	trimmer: number;
}

/** Parts of the oscillator circuit. The trimmer sits across the gang section, or across the coil. */
export interface OscillatorCircuit {
	coil: number;
	padder: number;
	trimmer: number;
	trimmerAcross: 'gang' | 'coil';
}

export type Points = readonly [low: number, middle: number, high: number];

const SQUARE = 4 * Math.PI ** 2;
const series = (one: number, other: number): number => (one * other) / (one + other);

/** What the gang alone has to be for the signal circuit to stand at `frequency`; below nothing where trimmer and strays are more. */
export const gangAt = ({ coil, trimmer }: SignalCircuit, frequency: number): number =>
	1 / (SQUARE * coil * frequency ** 2) - trimmer;

/** Where the signal circuit stands with that much gang. */
export const signalAt = ({ coil, trimmer }: SignalCircuit, gang: number): number =>
	1 / Math.sqrt(SQUARE * coil * (gang + trimmer));

/** Where the oscillator runs with that much gang. */
export function oscillatorAt(
	{ coil, padder, trimmer, trimmerAcross }: OscillatorCircuit,
	gang: number
): number {
	const tuned = trimmerAcross === 'gang' ? series(padder, gang + trimmer) : trimmer + series(padder, gang);
	return 1 / Math.sqrt(SQUARE * coil * tuned);
}

/** Hz by which the oscillator is above where it should be, with the gang set so that the signal circuit stands at `frequency`. */
export function trackingError(
	signal: SignalCircuit,
	oscillator: OscillatorCircuit,
	intermediate: number,
	frequency: number
): number {
	return oscillatorAt(oscillator, gangAt(signal, frequency)) - frequency - intermediate;
}

const real = (circuit: OscillatorCircuit): OscillatorCircuit | undefined =>
	[circuit.coil, circuit.padder, circuit.trimmer].every((part) => Number.isFinite(part) && part > 0)
		? circuit
		: undefined;

/**
 * Parts with which the error is nought at three points, the trimmer across the gang; undefined where no real parts do it.
 * With f_osc^2 = m2 (f^2 + n2) / (f^2 + l2), after Terman.
 */
function acrossGang(
	{ coil, trimmer }: SignalCircuit,
	intermediate: number,
	[f1, f2, f3]: Points
): OscillatorCircuit | undefined {
	const a = f1 + f2 + f3;
	const b = f1 * f2 + f1 * f3 + f2 * f3;
	const c = f1 * f2 * f3;
	const d = a + 2 * intermediate;
	const l2 = (b * d - c) / (2 * intermediate);
	const m2 = l2 + intermediate ** 2 + a * d - b;
	const n2 = (c * d + intermediate ** 2 * l2) / m2;
	const k = 1 / (SQUARE * coil);
	return real({
		coil: (coil * l2 ** 2) / (m2 * (l2 - n2)),
		padder: k * (1 / n2 - 1 / l2),
		trimmer: trimmer + k / l2,
		trimmerAcross: 'gang'
	});
}

/** The same with the trimmer across the coil: from 1/f_osc^2, which is linear in the capacitance of the circuit. */
function acrossCoil(
	signal: SignalCircuit,
	intermediate: number,
	[f1, f2, f3]: Points
): OscillatorCircuit | undefined {
	const at = (frequency: number) => ({
		gang: gangAt(signal, frequency),
		y: 1 / (frequency + intermediate) ** 2
	});
	const [low, middle, high] = [at(f1), at(f2), at(f3)];
	const m =
		(((low.y - middle.y) / (middle.y - high.y)) * (middle.gang - high.gang)) / (low.gang - middle.gang);
	const padder = (high.gang - m * low.gang) / (m - 1);
	const step = series(padder, low.gang) - series(padder, middle.gang);
	const coil = (low.y - middle.y) / (SQUARE * step);
	return real({
		coil,
		padder,
		trimmer: low.y / (SQUARE * coil) - series(padder, low.gang),
		trimmerAcross: 'coil'
	});
}

/** Oscillator parts that are right at three points; undefined where none are. */
export function solveThreePoints(
	signal: SignalCircuit,
	intermediate: number,
	points: Points,
	trimmerAcross: OscillatorCircuit['trimmerAcross']
): OscillatorCircuit | undefined {
	return (trimmerAcross === 'gang' ? acrossGang : acrossCoil)(signal, intermediate, points);
}

export interface TwoPoints {
	/** Of the signal circuit, all capacitance counted, F. */
	least: number;
	signalRatio: number;
	oscillatorRatio: number;
	padder: number;
	coil: number;
}

/** Padder and coil for the ends of a dial alone; `most` is all capacitance of the signal circuit at the low end. */
export function solveTwoPoints(low: number, high: number, intermediate: number, most: number): TwoPoints {
	const signalRatio = (high / low) ** 2;
	const oscillatorRatio = ((high + intermediate) / (low + intermediate)) ** 2;
	const least = most / signalRatio;
	const padder = (most * least * (1 - oscillatorRatio)) / (oscillatorRatio * least - most);
	const coil = 1 / (SQUARE * (low + intermediate) ** 2 * series(padder, most));
	return { least, signalRatio, oscillatorRatio, padder, coil };
}
