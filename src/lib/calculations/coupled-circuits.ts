/**
 * Two tuned circuits coupled to each other, as in an IF can: their response near the middle. Base units. Offsets are taken
 * as small against the middle frequency, x = 2 Q df / f0, so that the curve is as wide above as below.
 */

export interface CoupledCircuits {
	/** Hz. */
	middle: number;
	q1: number;
	q2: number;
	/** Coupling factor k. */
	coupling: number;
	/** How far each circuit is off tune, Hz. */
	off1: number;
	off2: number;
	/** Equal cans one after the other. */
	cans: number;
}

const decibels = (ratio: number): number => 20 * Math.log10(ratio);
/** y squared: (k / k_critical)^2. */
const tightness = ({ q1, q2, coupling }: CoupledCircuits): number => coupling ** 2 * q1 * q2;

export const criticalCoupling = (q1: number, q2: number): number => 1 / Math.sqrt(q1 * q2);

/** Response at `offset` Hz from the middle, in dB against both circuits on tune at the middle. */
export function responseAt(circuits: CoupledCircuits, offset: number): number {
	const { middle, q1, q2, off1, off2, cans } = circuits;
	const x1 = (2 * q1 * (offset - off1)) / middle;
	const x2 = (2 * q2 * (offset - off2)) / middle;
	const whole = 1 + tightness(circuits);
	return cans * decibels(whole / Math.hypot(whole - x1 * x2, x1 + x2));
}

/** Bandwidth, Hz, at `down` dB below the middle, both circuits on tune: the positive root of a quadratic in (2 df / f0)^2. */
export function widthAt(circuits: CoupledCircuits, down: number): number {
	const { middle, q1, q2, cans } = circuits;
	const whole = 1 + tightness(circuits);
	const product = q1 * q2;
	const limit = 10 ** (down / cans / 10);
	const half = ((q1 + q2) ** 2 - 2 * whole * product) / (2 * product ** 2);
	const rest = (whole ** 2 * (limit - 1)) / product ** 2;
	return middle * Math.sqrt(Math.hypot(half, Math.sqrt(rest)) - half);
}

/** Where the two peaks of an over-coupled can stand from the middle, Hz, and how far they rise, dB; undefined for one peak. */
export function peaksOf(circuits: CoupledCircuits): { offset: number; rise: number } | undefined {
	const { middle, q1, q2 } = circuits;
	const product = q1 * q2;
	const square = (2 * (1 + tightness(circuits)) * product - (q1 + q2) ** 2) / (2 * product ** 2);
	if (square <= 0) return undefined;
	const offset = (middle * Math.sqrt(square)) / 2;
	const tuned = { ...circuits, off1: 0, off2: 0 };
	return { offset, rise: responseAt(tuned, offset) };
}

/** Gain from grid to the next grid is g_m times Z times this, Z the geometric mean of both circuits. */
export function transfer(circuits: CoupledCircuits): number {
	const square = tightness(circuits);
	return Math.sqrt(square) / (1 + square);
}
