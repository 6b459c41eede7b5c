import type { ReadingId, RectifierPoint } from './types.ts';

/** A full-wave supply as it may really be. Ohm, F, A, V RMS. */
export interface Supply {
	/** Volts of the winding that both halves share, and of the second half against the first. */
	winding: number;
	second: number;
	windingOhms: number;
	/** Of each half of the rectifier. */
	firstOhms: number;
	secondOhms: number;
	reservoir: number;
	smoothing: number;
	/** A at the volts of a sound set: behind the smoothing, and straight from the reservoir. */
	load: number;
	direct: number;
	/** S, from reservoir and from the smoothed line to chassis. */
	reservoirLeak: number;
	smoothedLeak: number;
	meterScale: number;
}

/** Volts that the loads are reckoned from. */
export interface UsualVolts {
	reservoir: number;
	smoothed: number;
}

const STEPS = 36;
/** Cycles of the mains at most, and the change of the mean volts over one that ends the reckoning sooner. */
const CYCLES = 12;
const SETTLED = 2e-3;
const SINES = Array.from({ length: STEPS }, (_, i) => Math.sin((Math.PI * (i + 0.5)) / STEPS));
/** Ohm. */
const NO_RECTIFIER = 1e7;
/** Currents of a set of valves rise a little faster than their volts. */
const LOAD_POWER = 1.3;

interface Shape {
	dc: number;
	/** V RMS. */
	ripple: number;
	first: number;
	second: number;
}

/** Volts behind the smoothing for volts before it, by Newton's method. */
function smoothedVolts(supply: Supply, usual: UsualVolts, reservoir: number): number {
	if (reservoir <= 0) return 0;
	let volts = Math.min(reservoir, usual.smoothed);
	for (let i = 0; i < 12; i++) {
		const drawn = supply.load * (volts / usual.smoothed) ** LOAD_POWER;
		const excess = drawn + volts * supply.smoothedLeak - (reservoir - volts) / supply.smoothing;
		const slope = (LOAD_POWER * drawn) / volts + supply.smoothedLeak + 1 / supply.smoothing;
		const step = excess / slope;
		volts = Math.max(volts - step, volts / 10);
		if (Math.abs(step) < 1e-4) break;
	}
	return volts;
}

const drawnFrom = (supply: Supply, usual: UsualVolts, reservoir: number): number =>
	(reservoir - smoothedVolts(supply, usual, reservoir)) / supply.smoothing +
	supply.direct * (Math.max(reservoir, 0) / usual.reservoir) ** LOAD_POWER +
	reservoir * supply.reservoirLeak;

/** Sums over the steps of one half cycle. */
interface Half {
	end: number;
	volts: number;
	squares: number;
	/** Of the volts at the rectifier's anode. */
	anode: number;
}

/** One half cycle, from the volts at its start and a steady current drawn. */
function halfCycle(supply: Supply, first: boolean, start: number, current: number, step: number): Half {
	const peak = Math.SQRT2 * supply.winding * (first ? 1 : supply.second);
	const ohms = (first ? supply.firstOhms : supply.secondOhms) + supply.windingOhms;
	const charge = step / (ohms * supply.reservoir);
	const half = { end: start, volts: 0, squares: 0, anode: 0 };
	for (const sine of SINES) {
		const source = peak * sine;
		half.end = Math.max(0, half.end - (current * step) / supply.reservoir);
		// Taken at the end of the step where it conducts, so that a small resistance cannot make it swing.
		if (source > half.end) half.end = (half.end + charge * source) / (1 + charge);
		const atAnode = source - (Math.max(0, source - half.end) / ohms) * supply.windingOhms;
		half.volts += half.end;
		half.squares += half.end * half.end;
		half.anode += atAnode * atAnode;
	}
	return half;
}

/** The reservoir through some cycles of the mains, until each is like the one before. */
function reservoirOf(supply: Supply, mains: number, drawn: (volts: number) => number, start: number): Shape {
	const step = 1 / (2 * mains * STEPS);
	let [volts, mean] = [start, start];
	for (let cycle = 0; ; cycle++) {
		const current = drawn(mean);
		const first = halfCycle(supply, true, volts, current, step);
		const second = halfCycle(supply, false, first.end, current, step);
		volts = second.end;
		const dc = (first.volts + second.volts) / (2 * STEPS);
		const change = Math.abs(dc - mean);
		mean = dc;
		if (cycle < CYCLES && change > SETTLED) continue;
		return {
			dc,
			ripple: Math.sqrt(Math.max(0, (first.squares + second.squares) / (2 * STEPS) - dc * dc)),
			first: Math.sqrt(first.anode / STEPS),
			second: Math.sqrt(second.anode / STEPS)
		};
	}
}

/** Tells what each point of a supply reads; starts from the volts of the supply that was asked about before. */
export function supplyReader(usual: UsualVolts, mains: number) {
	let last = usual.reservoir;
	return (supply: Supply): ((reading: ReadingId) => number) => {
		// With no rectifier the reservoir is empty; it would take its time to run out.
		const start = Math.min(supply.firstOhms, supply.secondOhms) > NO_RECTIFIER ? 0 : last;
		const shape = reservoirOf(supply, mains, (volts) => drawnFrom(supply, usual, volts), start);
		last = Math.max(shape.dc, 1);
		const all: Partial<Record<ReadingId, number>> = {
			'winding-1': shape.first,
			'winding-2': shape.second,
			reservoir: shape.dc,
			smoothed: smoothedVolts(supply, usual, shape.dc),
			ripple: shape.ripple
		};
		return (reading) => (all[reading] ?? NaN) * supply.meterScale;
	};
}

/** The volts of a sound supply whose loads draw what they should. */
export function usualVolts(supply: Supply, mains: number): UsualVolts {
	const current = supply.load + supply.direct;
	const { dc } = reservoirOf(supply, mains, () => current, 1.2 * supply.winding);
	return { reservoir: Math.max(dc, 1), smoothed: Math.max(dc - supply.load * supply.smoothing, 1) };
}

/** Resistance of one half of a rectifier that meets its published point, ohm. */
export function rectifierOhms(point: RectifierPoint, mains: number): number {
	const supply: Supply = {
		winding: point.windingVolts,
		second: 1,
		windingOhms: point.seriesResistance,
		firstOhms: 0,
		secondOhms: 0,
		reservoir: 50e-6,
		smoothing: 1,
		load: 0,
		direct: 0,
		reservoirLeak: 0,
		smoothedLeak: 0,
		meterScale: 1
	};
	let [low, high] = [5, 5e3];
	for (let i = 0; i < 30; i++) {
		const ohms = Math.sqrt(low * high);
		const both = { ...supply, firstOhms: ohms, secondOhms: ohms };
		const { dc } = reservoirOf(both, mains, () => point.current, point.volts);
		if (dc > point.volts) low = ohms;
		else high = ohms;
	}
	return Math.sqrt(low * high);
}
